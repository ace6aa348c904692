//! The length of a rivet and the head that it makes, step by step.

use super::{About, Input, Quantity, Working, rules, symbols};
use crate::basis::Basis;
use crate::installation::Installation;
use crate::length::Length;
use crate::practice::{LengthRounding, Name};
use crate::select::{Gauge, LengthAnswer};
use crate::upset::Filled;

symbols! {
    LAYERS = "t", "thickness of each layer";
    GRIP = "G", "grip";
    TAIL = "T", "tail of the rule of thumb";
    RULE = "Lr", "length by the rule of thumb";
    STEP = "u", "step in which rivets come";
    ROUNDED = "Lu", "length by the rule of thumb, rounded";
    SHANK = "D", "diameter of the shank";
    HOLE = "H", "hole, never narrower than the shank";
    SUNK = "k", "depth of the flush head; nothing for a protruding one";
    STRAIGHT = "S", "length of hole to fill: the grip, less a flush head that is not dimpled";
    HEAD_WIDTH = "d", "diameter of the driven head";
    HEAD_HEIGHT = "h", "height of the driven head";
    TOLERANCE = "z", "tolerance of the rivet's length";
    SHORTEST = "Ls", "shortest length that leaves metal for the least head";
    LONGEST_TAIL = "Lt", "longest length by its tail";
    TAIL_MOST = "Tx", "longest tail that is driven without folding";
    BULGE = "v", "bulge of the far side under a dimpled head";
    LONGEST_HEAD = "Lh", "longest length by the metal in the largest head";
    LONGEST = "Ll", "longest length within limits";
    LENGTH = "L", "length chosen";
    HEIGHT_MOST = "hx", "greatest height of the driven head";
    WINDOW = "hw", "greatest height at which every rivet makes a head that is wide enough";
    MADE = "dh", "diameter of the head that is made";
    STANDS = "o", "how far the tail stands out before driving";
}

rules! { LIST:
    OF_LAYERS = "grip", "Grip", GRIP, "Σ(t)";
    BY_THUMB = "rule-of-thumb", "Length by the rule of thumb", RULE, "G + T";
    UP_TO_STEP = "rule-of-thumb-longer", "Rule of thumb, rounded to the longer rivet", ROUNDED, "up(Lr / u) × u";
    TO_STEP = "rule-of-thumb-nearest", "Rule of thumb, rounded to the nearest rivet", ROUNDED, "near(Lr / u) × u";
    SHORT = "shortest", "Shortest length: thinnest shank, largest hole, thickest pack", SHORTEST, "(d² × h + H² × S) / D² + k + z";
    BY_TAIL = "longest-by-tail", "Longest length by its tail", LONGEST_TAIL, "G + v + Tx";
    BY_HEAD = "longest-by-head", "Longest length by the largest head, all nominal", LONGEST_HEAD, "(d² × h + H² × S) / D² + k";
    LEAST_OF_BOTH = "longest", "Longest length", LONGEST, "min(…)";
    CHOSEN = "length", "Length: the rule's, kept within limits", LENGTH, "min(max(Lu, up(Ls / u) × u), down(Ll / u) × u)";
    TAIL_OUT = "tail", "How far the tail stands out before driving", STANDS, "L - G - v";
    HEAD_LEAST = "head-least", "Driven head with the least metal", MADE, "√(max(0, D² × (L - z - k) - H² × S) / h)";
    HEAD_NOMINAL = "head-nominal", "Driven head, all nominal", MADE, "√(max(0, D² × (L - k) - H² × S) / h)";
    HEAD_MOST = "head-most", "Driven head with the most metal", MADE, "√(max(0, D² × (L + z - k) - H² × S) / h)";
    HIGHEST = "drive-to", "Height at most: there the rivet with the least metal is just wide enough", WINDOW, "min(hx, (D² × (L - z - k) - H² × S) / d²)";
    HIGHEST_ALONE = "drive-to-alone", "Height at most: there the rivet with the least metal is just wide enough", WINDOW, "(D² × (L - z - k) - H² × S) / d²";
}

/// One shank in one hole through one stack.
struct Corner {
    shank: Input<'static>,
    hole: Input<'static>,
    straight: Input<'static>,
    sunk: Input<'static>,
}

impl Corner {
    fn of(corner: &Filled, question: &Installation<'_, '_>) -> Corner {
        let size = question.rivet().size().basis;
        let head = question.rivet().head_counted().map_or(size, |head| head.basis);
        let hole = question.hole_or_drilled().basis;
        Corner {
            shank: Input::new(SHANK, corner.shank, size),
            hole: Input::new(HOLE, corner.hole, hole),
            straight: Input::new(STRAIGHT, corner.straight, Basis::AS_GIVEN),
            sunk: Input::new(SUNK, corner.sunk, head),
        }
    }
}

