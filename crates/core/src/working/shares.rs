//! How rows share a load by the springs between their sheets, step by step.
//!
//! Rows that are alike have their shares in a closed form. Through more than two layers there is none: there the loads in the first row are
//! those that solve the equations, and each equation gives the next row from the one before, so that the solution is put back in; behind the
//! last row the sheets carry what goes out.

use super::{About, Input, Quantity, Working, rules, symbols};
use crate::basis::Basis;
use crate::installation::Installation;
use crate::joint::flexibility::{Fastening, Formula, JoinedPlate, flexibility};
use crate::joint::lap::{self, Shared};
use crate::joint::layers::{FastenerPlace, Layers, MAX_PLATES, StackRows};
use crate::joint::margin::Factors;
use crate::joint::sharing::tapered;
use crate::joint::strength::Shear;
use crate::length::Length;
use crate::practice::Practice;
use crate::quantity::{Flexibility, Force, Stress};
use crate::repair::patch::{Patch, Sheet, Taper};
use crate::rivet::part::Part;
use crate::stack::Layer;

symbols! {
    MODULUS = "E", "modulus of the sheet";
    MODULUS_1 = "E1", "modulus of the first sheet; in double shear of the middle one";
    MODULUS_2 = "E2", "modulus of the other sheet; in double shear of the thinner outer one";
    MODULUS_TOP = "Ea", "modulus of the outer sheet at the manufactured head";
    MODULUS_BOTTOM = "Eb", "modulus of the other outer sheet";
    MODULUS_RIVET = "Er", "modulus of the rivet";
    THICKNESS = "t", "thickness of the sheet";
    THICKNESS_1 = "t1", "thickness of the first sheet; in double shear of the middle one";
    THICKNESS_2 = "t2", "thickness of the other sheet; in double shear of the thinner outer one";
    THICKNESS_TOP = "ta", "thickness of the outer sheet at the manufactured head";
    THICKNESS_BOTTOM = "tb", "thickness of the other outer sheet";
    SHANK = "D", "nominal shank diameter";
    PLANES = "n", "planes in which the rivet is sheared";
    PITCH = "p", "distance from rivet to rivet";
    SPACING = "a", "distance from row to row";
    ROWS = "r", "rows";
    FLEXIBILITY = "C", "how far a rivet gives for the load on it";
    STIFF = "K", "stiffness of one pitch of the sheet: modulus times area";
    STIFF_1 = "K1", "stiffness of one pitch of the first sheet, in double shear of the middle one: modulus times area";
    STIFF_2 = "K2", "stiffness of one pitch of the other sheet, in double shear of both outer ones: modulus times area";
    RATIO_1 = "k1", "stretch of the first sheet from row to row over what a rivet gives";
    RATIO_2 = "k2", "stretch of the other sheet from row to row over what a rivet gives";
    DECAY = "u", "how fast the load changes from row to row";
    ROW = "i", "number of the row, counted from where the load comes in";
    PART = "f", "part of the load that one rivet of the row takes";
    WHOLE = "Fp", "load on one pitch of all rows";
    ON_RIVET = "F", "load on one rivet of the row";
    MOST = "F", "load on the rivet that carries most, by the greatest of the formulas";
    PART_IN = "g", "part of the load that is in the other sheet at most";
    IN_OTHER = "G", "load in the other sheet at most";
    SHARE = "s", "part of it that an outer sheet has";
    IN_SHEET = "Fp", "load in the sheet at most";
    SAFETY = "fs", "factor of safety";
    LIMIT = "Fl", "limit load on the rivet that carries most";
    CARRIES = "P", "what one rivet carries";
    OF_ULTIMATE = "q", "limit load on the rivet that carries most, over what one rivet carries; above 1 it is referred";
    IN_PLANE = "V", "load on one rivet in this plane";
    IN_FIRST = "V", "load on one rivet of the first row in this plane: with it the sheets have behind the last row what goes out";
    BEFORE = "Vb", "load on one rivet of the row before in this plane";
    ABOVE = "Va", "load on one rivet in the plane above";
    TENSION_ABOVE = "Ta", "tension behind the row before in the sheet above the plane";
    TENSION_BELOW = "Tb", "tension behind the row before in the sheet below the plane";
    STIFF_ABOVE = "Ka", "stiffness of one pitch of the sheet above the plane";
    STIFF_BELOW = "Kb", "stiffness of one pitch of the sheet below the plane";
    CAME = "Tc", "tension in front of the row";
    TENSION = "T", "tension behind the row";
    PUT = "Q", "load that one rivet takes out of the sheet";
    SIDE_CARRIES = "W", "what the side carries for every unit of width";
    SIDE_SHARE = "e", "what it carries over what the skin does";
    THINNED = "tp", "thickness of the plate at the row";
    THIN_FIRST = "to", "thickness of the plate at the outermost row";
    THICK_LAST = "tw", "thickness of the plate";
    STIFF_HERE = "Kh", "stiffness of one pitch of the plate at the row";
    STIFF_NEXT = "Kn", "stiffness of one pitch of the plate at the next row";
    FLEXIBILITY_BEFORE = "Cb", "how far a rivet of the row before gives";
}

