//! A stringer, flange or frame spliced leg by leg: the area method of AC 43.13-1B para 4-58j to 4-58n.
//!
//! Each leg of the cross-section is spliced by itself: a plate of more area than the leg, rivets on each side of the cut for the strength
//! of the leg. The diameter is two to three times the leg's thickness and not over a quarter of its width.
//!
//! | rule | where |
//! |---|---|
//! | diameter 2 to 3 t, at most W/4 | para 4-58l |
//! | area of a plate above that of its leg, width × thickness | para 4-58k |
//! | rivets each side of the cut, each leg by itself | para 4-58m |
//! | a frame's plate thicker than the frame and longer than twice its web | para 4-58n, figure 4-20 |
//! | end rivets of the lower wing surface as large as the skin's | para 4-58j(2), 4-58l |
//! | four leg widths on each side of the damage | US Army AL0992, p 84 |

use super::bend::{least_radius, setback};
use super::count::{By, ByTable, Rate, by_table, carries, no_count, no_limit, rate_of};
use super::gauge_table::{self, gauges};
use super::in_row::{InRow, LaidRows, in_row};
use super::patch::{STEP, for_material, for_sites};
use super::site::{Site, refused};
use super::told::{Tell, Told};
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::joint::row::RowError;
use crate::joint::splice::{self, Fastener, SpliceError, SpliceMember, shared_among, tables};
use crate::joint::strength::Shear;
use crate::layout::Point;
use crate::length::{Interval, Length, Toleranced, product, quotient};
use crate::material::Material;
use crate::practice::{Case, Given, HANDBOOK, Key, Name, Practice};
use crate::quantity::Mass;
use crate::rivet::MS20470;
use crate::rivet::mass::mass_each;
use crate::rivet::part::Part;
use crate::select::choose_diameter;
use crate::setters::setters;
use crate::stack::{Layer, Role, Stack};

/// By how much a filler is shorter than its gap.
pub const FILLER_ROOM: Length = Length::THIRTY_SECOND;
/// The most legs of a cross-section.
pub const MAX_LEGS: usize = 5;
/// Diameter of an AN-3 bolt.
pub const BOLT_DIAMETER: Length = Length::from_ten_thousandths(1_900);

crate::words::words! {
    /// A named cross-section.
    #[non_exhaustive]
    Shape, "cross-section" {
        Flat = 1, "flat", "One leg.";
        Angle = 2, "angle", "Two legs.";
        BulbAngle = 3, "bulb-angle", "A leg and a bulbed leg.";
        Channel = 4, "channel", "Flange, web, flange, both flanges on one side.";
        Zee = 5, "zee", "Flange, web, flange, the flanges on either side.";
        Tee = 6, "tee", "Web, and flange across it.";
        Hat = 7, "hat", "Flange, web, crown, web, flange.";
    }
}

impl Shape {
    /// How many legs it has.
    #[must_use]
    pub const fn legs(self) -> usize {
        match self {
            Shape::Flat => 1,
            Shape::Angle | Shape::BulbAngle | Shape::Tee => 2,
            Shape::Channel | Shape::Zee => 3,
            Shape::Hat => 5,
        }
    }
}

crate::words::words! {
    /// What is spliced.
    #[non_exhaustive]
    Spliced, "spliced member" {
        Stringer = 1, "stringer", "A stringer whose place is not said: the whole count of the table.";
        UpperStringer = 2, "upper-stringer", "A stringer of an upper wing surface or a fuselage: 80 %.";
        LowerStringer = 3, "lower-stringer", "A stringer of a lower wing surface: the whole count, end rivets as the skin's.";
        Frame = 4, "frame", "An intermediate frame: 60 %, rounded up before and after.";
        Flange = 5, "flange", "Another flange: the whole count.";
    }
}

impl Spliced {
    /// How the table's count is reduced for it.
    #[must_use]
    pub const fn member(self) -> SpliceMember {
        match self {
            Spliced::UpperStringer => SpliceMember::Stringer,
            Spliced::Frame => SpliceMember::IntermediateFrame,
            Spliced::Stringer | Spliced::LowerStringer | Spliced::Flange => SpliceMember::Other,
        }
    }
}

