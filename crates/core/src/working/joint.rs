//! What one rivet carries and what rows of it do, step by step.

use super::{About, Input, Kind, Quantity, Working, besides, rules, shares, symbols};
use crate::basis::Basis;
use crate::installation::Installation;
use crate::joint::margin::{Factors, Load, LoadKind, Margin};
use crate::joint::row::{RowStrength, countersink_of};
use crate::joint::strength::{
    Allowable, BearingKind, JointStrength, Preparation, Shear, SheetStrength, bearing_stress, nominal_hole,
};
use crate::joint::{hole_table, modes};
use crate::length::Length;
use crate::material::{Property, SheetProperties, Strengths};
use crate::quantity::Force;
use crate::stack::Layer;

symbols! {
    HOLE = "H", "hole as measured, or as drilled";
    NOMINAL_HOLE = "Hn", "nominal hole of the rivet, or its shank where no table has one";
    COUNTED = "d", "diameter counted in shear and bearing";
    SHANK = "D", "nominal shank diameter";
    LARGER = "De", "diameter that the edge distance counts: the larger of hole and shank";
    THICKNESS = "t", "thickness of the sheet";
    FSU_RIVET = "Fsr", "shear strength of the driven rivet";
    PLANES = "n", "planes in which the rivet is sheared";
    THIN = "k", "factor on shear for thin sheet";
    ONE_PLANE = "P1", "shear of the rivet in one plane";
    CELL = "Pc", "cell of the strength handbook for one plane, never counted higher";
    SHEAR = "Ps", "shear of the rivet in all planes";
    EDGE_GIVEN = "eg", "distance to the edge in the direction of the load";
    EDGE = "e", "edge distance in the direction of the load";
    MARGIN_OF_EDGE = "m", "edge margin e/D";
    FBR_15 = "F15", "bearing strength at e/D 1.5";
    FBR_20 = "F20", "bearing strength at e/D 2.0";
    FBR = "Fbr", "bearing strength at this edge margin";
    BEARING = "B", "bearing of the sheet";
    FLUSH_CELL = "Bt", "load of the tested flush joint";
    FLUSH = "Bf", "load of the flush joint";
    FSU = "Fsu", "shear strength of the sheet";
    TEAR_OUT = "T", "tear-out of the sheet to its edge";
    SHARE = "s", "part of the rivet's load that the sheet gets";
    PART = "X", "load of the sheet in this way";
    ON_RIVET = "Q", "load on the rivet at which the sheet fails";
    ALLOWABLE = "P", "what one rivet carries";
    LOAD = "F", "load that is carried";
    WHOLE_LOAD = "Fp", "load on one pitch of all rows";
    SAFETY = "fs", "factor of safety";
    FITTING = "ff", "fitting factor";
    FACTORED = "L", "load with its factors";
    LIMIT = "Fl", "limit load";
    LIMIT_FACTORED = "Ly", "limit load with the fitting factor";
    MARGIN = "MS", "margin of safety";
    FBRY_15 = "Fy15", "bearing yield at e/D 1.5";
    FBRY_20 = "Fy20", "bearing yield at e/D 2.0";
    FBRY = "Fbry", "bearing yield at this edge margin";
    YIELD_BEARING = "By", "bearing of the sheet at yield";
    YIELD_CELL = "Byt", "yield of the tested flush joint";
    YIELD_ON_RIVET = "Qy", "load on the rivet at which the sheet yields";
    YIELDS = "Y", "load on the rivet at which the first sheet yields";
    YIELD_MARGIN = "MSy", "margin at yield";
    FTU = "Ftu", "tension strength of the sheet";
    PITCH = "p", "distance from rivet to rivet";
    NET = "N", "tension of one pitch of the sheet between the holes";
    ROWS = "r", "rows";
    PER_INCH = "q", "rivets for every unit of width, all rows together";
    RIVETS_RUNNING = "R", "what the rivets carry for every unit of width";
    CUT_DIAMETER = "Dh", "diameter of the countersink at the surface, by the largest head";
    CUT_DEPTH = "h", "depth of the countersink; twice the sheet where it goes through";
    CUT_TEAR_DEPTH = "ht", "depth of the countersink, at most the sheet";
    NET_SUNK = "Ns", "tension between the holes, countersink taken off";
    TEAR_SUNK = "Ts", "tear-out, countersink taken off";
    SPACING = "a", "distance from row to row";
    GAUGE = "g", "half the pitch: across the load from hole to hole of the zigzag";
    NET_ZIGZAG = "Nz", "tension along the zigzag through two rows";
    NET_ANY = "Nx", "tension of one pitch between the holes, by the weaker line";
    NET_LEAST = "Nl", "the lesser of straight and zigzag";
    RUNNING = "w", "what the sheet carries between its holes for every unit of width";
    TEAR_RUNNING = "wt", "tear-out with its countersink for every unit of width";
    ROW_RUNNING = "W", "what the rows carry for every unit of width";
    ROW_PITCH = "Wp", "what one pitch of the rows carries";
    YIELD_RUNNING = "Wy", "what the rows carry at yield for every unit of width";
    YIELD_PITCH = "Wyp", "what one pitch of the rows carries at yield";
    NET_PITCH = "Np", "what one pitch of the sheet carries between its holes";
}

