//! What each target does with its bytes, and what has to hold: nothing panics or overflows, what is printed reads back as the same,
//! what is told has a place and steers no terminal, and whatever reads without a mistake is planned, drawn and ordered.
#![allow(unsafe_code, reason = "stands for the C program in `c_interface`")]

use std::ffi::c_char;
use std::fmt::{Debug, Display};
use std::io;
use std::mem::MaybeUninit;
use std::path::Path;
use std::str::FromStr;
use std::sync::LazyLock;

use shophead::access::Minutes;
use shophead::drill::Drill;
use shophead::finding::Finding;
use shophead::installation::Installation;
use shophead::length::{Bare, Length, Toleranced};
use shophead::material::Material;
use shophead::practice::{HANDBOOK, Name, PROCESS, Value};
use shophead::quantity::{Force, Stress};
use shophead::rivet::MS20470;
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Stack};
use shophead::words::Units;
use shophead_ffi::border::{In, Out, Plain};
use shophead_ffi::finding::{SHOPHEAD_MAX_FINDINGS, shophead_finding};
use shophead_ffi::{head, hole, joint, layout, part, practice, select, splice, stack, window};
use shophead_job::card::{Card, card};
use shophead_job::diagnostic::is_unseen;
use shophead_job::drawing;
use shophead_job::inspect::Inspection;
use shophead_job::labels;
use shophead_job::model::{Job, OwnLimits};
use shophead_job::order::{alternatives, order, order_again};
use shophead_job::plan::Plan;
use shophead_job::read::{self, ReadError};
use shophead_job::tools::tools;
use shophead_job::work::work;

const JOB: &str = include_str!("../../../crates/job/demo/marsh-float/job.toml");
const HOLES: &str = include_str!("../../../crates/job/demo/marsh-float/holes.csv");
const TRIM: &str = include_str!("../../../crates/job/demo/marsh-float/trim.csv");
/// More would only be slower.
const LONGEST: usize = 64 * 1024;

fn said(finding: &Finding) {
    for units in [Units::Inches, Units::Millimetres] {
        let sentence = finding.sentence(units).to_string();
        assert!(!sentence.is_empty() && !sentence.chars().any(is_unseen), "{sentence:?}");
        assert!(!finding.short(units).to_string().is_empty());
    }
}

fn printed_and_read<T: Display + Debug + PartialEq>(text: &str, parse: impl Fn(&str) -> Option<T>) -> Option<T> {
    let read = parse(text)?;
    let again = parse(&read.to_string());
    assert_eq!(again.as_ref(), Some(&read), "{text:?} is printed as {read}");
    Some(read)
}

fn from_str<T: FromStr>(text: &str) -> Option<T> {
    text.parse().ok()
}

/// The figures of a command line.
pub fn figures(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let length = from_str::<Length>(text);
    if let Some(length) = length.filter(|length| *length >= Length::ZERO) {
        let nanometres = length.nanometres();
        let exact = format!("{}.{:06}mm", nanometres / 1_000_000, nanometres % 1_000_000);
        assert_eq!(from_str(&exact), Some(length), "{text:?}");
    }
    printed_and_read(text, from_str::<Drill>);
    let _ = from_str::<Force>(text).map(|force| assert!(force.lbf().is_finite()));
    let _ = Stress::parse(text).map(|stress| assert!(stress.psi().is_finite()));
    let _ = Toleranced::parse(text).map(|read| assert!(read.min() <= read.nominal() && read.nominal() <= read.max()));
}

/// The other texts of a command line; what a part and its layers say is asked about.
pub fn words(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let (one, other) = text.split_once('|').unwrap_or((text, ""));
    printed_and_read(one, from_str::<Material>);
    let _ = Minutes::parse(one);
    let _ = Layer::parse(one);
    if let Some((name, value)) = other.split_once('=') {
        for name in Name::ALL.iter().filter(|known| known.as_str() == name) {
            // A length is printed to so many places; printed again it is the same.
            let printed = Value::parse(*name, value).map(|value| value.to_string());
            if let Ok(printed) = printed {
                assert_eq!(Value::parse(*name, &printed).map(|value| value.to_string()).as_ref(), Ok(&printed), "{value:?}");
            }
        }
    }
    let Some(part) = printed_and_read(one, |text| Part::parse(text).ok()) else { return };
    let Ok(stack) = Stack::parse(other) else { return };
    for practice in [&HANDBOOK, &PROCESS] {
        let asked = Installation::new(part, &stack).by(practice);
        if let Ok(answer) = asked.length() {
            answer.findings.iter().for_each(said);
        }
        if let Ok(answer) = asked.strength() {
            answer.findings.iter().for_each(said);
        }
    }
}

