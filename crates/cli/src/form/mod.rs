//! The answers for scripts: one plain structure for each, from which the JSON is written.
//!
//! | what | is |
//! |---|---|
//! | a length | `{"in": 0.3125, "mm": 7.9375}` |
//! | a least and a greatest length | `{"min": ..., "max": ...}`, with `nominal` between them where there is one |
//! | a force | `{"lbf": ..., "n": ...}`, with its `basis` where it was computed |
//! | a basis | `{"document": "...", "place": "...", "status": "..."}` |
//! | what is not known | `null` |
//!
//! Here is what several answers have in common; each command has a file of its own. The comments are what the schemas say: after a
//! change `SHOPHEAD_WRITE=1 cargo test -p shophead-cli --bin shophead schema` writes `crates/cli/schema` again. Fields are added within
//! a version, never renamed or removed.

use std::borrow::Cow;

use serde::{Serialize, Serializer};
use shophead::basis::{self, Citation};
use shophead::fact::Fact;
use shophead::joint::{margin, strength};
use shophead::practice::{Given, Practice};
use shophead::{layout, length as measure, quantity, select, upset};
use shophead_job::{model, order as job_order};

pub(crate) mod bases;
pub(crate) mod group;
pub(crate) mod head;
pub(crate) mod hole;
pub(crate) mod inspect;
pub(crate) mod joint;
pub(crate) mod length;
pub(crate) mod order;
pub(crate) mod part;
pub(crate) mod plan;
pub(crate) mod repair;
#[cfg(test)]
pub(crate) mod schema;
pub(crate) mod sources;
pub(crate) mod splice;
mod words;
pub(crate) mod working;

pub(crate) use words::*;

/// The version of the form.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Version;

impl Version {
    pub(crate) const NUMBER: u32 = 1;
}

impl Serialize for Version {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(Version::NUMBER)
    }
}

/// A number that is counted from 1.
#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct Nth(u32);

impl Nth {
    pub(crate) fn of(number: usize) -> Nth {
        Nth(u32::try_from(number).unwrap_or(u32::MAX))
    }
}

impl From<u32> for Nth {
    fn from(number: u32) -> Nth {
        Nth(number)
    }
}

impl From<u8> for Nth {
    fn from(number: u8) -> Nth {
        Nth(number.into())
    }
}

/// `None` for what is no number, which JSON cannot say.
pub(crate) fn finite(figure: f64) -> Option<f64> {
    figure.is_finite().then_some(figure)
}

/// A length in both units.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Length {
    /// In inches.
    pub(crate) r#in: f64,
    /// In millimetres.
    pub(crate) mm: f64,
}

impl From<measure::Length> for Length {
    fn from(length: measure::Length) -> Length {
        Length { r#in: length.to_inches_f64(), mm: length.to_millimetres_f64() }
    }
}

/// A length and where it comes from.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct GivenLength<'a> {
    /// In inches.
    pub(crate) r#in: f64,
    /// In millimetres.
    pub(crate) mm: f64,
    /// Where it comes from.
    pub(crate) basis: Basis<'a>,
}

impl<'a> GivenLength<'a> {
    pub(crate) fn of(given: Given<measure::Length>, practice: &Practice<'a>) -> GivenLength<'a> {
        let Length { r#in, mm } = given.value.into();
        GivenLength { r#in, mm, basis: Basis::of(given.basis, practice) }
    }
}

/// A least and a greatest length.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Interval {
    /// The least.
    pub(crate) min: Length,
    /// The greatest.
    pub(crate) max: Length,
}

impl From<measure::Interval> for Interval {
    fn from(ends: measure::Interval) -> Interval {
        Interval { min: ends.min().into(), max: ends.max().into() }
    }
}

/// A length with its ends.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Toleranced {
    /// The least.
    pub(crate) min: Length,
    /// The nominal one.
    pub(crate) nominal: Length,
    /// The greatest.
    pub(crate) max: Length,
}

impl From<measure::Toleranced> for Toleranced {
    fn from(length: measure::Toleranced) -> Toleranced {
        Toleranced { min: length.min().into(), nominal: length.nominal().into(), max: length.max().into() }
    }
}

impl From<upset::Spread> for Toleranced {
    fn from(spread: upset::Spread) -> Toleranced {
        Toleranced { min: spread.min.into(), nominal: spread.nominal.into(), max: spread.max.into() }
    }
}

/// A least and a greatest length and where they come from.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct BasedInterval<'a> {
    /// The least.
    pub(crate) min: Length,
    /// The greatest.
    pub(crate) max: Length,
    /// Where it comes from; null where it is not known.
    pub(crate) basis: Option<Basis<'a>>,
}