rules! { LIST:
    STIFFNESS = "sheet-stiffness", "Stiffness of one pitch of the sheet", STIFF, "E × p × t";
    STIFFNESS_1 = "first-sheet-stiffness", "Stiffness of one pitch of the first sheet", STIFF_1, "E1 × p × t1";
    STIFFNESS_2 = "other-sheet-stiffness", "Stiffness of one pitch of the other sheet", STIFF_2, "E2 × p × t2";
    STIFFNESS_OUTER = "outer-sheets-stiffness", "Stiffness of one pitch of both outer sheets", STIFF_2, "Ea × p × ta + Eb × p × tb";
    BY_STP927_RIVETED = "flexibility-stp-927-riveted", "What a rivet gives, by stp-927-riveted", FLEXIBILITY,
        "((t1 + t2) / (2 × D))^0.4 × 2.2 / n × (1 / (t1 × E1) + 1 / (n × t2 × E2) + 1 / (2 × t1 × Er) + 1 / (2 × n × t2 × Er))", STP927_RIVETED;
    BY_STP927_BOLTED = "flexibility-stp-927-bolted", "What a rivet gives, by stp-927-bolted", FLEXIBILITY,
        "((t1 + t2) / (2 × D))^(2 / 3) × 3 / n × (1 / (t1 × E1) + 1 / (n × t2 × E2) + 1 / (2 × t1 × Er) + 1 / (2 × n × t2 × Er))", STP927_BOLTED;
    BY_STP486 = "flexibility-stp-486", "What a rivet gives, by stp-486", FLEXIBILITY,
        "5 / (D × Er) + 0.8 × (1 / (t1 × E1) + 1 / (t2 × E2))", STP486;
    BY_SQUARES = "flexibility-thickness-squared", "What a rivet gives, by thickness-squared", FLEXIBILITY,
        "(t1 + t2)² / (Er × D × D²) + 3.72 × (1 / (t1 × E1) + 1 / (t2 × E2))", FLEXIBILITY_SEC_9_4;
    BY_POWERS = "flexibility-exponential", "What a rivet gives, by exponential", FLEXIBILITY,
        "2^((t1 / D)^0.85) / t1 × (1 / E1 + 3 / (8 × Er)) + 2^((t2 / D)^0.85) / t2 × (1 / E2 + 3 / (8 × Er))", FLEXIBILITY_SEC_9_3;
    BY_POWERS_DOUBLE = "flexibility-exponential-double", "What a rivet gives, by exponential, double shear", FLEXIBILITY,
        "1.25^((t1 / D)^0.85) / t1 × (1 / E1 + 3 / (8 × Er)) + 1.25^((t2 / D)^0.85) / t2 × (1 / E2 + 3 / (8 × Er))", FLEXIBILITY_SEC_9_3;
    BY_TN1051 = "flexibility-tn-1051", "What a rivet gives, by tn-1051", FLEXIBILITY,
        "(2 × t2 + t1) / (3 × Er / 2.6 × π / 4 × D²) + (8 × t2² × t2 + 16 × t2² × t1 + 8 × t2 × t1² + t1² × t1) / (192 × Er × π / 64 × D² × D²) + (2 × t2 + t1) / (t2 × t1 × Er) + 1 / (t2 × E2) + 1 / (t1 × E1)", TN1051;
    STRETCH_1 = "first-sheet-stretch", "Stretch of the first sheet over what a rivet gives", RATIO_1, "a / (C × K1)", FLEXIBILITY_SEC_8;
    STRETCH_2 = "other-sheet-stretch", "Stretch of the other sheet over what a rivet gives", RATIO_2, "a / (C × K2)", FLEXIBILITY_SEC_8;
    CHANGES = "share-decay", "How fast the load changes from row to row", DECAY, "2 × asinh(√(k1 + k2) / 2)", FLEXIBILITY_SEC_8;
    OF_LAP = "share-lap", "Part of the load that the row with most takes", PART,
        "sinh(u / 2) / sinh(r × u / 2) × cosh(u × (i - (r + 1) / 2)) - (k1 - k2) / (4 × sinh(u / 2) × cosh(r × u / 2)) × sinh(u × (i - (r + 1) / 2))", FLEXIBILITY_SEC_8;
    OF_DOUBLER = "share-doubler", "Part of the load that the row with most takes", PART,
        "k1 × sinh(u × ((r + 1) / 2 - i)) / (2 × sinh(u / 2) × cosh(r × u / 2))", DOUBLER_CHAIN;
    ON_ROW = "share-load", "Load on one rivet of the row with most", ON_RIVET, "f × Fp";
    SIZE = "share-load-size", "Load on one rivet where it is greatest, without its sign", ON_RIVET, "abs(V)";
    GREATEST = "share-most", "Load on the rivet that carries most: by the greatest of the formulas", MOST, "max(…)";
    IN_DOUBLER = "share-in-doubler", "Part of the load that is in the doubler at most", PART_IN,
        "k1 / (k1 + k2) × (1 - cosh(u × (r / 2 - down(r / 2))) / cosh(r × u / 2))", DOUBLER_CHAIN;
    DOUBLER_HAS = "doubler-load", "Load in the doubler at most", IN_OTHER, "g × Fp";
    DOUBLER_MOST = "doubler-load-most", "Load in the doubler at most: by the greatest of the formulas", IN_OTHER, "max(…)";
    SHEET_HAS = "outer-sheet-load", "Load in the sheet at most", IN_SHEET, "G × s";
    LIMIT_OF_ULTIMATE = "share-limit-load", "Limit load on the rivet that carries most", LIMIT, "F / fs";
    LIMIT_GIVEN = "share-limit-load-given", "Limit load on the rivet that carries most", LIMIT, "F";
    BESIDE_ULTIMATE = "share-of-ultimate", "Limit load on it over what one rivet carries", OF_ULTIMATE, "Fl / P";
    NEXT_ROW = "pack-next-row", "Load in the plane, from the row before", IN_PLANE, "Vb - a / C × (Ta / Ka - Tb / Kb)", LAYERS_CHAIN;
    SIDE_LIMIT = "side-limit-load", "Limit load on one pitch: no more than the skin carries", WHOLE, "W / max(1, e) / fs × p";
    THINS = "plate-at-row", "Thickness of the plate at the row", THINNED, "to + (tw - to) × (i - 1) / (r - 1)";
    EVENLY = "plate-stiffness-tapered", "Stiffness of the plate between the rows", STIFF, "(Kn - Kh) / ln(Kn / Kh)", FLEXIBILITY_SEC_8;
    NEXT_OF_SIDE = "side-next-row", "Load on a rivet of the row, from the row before", IN_PLANE, "(Cb × Vb - a × (Ta / Ka - Tb / Kb)) / C", FLEXIBILITY_SEC_8;
    BEHIND_FIRST = "pack-tension-first", "Tension in the sheet behind the row", TENSION, "Tc - V";
    BEHIND_BETWEEN = "pack-tension", "Tension in the sheet behind the row", TENSION, "Tc + Va - V";
    BEHIND_LAST = "pack-tension-last", "Tension in the sheet behind the row", TENSION, "Tc + Va";
    TAKES_OUT = "pack-bearing", "Load that one rivet takes out of the sheet", PUT, "Tc - T";
}