fn told<T>(read: Result<T, ReadError>) -> Option<T> {
    match read {
        Ok(read) => Some(read),
        Err(ReadError::Content(mistakes)) => {
            assert!(!mistakes.is_empty() && mistakes.len() <= read::MAX_MISTAKES);
            for mistake in &mistakes {
                let line = mistake.one_line();
                assert!(!line.chars().any(is_unseen), "{line:?}");
                let shown = mistake.render(false);
                assert!(!shown.chars().any(|c| is_unseen(c) && c != '\n'), "{shown:?}");
            }
            None
        }
        Err(ReadError::Io { .. }) => None,
    }
}

fn beside(path: &Path) -> io::Result<Vec<u8>> {
    match path.to_str() {
        Some("holes.csv") => Ok(HOLES.into()),
        Some("trim.csv") => Ok(TRIM.into()),
        _ => Err(io::ErrorKind::NotFound.into()),
    }
}

/// Everything that is made of a job.
fn made(job: &Job, driven: Option<&read::DrivenFile>, shelf: &[shophead_job::order::Stock]) {
    // What takes long with many holes is measured in benches/.
    if job.rows.iter().map(|row| u64::from(row.count)).sum::<u64>() > 2_000 {
        return;
    }
    let (limits, documents) = job.own_limits.lists();
    let practice = job.practice.with_own(&limits, &documents).with_entered(&job.own_limits.entered);
    let plan = Plan::make(job, &practice);
    for (_, finding) in plan.all_findings() {
        said(finding);
    }
    let inspection = driven.map(|driven| Inspection::make(&plan, driven));
    let again = inspection.as_ref().map(Inspection::replacements).unwrap_or_default();
    let lines = if again.is_empty() {
        order(&plan, job.spares_percent, Some(shelf))
    } else {
        order_again(&plan, &again, job.spares_percent, Some(shelf))
    };
    let others = alternatives(&plan, &lines, shelf);
    for units in [Units::Inches, Units::Millimetres] {
        let html = card(&Card {
            plan: &plan,
            order: &lines,
            alternatives: &others,
            inspection: inspection.as_ref(),
            tools: &tools(&plan),
            own_limits: &job.own_limits.title,
            units,
        });
        assert!(!html.contains("<script") && html.trim_end().ends_with("</html>"));
        assert!(drawing::map(&plan, units).contains("</svg>"));
        let _ = work(&plan, units);
    }
    let _ = labels::sheet(&plan, &lines);
}

fn file(bytes: &[u8]) -> Option<Vec<u8>> {
    (bytes.len() <= LONGEST).then(|| bytes.to_vec())
}

/// A job file beside the demo's holes and marks.
pub fn job(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    if let Some(job) = told(Job::read_from(text, Path::new("job.toml"), &beside)) {
        made(&job, None, &[]);
    }
}

/// A file beside the demo's job, named in it under a key.
fn with_named(key: &str, replaced: &str, bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    let job = match replaced {
        "" => format!("{key} = \"named\"\n{JOB}"),
        replaced => JOB.replace(replaced, &format!("{key} = \"named\"")),
    };
    let files = |path: &Path| if path == Path::new("named") { Ok(text.clone()) } else { beside(path) };
    if let Some(job) = told(Job::read_from(job.into(), Path::new("job.toml"), &files)) {
        made(&job, None, &[]);
    }
}

/// A limits file, alone and in the job.
pub fn limits(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    if told(OwnLimits::read_from(text, Path::new("limits.toml"))).is_some() {
        with_named("limits", "", bytes);
    }
}

/// A job whose rows stand in a spreadsheet's file.
pub fn rows(bytes: &[u8]) {
    const BEFORE_ROWS: &str = "title = \"a\"\nrows = \"rows.csv\"\n[materials]\nskin = \"clad 2024-T3\"\n";
    let Some(text) = file(bytes) else { return };
    let files = |path: &Path| if path == Path::new("rows.csv") { Ok(text.clone()) } else { beside(path) };
    if let Some(job) = told(Job::read_from(BEFORE_ROWS.into(), Path::new("job.toml"), &files)) {
        made(&job, None, &[]);
    }
}

/// A survey.
pub fn holes(bytes: &[u8]) {
    with_named("holes", "holes = \"holes.csv\"", bytes);
}

/// Answers to referrals.
pub fn answers(bytes: &[u8]) {
    with_named("answers", "", bytes);
}

/// The marks that a panel is cut by.
pub fn trim(bytes: &[u8]) {
    with_named("stations", "stations = \"trim.csv\"", bytes);
}

static DEMO: LazyLock<Job> =
    LazyLock::new(|| Job::read_from(JOB.into(), Path::new("job.toml"), &beside).expect("the demo reads"));