/// A force in both units.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Force {
    /// In pounds.
    pub(crate) lbf: f64,
    /// In newtons.
    pub(crate) n: f64,
}

impl From<quantity::Force> for Force {
    fn from(force: quantity::Force) -> Force {
        Force { lbf: force.lbf(), n: force.newtons() }
    }
}

/// A force that is carried, and where it comes from.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Allowable<'a> {
    /// In pounds.
    pub(crate) lbf: f64,
    /// In newtons.
    pub(crate) n: f64,
    /// Where it comes from.
    pub(crate) basis: Basis<'a>,
}

impl<'a> Allowable<'a> {
    pub(crate) fn of(allowable: strength::Allowable, practice: &Practice<'a>) -> Allowable<'a> {
        let Force { lbf, n } = allowable.force.into();
        Allowable { lbf, n, basis: Basis::of(allowable.basis, practice) }
    }
}

/// A force that is carried on one inch of width, and where it comes from.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RunningLoad<'a> {
    /// In pounds on an inch of width.
    pub(crate) lbf: f64,
    /// In newtons on an inch of width.
    pub(crate) n: f64,
    /// Where it comes from.
    pub(crate) basis: Basis<'a>,
}

impl<'a> RunningLoad<'a> {
    pub(crate) fn of(on_an_inch: strength::Allowable, practice: &Practice<'a>) -> RunningLoad<'a> {
        let Allowable { lbf, n, basis } = Allowable::of(on_an_inch, practice);
        RunningLoad { lbf, n, basis }
    }
}

/// A stress in both units.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Stress {
    /// In pounds on a square inch.
    pub(crate) psi: f64,
    /// In megapascals.
    pub(crate) mpa: f64,
}

impl From<quantity::Stress> for Stress {
    fn from(stress: quantity::Stress) -> Stress {
        Stress { psi: stress.psi(), mpa: stress.megapascals() }
    }
}

/// A mass in both units.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Mass {
    /// In pounds.
    pub(crate) lb: f64,
    /// In grams.
    pub(crate) g: f64,
}

impl From<quantity::Mass> for Mass {
    fn from(mass: quantity::Mass) -> Mass {
        Mass { lb: mass.lb(), g: mass.grams() }
    }
}

/// Where a figure comes from; how it is written is in [`bases`].
#[derive(Clone, Debug)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Basis<'a> {
    /// The document, or common practice.
    pub(crate) document: &'a str,
    /// Paragraph, table or page in it; may be empty.
    pub(crate) place: &'a str,
    /// How well the figure is known.
    pub(crate) status: Status,
}