/// What holds a leg.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum LegFastener {
    /// Rivets.
    #[default]
    Rivets,
    /// AN-3 bolts.
    Bolts,
}

/// One leg.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Leg {
    /// Its width.
    pub width: Length,
    /// Its thickness.
    pub thickness: Length,
    /// The skin that is riveted to it, where there is one.
    pub skin: Option<Length>,
    /// Width and thickness of its splice plate, where given; otherwise as wide as the leg, of the next gauge with more area.
    pub plate: Option<(Length, Length)>,
    /// What holds it.
    pub held: LegFastener,
}

impl Leg {
    /// A leg without skin, riveted, its plate as wide as it is.
    #[must_use]
    pub const fn new(width: Length, thickness: Length) -> Leg {
        Leg { width, thickness, skin: None, plate: None, held: LegFastener::Rivets }
    }

    setters! {
        /// The skin that is riveted to it.
        skin: Option<Length>;
        /// Width and thickness of its splice plate.
        plate: Option<(Length, Length)>;
        /// What holds it.
        held: LegFastener;
    }
}

/// What is asked.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct SpliceQuery<'s, 'a> {
    /// What is spliced.
    pub spliced: Spliced,
    /// Its cross-section.
    pub shape: Shape,
    /// What it and its plates are made of.
    pub material: Material,
    /// Its legs, in the order of [`Shape`]; of a frame's channel or zee the second is the web.
    pub legs: &'s [Leg],
    /// What is cut away between the two ends, along the member.
    pub gap: Length,
    /// The rivet, where it is given; its length does not count.
    pub rivet: Option<Part<'static>>,
    /// The rivets of the skin, which the end rivets must not be larger than.
    pub skin_rivet: Option<Length>,
    /// Where it is.
    pub sites: &'s [Site],
    /// Which count is laid out.
    pub by: By,
    /// The limits.
    pub practice: &'a Practice<'a>,
}

impl<'s, 'a> SpliceQuery<'s, 'a> {
    /// With nothing cut away, by the greater count and the limits of the handbooks.
    #[must_use]
    pub const fn new(spliced: Spliced, shape: Shape, material: Material, legs: &'s [Leg]) -> Self {
        SpliceQuery {
            spliced,
            shape,
            material,
            legs,
            gap: Length::ZERO,
            rivet: None,
            skin_rivet: None,
            sites: &[],
            by: By::Greater,
            practice: &HANDBOOK,
        }
    }

    setters! {
        /// What is cut away between the two ends.
        gap: Length;
        /// The rivet; its length does not count.
        rivet: Option<Part<'static>>;
        /// Diameter of the rivets of the skin.
        skin_rivet: Option<Length>;
        /// Where it is.
        sites: &'s [Site];
        /// Which count is laid out.
        by: By;
        /// The limits.
        practice: &'a Practice<'a>;
    }
}

impl SpliceQuery<'_, '_> {
    /// The least length of a leg's plate on each side of the cut.
    pub(crate) fn least_half(&self, leg: &LegSplice) -> Given<Length> {
        match self.spliced {
            // Longer than twice the web, both sides together: by a step.
            Spliced::Frame => Given { value: web_of(self).plus(STEP), basis: Basis::AC43_FRAME_LENGTH },
            Spliced::Stringer | Spliced::UpperStringer | Spliced::LowerStringer => {
                Given { value: leg.leg.width.times(4, 1), basis: Basis::ARMY_0992_FOUR_WIDTHS }
            }
            Spliced::Flange => Given { value: Length::ZERO, basis: Basis::AS_GIVEN },
        }
    }

    /// The case that limits are asked for, of a leg.
    #[cfg(feature = "words")]
    pub(crate) fn case_of(&self, leg: &LegSplice) -> Case {
        match leg.rivet {
            Some(rivet) => Case::of(rivet.series().head, rivet.alloy(), rivet.size()),
            None => Case::new(MS20470.head, crate::material::RivetAlloy::Al2117, BOLT_DIAMETER),
        }
    }

    /// Skin, leg and plate; `None` where they are no stack.
    #[cfg(feature = "words")]
    pub(crate) fn stack_of(&self, leg: &Leg, plate: Length) -> Option<Stack> {
        stacked(self, leg, plate).ok()
    }
}

