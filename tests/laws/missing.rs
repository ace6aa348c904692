//! Laws of what is missing: a patch, a splice, rows, a new seam, a group, a pull along the shank and a driven head each name the key of what is
//! not on file, one after the other, until there is an answer; and what was entered decides.

use std::path::Path;

use shophead::basis::Basis;
use shophead::finding::{Code, Finding};
use shophead::installation::Installation;
use shophead::joint::combined::{Carries, Interaction, Loads, combine};
use shophead::joint::group::{GroupRivet, PlaneLoad, share};
use shophead::joint::margin::{Factors, Load, LoadKind};
use shophead::joint::strength::Allowable;
use shophead::layout::Point;
use shophead::length::{Interval, Length, Toleranced};
use shophead::material::{Material, Property};
use shophead::practice::{BUILT_IN, Case, Dimension, Entry, Key, LimitKind, Practice};
use shophead::quantity::Force;
use shophead::repair::count::By;
use shophead::repair::in_row::LaidRows;
use shophead::repair::panel::{SideQuery, seam};
use shophead::repair::patch::{PatchError, PatchQuery, Pattern, SkinDamage, patch};
use shophead::repair::solve::{SolveFor, Wanted, solve};
use shophead::repair::splice::{Leg, MemberError, Shape, SpliceQuery, Spliced, splice};
use shophead::repair::strip::{CountedQuery, CountedRow, InPlace, counted};
use shophead::rivet::CATALOGUE;
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Preparation, Stack};
use shophead::upset::{Defect, judge_seen};
use shophead_job::model::OwnLimits;
use shophead_tests::prelude::{length, part};

/// What says that something is not on file.
const NOT_KNOWN: [Code; 4] = [Code::NoLimit, Code::StrengthNotPublished, Code::SharesNotKnown, Code::DensityNotKnown];

/// What was found, and what decides, where there is an answer.
struct Asked {
    findings: Vec<Finding>,
    decides: Option<f64>,
}

/// The lines of a limits file that enter a usual figure for each key. A flush rivet's joint is entered for these sheets.
fn usual(key: Key, sheets: &[Material]) -> String {
    let figure = |figure: &str| format!("{key} = {figure}");
    let share = |of: Length, num, den| figure(&format!("\"{}\"", of.times_ratio(num, den)));
    match key.entry().expect("what it is for") {
        Entry::Limit(name) => match name.kind() {
            LimitKind::Length => figure("\"1/4 D\""),
            LimitKind::Fraction => figure("\"1/2\""),
            _ => figure("3"),
        },
        Entry::Size(series, dash, dimension) => {
            let shank = series.size(dash).expect("a size").shank_nominal;
            match dimension {
                Dimension::Shank => share(shank, 1, 1),
                Dimension::HeadDiameter => share(shank, 8, 5),
                Dimension::HeadHeight => share(shank, 1, 4),
                other => panic!("no figure for {other}"),
            }
        }
        Entry::Sheet(_, Property::Modulus | Property::CompressionModulus) => figure("\"10.5 msi\""),
        Entry::Sheet(..) => figure("\"60 ksi\""),
        Entry::Shear(_) => figure("\"30 ksi\""),
        Entry::BendRadius(_) => figure("\"1/8\""),
        Entry::Density(_) => figure("\".1 lb/in3\""),
        Entry::Tension(..) => figure("150"),
        Entry::FlushJoint(..) => {
            let of = |(material, seat): (&Material, &str)| {
                format!(
                    "{{ material = \"{material}\", thickness = \".010\", edge = \".010\", seat = \"{seat}\", ultimate = 300 }}"
                )
            };
            let seats = sheets.iter().flat_map(|sheet| [(sheet, "countersunk"), (sheet, "dimpled")]);
            figure(&format!("[{}]", seats.map(of).collect::<Vec<_>>().join(", ")))
        }
        Entry::PlainJoint(..) => {
            let of = |material: &Material| {
                format!("{{ material = \"{material}\", thickness = \".010\", edge = \".010\", ultimate = 300 }}")
            };
            figure(&format!("[{}]", sheets.iter().map(of).collect::<Vec<_>>().join(", ")))
        }
        other => panic!("{other:?}"),
    }
}

/// Thirds of a length and the like, to the nanometre below.
trait TimesRatio {
    fn times_ratio(self, num: i64, den: i64) -> Length;
}

impl TimesRatio for Length {
    fn times_ratio(self, num: i64, den: i64) -> Length {
        Length::from_nanometres(self.nanometres() * num / den).expect("short")
    }
}

