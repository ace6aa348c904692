//! Anything in every member of every input: a number for an answer or an error, never a crash, never a number that is none, and outputs
//! written if and only if the answer is that all went well.
//!
//! The functions are called as C calls them, by pointer. `cargo +nightly miri test -p shophead-ffi --test hostile` runs the same with every
//! access to memory checked; it takes fewer cases then.
#![allow(unsafe_code, reason = "stands for the C program: what it promises is kept by the locals of each test")]

#[path = "hostile/alike.rs"]
mod alike;

use std::ffi::c_char;
use std::mem::MaybeUninit;

use proptest::prelude::*;
use proptest::test_runner::Config;
use shophead::finding::{Code, Severity};
use shophead::hole::Disposition;
use shophead::installation::Installation;
use shophead::length::Length;
use shophead::material::RivetAlloy;
use shophead::practice::{HANDBOOK, Key, PROCESS};
use shophead::rivet::MS20470;
use shophead::rivet::part::{Part, PartLengthError};
use shophead::select::choose_diameter;
use shophead::squeeze::{FLOW_2117, squeeze};
use shophead::stack::Stack;
use shophead::words::Units;
use shophead_ffi::basis::*;
use shophead_ffi::border::{In, Out, shophead_room};
use shophead_ffi::drill::*;
use shophead_ffi::error::*;
use shophead_ffi::explain::*;
use shophead_ffi::finding::*;
use shophead_ffi::force::*;
use shophead_ffi::group::*;
use shophead_ffi::head::*;
use shophead_ffi::hole::*;
use shophead_ffi::joint::*;
use shophead_ffi::layout::*;
use shophead_ffi::length::*;
use shophead_ffi::material::*;
use shophead_ffi::numbers::*;
use shophead_ffi::part::*;
use shophead_ffi::practice::*;
use shophead_ffi::select::*;
use shophead_ffi::splice::*;
use shophead_ffi::squeeze::*;
use shophead_ffi::stack::*;
use shophead_ffi::text::*;
use shophead_ffi::window::*;

fn config() -> Config {
    let cases = if cfg!(miri) { 12 } else { 1_000 };
    Config { cases, failure_persistence: None, ..Config::default() }
}

fn reads<T>(value: &T) -> In<T> {
    // SAFETY: one value, borrowed for longer than the call.
    unsafe { In::new(value) }
}

fn reads_all<T>(values: &[T]) -> In<T> {
    // SAFETY: as many values as every call of this file says, borrowed for longer than the call.
    unsafe { In::new(values.as_ptr()) }
}

/// Places for `N` values, filled with a pattern. On the heap: a value that moves may lose what stands between its members.
struct Watched<T, const N: usize = 1> {
    places: Vec<MaybeUninit<T>>,
}

const PATTERN: u8 = 0xa5;

impl<T: Copy> Watched<T> {
    fn new() -> Watched<T> {
        Watched::several()
    }
}

impl<T: Copy, const N: usize> Watched<T, N> {
    fn several() -> Watched<T, N> {
        let mut places = Vec::with_capacity(N);
        // SAFETY: there is room for `N`, and any bytes may stand in a `MaybeUninit`.
        unsafe {
            std::ptr::write_bytes(places.as_mut_ptr(), PATTERN, N);
            places.set_len(N);
        }
        Watched { places }
    }

    fn out(&mut self) -> Out<T> {
        // SAFETY: `N` places, borrowed for longer than the call and used for nothing else.
        unsafe { Out::new(self.places.as_mut_ptr().cast()) }
    }

    /// Whether every byte still has the pattern. Only asked after an error, when every byte must still be set.
    fn untouched(&self) -> bool {
        let bytes = self.places.as_ptr().cast::<u8>();
        // SAFETY: the bytes were set by `new`; a function that answers with an error writes none.
        (0..size_of::<[T; N]>()).all(|index| unsafe { bytes.add(index).read() } == PATTERN)
    }

    /// The value. Only asked after success, when it must have been written.
    fn get(&self, index: usize) -> T {
        // SAFETY: a function that answers with success has written it; that it has is what Miri and valgrind check.
        unsafe { self.places[index].assume_init() }
    }
}

/// After an error nothing is written.
macro_rules! hold {
    ($error:expr, $($output:expr),+) => {{
        let error: shophead_error = $error;
        let fine = error == shophead_error::SHOPHEAD_OK;
        prop_assert!(error != shophead_error::SHOPHEAD_ERROR_OTHER);
        if !fine {
            $( prop_assert!($output.untouched(), "{error:?} and yet something is written"); )+
        }
        fine
    }};
}

/// A number of a list: mostly one of it.
fn listed() -> impl Strategy<Value = u32> {
    prop_oneof![8 => 0_u32..14, 1 => any::<u32>()]
}

fn small() -> impl Strategy<Value = u32> {
    prop_oneof![12 => 1_u32..3, 4 => 0_u32..4, 1 => any::<u32>()]
}

/// Nanometres: of sheet metal, of a table, at the ends of what is taken, or anything.
fn nanometres() -> impl Strategy<Value = i64> {
    prop_oneof![
        16 => 1_i64..30_000_000,
        4 => (1_i64..4_000).prop_map(|count| count * 25_400),
        2 => (1_i64..64).prop_map(|count| count * 396_875),
        1 => prop::sample::select(vec![0, -1, 1, SHOPHEAD_NONE, i64::MAX, 1_000_000_000_000, -1_000_000_000_000]),
        1 => any::<i64>(),
    ]
}

