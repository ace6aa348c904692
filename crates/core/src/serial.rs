//! Values as serde writes and reads them.
//!
//! A [`Length`](crate::length::Length) is its whole number of nanometres, the figure that it holds and that the C interface takes: what is
//! read is what was written, in every format, and one number is all that it takes on a small line. Inches with a decimal point would be
//! rounded, and with their unit beside them they are for people: that form is the command's JSON, not this one. Forces, stresses and masses
//! are the number that they hold: pounds, pounds on a square inch, pounds. A word of a list is its word for scripts. What is read is checked as the
//! constructors check it.
//!
//! Answers and findings are only written. A part, a drill and a material are written as the trade writes them; a basis is its number, which
//! [`Basis::from_number`](crate::basis::Basis) of the same version finds again, and how well it is supported.

use core::fmt;
use core::marker::PhantomData;
use core::str::FromStr;

use serde::de::{Error, Visitor};
use serde::ser::SerializeStruct;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::basis::Basis;
use crate::drill::Drill;
use crate::fact::Facts;
use crate::finding::{Finding, Findings};
use crate::length::{self, Length, LimitsError};
use crate::material::Material;
use crate::practice::Key;
use crate::rivet::part::Part;
use crate::words::Word;

impl Serialize for Length {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_i64(self.nanometres())
    }
}

impl<'de> Deserialize<'de> for Length {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Length, D::Error> {
        let nanometres = i64::deserialize(deserializer)?;
        Length::from_nanometres(nanometres).ok_or_else(|| D::Error::custom("a length out of range"))
    }
}

/// What is written as it is printed.
macro_rules! printed {
    ($($name:ty),+) => { $(
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }
    )+ };
}

printed!(Part<'_>, Drill, Material, Facts, Key);

impl Serialize for Basis {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut basis = serializer.serialize_struct("Basis", 2)?;
        basis.serialize_field("number", &self.number())?;
        basis.serialize_field("status", &self.status())?;
        basis.end()
    }
}

impl Serialize for Finding {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut finding = serializer.serialize_struct("Finding", 6)?;
        finding.serialize_field("code", &self.code())?;
        finding.serialize_field("severity", &self.severity())?;
        finding.serialize_field("measured", &self.measured())?;
        finding.serialize_field("limit", &self.limit())?;
        finding.serialize_field("layer", &self.layer())?;
        finding.serialize_field("basis", &self.basis())?;
        finding.end()
    }
}

impl<const N: usize> Serialize for Findings<N> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.iter())
    }
}

/// An interval as it was written.
#[derive(Deserialize)]
#[serde(rename = "Interval")]
pub(crate) struct Interval {
    min: Length,
    max: Length,
}

impl TryFrom<Interval> for length::Interval {
    type Error = LimitsError;

    fn try_from(read: Interval) -> Result<length::Interval, LimitsError> {
        length::Interval::new(read.min, read.max)
    }
}

/// A length with its tolerance as it was written.
#[derive(Deserialize)]
#[serde(rename = "Toleranced")]
pub(crate) struct Toleranced {
    nominal: Length,
    below: Length,
    above: Length,
}

impl TryFrom<Toleranced> for length::Toleranced {
    type Error = LimitsError;

    fn try_from(read: Toleranced) -> Result<length::Toleranced, LimitsError> {
        length::Toleranced::new(read.nominal, read.below, read.above)
    }
}

/// A word of a list.
pub(crate) fn word<'de, W, D>(deserializer: D) -> Result<W, D::Error>
where
    W: Word + FromStr<Err: fmt::Display>,
    D: Deserializer<'de>,
{
    struct Words<W>(PhantomData<W>);

    impl<W: Word + FromStr<Err: fmt::Display>> Visitor<'_> for Words<W> {
        type Value = W;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("a word")
        }

        fn visit_str<E: Error>(self, word: &str) -> Result<W, E> {
            word.parse().map_err(E::custom)
        }
    }

    deserializer.deserialize_str(Words(PhantomData))
}