impl<'a> Basis<'a> {
    pub(crate) fn of(basis: basis::Basis, practice: &Practice<'a>) -> Basis<'a> {
        practice.cite(basis).into()
    }
}

impl<'a> From<Citation<'a>> for Basis<'a> {
    fn from(cited: Citation<'a>) -> Basis<'a> {
        Basis { document: cited.document, place: cited.place, status: cited.status.into() }
    }
}

/// A figure with its unit as its name.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(untagged)]
pub(crate) enum Figure {
    Length(Length),
    Force(Force),
    Stress(Stress),
    /// A ratio.
    Ratio {
        /// A ratio, without unit.
        ratio: Option<f64>,
        /// What can be entered in a limits file in its place; left out where there is no such figure.
        #[serde(skip_serializing_if = "Option::is_none")]
        #[cfg_attr(test, schemars(with = "String"))]
        key: Option<String>,
    },
    /// A number of things.
    Count {
        /// How many.
        count: u32,
    },
    /// Facts that were not given.
    Facts {
        /// Which.
        facts: Vec<&'static str>,
    },
    /// What is not on file.
    Key {
        /// What to enter in a limits file.
        key: String,
    },
}

impl From<shophead::finding::Figure> for Figure {
    fn from(figure: shophead::finding::Figure) -> Figure {
        use shophead::finding::Figure as Found;
        match figure {
            Found::Length(length) => Figure::Length(length.into()),
            Found::Force(force) => Figure::Force(force.into()),
            Found::Stress(stress) => Figure::Stress(stress.into()),
            Found::Ratio(ratio) => Figure::Ratio { ratio: finite(ratio), key: None },
            Found::Count(count) => Figure::Count { count },
            Found::Facts(facts) => Figure::Facts { facts: facts.iter().map(Fact::as_str).collect() },
            Found::Key(key) => Figure::Key { key: key.to_string() },
            // As people read it, until it has a form of its own.
            other => Figure::Key { key: other.shown(shophead::words::Units::Inches).to_string() },
        }
    }
}

impl Figure {
    /// The limit of a finding, with the key of what can be entered in its place.
    pub(crate) fn limit_of(finding: &shophead::finding::Finding) -> Option<Figure> {
        Some(match (finding.limit()?.into(), finding.key()) {
            (Figure::Ratio { ratio, .. }, Some(key)) => Figure::Ratio { ratio, key: Some(key.to_string()) },
            (limit, _) => limit,
        })
    }
}

/// Something that was found.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Finding<'a> {
    /// What kind of finding it is.
    pub(crate) code: Code,
    /// How serious it is.
    pub(crate) severity: Severity,
    /// What it is about: a part number, a row, a hole.
    pub(crate) subject: Cow<'a, str>,
    /// One sentence for people, in the units asked for; may change.
    pub(crate) message: Cow<'a, str>,
    /// The layer that it is about, counted from the manufactured head; null where it is about none.
    pub(crate) layer: Option<Nth>,
    /// What was measured, given or worked out.
    pub(crate) measured: Option<Figure>,
    /// The limit it was checked against.
    pub(crate) limit: Option<Figure>,
    /// Source of the limit.
    pub(crate) basis: Basis<'a>,
    /// The answer, where it was referred and the answer counts; left out otherwise. An answered referral does not change the exit status.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "Answer<'static>"))]
    pub(crate) answer: Option<Answer<'a>>,
}

/// The answer to a referral.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// What is to be done.
    pub(crate) answer: Ruling,
    /// Who answered.
    pub(crate) by: &'a str,
    /// Under which document.
    pub(crate) document: &'a str,
    /// When: year, month, day.
    pub(crate) date: String,
    /// The rivet that it names; null where it names none.
    pub(crate) rivet: Option<String>,
    /// The drill or reamer that it names; null where it names none.
    pub(crate) drill: Option<String>,
    /// What else was said; may be empty.
    pub(crate) note: &'a str,
}

impl<'a> From<&'a model::Answer> for Answer<'a> {
    fn from(answer: &'a model::Answer) -> Answer<'a> {
        Answer {
            answer: answer.ruling.into(),
            by: &answer.by,
            document: &answer.document,
            date: answer.date.to_string(),
            rivet: answer.rivet.map(|part| part.to_string()).or_else(|| answer.blind.clone()),
            drill: answer.drill.map(|drill| drill.to_string()),
            note: &answer.note,
        }
    }
}

/// The driven head that a rivet makes.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct DrivenHead {
    /// Its width at the ends of all tolerances.
    pub(crate) diameter: Toleranced,
    /// The height that it is driven to.
    pub(crate) height: Length,
}

impl From<upset::PredictedHead> for DrivenHead {
    fn from(head: upset::PredictedHead) -> DrivenHead {
        DrivenHead { diameter: head.diameter.into(), height: head.height.into() }
    }
}