fn real() -> impl Strategy<Value = f64> {
    prop_oneof![24 => 0.0_f64..2_000.0, 1 => any::<f64>(), 1 => prop::sample::select(vec![f64::NAN, f64::INFINITY, -1.0, 0.0, 5e-324])]
}

fn toleranced() -> impl Strategy<Value = shophead_toleranced> {
    let near = (nanometres(), 0_i64..200_000, 0_i64..200_000).prop_map(|(nominal, below, above)| shophead_toleranced {
        min_nm: nominal.saturating_sub(below),
        nominal_nm: nominal,
        max_nm: nominal.saturating_add(above),
    });
    let any = (nanometres(), nanometres(), nanometres()).prop_map(|(min_nm, nominal_nm, max_nm)| shophead_toleranced {
        min_nm,
        nominal_nm,
        max_nm,
    });
    prop_oneof![8 => near, 1 => any]
}

fn range() -> impl Strategy<Value = shophead_range> {
    (nanometres(), 0_i64..500_000, any::<bool>()).prop_map(|(min_nm, more, none)| {
        let none = none && more < 100_000;
        shophead_range {
            min_nm: if none { SHOPHEAD_NONE } else { min_nm },
            max_nm: if none { SHOPHEAD_NONE } else { min_nm.saturating_add(more) },
        }
    })
}

fn part() -> impl Strategy<Value = shophead_part> {
    let finish = prop_oneof![16 => Just(0_u32), 1 => 60_u32..95, 1 => any::<u32>()];
    let length =
        prop_oneof![4 => Just(SHOPHEAD_NONE), 4 => (1_i64..40).prop_map(|count| count * 1_587_500), 1 => nanometres()];
    let common = prop_oneof![8 => Just((1_u32, 2_u32)), 4 => Just((2, 2)), 3 => (listed(), listed())];
    (common, prop_oneof![12 => 3_u32..7, 2 => 2_u32..9, 1 => any::<u32>()], finish, length)
        .prop_map(|((series, alloy), dash, finish, length_nm)| shophead_part { series, alloy, dash, finish, length_nm })
}

fn layer() -> impl Strategy<Value = shophead_layer> {
    let form = prop_oneof![16 => 1_u32..4, 1 => any::<u32>()];
    let thin = prop_oneof![16 => 200_000_i64..4_000_000, 1 => nanometres()].prop_map(|nm| shophead_toleranced {
        min_nm: nm,
        nominal_nm: nm,
        max_nm: nm,
    });
    let own = (0_u32..3).prop_map(|at| SHOPHEAD_OWN_MATERIAL | at);
    let material = prop_oneof![16 => 0_u32..20, 1 => own, 1 => any::<u32>()];
    (prop_oneof![16 => thin, 1 => toleranced()], material, prop_oneof![16 => 1_u32..9, 1 => any::<u32>()], form)
        .prop_map(|(thickness, material, role, preparation)| shophead_layer {
            thickness,
            material,
            role,
            preparation,
            unused: 0,
        })
}

fn value() -> impl Strategy<Value = shophead_value> {
    (prop_oneof![8 => 0_u32..11, 1 => any::<u32>()], small(), small(), nanometres())
        .prop_map(|(kind, num, den, nm)| shophead_value { kind, num, den, unused: 0, nm })
}

/// Bytes that may be a text.
fn bytes() -> impl Strategy<Value = Vec<u8>> {
    let pieces = prop::sample::select(vec![
        "1/8",
        ".032",
        "+-.002",
        "#30",
        "F",
        "11/64",
        "MS20470AD4-5",
        "NAS1242",
        "2024-T3",
        "clad ",
        "mm",
        " in",
        "250",
        "lbf",
        "N",
        "1.5 D",
        "20 %",
        "nearest",
        "flush.",
        "material.",
        ".density",
        "9999999999999999999999999999999",
        "-",
        "é",
        "±",
        "\u{0}",
    ]);
    let texts = prop::collection::vec(pieces, 0..4).prop_map(|pieces| pieces.concat().into_bytes());
    prop_oneof![4 => texts, 1 => any::<String>().prop_map(String::into_bytes), 1 => prop::collection::vec(any::<u8>(), 0..40)]
}

/// A text of this file's that a structure points to.
fn text(bytes: &[u8]) -> shophead_text {
    shophead_text { start: reads_all(bytes).cast_to_chars(), length: bytes.len() }
}

trait Chars {
    fn cast_to_chars(self) -> In<c_char>;
}

impl Chars for In<u8> {
    fn cast_to_chars(self) -> In<c_char> {
        // SAFETY: both are bare pointers, to bytes of any value.
        unsafe { std::mem::transmute::<In<u8>, In<c_char>>(self) }
    }
}

type Own = (u32, u32, u32, u32, i64, shophead_value, Vec<u8>);

fn own() -> impl Strategy<Value = Vec<Own>> {
    let diameter = prop_oneof![4 => Just(SHOPHEAD_NONE), 1 => Just(3_175_000_i64), 1 => nanometres()];
    let scope = prop_oneof![8 => Just(0_u32), 1 => small()];
    let one = (1_u32..46, scope, small(), prop_oneof![8 => Just(0_u32), 1 => small()], diameter, value(), bytes());
    prop_oneof![4 => Just(Vec::new()), 1 => prop::collection::vec(prop_oneof![1 => one, 1 => by_key()], 1..4)]
}