/// A sheet as a plate of the chain: its modulus, its thickness.
#[derive(Clone, Copy)]
struct Plate {
    modulus: (Stress, Basis),
    thickness: Length,
}

impl Plate {
    fn of(layer: &Layer, practice: &Practice<'_>) -> Option<Plate> {
        let (plate, basis) = lap::plate_of(layer, practice).ok()?;
        Some(Plate { modulus: (plate.modulus, basis), thickness: plate.thickness })
    }

    fn figures(self, modulus: super::Symbol, thickness: super::Symbol) -> [Input<'static>; 2] {
        [Input::new(modulus, self.modulus.0, self.modulus.1), Input::given(thickness, self.thickness)]
    }

    fn joined(self) -> JoinedPlate {
        JoinedPlate { thickness: self.thickness, modulus: self.modulus.0 }
    }

    fn stiffness(self, pitch: Length) -> f64 {
        self.modulus.0.psi() * pitch.to_inches_f64() * self.thickness.to_inches_f64()
    }
}

/// What a rivet gives by a formula.
fn gives(
    (rivet, modulus): (&Part<'_>, Input<'static>),
    (formula, shear): (Formula, Shear),
    [one, other]: [Plate; 2],
    found: Flexibility,
    (about, work): (About, &mut Working<'_>),
) -> Input<'static> {
    let size = rivet.size();
    let shank = Input::new(SHANK, size.shank_nominal, size.basis);
    let planes = Input::given(PLANES, Quantity::count(shear.planes()));
    let ([e1, t1], [e2, t2]) = (one.figures(MODULUS_1, THICKNESS_1), other.figures(MODULUS_2, THICKNESS_2));
    let (rule, with_planes): (&'static super::Equation, bool) = match (formula, shear) {
        (Formula::Stp927Riveted, _) => (&BY_STP927_RIVETED, true),
        (Formula::Stp927Bolted, _) => (&BY_STP927_BOLTED, true),
        (Formula::Stp486, _) => (&BY_STP486, false),
        (Formula::ThicknessSquared, _) => (&BY_SQUARES, false),
        (Formula::Exponential, Shear::Single) => (&BY_POWERS, false),
        (Formula::Exponential, Shear::Double) => (&BY_POWERS_DOUBLE, false),
        (Formula::Tn1051, _) => (&BY_TN1051, false),
    };
    let figures = [t1, t2, shank, e1, e2, modulus, planes];
    let figures = if with_planes { &figures[..] } else { figures.split_last().map_or(&figures[..], |(_, rest)| rest) };
    work.step(rule, about, figures, found)
}

