//! Numbers that the emulator hands to an image, after its name.

use semihosting::experimental::env;

/// The number at this place, counted from 1; `default` where there is none.
#[must_use]
pub fn number(place: usize, default: u32) -> u32 {
    const LONGEST: usize = 128;
    let Ok(arguments) = env::args::<LONGEST>() else { return default };
    let text = (&arguments).into_iter().nth(place).and_then(Result::ok);
    text.and_then(|text| text.parse().ok()).unwrap_or(default)
}