rules! { LIST:
    DIAMETER = "diameter-counted", "Diameter counted", COUNTED, "min(H, Hn)", HDBK5H_HOLE_CAPPED;
    THIN_SINGLE = "thin-sheet-single", "Thin sheet, single shear", THIN, "min(1, 1 - 0.04 × (D / t - 3))", HDBK5J_T8_1_2_1B;
    THIN_DOUBLE = "thin-sheet-double", "Thin sheet, double shear", THIN, "min(1, 1 - 0.13 × (D / t - 1.5))", HDBK5J_T8_1_2_1B;
    SHEAR_ONE = "rivet-shear-one-plane", "Shear of the rivet in one plane", ONE_PLANE, "Fsr × π / 4 × d²";
    SHEAR_CEILING = "rivet-shear-ceiling", "Shear, no higher than the handbook's cell", ONE_PLANE, "min(P1, Pc)";
    SHEAR_ALL = "rivet-shear", "Shear of the rivet, all planes", SHEAR, "P1 × n × k";
    SHEAR_ALL_THICK = "rivet-shear-thick", "Shear of the rivet, all planes", SHEAR, "P1 × n";
    EDGE_DIAMETER = "edge-diameter", "Diameter that the edge distance counts", LARGER, "max(H, D)";
    EDGE_IN_LINE = "edge-of-rows", "Edge distance, no more than the metal in front of an inner row", EDGE, "min(eg, a - H / 2)";
    EDGE_STAGGERED = "edge-of-staggered-rows", "Edge distance, no more than the metal up to the next hole in line", EDGE, "min(eg, 2 × a - H / 2)";
    EDGE_MARGIN = "edge-margin", "Edge margin", MARGIN_OF_EDGE, "e / De";
    BEARING_BETWEEN = "bearing-between", "Bearing strength between e/D 1.5 and 2.0", FBR, "F15 + (F20 - F15) × (m - 1.5) / 0.5", HDBK5J_BEARING_BETWEEN;
    BEARING_BELOW = "bearing-below", "Bearing strength below e/D 1.5, an indication", FBR, "F15 × m / 1.5", BEARING_INDICATED;
    SHEET_BEARING = "bearing", "Bearing of the sheet", BEARING, "Fbr × d × t";
    FLUSH_BELOW = "flush-below", "Flush joint below e/D 2.0, an indication", FLUSH, "Bt × m / 2", BEARING_INDICATED;
    TEAR = "tear-out", "Tear-out to the edge", TEAR_OUT, "2 × e × t × Fsu", TEAR_OUT;
    OF_RIVET = "on-the-rivet", "Load on the rivet when the sheet fails", ON_RIVET, "X / s", DOUBLE_SHEAR;
    LEAST = "allowable", "What one rivet carries: the least", ALLOWABLE, "min(…)";
    FACTORED_BOTH = "factored-load", "Load with its factors", FACTORED, "F × fs × ff";
    FACTORED_SAFETY = "factored-load-safety", "Load with its factor", FACTORED, "F × fs";
    FACTORED_FITTING = "factored-load-fitting", "Ultimate load with the fitting factor", FACTORED, "F × ff";
    FACTORED_NONE = "factored-load-none", "Ultimate load", FACTORED, "F";
    OVER_LOAD = "margin", "Margin of safety", MARGIN, "P / L - 1";
    YIELD_BETWEEN = "yield-between", "Bearing yield between e/D 1.5 and 2.0", FBRY, "Fy15 + (Fy20 - Fy15) × (m - 1.5) / 0.5", HDBK5J_BEARING_BETWEEN;
    YIELD_OF_SHEET = "bearing-yield", "Bearing of the sheet at yield", YIELD_BEARING, "Fbry × d × t";
    YIELD_OF_RIVET = "yield-on-the-rivet", "Load on the rivet when the sheet yields", YIELD_ON_RIVET, "By / s", DOUBLE_SHEAR;
    YIELD_LEAST = "yield", "Load at which the first sheet yields, never above what the rivet carries", YIELDS, "min(…)";
    LIMIT_OF_ULTIMATE = "limit-load", "Limit load", LIMIT, "F / fs";
    LIMIT_GIVEN = "limit-load-given", "Limit load", LIMIT, "F";
    LIMIT_WITH_FITTING = "limit-load-fitting", "Limit load with the fitting factor", LIMIT_FACTORED, "Fl × ff";
    YIELD_OVER_LOAD = "margin-at-yield", "Margin at yield", YIELD_MARGIN, "Y / Ly - 1", CFR14_25_305;
    YIELD_OVER_LIMIT = "margin-at-yield-limit", "Margin at yield", YIELD_MARGIN, "Y / Fl - 1", CFR14_25_305;
    NET_SECTION = "net-section", "Tension between the holes, a pitch", NET, "Ftu × t × (p - H)";
    NET_CUT = "net-section-countersunk", "Tension between the holes, countersink taken off", NET_SUNK, "max(0, N - Ftu × h × (Dh - D) / 2)", COUNTERSINK_CARRIES_NOTHING;
    TEAR_CUT = "tear-out-countersunk", "Tear-out, countersink taken off", TEAR_SUNK, "max(0, T - Fsu × ht × Dh)", COUNTERSINK_CARRIES_NOTHING;
    ZIGZAG = "net-section-zigzag", "Tension along the zigzag, a pitch", NET_ZIGZAG, "max(0, Ftu × t × (p - 2 × H + a² / (2 × g)))", ZIGZAG_NET_WIDTH;
    ZIGZAG_CUT = "net-section-zigzag-countersunk", "Tension along the zigzag, both countersinks taken off", NET_ZIGZAG, "max(0, max(0, Ftu × t × (p - 2 × H + a² / (2 × g))) - 2 × Ftu × h × (Dh - D) / 2)", ZIGZAG_NET_WIDTH;
    HALF_PITCH = "zigzag-gauge", "Across the load from hole to hole of the zigzag", GAUGE, "p / 2";
    NET_OF_BOTH = "net-section-weakest", "Tension between the holes, the weaker line", NET_LEAST, "min(…)";
    RIVETS_PER = "rivets-per-width", "Rivets for every unit of width", PER_INCH, "r / p";
    RIVETS_CARRY = "rivets-carry", "The rivets for every unit of width", RIVETS_RUNNING, "P × q";
    NET_RUNNING = "net-section-running", "The sheet between its holes for every unit of width", RUNNING, "Nx / p";
    NET_RUNNING_SHARED = "net-section-running-shared", "The sheet between its holes, for its part of the load", RUNNING, "Nx / p / s";
    TEAR_RUNNING_RULE = "tear-out-running", "Tear-out with its countersink for every unit of width", TEAR_RUNNING, "Ts × q / s";
    ROWS_CARRY = "rows-carry", "What the rows carry for every unit of width: the least", ROW_RUNNING, "min(…)";
    ON_PITCH = "rows-carry-a-pitch", "What one pitch of the rows carries", ROW_PITCH, "W × p";
    ROW_LOAD_RIVETS = "load-of-rows", "Load on one pitch of all rows", WHOLE_LOAD, "F × r";
    ROW_FACTORED_BOTH = "rows-factored-load", "Load with its factors", FACTORED, "Fp × fs × ff";
    ROW_FACTORED_SAFETY = "rows-factored-load-safety", "Load with its factor", FACTORED, "Fp × fs";
    ROW_FACTORED_FITTING = "rows-factored-load-fitting", "Ultimate load with the fitting factor", FACTORED, "Fp × ff";
    ROW_FACTORED_NONE = "rows-factored-load-none", "Ultimate load", FACTORED, "Fp";
    ROW_OVER_LOAD = "rows-margin", "Margin of the rows", MARGIN, "Wp / L - 1";
    ROW_YIELD = "rows-yield", "What the rows carry at yield for every unit of width", YIELD_RUNNING, "min(Y × q, W)";
    YIELD_ON_PITCH = "rows-yield-a-pitch", "What one pitch of the rows carries at yield", YIELD_PITCH, "Wy × p";
    ROW_LIMIT_OF_ULTIMATE = "rows-limit-load", "Limit load", LIMIT, "Fp / fs";
    ROW_LIMIT_GIVEN = "rows-limit-load-given", "Limit load", LIMIT, "Fp";
    ROW_YIELD_OVER_LOAD = "rows-margin-at-yield", "Margin of the rows at yield", YIELD_MARGIN, "Wyp / Ly - 1", CFR14_25_305;
    ROW_YIELD_OVER_LIMIT = "rows-margin-at-yield-limit", "Margin of the rows at yield", YIELD_MARGIN, "Wyp / Fl - 1", CFR14_25_305;
    NET_MARGIN = "net-section-margin", "Margin of the sheet between its holes", MARGIN, "Np / L - 1";
    DOUBLER_MARGIN = "doubler-margin", "Margin of the doubler: the least", MARGIN, "min(…)";
}

