//! The cases.

use heapless::Vec;
use shophead::hole::{AsFound, Damage};
use shophead::installation::Installation;
use shophead::joint::margin::{Factors, Load, LoadKind};
use shophead::joint::strength::Shear;
use shophead::layout::{Edge, Point, RowLayout};
use shophead::length::{Interval, Length, Toleranced};
use shophead::material::{Material, RivetAlloy};
use shophead::practice::{self, BUILT_IN, Practice};
use shophead::quantity::Force;
use shophead::rivet::part::Part;
use shophead::rivet::{CATALOGUE, Head, Series, Size};
use shophead::stack::{Layer, Preparation, Role, Stack};
use shophead::structure::Member;
use shophead::upset::{Defect, MeasuredHead};

use crate::generator::Generator;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A length, and a given length judged.
    Length,
    /// A driven head predicted, and a measured one judged.
    Upset,
    /// A hole.
    Hole,
    /// A joint, its margin, and its layout.
    Joint,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Kind; 4] = [Kind::Length, Kind::Upset, Kind::Hole, Kind::Joint];

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Kind::Length => "length",
            Kind::Upset => "upset",
            Kind::Hole => "hole",
            Kind::Joint => "joint",
        }
    }
}

/// Points in a generated pattern.
pub const PACK_POINTS: usize = 6;

/// One case: everything that any of the kinds needs.
#[derive(Clone, Debug)]
pub struct Case {
    /// What is asked.
    pub kind: Kind,
    /// Its number.
    pub number: u32,
    /// The limits.
    pub practice: &'static Practice<'static>,
    /// The rivet.
    pub rivet: Part<'static>,
    /// The layers.
    pub stack: Stack,
    /// A hole that was assumed or measured.
    pub hole: Toleranced,
    /// A length to judge.
    pub length: Length,
    /// A head as measured.
    pub head: MeasuredHead,
    /// What is wrong with it.
    pub defects: Vec<Defect, 2>,
    /// A hole as found; `None` where the measures are none.
    pub found: Option<AsFound>,
    /// The distances.
    pub layout: RowLayout,
    /// The number of rows.
    pub rows: u8,
    /// The member.
    pub member: Member,
    /// The planes of shear.
    pub shear: Shear,
    /// The load and its factors.
    pub load: (Load, Factors),
    /// A pattern of points.
    pub points: [Point; PACK_POINTS],
    /// A sheet's edge.
    pub edge: Edge,
}

impl Case {
    /// The case of this kind with this number.
    #[must_use]
    pub fn make(kind: Kind, number: u32) -> Case {
        let mut with = Generator::new((u64::from(number) << 3) | kind as u64);
        // The first five of the catalogue have dimensions enough for an answer.
        let catalogue = if with.one_in(4) { CATALOGUE } else { &CATALOGUE[..5] };
        let series = *with.pick(catalogue);
        let size: &'static Size = with.pick(series.sizes);
        let rivet = Part::new(series, with.pick(series.materials).code, size).expect("material and size of the series");
        let diameter = (size.shank_nominal.nanometres() / 2_540) as u32;
        let hole = match with.below(4) {
            0 => with.toleranced(diameter / 2, diameter * 2),
            _ => with.toleranced(diameter, diameter + 80),
        };
        let major = hole.max();
        let minor = if with.one_in(2) { major } else { hole.nominal() };
        let damage = if with.one_in(2) { Damage::None } else { *with.pick(Damage::ALL) };
        Case {
            kind,
            number,
            practice: BUILT_IN[with.below(BUILT_IN.len() as u32) as usize],
            rivet,
            stack: stack(&mut with, series.head),
            hole,
            length: with.length(500, 15_000),
            head: MeasuredHead::new(interval(&mut with, diameter, 2), interval(&mut with, diameter / 4, 3)),
            defects: defects(&mut with),
            found: AsFound::new(major, minor, damage).ok(),
            layout: RowLayout::default()
                .edge(with.maybe(diameter, diameter * 5))
                .pitch(with.maybe(diameter * 2, diameter * 14))
                .transverse_pitch(with.maybe(diameter * 2, diameter * 8)),
            rows: with.between(1, 4) as u8,
            member: *with.pick(Member::ALL),
            shear: if with.one_in(4) { Shear::Double } else { Shear::Single },
            load: load(&mut with),
            points: core::array::from_fn(|_| Point { x: with.length(0, 40_000), y: with.length(0, 40_000) }),
            edge: Edge { from: Point::default(), to: Point { x: with.length(1, 40_000), y: with.length(0, 40_000) } },
        }
    }

