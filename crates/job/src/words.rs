//! The words for people: one place for every finding, disposition and reason, in inches or millimetres.
//!
//! Core returns codes and figures. Every output that a person reads takes its sentences from here, so that text, JSON, cards and records
//! say the same thing in the same words.
//!
//! ```
//! use shophead::basis::Basis;
//! use shophead::finding::{Code, Figure, Finding, Severity};
//! use shophead::length::Length;
//! use shophead_job::words::{self, Units};
//! let length = |text| Figure::Length(Length::parse(text).unwrap());
//! let finding = Finding::new(Code::EdgeDistanceShort, Severity::Refer, Basis::AC43_EDGE)
//!     .with_measured(length(".2"))
//!     .with_limit(length(".25"));
//! assert_eq!(words::finding(&finding, Units::Inches), "The edge distance of 0.200 in is less than the least allowed, 0.250 in.");
//! assert_eq!(words::finding(&finding, Units::Millimetres), "The edge distance of 5.08 mm is less than the least allowed, 6.35 mm.");
//! ```

use shophead::access::{Clearance, RowWork, SolidBecause};
use shophead::drill::Drill;
use shophead::finding::{Code, Figure, Finding, Severity};
use shophead::hole::{Damage, Disposition};
use shophead::installation::Step;
use shophead::joint::row::RowMode;
use shophead::joint::strength::Mode;
use shophead::length::{Interval, Length};
use shophead::practice::Practice;
use shophead::quantity::{Force, Stress};
use shophead::removal::Risk;
use shophead::select::Difference;
use shophead::structure::{Member, Place};
use shophead::upset::Remedy;

use crate::plan::{DamagePlan, HolePlan, NotCompared, Plan};
use crate::tools::{Tool, ToolKind};

/// What every output says once.
pub const ADVISORY: &str =
    "Advisory only: the manuals of the type, approved data, local rules and a licensed person decide.";

/// The units that figures are printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Units {
    /// Inches and pounds.
    #[default]
    Inches,
    /// Millimetres and newtons.
    Millimetres,
}

impl Units {
    /// A length as a decimal, with its unit.
    #[must_use]
    pub fn length(self, length: Length) -> String {
        format!("{} {}", self.bare_length(length), self.length_unit())
    }

    /// A length as a decimal, without its unit.
    #[must_use]
    pub fn bare_length(self, length: Length) -> String {
        match self {
            Units::Inches => length.to_string(),
            Units::Millimetres => length.in_millimetres().to_string(),
        }
    }

    /// A computed least and greatest length to a thousandth of an inch or a hundredth of a millimetre, with the unit: nothing in it is
    /// known more closely.
    #[must_use]
    pub fn about(self, interval: Interval) -> String {
        let bare = |length: Length| match self {
            Units::Inches => format!("{length:.3}"),
            Units::Millimetres => format!("{:.2}", length.in_millimetres()),
        };
        let (min, max, unit) = (bare(interval.min), bare(interval.max), self.length_unit());
        if min == max { format!("{max} {unit}") } else { format!("{min} to {max} {unit}") }
    }

    /// A size of a part, with its unit: in inches as a fraction where it is exactly one.
    #[must_use]
    pub fn size(self, size: Length) -> String {
        let fraction = size.to_64ths();
        match self {
            Units::Inches if fraction.is_exact() => format!("{fraction} in"),
            Units::Inches | Units::Millimetres => self.length(size),
        }
    }

    /// A least and a greatest length, with the unit; once where they are the same.
    #[must_use]
    pub fn interval(self, interval: Interval) -> String {
        if interval.min == interval.max {
            return self.length(interval.min);
        }
        format!("{} to {}", self.bare_length(interval.min), self.length(interval.max))
    }

    /// A length rounded to what can be marked out: a thousandth of an inch, a hundredth of a millimetre.
    #[must_use]
    pub fn to_mark(self, length: Length) -> Length {
        length.round_to(match self {
            Units::Inches => Length::from_ten_thousandths(10),
            Units::Millimetres => Length::from_nanometres(10_000).unwrap_or_default(),
        })
    }

    /// A least and a greatest length of which either may not be given.
    #[must_use]
    pub fn limits(self, least: Option<Length>, greatest: Option<Length>) -> String {
        match (least, greatest) {
            (Some(min), Some(max)) => self.interval(Interval { min, max }),
            (Some(min), None) => format!("from {}", self.length(min)),
            (None, Some(max)) => format!("up to {}", self.length(max)),
            (None, None) => "limits not known".into(),
        }
    }

    /// A drill with its diameter.
    #[must_use]
    pub fn drill(self, drill: Drill) -> String {
        format!("{drill} ({})", self.length(drill.diameter()))
    }

    /// A force, with its unit.
    #[must_use]
    pub fn force(self, force: Force) -> String {
        let (value, unit) = match self {
            Units::Inches => (force.lbf(), "lbf"),
            Units::Millimetres => (force.newtons(), "N"),
        };
        // A strength is never known to a tenth of a per cent.
        if value.abs() < 100.0 { format!("{value:.1} {unit}") } else { format!("{value:.0} {unit}") }
    }