/// A leg's splice.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct LegSplice {
    /// The leg.
    pub leg: Leg,
    /// Its area, in square inches.
    pub area_in2: f64,
    /// Width and thickness of its plate.
    pub plate: (Length, Length),
    /// The plate's area, in square inches.
    pub plate_area_in2: f64,
    /// The rivet with its length; `None` for bolts.
    pub rivet: Option<Part<'static>>,
    /// Its diameter, or the bolts'.
    pub diameter: Length,
    /// Rivets an inch, by table and by computation; `None` for bolts.
    pub rate: Option<Rate>,
    /// Bolts an inch, by the table.
    pub bolts: Option<ByTable>,
    /// Rivets or bolts needed each side of the cut.
    pub needed: u32,
    /// Lines along the member.
    pub lines: u32,
    /// Rivets in a line, each side of the cut.
    pub ranks: u32,
    /// From rivet to rivet along the member.
    pub pitch: Length,
    /// From line to line; nothing where there is one.
    pub apart: Length,
    /// From the first rivet to the cut, from the last to the end of the plate, from the outer lines to the leg's edges at least.
    pub edge: Length,
    /// Length of the plate on each side of the cut.
    pub half: Length,
    /// Diameter of one more rivet at each end of each line, as the skin's; it does not count.
    pub end_rivet: Option<Length>,
    /// Least bend radius of a plate that is bent from sheet, and the setback of a right angle at it; `None` where no table has it.
    pub bend: Option<(Interval, Length)>,
    /// The rivet, asked as a row.
    pub row: Option<InRow>,
    /// What was found about it.
    pub findings: Findings,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Splice {
    /// The legs, in the order given.
    pub legs: heapless::Vec<LegSplice, MAX_LEGS>,
    /// Length of the longest plate, the gap between the ends of the member included.
    pub length: Length,
    /// Length of the filler in the gap; `None` where there is no room for one.
    pub filler: Option<Length>,
    /// What is told with it.
    pub told: Tell,
    /// What was found.
    pub findings: Findings,
}

crate::words::errors! {
    /// Why there is no splice.
    MemberError {
        Refused { site: Site, "Where it is." } = _, "member-refused", "No published method applies in this place.",
            "no published method applies here: {site}";
        LegsDoNotFit { legs: usize, "How many it has." } = _, "member-legs", "Not as many legs as the shape has.",
            "a section of this shape has {legs} legs";
        LengthNotPositive = _, "member-length", "A width, thickness or gap that is no length of a member.",
            "widths and thicknesses must be above zero and no longer than 120 in; right would be .6x.040";
        NoRivet { leg: u8, "Which, counted from 1." } = _, "member-no-rivet", "No size of the series is small enough for this leg.",
            "leg {leg}: too narrow, no rivet is within a quarter of its width; ask the holder of the type's data";
        NoLimits { limit: Name, "Which." } = _, "member-no-limits", "The practice lacks edge distance or pitch for the rivet.",
            "the practice has no {limit} for this rivet; enter limit.{limit} in the limits file";
        NoCount { leg: u8, "Which, counted from 1."; key: Option<Key>, "What to enter for a count by strength; `None` where that is not missing." } = _, "member-no-count", "There is no count for this leg: neither table nor strengths.",
            "leg {leg}: neither a table nor published strengths give a count for it";
        NoPlate { leg: u8, "Which, counted from 1." } = _, "member-no-plate", "No gauge has the area for this leg.",
            "leg {leg}: no gauge has the area; name a plate, as in plate=1x.250";
        Stack = _, "member-pack", "The pack cannot be made.",
            "leg and plate do not make a pack";
        | Row(RowError), "A row of it is no row.";
        | Count(SpliceError), "It cannot be counted.";
    }
}

impl MemberError {
    /// What is referred in a member of this material where that is the answer; `None` for a mistake in the question.
    #[must_use]
    pub fn refusal(&self, material: &Material) -> Option<Finding> {
        match self {
            MemberError::Refused { site } => site.refusal(),
            MemberError::NoCount { key, .. } => Some(no_count(material, *key)),
            MemberError::NoLimits { limit } => Some(no_limit(*limit)),
            _ => None,
        }
    }
}

