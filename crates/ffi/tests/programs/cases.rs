//! Generated cases, each as a line for `tests/c/answers.h` and as what the core answers, printed in the same way.
//!
//! Half of the figures are ordinary sheet-metal work, the rest anything that can be written down, so that errors come up too.

use std::fmt::{Display, Write as _};

use shophead::basis::{Basis, Document};
use shophead::drill::{Drill, parse_hole};
use shophead::finding::{Figure, Findings};
use shophead::hole::{AsFound, Damage, Direction};
use shophead::installation::{Installation, Step};
use shophead::joint::group::{GroupRivet, PlaneLoad, share};
use shophead::joint::margin::{Factors, Load, LoadKind, Margin};
use shophead::joint::splice::{self, Fastener, SpliceMember, SpliceTable};
use shophead::joint::strength::{Allowable, BearingKind, Shear};
use shophead::layout::{Edge, Point, RowLayout, closest};
use shophead::length::{Interval, Length, Toleranced};
use shophead::material::{Material, RivetAlloy};
use shophead::practice::{BUILT_IN, Case, Given, HeadScope, Key, Limit, Name, Practice, Scope, Value};
use shophead::quantity::Force;
use shophead::rivet::part::{Part, PartWarning};
use shophead::rivet::{CATALOGUE, Head};
use shophead::select::{Difference, UpperBound, check_part};
use shophead::stack::{Layer, Preparation, Role, Stack};
use shophead::structure::Member;
use shophead::upset::{Defect, HeadLimits, Window, Within, judge_seen};
use shophead::words::Units;
use shophead_tests::prelude::nm;

/// The cases, one a line, and the answers to them.
pub(crate) struct Cases {
    pub(crate) cases: String,
    pub(crate) answers: String,
}

/// Numbers that look random and are the same every time.
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, count: u64) -> u64 {
        self.roll() % count
    }

    fn one_in(&mut self, count: u64) -> bool {
        self.below(count) == 0
    }

    fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.below(from.len() as u64) as usize]
    }

    /// A length of so many ten-thousandths of an inch; once in a while one to the nanometre.
    fn between(&mut self, least: u64, most: u64) -> Length {
        let ten_thousandths = least + self.below(most - least + 1);
        let odd = if self.one_in(4) { self.below(2_540) } else { 0 };
        nm((ten_thousandths * 2_540 + odd) as i64)
    }

    /// The same, and seldom zero, below zero or a kilometre.
    fn wild(&mut self, least: u64, most: u64) -> Length {
        match self.below(40) {
            0 => Length::ZERO,
            1 => nm(-(self.below(100_000) as i64)),
            2 => Length::MAX,
            _ => self.between(least, most),
        }
    }

    fn maybe(&mut self, length: Length) -> Option<Length> {
        if self.one_in(4) { None } else { Some(length) }
    }

    fn number(&mut self, most: f64) -> f64 {
        (self.roll() >> 11) as f64 / (1_u64 << 53) as f64 * most
    }
}

/// Writes a case and its answer at once.
struct Pen {
    dice: Dice,
    case: String,
    answer: String,
}

macro_rules! say {
    ($to:expr, $($text:tt)*) => { write!($to, $($text)*).expect("a string takes everything") };
}

impl Pen {
    fn word(&mut self, word: impl Display) {
        say!(self.case, " {word}");
    }

    fn length(&mut self, length: Length) {
        self.word(length.nanometres());
    }

    fn optional(&mut self, length: Option<Length>) {
        match length {
            Some(length) => self.length(length),
            None => self.word("none"),
        }
    }

    fn number(&mut self, number: f64) {
        say!(self.case, " {:016x}", number.to_bits());
    }

    fn toleranced(&mut self, length: Toleranced) {
        self.length(length.min());
        self.length(length.nominal());
        self.length(length.max());
    }

    fn error(&mut self, error: impl Display) {
        say!(self.answer, "  error: {error}\n");
    }
}

fn or_none(length: Option<Length>) -> String {
    length.map_or("none".into(), |length| length.nanometres().to_string())
}

/// The documents of the shop of the test: the same in `answers.h`.
const DOCUMENTS: [Document<'static>; 2] = [
    Document { document: "repair manual of the type", place: "section 4" },
    Document { document: "test of the shop", place: "" },
];

fn basis(basis: Basis) -> String {
    let cited = basis.cite(&DOCUMENTS);
    format!("[{}|{}|{}]", cited.document, cited.place, cited.status.as_str())
}

fn given(given: Option<Given<Length>>) -> String {
    match given {
        Some(given) => format!("{}{}", given.value.nanometres(), basis(given.basis)),
        None => "none[||-]".into(),
    }
}

fn figure(figure: Option<Figure>, key: Option<Key>) -> String {
    match figure {
        None => "none".into(),
        Some(Figure::Length(length)) => format!("length:{}", length.nanometres()),
        Some(Figure::Count(count)) => format!("count:{count}"),
        Some(Figure::Facts(facts)) => format!("facts:{}", facts.bits()),
        Some(Figure::Key(key)) => format!("key:{}", key.number()),
        Some(Figure::Force(force)) => format!("force:{:016x}", force.lbf().to_bits()),
        Some(Figure::Stress(stress)) => format!("stress:{:016x}", stress.psi().to_bits()),
        Some(Figure::Ratio(ratio)) => format!("ratio:{:016x}:{}", ratio.to_bits(), key.map_or(0, Key::number)),
        Some(other) => panic!("{other:?} has no number here"),
    }
}