/// Driven rivets.
pub fn driven(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    if let Some(driven) = told(read::read_driven_from(text, Path::new("driven.csv"), &DEMO)) {
        made(&DEMO, Some(&driven), &[]);
    }
}

/// A shelf.
pub fn stock(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    if let Some(shelf) = told(read::read_stock_from(text, Path::new("stock.csv"), &[])) {
        made(&DEMO, None, &shelf.stock);
    }
}

/// Rivets of a group, and seams to be copied.
pub fn points(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    for bare in [Bare::Inches, Bare::Millimetres] {
        told(read::read_group_from(text.clone(), Path::new("points.csv"), &MS20470, bare));
        told(read::read_seams_from(text.clone(), Path::new("seams.csv"), bare, &[]));
    }
}

/// Keys of a handheld session, on the smallest and the largest screen.
pub fn session(bytes: &[u8]) {
    if bytes.len() > 2_000 {
        return;
    }
    for (columns, lines) in [(16, 2), (40, 8)] {
        let settings = shophead_handheld::Settings::new(columns, lines).expect("a size").with_echo();
        let mut shown = Shown(Vec::new());
        let _ = shophead_handheld::run(bytes, &mut shown, settings);
        // A terminal of one font: letters, line ends, and the step back that echoes a rubout.
        assert!(shown.0.iter().all(|byte| matches!(byte, b' '..=b'~' | b'\n' | b'\r' | 8)), "{:?}", String::from_utf8_lossy(&shown.0));
    }
}

struct Shown(Vec<u8>);

impl embedded_io::ErrorType for Shown {
    type Error = std::convert::Infallible;
}

impl embedded_io::Write for Shown {
    fn write(&mut self, bytes: &[u8]) -> Result<usize, Self::Error> {
        self.0.extend(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> Result<(), Self::Error> {
        Ok(())
    }
}

/// Takes structures off the front of the bytes, zeroes where they end.
struct Bytes<'b>(&'b [u8]);

impl Bytes<'_> {
    fn take<T: Plain>(&mut self) -> T {
        let mut value = MaybeUninit::<T>::zeroed();
        let (taken, rest) = self.0.split_at(self.0.len().min(size_of::<T>()));
        self.0 = rest;
        // SAFETY: room for as many bytes as are copied; of a `Plain` type any bytes that are set are a value.
        unsafe {
            std::ptr::copy_nonoverlapping(taken.as_ptr(), value.as_mut_ptr().cast::<u8>(), taken.len());
            value.assume_init()
        }
    }

    /// A practice without entries of the caller's: pointers are never made of bytes.
    fn practice(&mut self) -> practice::shophead_practice {
        // SAFETY: a structure of numbers and of pointers that may be NULL.
        let mut empty: practice::shophead_practice = unsafe { MaybeUninit::zeroed().assume_init() };
        let (first, rest) = self.0.split_first().unwrap_or((&0, &[]));
        self.0 = rest;
        empty.built_in = u32::from(*first);
        empty
    }
}

fn of<T>(value: &T) -> In<T> {
    // SAFETY: one value, borrowed for longer than the call.
    unsafe { In::new(value) }
}

fn all<T>(values: &[T]) -> In<T> {
    // SAFETY: every call says how many.
    unsafe { In::new(values.as_ptr()) }
}

/// Places that a function may write to; the sanitizer watches their ends.
struct Room<T>(Vec<MaybeUninit<T>>);

impl<T> Room<T> {
    fn of(count: usize) -> Room<T> {
        Room((0..count).map(|_| MaybeUninit::zeroed()).collect())
    }

    fn out(&mut self) -> Out<T> {
        // SAFETY: as many places as every call says, used for nothing else.
        unsafe { Out::new(self.0.as_mut_ptr().cast()) }
    }
}

