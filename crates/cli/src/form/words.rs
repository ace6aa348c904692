//! Lists of words, each from the enumeration that it says.

use serde::{Serialize, Serializer};
#[cfg(test)]
use shophead::practice::BUILT_IN;
use shophead::{answer, basis, damage, finding, hole, joint, material, repair, rivet, stack, structure, upset};
use shophead_job::{inspect, plan};

use crate::commands::splice;

/// `open`: later words may come, a script has to expect them. `closed`: these are all.
macro_rules! words {
    ($( #[doc = $doc:literal] $room:ident $name:ident: $of:ty, $word:expr, $all:expr; )+) => {$(
        #[doc = $doc]
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub(crate) struct $name(&'static str);

        impl From<$of> for $name {
            fn from(value: $of) -> $name {
                $name(($word)(value))
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.0)
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.0)
            }
        }

        #[cfg(test)]
        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                let words: Vec<&str> = $all.into_iter().map(|value: $of| ($word)(value)).collect();
                super::schema::$room($doc, &words)
            }
        }
    )+};
}

words! {
    /// published: read in the document. practice: a rule of thumb. memory: recalled, check it before relying on it. shop: as the shop gives it.
    closed Status: basis::Status, basis::Status::as_str, basis::Status::ALL.iter().copied();
    /// refer: stop and ask first.
    closed Severity: finding::Severity, finding::Severity::as_str, finding::Severity::ALL.iter().copied();
    /// What kind of finding it is: a stable word. New kinds are added.
    open Code: finding::Code, finding::Code::as_str, finding::Code::ALL.iter().copied();
    /// What is to be done.
    open Ruling: answer::Ruling, answer::Ruling::as_str, answer::Ruling::ALL.iter().copied();
    /// Which load it is.
    closed LoadKind: joint::margin::LoadKind, joint::margin::LoadKind::as_str, joint::margin::LoadKind::ALL.iter().copied();
    /// The manufactured head.
    open Head: rivet::Head, rivet::Head::as_str, rivet::Head::ALL.iter().copied();
    /// The state of the whole job.
    open State: inspect::State, inspect::State::as_str,
        [inspect::State::Accepted, inspect::State::AcceptedSoFar, inspect::State::Rejected, inspect::State::NotLookedAt];
    /// What to do about a rejected rivet.
    open Remedy: upset::Remedy, upset::Remedy::as_str, upset::Remedy::ALL.iter().copied();
    /// What is wrong with a hole besides its size.
    open HoleDamage: hole::Damage, hole::Damage::as_str, hole::Damage::ALL.iter().copied();
    /// What becomes of a hole.
    open Disposition: hole::Disposition, hole::Disposition::as_str, hole::Disposition::ALL.iter().copied();
    /// Which way the longest axis of a hole lies to the nearest edge.
    open Direction: hole::Direction, hole::Direction::as_str, hole::Direction::ALL.iter().copied();
    /// What kind of damage it is.
    open DamageKind: damage::DamageKind, damage::DamageKind::as_str, damage::DamageKind::ALL.iter().copied();
    /// What a layer is.
    open Role: stack::Role, stack::Role::as_str, stack::Role::ALL.iter().copied();
    /// What a row runs along.
    open Member: structure::Member, structure::Member::as_str, structure::Member::ALL.iter().copied();
    /// How much hangs on a row.
    open Structure: structure::Structure, structure::Structure::as_str, structure::Structure::ALL.iter().copied();
    /// A place with rules of its own.
    open Place: structure::Place, structure::Place::as_str, structure::Place::ALL.iter().copied();
    /// How a joint fails.
    open Mode: joint::strength::Mode, joint::strength::Mode::as_str, joint::strength::Mode::ALL.iter().copied();
    /// What a figure for bearing is.
    open BearingKind: joint::strength::BearingKind, joint::strength::BearingKind::as_str,
        joint::strength::BearingKind::ALL.iter().copied();
    /// How a row fails.
    open RowMode: joint::row::RowMode, joint::row::RowMode::as_str,
        joint::strength::Mode::ALL.iter().copied().map(joint::row::RowMode::Rivets).chain([joint::row::RowMode::NetSection]);
    /// A: 99 of 100 pieces reach it. B: 90 of 100. S: the least of the specification.
    closed Guarantee: material::Guarantee, material::Guarantee::as_str, material::Guarantee::ALL.iter().copied();
    /// What gave a count.
    closed CountFrom: splice::CountFrom, splice::CountFrom::as_str, [splice::CountFrom::Table, splice::CountFrom::Strength];
    /// Which count is laid out.
    open CountBy: repair::count::By, repair::count::By::as_str,
        repair::count::By::ALL.iter().copied().filter(|by| *by != repair::count::By::Greater);
    /// The formula for the flexibility of a rivet.
    open Formula: joint::flexibility::Formula, joint::flexibility::Formula::as_str,
        joint::flexibility::Formula::ALL.iter().copied();
    /// Which patch.
    open PatchStyle: repair::patch::Style, repair::patch::Style::as_str, repair::patch::Style::ALL.iter().copied();
    /// How the rows lie.
    open RowPattern: repair::patch::Pattern, repair::patch::Pattern::as_str, repair::patch::Pattern::ALL.iter().copied();
    /// A named cross-section.
    open Shape: repair::splice::Shape, repair::splice::Shape::as_str, repair::splice::Shape::ALL.iter().copied();
    /// What is spliced.
    open Spliced: repair::splice::Spliced, repair::splice::Spliced::as_str, repair::splice::Spliced::ALL.iter().copied();
    /// The number of a table.
    open SpliceTable: joint::splice::SpliceTable, joint::splice::SpliceTable::as_str,
        joint::splice::SpliceTable::ALL.iter().copied();
    /// Whether it is asked, seen to, done or looked at.
    open ToldKind: repair::told::ToldKind, repair::told::ToldKind::as_str, repair::told::ToldKind::ALL.iter().copied();
    /// Whether a patch thins out at its outermost row.
    open Taper: repair::patch::Taper, repair::patch::Taper::as_str,
        [repair::patch::Taper::Plain, repair::patch::Taper::Feathered(shophead::length::Length::ZERO), repair::patch::Taper::Stepped(shophead::length::Length::ZERO)];
    /// Why a step is not the answer.
    open Why: repair::solve::Why, repair::solve::Why::as_str, [
        repair::solve::Why::Margin(0.0),
        repair::solve::Why::Refers(
            repair::site::Site::Pressurised.refusal().expect("nothing is sized there"),
        ),
        repair::solve::Why::Share(0.0),
        repair::solve::Why::AtEnd,
    ];
    /// Why nothing could be compared.
    open NotCompared: plan::NotCompared, plan::NotCompared::as_str,
        [plan::NotCompared::NoEdge, plan::NotCompared::NoPitch, plan::NotCompared::NoJoint];
    /// Whether an answer counts; if not, why.
    open Standing: &plan::Standing, plan::Standing::as_str,
        [&plan::Standing::Counts, &plan::Standing::OtherMeasure(String::new()), &plan::Standing::NotFound, &plan::Standing::Replaced];
    /// The step that was tried.
    open StepKind: hole::Disposition, hole::Disposition::as_str,
        hole::Disposition::ALL.iter().copied().filter(|kind| *kind != hole::Disposition::Refer);
}

/// The documents whose limits hold.
#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct PracticeName<'a>(pub(crate) &'a str);

#[cfg(test)]
impl schemars::JsonSchema for PracticeName<'_> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Practice".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        super::schema::open("The documents whose limits hold.", &BUILT_IN.map(|practice| practice.name()))
    }
}