    /// A force for every inch of width, or for every millimetre, with its unit.
    #[must_use]
    pub fn running_load(self, per_inch: Force) -> String {
        const MILLIMETRES_IN_INCH: f64 = 25.4;
        match self {
            Units::Inches => format!("{:.0} lbf an inch", per_inch.lbf()),
            Units::Millimetres => format!("{:.0} N a millimetre", per_inch.newtons() / MILLIMETRES_IN_INCH),
        }
    }

    /// A modulus, with its unit.
    #[must_use]
    pub fn modulus(self, modulus: Stress) -> String {
        match self {
            Units::Inches => format!("{} msi", plain(modulus.psi() / 1e6)),
            Units::Millimetres => format!("{:.1} GPa", modulus.megapascals() / 1e3),
        }
    }

    /// A moment, with its unit.
    #[must_use]
    pub fn moment(self, in_lbf: f64) -> String {
        match self {
            Units::Inches => format!("{in_lbf:.0} in-lbf"),
            Units::Millimetres => {
                let newton_metres = Force::from_lbf(in_lbf).newtons() * Length::INCH.to_millimetres_f64() / 1_000.0;
                format!("{newton_metres:.1} N m")
            }
        }
    }

    /// A stress, with its unit.
    #[must_use]
    pub fn stress(self, stress: Stress) -> String {
        match self {
            Units::Inches => format!("{:.1} ksi", stress.ksi()),
            Units::Millimetres => format!("{:.0} MPa", stress.megapascals()),
        }
    }

    /// A figure of a finding, with its unit where it has one.
    #[must_use]
    pub fn figure(self, figure: Figure) -> String {
        match figure {
            Figure::Length(length) => self.length(length),
            Figure::Force(force) => self.force(force),
            Figure::Stress(stress) => self.stress(stress),
            Figure::Ratio(ratio) => plain(ratio),
            Figure::Count(count) => count.to_string(),
            Figure::Facts(facts) => facts.to_string(),
        }
    }

    /// The unit of length: `in` or `mm`.
    #[must_use]
    pub const fn length_unit(self) -> &'static str {
        match self {
            Units::Inches => "in",
            Units::Millimetres => "mm",
        }
    }

    /// The unit of force: `lbf` or `N`.
    #[must_use]
    pub const fn force_unit(self) -> &'static str {
        match self {
            Units::Inches => "lbf",
            Units::Millimetres => "N",
        }
    }
}