/// Any bytes in every member of the structures that C hands over.
pub fn c_interface(bytes: &[u8]) {
    let Some((which, rest)) = bytes.split_first() else { return };
    let mut from = Bytes(rest);
    let mut findings = Room::<shophead_finding>::of(SHOPHEAD_MAX_FINDINGS);
    match which % 11 {
        0 | 1 => {
            let practice = from.practice();
            let layers: [stack::shophead_layer; 3] = [from.take(), from.take(), from.take()];
            let mut query: select::shophead_length_query = from.take();
            query.practice = practice;
            let (mut choice, mut serving, mut ranges, mut count) =
                (Room::of(1), Room::of(4), Room::of(4), Room::<usize>::of(1));
            let mut driving = Room::of(1);
            let _ = select::shophead_length_choose(of(&query), choice.out(), findings.out(), SHOPHEAD_MAX_FINDINGS);
            let _ = window::shophead_length_choose_through(of(&query), all(&layers), 3, choice.out(), findings.out(), SHOPHEAD_MAX_FINDINGS);
            let _ = window::shophead_head_window(of(&query), all(&layers), 2, driving.out());
            let _ = window::shophead_length_serves(of(&query), all(&layers), 1, serving.out(), 4, count.out());
            let _ = window::shophead_length_by_hole(of(&query), all(&layers), 2, ranges.out(), 4, count.out());
            let mut predicted = Room::of(1);
            let nm: i64 = query.hole.nominal_nm;
            let _ = head::shophead_head_predict(of(&query), nm, predicted.out());
        }
        2 | 3 => {
            let practice = from.practice();
            let layers: [stack::shophead_layer; 3] = [from.take(), from.take(), from.take()];
            let found: hole::shophead_hole = from.take();
            let mut query: hole::shophead_hole_query = from.take();
            query.practice = practice;
            query.layers = all(&layers);
            query.layer_count %= 4;
            let (mut judged, mut steps) = (Room::of(1), Room::of(hole::SHOPHEAD_MAX_STEPS));
            let mut findings = Room::of(hole::SHOPHEAD_MAX_HOLE_FINDINGS);
            let _ = hole::shophead_hole_judge(
                of(&query),
                of(&found),
                judged.out(),
                steps.out(),
                hole::SHOPHEAD_MAX_STEPS,
                findings.out(),
                hole::SHOPHEAD_MAX_HOLE_FINDINGS,
            );
        }
        4 | 5 => {
            let layers: [stack::shophead_layer; 3] = [from.take(), from.take(), from.take()];
            let mut asked: joint::shophead_joint = from.take();
            asked.layers = all(&layers);
            asked.layer_count %= 4;
            let (mut strength, mut sheets) = (Room::of(1), Room::of(3));
            let _ = joint::shophead_strength_find(of(&asked), strength.out(), sheets.out(), 3, findings.out(), SHOPHEAD_MAX_FINDINGS);
        }
        6 => {
            let practice = from.practice();
            let (row, rivet): (layout::shophead_row, part::shophead_part) = (from.take(), from.take());
            let mut span = Room::of(1);
            let _ = layout::shophead_row_check(of(&row), of(&rivet), 1, of(&practice), findings.out(), SHOPHEAD_MAX_FINDINGS, span.out());
            let (mut changed, mut dimensions) = (Room::of(1), Room::of(1));
            let _ = part::shophead_part_with_length(of(&rivet), row.edge_nm, changed.out());
            let _ = part::shophead_part_dimensions(of(&rivet), dimensions.out());
        }
        7 => {
            let rivet: part::shophead_part = from.take();
            let load: joint::shophead_load = from.take();
            let mut margin = Room::of(1);
            let _ = joint::shophead_margin_find(load.lbf, of(&load), margin.out());
            let mut count = Room::of(1);
            let _ = splice::shophead_splice_needed(load.lbf, rivet.length_nm, rivet.length_nm, load.lbf, count.out());
            let mut per_inch = Room::of(1);
            let _ = splice::shophead_splice_per_inch(rivet.series, rivet.length_nm, of(&rivet), per_inch.out());
            let mut laid = Room::of(1);
            let _ = splice::shophead_splice_lay(rivet.dash, rivet.finish, rivet.length_nm, laid.out());
        }
        8 => {
            let finding: shophead_finding = {
                // Without the pointers of its basis.
                let mut finding: shophead_finding = from.take();
                finding.basis.document.length = 0;
                finding.basis.place.length = 0;
                finding
            };
            let mut text = Room::<c_char>::of(64);
            let mut length = Room::<usize>::of(1);
            let which: [u8; 2] = [rest.first().copied().unwrap_or(0), rest.last().copied().unwrap_or(0)];
            let _ = shophead_ffi::finding::shophead_finding_say(
                of(&finding),
                u32::from(which[0]),
                u32::from(which[1]),
                text.out(),
                64,
                length.out(),
            );
        }
        9 => {
            let layers: [stack::shophead_layer; 8] = std::array::from_fn(|_| from.take());
            let mut grip = Room::of(1);
            let _ = stack::shophead_stack_grip(all(&layers), usize::from(rest.first().copied().unwrap_or(0) % 9), grip.out());
        }
        _ => {
            let practice = from.practice();
            let (first, second) = rest.split_at(rest.len() / 2);
            let chars = |bytes: &[u8]| bytes.iter().map(|byte| *byte as c_char).collect::<Vec<c_char>>();
            let (rivet, layers) = (chars(first), chars(second));
            let mut fitted = Room::of(1);
            let _ = select::shophead_length_fit(
                all(&rivet),
                rivet.len(),
                all(&layers),
                layers.len(),
                of(&practice),
                fitted.out(),
                findings.out(),
                SHOPHEAD_MAX_FINDINGS,
            );
        }
    }
}