/// The modulus of the rivet, as given or as it is taken.
fn of_rivet((modulus, basis): (Stress, Option<Basis>)) -> Input<'static> {
    Input::new(MODULUS_RIVET, modulus, basis.unwrap_or(Basis::AS_GIVEN))
}

/// What rows carry at most.
#[derive(Clone, Copy, Default)]
pub(crate) struct Most {
    /// On one rivet.
    pub(crate) on_rivet: Option<Input<'static>>,
    /// In the sheet that lies on the other.
    pub(crate) in_doubler: Option<Input<'static>>,
}

/// How the rows share the load on all of them, by every formula that is asked about; nothing for a single row or where a figure is missing.
pub(crate) fn of(question: &Installation<'_, '_>, whole: Option<Input<'static>>, work: &mut Working<'_>) -> Most {
    if question.row_count() < 2 {
        return Most::default();
    }
    let mut on_rivets = heapless::Vec::<Input<'static>, { Formula::ALL.len() }>::new();
    let mut in_doublers = heapless::Vec::<Input<'static>, { Formula::ALL.len() }>::new();
    if question.is_through_stack() {
        let Some(whole) = whole else { return Most::default() };
        for formula in question.formulas() {
            let (Ok(rows), Ok(layers)) = (question.stack_rows(), question.shared_in_stack(formula)) else { continue };
            let Some((row, place, most)) = layers.most_on_one() else { continue };
            let shown = in_stack(&rows, (formula, &layers), (whole, Some((row, place))), work);
            let Some(shown) = shown else { continue };
            work.of(About::Named(formula.as_str()));
            let _ = on_rivets.push(size(shown, most, work));
            work.of(About::Whole);
            if let Some(doubled) = question.doubled() {
                let beside = layers.most_beside(doubled);
                let _ =
                    in_doublers.push(Input::new(IN_OTHER, beside, layers.basis).about(About::Named(formula.as_str())));
            }
        }
    } else if let Some(rows) = Rows::of(question, work) {
        for formula in question.formulas() {
            let Ok(shared) = question.shared(formula) else { continue };
            rows.by(&shared, whole, (&mut on_rivets, &mut in_doublers), work);
        }
    }
    let most = |list: &[Input<'static>]| list.iter().map(Input::held).reduce(f64::max).map(Force::from_lbf);
    let on_rivet = most(&on_rivets).map(|most| work.step(&GREATEST, About::Whole, &on_rivets, most));
    let in_doubler = most(&in_doublers).map(|most| work.step(&DOUBLER_MOST, About::Whole, &in_doublers, most));
    Most { on_rivet, in_doubler }
}

/// The limit load on the rivet that carries most, beside what one rivet carries.
pub(crate) fn beside_ultimate(
    most: Input<'static>,
    (is_ultimate, safety): (bool, (f64, Basis)),
    carries: Input<'static>,
    work: &mut Working<'_>,
) {
    let limit = if is_ultimate {
        let safety = Input::new(SAFETY, Quantity::number(safety.0), safety.1);
        let limit = Force::from_lbf(most.held() / safety.held());
        work.step(&LIMIT_OF_ULTIMATE, About::Whole, &[most, safety], limit)
    } else {
        work.step(&LIMIT_GIVEN, About::Whole, &[most], most.value)
    };
    let ratio = Quantity::number(limit.held() / carries.held());
    work.step(&BESIDE_ULTIMATE, About::Whole, &[limit, carries.called(CARRIES)], ratio);
}

/// The load in one of two sheets that lie outside.
pub(crate) fn in_outer(in_doubler: Input<'static>, share: f64, about: About, work: &mut Working<'_>) -> Input<'static> {
    if share >= 1.0 {
        return in_doubler.called(IN_SHEET);
    }
    let figures = [in_doubler.called(IN_OTHER), Input::new(SHARE, Quantity::number(share), Basis::DOUBLE_SHEAR)];
    work.step(&SHEET_HAS, about, &figures, Force::from_lbf(in_doubler.held() * share))
}