/// Sizes a splice.
///
/// # Errors
/// [`MemberError`].
///
/// ```
/// use shophead::length::Length;
/// use shophead::material::Material;
/// use shophead::repair::count::By;
/// use shophead::repair::splice::{Leg, Shape, SpliceQuery, Spliced, splice};
/// // AC 43.13-1B figure 4-20: a frame of 2017-T3, .040, flanges .6 in, web 2 in: 3, 8 and 3 rivets each side of the cut.
/// let inch = |text| Length::parse(text).unwrap();
/// let legs = [".6", "2", ".6"].map(|width| Leg::new(inch(width), inch(".040")));
/// let query = SpliceQuery::new(Spliced::Frame, Shape::Channel, Material::parse("2017")?, &legs).by(By::Example);
/// let found = splice(&query)?;
/// let needed: Vec<u32> = found.legs.iter().map(|leg| leg.needed).collect();
/// assert_eq!(needed, [3, 8, 3]);
/// assert!(found.length > inch("4"), "more than twice the web");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn splice(query: &SpliceQuery<'_, '_>) -> Result<Splice, MemberError> {
    if let Some(site) = refused(query.sites) {
        return Err(MemberError::Refused { site });
    }
    if query.legs.len() != query.shape.legs() {
        return Err(MemberError::LegsDoNotFit { legs: query.shape.legs() });
    }
    let is_length = |length: Length| length > Length::ZERO && length <= super::patch::LONGEST;
    let is_leg = |leg: &Leg| {
        let plate = leg.plate.is_none_or(|(width, thickness)| is_length(width) && is_length(thickness));
        is_length(leg.width) && is_length(leg.thickness) && leg.skin.is_none_or(is_length) && plate
    };
    if !query.legs.iter().all(is_leg) || query.gap < Length::ZERO || query.gap > super::patch::LONGEST {
        return Err(MemberError::LengthNotPositive);
    }
    let mut found = Splice {
        legs: heapless::Vec::new(),
        length: Length::ZERO,
        filler: None,
        told: Tell::default(),
        findings: Findings::new(),
    };
    for (leg, number) in query.legs.iter().zip(1_u8..) {
        let spliced = spliced_leg(query, leg, number)?;
        // Cannot fail: no shape has more legs than places.
        let _ = found.legs.push(spliced);
    }
    if query.spliced == Spliced::Frame {
        together(query, &mut found);
    }
    let longest = found.legs.iter().map(|leg| leg.half).max().unwrap_or(Length::ZERO);
    found.length = longest.plus(longest).plus(query.gap);
    found.filler = query.gap.checked_sub(FILLER_ROOM).filter(|filler| *filler > Length::ZERO);
    tell(query, &mut found);
    Ok(found)
}

fn area(width: Length, thickness: Length) -> f64 {
    width.to_inches_f64() * thickness.to_inches_f64()
}

/// Whether one section has more area than another, exactly.
fn has_more(one: (Length, Length), other: (Length, Length)) -> bool {
    let area = |(width, thickness): (Length, Length)| {
        product(i128::from(width.nanometres()), i128::from(thickness.nanometres()))
    };
    area(one) > area(other)
}