    /// The question: the rivet in its pack, with all that the case knows.
    #[must_use]
    #[inline(never)]
    pub fn question(&self) -> Installation<'_, 'static> {
        Installation::new(self.rivet, &self.stack)
            .by(self.practice)
            .in_hole(self.hole)
            .layout(self.layout)
            .rows(u16::from(self.rows))
            .member(self.member)
            .shear(self.shear)
    }

    /// What a limit is asked for.
    #[must_use]
    pub fn practice_case(&self) -> practice::Case {
        let (series, alloy): (&Series<'_>, RivetAlloy) = (self.rivet.series(), self.rivet.alloy());
        practice::Case::of(series.head, alloy, self.rivet.size()).in_rows(self.rows)
    }
}

fn stack(with: &mut Generator, head: Head) -> Stack {
    let mut stack = Stack::new();
    let layers = if with.one_in(3) { 3 } else { with.between(1, 5) };
    let materials = Material::known().len() as u32;
    // Sheets of one joint are mostly of one material.
    let usual = with.below(15);
    for index in 0..layers {
        let thickness = if with.one_in(5) { with.toleranced(60, 4_000) } else { with.toleranced(200, 1_000) };
        let number = if with.one_in(3) { with.below(materials) } else { usual };
        let material = if with.one_in(12) { None } else { Material::known().nth(number as usize) };
        let role = if with.one_in(6) { *with.pick(Role::ALL) } else { Role::Skin };
        let preparation = match (head.is_flush(), index, with.below(10)) {
            (true, 0, 0..8) => Preparation::Countersunk,
            (true, _, 0..3) | (_, _, 0) => Preparation::Dimpled,
            _ => Preparation::Plain,
        };
        // A layer that is none leaves the stack shorter.
        let _ = stack.push(Layer::of(thickness).role(role).material(material).preparation(preparation));
    }
    stack
}

fn interval(with: &mut Generator, about: u32, times: u32) -> Interval {
    let least = with.length(about, about * times);
    let more = if with.one_in(2) { Length::ZERO } else { with.length(0, 100) };
    Interval::of(least, least.checked_add(more).unwrap_or(least))
}

fn defects(with: &mut Generator) -> Vec<Defect, 2> {
    let mut defects = Vec::new();
    for _ in 0..with.below(3) {
        let defect = match with.below(9) {
            0 => Defect::Cracks { count: with.below(5), innermost: with.maybe(500, 3_000), meeting: with.one_in(3) },
            1 => Defect::ToolMark { depth: with.length(0, 200), head_height: with.length(200, 1_000) },
            2 => Defect::Proud(with.length(0, 150)),
            3 => Defect::GapUnderHead,
            4 => Defect::SheetsApart,
            5 => Defect::BuckledShank,
            6 => Defect::Tipped,
            7 => Defect::Loose,
            _ => Defect::SheetDamaged,
        };
        let _ = defects.push(defect);
    }
    defects
}

fn load(with: &mut Generator) -> (Load, Factors) {
    let pounds = f64::from(with.below(200_000)) / 64.0;
    let kind = if with.one_in(2) { LoadKind::Limit } else { LoadKind::Ultimate };
    let factors = if with.one_in(2) { Factors::SEAM } else { Factors::FITTING };
    (Load { force: Force::from_lbf(pounds), kind }, factors)
}