/// A plain number to three decimals at most, without idle zeros: `1.5`, `0.182`.
#[must_use]
pub fn plain(number: f64) -> String {
    let text = format!("{number:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// What a finding says, as one sentence; where its limit stands is told by its basis.
#[must_use]
pub fn finding(finding: &Finding, units: Units) -> String {
    let figure = |figure: Option<Figure>| figure.map(|figure| units.figure(figure));
    // No room at all is not a small room.
    let is_shut = finding.code() == Code::CannotBuck && finding.measured() == Some(Figure::Length(Length::ZERO));
    let (measured, limit) = (figure(finding.measured().filter(|_| !is_shut)), figure(finding.limit()));
    let sentence = match (finding.code(), finding.measured()) {
        (Code::WeakerThanBefore, Some(Figure::Ratio(ratio))) => {
            format!("As planned the row carries {} of what it carries as installed: it is weaker.", plain(ratio))
        }
        // A code of a newer core than these words still says something.
        (code, _) => sentence(code, finding.severity(), measured.as_deref(), limit.as_deref())
            .unwrap_or_else(|| format!("Found: {code}.")),
    };
    match finding.layer() {
        Some(layer) => format!("Layer {layer}: {}", lower_first(&sentence)),
        None => sentence,
    }
}

fn lower_first(sentence: &str) -> String {
    let mut chars = sentence.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

/// The sentence for a code; `None` for a code that has no words yet.
fn sentence(code: Code, severity: Severity, measured: Option<&str>, limit: Option<&str>) -> Option<String> {
    // With both figures, with the measured one only, with none.
    let held = |both: &dyn Fn(&str, &str) -> String, one: &dyn Fn(&str) -> String, none: &str| match (measured, limit) {
        (Some(measured), Some(limit)) => both(measured, limit),
        (Some(measured), None) => one(measured),
        (None, _) => none.to_owned(),
    };
    Some(match code {
        Code::LimitFromMemory => match (measured, limit) {
            (Some(measured), _) => {
                format!("What decides here, {measured}, rests on a recalled figure. Check it against the document.")
            }
            (None, Some(limit)) => {
                format!("The limit of {limit} could only be recalled. Check it against the document.")
            }
            (None, None) => "A limit that decides could only be recalled. Check it against the document.".to_owned(),
        },
        Code::NoLimit => {
            "A figure that is needed here stands in no document at hand. Look it up before going on.".to_owned()
        }
        Code::NotChecked => match measured {
            Some(facts) => format!("Not checked: {facts} not given."),
            None => "Not everything was given, so not everything was checked.".to_owned(),
        },
        Code::ShankDoesNotEnter => held(
            &|hole, shank| format!("The hole of {hole} is smaller than the thinnest shank, {shank}: the rivet does not go in."),
            &|hole| format!("The hole of {hole} is smaller than the thinnest shank: the rivet does not go in."),
            "The hole is smaller than the thinnest shank: the rivet does not go in.",
        ),
        Code::FlushHeadWithoutSeat => {
            "The head is flush, but no layer is countersunk or dimpled for it. Say which layer takes the head.".to_owned()
        }
        Code::SeatWithoutFlushHead => "Countersunk or dimpled, but the head is not flush.".to_owned(),
        Code::SeatInWrongLayer => "Countersunk or dimpled under a layer with a plain hole: no head gets there.".to_owned(),
        Code::EdgeAsBuilt => held(
            &|edge, least| format!("Edge distance {edge}, usual minimum {least}: as the maker built it. Keep it."),
            &|edge| format!("Edge distance {edge}: as the maker built it. Keep it."),
            "The edge distance is as the maker built it. Keep it.",
        ),
        Code::PitchAsBuilt => held(
            &|pitch, least| format!("Rivets {pitch} apart, usual minimum {least}: as the maker built it. Keep it."),
            &|pitch| format!("Rivets {pitch} apart: as the maker built it. Keep it."),
            "The spacing is as the maker built it. Keep it.",
        ),
        Code::ShimInPack => "A shim between the sheets: no published strength covers it.".to_owned(),
        Code::UnequalSheets => held(
            &|thin, thick| format!("Outer sheets of {thin} and {thick}: they do not share the load alike."),
            &|thin| format!("Outer sheets of {thin} and another thickness: they do not share the load alike."),
            "The outer sheets are not alike: they do not share the load alike.",
        ),
        Code::AsStrongAsBefore => "As strong as before: same rivet, same sheets.".to_owned(),
        Code::SqueezeOutsideTests => {
            "The head or the rivet lies outside the tests behind the squeeze force.".to_owned()
        }
        Code::ElasticSharesOnly => {
            "The shares are elastic; no published method for the shares at failure is at hand.".to_owned()
        }
        Code::BucklesBetweenRivets => held(
            &|measured, limit| format!("The sheet buckles between its rivets: {measured} against {limit}."),
            &|measured| format!("The sheet buckles between its rivets at {measured}."),
            "The sheet buckles between its rivets under this stress.",
        ),
        Code::BucklingNotElastic => {
            "The elastic formula for buckling between rivets does not reach this stress; the curve of the tangent modulus is needed."
                .to_owned()
        }
        Code::TailTooLong => held(
            &|measured, limit| format!("At {measured} the tail could fold over; the longest that is safe is {limit}."),
            &|measured| format!("At {measured} the tail could fold over."),
            "The tail could fold over before it forms a head.",
        ),
        Code::TailTooShort => held(
            &|measured, limit| {
                format!(
                    "At {measured} the tail cannot form the least head in the worst case; it takes at least {limit}."
                )
            },
            &|measured| format!("At {measured} the tail cannot form the least head in the worst case."),
            "The tail cannot form the least head in the worst case.",
        ),
        Code::HeadTooLarge => held(
            &|measured, limit| {
                format!(
                    "At {measured} the tail holds more metal than the largest head allowed; the longest is {limit}."
                )
            },
            &|measured| format!("At {measured} the tail holds more metal than the largest head allowed."),
            "The tail holds more metal than the largest head allowed.",
        ),
        Code::NoLengthFits => held(
            &|measured, limit| {
                format!(
                    "No length fits every case: the worst case needs at least {measured} and allows at most {limit}."
                )
            },
            &|measured| format!("No length fits every case: the worst case needs at least {measured}."),
            if severity == Severity::Refer {
                "No length of the series gives a sound head in every case."
            } else {
                "The layers are not known, so it was not checked whether a length fits, nor what the joint carries."
            },
        ),
        Code::DiffersFromRule => held(
            &|measured, limit| format!("The length of {measured} is not the {limit} of the rule of thumb."),
            &|measured| format!("The length of {measured} is not that of the rule of thumb."),
            "The length is not that of the rule of thumb.",
        ),
        Code::HalfLength => held(
            &|measured, _| format!("{measured} is a half length; they are not always in stock."),
            &|measured| format!("Only a half length fits, {measured}; they are not always in stock."),
            "Only a half length fits; they are not always in stock.",
        ),
        Code::LengthNotTabulated => held(
            &|measured, limit| {
                format!(
                    "The length of {measured} is beyond the table of the standard, which ends at {limit}; it can be ordered but may not be in stock."
                )
            },
            &|measured| format!("The length of {measured} is beyond the table of the standard."),
            "The length lies outside the table of the standard.",
        ),
        Code::DiameterOutsideRule => held(
            &|measured, limit| format!("The diameter of {measured} is outside the rule for the sheet, {limit}."),
            &|measured| format!("The diameter of {measured} is outside the rule for the sheet."),
            "The diameter is outside the rule for the sheet.",
        ),
        Code::NotStructural => held(
            &|measured, limit| format!("A rivet of {measured} is not for structure; the smallest is {limit}."),
            &|measured| format!("A rivet of {measured} is not for structure."),
            "This rivet is not for structure.",
        ),
        Code::HeatTreatFirst => "This alloy is heat treated, or kept cold after it, before driving.".to_owned(),
        Code::ShankMayNotEnter => held(
            &|measured, limit| {
                format!(
                    "A hole of {measured}, the smallest here, is tighter than the largest shank, {limit}: some rivets may not enter."
                )
            },
            &|measured| format!("A hole of {measured} is tighter than the largest shank: some rivets may not enter."),
            "The smallest hole is tighter than the largest shank: some rivets may not enter.",
        ),
        Code::HeadTooNarrow => below("The driven head", "narrower", "wide", measured, limit),
        Code::HeadTooWide => above("The driven head", "wider", "wide", measured, limit),
        Code::HeadTooLow => below("The driven head", "lower", "high", measured, limit),
        Code::HeadTooHigh => above("The driven head", "higher", "high", measured, limit),
        Code::HeadDefect => match (measured, limit) {
            (Some(measured), Some(limit)) => {
                format!("A visible defect is not accepted: {measured} where the limit is {limit}.")
            }
            (Some(measured), None) => format!("A visible defect is not accepted: {measured}."),
            (None, Some(limit)) => format!("A visible defect is not accepted; the limit is {limit}."),
            (None, None) => "A visible defect is not accepted.".to_owned(),
        },
        Code::SampleRejects => held(
            &|measured, limit| format!("Of {limit} looked at, {measured} rejected: look at the others of the row too."),
            &|measured| format!("Of those looked at, {measured} rejected: look at the others of the row too."),
            "Rivets of a sample are rejected: look at the others too.",
        ),
        Code::DrivenWhereReferred => "A rivet was driven where the plan refers the hole and has none.".to_owned(),
        Code::HoleOverLimit => held(
            &|measured, limit| format!("A hole of {measured} is larger than this rivet allows, {limit}."),
            &|measured| format!("No step takes a hole of {measured}."),
            "The hole is larger than the rivet allows.",
        ),
        Code::HoleUnderLimit => held(
            &|measured, limit| format!("A hole of {measured} is smaller than this rivet needs, {limit}."),
            &|measured| format!("A hole of {measured} is smaller than this rivet needs."),
            "The hole is smaller than the rivet needs.",
        ),
        Code::HoleDamaged => "The damage at the hole has to be removed first.".to_owned(),
        Code::HoleCracked => "The hole is cracked: stop, and ask for a repair of the sheet.".to_owned(),
        Code::NoLargerRivet => "The series has no larger rivet to step up to.".to_owned(),
        Code::StepNeedsApproval => {
            "A larger hole in this member needs the approval of the maker or the authority.".to_owned()
        }
        Code::TooManySteps => held(
            &|measured, limit| format!("{measured} rivets of one pattern would be stepped up; at most {limit} may be."),
            &|measured| format!("{measured} rivets of one pattern would be stepped up, more than allowed."),
            "More rivets of one pattern would be stepped up than allowed.",
        ),
        Code::NeighboursStepped => held(
            &|measured, limit| format!("{measured} neighbours would be stepped up; at most {limit} may be."),
            &|measured| format!("{measured} neighbours would be stepped up, more than allowed."),
            "More neighbours would be stepped up than allowed.",
        ),
        Code::PatternFull => {
            "The hole needs a larger rivet, but its pattern takes no more of them.".to_owned()
        }
        Code::DamageOverLimit => held(
            &|measured, limit| format!("Damage of {measured} is beyond the shop's limit, {limit}."),
            &|measured| format!("Damage of {measured} is beyond the shop's limit."),
            "The damage is beyond the shop's limit.",
        ),
        Code::DamageNotLimited => {
            "No document at hand limits this damage: refer it, or give the shop's own limit.".to_owned()
        }
        Code::DamageNotMeasured => match limit {
            Some(limit) => format!("The shop's limit is {limit}, but what it limits was not measured."),
            None => "The shop limits this damage, but what it limits was not measured.".to_owned(),
        },
        Code::DamageWithinLimit => held(
            &|measured, limit| {
                format!("Damage of {measured} is within the shop's limit, {limit}: repair it as the document says.")
            },
            &|measured| format!("Damage of {measured} is within the shop's limit: repair it as the document says."),
            "The damage is within the shop's limit: repair it as the document says.",
        ),
        Code::StopDrill => held(
            &|measured, limit| format!("Where a crack is stop drilled, each end takes a hole of {measured} or {limit}."),
            &|measured| format!("Where a crack is stop drilled, each end takes a hole of {measured}."),
            "Where a crack is stop drilled, each end takes a hole.",
        ),
        Code::HoleBeyondCut => match (severity, measured) {
            (Severity::Refer, Some("1")) => {
                "1 hole lies on the other side of this edge: check the stations and the points.".to_owned()
            }
            (Severity::Refer, Some(count)) => {
                format!("{count} holes lie on the other side of this edge: check the stations and the points.")
            }
            (Severity::Refer, None) => {
                "Holes lie on the other side of this edge: check the stations and the points.".to_owned()
            }
            (_, Some("1")) => "1 hole lies beyond the stations, where nobody measured the edge.".to_owned(),
            (_, Some(count)) => format!("{count} holes lie beyond the stations, where nobody measured the edge."),
            (_, None) => "Holes lie beyond the stations, where nobody measured the edge.".to_owned(),
        },
        Code::CountersinkTooDeep => held(
            &|measured, limit| {
                format!("A sheet of {measured} is too thin for this countersink; the head needs {limit}.")
            },
            &|measured| format!("A sheet of {measured} is too thin for this countersink: it leaves a knife edge."),
            "The sheet is too thin for this countersink.",
        ),
        Code::DimpleTooThick => held(
            &|measured, limit| format!("A sheet of {measured} is thicker than dimpling suits, {limit}."),
            &|measured| format!("A sheet of {measured} is thicker than dimpling suits."),
            "The sheet is thicker than dimpling suits.",
        ),
        Code::EdgeDistanceShort => short("edge distance", measured, limit),
        Code::EdgeDistanceLong => long("edge distance", measured, limit),
        Code::EdgeBelowPreferred => held(
            &|measured, limit| {
                format!("The edge distance of {measured} leaves no room for a later step up; {limit} would.")
            },
            &|measured| format!("The edge distance of {measured} leaves no room for a later step up."),
            "The edge distance leaves no room for a later step up.",
        ),
        Code::PitchShort => short("pitch", measured, limit),
        Code::PitchLong => long("pitch", measured, limit),
        Code::TransversePitchShort => short("distance between rows", measured, limit),
        Code::EdgeMarginBelowTable => held(
            &|measured, limit| {
                format!("The edge distance is {measured} diameters; no bearing strength is published below {limit}.")
            },
            &|measured| format!("The edge distance is {measured} diameters; no bearing strength is published for it."),
            "No bearing strength is published for so short an edge distance.",
        ),
        Code::SheetTooThinForTable => held(
            &|measured, limit| {
                format!("The sheet is {measured} diameters thick; no strength is published below {limit}.")
            },
            &|measured| format!("The sheet is {measured} diameters thick; no strength is published for it."),
            "The sheet is thinner than the published strength covers.",
        ),
        Code::StrengthNotPublished => held(
            &|measured, _| format!("No published strength covers this case; {measured} was counted."),
            &|measured| format!("No published strength covers this case; {measured} was counted."),
            "No published strength covers this case.",
        ),
        Code::HoleAboveNominal => held(
            &|measured, limit| format!("A hole of {measured} adds no strength: the tables count {limit}."),
            &|measured| format!("A hole of {measured} adds no strength."),
            "A hole larger than the tables count adds no strength.",
        ),
        Code::MarginNegative => held(
            &|measured, _| format!("The joint does not carry the load: the margin is {measured}."),
            &|measured| format!("The joint does not carry the load: the margin is {measured}."),
            "The joint does not carry the load.",
        ),
        Code::WeakerThanBefore => held(
            &|measured, limit| format!("The new joint carries {measured} a rivet, the old one {limit}: it is weaker."),
            &|measured| format!("The new joint carries {measured} a rivet, which is less than the old one."),
            "The new joint is weaker than the old one.",
        ),
        Code::SubstituteTooSmall => held(
            &|measured, limit| format!("A rivet of this alloy takes the place of the old one from {limit} on, not at {measured}."),
            &|measured| format!("A rivet of this alloy is too small at {measured} to take the place of the old one."),
            "A rivet of this alloy must be larger to take the place of the old one.",
        ),
        Code::SubstituteNotNamed if severity == Severity::Refer => {
            "No document at hand lets this alloy take the place of the old one in this size.".to_owned()
        }
        Code::SubstituteNotNamed => {
            "No document at hand names this substitution; the new alloy is the stronger one and harder to drive.".to_owned()
        }
        Code::MustBeSolid => "Only driven solid rivets may go here.".to_owned(),
        Code::CannotBuck => match (measured, limit) {
            (Some(measured), Some(limit)) => {
                format!("There is {measured} behind this row; tail and bucking bar need {limit}.")
            }
            (Some(measured), None) => format!("There is only {measured} behind this row, too little to buck it."),
            (None, Some(limit)) => format!("No bar goes behind this row; tail and bucking bar need {limit}."),
            (None, None) => "There is not enough room behind this row to buck it.".to_owned(),
        },
        Code::NoPositionServes => "No position lets every row be driven that must be.".to_owned(),
        Code::BlindNeedsApproval => "A blind rivet here needs the manual of the type.".to_owned(),
        _ => return None,
    })
}

fn below(what: &str, than: &str, dimension: &str, measured: Option<&str>, limit: Option<&str>) -> String {
    beyond(what, than, dimension, "least", measured, limit)
}

fn above(what: &str, than: &str, dimension: &str, measured: Option<&str>, limit: Option<&str>) -> String {
    beyond(what, than, dimension, "greatest", measured, limit)
}

fn beyond(what: &str, than: &str, dimension: &str, end: &str, measured: Option<&str>, limit: Option<&str>) -> String {
    match (measured, limit) {
        (Some(measured), Some(limit)) => {
            format!("{what} is {measured} {dimension}, {than} than the {end} allowed, {limit}.")
        }
        (Some(measured), None) => format!("{what} is {measured} {dimension}, {than} than allowed."),
        (None, _) => format!("{what} is {than} than allowed."),
    }
}

/// A distance without a figure is one that nobody gave.
fn short(what: &str, measured: Option<&str>, limit: Option<&str>) -> String {
    match (measured, limit) {
        (Some(measured), Some(limit)) => {
            format!("The {what} of {measured} is less than the least allowed, {limit}.")
        }
        (Some(measured), None) => format!("The {what} of {measured} is less than allowed."),
        (None, _) => format!("The {what} is not known, so it was not checked."),
    }
}

fn long(what: &str, measured: Option<&str>, limit: Option<&str>) -> String {
    match (measured, limit) {
        (Some(measured), Some(limit)) => format!("The {what} of {measured} is more than usual, {limit}."),
        (Some(measured), None) => format!("The {what} of {measured} is more than usual."),
        (None, _) => format!("The {what} is more than usual."),
    }
}

/// Why a length is not that of the rule of thumb.
#[must_use]
pub const fn difference(difference: Difference) -> &'static str {
    match difference {
        Difference::FillTakesTail => {
            "Filling the hole takes so much of the tail that the rule of thumb could not form the least head."
        }
        Difference::TailWouldFold => "The tail of the rule of thumb could fold over.",
        Difference::HeadWouldBeTooLarge => {
            "The tail of the rule of thumb holds more metal than the largest head allowed."
        }
    }
}

/// What to do about a hole, in a few words.
#[must_use]
pub const fn disposition(disposition: Disposition) -> &'static str {
    match disposition {
        Disposition::Keep => "Keep the hole as it is",
        Disposition::CleanUp => "Clean up the hole for the same rivet",
        Disposition::Oversize => "Open the hole for an oversize shank",
        Disposition::NextSize => "Open the hole for the next larger diameter",
        Disposition::Refer => "Stop and refer",
    }
}

/// What to do about a rejected rivet.
#[must_use]
pub const fn remedy(remedy: Remedy) -> &'static str {
    match remedy {
        Remedy::Replace => "Take it out, measure the hole again, drive another of the same",
        Remedy::NextSize => "Take it out, open the hole for the next larger diameter",
        Remedy::Refer => "Stop and refer",
    }
}