/// A figure by its key, with the joints and materials that only those have.
fn by_key() -> impl Strategy<Value = Own> {
    let keys = [
        "material.A286.tension_ultimate",
        "material.A286.density",
        "flush.MS20426AD4",
        "plain.MS20470AD4",
        "rivet.2117.shear_ultimate",
        "tension.MS20470AD4.ultimate",
    ];
    let key = prop::sample::select(keys.to_vec()).prop_map(|key| Key::parse(key).unwrap().number().cast_signed());
    let zeros = prop_oneof![8 => Just(0_u32), 1 => small()];
    let material = prop_oneof![4 => 0_u32..20, 2 => Just(0), 1 => (0_u32..3).prop_map(|at| SHOPHEAD_OWN_MATERIAL | at)];
    (zeros.clone(), zeros, material, prop_oneof![8 => key, 1 => any::<i64>()], value(), bytes())
        .prop_map(|(head, alloy, rows, key, value, bytes)| (SHOPHEAD_BY_KEY, head, alloy, rows, key, value, bytes))
}

fn limits(own: &[Own]) -> Vec<shophead_limit> {
    let limit = |(name, head, alloy, rows, diameter_nm, value, bytes): &Own| shophead_limit {
        name: *name,
        head: *head,
        alloy: *alloy,
        rows: *rows,
        diameter_nm: *diameter_nm,
        value: *value,
        document: text(bytes),
        place: text(&[]),
    };
    own.iter().map(limit).collect()
}

fn practice(built_in: u32, own: &[shophead_limit]) -> shophead_practice {
    shophead_practice { built_in, unused: 0, own: reads_all(own), own_count: own.len() }
}