fn ask_with<T>(practice: &Practice<'static>, lines: &[String], ask: &dyn Fn(&Practice<'_>) -> T) -> T {
    let own = if lines.is_empty() {
        OwnLimits::default()
    } else {
        let text = format!("title = \"t\"\ndocument = \"d\"\n{}\n", lines.join("\n"));
        OwnLimits::read_from(text.clone().into(), Path::new("l.toml")).unwrap_or_else(|error| panic!("{text}: {error}"))
    };
    let (limits, documents) = own.lists();
    let practice = practice.with_own(&limits, &documents).with_entered(&own.entered);
    ask(&practice)
}

/// How many figures were entered, and how many of them were seen to decide.
#[derive(Clone, Copy, Debug, Default)]
struct Count {
    entered: usize,
    decide: usize,
}

impl std::ops::AddAssign for Count {
    fn add_assign(&mut self, other: Count) {
        self.entered += other.entered;
        self.decide += other.decide;
    }
}

impl Count {
    fn at_least(self, entered: usize, decide: usize) {
        assert!(self.entered >= entered && self.decide >= decide, "only {self:?}");
    }
}

/// Enters what is named until nothing is missing: then each strength that was entered has a part in the answer, where nothing else stands
/// against one.
fn every_key_leads_on(
    practice: &Practice<'static>,
    sheets: &[Material],
    about: &str,
    ask: &dyn Fn(&Practice<'_>) -> Asked,
) -> Count {
    let mut keys: Vec<Key> = Vec::new();
    // A material of a shop's own is one that its file names.
    let own = sheets.iter().filter(|sheet| sheet.is_own());
    let mut lines: Vec<String> = own.map(|sheet| usual(Key::of_density(*sheet), sheets)).collect();
    let before = lines.len();
    let known = loop {
        let found = ask_with(practice, &lines, ask);
        let named = found.findings.iter().filter(|finding| NOT_KNOWN.contains(&finding.code()));
        let Some(key) = named.filter_map(Finding::key).next() else { break found };
        assert!(!keys.contains(&key), "{about}: {lines:?} does not answer {key}");
        assert!(keys.len() < 20, "{about}: no end of keys: {keys:?}");
        lines.push(usual(key, sheets));
        keys.push(key);
    };
    let refused = known.findings.iter().find(|finding| NOT_KNOWN.contains(&finding.code()) && finding.key().is_none());
    assert!(known.decides.is_some() || refused.is_none(), "{about}: {refused:?} names no key after {lines:?}");
    let mut count = Count { entered: keys.len(), decide: 0 };
    for (at, key) in keys.iter().enumerate().filter(|_| known.decides.is_some()) {
        let weak = match key.entry() {
            Some(Entry::Shear(_)) => "\"10 psi\"",
            Some(Entry::Sheet(_, Property::BearingUltimate15 | Property::BearingUltimate20)) => "\"10 psi\"",
            Some(Entry::Tension(..)) => "1",
            _ => continue,
        };
        let mut lines = lines.clone();
        lines[before + at] = format!("{key} = {weak}");
        let again = ask_with(practice, &lines, ask);
        assert_ne!(again.decides, known.decides, "{about}: {} decides nothing", lines[before + at]);
        count.decide += 1;
    }
    count
}

fn rivets() -> [Part<'static>; 6] {
    ["MS20470AD5", "MS20470D5", "MS20426AD5", "MS20426DD5", "NAS1097AD5", "NAS1242AD5"].map(part)
}

/// Every material that is on file by name, and some of a shop's own.
fn materials() -> Vec<Material> {
    let own = ["2219-T87", "clad 7475-T761", "A286"].map(|name| Material::own(name).expect("a name"));
    Material::known().chain(own).collect()
}

#[test]
fn a_patch_names_what_is_missing_until_it_is_sized() {
    let mut entered = Count::default();
    for material in materials() {
        for rivet in rivets() {
            for by in [By::Greater, By::Strength] {
                let ask = |practice: &Practice<'_>| {
                    let damage = SkinDamage::Hole { along: length("2"), across: length("1.5") };
                    let query = PatchQuery::new(material, length(".050"), damage)
                        .rivet(Some(rivet))
                        .by(by)
                        .pattern(Pattern::InLine)
                        .practice(practice);
                    match patch(&query) {
                        Ok(found) => Asked {
                            decides: found.rate.by_strength.map(|rate| rate.per_inch),
                            findings: found.findings.iter().copied().collect(),
                        },
                        // Judged: it is too weak.
                        Err(PatchError::TooManyRivets) => Asked { findings: Vec::new(), decides: Some(f64::INFINITY) },
                        Err(error) => Asked { findings: error.refusal(&material).into_iter().collect(), decides: None },
                    }
                };
                entered += every_key_leads_on(BUILT_IN[0], &[material], &format!("patch {material} {rivet}"), &ask);
            }
        }
    }
    entered.at_least(200, 200 / 4);
}

