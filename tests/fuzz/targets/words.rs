#![no_main]
//! The other texts of a command line; what a part and its layers say is asked about. Core alone, as in `figures`.

#[path = "../src/printed.rs"]
mod printed;
#[path = "../src/said.rs"]
mod said;

use printed::{from_str, printed_and_read};
use said::said;
use shophead::access::Minutes;
use shophead::installation::Installation;
use shophead::material::Material;
use shophead::practice::{HANDBOOK, Name, PROCESS, Value};
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Stack};

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let (one, other) = text.split_once('|').unwrap_or((text, ""));
    printed_and_read(one, from_str::<Material>);
    let _ = Minutes::parse(one);
    let _ = Layer::parse(one);
    if let Some((name, value)) = other.split_once('=') {
        for name in Name::ALL.iter().filter(|known| known.as_str() == name) {
            // A length is printed to so many places; printed again it is the same.
            let printed = Value::parse(*name, value).map(|value| value.to_string());
            if let Ok(printed) = printed {
                assert_eq!(Value::parse(*name, &printed).map(|value| value.to_string()).as_ref(), Ok(&printed), "{value:?}");
            }
        }
    }
    let Some(part) = printed_and_read(one, |text| Part::parse(text).ok()) else { return };
    let Ok(stack) = Stack::parse(other) else { return };
    for practice in [&HANDBOOK, &PROCESS] {
        let asked = Installation::new(part, &stack).by(practice);
        if let Ok(answer) = asked.length() {
            answer.findings.iter().for_each(|finding| said(finding, char::is_control));
        }
        if let Ok(answer) = asked.strength() {
            answer.findings.iter().for_each(|finding| said(finding, char::is_control));
        }
    }
});