/// A strength of a sheet.
pub(crate) fn of_sheet(symbol: super::Symbol, property: Property, sheet: &Strengths<'_>) -> Option<Input<'static>> {
    let (stress, basis) = sheet.figure(property)?;
    let figure = Input::new(symbol, stress, basis);
    let guarantee = match sheet.entered().filter(|entered| entered.figure(property).is_some()) {
        Some(entered) => entered.guarantee(),
        None => sheet.published().map(SheetProperties::guarantee),
    };
    Some(guarantee.map_or(figure, |guarantee| figure.guaranteed(guarantee)))
}

fn properties_of<'a>(question: &Installation<'_, 'a>, layer: &Layer) -> Option<Strengths<'a>> {
    Some(question.practice().sheet(layer.material?, layer.thickness.nominal()))
}

/// The figures of one rivet that later steps need.
#[derive(Clone, Debug, Default)]
pub struct Carried {
    /// What it carries, or what is indicated.
    pub allowable: Option<Input<'static>>,
    /// The load at which the first sheet yields.
    pub yields: Option<Input<'static>>,
    /// Shear of the rivet in all planes.
    pub(crate) shear: Option<Input<'static>>,
    /// Bearing or flush joint of each sheet.
    pub(crate) bearings: heapless::Vec<Option<Input<'static>>, { crate::joint::strength::MAX_SHEETS }>,
    tear_outs: heapless::Vec<Option<Input<'static>>, { crate::joint::strength::MAX_SHEETS }>,
    nets: heapless::Vec<Option<Input<'static>>, { crate::joint::strength::MAX_SHEETS }>,
}

/// The diameters that the sheets count.
struct Diameters {
    counted: Input<'static>,
    larger: Input<'static>,
    net: Input<'static>,
    shank: Input<'static>,
}

/// What one rivet carries and its margins, as [`Installation::strength`] found them.
///
/// ```
/// use shophead::installation::Installation;
/// use shophead::length::Length;
/// use shophead::rivet::part::Part;
/// use shophead::stack::Stack;
/// use shophead::words::Units;
/// use shophead::working::{Working, joint};
/// let layers = Stack::parse("2024-T3:.040, 2024-T3:.064")?;
/// let question = Installation::new(Part::parse("MS20470AD4")?, &layers).edge(Length::parse(".25")?);
/// let found = question.strength()?;
/// let mut last = String::new();
/// joint::of(&question, &found, &mut Working::new(&mut |step| {
///     if step.rule.word == "allowable" {
///         last = format!("{} = {} = {}", step.rule.result.text, step.rule.formula, step.result.shown(Units::Inches));
///     }
/// }));
/// // The least of shear, bearing and tear-out.
/// assert_eq!(last, "P = min(…) = 386.06");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn of(question: &Installation<'_, '_>, found: &JointStrength, work: &mut Working<'_>) {
    let carried = one_rivet(question, found, work);
    margins(question, found, &carried, None, work);
    besides::axial(question, found, carried.shear, work);
}