/// What to drive a head to: left so high and at least so wide it is accepted, whatever everything is within its tolerance.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Window {
    /// The heights to stop at.
    pub(crate) height: Interval,
    /// How wide.
    pub(crate) diameter: WindowDiameter,
}

impl From<upset::Window> for Window {
    fn from(window: upset::Window) -> Window {
        let diameter =
            WindowDiameter { min: window.diameter_least.into(), max: window.diameter_greatest.map(Length::from) };
        Window { height: window.height.into(), diameter }
    }
}

/// How wide a driven head is left.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct WindowDiameter {
    /// The least.
    pub(crate) min: Length,
    /// The greatest named, null where none is. A wider head is worth a look; that alone does not reject it.
    pub(crate) max: Option<Length>,
}

/// The hole and the shank within which a length is enough; either alone makes it so.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Within {
    /// The largest hole, with any shank; null where none is small enough.
    pub(crate) hole_max: Option<Length>,
    /// The thinnest shank, in the largest hole; null where none is thick enough.
    pub(crate) shank_min: Option<Length>,
}

impl From<upset::Within> for Within {
    fn from(within: upset::Within) -> Within {
        Within { hole_max: within.hole_greatest.map(Length::from), shank_min: within.shank_least.map(Length::from) }
    }
}

/// What to drive the chosen rivet to, and what else is within limits.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Lengths {
    /// What to drive the head to; null where there is no one length, or no height is right for every rivet.
    pub(crate) window: Option<Window>,
    /// Every other length within limits, the shortest first.
    pub(crate) serves: Vec<Serving>,
    /// What goes into which hole, the smallest first; empty where one length suits every hole.
    pub(crate) by_hole: Vec<ByHole>,
    /// Where no one length suits every hole, the one that comes closest; otherwise null.
    pub(crate) within: Option<Nearest>,
}

impl Lengths {
    pub(crate) fn of(found: Option<&select::LengthAnswer<'_>>) -> Lengths {
        let all = found.into_iter();
        Lengths {
            window: found.and_then(|found| found.window).map(Window::from),
            serves: all.clone().flat_map(select::LengthAnswer::serves).map(Serving::from).collect(),
            by_hole: all.flat_map(select::LengthAnswer::by_hole).map(ByHole::from).collect(),
            within: found.and_then(select::LengthAnswer::nearest).map(Nearest::from),
        }
    }
}

/// Another length within limits.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Serving {
    /// Its part number.
    pub(crate) part: String,
    /// The length.
    pub(crate) length: Length,
    /// What to drive its head to.
    pub(crate) window: Option<Window>,
    /// The driven head that comes out.
    pub(crate) head: Option<DrivenHead>,
}

impl From<select::Serving<'_>> for Serving {
    fn from(other: select::Serving<'_>) -> Serving {
        Serving {
            part: other.part.to_string(),
            length: other.length.into(),
            window: other.window.map(Window::from),
            head: other.head.map(DrivenHead::from),
        }
    }
}

/// What goes into holes of one range of sizes.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct ByHole {
    /// The holes, both ends included.
    pub(crate) hole: Interval,
    /// The part number; null where no standard length is within limits there.
    pub(crate) part: Option<String>,
    /// Its length.
    pub(crate) length: Option<Length>,
    /// What a longer rivet is cut to; null where a standard length is within limits, or no length is.
    pub(crate) cut: Option<Interval>,
    /// What to drive its head to.
    pub(crate) window: Option<Window>,
    /// By how much the longest rivet that does not fold over is too short for the largest of these holes; null where something is driven.
    pub(crate) short: Option<Length>,
}

impl From<select::ByHole<'_>> for ByHole {
    fn from(range: select::ByHole<'_>) -> ByHole {
        ByHole {
            hole: range.hole.into(),
            part: range.part.map(|part| part.to_string()),
            length: range.length.map(Length::from),
            cut: range.cut.map(Interval::from),
            window: range.window.map(Window::from),
            short: range.short.map(Length::from),
        }
    }
}