fn built() -> impl Strategy<Value = u32> {
    prop_oneof![8 => 1_u32..3, 1 => small()]
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn any_bytes_are_read_or_refused(bytes in bytes(), list in listed(), name in listed(), reading in listed()) {
        let (from, length) = (reads_all(&bytes).cast_to_chars(), bytes.len());
        let (mut nm, mut real, mut number) = (Watched::<i64>::new(), Watched::<f64>::new(), Watched::<u32>::new());
        let (mut tolerance, mut drill, mut part) = (Watched::new(), Watched::new(), Watched::new());
        let (mut value, mut sentence, mut size) = (Watched::new(), Watched::<c_char, SHOPHEAD_TEXT_MAX>::several(), Watched::<usize>::new());
        let mut warnings = Watched::<u32>::new();
        hold!(shophead_length_parse(from, length, nm.out()), nm);
        hold!(shophead_toleranced_parse(from, length, tolerance.out()), tolerance);
        if hold!(shophead_force_parse(from, length, real.out()), real) {
            prop_assert!(real.get(0).is_finite());
        }
        hold!(shophead_drill_parse(from, length, drill.out()), drill);
        let mut hole = Watched::<i64>::new();
        hold!(shophead_hole_parse(from, length, hole.out()), hole);
        hold!(shophead_material_parse(from, length, number.out()), number);
        let (mut key, mut text, mut long) = (Watched::<i64>::new(), Watched::<c_char, SHOPHEAD_TEXT_MAX>::several(), Watched::<usize>::new());
        if hold!(shophead_key_parse(from, length, key.out()), key) {
            prop_assert_eq!(shophead_key_print(key.get(0), text.out(), SHOPHEAD_TEXT_MAX, long.out()), shophead_error::SHOPHEAD_OK);
        }
        let mut found = Watched::<u32>::new();
        hold!(shophead_number(list, from, length, found.out()), found);
        hold!(shophead_value_parse(name, from, length, value.out()), value);
        let (mut layers, mut count) = (Watched::<shophead_layer, SHOPHEAD_MAX_LAYERS>::several(), Watched::<usize>::new());
        hold!(shophead_layers_parse(from, length, layers.out(), SHOPHEAD_MAX_LAYERS, count.out()), layers, count);
        if hold!(shophead_part_parse(from, length, part.out(), warnings.out()), part, warnings) {
            // What was read can be printed, and reads as the same.
            prop_assert_eq!(shophead_part_print(reads(&part.get(0)), sentence.out(), SHOPHEAD_TEXT_MAX, size.out()), shophead_error::SHOPHEAD_OK);
            let mut again = Watched::new();
            let chars: Vec<c_char> = (0..size.get(0)).map(|index| sentence.get(index)).collect();
            let mut bits = Watched::<u32>::new();
            prop_assert_eq!(shophead_part_parse(reads_all(&chars), chars.len(), again.out(), bits.out()), shophead_error::SHOPHEAD_OK);
            let (one, other): (shophead_part, shophead_part) = (part.get(0), again.get(0));
            prop_assert_eq!(one, other);
        }
        let (mut why, mut long) = (Watched::<c_char, SHOPHEAD_TEXT_MAX>::several(), Watched::<usize>::new());
        if std::str::from_utf8(&bytes).is_ok() && (1..=10).contains(&reading) && (1..=44).contains(&name) {
            // A buffer of the size that always suffices does.
            prop_assert_eq!(shophead_explain(reading, name, from, length, why.out(), SHOPHEAD_TEXT_MAX, long.out()), shophead_error::SHOPHEAD_OK);
        } else {
            hold!(shophead_explain(reading, name, from, length, why.out(), SHOPHEAD_TEXT_MAX, long.out()), why, long);
        }
    }

    #[test]
    fn any_numbers_are_printed_or_refused(nm in nanometres(), list in listed(), number in listed(), capacity in 0_usize..64, real in real()) {
        let (mut text, mut size, mut word) = (Watched::<c_char, 64>::several(), Watched::<usize>::new(), Watched::new());
        if hold!(shophead_length_print(nm, number, text.out(), capacity, size.out()), text, size) {
            prop_assert_eq!(text.get(size.get(0)), 0);
            prop_assert!(size.get(0) < capacity);
        }
        let (mut text, mut size) = (Watched::<c_char, 64>::several(), Watched::<usize>::new());
        hold!(shophead_error_message(number, text.out(), capacity, size.out()), text, size);
        let (mut text, mut size) = (Watched::<c_char, 64>::several(), Watched::<usize>::new());
        hold!(shophead_key_print(nm, text.out(), capacity, size.out()), text, size);
        let (mut text, mut size) = (Watched::<c_char, 64>::several(), Watched::<usize>::new());
        hold!(shophead_material_print(number, text.out(), capacity, size.out()), text, size);
        hold!(shophead_word(list, number, word.out()), word);
        let (mut above, mut below) = (Watched::new(), Watched::new());
        hold!(shophead_drill_at_or_above(nm, above.out()), above);
        hold!(shophead_drill_at_or_below(nm, below.out()), below);
        let (mut tension, mut tables) = (Watched::new(), Watched::new());
        hold!(shophead_material_tension(number, nm, tension.out()), tension);
        hold!(shophead_splice_tables(number, tables.out()), tables);
        let (mut lbf, mut newtons) = (Watched::<f64>::new(), Watched::<f64>::new());
        if hold!(shophead_force_from_newtons(real, lbf.out()), lbf) { prop_assert!(lbf.get(0).is_finite()); }
        if hold!(shophead_force_to_newtons(real, newtons.out()), newtons) { prop_assert!(newtons.get(0).is_finite()); }
    }

    #[test]
    fn any_finding_is_said_or_refused(
        code in 0_u32..70, severity in 0_u32..5, layer in small(), kinds in (0_u32..7, 0_u32..7), whole in nanometres(), number in real(),
        status in 0_u32..6, units in 0_u32..4, saying in 0_u32..5, capacity in 0_usize..200,
    ) {
        let figure = |kind| shophead_figure { kind: shophead_figure_kind(kind), whole, number };
        let document = b"manual".map(|byte| byte as c_char);
        let basis = shophead_basis {
            document: shophead_text { start: reads_all(&document), length: document.len() },
            place: shophead_text { start: reads_all(&[]), length: 0 },
            status: shophead_status(status),
        };
        let finding = shophead_finding {
            code: shophead_code(code),
            severity: shophead_severity(severity),
            layer,
            measured: figure(kinds.0),
            limit: figure(kinds.1),
            basis,
        };
        let (mut text, mut size) = (Watched::<c_char, 200>::several(), Watched::<usize>::new());
        if hold!(shophead_finding_say(reads(&finding), units, saying, text.out(), capacity, size.out()), text, size) {
            prop_assert_eq!(text.get(size.get(0)), 0);
            prop_assert!((1..capacity).contains(&size.get(0)));
        }
    }

    #[test]
    fn any_part_and_limit_are_answered_or_refused(part in part(), nm in nanometres(), name in 0_u32..50, rows in small(), built in built(), own in own(), value in value()) {
        let own = limits(&own);
        let practice = practice(built, &own);
        let (mut text, mut size) = (Watched::<c_char, 64>::several(), Watched::<usize>::new());
        hold!(shophead_part_print(reads(&part), text.out(), 64, size.out()), text, size);
        let (mut changed, mut dimensions) = (Watched::new(), Watched::new());
        hold!(shophead_part_with_length(reads(&part), nm, changed.out()), changed);
        hold!(shophead_part_dimensions(reads(&part), dimensions.out()), dimensions);
        let (mut findings, mut span) = (Watched::<_, SHOPHEAD_MAX_FINDINGS>::several(), Watched::new());
        hold!(shophead_part_check(reads(&part), findings.out(), SHOPHEAD_MAX_FINDINGS, span.out()), findings, span);
        let (mut text, mut size) = (Watched::<c_char, SHOPHEAD_TEXT_MAX>::several(), Watched::<usize>::new());
        hold!(shophead_value_print(name, reads(&value), text.out(), SHOPHEAD_TEXT_MAX, size.out()), text, size);
        let (mut applies, mut hole, mut basis) = (Watched::new(), Watched::new(), Watched::<shophead_basis>::new());
        hold!(shophead_practice_find(reads(&practice), name, reads(&part), rows, applies.out()), applies);
        hold!(
            shophead_practice_find_after_step_up(reads(&practice), name, reads(&part), rows, name % 2, applies.out()),
            applies
        );
        hold!(shophead_practice_hole(reads(&practice), reads(&part), hole.out(), basis.out()), hole, basis);
        let mut limits = Watched::new();
        hold!(shophead_head_find_limits(reads(&part), reads(&practice), limits.out()), limits);
    }

    #[test]
    fn any_length_query_is_answered_or_refused(part in part(), grip in toleranced(), hole in toleranced(), built in built(), own in own(), nm in nanometres()) {
        let own = limits(&own);
        let query = shophead_length_query { part, grip, hole, practice: practice(built, &own) };
        let (mut choice, mut findings) = (Watched::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
        if hold!(shophead_length_choose(reads(&query), choice.out(), findings.out(), SHOPHEAD_MAX_FINDINGS), choice, findings) {
            let choice: shophead_length_choice = choice.get(0);
            prop_assert!(choice.findings.count as usize <= SHOPHEAD_MAX_FINDINGS);
            // The length is one that the rivet can have.
            if choice.length_nm != SHOPHEAD_NONE && part.finish == 0 {
                let mut made = Watched::new();
                let error = shophead_part_with_length(reads(&part), choice.length_nm, made.out());
                let too_long = [PartLengthError::TooLong.into(), PartLengthError::FinishNeeded.into()];
                prop_assert!(error == shophead_error::SHOPHEAD_OK || too_long.contains(&error), "{error:?}");
            }
        }
        let (mut span, mut findings) = (Watched::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
        hold!(shophead_length_assess(reads(&query), nm, findings.out(), SHOPHEAD_MAX_FINDINGS, span.out()), span, findings);
        let mut predicted = Watched::new();
        hold!(shophead_head_predict(reads(&query), nm, predicted.out()), predicted);
    }

    #[test]
    fn any_window_is_answered_or_refused(part in part(), layers in prop::collection::vec(layer(), 0..4), grip in toleranced(), hole in toleranced(), built in built(), own in own(), capacity in 0_usize..=SHOPHEAD_MAX_HOLE_RANGES) {
        let own = limits(&own);
        let query = shophead_length_query { part, grip, hole, practice: practice(built, &own) };
        let mut window = Watched::new();
        hold!(shophead_head_window(reads(&query), reads_all(&layers), layers.len(), window.out()), window);
        let (mut servings, mut count) = (Watched::<_, SHOPHEAD_MAX_HOLE_RANGES>::several(), Watched::<usize>::new());
        if hold!(shophead_length_serves(reads(&query), reads_all(&layers), layers.len(), servings.out(), capacity, count.out()), servings, count) {
            prop_assert!(count.get(0) <= capacity);
        }
        let (mut ranges, mut count) = (Watched::<_, SHOPHEAD_MAX_HOLE_RANGES>::several(), Watched::<usize>::new());
        let error = shophead_length_by_hole(reads(&query), reads_all(&layers), layers.len(), ranges.out(), capacity, count.out());
        if hold!(error, ranges, count) {
            prop_assert!(count.get(0) <= capacity);
        } else if capacity == SHOPHEAD_MAX_HOLE_RANGES {
            prop_assert_ne!(error, shophead_error::SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
        }
        let (mut choice, mut findings) = (Watched::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
        hold!(shophead_length_choose_through(reads(&query), reads_all(&layers), layers.len(), choice.out(), findings.out(), SHOPHEAD_MAX_FINDINGS), choice, findings);
    }

    #[test]
    fn any_driven_head_is_judged_or_refused(part in part(), diameter in range(), height in range(), built in built(), own in own(), seen in prop::collection::vec((listed(), any::<u32>(), 0_u32..3, nanometres(), nanometres()), 0..5)) {
        let own = limits(&own);
        let practice = practice(built, &own);
        let measured = shophead_measured { diameter, height };
        let defects: Vec<shophead_defect> = seen.iter().map(|(kind, count, meeting, nm, head_height_nm)| shophead_defect {
            kind: *kind, count: *count, meeting: *meeting, unused: 0, nm: *nm, head_height_nm: *head_height_nm,
        }).collect();
        let (mut judgement, mut findings) = (Watched::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
        let error = shophead_head_judge(reads(&measured), reads_all(&defects), defects.len(), reads(&part), reads(&practice), judgement.out(), findings.out(), SHOPHEAD_MAX_FINDINGS);
        if hold!(error, judgement, findings) {
            let judgement: shophead_judgement = judgement.get(0);
            let refers = (0..judgement.findings.count as usize).any(|index| {
                let finding: shophead_finding = findings.get(index);
                finding.severity == Severity::Refer.into()
            });
            prop_assert_eq!(judgement.accepted == 1, !refers);
        }
    }

    #[test]
    fn any_hole_is_judged_or_refused(part in part(), layers in prop::collection::vec(layer(), 0..5), axes in (prop_oneof![2 => 2_000_000_i64..5_000_000, 1 => nanometres()], 0_i64..600_000), damage in prop_oneof![4 => 1_u32..7, 1 => listed()], row in (nanometres(), nanometres(), nanometres()), rows in small(), member in prop_oneof![4 => 1_u32..8, 1 => listed()], built in built(), own in own(), rooms in prop_oneof![3 => Just((4_usize, 60_usize)), 1 => (0_usize..6, 0_usize..70)]) {
        let own = limits(&own);
        let query = shophead_hole_query {
            part, layers: reads_all(&layers), layer_count: layers.len(), edge_nm: row.0, pitch_nm: row.1, transverse_pitch_nm: row.2,
            rows, member, practice: practice(built, &own),
        };
        let found = shophead_hole { major_nm: axes.0.saturating_add(axes.1), minor_nm: axes.0, damage, unused: 0 };
        let more = shophead_found_hole {
            major_nm: found.major_nm, minor_nm: axes.0, damage, direction: rooms.0 as u32, opened: rooms.1 as u32, unused: 0,
        };
        let (step_room, finding_room) = (rooms.0.min(SHOPHEAD_MAX_STEPS), rooms.1.min(SHOPHEAD_MAX_HOLE_FINDINGS));
        let mut judgement = Watched::new();
        let (mut steps, mut findings) = (Watched::<_, SHOPHEAD_MAX_STEPS>::several(), Watched::<_, SHOPHEAD_MAX_HOLE_FINDINGS>::several());
        let error = shophead_hole_judge(reads(&query), reads(&found), judgement.out(), steps.out(), step_room, findings.out(), finding_room);
        if rooms.0 >= SHOPHEAD_MAX_STEPS && rooms.1 >= SHOPHEAD_MAX_HOLE_FINDINGS {
            prop_assert!(error != shophead_error::SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
        }
        {
            let mut judgement = Watched::new();
            let (mut steps, mut findings) = (Watched::<_, SHOPHEAD_MAX_STEPS>::several(), Watched::<_, SHOPHEAD_MAX_HOLE_FINDINGS>::several());
            let error = shophead_found_hole_judge(reads(&query), reads(&more), judgement.out(), steps.out(), step_room, findings.out(), finding_room);
            hold!(error, judgement, steps, findings);
        }
        if hold!(error, judgement, steps, findings) {
            let judgement: shophead_hole_judgement = judgement.get(0);
            let last = judgement.steps.checked_sub(1).map(|last| -> shophead_step { steps.get(last as usize) });
            let chosen = last.filter(|last| last.does == 1);
            prop_assert_eq!(chosen.is_none(), judgement.disposition == Disposition::Refer.into());
            prop_assert!(judgement.findings.first + judgement.findings.count <= finding_room as u32);
        }
    }

    #[test]
    fn any_row_and_pattern_is_checked_or_refused(part in part(), row in (nanometres(), nanometres(), nanometres()), rows in small(), built in built(), own in own(), points in prop::collection::vec((nanometres(), nanometres()), 0..12), edges in prop::collection::vec((nanometres(), nanometres(), nanometres(), nanometres()), 0..4), rooms in prop_oneof![3 => Just(20_usize), 1 => 0_usize..20]) {
        let own = limits(&own);
        let practice = practice(built, &own);
        let row = shophead_row { edge_nm: row.0, pitch_nm: row.1, transverse_pitch_nm: row.2 };
        let (mut span, mut findings) = (Watched::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
        hold!(shophead_row_check(reads(&row), reads(&part), rows, reads(&practice), findings.out(), SHOPHEAD_MAX_FINDINGS, span.out()), span, findings);
        let point = |(x_nm, y_nm): (i64, i64)| shophead_point { x_nm, y_nm };
        let points: Vec<_> = points.into_iter().map(point).collect();
        let edges: Vec<_> = edges.into_iter().map(|(a, b, c, d)| shophead_edge { from: point((a, b)), to: point((c, d)) }).collect();
        let (mut pattern, mut findings) = (Watched::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
        let mut room = Watched::<shophead_room, 20>::several();
        let error = shophead_points_check(reads_all(&points), points.len(), reads_all(&edges), edges.len(), reads(&part), rows, reads(&practice), room.out(), rooms, pattern.out(), findings.out(), SHOPHEAD_MAX_FINDINGS);
        if rooms >= points.len() + edges.len() {
            prop_assert!(error != shophead_error::SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
        }
        hold!(error, pattern, findings);
    }

    #[test]
    fn any_joint_is_worked_out_or_refused(part in part(), layers in prop::collection::vec(layer(), 0..5), row in (nanometres(), nanometres(), nanometres()), shear in small(), load in (small(), small(), real()), allowable in real(), built in built(), own in own(), bytes in bytes()) {
        let load = shophead_load { kind: load.0, factors: load.1, lbf: load.2 };
        let joint = shophead_joint {
            part, layers: reads_all(&layers), layer_count: layers.len(), edge_nm: row.0, hole_nm: row.1, pitch_nm: row.2, shear, unused: 0, load,
        };
        let (mut strength, mut findings) = (Watched::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
        let mut sheets = Watched::<_, SHOPHEAD_MAX_LAYERS>::several();
        let limits = limits(&own);
        let practice = practice(built, &limits);
        let (mut read, mut count) = (Watched::<shophead_layer, SHOPHEAD_MAX_LAYERS>::several(), Watched::<usize>::new());
        let error = shophead_layers_parse_by(reads_all(&bytes).cast_to_chars(), bytes.len(), reads(&practice), read.out(), SHOPHEAD_MAX_LAYERS, count.out());
        hold!(error, read, count);
        let error = if own.is_empty() {
            shophead_strength_find(reads(&joint), strength.out(), sheets.out(), SHOPHEAD_MAX_LAYERS, findings.out(), SHOPHEAD_MAX_FINDINGS)
        } else {
            shophead_strength_find_by(reads(&joint), reads(&practice), strength.out(), sheets.out(), SHOPHEAD_MAX_LAYERS, findings.out(), SHOPHEAD_MAX_FINDINGS)
        };
        if hold!(error, strength, sheets, findings) {
            let strength: shophead_strength = strength.get(0);
            let loads = [strength.shear.lbf, strength.allowable.lbf, strength.indication.lbf, strength.yield_load.lbf, strength.net_section.lbf];
            prop_assert!(loads.iter().chain([&strength.margin.value, &strength.margin.factored_load_lbf]).all(|number| number.is_finite()));
            for index in 0..strength.sheets as usize {
                let sheet: shophead_sheet = sheets.get(index);
                let numbers = [sheet.edge_margin, sheet.share, sheet.bearing.lbf, sheet.tear_out.lbf, sheet.net_section.lbf];
                prop_assert!(numbers.iter().all(|number| number.is_finite()));
            }
        }
        let mut margin = Watched::new();
        if hold!(shophead_margin_find(allowable, reads(&load), margin.out()), margin) {
            let margin: shophead_margin = margin.get(0);
            prop_assert!(margin.value.is_finite() && margin.known == 1);
        }
    }

    #[test]
    fn any_splice_is_counted_or_refused(part in part(), table in small(), lengths in (nanometres(), nanometres()), reals in (real(), real()), member in small(), counts in (any::<u32>(), small())) {
        let (mut per_inch, mut count, mut needed, mut laid) = (Watched::new(), Watched::new(), Watched::new(), Watched::new());
        hold!(shophead_splice_per_inch(table, lengths.0, reads(&part), per_inch.out()), per_inch);
        if hold!(shophead_splice_count(reals.0, lengths.1, member, count.out()), count) {
            let count: shophead_count = count.get(0);
            prop_assert!(count.per_inch.is_finite() && count.unreduced.is_finite());
        }
        if hold!(shophead_splice_needed(reals.0, lengths.0, lengths.1, reals.1, needed.out()), needed) {
            let needed: shophead_needed = needed.get(0);
            prop_assert!(needed.load_lbf.is_finite() && needed.exact.is_finite() && needed.per_inch.is_finite());
        }
        hold!(shophead_splice_lay(counts.0, counts.1, lengths.1, laid.out()), laid);
    }

    #[test]
    fn any_group_is_shared_or_refused(rivets in prop::collection::vec((nanometres(), nanometres(), real(), real(), prop_oneof![8 => 0_u32..2, 1 => small()], prop_oneof![8 => 1_u32..5, 1 => listed()], prop_oneof![4 => Just(Vec::new()), 1 => bytes()]), 0..6), load in (real(), real(), nanometres(), nanometres(), real()), kinds in (small(), small()), rooms in prop_oneof![3 => Just(30_usize), 1 => 0_usize..30]) {
        let given: Vec<shophead_rivet> = rivets.iter().map(|(x_nm, y_nm, weight, allowable_lbf, allowable_known, status, bytes)| shophead_rivet {
            at: shophead_point { x_nm: *x_nm, y_nm: *y_nm }, weight: *weight, allowable_lbf: *allowable_lbf,
            allowable_known: *allowable_known, status: *status, document: text(bytes), place: text(&[]),
        }).collect();
        let load = shophead_plane_load {
            x_lbf: load.0, y_lbf: load.1, at: shophead_point { x_nm: load.2, y_nm: load.3 }, moment_in_lbf: load.4, kind: kinds.0, factors: kinds.1,
        };
        let (mut group, mut shares, mut findings) = (Watched::new(), Watched::<_, 6>::several(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
        let mut room = Watched::<shophead_room, 30>::several();
        let error = shophead_group_share(reads_all(&given), given.len(), reads(&load), room.out(), rooms, group.out(), shares.out(), 6, findings.out(), SHOPHEAD_MAX_FINDINGS);
        if rooms >= given.len() * SHOPHEAD_ROOM_PER_RIVET {
            prop_assert!(error != shophead_error::SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
        }
        let yieldings: Vec<shophead_yielding> = given.iter().map(|rivet| shophead_yielding {
            rivet: *rivet, yield_lbf: rivet.allowable_lbf, yield_known: rivet.allowable_known,
        }).collect();
        let (mut yielded, mut more) = (Watched::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
        let told = shophead_group_yield(reads_all(&yieldings), yieldings.len(), reads(&load), room.out(), rooms, yielded.out(), more.out(), SHOPHEAD_MAX_FINDINGS);
        if hold!(told, yielded, more) {
            let yielded: shophead_yielded = yielded.get(0);
            prop_assert!(yielded.margin.value.is_finite() && yielded.worst < given.len());
        }
        if hold!(error, group, shares, findings) {
            let group: shophead_group = group.get(0);
            prop_assert!(group.polar_in2.is_finite() && group.moment_in_lbf.is_finite() && group.margin.value.is_finite());
            for index in 0..given.len() {
                let share: shophead_share = shares.get(index);
                prop_assert!(share.size_lbf.is_finite());
            }
        }
    }
}

/// A diameter for a sheet and the force to form a head are the core's own.
#[test]
fn a_diameter_and_a_squeeze_are_the_core_s_own_answers() {
    let mut sizes = std::collections::BTreeSet::new();
    for (built_in, limits) in [(1, &HANDBOOK), (2, &PROCESS)] {
        for thousandths in (10..300).step_by(7) {
            let text: Vec<u8> = b"MS20470AD3".to_vec();
            let (mut part, mut warnings) = (Watched::<shophead_part>::new(), Watched::<u32>::new());
            let read = shophead_part_parse(reads_all(&text).cast_to_chars(), text.len(), part.out(), warnings.out());
            assert_eq!(read, shophead_error::SHOPHEAD_OK);
            let part = part.get(0);
            let sheet = Length::from_ten_thousandths(thousandths * 10);
            let (mut choice, mut findings) =
                (Watched::<shophead_diameter_choice>::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
            let practice = practice(built_in, &[]);
            let error = shophead_diameter_choose(
                reads(&part),
                sheet.nanometres(),
                reads(&practice),
                choice.out(),
                findings.out(),
                SHOPHEAD_MAX_FINDINGS,
            );
            assert_eq!(error, shophead_error::SHOPHEAD_OK);
            let choice = choice.get(0);
            let wanted = choose_diameter(&MS20470, RivetAlloy::Al2117, sheet, limits);
            assert_eq!(choice.part.dash, wanted.size.map_or(0, |size| u32::from(size.dash)), "{sheet}");
            assert_eq!(choice.wanted_nm, wanted.wanted.nanometres());
            let codes: Vec<u32> = (0..choice.findings.count as usize).map(|at| findings.get(at).code.0).collect();
            assert_eq!(codes, wanted.findings.iter().map(|finding| finding.code().number()).collect::<Vec<_>>());
            sizes.insert(choice.part.dash);

            let head = Length::from_ten_thousandths(1_000 + thousandths * 10);
            let (mut force, mut findings) =
                (Watched::<shophead_squeeze>::new(), Watched::<_, SHOPHEAD_MAX_FINDINGS>::several());
            let found = shophead_squeeze_find(
                reads(&part),
                head.nanometres(),
                force.out(),
                findings.out(),
                SHOPHEAD_MAX_FINDINGS,
            );
            let size = MS20470.size(3).expect("3/32");
            match squeeze(&FLOW_2117, size.shank_nominal, head) {
                Err(error) => assert_eq!(found, error.into()),
                Ok(wanted) => {
                    assert_eq!(found, shophead_error::SHOPHEAD_OK);
                    let force = force.get(0);
                    assert_eq!(force.greatest_lbf, wanted.greatest.lbf());
                    assert_eq!(force.findings.count as usize, wanted.findings.iter().len());
                }
            }
        }
    }
    assert!(sizes.len() > 4, "only {sizes:?}");
}

/// The whole question in one call answers what the core answers, and says it in the core's words.
#[test]
fn a_rivet_in_its_layers_is_the_core_s_own_answer() {
    let parts = [
        "MS20470AD4",
        "MS20470AD5-6",
        "MS20426AD4",
        "MS20426AD3",
        "NAS1097AD4",
        "MS20470DD6",
        "MS20470A3",
        "MS20615-4M",
    ];
    let packs = [
        ".032",
        ".032, .032",
        "2024-T3:.020, 2024-T3:.020",
        "2024-T3:.032+-.002, 2024-T3:.040+-.002, 2024-T3:.250+-.005",
        "2024-T3:.063:countersunk, .005:sealant, 7075-T6:.190:cap",
        "2024-T3:.032:countersunk, 2024-T3:.032:dimpled, .040",
        "2024-T3:.050, 2024-T3:.050:countersunk",
        "1.5in, 1.5in",
    ];
    let mut kinds = std::collections::BTreeSet::new();
    for (number, limits) in [(1, &HANDBOOK), (2, &PROCESS)] {
        for part in parts {
            for pack in packs {
                let asked = practice(number, &[]);
                let (part_text, pack_text): (Vec<u8>, Vec<u8>) = (part.bytes().collect(), pack.bytes().collect());
                let (mut fitted, mut findings) =
                    (Watched::<shophead_fitted>::new(), Watched::<shophead_finding, SHOPHEAD_MAX_FINDINGS>::several());
                let error = shophead_length_fit(
                    reads_all(&part_text).cast_to_chars(),
                    part_text.len(),
                    reads_all(&pack_text).cast_to_chars(),
                    pack_text.len(),
                    reads(&asked),
                    fitted.out(),
                    findings.out(),
                    SHOPHEAD_MAX_FINDINGS,
                );
                let stack = Stack::parse(pack).expect("layers");
                let wanted = Installation::new(Part::parse(part).expect("a part"), &stack).by(limits).length();
                let wanted = match wanted {
                    Ok(wanted) => wanted,
                    Err(refused) => {
                        assert_eq!(error, refused.into(), "{part} {pack}");
                        continue;
                    }
                };
                assert_eq!(error, shophead_error::SHOPHEAD_OK, "{part} {pack}");
                let fitted = fitted.get(0);
                let length = wanted.length.map_or(SHOPHEAD_NONE, |length| length.nanometres());
                assert_eq!((fitted.part.length_nm, fitted.choice.length_nm), (length, length), "{part} {pack}");
                assert_eq!(fitted.choice.findings.count as usize, wanted.findings.iter().len(), "{part} {pack}");
                for (index, finding) in wanted.findings.iter().enumerate() {
                    let (mut said, mut size) =
                        (Watched::<c_char, SHOPHEAD_TEXT_MAX>::several(), Watched::<usize>::new());
                    let got = findings.get(index);
                    let error = shophead_finding_say(reads(&got), 1, 1, said.out(), SHOPHEAD_TEXT_MAX, size.out());
                    assert_eq!(error, shophead_error::SHOPHEAD_OK, "{part} {pack} {finding:?}");
                    let said: String = (0..size.get(0)).map(|at| char::from(said.get(at) as u8)).collect();
                    assert_eq!(said, finding.sentence(Units::Inches).to_string(), "{part} {pack}");
                    kinds.insert(finding.code());
                }
            }
        }
    }
    for code in [
        Code::FlushHeadWithoutSeat,
        Code::SeatWithoutFlushHead,
        Code::SeatInWrongLayer,
        Code::CountersinkTooDeep,
        Code::DiameterOutsideRule,
    ] {
        assert!(kinds.contains(&code), "{code} is in no answer: {kinds:?}");
    }
}