fn spliced_leg(query: &SpliceQuery<'_, '_>, leg: &Leg, number: u8) -> Result<LegSplice, MemberError> {
    let mut findings = Findings::new();
    let plate = plate_of(query, leg, number, &mut findings)?;
    let bend = least_radius(query.material, plate.1, query.practice).and_then(|radius| {
        let setback = setback(90.0, radius.value.min(), plate.1)?;
        Some((radius.value, setback.value))
    });
    let mut found = LegSplice {
        leg: *leg,
        area_in2: area(leg.width, leg.thickness),
        plate,
        plate_area_in2: area(plate.0, plate.1),
        rivet: None,
        diameter: BOLT_DIAMETER,
        rate: None,
        bolts: None,
        needed: 0,
        lines: 1,
        ranks: 0,
        pitch: Length::ZERO,
        apart: Length::ZERO,
        edge: BOLT_DIAMETER.times(2, 1),
        half: Length::ZERO,
        end_rivet: None,
        bend,
        row: None,
        findings: Findings::new(),
    };
    let case = match leg.held {
        LegFastener::Bolts => {
            let named = tables(query.material.alloy(), query.material.temper(), query.material.is_clad());
            let table = named.map(|named| named.also.filter(|_| query.by == By::Example).unwrap_or(named.first));
            let count = |table| by_table(table, leg.thickness, Fastener::An3Bolt, query.spliced.member());
            let bolts = table.map(count).transpose()?.flatten();
            let bolts = bolts.ok_or(MemberError::NoCount { leg: number, key: None })?;
            found.needed = count_of(&bolts, leg.width)?;
            found.bolts = Some(bolts);
            Case::new(MS20470.head, crate::material::RivetAlloy::Al2117, BOLT_DIAMETER)
        }
        LegFastener::Rivets => rivets(query, leg, number, &mut found, &mut findings)?,
    };
    lay(query, &case, &mut found)?;
    if let Some(rivet) = found.rivet {
        let stack = stacked(query, leg, found.plate.1)?;
        let row = in_row(&LaidRows {
            rivet: rivet.without_length(),
            stack: &stack,
            edge: found.edge,
            pitch: found.pitch,
            rows: 1,
            apart: found.pitch,
            staggered: false,
            shear: Shear::Single,
            practice: query.practice,
        })?;
        findings.extend(found.rate.as_ref().map_or(&row.findings, |rate| rate.of_rivets(&row)));
        found.rivet = Some(row.rivet);
        found.row = Some(row);
    }
    if query.spliced == Spliced::LowerStringer {
        match query.skin_rivet {
            Some(skin) if skin < found.diameter => found.end_rivet = Some(skin),
            Some(_) => {}
            None => findings.push(Finding::new(Code::NotChecked, Severity::Caution, Basis::AC43_END_RIVETS)),
        }
    }
    found.findings = findings;
    Ok(found)
}

fn count_of(bolts: &ByTable, width: Length) -> Result<u32, SpliceError> {
    Ok(splice::count(bolts.used, width, bolts.member, bolts.member.rounding())?.total)
}

/// The plate as given, or as wide as its leg and of the next gauge with more area; for a frame thicker than the frame.
fn plate_of(
    query: &SpliceQuery<'_, '_>,
    leg: &Leg,
    number: u8,
    findings: &mut Findings,
) -> Result<(Length, Length), MemberError> {
    let own = (leg.width, leg.thickness);
    let (width, thickness) = match leg.plate {
        Some(plate) => plate,
        None => {
            let heavier = gauge_table::next_heavier(leg.thickness).map(|next| next.value);
            let fits = |gauge: &Length| has_more((leg.width, *gauge), own);
            let gauge = heavier.or_else(|| gauges().find(fits)).ok_or(MemberError::NoPlate { leg: number })?;
            (leg.width, gauge)
        }
    };
    if !has_more((width, thickness), own) {
        let found = Finding::new(Code::SpliceAreaShort, Severity::Refer, Basis::AC43_SPLICE_AREA);
        let figures = found.with_measured(Figure::Ratio(area(width, thickness) / area(leg.width, leg.thickness)));
        findings.push(figures.with_limit(Figure::Ratio(1.0)));
    }
    if query.spliced == Spliced::Frame && thickness <= leg.thickness {
        let found = Finding::new(Code::RepairTooThin, Severity::Refer, Basis::AC43_FRAME_PLATE);
        findings.push(found.with_measured(Figure::Length(thickness)).with_limit(Figure::Length(leg.thickness)));
    }
    Ok((width, thickness))
}