#[cfg(test)]
mod tests {
    extern crate std;
    use std::format;
    use std::string::ToString;

    use super::*;
    use crate::finding::Severity;
    use crate::hole::{AsFound, Damage};
    use crate::installation::Installation;
    use crate::quantity::{Force, Stress};
    use crate::stack::Stack;
    use crate::structure::Member;

    #[track_caller]
    fn there_and_back<T>(value: T, written: &str)
    where
        T: Serialize + for<'de> Deserialize<'de> + PartialEq + fmt::Debug,
    {
        assert_eq!(serde_json::to_string(&value).unwrap(), written);
        assert_eq!(serde_json::from_str::<T>(written).unwrap(), value);
    }

    #[track_caller]
    fn refused<T: for<'de> Deserialize<'de> + fmt::Debug>(written: &str, why: &str) {
        let error = serde_json::from_str::<T>(written).unwrap_err().to_string();
        assert!(error.contains(why), "{error}");
    }

    #[test]
    fn what_is_read_is_what_was_written() {
        for length in [Length::ZERO, Length::INCH, Length::MIN, Length::MAX, Length::parse("1/64").unwrap()] {
            there_and_back(length, &length.nanometres().to_string());
        }
        there_and_back(length::Interval::of(Length::ZERO, Length::INCH), r#"{"min":0,"max":25400000}"#);
        let shank = length::Toleranced::parse(".125+.003-.001").unwrap();
        there_and_back(shank, r#"{"nominal":3175000,"below":25400,"above":76200}"#);
        there_and_back(Force::from_lbf(200.5), "200.5");
        there_and_back(Stress::from_psi(30_000.0), "30000.0");
        for severity in Severity::ALL {
            there_and_back(*severity, &format!("{:?}", severity.as_str()));
        }
        there_and_back(Member::SparCap, "\"spar-cap\"");
        there_and_back(Damage::None, "\"sound\"");
    }

    #[test]
    fn an_answer_is_written_with_all_its_findings() {
        let layers = Stack::parse("2024-T3:.063:countersunk, 2024-T3:.125").unwrap();
        let question =
            Installation::new(Part::parse("MS20426AD5").unwrap(), &layers).edge(Length::parse("5/16").unwrap());
        let answer = serde_json::to_value(question.length().unwrap()).unwrap();
        assert_eq!((&answer["part"], &answer["length"]), (&"MS20426AD5-7".into(), &11_112_500.into()));
        let said = answer["findings"].as_array().unwrap();
        let deep = said.iter().find(|finding| finding["code"] == "countersink-too-deep").unwrap();
        assert_eq!((&deep["severity"], &deep["layer"]), (&"caution".into(), &1.into()));
        assert_eq!(deep["measured"]["length"], Length::parse(".063").unwrap().nanometres());
        assert_eq!(deep["basis"]["status"], "practice");
        assert!(answer.get("gauge").is_none(), "what is inside stays inside");
        let joint = serde_json::to_value(question.strength().unwrap()).unwrap();
        assert_eq!(joint["sheets"].as_array().map(std::vec::Vec::len), Some(2));
        let found = AsFound::new(Length::parse(".163").unwrap(), Length::parse(".163").unwrap(), Damage::None).unwrap();
        assert_eq!(serde_json::to_value(question.hole(found)).unwrap()["disposition"], "keep");
    }

    #[test]
    fn what_no_constructor_makes_is_refused() {
        refused::<Length>(&i64::MAX.to_string(), "a length out of range");
        refused::<length::Interval>(r#"{"min":1,"max":0}"#, &LimitsError::Swapped.to_string());
        refused::<length::Toleranced>(
            r#"{"nominal":9,"below":-1,"above":0}"#,
            &LimitsError::NegativeTolerance.to_string(),
        );
        refused::<Severity>("\"grave\"", "note");
    }
}