/// What one rivet carries, without a load.
pub fn one_rivet(question: &Installation<'_, '_>, found: &JointStrength, work: &mut Working<'_>) -> Carried {
    let mut carried = Carried::default();
    let (Some(stack), Some(edge)) = (question.layers(), question.edge_counted()) else { return carried };
    let diameters = diameters(question, found, work);
    let mut parts = heapless::Vec::<Input<'static>, { 1 + 2 * crate::joint::strength::MAX_SHEETS }>::new();
    let mut yields = heapless::Vec::<Input<'static>, { 1 + crate::joint::strength::MAX_SHEETS }>::new();
    // Room for shear and two a sheet.
    let mut part = |figure: Option<Input<'static>>| figure.map(|figure| parts.push(figure).ok());
    carried.shear = shear(question, found, &diameters, work);
    part(carried.shear);
    let edge = edge_of(question, edge, work);
    let margin = found.sheets.first().map(|sheet| {
        work.step(&EDGE_MARGIN, About::Whole, &[edge, diameters.larger], Quantity::number(sheet.edge_margin()))
    });
    for (sheet, layer) in found.sheets.iter().zip(stack.load_carrying()) {
        let about = About::Layer(sheet.layer());
        let at = At { question, sheet, layer, about, diameters: &diameters, edge, margin };
        let (bearing, yielding) = at.bearing(work);
        let tear_out = at.tear_out(work);
        part(bearing.map(|bearing| at.on_rivet(bearing, work)));
        part(tear_out.map(|tear_out| at.on_rivet(tear_out, work)));
        if let Some(yielding) = yielding {
            let on_rivet = if sheet.share() < 1.0 {
                let load = Force::from_lbf(yielding.held() / sheet.share());
                work.step(&YIELD_OF_RIVET, about, &[yielding.called(YIELD_BEARING), at.share()], load)
            } else {
                yielding
            };
            // Room for every sheet.
            let _ = yields.push(on_rivet);
        }
        // Room for every sheet.
        let _ = carried.bearings.push(bearing);
        let _ = carried.tear_outs.push(tear_out);
        let _ = carried.nets.push(at.net(work));
    }
    let least = found.allowable.or(found.indication);
    carried.allowable = least.map(|least| work.step(&LEAST, About::Whole, &parts, least.force));
    if let (Some(allowable), Some(least)) =
        (carried.allowable.filter(|_| found.allowable.is_some()), found.yield_load())
    {
        let _ = yields.push(allowable);
        carried.yields = Some(work.step(&YIELD_LEAST, About::Whole, &yields, least.force));
    }
    carried
}

/// The edge distance that counts: of several rows no more than the metal in front of an inner one.
fn edge_of(question: &Installation<'_, '_>, counted: Length, work: &mut Working<'_>) -> Input<'static> {
    let Some((given, basis)) = question.edge_wanted() else { return Input::given(EDGE, counted) };
    let Some(spacing) = question.row_spacing_given() else { return Input::new(EDGE, given, basis) };
    let hole = question.hole_or_drilled();
    let figures = [
        Input::new(EDGE_GIVEN, given, basis),
        Input::given(SPACING, spacing),
        Input::new(HOLE, hole.value.max(), hole.basis),
    ];
    work.step(if question.is_staggered() { &EDGE_STAGGERED } else { &EDGE_IN_LINE }, About::Whole, &figures, counted)
}

fn diameters(question: &Installation<'_, '_>, found: &JointStrength, work: &mut Working<'_>) -> Diameters {
    let size = question.rivet().size();
    let shank = Input::new(SHANK, size.shank_nominal, size.basis);
    let (counted, basis) = found.diameter;
    let tabulated = hole_table::nominal_hole(size.shank_nominal);
    let nominal = Input::new(NOMINAL_HOLE, nominal_hole(size.shank_nominal), tabulated.map_or(basis, |row| row.basis));
    let Some(hole) = question.hole_counted() else {
        return Diameters {
            counted: Input::new(COUNTED, counted, basis),
            larger: shank.called(LARGER),
            net: nominal.called(HOLE),
            shank,
        };
    };
    let hole = Input::given(HOLE, hole);
    let counted = work.step(&DIAMETER, About::Whole, &[hole, nominal], counted);
    let larger = Quantity::new(Kind::Length, hole.held().max(shank.held()));
    let larger = work.step(&EDGE_DIAMETER, About::Whole, &[hole, shank], larger);
    Diameters { counted, larger, net: hole, shank }
}

/// Shear of the rivet in all planes; `None` where it is not known.
fn shear(
    question: &Installation<'_, '_>,
    found: &JointStrength,
    diameters: &Diameters,
    work: &mut Working<'_>,
) -> Option<Input<'static>> {
    let ((driven, basis), all) = (question.shear_of_rivet()?, found.shear?);
    let single = modes::rivet_shear(driven, found.diameter.0, 1.0);
    let fsu = Input::new(FSU_RIVET, driven, basis);
    let mut one = work.step(&SHEAR_ONE, About::Whole, &[fsu, diameters.counted], single);
    if let Some(ceiling) = found.ceiling.filter(|ceiling| ceiling.force < single) {
        let cell = Input::new(CELL, ceiling.force, ceiling.basis);
        one = work.step(&SHEAR_CEILING, About::Whole, &[one, cell], ceiling.force);
    }
    let planes = question.shear_planes();
    let basis = if planes == Shear::Double { Basis::DOUBLE_SHEAR } else { Basis::AS_GIVEN };
    let planes = Input::new(PLANES, Quantity::count(planes.planes()), basis);
    let thin = found.thin_sheet_factor.map(|factor| {
        if factor >= 1.0 {
            return Input::new(THIN, Quantity::number(factor), Basis::HDBK5J_T8_1_2_1B);
        }
        let stack = question.layers();
        let mut layers = stack.into_iter().flat_map(|stack| stack.load_carrying());
        let thickness = |layer: &Layer| layer.thickness.nominal();
        let (rule, thickness) = match question.shear_planes() {
            Shear::Single => {
                let straight = layers.filter(|layer| layer.preparation == Preparation::Plain);
                (&THIN_SINGLE, straight.map(thickness).min())
            }
            Shear::Double => (&THIN_DOUBLE, layers.nth(1).map(thickness)),
        };
        let thickness = Input::given(THICKNESS, thickness.unwrap_or(Length::ZERO));
        work.step(rule, About::Whole, &[diameters.shank, thickness], Quantity::number(factor))
    });
    Some(match thin {
        Some(thin) => work.step(&SHEAR_ALL, About::Whole, &[one, planes, thin], all.force),
        None => work.step(&SHEAR_ALL_THICK, About::Whole, &[one, planes], all.force),
    })
}