/// What gives way, in a few words.
#[must_use]
pub const fn mode(mode: Mode) -> &'static str {
    match mode {
        Mode::RivetShear => "the rivet shears",
        Mode::Bearing => "the rivet crushes the sheet",
        Mode::FlushJoint => "the flush head and its sheet part",
        Mode::TearOut => "the rivet tears out to the edge",
    }
}

/// What gives way in a row, in a few words.
#[must_use]
pub const fn row_mode(mode: RowMode) -> &'static str {
    match mode {
        RowMode::Rivets(mode) => self::mode(mode),
        RowMode::NetSection => "the sheet parts between the holes",
    }
}

/// Why a row as installed was not held against the row as planned.
#[must_use]
pub const fn not_compared(why: NotCompared) -> &'static str {
    match why {
        NotCompared::NoEdge => "no edge distance is given",
        NotCompared::NoPitch => "no pitch is given",
        NotCompared::NoJoint => "these layers are no joint that can be worked out",
    }
}

/// Why taking a rivet out is risky.
#[must_use]
pub const fn risk(risk: Risk) -> &'static str {
    match risk {
        Risk::ThickPack => "The pack is thick: the shank sits tight.",
        Risk::ManyLayers => "There are many layers: burrs between them hold the shank.",
        Risk::ThinFarSide => "The layer under the driven head is thin: support it beside the head.",
        Risk::CloseToEdge => "The hole is close to an edge.",
    }
}