/// The standard length that comes closest where none is within limits in every hole; either limit alone makes it so.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Nearest {
    /// The length.
    pub(crate) length: Length,
    /// The largest hole, with any shank; null where none is small enough.
    pub(crate) hole_max: Option<Length>,
    /// The thinnest shank, in every hole; null where none is thick enough.
    pub(crate) shank_min: Option<Length>,
}

impl From<select::Nearest> for Nearest {
    fn from(nearest: select::Nearest) -> Nearest {
        let Within { hole_max, shank_min } = nearest.within.into();
        Nearest { length: nearest.length.into(), hole_max, shank_min }
    }
}

/// A margin and everything that makes it.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Margin<'a> {
    /// The margin of safety, without unit: allowable over factored load, less 1. Negative: it does not carry the load.
    pub(crate) value: Option<f64>,
    /// The load as given.
    pub(crate) load: Force,
    /// Which load it is.
    pub(crate) load_kind: LoadKind,
    /// The factor of safety that was put on it.
    pub(crate) safety_factor: Factor<'a>,
    /// The fitting factor; null where there is none.
    pub(crate) fitting_factor: Option<Factor<'a>>,
    /// The load with its factors.
    pub(crate) factored_load: Force,
}

impl<'a> Margin<'a> {
    pub(crate) fn of(worked: margin::Margin, practice: &Practice<'a>) -> Margin<'a> {
        Margin {
            value: finite(worked.value),
            load: worked.load.force.into(),
            load_kind: worked.load.kind.into(),
            safety_factor: Factor::of(worked.factors.safety, practice),
            fitting_factor: worked.factors.fitting.map(|factor| Factor::of(factor, practice)),
            factored_load: worked.factored_load.into(),
        }
    }
}

/// A factor on a load.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Factor<'a> {
    /// The factor, without unit.
    pub(crate) value: f64,
    /// Where it comes from.
    pub(crate) basis: Basis<'a>,
}

impl<'a> Factor<'a> {
    fn of(factor: margin::Factor, practice: &Practice<'a>) -> Factor<'a> {
        Factor { value: factor.value, basis: Basis::of(factor.basis, practice) }
    }
}

/// Another place to look at.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Look<'a> {
    /// Where to look.
    pub(crate) place: &'a str,
    /// Why.
    pub(crate) why: &'a str,
    /// What was found there; null where nobody has looked yet.
    pub(crate) found: Option<&'a str>,
}

impl<'a> From<&'a model::Look> for Look<'a> {
    fn from(look: &'a model::Look) -> Look<'a> {
        Look { place: &look.place, why: &look.why, found: look.found.as_deref() }
    }
}

/// Holes of a row.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HolesOfRow<'a> {
    /// The row.
    pub(crate) row: &'a str,
    /// Their numbers.
    pub(crate) holes: Vec<Nth>,
}

impl<'a> From<&job_order::Holes<'a>> for HolesOfRow<'a> {
    fn from(holes: &job_order::Holes<'a>) -> HolesOfRow<'a> {
        HolesOfRow { row: holes.row, holes: numbers(&holes.numbers) }
    }
}

pub(crate) fn numbers(numbers: &[u32]) -> Vec<Nth> {
    numbers.iter().copied().map(Nth::from).collect()
}

/// A part that the job takes.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct OrderLine<'a> {
    /// The part number.
    pub(crate) part: String,
    /// How many the job needs.
    pub(crate) needed: u32,
    /// How many of those go in where a rejected rivet comes out, as the driven file says.
    pub(crate) again: u32,
    /// How many more for spares.
    pub(crate) spares: u32,
    /// How many are on the shelf; null without a stock list.
    pub(crate) stock: Option<u32>,
    /// How many to buy, in whole packs where the stock list says how many are in one.
    pub(crate) buy: u32,
    /// How many a pack holds; null where no stock list says so.
    pub(crate) pack: Option<Nth>,
    /// How many packs to buy; of rivets sold singly, how many rivets.
    pub(crate) packs: u32,
    /// What those needed and their spares weigh; null where it is not known.
    pub(crate) mass: Option<Mass>,
    /// What it is, in words.
    pub(crate) description: String,
    /// The numbers that other standards give this very part.
    pub(crate) also_called: Vec<String>,
    /// The alloy and temper.
    pub(crate) alloy: String,
    /// The manufactured head.
    pub(crate) head: Head,
    /// The diameter of the shank.
    pub(crate) diameter: Length,
    /// The length.
    pub(crate) length: Option<Length>,
    /// The holes that it goes into, row by row; null where the whole job is not looked at.
    pub(crate) goes_into: Option<Vec<HolesOfRow<'a>>>,
}