/// Rivet and count of a leg.
fn rivets<'a>(
    query: &SpliceQuery<'_, 'a>,
    leg: &Leg,
    number: u8,
    found: &mut LegSplice,
    findings: &mut Findings,
) -> Result<Case, MemberError> {
    let quarter = leg.width.times(1, 4);
    let (least, greatest) = (leg.thickness.times(2, 1), leg.thickness.times(3, 1));
    let rivet = match query.rivet {
        Some(rivet) => rivet.without_length(),
        None => in_leg(query, leg, quarter).ok_or(MemberError::NoRivet { leg: number })?,
    };
    let diameter = rivet.diameter();
    let against = |code, severity, basis, limit| {
        let found = Finding::new(code, severity, basis);
        found.with_measured(Figure::Length(diameter)).with_limit(Figure::Length(limit))
    };
    if diameter > quarter {
        findings.push(against(Code::DiameterOutsideRule, Severity::Refer, Basis::AC43_DIAMETER_OF_WIDTH, quarter));
    }
    if diameter < least {
        findings.push(against(Code::DiameterOutsideRule, Severity::Note, Basis::AC43_DIAMETER_IN_LEG, least));
    } else if diameter > greatest {
        findings.push(against(Code::DiameterOutsideRule, Severity::Note, Basis::AC43_DIAMETER_IN_LEG, greatest));
    }
    let case = Case::for_part(&query.practice.rivet(rivet));
    let limit =
        |name| query.practice.length(name, &case).map(|limit| limit.value).ok_or(MemberError::NoLimits { limit: name });
    found.edge = limit(Name::EdgeDistanceLeast)?;
    // A row in the middle of the leg, or of its plate where that is narrower, is the farthest from both edges.
    let middle = leg.width.min(found.plate.0).times(1, 2);
    if let Some(least) = query.practice.length(Name::EdgeDistanceLeast, &case).filter(|least| middle < least.value) {
        findings.push(Finding::against(Code::EdgeDistanceShort, Severity::Refer, middle, &least));
    }
    let stack = stacked(query, leg, found.plate.1)?;
    let rows = LaidRows {
        rivet,
        stack: &stack,
        edge: found.edge,
        pitch: limit(Name::PitchLeast)?,
        rows: 1,
        apart: found.edge,
        staggered: false,
        shear: Shear::Single,
        practice: query.practice,
    };
    let carries = carries(&in_row(&rows)?);
    let rate =
        rate_of(query.material, leg.thickness, &rivet, query.spliced.member(), carries, query.by, query.practice)?;
    let uncounted = || MemberError::NoCount { leg: number, key: rate.key() };
    found.needed = rate.over(leg.width)?.ok_or_else(uncounted)?;
    findings.extend(&rate.findings);
    (found.rate, found.diameter, found.rivet) = (Some(rate), diameter, Some(rivet));
    Ok(case)
}

/// The size for a leg: as for sheet, but not over a quarter of the leg's width.
fn in_leg(query: &SpliceQuery<'_, '_>, leg: &Leg, quarter: Length) -> Option<Part<'static>> {
    let ad = MS20470.material("AD")?;
    let wanted = choose_diameter(&MS20470, ad.alloy, leg.thickness, query.practice).size?.shank_nominal;
    let case = Case::new(MS20470.head, ad.alloy, wanted);
    let least = query.practice.length(Name::DiameterStructuralLeast, &case).map_or(Length::ZERO, |least| least.value);
    let fits = |diameter: Length| diameter <= wanted && diameter <= quarter && diameter >= least;
    let size = MS20470.sizes.iter().rev().find(|size| fits(size.shank_nominal))?;
    Part::new(&MS20470, ad.code, size).ok()
}

/// Skin, leg and plate, the manufactured head outside.
fn stacked(query: &SpliceQuery<'_, '_>, leg: &Leg, plate: Length) -> Result<Stack, MemberError> {
    let mut stack = Stack::new();
    let layer =
        |role, thickness| Layer { role, material: Some(query.material), ..Layer::of(Toleranced::exactly(thickness)) };
    let skin = leg.skin.map(|skin| layer(Role::Skin, skin));
    for layer in skin.into_iter().chain([layer(Role::Stringer, leg.thickness), layer(Role::Doubler, plate)]) {
        stack.push(layer).map_err(|_| MemberError::Stack)?;
    }
    Ok(stack)
}

