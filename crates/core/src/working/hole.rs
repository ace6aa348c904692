//! What becomes of a hole, step by step.

use super::joint;
use super::{About, Input, Kind, Quantity, Working, rules, symbols};
use crate::basis::Basis;
use crate::drill::Drill;
use crate::hole::{AsFound, Damage, HoleLimits};
use crate::installation::{HoleAnswer, Installation};
use crate::length::Length;
use crate::practice::{Given, Name};

symbols! {
    MAJOR = "A", "longest axis of the hole as found";
    MINOR = "C", "shortest axis of the hole as found";
    SHIFT = "x", "how far the centre of the hole moves when it is drilled round again";
    LEAST_HOLE = "Hn", "least hole of the rivet";
    GREATEST_HOLE = "Hx", "greatest hole of the rivet";
    ROOM_ABOVE = "ra", "room up to the greatest hole; negative where the hole is larger";
    ROOM_BELOW = "rb", "room down to the least hole; negative where the hole is smaller";
    DRILL = "Hd", "drill of the rivet";
    OVER = "o", "what is drilled over the damage";
    WANTED = "Hw", "least drill that makes the hole round and takes its damage out";
    TAKEN = "Ht", "drill that is taken: the first of the list that is not smaller";
    SMALLER = "Hs", "drill before it in the list";
    DRILL_ROOM = "rd", "the drill over the least drill";
    DRILL_LACKS = "rs", "what the drill before it lacks";
    HOLE = "H", "hole that it leaves, at most";
    EDGE = "e", "edge distance as given";
    EDGE_LEFT = "ec", "edge distance that is left";
    EDGE_LEAST = "en", "least edge distance of the rivet";
    ROOM_EDGE = "re", "edge distance over the least; negative where it is short";
    PITCH = "p", "pitch as given";
    PITCH_LEFT = "pc", "pitch that is left";
    PITCH_LEAST = "pn", "least pitch of the rivet";
    ROOM_PITCH = "rp", "pitch over the least; negative where it is short";
    BEFORE = "Pb", "what the installed rivet carries";
    AFTER = "Pa", "what the new rivet carries";
    RATIO = "q", "the new rivet over the installed one";
}

rules! { LIST:
    ABOVE = "hole-room-above", "Room up to the greatest hole", ROOM_ABOVE, "Hx - A";
    BELOW = "hole-room-below", "Room down to the least hole", ROOM_BELOW, "C - Hn";
    MOVES = "hole-shift", "How far the centre moves", SHIFT, "(A - C) / 2";
    DRILL_WANTED = "drill-wanted", "Least drill", WANTED, "max(Hd, A + o)";
    DRILL_OVER = "drill-over", "The drill taken over the least: never below zero", DRILL_ROOM, "Ht - Hw";
    DRILL_SHORT = "drill-short", "What the next smaller drill lacks: above zero", DRILL_LACKS, "Hw - Hs";
    LEFT_ABOVE = "drilled-room-above", "Room up to the greatest hole, drilled", ROOM_ABOVE, "Hx - H";
    EDGE_AFTER = "edge-left", "Edge distance that is left", EDGE_LEFT, "e - x";
    EDGE_OVER = "edge-room", "Edge distance over the least", ROOM_EDGE, "ec - en";
    PITCH_AFTER = "pitch-left", "Pitch that is left", PITCH_LEFT, "p - x";
    PITCH_OVER = "pitch-room", "Pitch over the least", ROOM_PITCH, "pc - pn";
    AS_STRONG = "strength-kept", "Strength of the new rivet over that of the installed one", RATIO, "Pa / Pb", AC43_NOT_WEAKER;
}

fn limit(symbol: super::Symbol, limit: Given<Length>) -> Input<'static> {
    Input::new(symbol, limit.value, limit.basis)
}

fn less(one: Input<'_>, other: Input<'_>) -> Quantity {
    Quantity::new(Kind::Length, one.held() - other.held())
}