/// Why a row takes driven solid rivets only.
#[must_use]
pub fn solid_because(because: SolidBecause) -> String {
    match because {
        SolidBecause::Primary => "It is primary structure.".to_owned(),
        SolidBecause::Member(member) => format!("It runs along {}.", self::member(member)),
        SolidBecause::Place(place) => format!("It lies {}.", self::place(place)),
    }
}

/// A member with its article.
fn member(member: Member) -> &'static str {
    match member {
        Member::Skin => "a skin splice",
        Member::SparCap => "the cap of a spar, keel or main beam",
        Member::Longeron => "a longeron",
        Member::Stringer => "a stringer",
        Member::Frame => "a frame",
        Member::Rib => "a rib",
        _ => "another member",
    }
}

/// Where a place is.
fn place(place: Place) -> &'static str {
    match place {
        Place::FluidTight => "in a fluid-tight area",
        Place::BelowWaterLine => "below the water line",
        Place::AirIntake => "where a loose part could be drawn into an engine",
        Place::Control => "on a control surface or its attachment",
        Place::MainFitting => "at a main fitting",
        Place::HeavilyStressed => "in a heavily stressed place",
        _ => "in a place with rules of its own",
    }
}

/// Numbers by rising order, neighbours as a range.
///
/// ```
/// assert_eq!(shophead_job::words::ranges(&[1, 2, 3, 7, 9, 10]), "1-3, 7, 9-10");
/// assert_eq!(shophead_job::words::ranges(&[]), "");
/// ```
#[must_use]
pub fn ranges(numbers: &[u32]) -> String {
    let runs = numbers.chunk_by(|one, next| one.checked_add(1) == Some(*next));
    let shown: Vec<String> = runs
        .filter_map(|run| match run {
            [] => None,
            [one] => Some(one.to_string()),
            [first, .., last] => Some(format!("{first}-{last}")),
        })
        .collect();
    shown.join(", ")
}