/// Lines and ranks: so many lines that no more rivets than needed go in where that can be, and of such the shortest plate, by the fewest lines.
fn lay(query: &SpliceQuery<'_, '_>, case: &Case, found: &mut LegSplice) -> Result<(), MemberError> {
    let limit = |name, case: &Case| query.practice.length(name, case).map(|limit| limit.value);
    let none = MemberError::NoLimits { limit: Name::PitchLeast };
    let pitch = limit(Name::PitchLeast, case).ok_or(none)?.ceil_to(STEP);
    let greatest = limit(Name::PitchGreatest, case).unwrap_or(Length::MAX);
    let edge = found.edge;
    let narrower = found.leg.width.min(found.plate.0);
    // Lines no closer than rivets of a line.
    let room = narrower.minus(edge).minus(edge).max(Length::ZERO);
    let between = quotient(i128::from(room.nanometres()), i128::from(pitch.nanometres()));
    let fit = u32::try_from(between).unwrap_or(0).saturating_add(1);
    let least_half = query.least_half(found).value;
    let mut best: Option<(u32, Length, u32, u32, Length)> = None;
    for lines in 1..=fit.min(found.needed.max(1)) {
        let ranks = shared_among(found.needed, lines);
        let gaps = ranks.saturating_sub(1);
        let half = edge.plus(edge).plus(pitch.times(gaps, 1)).max(least_half).ceil_to(STEP);
        let spread = if gaps == 0 { Length::ZERO } else { half.minus(edge).minus(edge).times(1, gaps).floor_to(STEP) };
        if spread > greatest && lines > 1 {
            continue;
        }
        let extra = lines.saturating_mul(ranks).saturating_sub(found.needed);
        let candidate = (extra, half, lines, ranks, spread);
        if best.is_none_or(|best| (candidate.0, candidate.1) < (best.0, best.1)) {
            best = Some(candidate);
        }
    }
    if let Some((_, half, lines, ranks, spread)) = best {
        (found.half, found.lines, found.ranks) = (half, lines, ranks);
        found.pitch = spread.max(pitch);
        let gaps = lines.saturating_sub(1);
        found.apart = if gaps == 0 { Length::ZERO } else { room.times(1, gaps).floor_to(STEP) };
    }
    Ok(())
}

/// The web of a frame: the second leg of three, else the widest.
fn web_of(query: &SpliceQuery<'_, '_>) -> Length {
    match query.legs {
        [_, web, _] => web.width,
        legs => legs.iter().map(|leg| leg.width).max().unwrap_or(Length::ZERO),
    }
}

/// A frame's plate is one piece: every leg as long as the longest, its rivets spread over it.
fn together(query: &SpliceQuery<'_, '_>, found: &mut Splice) {
    let longest = found.legs.iter().map(|leg| leg.half).max().unwrap_or(Length::ZERO);
    for leg in &mut found.legs {
        let gaps = leg.ranks.saturating_sub(1);
        if gaps > 0 {
            let spread = longest.minus(leg.edge).minus(leg.edge).times(1, gaps).floor_to(STEP);
            leg.pitch = leg.pitch.max(spread);
        }
        leg.half = longest;
    }
    let web = web_of(query);
    let whole = longest.plus(longest);
    if whole <= web.plus(web) {
        let short = Finding::new(Code::SpliceTooShort, Severity::Refer, Basis::AC43_FRAME_LENGTH);
        found.findings.push(short.with_measured(Figure::Length(whole)).with_limit(Figure::Length(web.plus(web))));
    }
}

fn tell(query: &SpliceQuery<'_, '_>, found: &mut Splice) {
    let told = &mut found.told;
    told.all(&[
        Told::Method,
        Told::Authority,
        Told::AllowableDamage,
        Told::WeightAndBalance,
        Told::EqualStrength,
        Told::StressPath,
        Told::Rigidity,
        Told::SameMaterial,
        Told::TensionToo,
        Told::Symmetric,
        Told::EveryElement,
        Told::Buckled,
        Told::NoLocalHeat,
        Told::Mark,
        Told::Holes,
        Told::HolesFirst,
        Told::Protect,
        Told::DriveWet,
        Told::RivetSet,
        Told::DrivenRivets,
        Told::Neighbours,
    ]);
    match query.spliced {
        Spliced::Frame => told.all(&[Told::SpreadRivets, Told::FreeFlange, Told::FrameBuckles]),
        Spliced::Flange => told.tell(Told::FlangeStrength),
        Spliced::Stringer | Spliced::UpperStringer | Spliced::LowerStringer => {
            told.all(&[Told::EndHoles, Told::Outermost, Told::TaperEnds, Told::StaggerSplices]);
        }
    }
    if found.filler.is_some() {
        told.tell(Told::FillGap);
    }
    if query.spliced == Spliced::LowerStringer {
        told.tell(Told::LowerWing);
    }
    if query.shape == Shape::BulbAngle {
        told.tell(Told::BulbRow);
    }
    if query.legs.windows(2).any(|pair| matches!(pair, [one, next] if one.held != next.held)) {
        told.tell(Told::OneFastener);
    }
    if query.shape != Shape::Flat {
        told.all(&[Told::BendLine, Told::TreatFirst]);
    }
    for_material(query.material, told);
    for_sites(query.sites, told);
}