/// What becomes of a hole, as [`Installation::hole`] found it.
///
/// ```
/// use shophead::hole::{AsFound, Damage};
/// use shophead::installation::Installation;
/// use shophead::length::Length;
/// use shophead::rivet::part::Part;
/// use shophead::stack::Stack;
/// use shophead::words::Units;
/// use shophead::working::{Working, hole};
/// let layers = Stack::parse("clad 2024-T3:.032, clad 2024-T3:.040")?;
/// let question = Installation::new(Part::parse("MS20470AD4")?, &layers)
///     .edge(Length::parse("3/8")?)
///     .pitch(Length::parse("3/4")?);
/// let found = AsFound::new(Length::parse(".141")?, Length::parse(".130")?, Damage::None)?;
/// let answer = question.hole(found);
/// let mut said = Vec::new();
/// hole::of(&question, found, &answer, &mut Working::new(&mut |step| {
///     said.push((step.rule.word, step.result.shown(Units::Inches).to_string()));
/// }));
/// assert!(said.contains(&("hole-shift", "0.0055".into())) && said.contains(&("edge-left", "0.3695".into())));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn of(question: &Installation<'_, '_>, found: AsFound, answer: &HoleAnswer<'_>, work: &mut Working<'_>) {
    let (major, minor) = (Input::given(MAJOR, found.major()), Input::given(MINOR, found.minor()));
    let limits = HoleLimits::of(question.practice(), &question.case());
    work.of(About::Named("as found"));
    if let Some(greatest) = limits.greatest {
        let greatest = limit(GREATEST_HOLE, greatest);
        work.step(&ABOVE, About::Whole, &[greatest, major], less(greatest, major));
    }
    if let Some(least) = limits.least {
        let least = limit(LEAST_HOLE, least);
        work.step(&BELOW, About::Whole, &[minor, least], less(minor, least));
    }
    work.of(About::Whole);
    let Some(after) = question.after(found, answer) else { return };
    work.of(About::Named("as it goes in"));
    let given = question.distances_given();
    let mut shift = None;
    if let (Some(_), Some(hole)) = (answer.cut, answer.hole) {
        let case = after.case();
        if let Some(drill) = question.practice().length(Name::HoleDrill, &case) {
            let over = match found.damage() {
                Damage::None => Given { value: Length::ZERO, basis: Basis::AS_GIVEN },
                _ => question
                    .practice()
                    .length(Name::CleanUpLeast, &case)
                    .unwrap_or(Given { value: Length::ZERO, basis: Basis::AS_GIVEN }),
            };
            let figures = [limit(DRILL, drill), major, limit(OVER, over)];
            let wanted = drill.value.max(found.major().plus(over.value));
            let shown = work.step(&DRILL_WANTED, About::Whole, &figures, wanted);
            next_drill(answer.cut, wanted, shown, work);
        }
        if let Some(greatest) = HoleLimits::of(question.practice(), &case).greatest {
            let (greatest, hole) = (limit(GREATEST_HOLE, greatest), Input::given(HOLE, hole.max()));
            work.step(&LEFT_ABOVE, About::Whole, &[greatest, hole], less(greatest, hole));
        }
        if found.is_gauged() {
            shift = None;
        } else {
            shift = Some(work.step(&MOVES, About::Whole, &[major, minor], found.shift()));
        }
    }
    let left = after.distances_given();
    let case = after.case();
    // Along the edge nothing of it goes towards the edge.
    let to_edge = shift.filter(|_| found.shift_to_edge() > Length::ZERO);
    if let (Some(edge), Some(left)) = (given.edge, left.edge) {
        let edge = Input::given(EDGE, edge);
        let left =
            to_edge.map_or(edge.called(EDGE_LEFT), |shift| work.step(&EDGE_AFTER, About::Whole, &[edge, shift], left));
        if let Some(least) = question.practice().length(Name::EdgeDistanceLeast, &case) {
            let least = limit(EDGE_LEAST, least);
            work.step(&EDGE_OVER, About::Whole, &[left, least], less(left, least));
        }
    }
    if let (Some(pitch), Some(left)) = (given.pitch, left.pitch) {
        let pitch = Input::given(PITCH, pitch);
        let left = shift
            .map_or(pitch.called(PITCH_LEFT), |shift| work.step(&PITCH_AFTER, About::Whole, &[pitch, shift], left));
        if let Some(least) = question.practice().length(Name::PitchLeast, &case) {
            let least = limit(PITCH_LEAST, least);
            work.step(&PITCH_OVER, About::Whole, &[left, least], less(left, least));
        }
    }
    work.of(About::Whole);
    compared(&after, answer.disposition.is_step_up(), work);
}

/// The drill that is taken is the first that is not smaller: it leaves no less, and the one before it does not do.
fn next_drill(cut: Option<Drill>, wanted: Length, shown: Input<'static>, work: &mut Working<'_>) {
    let Some(drill) = cut.filter(|drill| Drill::nearest_at_or_above(wanted) == Some(*drill)) else { return };
    let taken = Input::new(TAKEN, drill.diameter(), drill.basis());
    work.step(&DRILL_OVER, About::Whole, &[taken, shown], less(taken, shown));
    let nanometre = Length::from_nanometres(1).unwrap_or(Length::ZERO);
    if let Some(smaller) = Drill::nearest_at_or_below(wanted.minus(nanometre)) {
        let smaller = Input::new(SMALLER, smaller.diameter(), smaller.basis());
        work.step(&DRILL_SHORT, About::Whole, &[shown, smaller], less(shown, smaller));
    }
}

/// The new rivet beside the installed one, where it is another.
fn compared(after: &Installation<'_, '_>, is_step_up: bool, work: &mut Working<'_>) {
    let Some(before) = after.as_installed().filter(|_| is_step_up) else { return };
    let (Ok(was), Ok(is)) = (before.strength(), after.strength()) else { return };
    let (Some(_), Some(_)) = (was.allowable, is.allowable) else { return };
    work.of(About::Named("installed rivet"));
    let before = joint::one_rivet(&before, &was, work).allowable;
    work.of(About::Named("new rivet"));
    let after = joint::one_rivet(after, &is, work).allowable;
    work.of(About::Whole);
    if let (Some(before), Some(after)) = (before, after) {
        let ratio = Quantity::number(after.held() / before.held());
        work.step(&AS_STRONG, About::Whole, &[after.called(AFTER), before.called(BEFORE)], ratio);
    }
}