#[test]
fn a_splice_names_what_is_missing_until_it_is_sized() {
    let mut entered = Count::default();
    for material in materials() {
        for rivet in rivets() {
            let ask = |practice: &Practice<'_>| {
                let leg = Leg::new(length(".9"), length(".050"));
                let legs = [leg, leg];
                let query = SpliceQuery::new(Spliced::Stringer, Shape::Angle, material, &legs)
                    .rivet(Some(rivet))
                    .by(By::Strength)
                    .practice(practice);
                match splice(&query) {
                    Ok(found) => Asked {
                        decides: found.legs.first().and_then(|leg| leg.rate.as_ref()?.per_inch),
                        findings: found
                            .findings
                            .iter()
                            .chain(found.legs.iter().flat_map(|leg| &leg.findings))
                            .copied()
                            .collect(),
                    },
                    Err(error @ (MemberError::NoCount { .. } | MemberError::NoLimits { .. })) => {
                        Asked { findings: error.refusal(&material).into_iter().collect(), decides: None }
                    }
                    Err(_) => Asked { findings: Vec::new(), decides: Some(f64::INFINITY) },
                }
            };
            entered += every_key_leads_on(BUILT_IN[0], &[material], &format!("splice {material} {rivet}"), &ask);
        }
    }
    entered.at_least(100, 100 / 4);
}

fn pack(material: Material, rivet: &Part<'_>) -> Stack {
    let mut stack = Stack::new();
    let seat = if rivet.series().head.is_flush() { Preparation::Countersunk } else { Preparation::Plain };
    for preparation in [seat, Preparation::Plain] {
        let layer = Layer::of(Toleranced::exactly(length(".080")));
        stack.push(layer.material(material).preparation(preparation)).expect("two layers");
    }
    stack
}

fn laid<'s, 'a>(rivet: Part<'static>, stack: &'s Stack, practice: &'a Practice<'a>) -> LaidRows<'s, 'a> {
    let rows = LaidRows::new(rivet, stack, length("3/8"), length("7/8"));
    rows.rows(2).apart(length("5/8")).practice(practice)
}

#[test]
fn rows_a_seam_a_solution_and_a_strip_name_what_is_missing_until_they_carry() {
    let mut entered = Count::default();
    for material in materials() {
        for rivet in [rivets()[0], rivets()[3]] {
            let stack = pack(material, &rivet);
            let of_seam = |practice: &Practice<'_>| {
                let first = laid(rivet, &stack, practice);
                let factory = [first, first.rows(1)];
                let query = SideQuery::new(length("12"), &factory);
                let found = seam(&query).expect("a seam");
                let carries = found.factory.first().and_then(|row| row.strength.per_inch);
                Asked {
                    decides: carries.map(|carries| carries.force.lbf()),
                    findings: found.findings.iter().copied().collect(),
                }
            };
            let of_solution = |practice: &Practice<'_>| {
                let load = Load { force: Force::from_lbf(5.0), kind: LoadKind::Ultimate };
                let rows = laid(rivet, &stack, practice);
                let wanted = Wanted::new(rows, load).factors(Factors::SEAM).margin(0.1);
                let found = solve(&wanted, SolveFor::Rows).expect("limits");
                Asked {
                    decides: found.found.as_ref().and_then(|found| found.margin).map(|margin| margin.value),
                    findings: found.refusal(&wanted).into_iter().collect(),
                }
            };
            let of_strip = |practice: &Practice<'_>| {
                let row = |count| CountedRow::new(count, rivet);
                let ksi = shophead::quantity::Stress::from_ksi(60.0);
                let counts = [row(1), row(2)];
                let query = CountedQuery::new(rivet, &counts, &stack, length("2"), length("1"), length("1/2"))
                    .given(InPlace::default().ftu(Some(ksi)))
                    .practice(practice);
                let mut findings = Vec::new();
                let found = counted(&query, &mut |_, finding| findings.push(*finding)).expect("a strip");
                Asked { decides: found.all_rivets.map(|carries| carries.lbf()), findings }
            };
            for (name, ask) in [
                ("seam", &of_seam as &dyn Fn(&Practice<'_>) -> Asked),
                ("solution", &of_solution),
                ("strip", &of_strip),
            ] {
                entered += every_key_leads_on(BUILT_IN[0], &[material], &format!("{name} {material} {rivet}"), ask);
            }
        }
    }
    entered.at_least(150, 40);
}