/// A length, as [`Installation::length`] found it.
///
/// ```
/// use shophead::installation::Installation;
/// use shophead::rivet::part::Part;
/// use shophead::stack::Stack;
/// use shophead::words::Units;
/// use shophead::working::{Working, length};
/// let layers = Stack::parse(".032, .040, .125")?;
/// let question = Installation::new(Part::parse("MS20470AD4")?, &layers);
/// let answer = question.length()?;
/// let mut said = Vec::new();
/// length::of(&question, &answer, &mut Working::new(&mut |step| {
///     said.push((step.rule.word, step.result.shown(Units::Inches).to_string()));
/// }));
/// assert_eq!(said[0], ("grip", "0.197".into()));
/// assert!(said.contains(&("rule-of-thumb", "0.3845".into())) && said.contains(&("length", "0.375".into())));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn of(question: &Installation<'_, '_>, answer: &LengthAnswer<'_>, work: &mut Working<'_>) {
    let Some(toleranced) = question.grip() else { return };
    let grip = match question.layers() {
        Some(stack) => {
            let thickness =
                |index: usize| stack.layers().get(index).map(|layer| Quantity::of(layer.thickness.nominal()));
            let first = stack.layers().first().map_or(Length::ZERO, |layer| layer.thickness.nominal());
            let layers = Input { each: Some(&thickness), ..Input::given(LAYERS, first) };
            work.step_over(&OF_LAYERS, About::Whole, &[layers], stack.layers().len(), toleranced.nominal())
        }
        None => Input::given(GRIP, toleranced.nominal()),
    };
    let (practice, case) = (question.practice(), question.case());
    let sixteenth = Input::new(STEP, Length::SIXTEENTH, question.rivet().series().basis);
    let mut rule = None;
    if let (Some(tail), Some(rounding)) = (practice.length(Name::RuleOfThumbTail, &case), practice.rounding(&case)) {
        let tail = Input::new(TAIL, tail.value, tail.basis);
        let exact = work.step(&BY_THUMB, About::Whole, &[grip, tail], answer.rule_of_thumb);
        let how = if rounding.value == LengthRounding::Longer { &UP_TO_STEP } else { &TO_STEP };
        rule = Some(work.step(how, About::Whole, &[exact, sixteenth], answer.rule_of_thumb_length));
    }
    let (Some(gauge), Some(usable), Some(rule)) = (answer.gauge(), answer.usable, rule) else { return };
    let fit = gauge.fit;
    let (least, nominal, most) =
        (Corner::of(&fit.least(), question), Corner::of(&fit.nominal(), question), Corner::of(&fit.most(), question));
    let tolerance = Input::new(TOLERANCE, fit.length_tolerance(), length_basis(question));
    let head = |(width, height): (Length, Length), basis: Basis| {
        (Input::new(HEAD_WIDTH, width, basis), Input::new(HEAD_HEIGHT, height, basis))
    };
    let (width, height) = head(gauge.least.value, gauge.least.basis);
    let Corner { shank, hole, straight, sunk } = least;
    let shortest = [width, height, hole, straight, shank, sunk, tolerance];
    let shortest = work.step(&SHORT, About::Whole, &shortest, usable.shortest.value);
    let bulge = Input::new(BULGE, fit.bulge().nominal(), Basis::DIMPLED_PACK);
    let tail = Input::new(TAIL_MOST, gauge.tail.value, gauge.tail.basis);
    let by_tail =
        work.step(&BY_TAIL, About::Whole, &[grip, bulge, tail], fit.longest_nominal_for_tail(gauge.tail.value));
    let by_head = gauge.greatest.map(|greatest| {
        let (width, height) = head(greatest.value, greatest.basis);
        let Corner { shank, hole, straight, sunk } = nominal;
        let figures = [width, height, hole, straight, shank, sunk];
        let longest = fit.longest_nominal_for(greatest.value.0, greatest.value.1);
        work.step(&BY_HEAD, About::Whole, &figures, longest)
    });
    let longest = match by_head {
        Some(by_head) => work.step(&LEAST_OF_BOTH, About::Whole, &[by_tail, by_head], usable.longest.value),
        None => by_tail.called(LONGEST),
    };
    let Some(chosen) = answer.length else { return };
    let step = Input::new(STEP, gauge.step_of(&usable), question.rivet().series().basis);
    let chosen = work.step(&CHOSEN, About::Whole, &[rule, shortest, step, longest], chosen);
    let stands = Quantity::new(chosen.value.kind(), chosen.held() - grip.held() - bulge.held());
    work.step(&TAIL_OUT, About::Whole, &[chosen, grip, bulge], stands);
    head_made(answer, gauge, (chosen, tolerance), [least, nominal, most], work);
}

fn length_basis(question: &Installation<'_, '_>) -> Basis {
    let series = question.rivet().series();
    question.practice().length_tolerance(series).map_or(series.basis, |tolerance| tolerance.basis)
}

/// The head that the chosen length makes, and what to drive it to.
fn head_made(
    answer: &LengthAnswer<'_>,
    gauge: &Gauge<'_>,
    (chosen, tolerance): (Input<'static>, Input<'static>),
    [least, nominal, most]: [Corner; 3],
    work: &mut Working<'_>,
) {
    if let Some(window) = answer.window {
        let width = Input::new(HEAD_WIDTH, window.diameter_least, gauge.least.basis);
        let rest = [least.shank, chosen, tolerance, least.sunk, least.hole, least.straight, width];
        match gauge.limits.height_greatest {
            Some(greatest) => {
                let [a, b, c, d, e, f, g] = rest;
                let greatest = Input::new(HEIGHT_MOST, greatest.value, greatest.basis);
                work.step(&HIGHEST, About::Whole, &[greatest, a, b, c, d, e, f, g], window.height.max());
            }
            None => {
                work.step(&HIGHEST_ALONE, About::Whole, &rest, window.height.max());
            }
        }
    }
    let Some(head) = answer.head else { return };
    let basis = gauge.limits.height_target.map_or(gauge.least.basis, |target| target.basis);
    let height = Input::new(HEAD_HEIGHT, head.height, basis);
    let spread = head.diameter;
    for (rule, corner, diameter) in
        [(&HEAD_LEAST, least, spread.min), (&HEAD_NOMINAL, nominal, spread.nominal), (&HEAD_MOST, most, spread.max)]
    {
        let Corner { shank, hole, straight, sunk } = corner;
        if core::ptr::eq(rule, &HEAD_NOMINAL) {
            work.step(rule, About::Whole, &[shank, chosen, sunk, hole, straight, height], diameter);
        } else {
            work.step(rule, About::Whole, &[shank, chosen, tolerance, sunk, hole, straight, height], diameter);
        }
    }
}