/// One step of the ladder, from the least change.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HoleStep<'a> {
    /// The step that was tried.
    pub(crate) step: StepKind,
    /// Whether it is good.
    pub(crate) does: bool,
    /// The rivet that would go in, without its length.
    pub(crate) rivet: Option<String>,
    /// The drill or reamer; null where nothing is cut.
    pub(crate) drill: Option<String>,
    /// The diameter of that drill.
    pub(crate) drill_diameter: Option<Length>,
    /// The hole that comes out.
    pub(crate) hole: Option<Interval>,
    /// Why it is refused, or what to watch.
    pub(crate) findings: Vec<Finding<'a>>,
}

/// Who measured something, when and with what.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Taken {
    /// Who; empty where it was not written down.
    pub(crate) by: String,
    /// When, 2026-11-25; null where it was not written down.
    pub(crate) date: Option<String>,
    /// The gauge, by its number; may be empty.
    pub(crate) gauge: String,
}

impl From<&shophead_job::model::Taken> for Taken {
    fn from(taken: &shophead_job::model::Taken) -> Taken {
        let date = taken.date.map(|date| date.to_string());
        Taken { by: taken.by.clone(), date, gauge: taken.gauge.clone() }
    }
}

/// A place in the plane of the sheet.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Point {
    /// Along x.
    pub(crate) x: Length,
    /// Along y.
    pub(crate) y: Length,
}

impl From<layout::Point> for Point {
    fn from(point: layout::Point) -> Point {
        Point { x: point.x.into(), y: point.y.into() }
    }
}

/// The good lengths. Where min is above max none does.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Usable<'a> {
    /// The shortest rivet that makes a sound head in the worst case.
    pub(crate) min: GivenLength<'a>,
    /// The longest.
    pub(crate) max: GivenLength<'a>,
}

impl<'a> Usable<'a> {
    pub(crate) fn of(usable: select::Usable, practice: &Practice<'a>) -> Usable<'a> {
        Usable { min: GivenLength::of(usable.shortest, practice), max: GivenLength::of(usable.longest, practice) }
    }
}

/// A least and a greatest length and where they come from.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct GivenInterval<'a> {
    /// The least.
    pub(crate) min: Length,
    /// The greatest.
    pub(crate) max: Length,
    /// Where it comes from.
    pub(crate) basis: Basis<'a>,
}

impl<'a> BasedInterval<'a> {
    pub(crate) fn of(
        ends: measure::Interval,
        basis: Option<basis::Basis>,
        practice: &Practice<'a>,
    ) -> BasedInterval<'a> {
        let Interval { min, max } = ends.into();
        BasedInterval { min, max, basis: basis.map(|basis| Basis::of(basis, practice)) }
    }
}

impl<'a> GivenInterval<'a> {
    pub(crate) fn of(given: Given<measure::Interval>, practice: &Practice<'a>) -> GivenInterval<'a> {
        let Interval { min, max } = given.value.into();
        GivenInterval { min, max, basis: Basis::of(given.basis, practice) }
    }
}

/// A list whose items are made while it is printed: that of a long job is never held as a whole.
pub(crate) struct List<'a, T>(Items<'a, T>);

type Items<'a, T> = Box<dyn Fn() -> Box<dyn Iterator<Item = T> + 'a> + 'a>;

impl<'a, T> List<'a, T> {
    pub(crate) fn of<I: Iterator<Item = T> + 'a>(items: impl Fn() -> I + 'a) -> List<'a, T> {
        List(Box::new(move || Box::new(items())))
    }
}

impl<T: Serialize> Serialize for List<'_, T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq((self.0)())
    }
}
