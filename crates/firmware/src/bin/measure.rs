//! Measures each kind of question over generated cases: instructions and depth of the stack. Tells it on the first serial port as CSV.
//!
//! Argument: how many cases of each kind.

#![no_std]
#![no_main]

use core::fmt::{self, Write as _};
use core::hint::black_box;

use embedded_io::Write as _;
use semihosting::process::ExitCode;
use shophead::hole::Disposition;
use shophead::installation::Installation;
use shophead::joint::flexibility::Formula;
use shophead::joint::lap::{ALUMINIUM_RIVET, LapRows, shared};
use shophead::joint::row::RowStrength;
use shophead::joint::sharing::{Bay, Envelope, MAX_ROWS, Sharing, SharingRow, Transfer, share_into};
use shophead::joint::strength::JointStrength;
use shophead::length::Length;
use shophead::pattern::{Demand, PatternLimits, choose};
use shophead::quantity::{Flexibility, Force};
use shophead::rivet::part::Part;
use shophead::select::LengthAnswer;
use shophead::upset::{Fit, judge};
use shophead_answers::{Case, Kind};
use shophead_firmware::arguments::number;
use shophead_firmware::meter::Meter;
use shophead_firmware::uart::Uart;

struct Text(Uart);

impl fmt::Write for Text {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        let Ok(()) = self.0.write_all(text.as_bytes());
        Ok(())
    }
}

#[inline(never)]
fn nothing(_: &Case) {}

#[inline(never)]
fn length(case: &Case) {
    let mut found = LengthAnswer::nothing_yet();
    let _ = case.question().length_into(&mut found);
    black_box(&found);
}

#[inline(never)]
fn predict(case: &Case) {
    if let Ok(fit) = Fit::new(case.rivet.series(), case.rivet.size(), case.hole, case.stack.grip()) {
        black_box(&fit.predict(case.length, case.head.height.min()));
    }
}

#[inline(never)]
fn head(case: &Case) {
    black_box(&judge(case.head, &case.defects, case.practice, &case.practice_case()));
}

#[inline(never)]
fn hole(case: &Case) {
    if let Some(found) = case.found {
        black_box(&case.question().hole(found));
    }
}

#[inline(never)]
fn hole_step_by_step(case: &Case) {
    if let Some(found) = case.found {
        black_box(&case.question().hole_step_by_step(found, &mut |step| {
            black_box(step);
        }));
    }
}

#[inline(never)]
fn row(case: &Case) {
    black_box(&case.question().distances());
}

#[inline(never)]
fn strength(case: &Case) {
    let mut found = JointStrength::nothing_yet();
    let _ = case.question().strength_into(&mut found);
    black_box(&found);
}

#[inline(never)]
fn in_two_rows<'c>(case: &'c Case) -> Installation<'c, 'static> {
    case.question().rows(2).pitch(case.layout.pitch.unwrap_or(Length::INCH))
}

#[inline(never)]
fn two_rows(case: &Case) {
    let mut found = RowStrength::nothing_yet();
    let _ = in_two_rows(case).row_into(&mut found);
    black_box(&found);
}

/// As many rows as a chain takes.
static ROWS: [SharingRow; MAX_ROWS] = [SharingRow::new(Flexibility::from_in_per_lbf(2e-6), 1); MAX_ROWS];
static STIFFER: [SharingRow; MAX_ROWS] = [SharingRow::new(Flexibility::from_in_per_lbf(1e-6), 1); MAX_ROWS];
static BAYS: [Bay; MAX_ROWS - 1] = [Bay::new(Length::INCH, Force::from_lbf(4e5), Force::from_lbf(3e5)); MAX_ROWS - 1];

#[inline(never)]
fn shares(_: &Case) {
    let mut found = Sharing::nothing_yet();
    let _ = share_into(&mut found, &ROWS, &BAYS, Transfer::Lap, black_box(Force::from_lbf(1_000.0)));
    black_box(&found);
}