/// A sheet in its joint.
struct At<'q> {
    question: &'q Installation<'q, 'q>,
    sheet: &'q SheetStrength,
    layer: &'q Layer,
    about: About,
    diameters: &'q Diameters,
    edge: Input<'static>,
    margin: Option<Input<'static>>,
}

impl At<'_> {
    fn thickness(&self) -> Input<'static> {
        Input::given(THICKNESS, self.layer.thickness.nominal())
    }

    fn share(&self) -> Input<'static> {
        Input::new(SHARE, Quantity::number(self.sheet.share()), Basis::DOUBLE_SHEAR)
    }

    /// Bearing or flush joint at failure and at yield.
    fn bearing(&self, work: &mut Working<'_>) -> (Option<Input<'static>>, Option<Input<'static>>) {
        let (Some(bearing), Some(properties)) = (self.sheet.bearing(), properties_of(self.question, self.layer)) else {
            return (None, None);
        };
        if self.layer.preparation != Preparation::Plain {
            return self.flush(bearing.kind, bearing.ultimate, bearing.yield_load, work);
        }
        let ultimate = self.stress(
            &BEARING_BETWEEN,
            [(FBR_15, Property::BearingUltimate15), (FBR_20, Property::BearingUltimate20)],
            FBR,
            &properties,
            work,
        );
        let figures = |stress| [stress, self.diameters.counted, self.thickness()];
        let ultimate =
            ultimate.map(|stress| work.step(&SHEET_BEARING, self.about, &figures(stress), bearing.ultimate.force));
        let yields = bearing.yield_load.and_then(|yields| {
            let stress = self.stress(
                &YIELD_BETWEEN,
                [(FBRY_15, Property::BearingYield15), (FBRY_20, Property::BearingYield20)],
                FBRY,
                &properties,
                work,
            )?;
            Some(work.step(&YIELD_OF_SHEET, self.about, &figures(stress), yields.force))
        });
        // What is only indicated has no yield that counts.
        (ultimate, yields.filter(|_| bearing.kind != BearingKind::Indication))
    }

    /// The bearing stress at the edge margin, from those at 1.5 and 2.0.
    fn stress(
        &self,
        between: &'static super::Equation,
        [at_15, at_20]: [(super::Symbol, Property); 2],
        result: super::Symbol,
        properties: &Strengths<'_>,
        work: &mut Working<'_>,
    ) -> Option<Input<'static>> {
        let edge_margin = self.sheet.edge_margin();
        let is_indicated = self.sheet.bearing().is_some_and(|bearing| bearing.kind == BearingKind::Indication);
        let [stress_15, stress_20] = [at_15.1, at_20.1].map(|property| Some(properties.figure(property)?.0));
        let (stress, basis) = bearing_stress(edge_margin, !is_indicated, stress_15, stress_20)?;
        let one = |(symbol, property): (super::Symbol, Property)| of_sheet(symbol, property, properties);
        match (basis, one(at_15), one(at_20), self.margin) {
            (Some(Basis::HDBK5J_BEARING_BETWEEN), Some(at_15), Some(at_20), Some(margin)) => {
                Some(work.step(between, self.about, &[at_15, at_20, margin], stress))
            }
            (Some(_), Some(at_15), _, Some(margin)) => {
                Some(work.step(&BEARING_BELOW, self.about, &[at_15.called(FBR_15), margin], stress).called(result))
            }
            // From 2.0 on the value there, or the only one that there is.
            (_, at_15, at_20, _) => {
                at_20.filter(|at_20| at_20.held() == stress.psi()).or(at_15).map(|at| at.called(result))
            }
        }
    }

    fn flush(
        &self,
        kind: BearingKind,
        ultimate: Allowable,
        yields: Option<Allowable>,
        work: &mut Working<'_>,
    ) -> (Option<Input<'static>>, Option<Input<'static>>) {
        let tested = |symbol, load: Allowable| Input::new(symbol, load.force, load.basis).about(self.about);
        let cell = |load: Allowable| {
            let part = self.sheet.edge_margin() / 2.0;
            Allowable { force: Force::from_lbf(load.force.lbf() / part), ..load }
        };
        if kind != BearingKind::Indication {
            return (Some(tested(FLUSH, ultimate)), yields.map(|load| tested(YIELD_CELL, load)));
        }
        let indicated = self.margin.map(|margin| {
            work.step(&FLUSH_BELOW, self.about, &[tested(FLUSH_CELL, cell(ultimate)), margin], ultimate.force)
        });
        (indicated, None)
    }

    fn tear_out(&self, work: &mut Working<'_>) -> Option<Input<'static>> {
        let (tear_out, properties) = (self.sheet.tear_out()?, properties_of(self.question, self.layer)?);
        let fsu = of_sheet(FSU, Property::ShearUltimate, &properties)?;
        Some(work.step(&TEAR, self.about, &[self.edge, self.thickness(), fsu], tear_out.force))
    }

    /// The load on the rivet at which the sheet fails in this way.
    fn on_rivet(&self, part: Input<'static>, work: &mut Working<'_>) -> Input<'static> {
        if self.sheet.share() >= 1.0 {
            return part;
        }
        let load = Force::from_lbf(part.held() / self.sheet.share());
        work.step(&OF_RIVET, self.about, &[part.called(PART), self.share()], load)
    }

    fn net(&self, work: &mut Working<'_>) -> Option<Input<'static>> {
        let (net, properties) = (self.sheet.net_section()?, properties_of(self.question, self.layer)?);
        let ftu = of_sheet(FTU, Property::TensionUltimate, &properties)?;
        let pitch = Input::given(PITCH, self.question.pitch_given()?);
        let figures = [ftu, self.thickness(), pitch, self.diameters.net];
        Some(work.step(&NET_SECTION, self.about, &figures, net.force))
    }
}