/// Rows between two plates.
struct Rows<'q> {
    question: &'q Installation<'q, 'q>,
    plates: [Plate; 2],
    stiff: [Input<'static>; 2],
    spacing: Input<'static>,
    rows: Input<'static>,
}

impl<'q> Rows<'q> {
    fn of(question: &'q Installation<'q, 'q>, work: &mut Working<'_>) -> Option<Rows<'q>> {
        let (stack, pitch_length) = (question.layers()?, question.pitch_given()?);
        let mut sheets = heapless::Vec::<Plate, 3>::new();
        for layer in stack.load_carrying() {
            sheets.push(Plate::of(layer, question.practice())?).ok()?;
        }
        let pitch = Input::given(PITCH, pitch_length);
        let mut first = |rule, plate: Plate, [modulus, thickness]: [Input<'static>; 2]| {
            let stiffness = Force::from_lbf(plate.stiffness(pitch_length));
            work.step(rule, About::Whole, &[modulus, pitch, thickness], stiffness)
        };
        let (plates, stiff) = match (sheets.as_slice(), question.shear_planes()) {
            (&[one, other], Shear::Single) => {
                let stiff = first(&STIFFNESS_1, one, one.figures(MODULUS_1, THICKNESS_1));
                ([one, other], [stiff, first(&STIFFNESS_2, other, other.figures(MODULUS_2, THICKNESS_2))])
            }
            (&[top, middle, bottom], Shear::Double) => {
                let stiff = first(&STIFFNESS_1, middle, middle.figures(MODULUS_1, THICKNESS_1));
                let thinner = if top.thickness <= bottom.thickness { top } else { bottom };
                let [ea, ta] = top.figures(MODULUS_TOP, THICKNESS_TOP);
                let [eb, tb] = bottom.figures(MODULUS_BOTTOM, THICKNESS_BOTTOM);
                let both = Force::from_lbf(top.stiffness(pitch_length) + bottom.stiffness(pitch_length));
                let outer = work.step(&STIFFNESS_OUTER, About::Whole, &[ea, pitch, ta, eb, tb], both);
                ([middle, thinner], [stiff, outer])
            }
            _ => return None,
        };
        let spacing = Input::given(SPACING, question.row_spacing_given().unwrap_or(pitch_length));
        let rows = Input::given(ROWS, Quantity::count(question.row_count()));
        Some(Rows { question, plates, stiff, spacing, rows })
    }

    fn by(
        &self,
        shared: &Shared,
        whole: Option<Input<'static>>,
        (on_rivets, in_doublers): (&mut impl Extend<Input<'static>>, &mut impl Extend<Input<'static>>),
        work: &mut Working<'_>,
    ) {
        let question = self.question;
        let about = About::Named(shared.formula.as_str());
        work.of(about);
        let rivet = question.rivet();
        let by = (shared.formula, question.shear_planes());
        let flexibility =
            gives((&rivet, of_rivet(shared.rivet_modulus)), by, self.plates, shared.flexibility, (about, work));
        let [k1, k2] = [(&STRETCH_1, self.stiff[0]), (&STRETCH_2, self.stiff[1])].map(|(rule, stiff)| {
            let ratio = Quantity::number(self.spacing.held() / (flexibility.held() * stiff.held()));
            work.step(rule, about, &[self.spacing, flexibility, stiff], ratio)
        });
        let decay = 2.0 * libm::asinh(libm::sqrt(k1.held() + k2.held()) / 2.0);
        let decay = work.step(&CHANGES, about, &[k1, k2], Quantity::number(decay));
        let Some(peak) = shared.sharing.peak_row() else { return };
        let number = u16::try_from(shared.sharing.peak).unwrap_or(u16::MAX).saturating_add(1);
        let row = Input::given(ROW, Quantity::count(number));
        let is_doubler = question.is_doubler();
        let rule = if is_doubler { &OF_DOUBLER } else { &OF_LAP };
        let figures = [decay, self.rows, row, k1, k2];
        let figures =
            if is_doubler { figures.split_last().map_or(&figures[..], |(_, rest)| rest) } else { &figures[..] };
        let part = work.step(rule, about, figures, Quantity::number(peak.share));
        if let Some(whole) = whole {
            let load = Force::from_lbf(part.held() * whole.held());
            on_rivets.extend([work.step(&ON_ROW, about, &[part, whole], load)]);
        }
        if is_doubler && let Some(whole) = whole {
            let (r, u) = (self.rows.held(), decay.held());
            let middle = libm::cosh(u * (r / 2.0 - libm::floor(r / 2.0))) / libm::cosh(r * u / 2.0);
            let part = Quantity::number(k1.held() / (k1.held() + k2.held()) * (1.0 - middle));
            let part = work.step(&IN_DOUBLER, about, &[k1, k2, decay, self.rows], part);
            let load = Force::from_lbf(part.held() * whole.held());
            in_doublers.extend([work.step(&DOUBLER_HAS, about, &[part, whole], load)]);
        }
        work.of(About::Whole);
    }
}

