//! What is printed reads back as the same.

use std::fmt::{Debug, Display};
use std::str::FromStr;

pub fn printed_and_read<T: Display + Debug + PartialEq>(text: &str, parse: impl Fn(&str) -> Option<T>) -> Option<T> {
    let read = parse(text)?;
    let again = parse(&read.to_string());
    assert_eq!(again.as_ref(), Some(&read), "{text:?} is printed as {read}");
    Some(read)
}

pub fn from_str<T: FromStr>(text: &str) -> Option<T> {
    text.parse().ok()
}