/// The figures of a load and its factors.
struct Loaded {
    load: Input<'static>,
    kind: LoadKind,
    safety: Input<'static>,
    fitting: Option<Input<'static>>,
}

impl Loaded {
    fn of(load: Load, factors: Factors, figure: Input<'static>) -> Loaded {
        let factor = |symbol, factor: crate::joint::margin::Factor| {
            Input::new(symbol, Quantity::number(factor.value), factor.basis)
        };
        Loaded {
            load: figure,
            kind: load.kind,
            safety: factor(SAFETY, factors.safety),
            fitting: factors.fitting.map(|fitting| factor(FITTING, fitting)),
        }
    }
}

/// The formulas of one kind of load: with both factors, with either, with none; the margin; the limit load, and the margins at yield.
pub(crate) struct Over {
    pub(crate) factored: [&'static super::Equation; 4],
    pub(crate) margin: &'static super::Equation,
    /// `None` where a yield is not asked about.
    pub(crate) at_yield: Option<AtYield>,
}

/// The limit load from an ultimate one and as given; the margin with the fitting factor and without.
pub(crate) struct AtYield {
    limit: [&'static super::Equation; 2],
    margin: [&'static super::Equation; 2],
}

/// Of one rivet.
pub(crate) static OF_ONE: Over = Over {
    factored: [&FACTORED_BOTH, &FACTORED_SAFETY, &FACTORED_FITTING, &FACTORED_NONE],
    margin: &OVER_LOAD,
    at_yield: Some(AtYield {
        limit: [&LIMIT_OF_ULTIMATE, &LIMIT_GIVEN],
        margin: [&YIELD_OVER_LOAD, &YIELD_OVER_LIMIT],
    }),
};

/// Of one pitch of rows.
static OF_ROWS: Over = Over {
    factored: [&ROW_FACTORED_BOTH, &ROW_FACTORED_SAFETY, &ROW_FACTORED_FITTING, &ROW_FACTORED_NONE],
    margin: &ROW_OVER_LOAD,
    at_yield: Some(AtYield {
        limit: [&ROW_LIMIT_OF_ULTIMATE, &ROW_LIMIT_GIVEN],
        margin: [&ROW_YIELD_OVER_LOAD, &ROW_YIELD_OVER_LIMIT],
    }),
};

impl Over {
    /// The load with its factors.
    fn factored(&self, loaded: &Loaded, margin: &Margin, work: &mut Working<'_>) -> Input<'static> {
        let [both, safety, fitting, none] = self.factored;
        let load = loaded.load;
        let result = Quantity::new(load.value.kind(), margin.factored_load.lbf());
        match (loaded.kind, loaded.fitting) {
            (LoadKind::Limit, Some(factor)) => work.step(both, About::Whole, &[load, loaded.safety, factor], result),
            (LoadKind::Limit, None) => work.step(safety, About::Whole, &[load, loaded.safety], result),
            (LoadKind::Ultimate, Some(factor)) => work.step(fitting, About::Whole, &[load, factor], result),
            (LoadKind::Ultimate, None) => work.step(none, About::Whole, &[load], result),
        }
    }

    fn margin(
        &self,
        carries: Input<'static>,
        loaded: &Loaded,
        margin: &Margin,
        work: &mut Working<'_>,
    ) -> Input<'static> {
        let factored = self.factored(loaded, margin, work);
        work.step(self.margin, About::Whole, &[carries, factored], Quantity::number(margin.value))
    }

    fn at_yield(&self, yields: Input<'static>, loaded: &Loaded, margin: &Margin, work: &mut Working<'_>) {
        let Some(AtYield { limit: [of_ultimate, given], margin: [with_fitting, without] }) = self.at_yield else {
            return;
        };
        let value = Quantity::number(margin.value);
        let limit = match loaded.kind {
            LoadKind::Ultimate => {
                let limit = Quantity::new(loaded.load.value.kind(), loaded.load.held() / loaded.safety.held());
                work.step(of_ultimate, About::Whole, &[loaded.load, loaded.safety], limit)
            }
            LoadKind::Limit => work.step(given, About::Whole, &[loaded.load], loaded.load.value),
        };
        match loaded.fitting {
            Some(fitting) => {
                let load = Quantity::new(limit.value.kind(), margin.factored_load.lbf());
                let load = work.step(&LIMIT_WITH_FITTING, About::Whole, &[limit, fitting], load);
                work.step(with_fitting, About::Whole, &[yields, load], value);
            }
            None => {
                work.step(without, About::Whole, &[yields, limit], value);
            }
        }
    }
}

/// The margins of one rivet; that of the end rivet of a doubler is a part of the doubler's own.
fn margins(
    question: &Installation<'_, '_>,
    found: &JointStrength,
    carried: &Carried,
    most: Option<Input<'static>>,
    work: &mut Working<'_>,
) -> Option<Input<'static>> {
    let Margin { load, factors, .. } = found.margin?;
    // Of a doubler's rows the rivet that carries most is judged.
    let shared = most.filter(|_| question.is_doubler()).map(|most| most.called(LOAD));
    let loaded = Loaded::of(load, factors, shared.unwrap_or_else(|| Input::given(LOAD, load.force)));
    one_margin(&OF_ONE, (&loaded, found.margin, found.yield_margin), (carried.allowable, carried.yields), work)
}

fn one_margin(
    over: &Over,
    (loaded, margin, yield_margin): (&Loaded, Option<Margin>, Option<Margin>),
    (carries, yields): (Option<Input<'static>>, Option<Input<'static>>),
    work: &mut Working<'_>,
) -> Option<Input<'static>> {
    let found = carries.zip(margin).map(|(carries, margin)| over.margin(carries, loaded, &margin, work));
    if let (Some(yields), Some(margin)) = (yields, yield_margin) {
        over.at_yield(yields, loaded, &margin, work);
    }
    found
}

/// The margins of a rivet of which strength and load are steps before or figures.
pub(crate) fn margins_of(
    (load, force): (Load, Input<'static>),
    factors: Factors,
    margins: (Option<Margin>, Option<Margin>),
    carries: (Option<Input<'static>>, Option<Input<'static>>),
    work: &mut Working<'_>,
) {
    margins_over(&OF_ONE, (load, force.called(LOAD)), factors, margins, carries, work);
}

/// The same by other formulas.
pub(crate) fn margins_over(
    over: &Over,
    (load, force): (Load, Input<'static>),
    factors: Factors,
    margins: (Option<Margin>, Option<Margin>),
    carries: (Option<Input<'static>>, Option<Input<'static>>),
    work: &mut Working<'_>,
) {
    let loaded = Loaded::of(load, factors, force);
    one_margin(over, (&loaded, margins.0, margins.1), carries, work);
}

/// What rows carry and their margins, as [`Installation::row`] found them; those of one rivet with it.
pub fn of_row(question: &Installation<'_, '_>, found: &RowStrength, work: &mut Working<'_>) {
    let carried = one_rivet(question, &found.joint, work);
    let whole = question.load_given().map(|(load, _)| {
        let figures = [Input::given(LOAD, load.force), Input::given(ROWS, Quantity::count(question.row_count()))];
        work.step(&ROW_LOAD_RIVETS, About::Whole, &figures, question.on_all_rows(load.force))
    });
    let most = shares::of(question, whole, work);
    let margin = margins(question, &found.joint, &carried, most.on_rivet, work);
    if let (Some(most), Some(carries), Some((load, factors))) =
        (most.on_rivet, carried.allowable.filter(|_| found.joint.allowable.is_some()), question.load_given())
    {
        let safety = (factors.safety.value, factors.safety.basis);
        shares::beside_ultimate(most, (load.kind == LoadKind::Ultimate, safety), carries, work);
    }
    rows(question, found, &carried, (whole, margin, most.in_doubler), work);
    besides::axial(question, &found.joint, carried.shear, work);
}

/// What rows carry for every unit of width, and their margins.
pub(crate) fn rows(
    question: &Installation<'_, '_>,
    found: &RowStrength,
    carried: &Carried,
    (whole, end_rivet, in_doubler): (Option<Input<'static>>, Option<Input<'static>>, Option<Input<'static>>),
    work: &mut Working<'_>,
) -> Option<Input<'static>> {
    let (stack, pitch_length) = (question.layers()?, question.pitch_given()?);
    let pitch = Input::given(PITCH, pitch_length);
    let rows = Input::given(ROWS, Quantity::count(question.row_count()));
    let running = |per_inch: f64| Quantity::new(Kind::RunningLoad, per_inch);
    let per = Quantity::new(Kind::PerUnit, found.rivets_per_inch);
    let per = work.step(&RIVETS_PER, About::Whole, &[rows, pitch], per);
    let mut parts = heapless::Vec::<Input<'static>, { 1 + 2 * crate::joint::strength::MAX_SHEETS }>::new();
    if let Some(allowable) = carried.allowable.filter(|_| found.joint.governing.is_some()) {
        let load = running(allowable.held() * found.rivets_per_inch);
        let _ = parts.push(work.step(&RIVETS_CARRY, About::Whole, &[allowable, per], load));
    }
    let size = question.rivet().size();
    let shank = Input::new(SHANK, size.shank_nominal, size.basis);
    let mut nets = heapless::Vec::<Option<Input<'static>>, { crate::joint::strength::MAX_SHEETS }>::new();
    for (index, (sheet, layer)) in found.joint.sheets.iter().zip(stack.load_carrying()).enumerate() {
        let about = About::Layer(sheet.layer());
        let get = |list: &heapless::Vec<Option<Input<'static>>, { crate::joint::strength::MAX_SHEETS }>| {
            list.get(index).copied().flatten()
        };
        let share = Input::new(SHARE, Quantity::number(sheet.share()), Basis::DOUBLE_SHEAR);
        let Some(properties) = properties_of(question, layer) else {
            let _ = nets.push(None);
            continue;
        };
        let sunk = countersink_of(&question.rivet(), layer);
        let cut = sunk.map(|(net, tear)| {
            let diameter = Input::new(CUT_DIAMETER, net.diameter, Basis::COUNTERSINK_AT_LARGEST_HEAD);
            let depth = Input::new(CUT_DEPTH, net.depth, Basis::COUNTERSINK_AT_LARGEST_HEAD);
            (diameter, depth, Input::new(CUT_TEAR_DEPTH, tear.depth, Basis::COUNTERSINK_AT_LARGEST_HEAD))
        });
        let thickness = Input::given(THICKNESS, layer.thickness.nominal());
        if let (Some((diameter, _, depth)), Some(tear_out), Some(fsu)) =
            (cut, get(&carried.tear_outs), of_sheet(FSU, Property::ShearUltimate, &properties))
        {
            let left = (tear_out.held() - fsu.held() * depth.held() * diameter.held()).max(0.0);
            let figures = [tear_out, fsu, depth, diameter];
            let left = work.step(&TEAR_CUT, about, &figures, Force::from_lbf(left));
            let load = running(left.held() * found.rivets_per_inch / sheet.share());
            let _ = parts.push(work.step(&TEAR_RUNNING_RULE, about, &[left, per, share], load));
        }
        let straight =
            get(&carried.nets).zip(of_sheet(FTU, Property::TensionUltimate, &properties)).map(|(net, ftu)| match cut {
                Some((diameter, depth, _)) => {
                    let lost = ftu.held() * depth.held() * (diameter.held() - shank.held()).max(0.0) / 2.0;
                    let left = Force::from_lbf((net.held() - lost).max(0.0));
                    let figures = [net, ftu, depth, diameter, shank];
                    (work.step(&NET_CUT, about, &figures, left), ftu)
                }
                None => (net, ftu),
            });
        let net = straight.map(|(straight, ftu)| {
            let Some(spacing) = question.stagger() else { return straight };
            let hole = match question.hole_counted() {
                Some(hole) => Input::given(HOLE, hole),
                None => {
                    let basis = hole_table::nominal_hole(size.shank_nominal).map_or(size.basis, |row| row.basis);
                    Input::new(HOLE, nominal_hole(size.shank_nominal), basis)
                }
            };
            let gauge = work.step(&HALF_PITCH, about, &[pitch], pitch_length.times(1, 2));
            let (h, p, a) = (hole.held(), pitch.held(), spacing.to_inches_f64());
            let line = (ftu.held() * thickness.held() * (p - 2.0 * h + a * a / (2.0 * gauge.held()))).max(0.0);
            let spacing = Input::given(SPACING, spacing);
            let figures = [ftu, thickness, pitch, hole, spacing, gauge];
            let zigzag = match cut {
                Some((diameter, depth, _)) => {
                    let lost = ftu.held() * depth.held() * (diameter.held() - shank.held()).max(0.0);
                    let [ftu, thickness, pitch, hole, spacing, gauge] = figures;
                    let figures = [ftu, thickness, pitch, hole, spacing, gauge, depth, diameter, shank];
                    work.step(&ZIGZAG_CUT, about, &figures, Force::from_lbf((line - lost).max(0.0)))
                }
                None => work.step(&ZIGZAG, about, &figures, Force::from_lbf(line)),
            };
            let least = Force::from_lbf(straight.held().min(zigzag.held()));
            work.step(&NET_OF_BOTH, about, &[straight, zigzag], least)
        });
        let shown = net.map(|net| {
            if sheet.share() < 1.0 {
                let load = running(net.held() / pitch.held() / sheet.share());
                work.step(&NET_RUNNING_SHARED, about, &[net.called(NET_ANY), pitch, share], load)
            } else {
                work.step(&NET_RUNNING, about, &[net.called(NET_ANY), pitch], running(net.held() / pitch.held()))
            }
        });
        if let Some(shown) = shown {
            let _ = parts.push(shown);
        }
        let _ = nets.push(net);
    }
    let doubler = question.is_doubler();
    let carries = found.per_inch.or(found.indicated_per_inch);
    let carries = carries.map(|carries| work.step(&ROWS_CARRY, About::Whole, &parts, running(carries.force.lbf())));
    if doubler && question.load_given().is_some() {
        doubler_margin(question, found, (&nets, end_rivet), (whole, in_doubler), work);
        return None;
    }
    let yields = carries.zip(carried.yields).zip(found.yield_per_inch).map(|((carries, yields), per_inch)| {
        work.step(&ROW_YIELD, About::Whole, &[yields, per, carries], running(per_inch.force.lbf()))
    });
    let (Some(force), Some((load, factors))) = (whole, question.load_given()) else { return carries };
    let a_pitch = |figure: Input<'static>| Force::from_lbf(figure.held() * pitch.held());
    let on_pitch = carries
        .filter(|_| found.margin.is_some())
        .map(|carries| work.step(&ON_PITCH, About::Whole, &[carries, pitch], a_pitch(carries)));
    let yields = yields
        .filter(|_| found.yield_margin.is_some())
        .map(|yields| work.step(&YIELD_ON_PITCH, About::Whole, &[yields, pitch], a_pitch(yields)));
    let loaded = Loaded::of(load, factors, force);
    one_margin(&OF_ROWS, (&loaded, found.margin, found.yield_margin), (on_pitch, yields), work);
    carries
}

/// The margin of a doubler: the lesser of its end rivet and of its sheets between their holes.
fn doubler_margin(
    question: &Installation<'_, '_>,
    found: &RowStrength,
    (nets, rivet): (&[Option<Input<'static>>], Option<Input<'static>>),
    (whole, in_doubler): (Option<Input<'static>>, Option<Input<'static>>),
    work: &mut Working<'_>,
) {
    let (Some((load, factors)), Some(rivet), Some(margin)) = (question.load_given(), rivet, found.margin) else {
        return;
    };
    let doubled = question.doubled();
    let mut parts = heapless::Vec::<Input<'static>, { 1 + crate::joint::strength::MAX_SHEETS }>::new();
    let _ = parts.push(rivet);
    for (index, (net, sheet)) in nets.iter().zip(&found.joint.sheets).enumerate() {
        let force = if doubled == Some(index) {
            whole
        } else {
            let about = About::Layer(sheet.layer());
            in_doubler.map(|in_doubler| shares::in_outer(in_doubler, sheet.share(), about, work).called(WHOLE_LOAD))
        };
        let (Some(net), Some(force)) = (net, force) else { continue };
        let about = About::Layer(sheet.layer());
        let loaded = Loaded::of(load, factors, force);
        let one = crate::joint::margin::margin(
            Force::from_lbf(net.held()),
            Load { force: Force::from_lbf(force.held()), ..load },
            factors,
        );
        // A sheet without a load has no margin.
        let Ok(one) = one else { continue };
        let factored = OF_ROWS.factored(&loaded, &one, work);
        let _ =
            parts.push(work.step(&NET_MARGIN, about, &[net.called(NET_PITCH), factored], Quantity::number(one.value)));
    }
    work.step(&DOUBLER_MARGIN, About::Whole, &parts, Quantity::number(margin.value));
}
