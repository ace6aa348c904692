//! Texts that go out: by address where they are built in, into the caller's buffer where they are made.

use core::ffi::c_char;
use core::fmt;

use crate::border::{In, Out};
use crate::error::shophead_error as E;

/// A text by address and length. It does not end in a zero byte; print it with `"%.*s", (int)text.length, text.start`.
///
/// Owner: the library where a function hands it out, unless that function says otherwise; it then lasts as long as the library is
/// loaded. The caller where it is handed in; it must last as the member it stands in says.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_text {
    /// Its first byte, in UTF-8; may be NULL where the length is 0.
    pub start: In<c_char>,
    /// How many bytes.
    pub length: usize,
}

impl shophead_text {
    pub(crate) const fn of(text: &str) -> shophead_text {
        shophead_text { start: In::<c_char>::of(text), length: text.len() }
    }

    pub(crate) fn read(&self) -> Result<&str, E> {
        self.start.text(self.length)
    }
}

/// A buffer of this size holds every text that a function of this library makes, its zero byte included.
pub const SHOPHEAD_TEXT_MAX: usize = 512;

/// Writes what a value prints into the caller's buffer with a zero byte after it, or nothing where it does not go in.
pub(crate) fn print(
    text: &dyn fmt::Display,
    buffer: Out<c_char>,
    capacity: usize,
    length: Out<usize>,
) -> Result<(), E> {
    let mut places = buffer.places(capacity)?;
    let length = length.place()?;
    // Twice: the first time only to see how long it is.
    let mut needed = Counted { count: 0, put: |_, _| {} };
    write(&mut needed, text)?;
    let bytes = needed.count;
    places.need(bytes.saturating_add(1))?;
    let mut written = Counted { count: 0, put: |index, byte: u8| places.put(index, byte as c_char) };
    write(&mut written, text)?;
    places.put(bytes, 0);
    length.put(bytes);
    Ok(())
}

fn write(to: &mut dyn fmt::Write, text: &dyn fmt::Display) -> Result<(), E> {
    to.write_fmt(format_args!("{text}")).map_err(|_| E::SHOPHEAD_ERROR_OTHER)
}

struct Counted<F> {
    count: usize,
    put: F,
}

impl<F: FnMut(usize, u8)> fmt::Write for Counted<F> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        for byte in text.bytes() {
            (self.put)(self.count, byte);
            self.count = self.count.saturating_add(1);
        }
        Ok(())
    }
}

/// A text in a member of fixed size, cut off where it does not go in, zero bytes after it.
pub(crate) fn fixed<const N: usize>(text: &dyn fmt::Display) -> [c_char; N] {
    let mut chars = [0; N];
    let mut places = chars.iter_mut().take(N.saturating_sub(1));
    let put = |_, byte: u8| {
        if let Some(place) = places.next() {
            *place = byte as c_char;
        }
    };
    // Cannot fail: what prints here does not, and the place takes everything.
    let _ = write(&mut Counted { count: 0, put }, text);
    chars
}