/// How a hole was found: its axes, what else is wrong, and what somebody noted.
#[must_use]
pub fn found(hole: &HolePlan<'_>, units: Units) -> String {
    let Some(measured) = hole.measured else { return "not measured".into() };
    let found = measured.as_found;
    let size = units.interval(Interval { min: found.minor(), max: found.major() });
    let size = if found.minor() == found.major() { size } else { size.replace(" to ", " by ") };
    let damage = match found.damage() {
        Damage::None => String::new(),
        damage => format!(", {}", damage.word()),
    };
    let remark = if measured.remark.is_empty() { String::new() } else { format!(" ({})", measured.remark) };
    format!("{size}{damage}{remark}")
}

/// Why each step cannot be taken; a step that fails for the same reason as the one before it is left out. `full` is what was found of the hole's
/// pattern.
#[must_use]
pub fn why_not(steps: &[Step<'_>], full: &[Finding], units: Units, practice: &Practice<'_>) -> Vec<String> {
    let said = |finding: &Finding| format!("{} [{}]", self::finding(finding, units), practice.cite(finding.basis()));
    let mut lines = Vec::new();
    let mut told: Vec<Code> = Vec::new();
    for step in steps {
        let refer = |finding: &&Finding| finding.severity() == Severity::Refer;
        let codes: Vec<Code> = step.findings.iter().filter(refer).map(|finding| finding.code()).collect();
        if codes.is_empty() || codes == told {
            continue;
        }
        let why = step.findings.iter().filter(refer).map(|finding| match finding.code() {
            // The place to look is the whole message.
            Code::NoLimit => said(finding),
            _ => self::finding(finding, units),
        });
        let why: Vec<String> = why.collect();
        lines.push(format!("{}: {}", step.kind, why.join(" ")));
        told = codes;
    }
    lines.extend(full.iter().filter(|finding| finding.code() == Code::PatternFull).map(said));
    lines
}

/// Damage beside the holes, on one line.
#[must_use]
pub fn damage(plan: &Plan<'_>, damage: &DamagePlan<'_>, units: Units) -> String {
    let found = &damage.held;
    let mut parts = vec![format!("{}: {}", found.kind.word(), damage.damage.place)];
    let row = damage.damage.row.and_then(|row| plan.rows.get(row)).map(|row| row.row.name.as_str());
    match (row, damage.damage.hole) {
        (Some(row), Some(hole)) => parts.push(format!("near row {row} hole {hole}")),
        (Some(row), None) => parts.push(format!("near row {row}")),
        (None, _) => {}
    }
    if let Some(at) = damage.damage.at {
        parts.push(format!("at {} by {}", units.bare_length(at.x), units.length(at.y)));
    }
    parts.extend(damage.damage.member.map(|member| format!("in the {}", member.word())));
    parts.extend(found.length.map(|length| format!("{} long", units.length(length))));
    parts.extend(found.depth.map(|depth| format!("{} deep", units.length(depth))));
    parts.join(", ")
}

/// What a row lacks in a position where it cannot be bucked.
#[must_use]
pub fn lack(work: &RowWork, units: Units) -> String {
    match (work.clearance, work.needed, work.missing()) {
        (Clearance::Closed, Some(needed), _) => {
            format!("no bar goes behind it; open it up to {}.", units.about(Interval::exactly(needed)))
        }
        (_, _, Some(missing)) => format!("{} more room.", units.about(Interval::exactly(missing))),
        _ => "how much room it takes is not known.".into(),
    }
}

/// A tool, its size and at how many holes it is used.
#[must_use]
pub fn tool(tool: &Tool<'_>, units: Units) -> String {
    let holes = if tool.holes == 1 { "1 hole".into() } else { format!("{} holes", tool.holes) };
    match tool.kind {
        ToolKind::HeadDrill(drill) => format!("drill {} for old heads: {holes}", units.drill(drill)),
        ToolKind::Punch(under) => format!("punch thinner than {}: {holes}", units.length(under)),
        ToolKind::HoleCutter(drill) => format!("drill or reamer {} to open up: {holes}", units.drill(drill)),
        ToolKind::HoleGauge { rivet, least, greatest } => {
            format!("hole gauge for {rivet}, {}: {holes}", units.limits(least, greatest))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use shophead::basis::Basis;

    fn figures() -> [Option<Figure>; 5] {
        [
            None,
            Some(Figure::Length(Length::from_64ths(8))),
            Some(Figure::Force(Force::from_lbf(388.0))),
            Some(Figure::Ratio(1.5)),
            Some(Figure::Count(3)),
        ]
    }

    #[test]
    fn every_code_has_words_with_and_without_figures() {
        for code in Code::ALL {
            for severity in [Severity::Note, Severity::Caution, Severity::Refer] {
                for measured in [None, Some("1 in")] {
                    for limit in [None, Some("2 in")] {
                        let sentence = sentence(*code, severity, measured, limit);
                        let sentence = sentence.unwrap_or_else(|| panic!("{code} has no words"));
                        assert!(sentence.starts_with(|c: char| c.is_uppercase() || c.is_ascii_digit()), "{sentence}");
                        assert!(sentence.ends_with('.') && !sentence.contains("  "), "{sentence}");
                    }
                }
            }
        }
    }

    #[test]
    fn no_two_codes_say_the_same() {
        let bare = |code: &Code| sentence(*code, Severity::Refer, None, None);
        for (index, code) in Code::ALL.iter().enumerate() {
            for other in &Code::ALL[index + 1..] {
                assert_ne!(bare(code), bare(other), "{code} and {other}");
            }
        }
    }

    #[test]
    fn a_finding_shows_its_figures_and_its_layer() {
        for code in Code::ALL {
            for figure in figures() {
                let bare = Finding::new(*code, Severity::Refer, Basis::NO_HOLE);
                let found = figure.map_or(bare, |figure| bare.with_measured(figure).with_limit(figure));
                assert!(finding(&found.in_layer(2), Units::Inches).starts_with("Layer 2: "), "{code}");
            }
        }
        let found = Finding::new(Code::HoleOverLimit, Severity::Refer, Basis::NO_HOLE)
            .with_measured(Figure::Length(Length::from_64ths(9)))
            .with_limit(Figure::Length(Length::from_64ths(8)));
        assert_eq!(finding(&found, Units::Inches), "A hole of 0.14063 in is larger than this rivet allows, 0.125 in.");
        assert_eq!(
            finding(&found, Units::Millimetres),
            "A hole of 3.5719 mm is larger than this rivet allows, 3.175 mm."
        );
    }

    #[test]
    fn figures_carry_their_unit() {
        let eighth = Length::from_64ths(8);
        assert_eq!(Units::Inches.size(eighth), "1/8 in");
        assert_eq!(Units::Millimetres.size(eighth), "3.175 mm");
        assert_eq!(Units::Inches.interval(Interval { min: eighth, max: Length::from_64ths(9) }), "0.125 to 0.14063 in");
        assert_eq!(Units::Inches.interval(Interval::exactly(eighth)), "0.125 in");
        assert_eq!(Units::Inches.force(Force::from_lbf(388.2)), "388 lbf");
        assert_eq!(Units::Inches.force(Force::from_lbf(38.82)), "38.8 lbf");
        assert_eq!(Units::Millimetres.force(Force::from_newtons(1100.0)), "1100 N");
        assert_eq!(Units::Inches.stress(Stress::from_ksi(30.0)), "30.0 ksi");
        assert_eq!(plain(-0.0001), "0");
        assert_eq!(plain(1.5), "1.5");
        assert_eq!(plain(20.0), "20");
    }

    #[test]
    fn every_member_and_place_has_words() {
        for known in Member::ALL.iter().filter(|known| **known != Member::Other) {
            assert_ne!(member(*known), member(Member::Other), "{}", known.word());
        }
        let places: Vec<_> = Place::ALL.iter().map(|known| place(*known)).collect();
        assert!(places.iter().all(|words| *words != "in a place with rules of its own"));
        assert_eq!(solid_because(SolidBecause::Place(Place::BelowWaterLine)), "It lies below the water line.");
        assert_eq!(solid_because(SolidBecause::Primary), "It is primary structure.");
        assert_eq!(solid_because(SolidBecause::Member(Member::Longeron)), "It runs along a longeron.");
    }
}