fn findings<const N: usize>(answer: &mut String, found: &Findings<N>) {
    say!(answer, "  findings {} complete {}\n", found.iter().count(), u8::from(found.is_complete()));
    for finding in found {
        say!(
            answer,
            "  - {} {} layer {} {} {} {}\n",
            finding.code().as_str(),
            finding.severity().as_str(),
            finding.layer().unwrap_or(0),
            figure(finding.measured(), None),
            figure(finding.limit(), finding.key()),
            basis(finding.basis())
        );
        let cited = finding.basis().cite(&DOCUMENTS);
        for units in [Units::Inches, Units::Millimetres] {
            for said in [finding.sentence(units), finding.reason(units), finding.short(units)] {
                say!(answer, "    {}\n", said.citing(cited));
            }
        }
    }
}

fn range(range: Option<Interval>) -> String {
    range.map_or("none/none".into(), |range| format!("{}/{}", range.min().nanometres(), range.max().nanometres()))
}

fn drill(drill: Option<Drill>) -> String {
    match drill {
        Some(drill) => format!("{drill} {}{}", drill.diameter().nanometres(), basis(drill.basis())),
        None => "none none[||-]".into(),
    }
}

fn allowable(answer: &mut String, name: &str, allowable: Option<Allowable>) {
    match allowable {
        Some(allowable) => {
            say!(answer, "  {name} {:016x}{}\n", allowable.force.lbf().to_bits(), basis(allowable.basis));
        }
        None => say!(answer, "  {name} none\n"),
    }
}

fn margin(margin: Option<&Margin>) -> String {
    margin.map_or("none".into(), |margin| {
        format!("{:016x} of {:016x}", margin.value.to_bits(), margin.factored_load.lbf().to_bits())
    })
}

/// The shop's own limits of the test: the same in `answers.h`.
fn own() -> [Limit; 3] {
    let limit = |name, scope, text| Limit::new(name, scope, Value::parse(name, text).expect(text), Basis::own(0));
    let eighth = Some(Length::from_64ths(8));
    [
        limit(Name::HeadDiameterLeast, Scope::ANY, "1.4 D"),
        limit(Name::EdgeDistanceLeast, Scope::ANY.head(HeadScope::Flush), "2 D + 1/32"),
        limit(Name::HoleGreatest, Scope::ANY.alloy(RivetAlloy::Al2117).diameter(eighth), "shank + .006"),
    ]
}

impl Pen {
    fn practice(&mut self, own: &'static [Limit]) -> Practice<'static> {
        let built = self.dice.pick(&BUILT_IN);
        self.word(built.name());
        let with = self.dice.one_in(3);
        self.word(u8::from(with));
        if with { built.with_own(own, &DOCUMENTS) } else { *built }
    }

    fn family(&mut self) -> Part<'static> {
        let series =
            if self.dice.one_in(2) { CATALOGUE[self.dice.below(2) as usize] } else { self.dice.pick(CATALOGUE) };
        let material = &series.materials[self.dice.below(series.materials.len() as u64) as usize];
        let size = &series.sizes[self.dice.below(series.sizes.len() as u64) as usize];
        Part::new(series, material.code, size).expect("its own material and size")
    }

    fn stack(&mut self, least: u64, part: &Part<'_>) -> Stack {
        let count = least + self.dice.below(4);
        let mut stack = Stack::new();
        self.word(count);
        let materials: Vec<Material> = Material::known().collect();
        for index in 0..count {
            let thickness = self.dice.between(160, 1_250);
            let tolerance = if self.dice.one_in(2) { self.dice.between(0, 30) } else { Length::ZERO };
            let thickness = Toleranced::new(thickness, tolerance, tolerance).expect("a tolerance");
            let material = if self.dice.one_in(8) { None } else { Some(self.dice.pick(&materials)) };
            let role = if self.dice.one_in(4) { self.dice.pick(Role::ALL) } else { Role::ALL[0] };
            let flush = part.series().head.is_flush() && index == 0;
            let preparation = if flush { Preparation::Countersunk } else { self.dice.pick(Preparation::ALL) };
            let preparation = if flush || self.dice.one_in(6) { preparation } else { Preparation::Plain };
            self.toleranced(thickness);
            match material {
                Some(material) => self.word(material.to_string().replace(' ', "-")),
                None => self.word("-"),
            }
            self.word(role.as_str());
            self.word(preparation.as_str());
            stack
                .push(Layer::of(thickness).role(role).material(material).preparation(preparation))
                .expect("fewer than eight");
        }
        stack
    }

    /// A grip and a hole.
    fn sizes(&mut self, part: &Part<'_>, practice: &Practice<'_>) -> (Toleranced, Toleranced) {
        let case = Case::of(part.series().head, part.alloy(), part.size());
        let grip = self.dice.wild(200, 6_000);
        let below = self.dice.between(0, 60);
        let grip = Toleranced::new(grip, below, self.dice.between(0, 60)).expect("tolerances");
        let hole = if self.dice.one_in(2) {
            Toleranced::from_least(practice.assumed_hole(&case).value)
        } else {
            Toleranced::exactly(self.dice.wild(600, 2_700))
        };
        (grip, hole)
    }

    fn point(&mut self) -> Point {
        let place = Point { x: self.dice.between(0, 90_000), y: self.dice.between(0, 40_000) };
        self.length(place.x);
        self.length(place.y);
        place
    }
}

/// A length whose ends leave the range of lengths cannot be handed over; the core holds it at the ends.
fn in_range(length: Toleranced) -> bool {
    length.min() > Length::MIN && length.max() < Length::MAX
}