/// How rows share a load over the layers of a stack: row after row from the loads that solve the equations. The figure of the place asked about, by
/// its row counted from 0.
pub(crate) fn in_stack(
    rows: &StackRows<'_, '_>,
    (formula, found): (Formula, &Layers),
    (whole, wanted): (Input<'static>, Option<(usize, FastenerPlace)>),
    work: &mut Working<'_>,
) -> Option<Input<'static>> {
    const MAX_PLANES: usize = MAX_PLATES - 1;
    let mut plates = heapless::Vec::<(u8, Plate), MAX_PLATES>::new();
    for (number, layer) in rows.stack.numbered_load_carrying() {
        plates.push((number, Plate::of(layer, rows.practice)?)).ok()?;
    }
    let by = About::Named(formula.as_str());
    work.of(by);
    let pitch = Input::given(PITCH, rows.pitch);
    let spacing = Input::given(SPACING, rows.apart);
    let mut stiff = heapless::Vec::<Input<'static>, MAX_PLATES>::new();
    for (number, plate) in &plates {
        let [modulus, thickness] = plate.figures(MODULUS, THICKNESS);
        let stiffness = Force::from_lbf(plate.stiffness(rows.pitch));
        let _ = stiff.push(work.step(&STIFFNESS, About::Layer(*number), &[modulus, pitch, thickness], stiffness));
    }
    let modulus = lap::rivet_modulus(rows.rivet, rows.rivet_modulus).ok()?;
    let plane_of = |plane: usize| About::Numbered("plane", u16::try_from(plane).unwrap_or(u16::MAX).saturating_add(1));
    let mut flexibilities = heapless::Vec::<Input<'static>, MAX_PLANES>::new();
    for (plane, ((_, above), (_, below))) in plates.iter().zip(plates.iter().skip(1)).enumerate() {
        let fastening = Fastening {
            diameter: rows.rivet.diameter(),
            modulus: modulus.0,
            shear_modulus: None,
            shear: Shear::Single,
            plates: [above.joined(), below.joined()],
        };
        let given = flexibility(formula, &fastening).ok()?;
        let rivet = (rows.rivet, of_rivet(modulus));
        let shown = gives(rivet, (formula, Shear::Single), [*above, *below], given, (plane_of(plane), work));
        let _ = flexibilities.push(shown);
    }
    let mut tensions = heapless::Vec::<Input<'static>, MAX_PLATES>::new();
    for (number, _) in &plates {
        let none = Input::given(TENSION, Force::ZERO).about(About::Layer(*number));
        let _ = tensions.push(if *number == rows.from { whole.called(TENSION) } else { none });
    }
    let mut loads = heapless::Vec::<Input<'static>, MAX_PLANES>::new();
    let mut shown = None;
    for index in 0..found.rows() {
        let share = found.row(index)?;
        let number = u16::try_from(index).unwrap_or(u16::MAX).saturating_add(1);
        work.of(About::Row(number));
        let mut here = heapless::Vec::<Input<'static>, MAX_PLANES>::new();
        for (plane, load) in share.planes.iter().enumerate() {
            let figure = match (loads.get(plane), tensions.get(plane), tensions.get(plane.saturating_add(1))) {
                (Some(before), Some(above), Some(below)) => {
                    let (ka, kb) = (*stiff.get(plane)?, *stiff.get(plane.saturating_add(1))?);
                    let figures = [
                        before.called(BEFORE),
                        spacing,
                        *flexibilities.get(plane)?,
                        above.called(TENSION_ABOVE),
                        ka.called(STIFF_ABOVE),
                        below.called(TENSION_BELOW),
                        kb.called(STIFF_BELOW),
                    ];
                    work.step(&NEXT_ROW, About::RowOfPlane(number, plane_number(plane)), &figures, *load)
                }
                _ => Input::new(IN_FIRST, *load, found.basis).about(About::RowOfPlane(number, plane_number(plane))),
            };
            if wanted == Some((index, FastenerPlace::Plane(plane_number(plane)))) {
                shown = Some(figure);
            }
            let _ = here.push(figure);
        }
        let mut behind = heapless::Vec::<Input<'static>, MAX_PLATES>::new();
        for (index_of, (came, (layer, _))) in tensions.iter().zip(&plates).enumerate() {
            let (above, below) = (index_of.checked_sub(1).and_then(|above| here.get(above)), here.get(index_of));
            let about = About::RowOfLayer(number, *layer);
            let came = came.called(CAME);
            let left = came.held() + above.map_or(0.0, Input::held) - below.map_or(0.0, Input::held);
            let left = Force::from_lbf(left);
            let left = match (above, below) {
                (None, Some(below)) => work.step(&BEHIND_FIRST, about, &[came, *below], left),
                (Some(above), Some(below)) => {
                    let figures = [came, above.called(ABOVE), *below];
                    work.step(&BEHIND_BETWEEN, about, &figures, left)
                }
                (Some(above), None) => work.step(&BEHIND_LAST, about, &[came, above.called(ABOVE)], left),
                (None, None) => return None,
            };
            if wanted == Some((index, FastenerPlace::Plate(plane_number(index_of)))) {
                let put = Force::from_lbf(came.held() - left.held());
                shown = Some(work.step(&TAKES_OUT, about, &[came, left], put));
            }
            let _ = behind.push(left);
        }
        (loads, tensions) = (here, behind);
    }
    work.of(About::Whole);
    shown
}