/// A rivet or bolt of a splice, on the section unfolded: x along the member from the middle of the gap, y across the legs laid side by side
/// in the order given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct SpliceHole {
    /// Its source.
    pub at: Point,
    /// Its leg, counted from 1.
    pub leg: u8,
    /// Diameter of the rivet or bolt.
    pub diameter: Length,
    /// Whether it counts; an end rivet of the skin's size does not.
    pub counts: bool,
}

impl Splice {
    /// What was found, about the whole and about every leg.
    pub fn all_findings(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().chain(self.legs.iter().flat_map(|leg| leg.findings.iter()))
    }

    /// The mass of a leg's plate; `None` where its density is not known.
    #[must_use]
    pub fn plate_mass(&self, query: &SpliceQuery<'_, '_>, leg: &LegSplice) -> Option<Mass> {
        let (density, _) = query.practice.sheet(query.material, leg.plate.1).density_lb_in3()?;
        let long = leg.half.plus(leg.half).plus(query.gap);
        Some(Mass::from_lb(leg.plate_area_in2 * long.to_inches_f64() * density))
    }

    /// How many rivets of a leg, by its number counted from 1, count.
    #[must_use]
    pub fn rivets_of(&self, query: &SpliceQuery<'_, '_>, leg: u8) -> u32 {
        let counts = self.holes(query.gap).filter(|hole| hole.counts && hole.leg == leg).count();
        u32::try_from(counts).unwrap_or(u32::MAX)
    }

    /// The mass of plates and rivets, an estimate; `None` where something of it is not known: a bolt, an end rivet, whose length the shop picks, a
    /// density.
    #[must_use]
    pub fn mass(&self, query: &SpliceQuery<'_, '_>) -> Option<Mass> {
        let mut sum = 0.0;
        for (leg, number) in self.legs.iter().zip(1_u8..) {
            let rivet = leg.rivet.filter(|_| leg.end_rivet.is_none())?;
            let (density, _) = rivet.alloy().density_lb_in3()?;
            sum += self.plate_mass(query, leg)?.lb();
            sum += mass_each(&rivet, density)?.lb() * f64::from(self.rivets_of(query, number));
        }
        Some(Mass::from_lb(sum))
    }

    /// Every rivet and bolt, leg by leg.
    pub fn holes(&self, gap: Length) -> impl Iterator<Item = SpliceHole> + Clone + '_ {
        let from = gap.times(1, 2);
        let legs = self.legs.iter().scan(Length::ZERO, |side, leg| {
            let own = *side;
            *side = side.plus(leg.leg.width);
            Some((leg, own))
        });
        legs.zip(1_u8..).flat_map(move |((leg, side), number)| {
            let ends = u32::from(leg.end_rivet.is_some());
            let places = leg.ranks.saturating_add(ends);
            (0..leg.lines).flat_map(move |line| {
                (0..places).flat_map(move |rank| {
                    let counts = rank < leg.ranks;
                    let diameter = if counts { leg.diameter } else { leg.end_rivet.unwrap_or(leg.diameter) };
                    let middle = leg.leg.width.times(1, 2);
                    let first = leg.apart.times(leg.lines.saturating_sub(1), 2);
                    let y = side.plus(middle).minus(first).plus(leg.apart.times(line, 1));
                    let x = from.plus(leg.edge).plus(leg.pitch.times(rank, 1));
                    [x, Length::ZERO.minus(x)].into_iter().map(move |x| SpliceHole {
                        at: Point { x, y },
                        leg: number,
                        diameter,
                        counts,
                    })
                })
            })
        })
    }
}