#[inline(never)]
fn shares_by_two(_: &Case) {
    let (mut sharing, mut found) = (Sharing::nothing_yet(), Envelope::new());
    for rows in [&ROWS, &STIFFER] {
        let _ = share_into(&mut sharing, rows, &BAYS, Transfer::Lap, black_box(Force::from_lbf(1_000.0)));
        found.add(&sharing);
    }
    black_box(&found);
}

/// Four rows of the rivet in its sheets.
#[inline(never)]
fn shares_of_a_lap(case: &Case) {
    let pitch = case.layout.pitch.unwrap_or(Length::INCH);
    let rows = LapRows::new(&case.rivet, &case.stack, pitch, 4)
        .apart(pitch)
        .shear(case.shear)
        .load(Force::from_lbf(1_000.0))
        .rivet_modulus(ALUMINIUM_RIVET)
        .practice(case.practice);
    let _ = black_box(&shared(&rows, Formula::Stp927Riveted));
}

/// Twenty holes of thirty that want an oversize shank, in pairs of neighbours and two apart. Six may be stepped up,
/// two neighbours at most: 21 states, so 221 bytes of room.
#[inline(never)]
fn pattern(case: &Case) {
    let limits = PatternLimits::of(30, case.practice, [case.practice_case()]);
    let demands: [Demand; 20] =
        core::array::from_fn(|index| Demand::of(0, (index + index / 2) as u32, [Disposition::Oversize]));
    let mut take = |index, step| {
        black_box((index, step));
    };
    let _ = black_box(&choose(&demands, &limits, &mut [0; 256], &mut take));
}

#[inline(never)]
fn number_read(_: &Case) {
    black_box(&Part::parse(black_box("MS20470AD4-3.5")));
}

#[inline(never)]
fn length_read(_: &Case) {
    black_box(&Length::parse(black_box("1-5/16")));
}

/// A name, the kind of cases, the question.
type Question = (&'static str, Kind, fn(&Case));

const QUESTIONS: [Question; 15] = [
    ("nothing", Kind::Length, nothing),
    ("length choice", Kind::Length, length),
    ("head predicted", Kind::Upset, predict),
    ("head judged", Kind::Upset, head),
    ("hole judged", Kind::Hole, hole),
    ("hole judged step by step", Kind::Hole, hole_step_by_step),
    ("row checked", Kind::Joint, row),
    ("strength of a rivet", Kind::Joint, strength),
    ("two rows", Kind::Joint, two_rows),
    ("shares along 64 rows", Kind::Joint, shares),
    ("the same by two formulas", Kind::Joint, shares_by_two),
    ("shares of a lap's rows", Kind::Joint, shares_of_a_lap),
    ("choice within a pattern", Kind::Joint, pattern),
    ("part number read", Kind::Length, number_read),
    ("length read", Kind::Length, length_read),
];

#[cortex_m_rt::entry]
fn main() -> ! {
    let count = number(1, 500);
    let mut out = Text(Uart::start());
    let Some(meter) = Meter::start() else {
        let _ = writeln!(out, "the counter does not count instructions: start the emulator with -icount shift=0");
        ExitCode::FAILURE.exit_process()
    };
    let _ = writeln!(out, "question,instructions mean,instructions most,stack most");
    for (name, kind, ask) in QUESTIONS {
        let (mut total, mut most, mut stack) = (0_u64, 0, 0);
        for number in 0..count {
            let reading = meter.read(ask, &Case::make(kind, number));
            total += u64::from(reading.instructions);
            most = most.max(reading.instructions);
            stack = stack.max(reading.stack);
        }
        let _ = writeln!(out, "{name},{},{most},{stack}", total / u64::from(count.max(1)));
    }
    ExitCode::SUCCESS.exit_process()
}

#[panic_handler]
fn panicked(_: &core::panic::PanicInfo<'_>) -> ! {
    ExitCode::from(101).exit_process()
}