/// How the rows of a patch's side share the most that it carries at limit load, by each formula, and what that is beside what one rivet carries.
pub(crate) fn of_side(
    (found, taper): (&Patch, Taper),
    carries: Input<'static>,
    one: Option<Input<'static>>,
    work: &mut Working<'_>,
) -> Option<()> {
    let rows = found.across.rows;
    let [skin, plate] = found.plates()?;
    if rows < 2 {
        return None;
    }
    let of = |sheet: Sheet| Plate { modulus: (sheet.modulus, sheet.basis), thickness: sheet.thickness };
    let (skin, plate) = (of(skin), of(plate));
    let safety = Factors::SEAM.safety;
    let limit = found.limit(Force::from_lbf(carries.held()));
    let load = Force::from_lbf(limit.lbf() * found.pitch.to_inches_f64());
    let (pitch, spacing) = (Input::given(PITCH, found.pitch), Input::given(SPACING, found.apart));
    let share = Input::new(SIDE_SHARE, Quantity::number(found.share?), Basis::SPLICE_DEVELOPS);
    let factor = Input::new(SAFETY, Quantity::number(safety.value), safety.basis);
    let whole = work.step(&SIDE_LIMIT, About::Whole, &[carries.called(SIDE_CARRIES), share, factor, pitch], load);
    let stiff = |plate: Plate, about: About, work: &mut Working<'_>| {
        let [modulus, thickness] = plate.figures(MODULUS, THICKNESS);
        work.step(&STIFFNESS, about, &[modulus, pitch, thickness], Force::from_lbf(plate.stiffness(found.pitch)))
    };
    let of_skin = stiff(skin, About::Named("skin"), work);
    let mut most = heapless::Vec::<Input<'static>, { Formula::ALL.len() }>::new();
    for formula in Formula::for_rivets(Shear::Single) {
        let Ok(shared) = found.shares(limit, formula, taper) else { continue };
        work.of(About::Named(formula.as_str()));
        let mut tensions = [whole.called(TENSION), Input::given(TENSION, Force::ZERO).about(About::Named("plate"))];
        let mut before: Option<(Input<'static>, Input<'static>, Input<'static>)> = None;
        let mut loads = heapless::Vec::<Input<'static>, { crate::repair::patch::MOST_ROWS as usize }>::new();
        for (row, share) in (0..rows).zip(shared.rows()) {
            let number = u16::from(row).saturating_add(1);
            let about = About::Row(number);
            let at = |row: u8| Plate { thickness: taper.at(row, rows, plate.thickness), ..plate };
            let here = at(row);
            if let Taper::Feathered(first) = taper {
                let figures = [
                    Input::given(THIN_FIRST, first.min(plate.thickness)),
                    Input::given(THICK_LAST, plate.thickness),
                    Input::given(ROW, Quantity::count(number)),
                    Input::given(ROWS, Quantity::count(rows)),
                ];
                work.step(&THINS, about, &figures, here.thickness);
            }
            let fastening = Fastening {
                diameter: found.rivet.diameter(),
                modulus: lap::ALUMINIUM_RIVET,
                shear_modulus: None,
                shear: Shear::Single,
                plates: [skin.joined(), here.joined()],
            };
            let given = flexibility(formula, &fastening).ok()?;
            let rivet = of_rivet((lap::ALUMINIUM_RIVET, Some(Basis::FLEXIBILITY_SEC_7)));
            let flexible = gives((&found.rivet, rivet), (formula, Shear::Single), [skin, here], given, (about, work));
            let load = match before {
                Some((load, flexible_before, stiff_plate)) => {
                    let [in_skin, in_plate] = tensions;
                    let figures = [
                        flexible_before.called(FLEXIBILITY_BEFORE),
                        load.called(BEFORE),
                        spacing,
                        in_skin.called(TENSION_ABOVE),
                        of_skin.called(STIFF_ABOVE),
                        in_plate.called(TENSION_BELOW),
                        stiff_plate.called(STIFF_BELOW),
                        flexible,
                    ];
                    work.step(&NEXT_OF_SIDE, about, &figures, share.a_fastener)
                }
                None => Input::new(IN_FIRST, share.a_fastener, shared.basis).about(about),
            };
            let [in_skin, in_plate] = tensions;
            let (left, right) = (in_skin.held() - load.held(), in_plate.held() + load.held());
            let came = [in_skin.called(CAME), load];
            let in_skin = work.step(&BEHIND_FIRST, about, &came, Force::from_lbf(left));
            let came = [in_plate.called(CAME), load.called(ABOVE)];
            let in_plate = work.step(&BEHIND_LAST, about, &came, Force::from_lbf(right));
            tensions = [in_skin, in_plate];
            if row.saturating_add(1) < rows {
                let own = stiff(here, about, work);
                let between = match taper {
                    Taper::Feathered(_) if at(row.saturating_add(1)).thickness != here.thickness => {
                        let next = stiff(at(row.saturating_add(1)), About::Row(number.saturating_add(1)), work);
                        let mean = tapered(Force::from_lbf(own.held()), Force::from_lbf(next.held()));
                        work.step(&EVENLY, about, &[next.called(STIFF_NEXT), own.called(STIFF_HERE)], mean)
                    }
                    _ => own,
                };
                before = Some((load, flexible, between));
            }
            let _ = loads.push(load);
        }
        // The first of those that are greatest.
        let by_size = |one: &Input<'_>, other: &Input<'_>| one.held().abs().total_cmp(&other.held().abs());
        let greatest = loads.iter().rev().copied().max_by(by_size);
        if let Some(greatest) = greatest {
            let _ = most.push(size(greatest, Force::from_lbf(greatest.held().abs()), work));
        }
        work.of(About::Whole);
    }
    let greatest = most.iter().map(Input::held).reduce(f64::max)?;
    let greatest = work.step(&GREATEST, About::Whole, &most, Force::from_lbf(greatest));
    beside_ultimate(greatest, (false, (safety.value, safety.basis)), one?, work);
    Some(())
}

/// A load without its sign.
pub(crate) fn size(load: Input<'static>, without_sign: Force, work: &mut Working<'_>) -> Input<'static> {
    work.step(&SIZE, About::Whole, &[load.called(IN_PLANE)], without_sign)
}

/// Counted from 1.
fn plane_number(index: usize) -> u8 {
    u8::try_from(index).unwrap_or(u8::MAX).saturating_add(1)
}