/// Every size, number of rows and pitch is tried for it, which takes its time.
#[test]
fn the_best_share_names_what_is_missing() {
    let rivet = part("MS20426DD5");
    let material = Material::own("A286").expect("a name");
    let stack = pack(material, &rivet);
    let ask = |practice: &Practice<'_>| {
        let load = Load { force: Force::from_lbf(5.0), kind: LoadKind::Ultimate };
        let rows = laid(rivet, &stack, practice);
        let wanted = Wanted::new(rows, load).factors(Factors::SEAM).margin(0.1);
        let found = solve(&wanted, SolveFor::BestShare).expect("limits");
        let named = found.refusal(&wanted).and_then(|finding| finding.key());
        assert!(named.is_some(), "{:?}", found.why);
    };
    ask_with(BUILT_IN[0], &[usual(Key::of_density(material), &[])], &ask);
}

#[test]
fn a_group_names_what_its_rivets_lack() {
    let mut entered = Count::default();
    for material in materials() {
        for rivet in rivets() {
            let stack = pack(material, &rivet);
            let ask = |practice: &Practice<'_>| {
                let question = Installation::new(rivet, &stack).by(practice).edge(length("1")).pitch(length("2"));
                let found = question.strength().expect("a joint");
                let at = |x: i64| Point { x: length("1").times_ratio(x, 1), y: Length::ZERO };
                let member = |x| GroupRivet::alike(at(x)).allowable(found.allowable);
                let members = [member(0), member(1), member(2)];
                let load = PlaneLoad::new(Force::from_lbf(3.0), Force::from_lbf(40.0), at(1), LoadKind::Ultimate);
                let mut group = share(&members, load, Some(Factors::SEAM)).expect("a group");
                if let Some(key) = found.findings.iter().find_map(Finding::key) {
                    group.lacks(key);
                }
                Asked {
                    decides: group.worst.map(|worst| worst.margin.value),
                    findings: group.findings.iter().copied().collect(),
                }
            };
            entered += every_key_leads_on(BUILT_IN[0], &[material], &format!("group {material} {rivet}"), &ask);
        }
    }
    entered.at_least(100, 100 / 4);
}

#[test]
fn a_pull_along_the_shank_names_the_rivet_that_was_not_tested() {
    let mut entered = Count::default();
    for series in CATALOGUE {
        for size in series.sizes {
            for code in series.materials.iter().map(|material| material.code) {
                let Ok(rivet) = Part::new(series, code, size) else { continue };
                let ask = |practice: &Practice<'_>| {
                    let shear = Allowable { force: Force::from_lbf(200.0), basis: Basis::AS_GIVEN };
                    let loads = Loads::new(Force::from_lbf(10.0), Force::from_lbf(10.0), LoadKind::Ultimate);
                    let carries = Carries::of(&rivet, shear, practice);
                    let found = combine(loads, &carries, Factors::SEAM, Interaction::Circle).expect("loads");
                    Asked { decides: found.margin, findings: found.findings.iter().copied().collect() }
                };
                let named = every_key_leads_on(BUILT_IN[0], &[], &format!("pull {rivet}"), &ask);
                assert_eq!(named.entered, 1, "{rivet}");
                entered += named;
            }
        }
    }
    entered.at_least(50, 50 / 4);
}

#[test]
fn a_driven_head_names_the_limit_that_it_lacks() {
    let mut entered = Count::default();
    let some = Some(Interval::exactly(length(".2")));
    let defects = [
        Defect::Cracks { count: 2, innermost: some.map(|one| one.min()), meeting: false },
        Defect::ManufacturedCracks { innermost: some.map(|one| one.min()) },
        Defect::Flattened(length(".02")),
        Defect::GapUnderDrivenHead { feeler: length(".003"), rim_percent: 20 },
        Defect::Shaved(length(".1")),
        Defect::SheetsApart,
        Defect::Proud(length(".02")),
        Defect::Low(length(".02")),
    ];
    for series in CATALOGUE {
        for size in series.sizes {
            for code in series.materials.iter().map(|material| material.code) {
                let Ok(rivet) = Part::new(series, code, size) else { continue };
                let case = Case::for_part(&rivet);
                for practice in BUILT_IN {
                    for defect in defects {
                        let ask = |practice: &Practice<'_>| {
                            let found = judge_seen(some, some, &[defect], practice, &case);
                            let decides = f64::from(u8::from(found.accepted));
                            Asked { decides: Some(decides), findings: found.findings.iter().copied().collect() }
                        };
                        entered += every_key_leads_on(practice, &[], &format!("head {rivet} {defect:?}"), &ask);
                        let left = ask(practice);
                        let nameless = |finding: &&Finding| finding.code() == Code::NoLimit && finding.key().is_none();
                        assert_eq!(left.findings.iter().find(nameless), None, "{rivet} {defect:?}");
                    }
                }
            }
        }
    }
    entered.at_least(50, 0);
}