pub(crate) fn table(each: usize) -> Cases {
    let own: &'static [Limit] = Box::leak(Box::new(own()));
    let mut table = Cases { cases: String::new(), answers: String::new() };
    let mut pen = Pen { dice: Dice(0x5eed_0001), case: String::new(), answer: String::new() };
    type Kind = fn(&mut Pen, &'static [Limit]);
    let kinds: [(&str, Kind); 14] = [
        ("length", length_case),
        ("assess", assess_case),
        ("window", window_case),
        ("predict", predict_case),
        ("judge", judge_case),
        ("hole", hole_case),
        ("row", row_case),
        ("points", points_case),
        ("joint", joint_case),
        ("splice", splice_case),
        ("group", group_case),
        ("part", part_case),
        ("drill", drill_case),
        ("read", read_case),
    ];
    let mut number = 0;
    for (kind, write) in kinds {
        for _ in 0..each {
            pen.case.clear();
            pen.answer.clear();
            write(&mut pen, own);
            number += 1;
            say!(table.cases, "{kind}{}\n", pen.case);
            say!(table.answers, "{number} {kind}\n{}", pen.answer);
        }
    }
    table
}

/// A query that can be handed over, written down, and its practice.
fn written_query(
    pen: &mut Pen,
    own: &'static [Limit],
    length: bool,
) -> (Installation<'static, 'static>, Part<'static>, &'static Practice<'static>) {
    let mut part = pen.family();
    if length && let Ok(with) = part.with_length(nm((pen.dice.below(30) as i64 + 2) * 1_587_500)) {
        part = with;
    }
    pen.word(part);
    let case = std::mem::take(&mut pen.case);
    let practice: &'static Practice<'static> = Box::leak(Box::new(pen.practice(own)));
    let practice_words = std::mem::replace(&mut pen.case, case);
    let (grip, hole) = loop {
        let (grip, hole) = pen.sizes(&part, practice);
        if in_range(grip) && in_range(hole) {
            break (grip, hole);
        }
    };
    pen.toleranced(grip);
    pen.toleranced(hole);
    pen.case.push_str(&practice_words);
    (Installation::through(part, grip).in_hole(hole).by(practice), part, practice)
}

fn length_case(pen: &mut Pen, own: &'static [Limit]) {
    let (query, ..) = written_query(pen, own, false);
    let choice = match query.length() {
        Ok(choice) => choice,
        Err(error) => return pen.error(error),
    };
    let by = choice.usable.map_or(0, |usable| match usable.longest_by {
        UpperBound::Tail => 1,
        UpperBound::Head => 2,
    });
    let difference = choice.difference.map_or(0, |difference| match difference {
        Difference::FillTakesTail => 1,
        Difference::TailWouldFold => 2,
        Difference::HeadWouldBeTooLarge => 3,
        other => panic!("{other} has no number here"),
    });
    say!(
        pen.answer,
        "  length {} shortest {} longest {} by {by} difference {difference} rule {} {} fill {} protrusion {} head ",
        or_none(choice.length),
        given(choice.usable.map(|usable| usable.shortest)),
        given(choice.usable.map(|usable| usable.longest)),
        choice.rule_of_thumb.nanometres(),
        choice.rule_of_thumb_length.nanometres(),
        choice.fill.map_or(i64::MIN, Length::nanometres),
        range(choice.protrusion),
    );
    match choice.head {
        Some(head) => {
            let diameter = head.diameter;
            let parts = [diameter.min, diameter.nominal, diameter.max].map(Length::nanometres);
            say!(pen.answer, "{}/{}/{} {}\n", parts[0], parts[1], parts[2], head.height.nanometres());
        }
        None => say!(pen.answer, "none/none/none none\n"),
    }
    findings(&mut pen.answer, &choice.findings);
}

fn assess_case(pen: &mut Pen, own: &'static [Limit]) {
    let (query, ..) = written_query(pen, own, false);
    let length = pen.dice.wild(1_000, 9_000);
    pen.length(length);
    match query.assess(length) {
        Ok(found) => findings(&mut pen.answer, &found.findings),
        Err(error) => pen.error(error),
    }
}

fn window(window: Option<Window>, within: Option<Within>) -> String {
    format!(
        "{} wide {}/{} within {}/{}\n",
        range(window.map(|window| window.height)),
        or_none(window.map(|window| window.diameter_least)),
        or_none(window.and_then(|window| window.diameter_greatest)),
        or_none(within.and_then(|within| within.hole_greatest)),
        or_none(within.and_then(|within| within.shank_least)),
    )
}

fn window_case(pen: &mut Pen, own: &'static [Limit]) {
    let (query, part, practice) = written_query(pen, own, true);
    let stack = pen.stack(0, &part);
    let layered = Installation::new(part, &stack).in_hole(query.hole_or_drilled().value).by(practice);
    let question = if stack.layers().is_empty() { query } else { layered };
    let Some(length) = part.length() else {
        return pen.error("the rivet needs a length here; right would be MS20470AD4-5");
    };
    let (assessed, chosen) = match (question.assess(length), question.length()) {
        (Ok(assessed), Ok(chosen)) => (assessed, chosen),
        (Err(error), _) | (_, Err(error)) => return pen.error(error),
    };
    say!(pen.answer, "  window {}", window(assessed.window, assessed.within));
    for other in chosen.serves() {
        let head = other.head.map_or("none/none/none none".to_owned(), |head| {
            let parts = [head.diameter.min, head.diameter.nominal, head.diameter.max].map(Length::nanometres);
            format!("{}/{}/{} {}", parts[0], parts[1], parts[2], head.height.nanometres())
        });
        let driven = window(other.window, None);
        say!(pen.answer, "  serves {} head {head} window {driven}", other.length.nanometres());
    }
    for ranged in chosen.by_hole() {
        let (hole, cut) = (range(Some(ranged.hole)), range(ranged.cut));
        let driven = window(ranged.window, None);
        say!(pen.answer, "  hole {hole} length {} cut {cut} window {driven}", or_none(ranged.length));
    }
    if !stack.layers().is_empty() {
        say!(pen.answer, "  length {}\n", or_none(chosen.length));
        findings(&mut pen.answer, &chosen.findings);
    }
}

fn predict_case(pen: &mut Pen, own: &'static [Limit]) {
    let (query, part, _) = written_query(pen, own, true);
    let height = pen.dice.wild(200, 1_500);
    pen.length(height);
    match (part.length(), query.fit()) {
        (None, _) => pen.error("the rivet needs a length here; right would be MS20470AD4-5"),
        (Some(_), _) if height <= Length::ZERO => pen.error("a driven head needs a height above zero"),
        (Some(_), Err(error)) => pen.error(error),
        (Some(length), Ok(fit)) => {
            let head = fit.predict(length, height);
            let parts = [head.diameter.min, head.diameter.nominal, head.diameter.max].map(Length::nanometres);
            say!(pen.answer, "  head {}/{}/{} {}\n", parts[0], parts[1], parts[2], height.nanometres());
        }
    }
}

fn judge_case(pen: &mut Pen, own: &'static [Limit]) {
    let part = pen.family();
    pen.word(part);
    let mut measure = |least, most| {
        let measured = if pen.dice.one_in(5) {
            None
        } else {
            let min = pen.dice.between(least, most);
            let more = pen.dice.between(0, 100);
            Some(Interval::of(min, min.checked_add(more).expect("short")))
        };
        pen.optional(measured.map(|measured| measured.min()));
        pen.optional(measured.map(|measured| measured.max()));
        measured
    };
    let (diameter, height) = (measure(700, 4_500), measure(200, 1_500));
    let count = if pen.dice.one_in(2) { 0 } else { pen.dice.below(4) };
    pen.word(count);
    let mut defects = Vec::new();
    for _ in 0..count {
        let kind = pen.dice.below(10) + 1;
        let (cracks, meeting) = (pen.dice.below(7) as u32, pen.dice.one_in(3));
        let length = pen.dice.between(0, 2_500);
        let reach = pen.dice.maybe(length);
        let head_height = pen.dice.between(100, 900);
        // Only cracks may leave their length out.
        let length = if kind == 1 { reach } else { Some(length) };
        pen.word(kind);
        pen.word(cracks);
        pen.word(u8::from(meeting));
        pen.optional(length);
        pen.length(head_height);
        defects.push(match (kind, length) {
            (1, innermost) => Defect::Cracks { count: cracks, innermost, meeting },
            (2, Some(depth)) => Defect::ToolMark { depth, head_height },
            (3, _) => Defect::GapUnderHead,
            (4, _) => Defect::SheetsApart,
            (5, _) => Defect::BuckledShank,
            (6, _) => Defect::Tipped,
            (7, _) => Defect::Loose,
            (8, Some(by)) => Defect::Proud(by),
            (9, _) => Defect::SheetDamaged,
            _ => Defect::NotchedShank,
        });
    }
    let practice = pen.practice(own);
    let case = Case::of(part.series().head, part.alloy(), part.size());
    let limits = HeadLimits::of(&practice, &case);
    for limit in [
        limits.diameter_least,
        limits.diameter_target,
        limits.diameter_greatest,
        limits.height_least,
        limits.height_target,
        limits.height_greatest,
    ] {
        say!(pen.answer, "  limit {}\n", given(limit));
    }
    let judged = judge_seen(diameter, height, &defects, &practice, &case);
    let remedy = judged.remedy.map_or("-[||-]".into(), |remedy| format!("{}{}", remedy.value, basis(remedy.basis)));
    say!(pen.answer, "  accepted {} remedy {remedy}\n", u8::from(judged.accepted));
    findings(&mut pen.answer, &judged.findings);
}

fn hole_case(pen: &mut Pen, own: &'static [Limit]) {
    // Half of them such as a shop has every day: a common rivet, a hole somewhat too large, room around it.
    let ordinary = pen.dice.one_in(2);
    let part = if ordinary {
        Part::parse(pen.dice.pick(&["MS20470AD4", "MS20470AD5", "MS20426AD4", "MS20470AD3"])).expect("a part")
    } else {
        pen.family()
    };
    pen.word(part);
    let (minor_over, over) = if ordinary { (140_000, 600_000) } else { (900_000, 400_000) };
    let below = if ordinary { 0 } else { 100_000 };
    let minor = part.diameter().nanometres() + pen.dice.below(minor_over) as i64 - below;
    let minor = if pen.dice.one_in(50) { Length::ZERO } else { nm(minor) };
    let over = if pen.dice.one_in(50) { -1_000 } else { pen.dice.below(over) as i64 };
    let major = nm(minor.nanometres() + over);
    let damage = if pen.dice.one_in(5) { pen.dice.pick(Damage::ALL) } else { Damage::ALL[0] };
    pen.length(major);
    // Measured one way, worn one way, or opened before: what the later of both calls takes.
    let minor = if pen.dice.one_in(6) { None } else { Some(minor) };
    let direction = if pen.dice.one_in(3) { Some(pen.dice.pick(Direction::ALL)) } else { None };
    let opened = pen.dice.one_in(4);
    pen.optional(minor);
    pen.word(damage);
    pen.word(direction.map_or(0, |direction| direction.number()));
    pen.word(u8::from(opened));
    let stack = if pen.dice.one_in(5) {
        pen.word(0);
        None
    } else {
        Some(pen.stack(2, &part))
    };
    let least = if ordinary { 3_500 } else { 1_500 };
    let edge = pen.dice.between(least, 6_000);
    let edge = pen.dice.maybe(edge);
    let pitch = pen.dice.between(2 * least, 12_000);
    let pitch = pen.dice.maybe(pitch);
    let transverse = pen.dice.between(2 * least, 9_000);
    let transverse_pitch = pen.dice.maybe(transverse);
    pen.optional(edge);
    pen.optional(pitch);
    pen.optional(transverse_pitch);
    let rows = 1 + pen.dice.below(3) as u8;
    let member = pen.dice.pick(Member::ALL);
    pen.word(rows);
    pen.word(member.as_str());
    let practice = pen.practice(own);
    let found = match AsFound::of(major, minor, damage) {
        Ok(found) => found.lying(direction).opened(opened),
        Err(error) => return pen.error(error),
    };
    let layout = RowLayout::default().edge(edge).pitch(pitch).transverse_pitch(transverse_pitch);
    let question = match &stack {
        Some(stack) => Installation::new(part, stack),
        None => Installation::without_layers(part),
    };
    let question = question.by(&practice).layout(layout).rows(u16::from(rows)).member(member);
    let mut steps: Vec<Step<'_>> = Vec::new();
    let verdict = question.hole_step_by_step(found, &mut |step| steps.push(step.clone()));
    say!(pen.answer, "  disposition {} steps {}\n", verdict.disposition, steps.len());
    for step in &steps {
        let rivet = step.rivet.map_or("none".into(), |rivet| rivet.to_string());
        say!(
            pen.answer,
            "  step {} does {} {rivet} {} {}\n",
            step.kind,
            u8::from(step.does()),
            drill(step.cut),
            range(step.hole)
        );
        findings(&mut pen.answer, &step.findings);
    }
    findings(&mut pen.answer, &verdict.findings);
}

fn row_case(pen: &mut Pen, own: &'static [Limit]) {
    let part = pen.family();
    pen.word(part);
    let edge = pen.dice.wild(1_000, 9_000);
    let edge = pen.dice.maybe(edge);
    let pitch = pen.dice.wild(2_000, 20_000);
    let pitch = pen.dice.maybe(pitch);
    let transverse = pen.dice.wild(1_500, 9_000);
    let transverse_pitch = pen.dice.maybe(transverse);
    pen.optional(edge);
    pen.optional(pitch);
    pen.optional(transverse_pitch);
    let rows = 1 + pen.dice.below(3) as u8;
    pen.word(rows);
    let practice = pen.practice(own);
    let layout = RowLayout::default().edge(edge).pitch(pitch).transverse_pitch(transverse_pitch);
    let question = Installation::without_layers(part).by(&practice).layout(layout).rows(u16::from(rows));
    findings(&mut pen.answer, &question.findings());
}

fn points_case(pen: &mut Pen, own: &'static [Limit]) {
    let part = pen.family();
    pen.word(part);
    let rows = 1 + pen.dice.below(3) as u8;
    pen.word(rows);
    let practice = pen.practice(own);
    let (point_count, edge_count) = (pen.dice.below(30), pen.dice.below(4));
    pen.word(point_count);
    pen.word(edge_count);
    let points: Vec<Point> = (0..point_count).map(|_| pen.point()).collect();
    let edges: Vec<Edge> = (0..edge_count).map(|_| Edge { from: pen.point(), to: pen.point() }).collect();
    // The interface sorts, this one does not; both must come to the same.
    let found = closest(&points, &edges);
    let pair = found.pair.map_or((0, 0), |(first, second, _)| (first, second));
    say!(
        pen.answer,
        "  pair {} {} {} edge {} {}\n",
        pair.0,
        pair.1,
        or_none(found.pair.map(|(_, _, pitch)| pitch)),
        found.to_edge.map_or(0, |(index, _)| index),
        or_none(found.to_edge.map(|(_, edge)| edge))
    );
    let layout =
        RowLayout::default().edge(found.to_edge.map(|(_, edge)| edge)).pitch(found.pair.map(|(_, _, pitch)| pitch));
    let question = Installation::without_layers(part).by(&practice).layout(layout).rows(u16::from(rows));
    findings(&mut pen.answer, &question.findings());
}

fn load_kind(pen: &mut Pen) -> LoadKind {
    let kind = pen.dice.pick(&[LoadKind::Limit, LoadKind::Ultimate]);
    pen.word(match kind {
        LoadKind::Limit => 1,
        LoadKind::Ultimate => 2,
    });
    kind
}

fn factors(pen: &mut Pen) -> Factors {
    let fitting = pen.dice.one_in(2);
    pen.word(if fitting { 1 } else { 2 });
    if fitting { Factors::FITTING } else { Factors::SEAM }
}

fn joint_case(pen: &mut Pen, _: &'static [Limit]) {
    let part = pen.family();
    pen.word(part);
    let stack = pen.stack(1, &part);
    let edge = pen.dice.wild(1_500, 6_000);
    let hole = pen.dice.wild(900, 2_700);
    let hole = pen.dice.maybe(hole);
    let pitch = pen.dice.wild(3_000, 12_000);
    let pitch = pen.dice.maybe(pitch);
    pen.length(edge);
    pen.optional(hole);
    pen.optional(pitch);
    let (shear, planes) = pen.dice.pick(&[(Shear::Single, 1), (Shear::Single, 1), (Shear::Double, 2)]);
    pen.word(planes);
    let load = if pen.dice.one_in(3) {
        pen.word("0 0 0000000000000000");
        None
    } else {
        let kind = load_kind(pen);
        let factors = factors(pen);
        let lbf = if pen.dice.one_in(20) { -1.0 } else { pen.dice.number(600.0) };
        pen.number(lbf);
        Some((Load { force: Force::from_lbf(lbf), kind }, factors))
    };
    let layout = RowLayout::default().edge(edge).pitch(pitch);
    let mut question = Installation::new(part, &stack).layout(layout).shear(shear);
    if let Some(hole) = hole {
        question = question.in_hole(Toleranced::exactly(hole));
    }
    if let Some((load, factors)) = load {
        question = question.load(load, factors);
    }
    let found = match question.strength() {
        Ok(found) => found,
        Err(error) => return pen.error(error),
    };
    say!(
        pen.answer,
        "  counted {}{} factor {:016x}\n",
        found.diameter.0.nanometres(),
        basis(found.diameter.1),
        found.thin_sheet_factor.unwrap_or(0.0).to_bits()
    );
    allowable(&mut pen.answer, "shear", found.shear);
    allowable(&mut pen.answer, "allowable", found.allowable);
    allowable(&mut pen.answer, "indication", found.indication);
    allowable(&mut pen.answer, "yield", found.yield_load());
    allowable(&mut pen.answer, "net section", found.net_section.map(|(net, _)| net));
    say!(
        pen.answer,
        "  in layer {} governing {} in layer {} margin {} basis {}\n",
        found.net_section.map_or(0, |(_, layer)| layer),
        found.governing.map_or("-", |governing| governing.mode.as_str()),
        found.governing.and_then(|governing| governing.layer).unwrap_or(0),
        margin(found.margin.as_ref()),
        basis(found.basis)
    );
    for sheet in &found.sheets {
        let kind = sheet.bearing().map_or(0, |bearing| match bearing.kind {
            BearingKind::Sheet => 1,
            BearingKind::FlushJoint => 2,
            BearingKind::Indication => 3,
            other => panic!("{other} has no number here"),
        });
        say!(
            pen.answer,
            "  sheet {} bearing {kind} margin {:016x} share {:016x}\n",
            sheet.layer(),
            sheet.edge_margin().to_bits(),
            sheet.share().to_bits()
        );
        allowable(&mut pen.answer, "bearing", sheet.bearing().map(|bearing| bearing.ultimate));
        allowable(&mut pen.answer, "bearing yield", sheet.bearing().and_then(|bearing| bearing.yield_load));
        allowable(&mut pen.answer, "tear-out", sheet.tear_out());
        allowable(&mut pen.answer, "relief", sheet.tear_out_with_relief());
        allowable(&mut pen.answer, "net section", sheet.net_section());
    }
    findings(&mut pen.answer, &found.findings);
}

fn splice_case(pen: &mut Pen, _: &'static [Limit]) {
    let materials: Vec<Material> = Material::known().collect();
    let material = pen.dice.pick(&materials);
    pen.word(material.to_string().replace(' ', "-"));
    let printed = [".016", ".032", ".040", ".064", ".128"];
    let thickness = if pen.dice.one_in(2) {
        Length::parse(pen.dice.pick(&printed)).expect("a length")
    } else {
        pen.dice.wild(100, 1_500)
    };
    let width = pen.dice.wild(5_000, 200_000);
    pen.length(thickness);
    pen.length(width);
    let part = if pen.dice.one_in(2) { Part::parse("MS20470AD4").expect("a part") } else { pen.family() };
    pen.word(part);
    let members =
        [SpliceMember::Other, SpliceMember::Stringer, SpliceMember::IntermediateFrame, SpliceMember::SingleLap];
    let place = pen.dice.below(4) as usize;
    let member = members[place];
    pen.word(place + 1);
    let rows = pen.dice.below(5) as u16;
    pen.word(rows);
    let per_rivet = if pen.dice.one_in(20) { 0.0 } else { pen.dice.number(500.0) };
    pen.number(per_rivet);
    match splice::tables(material.alloy(), material.temper(), material.is_clad()) {
        None => pen.error("no published splice table names this material"),
        Some(tables) => {
            for table in [Some(tables.first), tables.also].into_iter().flatten() {
                by_table(pen, table, thickness, width, &part, member, rows);
            }
        }
    }
    let properties = material.properties(thickness).and_then(|found| found.ftu().map(|ftu| (ftu, found)));
    let Some((ftu, properties)) = properties else {
        return pen.error("no published strength of this material in this thickness");
    };
    let fty = properties.fty().map_or(0.0, |stress| stress.psi());
    say!(pen.answer, "  tension {:016x} {:016x}{}\n", ftu.psi().to_bits(), fty.to_bits(), basis(properties.basis()));
    match splice::needed(ftu, thickness, width, Force::from_lbf(per_rivet)) {
        Ok(needed) => say!(
            pen.answer,
            "  needed {:016x} {:016x} {:016x} {}\n",
            needed.load.lbf().to_bits(),
            needed.per_inch.to_bits(),
            needed.exact.to_bits(),
            needed.total
        ),
        Err(error) => pen.error(error),
    }
}

fn by_table(
    pen: &mut Pen,
    table: SpliceTable,
    thickness: Length,
    width: Length,
    part: &Part<'_>,
    member: SpliceMember,
    rows: u16,
) {
    if !splice::tables_hold_for(part.alloy(), part.series().head) {
        return pen.error("the published splice tables are not for this rivet");
    }
    let found = match splice::per_inch(table, thickness, Fastener::Rivet(part.diameter())) {
        Ok(found) => found,
        Err(error) => return pen.error(error),
    };
    let number = SpliceTable::ALL.iter().position(|known| *known == table).map_or(0, |index| index + 1);
    let by = match found.critical {
        splice::Critical::Shear => 1,
        splice::Critical::Bearing => 2,
    };
    say!(
        pen.answer,
        "  table {number} {:016x} {:016x} {:016x} by {by}{}\n",
        found.printed.unwrap_or(0.0).to_bits(),
        found.formula.to_bits(),
        found.used.unwrap_or(0.0).to_bits(),
        basis(found.basis)
    );
    let count = match splice::count(found.used.unwrap_or(0.0), width, member, member.rounding()) {
        Ok(count) => count,
        Err(error) => return pen.error(error),
    };
    say!(
        pen.answer,
        "  count {:016x} {:016x} {}{}\n",
        count.per_inch.to_bits(),
        count.unreduced.to_bits(),
        count.total,
        basis(count.basis)
    );
    match splice::rows(count.total, rows, width) {
        Ok(laid) => say!(
            pen.answer,
            "  rows {} {} {} {}\n",
            laid.per_row,
            laid.total,
            laid.pitch.nanometres(),
            laid.first().nanometres()
        ),
        Err(error) => pen.error(error),
    }
}

/// Where the strengths of a group's rivets stand: the same in `answers.h`.
const SHOP_TEST: Basis = Basis::own(1);

fn group_case(pen: &mut Pen, _: &'static [Limit]) {
    let count = pen.dice.below(20);
    pen.word(count);
    let alike = pen.dice.one_in(2);
    let all_known = pen.dice.one_in(2);
    let mut members = Vec::new();
    for _ in 0..count {
        let at = pen.point();
        let weight = match pen.dice.below(30) {
            0 => -1.0,
            _ if alike => 1.0,
            _ => pen.dice.number(2.0) + 0.01,
        };
        let known = all_known || !pen.dice.one_in(3);
        let lbf = pen.dice.number(500.0);
        pen.number(weight);
        pen.word(u8::from(known));
        pen.number(lbf);
        let allowable = Allowable { force: Force::from_lbf(lbf), basis: SHOP_TEST };
        members.push(GroupRivet::new(at, weight).allowable(known.then_some(allowable)));
    }
    let (x, y) = if pen.dice.one_in(10) { (0.0, 0.0) } else { (pen.dice.number(900.0), -pen.dice.number(900.0)) };
    pen.number(x);
    pen.number(y);
    let at = pen.point();
    let moment_in_lbf = if pen.dice.one_in(2) { 0.0 } else { pen.dice.number(5_000.0) };
    pen.number(moment_in_lbf);
    let kind = load_kind(pen);
    let factors = if pen.dice.one_in(3) {
        pen.word(0);
        None
    } else {
        Some(factors(pen))
    };
    let load = PlaneLoad::new(Force::from_lbf(x), Force::from_lbf(y), at, kind).moment_in_lbf(moment_in_lbf);
    let group = match share(&members, load, factors) {
        Ok(group) => group,
        Err(error) => return pen.error(error),
    };
    say!(
        pen.answer,
        "  centroid {} {} turns about {} {} polar {:016x} moment {:016x} most {} worst {} margin {}{}\n",
        group.centroid.x.nanometres(),
        group.centroid.y.nanometres(),
        or_none(group.rotation_centre.map(|centre| centre.x)),
        or_none(group.rotation_centre.map(|centre| centre.y)),
        group.polar_in2.to_bits(),
        group.moment_in_lbf.to_bits(),
        group.most_loaded,
        group.worst.map_or(0, |worst| worst.rivet),
        margin(group.worst.as_ref().map(|worst| &worst.margin)),
        basis(group.basis)
    );
    for part in group.shares() {
        say!(
            pen.answer,
            "  share {:016x} {:016x} {:016x} {:016x} {:016x}\n",
            part.direct.x.lbf().to_bits(),
            part.direct.y.lbf().to_bits(),
            part.torsional.x.lbf().to_bits(),
            part.torsional.y.lbf().to_bits(),
            part.total().size().lbf().to_bits()
        );
    }
    findings(&mut pen.answer, &group.findings);
    // Each yields at three quarters of its allowable.
    for member in &mut members {
        member.yields =
            member.allowable.map(|known| Allowable { force: Force::from_lbf(known.force.lbf() * 0.75), ..known });
    }
    match share(&members, load, factors) {
        Ok(group) => {
            let worst = group.worst_yield;
            let margin = margin(worst.as_ref().map(|worst| &worst.margin));
            say!(pen.answer, "  yields {} margin {margin}\n", worst.map_or(0, |worst| worst.rivet));
            findings(&mut pen.answer, &group.findings);
        }
        Err(error) => pen.error(error),
    }
}

fn part_case(pen: &mut Pen, own: &'static [Limit]) {
    let mut part = pen.family();
    if let Ok(with) = part.with_length(nm((pen.dice.below(60) as i64 + 2) * 793_750)) {
        part = with;
    }
    let mut text = part.to_string();
    match pen.dice.below(6) {
        0 => text = text.to_lowercase(),
        1 => text = text.replace("MS20", "AN"),
        2 => {
            let at = pen.dice.below(text.len() as u64) as usize;
            text.replace_range(at..=at, pen.dice.pick(&["A", "-", "7", ".", "é", "0"]));
        }
        _ => {}
    }
    pen.word(&text);
    let practice = pen.practice(own);
    let part = match Part::parse(&text) {
        Ok(part) => part,
        Err(error) => {
            let sentence = error.to_string();
            return say!(pen.answer, "  {sentence} ({} bytes)\n", sentence.len());
        }
    };
    let letter = part.finish().and_then(|finish| finish.letter);
    let bits: u32 = part
        .warnings()
        .iter()
        .map(|warning| match warning {
            PartWarning::SupersededName { .. } => 1,
            PartWarning::LowerCase => 2,
            PartWarning::HalfWrittenOtherwise => 4,
            PartWarning::OversizeShank { .. } => 8,
            PartWarning::BelowTable { .. } => 16,
            PartWarning::AboveTable { .. } => 32,
            PartWarning::NonStructural => 64,
            PartWarning::HeatTreatFirst => 128,
            PartWarning::NotForNewDesign => 256,
            PartWarning::Recalled { .. } => 512,
            _ => 1024,
        })
        .sum();
    say!(
        pen.answer,
        "  part {part} {} {} {} {} {} warnings {bits}\n",
        part.series().name,
        part.alloy().alloy(),
        part.size().dash,
        letter.map_or(0, u32::from),
        or_none(part.length())
    );
    let head = match part.series().head {
        Head::Universal => 1,
        Head::Flush => 2,
        Head::ReducedFlush => 3,
        other => panic!("{other} has no number here"),
    };
    let size = part.size();
    say!(
        pen.answer,
        "  head {head} diameter {} {} shank {} head {} {} step {}{}\n",
        part.diameter().nanometres(),
        size.standard_diameter().nanometres(),
        range(size.shank),
        or_none(size.head_diameter_nominal()),
        or_none(size.head_height_nominal()),
        part.series().length_step().nanometres(),
        basis(size.basis)
    );
    findings(&mut pen.answer, &check_part(&part));
    let case = Case::of(part.series().head, part.alloy(), part.size());
    let hole = practice.assumed_hole(&case);
    let (min, max) = (hole.value.min().nanometres(), hole.value.max().nanometres());
    say!(pen.answer, "  hole {min}/{min}/{max}{}\n", basis(hole.basis));
    let mut names = Name::ALL.to_vec();
    names.sort_by_key(|name| name.number());
    for name in &names {
        let found = practice.find(*name, &case);
        let value = found.map_or("none".into(), |limit| limit.value.to_string());
        say!(pen.answer, "  {name} {value} ");
        for case in [case, case.stepped_up(), case.stepped_up().in_dimples()] {
            let length = or_none(practice.length(*name, &case).map(|given| given.value));
            let stands = practice.find(*name, &case).map_or("[||-]".into(), |limit| basis(limit.basis));
            say!(pen.answer, "{length}{stands}");
        }
        say!(pen.answer, "\n");
    }
}

fn drill_case(pen: &mut Pen, _: &'static [Limit]) {
    let diameter = pen.dice.wild(100, 6_000);
    pen.length(diameter);
    let none = "no drill is so small or so large; they go from #80 to 1/2";
    match Drill::nearest_at_or_above(diameter) {
        Some(found) => say!(pen.answer, "  above {}\n", drill(Some(found))),
        None => pen.error(none),
    }
    match Drill::nearest_at_or_below(diameter) {
        Some(found) => say!(pen.answer, "  below {}\n", drill(Some(found))),
        None => pen.error(none),
    }
    say!(pen.answer, "  is {diameter}\n  is {}\n  is {}\n", diameter.in_millimetres(), diameter.to_64ths());
}

fn read_case(pen: &mut Pen, _: &'static [Limit]) {
    const PIECES: &[&str] = &[
        ".125",
        "1/8",
        "3.2mm",
        "#30",
        "F",
        "11/64",
        "+-.002",
        "250",
        "lbf",
        "N",
        "-",
        "2024-T3",
        "clad",
        "7075-T6",
        "MS20470AD4-5",
        "1.5D",
        "é",
        ",",
        "mm",
        "/0",
        "1e9",
        "No.",
        "99999999999",
    ];
    let count = 1 + pen.dice.below(3);
    let text: String = (0..count).map(|_| pen.dice.pick(PIECES)).collect();
    pen.word(&text);
    let answer = &mut pen.answer;
    let (length, toleranced) = (Length::parse(&text), Toleranced::parse(&text));
    let (force, drilled, hole) = (Force::parse(&text), Drill::parse(&text), parse_hole(&text));
    let (material, part, value) = (Material::parse(&text), Part::parse(&text), Value::parse(Name::PitchLeast, &text));
    if let Ok(length) = length {
        say!(answer, "  length {}\n", length.nanometres());
    }
    if let Ok(read) = toleranced {
        let parts = [read.min(), read.nominal(), read.max()].map(Length::nanometres);
        say!(answer, "  toleranced {}/{}/{}\n", parts[0], parts[1], parts[2]);
    }
    if let Ok(force) = force {
        say!(answer, "  force {:016x}\n", force.lbf().to_bits());
    }
    if let Ok(found) = drilled {
        say!(answer, "  drill {}\n", drill(Some(found)));
    }
    if let Ok(hole) = hole {
        say!(answer, "  hole {}\n", hole.nanometres());
    }
    if let Ok(material) = material {
        say!(answer, "  material {material}\n");
    }
    fn why<T, E: Display>(read: Result<T, E>) -> String {
        read.err().map_or(String::new(), |error| error.to_string())
    }
    let sentences =
        [why(length), why(toleranced), why(force), why(drilled), why(hole), why(part), why(material), why(value)];
    for (sentence, number) in sentences.iter().zip(1..) {
        say!(answer, "  {number}: {sentence}\n");
    }
}
