// The C interface of shophead: solid-rivet calculations for airframe sheet metal.
//
// It advises. The maintenance and repair manuals of the type, approved data, local rules and a licensed person decide. What has the
// status SHOPHEAD_STATUS_MEMORY was recalled, not read: check it before relying on it.
//
// What holds for every function:
//
// - Lengths are whole nanometres in int64_t; the inch is 25400000. SHOPHEAD_NONE stands for a length that is not there.
// - Inputs come before outputs. Outputs are written only when the answer is SHOPHEAD_OK, and then all of them.
// - All memory is the caller's. Nothing is allocated, nothing is kept after a function has returned, nothing has to be freed.
// - NULL is an error, but for an array or a text of which there are none. What a pointer points to must be set and must stay as it is
//   during the call; outputs and room must not overlap inputs or each other.
// - There is no state: any thread may call any function at any time.
// - Texts handed in have a length and need no zero byte at the end. Enumerations are handed in as uint32_t and checked.
//
// crates/ffi/README.md has an example and how to link. Made by cbindgen from crates/ffi/src: do not edit.

#ifndef SHOPHEAD_H
#define SHOPHEAD_H

#include <stddef.h>
#include <stdint.h>

// A buffer of this size holds every text that a function of this library makes, its zero byte included.
#define SHOPHEAD_TEXT_MAX 512

// The number of this interface. It is raised when anything that a program may rely on changes: a structure, a number, what a function
// takes. Within one number only functions, constants and numbers of enumerations are added.
#define SHOPHEAD_ABI_VERSION 2

// In the place of a length: none was given, or there is none. It is no length itself.
#define SHOPHEAD_NONE INT64_MIN

// An array of so many findings holds those of any function that does not say otherwise.
#define SHOPHEAD_MAX_FINDINGS 36

// In the place of the name of a limit: a figure by the key that a finding names, as in `not on file`.
#define SHOPHEAD_BY_KEY 4294967295

// A material of the shop's own: this, and the place in the practice's list, from 0, of a figure by its key of that material. Such a number is
// good wherever that practice is handed over too.
#define SHOPHEAD_OWN_MATERIAL 2147483648

// The most limits of a shop's own that one practice takes.
#define SHOPHEAD_MAX_OWN_LIMITS 64

// The most layers under one rivet.
#define SHOPHEAD_MAX_LAYERS 8

// The most defects that are looked at on one rivet.
#define SHOPHEAD_MAX_DEFECTS 16

// The most ranges that `shophead_length_by_hole` writes.
#define SHOPHEAD_MAX_HOLE_RANGES 32

// The most lengths within limits that a built-in rivet has by a built-in practice.
#define SHOPHEAD_MAX_SERVINGS 32

// So many pieces of room for each rivet suffice for `shophead_group_share`.
#define SHOPHEAD_ROOM_PER_RIVET 4

// The steps below refer: an array of so many always suffices.
#define SHOPHEAD_MAX_STEPS 4

// An array of so many findings holds those of a verdict on a hole and of all its steps.
#define SHOPHEAD_MAX_HOLE_FINDINGS 180

// The shape of the manufactured head.
enum shophead_head
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Another head, without a number here.
  SHOPHEAD_HEAD_OTHER = 0,
  // Universal protruding head.
  SHOPHEAD_HEAD_UNIVERSAL = 1,
  // 100 degree flush head.
  SHOPHEAD_HEAD_FLUSH = 2,
  // 100 degree flush head of reduced size, for shear.
  SHOPHEAD_HEAD_REDUCED_FLUSH = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_head shophead_head;
#else
typedef uint32_t shophead_head;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What limits the longest length that is good.
enum shophead_bound
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // The practice lacks a limit, so no length can be called good.
  SHOPHEAD_BOUND_NONE = 0,
  // The tail that can be driven without folding.
  SHOPHEAD_BOUND_TAIL = 1,
  // The metal in the largest head.
  SHOPHEAD_BOUND_HEAD = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_bound shophead_bound;
#else
typedef uint32_t shophead_bound;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// Where a bearing figure comes from.
enum shophead_bearing_kind
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // None is published.
  SHOPHEAD_BEARING_NONE = 0,
  // Bearing stress of the sheet.
  SHOPHEAD_BEARING_SHEET = 1,
  // A tested flush joint.
  SHOPHEAD_BEARING_FLUSH_JOINT = 2,
  // Below an edge margin of 1.5: the strength at 1.5 in proportion. To see where one stands; not an allowable.
  SHOPHEAD_BEARING_INDICATION = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_bearing_kind shophead_bearing_kind;
#else
typedef uint32_t shophead_bearing_kind;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// A splice table of AC 43.13-1B.
enum shophead_table
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // No table.
  SHOPHEAD_TABLE_NONE = 0,
  // 4-9: bare and clad 2014-T6, 2024-T3, 2024-T36 and 7075-T6 sheet.
  SHOPHEAD_TABLE_4_9 = 1,
  // 4-10: 2017, clad 2017 and clad 2024-T3.
  SHOPHEAD_TABLE_4_10 = 2,
  // 4-11: 5052 sheet of every hardness.
  SHOPHEAD_TABLE_4_11 = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_table shophead_table;
#else
typedef uint32_t shophead_table;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What decides a count.
enum shophead_critical
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Shear of the rivet.
  SHOPHEAD_CRITICAL_SHEAR = 1,
  // Bearing of the sheet.
  SHOPHEAD_CRITICAL_BEARING = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_critical shophead_critical;
#else
typedef uint32_t shophead_critical;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What a build of the library has; one bit each.
enum shophead_feature
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Built with the standard library of its language; without it the library needs no operating system and no C library but `memcpy`,
  // `memmove`, `memset`, `memcmp` and `bcmp`.
  SHOPHEAD_FEATURE_STD = 1,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_feature shophead_feature;
#else
typedef uint32_t shophead_feature;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// The lists whose values have words.
enum shophead_list
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // `enum shophead_severity`.
  SHOPHEAD_LIST_SEVERITY = 1,
  // `enum shophead_status`.
  SHOPHEAD_LIST_STATUS = 2,
  // `enum shophead_code`.
  SHOPHEAD_LIST_CODE = 3,
  // `enum shophead_disposition`.
  SHOPHEAD_LIST_DISPOSITION = 4,
  // `enum shophead_damage`.
  SHOPHEAD_LIST_DAMAGE = 5,
  // `enum shophead_remedy`.
  SHOPHEAD_LIST_REMEDY = 6,
  // `enum shophead_mode`.
  SHOPHEAD_LIST_MODE = 7,
  // `enum shophead_role`.
  SHOPHEAD_LIST_ROLE = 8,
  // `enum shophead_preparation`.
  SHOPHEAD_LIST_PREPARATION = 9,
  // `enum shophead_member`.
  SHOPHEAD_LIST_MEMBER = 10,
  // `enum shophead_limit_name`.
  SHOPHEAD_LIST_LIMIT_NAME = 11,
  // `enum shophead_alloy`: the alloy's number or name.
  SHOPHEAD_LIST_ALLOY = 12,
  // `enum shophead_series`: the name that starts the part number.
  SHOPHEAD_LIST_SERIES = 13,
  // `enum shophead_built_in`: the name of a built-in practice.
  SHOPHEAD_LIST_BUILT_IN = 14,
  // `enum shophead_defect_kind`: the word that a driven record has for it.
  SHOPHEAD_LIST_DEFECT = 15,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_list shophead_list;
#else
typedef uint32_t shophead_list;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// The units that figures are written in.
enum shophead_units
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Inches, as the trade writes them, and pounds.
  SHOPHEAD_UNITS_INCHES = 1,
  // Millimetres and newtons.
  SHOPHEAD_UNITS_MILLIMETRES = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_units shophead_units;
#else
typedef uint32_t shophead_units;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// How much of a finding is said.
enum shophead_saying
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // What was found and what to do about it.
  SHOPHEAD_SAYING_SENTENCE = 1,
  // What was found only.
  SHOPHEAD_SAYING_REASON = 2,
  // A few words for a screen of 16 to 40 columns.
  SHOPHEAD_SAYING_SHORT = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_saying shophead_saying;
#else
typedef uint32_t shophead_saying;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// How a length is printed.
enum shophead_form
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Decimal inches without the unit: `0.3125`.
  SHOPHEAD_FORM_INCHES = 1,
  // Millimetres without the unit: `7.9375`.
  SHOPHEAD_FORM_MILLIMETRES = 2,
  // The nearest sixty-fourth of an inch: `5/16`.
  SHOPHEAD_FORM_FRACTION = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_form shophead_form;
#else
typedef uint32_t shophead_form;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What a text was read as.
enum shophead_reading
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // By `shophead_length_parse`.
  SHOPHEAD_READING_LENGTH = 1,
  // By `shophead_toleranced_parse`.
  SHOPHEAD_READING_TOLERANCED = 2,
  // By `shophead_force_parse`.
  SHOPHEAD_READING_FORCE = 3,
  // By `shophead_drill_parse`.
  SHOPHEAD_READING_DRILL = 4,
  // By `shophead_hole_parse`.
  SHOPHEAD_READING_HOLE = 5,
  // By `shophead_part_parse`.
  SHOPHEAD_READING_PART = 6,
  // By `shophead_material_parse`.
  SHOPHEAD_READING_MATERIAL = 7,
  // By `shophead_value_parse`.
  SHOPHEAD_READING_VALUE = 8,
  // By `shophead_layers_parse` or `shophead_length_fit`.
  SHOPHEAD_READING_LAYERS = 9,
  // By `shophead_key_parse`.
  SHOPHEAD_READING_KEY = 10,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_reading shophead_reading;
#else
typedef uint32_t shophead_reading;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// A rivet alloy.
enum shophead_alloy
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // None, or in a scope any; also an alloy that this list does not have yet.
  SHOPHEAD_ALLOY_NONE = 0,
  // 1100-F, code A.
  SHOPHEAD_ALLOY_1100 = 1,
  // 2117-T4, code AD.
  SHOPHEAD_ALLOY_2117 = 2,
  // 5056-H32, code B.
  SHOPHEAD_ALLOY_5056 = 3,
  // 2017-T4, code D.
  SHOPHEAD_ALLOY_2017 = 4,
  // 2024-T4, code DD.
  SHOPHEAD_ALLOY_2024 = 5,
  // 7050-T73, code E (MS) or KE (NAS).
  SHOPHEAD_ALLOY_7050 = 6,
  // Titanium-niobium 45Cb, code T.
  SHOPHEAD_ALLOY_TI_45CB = 7,
  // Nickel-copper, code M.
  SHOPHEAD_ALLOY_NICKEL_COPPER = 8,
  // A-286 heat-resistant steel.
  SHOPHEAD_ALLOY_A286 = 9,
  // Carbon steel.
  SHOPHEAD_ALLOY_CARBON_STEEL = 10,
  // Corrosion-resistant steel.
  SHOPHEAD_ALLOY_CORROSION_RESISTANT_STEEL = 11,
  // Copper.
  SHOPHEAD_ALLOY_COPPER = 12,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_alloy shophead_alloy;
#else
typedef uint32_t shophead_alloy;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// A part standard.
enum shophead_series
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // None, or one that this list does not have yet.
  SHOPHEAD_SERIES_NONE = 0,
  // MS20470, universal head.
  SHOPHEAD_SERIES_MS20470 = 1,
  // MS20426, 100 degree flush head.
  SHOPHEAD_SERIES_MS20426 = 2,
  // NAS1097, 100 degree flush head of reduced size.
  SHOPHEAD_SERIES_NAS1097 = 3,
  // NAS1241, oversize shank.
  SHOPHEAD_SERIES_NAS1241 = 4,
  // NAS1242, oversize shank.
  SHOPHEAD_SERIES_NAS1242 = 5,
  // NAS9313.
  SHOPHEAD_SERIES_NAS9313 = 6,
  // MS20427.
  SHOPHEAD_SERIES_MS20427 = 7,
  // MS20615.
  SHOPHEAD_SERIES_MS20615 = 8,
  // MS20613.
  SHOPHEAD_SERIES_MS20613 = 9,
  // NAS1198.
  SHOPHEAD_SERIES_NAS1198 = 10,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_series shophead_series;
#else
typedef uint32_t shophead_series;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What is accepted in a part number but should be said; one bit each.
enum shophead_warning
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Written under an older name.
  SHOPHEAD_WARNING_SUPERSEDED_NAME = 1,
  // Written in lower case.
  SHOPHEAD_WARNING_LOWER_CASE = 2,
  // A half length written in the form of another series.
  SHOPHEAD_WARNING_HALF_WRITTEN_OTHERWISE = 4,
  // The shank is larger than the diameter digit says.
  SHOPHEAD_WARNING_OVERSIZE_SHANK = 8,
  // Shorter than the table of the standard begins: it can be ordered but may not be in stock.
  SHOPHEAD_WARNING_BELOW_TABLE = 16,
  // Longer than the table of the standard ends: it can be ordered but may not be in stock.
  SHOPHEAD_WARNING_ABOVE_TABLE = 32,
  // The alloy is not for structure.
  SHOPHEAD_WARNING_NON_STRUCTURAL = 64,
  // The alloy is heat treated, or kept cold after it, before driving.
  SHOPHEAD_WARNING_HEAT_TREAT_FIRST = 128,
  // The standard keeps this alloy out of new designs.
  SHOPHEAD_WARNING_NOT_FOR_NEW_DESIGN = 256,
  // The series, its letters or its diameters could only be recalled.
  SHOPHEAD_WARNING_RECALLED = 512,
  // Something that this list does not have yet.
  SHOPHEAD_WARNING_OTHER = 1024,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_warning shophead_warning;
#else
typedef uint32_t shophead_warning;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// A built-in set of limits. `shophead_number` gives the number for a name.
enum shophead_built_in
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // `handbook`: AC 43.13-1B and FAA-H-8083-31B, with MIL-HDBK-5; where they are silent MIL-R-47196A(MI).
  SHOPHEAD_BUILT_IN_HANDBOOK = 1,
  // `process`: MIL-R-47196A(MI); where it is silent AC 43.13-1B, FAA-H-8083-31B and MIL-HDBK-5.
  SHOPHEAD_BUILT_IN_PROCESS = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_built_in shophead_built_in;
#else
typedef uint32_t shophead_built_in;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// Heads a limit holds for; 0 for any.
enum shophead_head_scope
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Heads that stand proud.
  SHOPHEAD_HEAD_SCOPE_PROTRUDING = 1,
  // Heads that lie in the sheet.
  SHOPHEAD_HEAD_SCOPE_FLUSH = 2,
  // Flush heads in dimpled sheet.
  SHOPHEAD_HEAD_SCOPE_DIMPLED = 3,
  // Any head, after a step up.
  SHOPHEAD_HEAD_SCOPE_ANY_AFTER_STEP_UP = 4,
  // Heads that stand proud, after a step up.
  SHOPHEAD_HEAD_SCOPE_PROTRUDING_AFTER_STEP_UP = 5,
  // Heads that lie in the sheet, after a step up.
  SHOPHEAD_HEAD_SCOPE_FLUSH_AFTER_STEP_UP = 6,
  // Flush heads in dimpled sheet, after a step up.
  SHOPHEAD_HEAD_SCOPE_DIMPLED_AFTER_STEP_UP = 7,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_head_scope shophead_head_scope;
#else
typedef uint32_t shophead_head_scope;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// How a computed rivet length is rounded to one that exists.
enum shophead_rounding
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // To the next longer standard length.
  SHOPHEAD_ROUNDING_LONGER = 1,
  // To the nearest standard length; midway, to the longer.
  SHOPHEAD_ROUNDING_NEAREST = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_rounding shophead_rounding;
#else
typedef uint32_t shophead_rounding;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What kind of value a limit has.
enum shophead_value_kind
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // No limit.
  SHOPHEAD_VALUE_NONE = 0,
  // A length by itself: `nm`.
  SHOPHEAD_VALUE_LENGTH = 1,
  // So many nominal shank diameters and a length: `num / den` times the diameter, and `nm`.
  SHOPHEAD_VALUE_DIAMETERS = 2,
  // The largest shank and a length: `nm` over it.
  SHOPHEAD_VALUE_OVER_SHANK = 3,
  // A ratio or a share: `num / den`.
  SHOPHEAD_VALUE_FRACTION = 4,
  // A whole number: `num`.
  SHOPHEAD_VALUE_COUNT = 5,
  // A way of rounding: `num`, one of `enum shophead_rounding`.
  SHOPHEAD_VALUE_ROUNDING = 6,
  // A length with its tolerance, for a figure by its key: `nm`, and so many nanometres more (`num`) or less (`den`).
  SHOPHEAD_VALUE_TOLERANCED = 7,
  // A stress, for a figure by its key: `num` pounds per square inch.
  SHOPHEAD_VALUE_STRESS = 8,
  // A force, for a figure by its key: `num / den` pounds.
  SHOPHEAD_VALUE_FORCE = 9,
  // What a tested joint carries, for a figure by its key: `num` pounds at failure, `den` pounds at yield or 0 where that is not known, in a
  // sheet that is `nm` thick.
  SHOPHEAD_VALUE_JOINT = 10,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_value_kind shophead_value_kind;
#else
typedef uint32_t shophead_value_kind;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// A defect that an inspector sees on a driven rivet. `shophead_word` gives the word that a driven record has for it.
enum shophead_defect_kind
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Cracks in the driven head: `count` of them; `nm` is the diameter of the circle, concentric with the head, that the innermost
  // reaches, or `SHOPHEAD_NONE` if not measured; `meeting` is 1 where any two meet, otherwise 0.
  SHOPHEAD_DEFECT_CRACKS = 1,
  // A tool mark in the manufactured head: `nm` deep, in a head `head_height_nm` high.
  SHOPHEAD_DEFECT_TOOL_MARK = 2,
  // A gap under the manufactured head, or one under either head that was not measured.
  SHOPHEAD_DEFECT_GAP_UNDER_HEAD = 3,
  // The sheets stand apart: a feeler goes in as far as the shank.
  SHOPHEAD_DEFECT_SHEETS_APART = 4,
  // The tail has folded or the shank has buckled.
  SHOPHEAD_DEFECT_BUCKLED_SHANK = 5,
  // The driven head is bevelled. Its least and its greatest height decide.
  SHOPHEAD_DEFECT_TIPPED = 6,
  // The rivet moves by hand.
  SHOPHEAD_DEFECT_LOOSE = 7,
  // A flush head that stands proud by `nm`.
  SHOPHEAD_DEFECT_PROUD = 8,
  // The sheet is marked, cut or bulged beside the rivet.
  SHOPHEAD_DEFECT_SHEET_DAMAGED = 9,
  // The shank that came out is notched or stepped: its holes did not line up.
  SHOPHEAD_DEFECT_NOTCHED_SHANK = 10,
  // Cracks in the manufactured head: `nm` is the diameter of the circle, concentric with the head, that the innermost reaches, or
  // `SHOPHEAD_NONE` if not measured.
  SHOPHEAD_DEFECT_MANUFACTURED_CRACKS = 11,
  // A protruding manufactured head that a flat die or set has brought down to `nm`.
  SHOPHEAD_DEFECT_FLATTENED = 12,
  // A gap under the driven head: `nm` is the thickest feeler that goes in; `count` the percentage of the rim, 0 to 100, that is left when
  // the longest stretch without a gap is taken off.
  SHOPHEAD_DEFECT_GAP_UNDER_DRIVEN_HEAD = 13,
  // The driven head has a step. Its least and its greatest height decide.
  SHOPHEAD_DEFECT_STEPPED = 14,
  // The driven head is offset, clinched or bent, so that the hole shows or the rim is not formed all round.
  SHOPHEAD_DEFECT_CLINCHED = 15,
  // A flush head that lies `nm` below the surface.
  SHOPHEAD_DEFECT_LOW = 16,
  // A flush head that shaving has left `nm` wide.
  SHOPHEAD_DEFECT_SHAVED = 17,
  // A gap under the manufactured head.
  SHOPHEAD_DEFECT_GAP_UNDER_MANUFACTURED_HEAD = 18,
  // The sheets stand apart at the edge: a feeler of `nm` goes in there, and none reaches the shank.
  SHOPHEAD_DEFECT_SHEETS_APART_AT_EDGE = 19,
  // The sheets stand apart: `nm` is the thickest feeler that goes in as far as the shank. Its word is that of
  // `SHOPHEAD_DEFECT_SHEETS_APART`.
  SHOPHEAD_DEFECT_SHEETS_APART_BY = 20,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_defect_kind shophead_defect_kind;
#else
typedef uint32_t shophead_defect_kind;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// In how many planes a rivet is sheared.
enum shophead_shear
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // One plane, as in a lap joint.
  SHOPHEAD_SHEAR_SINGLE = 1,
  // Two planes, as in a butt joint with a strap on both sides.
  SHOPHEAD_SHEAR_DOUBLE = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_shear shophead_shear;
#else
typedef uint32_t shophead_shear;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// Which load is meant.
enum shophead_load_kind
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // No load: no margin is asked for.
  SHOPHEAD_LOAD_NONE = 0,
  // The greatest load expected in service: the factor of safety is still to come.
  SHOPHEAD_LOAD_LIMIT = 1,
  // The factor of safety is already in it.
  SHOPHEAD_LOAD_ULTIMATE = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_load_kind shophead_load_kind;
#else
typedef uint32_t shophead_load_kind;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// The factors between a limit load and the strength that it needs.
enum shophead_factors
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Factor of safety 1.5 and fitting factor 1.15 (14 CFR 25.303, 23.2230(b) and 25.625(a)).
  SHOPHEAD_FACTORS_FITTING = 1,
  // Factor of safety 1.5, no fitting factor: continuous seams in metal plating made under approved practices (14 CFR 25.625(b)(1)).
  SHOPHEAD_FACTORS_SEAM = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_factors shophead_factors;
#else
typedef uint32_t shophead_factors;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// The member that is spliced, which decides how much of the table's count it needs.
enum shophead_splice_member
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Anything the notes of the tables do not name: the whole count.
  SHOPHEAD_SPLICE_OTHER = 1,
  // A stringer in the upper surface of a wing or in a fuselage: 80 %.
  SHOPHEAD_SPLICE_STRINGER = 2,
  // An intermediate frame: 60 %.
  SHOPHEAD_SPLICE_INTERMEDIATE_FRAME = 3,
  // A single-lap sheet joint: 75 %.
  SHOPHEAD_SPLICE_SINGLE_LAP = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_splice_member shophead_splice_member;
#else
typedef uint32_t shophead_splice_member;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What every function answers that can fail: `SHOPHEAD_OK`, or why it did nothing. The numbers never change their meaning.
// `shophead_error_message` gives the sentence.
enum shophead_error
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Done; every output is written.
  SHOPHEAD_OK = 0,
  // A pointer is NULL that may not be.
  SHOPHEAD_ERROR_NULL = 1,
  // A pointer is not aligned for what it points to.
  SHOPHEAD_ERROR_MISALIGNED = 2,
  // A number is not one of its enumeration, or there is nothing under it.
  SHOPHEAD_ERROR_UNKNOWN_NUMBER = 3,
  // A buffer or an array of the caller's is too short for the answer.
  SHOPHEAD_ERROR_BUFFER_TOO_SMALL = 4,
  // A text is not UTF-8.
  SHOPHEAD_ERROR_NOT_UTF8 = 5,
  // A floating-point number is NaN or infinite.
  SHOPHEAD_ERROR_NOT_FINITE = 6,
  // A length is more than a kilometre, or `SHOPHEAD_NONE` where it is needed.
  SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE = 7,
  // The least, the nominal and the greatest length are not in this order.
  SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER = 8,
  // A count is more than memory can hold, or more than the function takes.
  SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE = 9,
  // Refused for a reason that this list does not have yet.
  SHOPHEAD_ERROR_OTHER = 10,
  // A text is not a length.
  SHOPHEAD_ERROR_NOT_A_LENGTH = 20,
  // A text is not a force.
  SHOPHEAD_ERROR_NOT_A_FORCE = 21,
  // A text is not a drill.
  SHOPHEAD_ERROR_NOT_A_DRILL = 22,
  // A text is neither a drill nor the width of a hole.
  SHOPHEAD_ERROR_NOT_A_HOLE = 23,
  // A text is not a part number.
  SHOPHEAD_ERROR_NOT_A_PART = 24,
  // A text is not a sheet material.
  SHOPHEAD_ERROR_NOT_A_MATERIAL = 25,
  // A text is not the value of this limit.
  SHOPHEAD_ERROR_NOT_A_VALUE = 26,
  // A word is not in the list.
  SHOPHEAD_ERROR_UNKNOWN_WORD = 27,
  // A text is not a list of layers.
  SHOPHEAD_ERROR_NOT_LAYERS = 28,
  // A text is not a key of a limits file.
  SHOPHEAD_ERROR_NOT_A_KEY = 29,
  // No drill is so small or so large.
  SHOPHEAD_ERROR_NO_SUCH_DRILL = 30,
  // No strength of this material in this thickness is published.
  SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED = 31,
  // No published splice table names this material.
  SHOPHEAD_ERROR_NO_SPLICE_TABLE = 32,
  // The published splice tables are not for this rivet.
  SHOPHEAD_ERROR_TABLE_NOT_FOR_RIVET = 33,
  // A limit has a value of a kind that it does not take.
  SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT = 34,
  // No squeeze tests of this rivet alloy are on file.
  SHOPHEAD_ERROR_NO_SQUEEZE_TESTS = 35,
  // The shank is zero or less.
  SHOPHEAD_ERROR_SQUEEZE_SHANK = 36,
  // The head is no wider than the shank.
  SHOPHEAD_ERROR_SQUEEZE_HEAD = 37,
  // The series has no such material letters.
  SHOPHEAD_ERROR_PART_MATERIAL = 40,
  // The size is not one of the series.
  SHOPHEAD_ERROR_PART_SIZE = 41,
  // The series does not have this finish for this alloy.
  SHOPHEAD_ERROR_PART_FINISH = 42,
  // Zero or less.
  SHOPHEAD_ERROR_PART_NO_SHANK = 43,
  // More than [`MAX_SIXTEENTHS`].
  SHOPHEAD_ERROR_PART_TOO_LONG = 44,
  // Between two sixteenths, or halves where the series has them.
  SHOPHEAD_ERROR_PART_NOT_IN_STEPS = 45,
  // An odd thirty-second in a series that is not known to have half lengths.
  SHOPHEAD_ERROR_PART_NO_HALF_LENGTHS = 46,
  // A flush rivet no longer than its own head.
  SHOPHEAD_ERROR_PART_SHORTER_THAN_HEAD = 47,
  // The finish that a number without a letter means is not allowed on this alloy, so a letter is needed.
  SHOPHEAD_ERROR_PART_FINISH_NEEDED = 48,
  // A rivet without a length where one with a length is needed.
  SHOPHEAD_ERROR_PART_WITHOUT_LENGTH = 49,
  // The grip is zero or less.
  SHOPHEAD_ERROR_FIT_NO_GRIP = 60,
  // The hole is zero or less.
  SHOPHEAD_ERROR_FIT_NO_HOLE = 61,
  // The shank is zero or less.
  SHOPHEAD_ERROR_FIT_NO_SHANK = 62,
  // The flush head is deeper than the whole pack.
  SHOPHEAD_ERROR_FIT_HEAD_DEEPER_THAN_PACK = 63,
  // The limits of this rivet's shank are not known.
  SHOPHEAD_ERROR_FIT_SHANK_NOT_KNOWN = 64,
  // The dimensions of this rivet's head are not known.
  SHOPHEAD_ERROR_FIT_HEAD_NOT_KNOWN = 65,
  // The height of a driven head is zero or less.
  SHOPHEAD_ERROR_FIT_NO_HEIGHT = 66,
  // An axis is zero or less.
  SHOPHEAD_ERROR_HOLE_NOT_POSITIVE = 70,
  // The minor axis is longer than the major one.
  SHOPHEAD_ERROR_HOLE_AXES_SWAPPED = 71,
  // There are already [`MAX_LAYERS`].
  SHOPHEAD_ERROR_STACK_TOO_MANY_LAYERS = 80,
  // The layer may be zero thick or less.
  SHOPHEAD_ERROR_STACK_NOT_POSITIVE = 81,
  // The pack would leave the range of [`Length`].
  SHOPHEAD_ERROR_STACK_TOO_THICK = 82,
  // Fewer than two sheets.
  SHOPHEAD_ERROR_JOINT_TOO_FEW_SHEETS = 90,
  // More than [`MAX_SHEETS`].
  SHOPHEAD_ERROR_JOINT_TOO_MANY_SHEETS = 91,
  // Double shear with other than three sheets.
  SHOPHEAD_ERROR_JOINT_DOUBLE_SHEAR_NEEDS_THREE_SHEETS = 92,
  // The rivet's diameter is zero or less.
  SHOPHEAD_ERROR_JOINT_DIAMETER_NOT_POSITIVE = 93,
  // A sheet's thickness is zero or less.
  SHOPHEAD_ERROR_JOINT_THICKNESS_NOT_POSITIVE = 94,
  // An edge distance is zero or less.
  SHOPHEAD_ERROR_JOINT_EDGE_NOT_POSITIVE = 95,
  // The hole is zero or less.
  SHOPHEAD_ERROR_JOINT_HOLE_NOT_POSITIVE = 96,
  // The pitch leaves no metal between the holes.
  SHOPHEAD_ERROR_JOINT_PITCH_INSIDE_HOLE = 97,
  // A stress is zero, negative or not a number.
  SHOPHEAD_ERROR_JOINT_STRESS_NOT_POSITIVE = 98,
  // A flush head without a countersunk or dimpled sheet.
  SHOPHEAD_ERROR_JOINT_NO_SEAT_FOR_FLUSH_HEAD = 99,
  // A load came out too large to be a number.
  SHOPHEAD_ERROR_JOINT_OUT_OF_RANGE = 100,
  // No edge distance was given, and the practice has none for this rivet.
  SHOPHEAD_ERROR_JOINT_EDGE_NOT_KNOWN = 101,
  // A countersunk or dimpled sheet under a plain one: the flush head cannot reach it.
  SHOPHEAD_ERROR_JOINT_SEAT_UNDER_PLAIN_SHEET = 102,
  // The load is zero, negative or not a number.
  SHOPHEAD_ERROR_MARGIN_LOAD_NOT_POSITIVE = 110,
  // The allowable is negative or not a number.
  SHOPHEAD_ERROR_MARGIN_ALLOWABLE_NOT_VALID = 111,
  // A factor is below 1 or not a number.
  SHOPHEAD_ERROR_MARGIN_FACTOR_BELOW_ONE = 112,
  // Load and allowable are so far apart that the ratio is not a number.
  SHOPHEAD_ERROR_MARGIN_OUT_OF_RANGE = 113,
  // A thickness, width or pitch of zero or less.
  SHOPHEAD_ERROR_SPLICE_LENGTH_NOT_POSITIVE = 120,
  // No nominal hole is known for the rivet.
  SHOPHEAD_ERROR_SPLICE_DIAMETER_NOT_TABULATED = 121,
  // A stress, a load or a count an inch is not above zero.
  SHOPHEAD_ERROR_SPLICE_NOT_POSITIVE = 122,
  // No row to put the rivets in.
  SHOPHEAD_ERROR_SPLICE_NO_ROWS = 123,
  // More rivets than can be counted.
  SHOPHEAD_ERROR_SPLICE_OUT_OF_RANGE = 124,
  // No rivets.
  SHOPHEAD_ERROR_GROUP_NO_RIVETS = 130,
  // A weight is zero, negative or not a number.
  SHOPHEAD_ERROR_GROUP_WEIGHT_NOT_POSITIVE = 131,
  // A load or moment is not a number.
  SHOPHEAD_ERROR_GROUP_LOAD_NOT_FINITE = 132,
  // No load at all.
  SHOPHEAD_ERROR_GROUP_NO_LOAD = 133,
  // A moment on rivets that are all at one point.
  SHOPHEAD_ERROR_GROUP_NOTHING_RESISTS_MOMENT = 134,
  // The loads come out too large to be numbers.
  SHOPHEAD_ERROR_GROUP_OUT_OF_RANGE = 135,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_error shophead_error;
#else
typedef uint32_t shophead_error;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// A text by address and length. It does not end in a zero byte; print it with `"%.*s", (int)text.length, text.start`.
//
// Owner: the library where a function hands it out, unless that function says otherwise; it then lasts as long as the library is
// loaded. The caller where it is handed in; it must last as the member it stands in says.
struct shophead_text {
  // Its first byte, in UTF-8; may be NULL where the length is 0.
  const char *start;
  // How many bytes.
  size_t length;
};

// A length with its tolerance, in nanometres. Handed in, the three must be in this order; a length without tolerance has all three
// alike.
struct shophead_toleranced {
  // The least.
  int64_t min_nm;
  // The nominal one.
  int64_t nominal_nm;
  // The greatest.
  int64_t max_nm;
};

// What kind of finding it is. `shophead_word` gives the word that other outputs of the project use for it.
enum shophead_code
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // A kind that this list does not have yet.
  SHOPHEAD_CODE_UNKNOWN = 0,
  // A recalled limit or strength decided something: check it against the document.
  SHOPHEAD_CODE_LIMIT_FROM_MEMORY = 1,
  // A limit that is needed is not on file.
  SHOPHEAD_CODE_NO_LIMIT = 2,
  // Something that decides here was not given, so it was not checked.
  SHOPHEAD_CODE_NOT_CHECKED = 3,
  // The tail folds over before it forms a head.
  SHOPHEAD_CODE_TAIL_TOO_LONG = 4,
  // The tail cannot form the least head in the worst case.
  SHOPHEAD_CODE_TAIL_TOO_SHORT = 5,
  // The tail holds more metal than the largest driven head allowed.
  SHOPHEAD_CODE_HEAD_TOO_LARGE = 6,
  // No length gives a sound head, whatever the hole.
  SHOPHEAD_CODE_NO_LENGTH_FITS = 7,
  // The length is not that of the rule of thumb, grip plus one and a half diameters.
  SHOPHEAD_CODE_DIFFERS_FROM_RULE = 8,
  // The length is a half length, which is not always in stock.
  SHOPHEAD_CODE_HALF_LENGTH = 9,
  // The length is outside the table of the standard.
  SHOPHEAD_CODE_LENGTH_NOT_TABULATED = 10,
  // The diameter is outside the rule for the sheet.
  SHOPHEAD_CODE_DIAMETER_OUTSIDE_RULE = 11,
  // This alloy or size is not for structure.
  SHOPHEAD_CODE_NOT_STRUCTURAL = 12,
  // This alloy is heat treated before driving and kept cold until then.
  SHOPHEAD_CODE_HEAT_TREAT_FIRST = 13,
  // The largest shank does not go into the smallest hole.
  SHOPHEAD_CODE_SHANK_MAY_NOT_ENTER = 14,
  // The driven head is narrower than allowed.
  SHOPHEAD_CODE_HEAD_TOO_NARROW = 15,
  // The driven head is wider than allowed.
  SHOPHEAD_CODE_HEAD_TOO_WIDE = 16,
  // The driven head is lower than allowed.
  SHOPHEAD_CODE_HEAD_TOO_LOW = 17,
  // The driven head is higher than allowed.
  SHOPHEAD_CODE_HEAD_TOO_HIGH = 18,
  // The driven head is clinched or bent, or the shank has buckled.
  SHOPHEAD_CODE_HEAD_DEFECT = 19,
  // A sample has rejected rivets: look at the rest too.
  SHOPHEAD_CODE_SAMPLE_REJECTS = 20,
  // A rivet was driven in a hole that the plan refers.
  SHOPHEAD_CODE_DRIVEN_WHERE_REFERRED = 21,
  // The head or the rivet is outside the tests behind the squeeze force.
  SHOPHEAD_CODE_SQUEEZE_OUTSIDE_TESTS = 22,
  // The hole is larger than the rivet allows.
  SHOPHEAD_CODE_HOLE_OVER_LIMIT = 23,
  // The hole is smaller than the rivet needs.
  SHOPHEAD_CODE_HOLE_UNDER_LIMIT = 24,
  // The hole is damaged, and the damage has to come out.
  SHOPHEAD_CODE_HOLE_DAMAGED = 25,
  // The hole is cracked.
  SHOPHEAD_CODE_HOLE_CRACKED = 26,
  // The series has no larger rivet.
  SHOPHEAD_CODE_NO_LARGER_RIVET = 27,
  // Opening a hole in this member needs approved data.
  SHOPHEAD_CODE_STEP_NEEDS_APPROVAL = 28,
  // More holes of one pattern are opened for larger rivets than the limit allows.
  SHOPHEAD_CODE_TOO_MANY_STEPS = 29,
  // More neighbours are opened for larger rivets than the limit allows.
  SHOPHEAD_CODE_NEIGHBOURS_STEPPED = 30,
  // The hole needs a larger rivet, but its pattern takes no more of them.
  SHOPHEAD_CODE_PATTERN_FULL = 31,
  // The sheet is too thin for the countersink.
  SHOPHEAD_CODE_COUNTERSINK_TOO_DEEP = 32,
  // The sheet is thicker than dimpling suits.
  SHOPHEAD_CODE_DIMPLE_TOO_THICK = 33,
  // The damage is beyond the shop's limit.
  SHOPHEAD_CODE_DAMAGE_OVER_LIMIT = 34,
  // No document on file gives a limit for this damage.
  SHOPHEAD_CODE_DAMAGE_NOT_LIMITED = 35,
  // The shop limits this damage, but it was not measured.
  SHOPHEAD_CODE_DAMAGE_NOT_MEASURED = 36,
  // The damage is within the shop's limit: repair it as the document says.
  SHOPHEAD_CODE_DAMAGE_WITHIN_LIMIT = 37,
  // Stop drill each end of a crack.
  SHOPHEAD_CODE_STOP_DRILL = 38,
  // The edge distance is less than allowed.
  SHOPHEAD_CODE_EDGE_DISTANCE_SHORT = 39,
  // The edge distance is more than usual.
  SHOPHEAD_CODE_EDGE_DISTANCE_LONG = 40,
  // The edge distance leaves no room to open the hole later.
  SHOPHEAD_CODE_EDGE_BELOW_PREFERRED = 41,
  // The pitch is less than allowed.
  SHOPHEAD_CODE_PITCH_SHORT = 42,
  // The pitch is more than usual.
  SHOPHEAD_CODE_PITCH_LONG = 43,
  // The row spacing is less than allowed.
  SHOPHEAD_CODE_TRANSVERSE_PITCH_SHORT = 44,
  // The hole is past the ends of the cut, or on its other side.
  SHOPHEAD_CODE_HOLE_BEYOND_CUT = 45,
  // The edge margin is less than in the tests behind the strength: 1.5 in plain sheet, 2.0 of a flush joint, or as entered.
  SHOPHEAD_CODE_EDGE_MARGIN_BELOW_TABLE = 46,
  // The sheet is thinner than the published strength covers.
  SHOPHEAD_CODE_SHEET_TOO_THIN_FOR_TABLE = 47,
  // No published strength covers this case.
  SHOPHEAD_CODE_STRENGTH_NOT_PUBLISHED = 48,
  // The hole is larger than the strength tables count; their value is used.
  SHOPHEAD_CODE_HOLE_ABOVE_NOMINAL = 49,
  // The joint does not carry the load.
  SHOPHEAD_CODE_MARGIN_NEGATIVE = 50,
  // The new joint is weaker than the one it replaces.
  SHOPHEAD_CODE_WEAKER_THAN_BEFORE = 51,
  // The substitute alloy needs a larger diameter.
  SHOPHEAD_CODE_SUBSTITUTE_TOO_SMALL = 52,
  // No document on file lets this alloy take the place of the other in this size.
  SHOPHEAD_CODE_SUBSTITUTE_NOT_NAMED = 53,
  // The shares are elastic: no published method on file gives them at failure.
  SHOPHEAD_CODE_ELASTIC_SHARES_ONLY = 54,
  // The sheet buckles between its rivets under this stress.
  SHOPHEAD_CODE_BUCKLES_BETWEEN_RIVETS = 55,
  // The stress is above what the elastic buckling formula covers: use the tangent-modulus curve of the material.
  SHOPHEAD_CODE_BUCKLING_NOT_ELASTIC = 56,
  // Only driven solid rivets may go here, and no position lets them be bucked.
  SHOPHEAD_CODE_MUST_BE_SOLID = 57,
  // There is not enough room behind this row to buck it.
  SHOPHEAD_CODE_CANNOT_BUCK = 58,
  // There is no position in which every row can be bucked that takes driven rivets only.
  SHOPHEAD_CODE_NO_POSITION_SERVES = 59,
  // No position lets this row be bucked, and a blind rivet here needs the type's manual.
  SHOPHEAD_CODE_BLIND_NEEDS_APPROVAL = 60,
  // No published method on file sizes a repair in this place.
  SHOPHEAD_CODE_NO_PUBLISHED_METHOD = 61,
  // The splice tables have no count for this sheet and rivet.
  SHOPHEAD_CODE_NO_SPLICE_TABLE = 62,
  // The repair sheet is too thin beside what it replaces.
  SHOPHEAD_CODE_REPAIR_TOO_THIN = 63,
  // The repair sheet is heavier than the next gauge: stiffer than needed.
  SHOPHEAD_CODE_REPAIR_TOO_STRONG = 64,
  // The splice plate has no more area than the leg it splices.
  SHOPHEAD_CODE_SPLICE_AREA_SHORT = 65,
  // The splice plate is too short.
  SHOPHEAD_CODE_SPLICE_TOO_SHORT = 66,
  // The repair is on the list of major repairs.
  SHOPHEAD_CODE_MAJOR_REPAIR = 67,
  // A member or seam stands too near for a patch of the skin alone.
  SHOPHEAD_CODE_MEMBER_TOO_NEAR = 68,
  // The factory seams differ: the stronger one is copied.
  SHOPHEAD_CODE_SEAMS_DIFFER = 69,
  // The thinnest shank does not go into the hole.
  SHOPHEAD_CODE_SHANK_DOES_NOT_ENTER = 70,
  // The head is flush, but no layer is countersunk or dimpled for it.
  SHOPHEAD_CODE_FLUSH_HEAD_WITHOUT_SEAT = 71,
  // A layer is countersunk or dimpled, but the head is not flush.
  SHOPHEAD_CODE_SEAT_WITHOUT_FLUSH_HEAD = 72,
  // A layer is countersunk or dimpled under one that has a plain hole.
  SHOPHEAD_CODE_SEAT_IN_WRONG_LAYER = 73,
  // The edge distance is less than allowed for new work, as the maker built it.
  SHOPHEAD_CODE_EDGE_AS_BUILT = 74,
  // Pitch or row spacing is less than allowed for new work, as the maker built it.
  SHOPHEAD_CODE_PITCH_AS_BUILT = 75,
  // A shim lies in the pack, which no published strength covers.
  SHOPHEAD_CODE_SHIM_IN_PACK = 76,
  // The outer sheets in double shear are of different thickness and do not share the load alike.
  SHOPHEAD_CODE_UNEQUAL_SHEETS = 77,
  // The same rivet in the same sheets: as strong as before.
  SHOPHEAD_CODE_AS_STRONG_AS_BEFORE = 78,
  // The driven head is narrower than the published strengths count on.
  SHOPHEAD_CODE_HEAD_NARROW_FOR_STRENGTH = 79,
  // The driven head is more out of round than allowed.
  SHOPHEAD_CODE_HEAD_OUT_OF_ROUND = 80,
  // The driven head is tipped: its least and its greatest height decide.
  SHOPHEAD_CODE_HEAD_TIPPED = 81,
  // The driven head is stepped: its least and its greatest height decide.
  SHOPHEAD_CODE_HEAD_STEPPED = 82,
  // A head is cracked in a way that is not accepted.
  SHOPHEAD_CODE_HEAD_CRACKED = 83,
  // Another document accepts small cracks inside this circle.
  SHOPHEAD_CODE_CRACKS_ELSEWHERE = 84,
  // The manufactured head has a tool mark deeper than allowed.
  SHOPHEAD_CODE_HEAD_MARKED = 85,
  // The manufactured head is flattened more than allowed.
  SHOPHEAD_CODE_HEAD_FLATTENED = 86,
  // There is a gap under a head that is not accepted.
  SHOPHEAD_CODE_GAP_UNDER_HEAD = 87,
  // The sheets are apart: a feeler reaches the shank.
  SHOPHEAD_CODE_SHEETS_APART = 88,
  // The flush head is further above the surface than allowed.
  SHOPHEAD_CODE_HEAD_PROUD = 89,
  // The flush head is further below the surface than allowed.
  SHOPHEAD_CODE_HEAD_BELOW_SURFACE = 90,
  // The flush head was shaved to less than its least diameter.
  SHOPHEAD_CODE_HEAD_SHAVED_TOO_FAR = 91,
  // The rivet is loose.
  SHOPHEAD_CODE_RIVET_LOOSE = 92,
  // The sheet is damaged beside the rivet.
  SHOPHEAD_CODE_SHEET_DAMAGED = 93,
  // The shank is notched: the holes did not line up.
  SHOPHEAD_CODE_SHANK_NOTCHED = 94,
  // The hole is larger than its drill makes it, and still within the limits.
  SHOPHEAD_CODE_HOLE_ABOVE_DRILL = 95,
  // More holes in one stretch of a row are opened for larger rivets than the limit allows.
  SHOPHEAD_CODE_STRETCH_CROWDED = 96,
  // The next size is a larger step than the limit allows without approval.
  SHOPHEAD_CODE_STEP_TOO_LARGE = 97,
  // A crack comes nearer to the middle of a head than allowed.
  SHOPHEAD_CODE_CRACK_NEAR_MIDDLE = 98,
  // The gap under the driven head runs along more of its rim than allowed.
  SHOPHEAD_CODE_GAP_ALONG_RIM = 99,
  // The joint carries the load with less margin than wanted.
  SHOPHEAD_CODE_MARGIN_SHORT = 100,
  // The bend is tighter than the table's least radius.
  SHOPHEAD_CODE_BEND_TOO_TIGHT = 101,
  // The joint yields under its limit load.
  SHOPHEAD_CODE_YIELDS_AT_LIMIT = 110,
  // A sheet is thinner or thicker beside its hole than those in which bearing was tested; its published stress is used all the same.
  SHOPHEAD_CODE_BEARING_OUTSIDE_TESTS = 111,
  // The planned shank is smaller than the installed one: it does not fill the hole that is there.
  SHOPHEAD_CODE_SHANK_SMALLER = 112,
  // Two rivets are closer than their heads are wide.
  SHOPHEAD_CODE_RIVETS_TOUCH = 113,
  // One row takes more under the limit load than its rivets carry at failure.
  SHOPHEAD_CODE_ROW_OVER_ULTIMATE = 114,
  // How the rows share the load cannot be worked out: a modulus or a sheet is missing.
  SHOPHEAD_CODE_SHARES_NOT_KNOWN = 115,
  // Sealant lies in the pack, and the published bearing strengths are for dry holes.
  SHOPHEAD_CODE_WET_BEARING = 116,
  // How much of the whole sheet the splice carries as laid out.
  SHOPHEAD_CODE_SPLICE_DEVELOPS = 117,
  // The hole is drilled until its damage is out: how much the drill takes off the wall.
  SHOPHEAD_CODE_DAMAGE_COMES_OUT = 130,
  // The seat is cut for the new flush head, also where the hole stays as it is.
  SHOPHEAD_CODE_SEAT_FOR_NEW_HEAD = 131,
  // No one length is within limits in every hole: the hole as measured decides.
  SHOPHEAD_CODE_LENGTH_BY_HOLE = 150,
  // No standard length is within limits in some holes, but a longer rivet that is cut to length is.
  SHOPHEAD_CODE_CUT_TO_LENGTH = 151,
  // How much tail a dimpled pack takes is worked out, no document gives it.
  SHOPHEAD_CODE_DIMPLE_COMPUTED = 152,
  // The head of an oversize flush rivet is not on file: it is counted between those of its size and of the next.
  SHOPHEAD_CODE_HEAD_BETWEEN = 153,
  // The mass of a sheet is not known: its density is not on file.
  SHOPHEAD_CODE_DENSITY_NOT_KNOWN = 154,
  // There is a gap under the manufactured head: none is accepted.
  SHOPHEAD_CODE_GAP_UNDER_MANUFACTURED_HEAD = 155,
  // The sheets are apart at the edge, not as far as the shank.
  SHOPHEAD_CODE_SHEETS_APART_AT_EDGE = 156,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_code shophead_code;
#else
typedef uint32_t shophead_code;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// How serious a finding is.
enum shophead_severity
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Worth knowing; there is nothing to do.
  SHOPHEAD_SEVERITY_NOTE = 1,
  // Do it with care, or check before relying on it.
  SHOPHEAD_SEVERITY_CAUTION = 2,
  // Stop: ask the holder of the type's data or a licensed person.
  SHOPHEAD_SEVERITY_REFER = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_severity shophead_severity;
#else
typedef uint32_t shophead_severity;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What a figure counts.
enum shophead_figure_kind
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // There is no figure.
  SHOPHEAD_FIGURE_NONE = 0,
  // A length: nanometres in `whole`.
  SHOPHEAD_FIGURE_LENGTH = 1,
  // A force: pounds in `number`.
  SHOPHEAD_FIGURE_FORCE = 2,
  // A stress: pounds per square inch in `number`.
  SHOPHEAD_FIGURE_STRESS = 3,
  // A plain ratio, such as an edge margin or a margin of safety, in `number`. Of a limit `whole` is the key of a figure that can be entered in its place, as of `SHOPHEAD_FIGURE_KEY`, or 0.
  SHOPHEAD_FIGURE_RATIO = 4,
  // A number of things in `whole`.
  SHOPHEAD_FIGURE_COUNT = 5,
  // Facts that were not given: one bit each in `whole`, from the lowest layers, material, edge distance, pitch, row spacing, minor axis.
  SHOPHEAD_FIGURE_FACTS = 6,
  // What is not on file and can be entered in a limits file, as a number in `whole`; a sentence names it.
  SHOPHEAD_FIGURE_KEY = 7,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_figure_kind shophead_figure_kind;
#else
typedef uint32_t shophead_figure_kind;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// A figure in a finding; the member that its kind does not name is 0.
struct shophead_figure {
  // What it counts, and which member holds it.
  shophead_figure_kind kind;
  // Nanometres, or a number of things.
  int64_t whole;
  // Pounds, pounds per square inch, or a ratio.
  double number;
};

// How well a figure is supported; the later, the worse.
enum shophead_status
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // No figure, no basis.
  SHOPHEAD_STATUS_NONE = 0,
  // From a shop's own approved documents, loaded on top of a practice.
  SHOPHEAD_STATUS_SHOP = 1,
  // Read in the document named.
  SHOPHEAD_STATUS_PUBLISHED = 2,
  // Common practice of the trade, without a document.
  SHOPHEAD_STATUS_PRACTICE = 3,
  // Recalled from the document named, or computed from such a figure, but not read there: check before relying on it.
  SHOPHEAD_STATUS_MEMORY = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_status shophead_status;
#else
typedef uint32_t shophead_status;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// The document and the place in it that a figure rests on.
//
// Owner of the texts: the library, for as long as it is loaded. Of a shop's own limit they are the texts that the caller handed in, and
// last as long as the caller keeps them.
struct shophead_basis {
  // The document, or `common practice`.
  struct shophead_text document;
  // The place in it; may be empty.
  struct shophead_text place;
  // How well it is supported.
  shophead_status status;
};

// One finding.
struct shophead_finding {
  // What kind.
  shophead_code code;
  // How serious.
  shophead_severity severity;
  // The layer it concerns, counted from 1 on the side of the manufactured head; 0 where it concerns no single one.
  uint32_t layer;
  // What was measured or computed, where a figure tells it.
  struct shophead_figure measured;
  // The limit it was checked against, where that is a figure.
  struct shophead_figure limit;
  // Where the limit comes from.
  struct shophead_basis basis;
};

// What a sheet carries in tension, and where it stands.
struct shophead_tension {
  // Ultimate tension in pounds per square inch, the lesser of along and across the grain.
  double ultimate_psi;
  // Yield in tension in pounds per square inch, likewise; 0 where it is not published.
  double yield_psi;
  // Where they come from.
  struct shophead_basis basis;
};

// A drill.
struct shophead_drill {
  // Its diameter; `SHOPHEAD_NONE` where there is no drill.
  int64_t diameter_nm;
  // What it is called, with a zero byte at the end: `#30`, `F`, `11/64`; empty where there is no drill.
  char name[8];
  // Where the diameter comes from.
  struct shophead_basis basis;
};

// A rivet, or without a length a family of rivets. `shophead_part_parse` makes one from its number.
struct shophead_part {
  // The part standard, one of `enum shophead_series`.
  uint32_t series;
  // The alloy, one of `enum shophead_alloy`.
  uint32_t alloy;
  // The dash number: thirty-seconds of an inch of the standard diameter.
  uint32_t dash;
  // The finish letter, a capital in ASCII; 0 without one.
  uint32_t finish;
  // The length as the series measures it: under a protruding head, overall for a flush one. `SHOPHEAD_NONE` for a family.
  int64_t length_nm;
};

// A least and a greatest length, in nanometres; `SHOPHEAD_NONE` both where there is none.
struct shophead_range {
  // The least.
  int64_t min_nm;
  // The greatest.
  int64_t max_nm;
};

// The dimensions of a rivet. `SHOPHEAD_NONE` stands where one is not known.
struct shophead_dimensions {
  // The manufactured head.
  shophead_head head;
  // Nominal shank diameter: of an oversize rivet, larger than its digit says.
  int64_t diameter_nm;
  // The diameter that the dash number counts.
  int64_t standard_diameter_nm;
  // Least and greatest shank diameter.
  struct shophead_range shank;
  // Nominal head diameter, to the sharp corner for a flush head.
  int64_t head_diameter_nm;
  // Nominal head height; a reference value for a flush head.
  int64_t head_height_nm;
  // The step in which the lengths of the series go.
  int64_t length_step_nm;
  // Where the dimensions come from.
  struct shophead_basis basis;
};

// Which findings of the caller's array belong to an answer.
struct shophead_span {
  // The place of the first in the array, counted from 0.
  uint32_t first;
  // How many.
  uint32_t count;
  // 1 where all are there, 0 where there were more than `SHOPHEAD_MAX_FINDINGS`; the less serious ones are then missing.
  uint32_t complete;
};

// The value of a limit. Members that its kind does not name are 0 and are not looked at.
struct shophead_value {
  // One of `enum shophead_value_kind`.
  uint32_t kind;
  // Top of a multiple, ratio or share; a whole number; a way of rounding.
  uint32_t num;
  // Bottom of a multiple, ratio or share; not 0.
  uint32_t den;
  // Not used; 0.
  uint32_t unused;
  // A length, or what is added to a multiple or to the shank.
  int64_t nm;
};

// One of a shop's own limits, from its own approved documents; or a figure that a finding says is not on file. Such a one has
// `SHOPHEAD_BY_KEY` for its name, its key in `diameter_nm` (`whole` of the finding's limit, or what `shophead_key_parse` reads), 0 in `head`,
// `alloy` and `rows`, and the figure in `value`: dimensions of a series and bend radii as lengths, strengths of sheets and of rivet alloys as
// stresses, tension of a rivet as a force, a density as a fraction in pounds per cubic inch, a limit as what it is. A protruding head needs
// its diameter and its height.
//
// A tested joint, of a key that begins with `flush` or `plain`, has the sheet's material in `rows`, one of `enum shophead_preparation` in
// `head` (of a plain joint 0 as well), and a value of kind `SHOPHEAD_VALUE_JOINT`. It was tested at an edge distance of two diameters unless
// another figure of the same key stands right behind it, a length: the edge distance.
//
// Figures of a material that is not on file make it one of the shop's own: `SHOPHEAD_OWN_MATERIAL`.
struct shophead_limit {
  // Which, one of `enum shophead_limit_name`, or `SHOPHEAD_BY_KEY`.
  uint32_t name;
  // Only for these heads, one of `enum shophead_head_scope`; 0 for any.
  uint32_t head;
  // Only for this rivet alloy, one of `enum shophead_alloy`; 0 for any.
  uint32_t alloy;
  // Only for patterns of so many rows; 0 for any.
  uint32_t rows;
  // Only for this nominal shank diameter; `SHOPHEAD_NONE` for any. Of a figure its key.
  int64_t diameter_nm;
  // How much.
  struct shophead_value value;
  // The document that it stands in. The caller's; findings that rest on this limit point to it.
  struct shophead_text document;
  // The place in the document; may be empty. The caller's, as above.
  struct shophead_text place;
};

// A set of limits: a built-in one, and a shop's own on top of it. A limit of the shop's comes before any built-in one for the same
// case. It holds no memory of its own: it may be copied, and threads may share it.
struct shophead_practice {
  // The set underneath, one of `enum shophead_built_in`.
  uint32_t built_in;
  // Not used; 0.
  uint32_t unused;
  // The shop's own limits, the caller's; may be NULL where there are none. They and their texts must last while the practice is used.
  const struct shophead_limit *own;
  // How many; at most `SHOPHEAD_MAX_OWN_LIMITS`.
  size_t own_count;
};

// A limit that applies to a case.
struct shophead_applies {
  // The value as the practice has it; its kind is `SHOPHEAD_VALUE_NONE` where no limit applies.
  struct shophead_value value;
  // The value as a length, where it is one: so many diameters worked out. `SHOPHEAD_NONE` otherwise.
  int64_t length_nm;
  // Where it comes from.
  struct shophead_basis basis;
};

// One layer.
struct shophead_layer {
  // How thick it is; above zero.
  struct shophead_toleranced thickness;
  // What it is made of, a number from `shophead_material_parse`, or one of the practice's own: `SHOPHEAD_OWN_MATERIAL`; 0 where it is not
  // known.
  uint32_t material;
  // What it is, one of `enum shophead_role`.
  uint32_t role;
  // How its hole takes a flush head, one of `enum shophead_preparation`.
  uint32_t preparation;
  // Not used; 0.
  uint32_t unused;
};

// A length and where it comes from.
struct shophead_given {
  // The length in nanometres; `SHOPHEAD_NONE` where there is no such figure.
  int64_t nm;
  // Where it comes from; its status is `SHOPHEAD_STATUS_NONE` where there is no such figure.
  struct shophead_basis basis;
};

// The limits of a driven head. Each is `SHOPHEAD_NONE` where the practice gives no such limit.
struct shophead_head_limits {
  // Least diameter.
  struct shophead_given diameter_least;
  // Diameter to aim at.
  struct shophead_given diameter_target;
  // Greatest diameter.
  struct shophead_given diameter_greatest;
  // Least height.
  struct shophead_given height_least;
  // Height to aim at.
  struct shophead_given height_target;
  // Greatest height.
  struct shophead_given height_greatest;
};

// What a length is chosen for.
struct shophead_length_query {
  // The rivet; its length does not matter.
  struct shophead_part part;
  // The pack; `shophead_stack_grip` adds it up.
  struct shophead_toleranced grip;
  // The hole as measured, or as `shophead_practice_hole` assumes it.
  struct shophead_toleranced hole;
  // The limits.
  struct shophead_practice practice;
};

// What size a driven head comes out; `SHOPHEAD_NONE` throughout where there is none.
struct shophead_predicted {
  // Its diameter, with every tolerance at its worst one way, nominal, and at its worst the other way. 0 where the tail does not even
  // fill the hole.
  struct shophead_toleranced diameter;
  // The height to which it is driven.
  int64_t height_nm;
};

// A driven head as measured.
struct shophead_measured {
  // Diameter; of a head that is out of round the least and the greatest. `SHOPHEAD_NONE` both where it was not measured.
  struct shophead_range diameter;
  // Height; of a tipped or stepped head the least and the greatest. `SHOPHEAD_NONE` both where it was not measured.
  struct shophead_range height;
};

// A defect. Members that its kind does not name are not looked at.
struct shophead_defect {
  // One of `enum shophead_defect_kind`.
  uint32_t kind;
  // How many cracks, or what percentage of the rim.
  uint32_t count;
  // Whether any two cracks meet: 0 or 1.
  uint32_t meeting;
  // Not used; 0.
  uint32_t unused;
  // A depth, a reach, a feeler, a height or a diameter left, or how far a head stands proud or low.
  int64_t nm;
  // How high the manufactured head is.
  int64_t head_height_nm;
};

// What to do about a rivet that may not stay as it is.
enum shophead_remedy
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // It may stay.
  SHOPHEAD_REMEDY_NONE = 0,
  // Take it out, measure the hole again and drive another of the same.
  SHOPHEAD_REMEDY_REPLACE = 1,
  // Take it out, open the hole and drive the next larger diameter.
  SHOPHEAD_REMEDY_NEXT_SIZE = 2,
  // Stop and refer: another rivet does not mend it.
  SHOPHEAD_REMEDY_REFER = 3,
  // Shave it flush and measure the head again.
  SHOPHEAD_REMEDY_SHAVE = 4,
  // Take off the high part and measure the head again.
  SHOPHEAD_REMEDY_DRESS = 5,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_remedy shophead_remedy;
#else
typedef uint32_t shophead_remedy;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// The verdict on a driven head.
struct shophead_judgement {
  // 1 where it may stay, otherwise 0.
  uint32_t accepted;
  // What to do about it: of several remedies the one that goes furthest.
  shophead_remedy remedy;
  // Where the remedy stands.
  struct shophead_basis remedy_basis;
  // Which of the caller's findings belong to it.
  struct shophead_span findings;
};

// The diameter for a sheet.
struct shophead_diameter_choice {
  // The rivet in this diameter, without a length; its series is 0 where the series has none that large.
  struct shophead_part part;
  // The diameter that the rule asks for, before it is taken up to a size of the series.
  int64_t wanted_nm;
  // Which of the caller's findings belong to it.
  struct shophead_span findings;
};

// Why the chosen length is not the one that the rule of thumb gives.
enum shophead_difference
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // They do not differ.
  SHOPHEAD_DIFFERENCE_NONE = 0,
  // Filling the hole takes the tail.
  SHOPHEAD_DIFFERENCE_FILL_TAKES_TAIL = 1,
  // The tail would fold over.
  SHOPHEAD_DIFFERENCE_TAIL_WOULD_FOLD = 2,
  // The driven head would come out too large.
  SHOPHEAD_DIFFERENCE_HEAD_WOULD_BE_TOO_LARGE = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_difference shophead_difference;
#else
typedef uint32_t shophead_difference;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// A chosen length and what it rests on.
struct shophead_length_choice {
  // The length; `SHOPHEAD_NONE` when no one length is within limits in every hole: see `shophead_length_by_hole`.
  // `shophead_part_with_length` makes it a part.
  int64_t length_nm;
  // The shortest length that is good, before it is cut to the series' steps.
  struct shophead_given shortest;
  // The longest.
  struct shophead_given longest;
  // What limits the longest.
  shophead_bound longest_by;
  // Why length and rule of thumb differ.
  shophead_difference difference;
  // Grip plus one and a half diameters, as it is before rounding.
  int64_t rule_of_thumb_nm;
  // The same, rounded to the series' steps as the practice says.
  int64_t rule_of_thumb_length_nm;
  // The part of the tail that goes into filling the hole, at nominal sizes.
  int64_t fill_nm;
  // How far the tail stands out before driving.
  struct shophead_range protrusion;
  // The driven head of the chosen length at the height to aim at.
  struct shophead_predicted head;
  // Which of the caller's findings belong to it.
  struct shophead_span findings;
};

// The rivet for a pack.
struct shophead_fitted {
  // The rivet, with the length to order; without a length where none fits.
  struct shophead_part part;
  // Its length, and what that rests on.
  struct shophead_length_choice choice;
};

// What to drive a head to, so that it is accepted whatever its shank, hole, pack and length are within their tolerances.
struct shophead_window {
  // The heights to stop at; `SHOPHEAD_NONE` both where no one height is right for every rivet.
  struct shophead_range height;
  // The least diameter; `SHOPHEAD_NONE` where there is no window.
  int64_t diameter_least_nm;
  // The greatest diameter named, else `SHOPHEAD_NONE`. A wider head is worth a look; that alone does not reject it.
  int64_t diameter_greatest_nm;
  // Where there is no window: the greatest hole with which there would be one; `SHOPHEAD_NONE` where there is no such hole.
  int64_t hole_greatest_nm;
  // Where there is no window: the least shank with which there would be one; `SHOPHEAD_NONE` where there is no such shank.
  int64_t shank_least_nm;
};

// Another length within limits, and what it makes.
struct shophead_serving {
  // The length; `shophead_part_with_length` makes it a part.
  int64_t length_nm;
  // What to drive its head to.
  struct shophead_window window;
  // The driven head at the height to aim at.
  struct shophead_predicted head;
};

// What goes into holes of one range of sizes.
struct shophead_by_hole {
  // The holes, both ends included.
  struct shophead_range hole;
  // The length; `SHOPHEAD_NONE` where no standard length is within limits in these holes.
  int64_t length_nm;
  // What a longer rivet is cut to, as closely as standard ones are made, where that is within limits and no standard length is; else
  // `SHOPHEAD_NONE` both.
  struct shophead_range cut;
  // What to drive the head of the standard length to.
  struct shophead_window window;
};

// The distances of a row; `SHOPHEAD_NONE` for one that is not known and so not checked.
struct shophead_row {
  // From the row to the nearest edge of any layer.
  int64_t edge_nm;
  // From hole to hole.
  int64_t pitch_nm;
  // To the neighbouring row.
  int64_t transverse_pitch_nm;
};

// A place on the panel, in nanometres.
struct shophead_point {
  // Along the panel.
  int64_t x_nm;
  // Across it.
  int64_t y_nm;
};

// A straight edge of a sheet.
struct shophead_edge {
  // One end.
  struct shophead_point from;
  // The other.
  struct shophead_point to;
};

// A piece of room to work in: 32 bytes that the caller keeps and never reads.
struct shophead_room {
  // Not to be looked at.
  uint64_t words[4];
};

// What a pattern of points comes to.
struct shophead_pattern {
  // The two points that stand closest, by their place in the array, counted from 0. 0 both with fewer than two points.
  size_t closest_pair[2];
  // How close; `SHOPHEAD_NONE` with fewer than two points.
  int64_t pitch_nm;
  // The point that stands closest to an edge, by its place in the array. 0 without points or edges.
  size_t closest_to_edge;
  // How close; `SHOPHEAD_NONE` without points or edges.
  int64_t edge_nm;
  // Which of the caller's findings belong to it.
  struct shophead_span findings;
};

// A load on one rivet and the factors that apply to it.
struct shophead_load {
  // One of `enum shophead_load_kind`; with `SHOPHEAD_LOAD_NONE` the other members are not looked at.
  uint32_t kind;
  // One of `enum shophead_factors`.
  uint32_t factors;
  // How much, in pounds; above zero.
  double lbf;
};

// A margin of safety.
struct shophead_margin {
  // The margin; negative when the joint does not carry the load. 0 where `known` is 0.
  double value;
  // The load with the factors that apply to it, in pounds.
  double factored_load_lbf;
  // 1 where there is a margin, 0 where no load was given or no allowable is known.
  uint32_t known;
  // Not used; 0.
  uint32_t unused;
};

// A rivet in its sheets.
struct shophead_joint {
  // The rivet; its length does not matter.
  struct shophead_part part;
  // The layers, the caller's, the side of the manufactured head first. Two or more must carry load, exactly three in double shear.
  const struct shophead_layer *layers;
  // How many.
  size_t layer_count;
  // Centre of the hole to the nearest edge in the direction of the load, the same in every layer.
  int64_t edge_nm;
  // The hole as it is; `SHOPHEAD_NONE` for the nominal one.
  int64_t hole_nm;
  // Distance to the next rivet of the row, for the net section; `SHOPHEAD_NONE` to leave it out.
  int64_t pitch_nm;
  // One of `enum shophead_shear`.
  uint32_t shear;
  // Not used; 0.
  uint32_t unused;
  // A load on the rivet, for the margin.
  struct shophead_load load;
};

// A load that can be carried, and what it rests on.
struct shophead_allowable {
  // In pounds; 0 where `known` is 0.
  double lbf;
  // 1 where there is such a figure, 0 where none is published.
  uint32_t known;
  // Not used; 0.
  uint32_t unused;
  // The weakest of the figures in it.
  struct shophead_basis basis;
};

// What fails.
enum shophead_mode
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Not known: a part of the strength is not published.
  SHOPHEAD_MODE_NONE = 0,
  // The rivet shears.
  SHOPHEAD_MODE_RIVET_SHEAR = 1,
  // The rivet crushes the sheet.
  SHOPHEAD_MODE_BEARING = 2,
  // The flush head and the sheet around it fail.
  SHOPHEAD_MODE_FLUSH_JOINT = 3,
  // The rivet tears out to the edge.
  SHOPHEAD_MODE_TEAR_OUT = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_mode shophead_mode;
#else
typedef uint32_t shophead_mode;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What one rivet carries.
struct shophead_strength {
  // The diameter counted in shear and bearing.
  int64_t diameter_nm;
  // Where it comes from.
  struct shophead_basis diameter_basis;
  // The factor on rivet shear for thin sheet; 0 where none applies or none is published.
  double thin_sheet_factor;
  // Rivet shear in all planes, thin-sheet factor included.
  struct shophead_allowable shear;
  // What one rivet carries.
  struct shophead_allowable allowable;
  // Where an edge margin below 1.5 is all that stands in the way: the least of the parts with the indication in it.
  struct shophead_allowable indication;
  // The load at which the first sheet yields, never above the allowable.
  struct shophead_allowable yield_load;
  // What fails first at the allowable or the indication.
  shophead_mode governing;
  // In which layer, counted from 1; 0 for the rivet.
  uint32_t governing_layer;
  // How many of the caller's sheets are written: one for each layer that carries load.
  uint32_t sheets;
  // The layer with the weakest net section, counted from 1; 0 where it is not known.
  uint32_t net_section_layer;
  // The weakest net section, a pitch.
  struct shophead_allowable net_section;
  // The margin under the load.
  struct shophead_margin margin;
  // The weakest basis of all parts that were compared.
  struct shophead_basis basis;
  // Which of the caller's findings belong to it.
  struct shophead_span findings;
};

// What one sheet carries. The loads are those of the sheet itself; it gets `share` of the rivet's load.
struct shophead_sheet {
  // Which layer, counted from 1 on the side of the manufactured head.
  uint32_t layer;
  // Where the bearing figure comes from.
  shophead_bearing_kind bearing_kind;
  // Edge distance over nominal rivet diameter.
  double edge_margin;
  // How much of the rivet's load the sheet gets: 1, or 0.5 for the outer sheets in double shear.
  double share;
  // Bearing or flush joint at failure.
  struct shophead_allowable bearing;
  // The same at yield.
  struct shophead_allowable bearing_yield;
  // Tear-out to the edge.
  struct shophead_allowable tear_out;
  // Tear-out by the recalled form that stops at the side of the hole; to compare, it does not count in the allowable.
  struct shophead_allowable tear_out_with_relief;
  // Tension between the holes, a pitch.
  struct shophead_allowable net_section;
};

// The tables for a material.
struct shophead_tables {
  // The one to use: where two name the material, the one that asks for more rivets.
  shophead_table first;
  // Another one that names it too, or none.
  shophead_table also;
};

// Rivets an inch of width, before any reduction.
struct shophead_per_inch {
  // The cell as printed; 0 where the table has none.
  double printed;
  // What the rule of the table gives.
  double formula;
  // The count to use: the printed cell, or the formula rounded to the printed decimal where that is more; 0 where nothing is printed:
  // the table offers no figure there.
  double used;
  // What decides the formula.
  shophead_critical critical;
  // What the count to use rests on.
  struct shophead_basis basis;
};

// Rivets over a width.
struct shophead_count {
  // An inch of width, after the reduction.
  double per_inch;
  // Over the width before the reduction, not rounded.
  double unreduced;
  // Whole rivets, on each side of the splice.
  uint32_t total;
  // Not used; 0.
  uint32_t unused;
  // Source of the reduction.
  struct shophead_basis basis;
};

// The rivets that one's own strengths ask for.
struct shophead_needed {
  // What the sheet carries without holes over the width, in pounds.
  double load_lbf;
  // Rivets an inch of width.
  double per_inch;
  // Rivets over the width, not rounded.
  double exact;
  // Whole rivets, on each side of the splice.
  uint32_t total;
  // Not used; 0.
  uint32_t unused;
};

// Rivets in equal rows.
struct shophead_laid {
  // Rivets in each row.
  uint32_t per_row;
  // Rivets in all rows; not fewer than asked for.
  uint32_t total;
  // The pitch if each rivet takes an equal part of the width, rounded down to the nanometre.
  int64_t pitch_nm;
  // From the side of the sheet to the first rivet of a row.
  int64_t first_nm;
};

// One rivet of a group.
struct shophead_rivet {
  // Its source.
  struct shophead_point at;
  // How much it takes beside the others: its shank area, its stiffness, or 1 where all are alike. Above zero; only ratios count.
  double weight;
  // What it carries at failure, in pounds.
  double allowable_lbf;
  // 1 where `allowable_lbf` is known, otherwise 0.
  uint32_t allowable_known;
  // How well the allowable is supported, one of `enum shophead_status`; not looked at where it is not known.
  uint32_t status;
  // The document that the allowable stands in; the caller's, or the library's from an answer of it. The answer points to it.
  struct shophead_text document;
  // The place in the document; may be empty. As above.
  struct shophead_text place;
};

// A load in the plane of a group.
struct shophead_plane_load {
  // Along x, in pounds.
  double x_lbf;
  // Along y, in pounds.
  double y_lbf;
  // A point on its line.
  struct shophead_point at;
  // A moment besides, in inch-pounds, positive from x to y.
  double moment_in_lbf;
  // Limit or ultimate, one of `enum shophead_load_kind`; not none.
  uint32_t kind;
  // One of `enum shophead_factors` for the margins; 0 for no margins.
  uint32_t factors;
};

// How a load divides over a group.
struct shophead_group {
  // The centroid of the weighted positions, to the nanometre.
  struct shophead_point centroid;
  // The point about which the plate turns; `SHOPHEAD_NONE` both where there is none.
  struct shophead_point rotation_centre;
  // The sum of r² about the centroid, each counted with its weight over the greatest weight, in square inches.
  double polar_in2;
  // Moment of the load about the centroid, in inch-pounds, positive from x to y.
  double moment_in_lbf;
  // The rivet with the greatest load, counted from 0; the first where several are equal.
  size_t most_loaded;
  // The rivet with the least margin, counted from 0; 0 where `margin` is not known.
  size_t worst;
  // Its margin; not known where no factors were given or a strength is not known.
  struct shophead_margin margin;
  // The weakest basis in it.
  struct shophead_basis basis;
  // Which of the caller's findings belong to it.
  struct shophead_span findings;
};

// Two components of a force, in pounds.
struct shophead_vector {
  // Along x.
  double x_lbf;
  // Along y.
  double y_lbf;
};

// The load that the plate puts on one rivet.
struct shophead_share {
  // From the load as if it went through the centroid.
  struct shophead_vector direct;
  // From its moment about the centroid.
  struct shophead_vector torsional;
  // The size of both together, in pounds.
  double size_lbf;
};

// One rivet of a group, and the load at which it yields.
struct shophead_yielding {
  // The rivet.
  struct shophead_rivet rivet;
  // The load on it at which a sheet yields, in pounds; it stands where the allowable does.
  double yield_lbf;
  // 1 where `yield_lbf` is known, otherwise 0.
  uint32_t yield_known;
};

// The rivet of a group that yields first.
struct shophead_yielded {
  // Which, counted from 0; 0 where `margin` is not known.
  size_t worst;
  // Its margin at yield under the limit load; not known where no factors were given, or where a strength or a yield is not known.
  struct shophead_margin margin;
  // Which of the caller's findings belong to it: those of the group, and that it yields under the limit load.
  struct shophead_span findings;
};

// A hole's surroundings: what decides which steps it can take.
struct shophead_hole_query {
  // The rivet that is to go in; its length does not matter.
  struct shophead_part part;
  // The layers, the caller's, the side of the manufactured head first. NULL where they are not known: then no length is tried and no
  // countersink and no strength is checked, and a finding says so.
  const struct shophead_layer *layers;
  // How many; 0 where they are not known.
  size_t layer_count;
  // From the row to the nearest edge of any layer; `SHOPHEAD_NONE` where it is not known.
  int64_t edge_nm;
  // From hole to hole; `SHOPHEAD_NONE` where it is not known.
  int64_t pitch_nm;
  // To the neighbouring row; `SHOPHEAD_NONE` where there is none or it is not known.
  int64_t transverse_pitch_nm;
  // How many rows the pattern has, 1 to 255.
  uint32_t rows;
  // The member that the row runs along, one of `enum shophead_member`.
  uint32_t member;
  // The limits.
  struct shophead_practice practice;
};

// A hole as it was measured.
struct shophead_hole {
  // The longest axis.
  int64_t major_nm;
  // The shortest axis; the same for a round hole.
  int64_t minor_nm;
  // What else is wrong with it, one of `enum shophead_damage`.
  uint32_t damage;
  // Not used; 0.
  uint32_t unused;
};

// What to do about a hole, from the least change on.
enum shophead_disposition
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Keep the hole as it is.
  SHOPHEAD_DISPOSITION_KEEP = 1,
  // Clean up the hole: drill or ream it for the same rivet.
  SHOPHEAD_DISPOSITION_CLEAN_UP = 2,
  // Open the hole for an oversize shank.
  SHOPHEAD_DISPOSITION_OVERSIZE = 3,
  // Open the hole for the next larger diameter.
  SHOPHEAD_DISPOSITION_NEXT_SIZE = 4,
  // Stop and refer.
  SHOPHEAD_DISPOSITION_REFER = 5,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_disposition shophead_disposition;
#else
typedef uint32_t shophead_disposition;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// The verdict on a hole.
struct shophead_hole_judgement {
  // What to do.
  shophead_disposition disposition;
  // How many of the caller's steps are written; the last one does unless the verdict is to refer.
  uint32_t steps;
  // Which of the caller's findings hold for the verdict itself; why each step before it does not do stands with the step.
  struct shophead_span findings;
};

// One step that was tried.
struct shophead_step {
  // Which.
  shophead_disposition kind;
  // 1 where it does, otherwise 0.
  uint32_t does;
  // The rivet that it would take, without a length; its series is 0 where there is none.
  struct shophead_part part;
  // The drill or reamer to open the hole with; its diameter is `SHOPHEAD_NONE` where the hole stays as it is.
  struct shophead_drill cut;
  // The hole that the step leaves; `SHOPHEAD_NONE` where there is none.
  struct shophead_range hole;
  // Which of the caller's findings belong to it.
  struct shophead_span findings;
};

// A hole as it was found, with all that can be said of it.
struct shophead_found_hole {
  // The longest axis.
  int64_t major_nm;
  // The shortest axis; the same for a round hole. `SHOPHEAD_NONE` where it was measured one way only.
  int64_t minor_nm;
  // What else is wrong with it, one of `enum shophead_damage`.
  uint32_t damage;
  // Which way the longest axis lies, one of `enum shophead_direction`; 0 where that is not known, which counts as across.
  uint32_t direction;
  // 1 where it was opened before it was measured, so that it is no longer as the maker built it; otherwise 0.
  uint32_t opened;
  // Not used; 0.
  uint32_t unused;
};

// The force to form a driven head.
struct shophead_squeeze {
  // By the law, in pounds.
  double force_lbf;
  // With the scatter of the tests below it.
  double least_lbf;
  // With the scatter of the tests above it: choose the squeezer by this one.
  double greatest_lbf;
  // Source of the law.
  struct shophead_basis basis;
  // Which of the caller's findings belong to it.
  struct shophead_span findings;
};

// Which limit of a practice is meant. `shophead_word` gives the word that a limits file uses.
enum shophead_limit_name
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // What the rule of thumb adds to the grip.
  SHOPHEAD_LIMIT_RULE_OF_THUMB_TAIL = 1,
  // How the rule of thumb is rounded to a standard length: next longer, or nearest.
  SHOPHEAD_LIMIT_LENGTH_ROUNDING = 2,
  // The longest tail that is driven without folding over.
  SHOPHEAD_LIMIT_TAIL_GREATEST = 3,
  // Least rivet diameter as a multiple of the thickest sheet.
  SHOPHEAD_LIMIT_DIAMETER_PER_THICKNESS_LEAST = 4,
  // Usual rivet diameter as a multiple of the thicker sheet.
  SHOPHEAD_LIMIT_DIAMETER_PER_THICKNESS_TARGET = 5,
  // Rivet diameter as a multiple of the thickest sheet; the next larger size of the series is the greatest.
  SHOPHEAD_LIMIT_DIAMETER_PER_THICKNESS_GREATEST = 6,
  // Least rivet diameter in structure.
  SHOPHEAD_LIMIT_DIAMETER_STRUCTURAL_LEAST = 7,
  // Least diameter of the driven head.
  SHOPHEAD_LIMIT_HEAD_DIAMETER_LEAST = 8,
  // Diameter of the driven head to aim at.
  SHOPHEAD_LIMIT_HEAD_DIAMETER_TARGET = 9,
  // Greatest diameter of the driven head.
  SHOPHEAD_LIMIT_HEAD_DIAMETER_GREATEST = 10,
  // Least height of the driven head.
  SHOPHEAD_LIMIT_HEAD_HEIGHT_LEAST = 11,
  // Height of the driven head to aim at.
  SHOPHEAD_LIMIT_HEAD_HEIGHT_TARGET = 12,
  // Greatest height of the driven head.
  SHOPHEAD_LIMIT_HEAD_HEIGHT_GREATEST = 13,
  // Diameter of the circle, concentric with the driven head, in which no crack is accepted.
  SHOPHEAD_LIMIT_CRACK_FREE_CIRCLE = 14,
  // The most separate cracks accepted near the rim of the driven head.
  SHOPHEAD_LIMIT_CRACKS_GREATEST = 15,
  // Deepest tool mark accepted on a protruding manufactured head, as a share of the head's height.
  SHOPHEAD_LIMIT_TOOL_MARK_DEPTH_GREATEST = 16,
  // The most a flush head may stand proud before it is shaved.
  SHOPHEAD_LIMIT_FLUSH_HEAD_PROUD_GREATEST = 17,
  // The diameter of the drill for the rivet: what to aim at.
  SHOPHEAD_LIMIT_HOLE_DRILL = 18,
  // The smallest hole accepted.
  SHOPHEAD_LIMIT_HOLE_LEAST = 19,
  // The largest hole accepted.
  SHOPHEAD_LIMIT_HOLE_GREATEST = 20,
  // Thinnest sheet that is machine countersunk for the rivet.
  SHOPHEAD_LIMIT_COUNTERSINK_SHEET_LEAST = 21,
  // Deepest countersink as a share of the sheet.
  SHOPHEAD_LIMIT_COUNTERSINK_DEPTH_SHARE = 22,
  // Depth of countersink, as a share of the sheet, that keeps a straight land.
  SHOPHEAD_LIMIT_COUNTERSINK_DEPTH_PREFERRED = 23,
  // Thickest sheet that is dimpled.
  SHOPHEAD_LIMIT_DIMPLE_SHEET_GREATEST = 24,
  // Largest share of one pattern's rivets that may be stepped up.
  SHOPHEAD_LIMIT_PATTERN_STEPS_SHARE = 25,
  // The most rivets of one pattern that may be stepped up.
  SHOPHEAD_LIMIT_PATTERN_STEPS_COUNT = 26,
  // The most neighbouring rivets that may be stepped up.
  SHOPHEAD_LIMIT_NEIGHBOURS_STEPPED = 27,
  // The longest crack that is repaired without asking.
  SHOPHEAD_LIMIT_CRACK_LENGTH_GREATEST = 28,
  // Deepest corrosion that is cleaned up without asking, as a share of the layer.
  SHOPHEAD_LIMIT_CORROSION_DEPTH_SHARE = 29,
  // The longest corroded place that is cleaned up without asking.
  SHOPHEAD_LIMIT_CORROSION_LENGTH_GREATEST = 30,
  // The longest soft place that is repaired without asking.
  SHOPHEAD_LIMIT_SOFT_SPOT_LENGTH_GREATEST = 31,
  // Least distance from the centre of a hole to the nearest edge.
  SHOPHEAD_LIMIT_EDGE_DISTANCE_LEAST = 32,
  // Edge distance that leaves room for a later step up.
  SHOPHEAD_LIMIT_EDGE_DISTANCE_PREFERRED = 33,
  // Greatest usual edge distance.
  SHOPHEAD_LIMIT_EDGE_DISTANCE_GREATEST = 34,
  // Least distance between neighbouring holes of a row.
  SHOPHEAD_LIMIT_PITCH_LEAST = 35,
  // Greatest usual distance between neighbouring holes of a row.
  SHOPHEAD_LIMIT_PITCH_GREATEST = 36,
  // Least distance between rows.
  SHOPHEAD_LIMIT_TRANSVERSE_PITCH_LEAST = 37,
  // How firmly the heads hold a sheet that buckles between its rivets: 1 pinned, 4 clamped.
  SHOPHEAD_LIMIT_INTER_RIVET_FIXITY = 38,
  // Part of the compression yield stress up to which buckling between rivets is elastic.
  SHOPHEAD_LIMIT_INTER_RIVET_ELASTIC_SHARE = 39,
  // Room that the bucking bar needs behind the tail.
  SHOPHEAD_LIMIT_BAR_THICKNESS = 40,
  // How many drill sizes the removal drill is smaller than the shank.
  SHOPHEAD_LIMIT_REMOVAL_DRILL_BELOW = 41,
  // A grip from which taking the rivet out is risky.
  SHOPHEAD_LIMIT_REMOVAL_THICK_PACK = 42,
  // A number of layers from which taking the rivet out is risky.
  SHOPHEAD_LIMIT_REMOVAL_MANY_LAYERS = 43,
  // A far-side layer thinner than this bends unless it is supported.
  SHOPHEAD_LIMIT_REMOVAL_THIN_FAR_SIDE = 44,
  // Least diameter of the driven head that the published strengths count on, where it is more than the least accepted.
  SHOPHEAD_LIMIT_HEAD_DIAMETER_FOR_STRENGTH = 45,
  // Height that, with the greatest diameter, bounds the metal of a tail: more would make too large a head.
  SHOPHEAD_LIMIT_METAL_HEIGHT_GREATEST = 46,
  // Greatest diameter of a driven head as a multiple of its least.
  SHOPHEAD_LIMIT_OUT_OF_ROUND_GREATEST = 47,
  // Diameter of the circle on a head inside which another document accepts small cracks.
  SHOPHEAD_LIMIT_CRACK_WITHIN_CIRCLE = 48,
  // Diameter of the circle, concentric with a protruding manufactured head, in which no crack is accepted.
  SHOPHEAD_LIMIT_MANUFACTURED_CRACK_FREE_CIRCLE = 49,
  // The most cracks accepted in a manufactured head.
  SHOPHEAD_LIMIT_MANUFACTURED_CRACKS_GREATEST = 50,
  // The thickest feeler that may go in under the driven head where a gap is accepted.
  SHOPHEAD_LIMIT_GAP_UNDER_HEAD_GREATEST = 51,
  // The share of the driven head's rim under which such a gap is accepted.
  SHOPHEAD_LIMIT_GAP_RIM_SHARE = 52,
  // The feeler that must not reach the shank between the sheets.
  SHOPHEAD_LIMIT_GAP_BETWEEN_SHEETS = 53,
  // Least height of a protruding manufactured head that was flattened.
  SHOPHEAD_LIMIT_FLATTENED_HEAD_HEIGHT_LEAST = 54,
  // The most a finished flush head may stand above the surface.
  SHOPHEAD_LIMIT_FLUSH_HEAD_ABOVE_GREATEST = 55,
  // The most a flush head may lie below the surface.
  SHOPHEAD_LIMIT_FLUSH_HEAD_BELOW_GREATEST = 56,
  // Least diameter of a flush head after it was shaved.
  SHOPHEAD_LIMIT_SHAVED_HEAD_DIAMETER_LEAST = 57,
  // The largest that the hole is counted on to come out with this drill.
  SHOPHEAD_LIMIT_HOLE_DRILLED_GREATEST = 58,
  // Diameter of a machine countersink for the rivet.
  SHOPHEAD_LIMIT_COUNTERSINK_DIAMETER = 59,
  // How much larger the next size may be without approval.
  SHOPHEAD_LIMIT_STEP_GREATEST = 60,
  // A length along the row in which a share of the rivets may be stepped up.
  SHOPHEAD_LIMIT_PATTERN_STRETCH = 61,
  // The share of the rivets in any such length that may be stepped up.
  SHOPHEAD_LIMIT_PATTERN_STRETCH_SHARE = 62,
  // Least edge distance of a hole that is kept as the maker built it.
  SHOPHEAD_LIMIT_EDGE_DISTANCE_AS_BUILT_LEAST = 63,
  // Least distance between rows as a share of the pitch.
  SHOPHEAD_LIMIT_TRANSVERSE_PITCH_SHARE = 64,
  // How much wider than a damaged hole its drill is at least, so that the damage comes out.
  SHOPHEAD_LIMIT_CLEAN_UP_LEAST = 65,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_limit_name shophead_limit_name;
#else
typedef uint32_t shophead_limit_name;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What a layer is.
enum shophead_role
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Outer skin.
  SHOPHEAD_ROLE_SKIN = 1,
  // A sheet that doubles another.
  SHOPHEAD_ROLE_DOUBLER = 2,
  // The cap of a spar, keel or beam.
  SHOPHEAD_ROLE_CAP = 3,
  // The flange of a rib or frame.
  SHOPHEAD_ROLE_RIB_FLANGE = 4,
  // A stringer or stiffener.
  SHOPHEAD_ROLE_STRINGER = 5,
  // A tab or bracket foot.
  SHOPHEAD_ROLE_TAB = 6,
  // A shim or filler that carries no load.
  SHOPHEAD_ROLE_SHIM = 7,
  // Sealant between faying surfaces, as thick as it is when clamped.
  SHOPHEAD_ROLE_SEALANT = 8,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_role shophead_role;
#else
typedef uint32_t shophead_role;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// How the hole in a layer takes a flush head.
enum shophead_preparation
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // A plain hole.
  SHOPHEAD_PREPARATION_PLAIN = 1,
  // Cut away to the cone of the head.
  SHOPHEAD_PREPARATION_COUNTERSUNK = 2,
  // Pressed to the cone of the head.
  SHOPHEAD_PREPARATION_DIMPLED = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_preparation shophead_preparation;
#else
typedef uint32_t shophead_preparation;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// What is wrong with a hole besides its size.
enum shophead_damage
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // It is sound.
  SHOPHEAD_DAMAGE_SOUND = 1,
  // A crack starts from it.
  SHOPHEAD_DAMAGE_CRACKED = 2,
  // Its wall is corroded.
  SHOPHEAD_DAMAGE_CORRODED = 3,
  // It was drilled twice, side by side; the major axis goes over both.
  SHOPHEAD_DAMAGE_FIGURE_EIGHT = 4,
  // Its wall is scored; the major axis goes over the score.
  SHOPHEAD_DAMAGE_GOUGED = 5,
  // Its countersink is too deep or too wide for the head.
  SHOPHEAD_DAMAGE_DEEP_COUNTERSINK = 6,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_damage shophead_damage;
#else
typedef uint32_t shophead_damage;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// Which way the longest axis of a hole lies.
enum shophead_direction
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Along the nearest edge.
  SHOPHEAD_DIRECTION_ALONG = 1,
  // Across it: towards the edge and away from it.
  SHOPHEAD_DIRECTION_ACROSS = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_direction shophead_direction;
#else
typedef uint32_t shophead_direction;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

// The member that a row runs along.
enum shophead_member
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  // Skin to skin.
  SHOPHEAD_MEMBER_SKIN = 1,
  // The cap of a spar, keel or main beam.
  SHOPHEAD_MEMBER_SPAR_CAP = 2,
  // A longeron.
  SHOPHEAD_MEMBER_LONGERON = 3,
  // A stringer or stiffener.
  SHOPHEAD_MEMBER_STRINGER = 4,
  // A frame or bulkhead.
  SHOPHEAD_MEMBER_FRAME = 5,
  // A rib.
  SHOPHEAD_MEMBER_RIB = 6,
  // Anything else.
  SHOPHEAD_MEMBER_OTHER = 7,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum shophead_member shophead_member;
#else
typedef uint32_t shophead_member;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

// Writes the sentence for an error: what is wrong, and mostly what would be right. Of a text that could not be read
// `shophead_explain` tells more.
//
// Takes: `error`, any number of `enum shophead_error`. Writes: the sentence into `buffer`, which has room for `capacity` bytes,
// with a zero byte after it; its length without the zero byte into `length`. Both are the caller's.
//
// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_error_message(uint32_t error, char *buffer, size_t capacity, size_t *length);

// The word for a number: of a finding's code `tail-too-long`, of an alloy `2117`.
//
// Takes: `list`, one of `enum shophead_list`; `number`, one of that list. Writes: `word`, which is the library's.
//
// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_word(uint32_t list, uint32_t number, struct shophead_text *word);

// The number for a word, the other way round.
//
// Takes: `list`, one of `enum shophead_list`; `word`, `length` bytes of UTF-8; the caller's, not kept. Writes: `number`.
//
// Errors: `SHOPHEAD_ERROR_UNKNOWN_WORD`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER` where there is no such list, `SHOPHEAD_ERROR_NOT_UTF8`,
// `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_number(uint32_t list, const char *word, size_t length, uint32_t *number);

// The number of the interface that the library was built with. A program compares it with `SHOPHEAD_ABI_VERSION` of its header before
// it calls anything else, and stops unless both are equal.
uint32_t shophead_abi_version(void);

// The version of the library as text, such as `0.1.0`.
struct shophead_text shophead_version(void);

// Which of `enum shophead_feature` the library has, one bit each. Bits that a header does not name are to be ignored.
uint32_t shophead_features(void);

// Reads a length as the trade writes it: `.125`, `1/8`, `1-1/2`, `0.125 in`, `3.2mm`; inches where no unit is named.
//
// Takes: `text`, `length` bytes of UTF-8, without a zero byte at the end; the caller's, not kept. Writes: `nanometres`.
//
// Errors: `SHOPHEAD_ERROR_NOT_A_LENGTH`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_length_parse(const char *text, size_t length, int64_t *nanometres);

// Reads a length that may have a tolerance: `.032`, `.032+-.002`, `.125+.003-.001`.
//
// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `toleranced`.
//
// Errors: as `shophead_length_parse`.
shophead_error shophead_toleranced_parse(const char *text, size_t length, struct shophead_toleranced *toleranced);

// Prints a length.
//
// Takes: `nanometres`; `form`, one of `enum shophead_form`. Writes: the text into `buffer`, which has room for `capacity` bytes, with a
// zero byte after it; its length without the zero byte into `length`. Both are the caller's.
//
// Errors: `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_length_print(int64_t nanometres,
                                     uint32_t form,
                                     char *buffer,
                                     size_t capacity,
                                     size_t *length);

// Reads a force: `250`, `250lbf`, `1100 N`; pounds where no unit is named.
//
// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `lbf`, in pounds.
//
// Errors: `SHOPHEAD_ERROR_NOT_A_FORCE`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_force_parse(const char *text, size_t length, double *lbf);

// Pounds from newtons.
//
// Takes: `newtons`. Writes: `lbf`.
//
// Errors: `SHOPHEAD_ERROR_NOT_FINITE`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_force_from_newtons(double newtons, double *lbf);

// Newtons from pounds.
//
// Takes: `lbf`. Writes: `newtons`.
//
// Errors: as `shophead_force_from_newtons`.
shophead_error shophead_force_to_newtons(double lbf, double *newtons);

// Writes what a finding says: the same words as every other output of the project.
//
// Takes: `finding`, as one of the functions here wrote it; `units`, one of `enum shophead_units`; `saying`, one of
// `enum shophead_saying`. Writes: the words into `buffer`, which has room for `capacity` bytes, with a zero byte after them; their length
// without the zero byte into `length`. `SHOPHEAD_TEXT_MAX` bytes always suffice, but for the texts of a shop's own documents, which the words
// hold where a document is what is missing.
//
// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, also where the code is `SHOPHEAD_CODE_UNKNOWN`; `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_NOT_FINITE` and `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE` for a figure or a layer that no finding has; `SHOPHEAD_ERROR_NOT_UTF8`,
// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_finding_say(const struct shophead_finding *finding,
                                    uint32_t units,
                                    uint32_t saying,
                                    char *buffer,
                                    size_t capacity,
                                    size_t *length);

// Reads a sheet material: `2024-T3`, `clad 2024-T3`, `alclad 2024-T3`, `bare 7075-T6`.
//
// The number holds while the library is loaded and may be another in another version of it: keep the text, not the number.
//
// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `material`.
//
// Errors: `SHOPHEAD_ERROR_NOT_A_MATERIAL`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_material_parse(const char *text, size_t length, uint32_t *material);

// Prints a sheet material: `clad 2024-T3`.
//
// Takes: `material`, a number from `shophead_material_parse`; materials are numbered from 1 without a gap, so counting up until
// `SHOPHEAD_ERROR_UNKNOWN_NUMBER` lists them all. Writes: the text into `buffer`, which has room for `capacity` bytes, with a zero byte
// after it; its length without the zero byte into `length`. Both are the caller's.
//
// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_material_print(uint32_t material,
                                       char *buffer,
                                       size_t capacity,
                                       size_t *length);

// The design minimum tension strength of a sheet material in one thickness.
//
// Takes: `material`, a number from `shophead_material_parse`; `thickness_nm`. Writes: `tension`.
//
// Errors: `SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_material_tension(uint32_t material, int64_t thickness_nm, struct shophead_tension *tension);

// Reads a drill: `#30`, `No. 30`, `F`, `11/64`.
//
// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `drill`.
//
// Errors: `SHOPHEAD_ERROR_NOT_A_DRILL`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_drill_parse(const char *text, size_t length, struct shophead_drill *drill);

// The smallest drill that is not smaller than a diameter.
//
// Takes: `diameter_nm`. Writes: `drill`.
//
// Errors: `SHOPHEAD_ERROR_NO_SUCH_DRILL`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_drill_at_or_above(int64_t diameter_nm, struct shophead_drill *drill);

// The largest drill that is not larger than a diameter.
//
// Takes: `diameter_nm`. Writes: `drill`.
//
// Errors: as `shophead_drill_at_or_above`.
shophead_error shophead_drill_at_or_below(int64_t diameter_nm, struct shophead_drill *drill);

// Reads the width of a hole: a drill, or any length that `shophead_length_parse` reads. A bare `30` is a length.
//
// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `nanometres`.
//
// Errors: `SHOPHEAD_ERROR_NOT_A_HOLE`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_hole_parse(const char *text, size_t length, int64_t *nanometres);

// Reads a part number: `MS20470AD4-5`, `an470ad4-3.5`; without a length a family, `MS20470AD4`.
//
// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `part`; `warnings`, bits of `enum shophead_warning`.
//
// Errors: `SHOPHEAD_ERROR_NOT_A_PART` (`shophead_explain` says why, and what it may have meant), `SHOPHEAD_ERROR_NOT_UTF8`,
// `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_part_parse(const char *text, size_t length, struct shophead_part *part, uint32_t *warnings);

// Prints a part number as the standard in force writes it.
//
// Takes: `part`, the caller's. Writes: the number into `buffer`, which has room for `capacity` bytes, with a zero byte after it; its length
// without the zero byte into `length`. Both are the caller's.
//
// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER` and those named `SHOPHEAD_ERROR_PART_...` where there is no such rivet,
// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_part_print(const struct shophead_part *part,
                                   char *buffer,
                                   size_t capacity,
                                   size_t *length);

// The same rivet with another length.
//
// Takes: `part`, the caller's; `length_nm`, or `SHOPHEAD_NONE` for its family. Writes: `changed`.
//
// Errors: those named `SHOPHEAD_ERROR_PART_...` where the series has no such length; otherwise as `shophead_part_print`.
shophead_error shophead_part_with_length(const struct shophead_part *part, int64_t length_nm, struct shophead_part *changed);

// The dimensions of a rivet.
//
// Takes: `part`, the caller's; its length does not matter. Writes: `dimensions`.
//
// Errors: as `shophead_part_print`, but for the buffer.
shophead_error shophead_part_dimensions(const struct shophead_part *part, struct shophead_dimensions *dimensions);

// What a rivet's alloy asks for, whatever the pack: that it does not go into structure, or is heat treated before it is driven.
//
// Takes: `part`, the caller's; its length does not matter. Writes: `findings`, an array of the caller's with room for `capacity`
// (`SHOPHEAD_MAX_FINDINGS` always suffices); `span`, which of them.
//
// Errors: as `shophead_part_print`.
shophead_error shophead_part_check(const struct shophead_part *part, struct shophead_finding *findings, size_t capacity, struct shophead_span *span);

// Reads a key of a limits file: `series.NAS1241.head_height.4`, `material.A286.tension_ultimate`, `flush.MS20426AD4`, `limit.pitch-least`. A
// material that is not on file is one of a shop's own.
//
// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `key`, for `diameter_nm` of a `shophead_limit` by its key; the number
// holds while the library is loaded and may be another in another version of it.
//
// Errors: `SHOPHEAD_ERROR_NOT_A_KEY` (`shophead_explain` says why), `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`,
// `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_key_parse(const char *text,
                                  size_t length,
                                  int64_t *key);

// Prints a key as a limits file writes it.
//
// Takes: `key`, from `shophead_key_parse` or `whole` of a finding's limit. Writes: the text into `buffer`, which has room for `capacity` bytes,
// with a zero byte after it; its length without the zero byte into `length`. Both are the caller's.
//
// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_key_print(int64_t key,
                                  char *buffer,
                                  size_t capacity,
                                  size_t *length);

// Reads the value of a limit as a limits file writes it: `.163`, `1.5 D`, `2 D + 1/16`, `shank + .004`, `2/3`, `20 %`, `10`, `nearest`.
//
// Takes: `name`, one of `enum shophead_limit_name`; `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `value`.
//
// Errors: `SHOPHEAD_ERROR_NOT_A_VALUE`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_value_parse(uint32_t name,
                                    const char *text,
                                    size_t length,
                                    struct shophead_value *value);

// Prints the value of a limit as a limits file writes it.
//
// Takes: `name`, one of `enum shophead_limit_name`; `value`, the caller's. Writes: the text into `buffer`, which has room for `capacity`
// bytes, with a zero byte after it; its length without the zero byte into `length`. Both are the caller's.
//
// Errors: `SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT`, `SHOPHEAD_ERROR_NOT_A_VALUE`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`,
// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_value_print(uint32_t name,
                                    const struct shophead_value *value,
                                    char *buffer,
                                    size_t capacity,
                                    size_t *length);

// The limit of a practice that applies to a rivet in a pattern.
//
// Takes: `practice`; `name`, one of `enum shophead_limit_name`; `part`, whose length does not matter; `rows` of the pattern, 1 to 255.
// Practice and part are the caller's. Writes: `applies`.
//
// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, those of a shop's own limits, those of a part,
// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_practice_find(const struct shophead_practice *practice,
                                      uint32_t name,
                                      const struct shophead_part *part,
                                      uint32_t rows,
                                      struct shophead_applies *applies);

// The limit of a practice that applies to a rivet which took the place of a smaller one in its hole.
//
// Takes: as `shophead_practice_find`; `dimpled`, 1 where the sheets under a flush head are dimpled, otherwise 0. Writes: `applies`.
//
// Errors: as `shophead_practice_find`; `SHOPHEAD_ERROR_UNKNOWN_NUMBER` where `dimpled` is neither 0 nor 1.
shophead_error shophead_practice_find_after_step_up(const struct shophead_practice *practice,
                                                    uint32_t name,
                                                    const struct shophead_part *part,
                                                    uint32_t rows,
                                                    uint32_t dimpled,
                                                    struct shophead_applies *applies);

// The hole to count on where none was measured: as drilled with the practice's drill, at most at its limit; where the practice knows
// none, one as wide as the shank.
//
// Takes: `practice`; `part`, whose length does not matter; both the caller's. Writes: `hole`, with the least as the nominal one;
// `basis`, where it comes from.
//
// Errors: as `shophead_practice_find`.
shophead_error shophead_practice_hole(const struct shophead_practice *practice,
                                      const struct shophead_part *part,
                                      struct shophead_toleranced *hole,
                                      struct shophead_basis *basis);

// Why a text could not be read: what is wrong, mostly at which character, and what would be right. The text is read once more for it, so
// it can be called at any time, by any thread. Of a text that can be read there is nothing to say: the sentence is empty.
//
// Takes: `reading`, one of `enum shophead_reading`; `name`, one of `enum shophead_limit_name` with `SHOPHEAD_READING_VALUE`, otherwise 0;
// `text`, `text_length` bytes of UTF-8; the caller's, not kept. Writes: the sentence into `buffer`, which has room for `capacity` bytes
// (`SHOPHEAD_TEXT_MAX` always suffices), with a zero byte after it; its length without the zero byte into `length`. Both are the caller's.
//
// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_explain(uint32_t reading,
                                uint32_t name,
                                const char *text,
                                size_t text_length,
                                char *buffer,
                                size_t capacity,
                                size_t *length);

// Reads a list of layers, the side of the manufactured head first: `2024-T3:.032:countersunk, clad 2024-T3:.125+-.004, .005:sealant`.
// A layer may leave out its material.
//
// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `layers`, an array of the caller's with room for `capacity`
// (`SHOPHEAD_MAX_LAYERS` always suffices); `count`, how many of them.
//
// Errors: `SHOPHEAD_ERROR_NOT_LAYERS` (`shophead_explain` says which layer, and what is wrong with it), `SHOPHEAD_ERROR_NOT_UTF8`,
// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_layers_parse(const char *text,
                                     size_t length,
                                     struct shophead_layer *layers,
                                     size_t capacity,
                                     size_t *count);

// Reads a list of layers as `shophead_layers_parse`, whose materials may also be a shop's own: those that figures by their keys are of.
//
// Takes: as `shophead_layers_parse`; `practice`, the caller's: the numbers of the shop's own materials are good with this one. Writes: as
// `shophead_layers_parse`.
//
// Errors: as `shophead_layers_parse`; those of a practice.
shophead_error shophead_layers_parse_by(const char *text,
                                        size_t length,
                                        const struct shophead_practice *practice,
                                        struct shophead_layer *layers,
                                        size_t capacity,
                                        size_t *count);

// The thickness of a whole pack; tolerances add up.
//
// Takes: `layers`, an array of `count`, the caller's, the side of the manufactured head first. Writes: `grip`.
//
// Errors: those named `SHOPHEAD_ERROR_STACK_...`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_stack_grip(const struct shophead_layer *layers, size_t count, struct shophead_toleranced *grip);

// The limits of the driven head of a rivet.
//
// Takes: `part`, whose length does not matter; `practice`; both the caller's. Writes: `limits`.
//
// Errors: those of a part and of a practice, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_head_find_limits(const struct shophead_part *part, const struct shophead_practice *practice, struct shophead_head_limits *limits);

// Predicts the driven head that a rivet makes, by the balance of metal.
//
// Takes: `query`, the caller's, of which the part must have a length; `height_nm`, to which it is driven: the limit
// `height_target` of `shophead_head_find_limits`, or another. Writes: `predicted`.
//
// Errors: those named `SHOPHEAD_ERROR_FIT_...`, `SHOPHEAD_ERROR_PART_WITHOUT_LENGTH`; otherwise as `shophead_length_choose`.
shophead_error shophead_head_predict(const struct shophead_length_query *query, int64_t height_nm, struct shophead_predicted *predicted);

// Judges a driven head by its measures and by what was seen. A measure that was not taken rejects nothing; a finding says so.
//
// Takes: `measured`; `defects`, an array of `count`, at most `SHOPHEAD_MAX_DEFECTS`, NULL where there are none; `part`, whose length
// does not matter; `practice`; all the caller's. Writes: `judgement`; `findings`, an array of the caller's with room for `capacity`
// (`SHOPHEAD_MAX_FINDINGS` always suffices).
//
// Errors: those of a part and of a practice, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER`, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`,
// `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_head_judge(const struct shophead_measured *measured,
                                   const struct shophead_defect *defects,
                                   size_t count,
                                   const struct shophead_part *part,
                                   const struct shophead_practice *practice,
                                   struct shophead_judgement *judgement,
                                   struct shophead_finding *findings,
                                   size_t capacity);

// Chooses the diameter for a sheet: the smallest of the series that is not below the rule of thumb for the thickest sheet, nor below the
// least for structure.
//
// Takes: `part`, the caller's: its series and alloy; its diameter and length do not matter. `sheet_nm`, the thickest sheet; `practice`, the
// caller's. Writes: `choice`; `findings`, an array of the caller's with room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
//
// Errors: those of a part and of a practice; `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`,
// `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_diameter_choose(const struct shophead_part *part,
                                        int64_t sheet_nm,
                                        const struct shophead_practice *practice,
                                        struct shophead_diameter_choice *choice,
                                        struct shophead_finding *findings,
                                        size_t capacity);

// Chooses the length of a rivet: the published rule, checked against the volume of metal: too little in the worst case, too much at nominal
// sizes. That nothing fits is not an error but an answer. What to drive the head to says `shophead_head_window`, what else is within limits
// `shophead_length_serves`, and which length goes into which hole `shophead_length_by_hole`.
//
// Takes: `query`, the caller's. Writes: `choice`; `findings`, an array of the caller's with room for `capacity`
// (`SHOPHEAD_MAX_FINDINGS` always suffices).
//
// Errors: those named `SHOPHEAD_ERROR_FIT_...` for a size of zero or less, or out of order; those of a part and of a practice;
// `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`,
// `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_length_choose(const struct shophead_length_query *query,
                                      struct shophead_length_choice *choice,
                                      struct shophead_finding *findings,
                                      size_t capacity);

// Chooses the rivet for a pack, from texts: the whole question in one call, with every finding about this rivet in these layers. The hole is
// the practice's. Edge distance and pitch are not part of it: `shophead_row_check`.
//
// Takes: `part`, `part_length` bytes of UTF-8, such as `MS20470AD5`; a length in it does not matter. `layers`, `layers_length` bytes, as
// `shophead_layers_parse_by` reads them. `practice`. All are the caller's, not kept. Writes: `fitted`; `findings`, an array of the caller's with
// room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices). `shophead_finding_say` makes a sentence of each.
//
// Errors: `SHOPHEAD_ERROR_NOT_A_PART` and `SHOPHEAD_ERROR_NOT_LAYERS` (`shophead_explain` says why); those named `SHOPHEAD_ERROR_FIT_...`;
// those of a practice; `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_length_fit(const char *part,
                                   size_t part_length,
                                   const char *layers,
                                   size_t layers_length,
                                   const struct shophead_practice *practice,
                                   struct shophead_fitted *fitted,
                                   struct shophead_finding *findings,
                                   size_t capacity);

// Judges a length that somebody else chose: what `shophead_length_choose` would have avoided.
//
// Takes: `query`, the caller's; `length_nm`. Writes: `findings`, an array of the caller's with room for `capacity`; `span`, which of
// them. The length is good where none of them says refer.
//
// Errors: as `shophead_length_choose`.
shophead_error shophead_length_assess(const struct shophead_length_query *query,
                                      int64_t length_nm,
                                      struct shophead_finding *findings,
                                      size_t capacity,
                                      struct shophead_span *span);

// Chooses the length of a rivet as `shophead_length_choose`, through layers that are known: dimples count, and so does whatever else is
// found of the layers.
//
// Takes: `query`, of which the grip is not looked at; `layers`, an array of `layer_count`, the side of the manufactured head first; both the
// caller's. Writes: as `shophead_length_choose`.
//
// Errors: those named `SHOPHEAD_ERROR_STACK_...`; `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE` without layers; otherwise as `shophead_length_choose`.
shophead_error shophead_length_choose_through(const struct shophead_length_query *query,
                                              const struct shophead_layer *layers,
                                              size_t layer_count,
                                              struct shophead_length_choice *choice,
                                              struct shophead_finding *findings,
                                              size_t capacity);

// What to drive the head of a rivet to. Left at any height of the window, it is accepted.
//
// Takes: `query`, of which the part must have a length; `layers`, an array of `layer_count` that counts in place of the query's grip, or NULL
// and 0; both the caller's. Writes: `window`.
//
// Errors: `SHOPHEAD_ERROR_PART_WITHOUT_LENGTH`; those named `SHOPHEAD_ERROR_STACK_...`; otherwise as `shophead_length_choose`.
shophead_error shophead_head_window(const struct shophead_length_query *query,
                                    const struct shophead_layer *layers,
                                    size_t layer_count,
                                    struct shophead_window *window);

// Every standard length within limits but the one that `shophead_length_choose` takes, the shortest first; none where that takes none.
//
// Takes: `query`; `layers`, an array of `layer_count` that counts in place of the query's grip, or NULL and 0; both the caller's. Writes:
// `count`, how many there are; `servings`, an array of the caller's with room for `capacity` (`SHOPHEAD_MAX_SERVINGS` suffices for every
// built-in rivet and practice).
//
// Errors: `SHOPHEAD_ERROR_BUFFER_TOO_SMALL` where there are more than `capacity`; those named `SHOPHEAD_ERROR_STACK_...`; otherwise as
// `shophead_length_choose`.
shophead_error shophead_length_serves(const struct shophead_length_query *query,
                                      const struct shophead_layer *layers,
                                      size_t layer_count,
                                      struct shophead_serving *servings,
                                      size_t capacity,
                                      size_t *count);

// Which length goes into which hole, the smallest holes first, where no one length is within limits in all of them; nothing where one is.
//
// Takes: `query`; `layers`, an array of `layer_count` that counts in place of the query's grip, or NULL and 0; both the caller's. Writes:
// `count`, how many ranges there are; `ranges`, an array of the caller's with room for `capacity`
// (`SHOPHEAD_MAX_HOLE_RANGES` always suffices).
//
// Errors: as `shophead_length_serves`.
shophead_error shophead_length_by_hole(const struct shophead_length_query *query,
                                       const struct shophead_layer *layers,
                                       size_t layer_count,
                                       struct shophead_by_hole *ranges,
                                       size_t capacity,
                                       size_t *count);

// Checks a row's distances against a practice.
//
// Takes: `row`; `part`, whose length does not matter; `rows` of the pattern, 1 to 255; `practice`; structures are the caller's. Writes:
// `findings`, an array of the caller's with room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices); `span`, which of them.
//
// Errors: those of a part and of a practice, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_row_check(const struct shophead_row *row,
                                  const struct shophead_part *part,
                                  uint32_t rows,
                                  const struct shophead_practice *practice,
                                  struct shophead_finding *findings,
                                  size_t capacity,
                                  struct shophead_span *span);

// Checks a pattern of points against a practice: the closest pair against the least pitch, the point closest to an edge against the
// least edge distance.
//
// Takes: `points`, an array of `point_count`; `edges`, an array of `edge_count`; NULL where there are none; `part`, whose length does not
// matter; `rows` of the pattern, 1 to 255; `practice`; all the caller's. `room`, an array of `room_count`, is the caller's to work in:
// one for each point and each edge suffice; what stands in it before and after does not matter. Writes: `pattern`; `findings`, an array
// of the caller's with room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
//
// Errors: as `shophead_row_check`.
shophead_error shophead_points_check(const struct shophead_point *points,
                                     size_t point_count,
                                     const struct shophead_edge *edges,
                                     size_t edge_count,
                                     const struct shophead_part *part,
                                     uint32_t rows,
                                     const struct shophead_practice *practice,
                                     struct shophead_room *room,
                                     size_t room_count,
                                     struct shophead_pattern *pattern,
                                     struct shophead_finding *findings,
                                     size_t capacity);

// The margin of an allowable over a load.
//
// Takes: `allowable_lbf`; `load`, the caller's, of a kind other than none. Writes: `margin`.
//
// Errors: those named `SHOPHEAD_ERROR_MARGIN_...`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NOT_FINITE`, `SHOPHEAD_ERROR_NULL`,
// `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_margin_find(double allowable_lbf,
                                    const struct shophead_load *load,
                                    struct shophead_margin *margin);

// What one rivet carries through its layers, and what fails first. What is a joint, but one whose strength is not published, is no
// error: it has a finding that says refer and no allowable.
//
// Takes: `joint`, the caller's. Writes: `strength`; `sheets`, an array of the caller's with room for `sheet_capacity`
// (`SHOPHEAD_MAX_LAYERS` always suffices); `findings`, an array of the caller's with room for `finding_capacity`
// (`SHOPHEAD_MAX_FINDINGS` always suffices).
//
// Errors: those named `SHOPHEAD_ERROR_JOINT_...`, `SHOPHEAD_ERROR_STACK_...` and `SHOPHEAD_ERROR_MARGIN_...`; those of a part;
// `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NOT_FINITE`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`,
// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_strength_find(const struct shophead_joint *joint,
                                      struct shophead_strength *strength,
                                      struct shophead_sheet *sheets,
                                      size_t sheet_capacity,
                                      struct shophead_finding *findings,
                                      size_t finding_capacity);

// What one rivet carries through its layers, as `shophead_strength_find`, with what a shop entered: its materials, strengths, rivets and
// tested joints.
//
// Takes: as `shophead_strength_find`; `practice`, the caller's. Writes: as `shophead_strength_find`.
//
// Errors: as `shophead_strength_find`; those of a practice.
shophead_error shophead_strength_find_by(const struct shophead_joint *joint,
                                         const struct shophead_practice *practice,
                                         struct shophead_strength *strength,
                                         struct shophead_sheet *sheets,
                                         size_t sheet_capacity,
                                         struct shophead_finding *findings,
                                         size_t finding_capacity);

// Which table names a material.
//
// Takes: `material`, a number from `shophead_material_parse`. Writes: `tables`.
//
// Errors: `SHOPHEAD_ERROR_NO_SPLICE_TABLE`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NULL`.
shophead_error shophead_splice_tables(uint32_t material, struct shophead_tables *tables);

// Rivets an inch of width by a published table.
//
// Takes: `table`, one of `enum shophead_table`; `thickness_nm` of the sheet; `part`, the caller's, whose length does not matter. Writes:
// `per_inch`.
//
// Errors: `SHOPHEAD_ERROR_TABLE_NOT_FOR_RIVET`: the tables are for 2117 rivets with protruding heads; those named
// `SHOPHEAD_ERROR_SPLICE_...`; those of a part; `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_splice_per_inch(uint32_t table,
                                        int64_t thickness_nm,
                                        const struct shophead_part *part,
                                        struct shophead_per_inch *per_inch);

// Whole rivets over a width, reduced and rounded as the notes and examples of the tables do for the member.
//
// Takes: `per_inch`, the count to use from `shophead_splice_per_inch`; `width_nm`; `member`, one of `enum shophead_splice_member`.
// Writes: `count`.
//
// Errors: those named `SHOPHEAD_ERROR_SPLICE_...`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NOT_FINITE`,
// `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_splice_count(double per_inch,
                                     int64_t width_nm,
                                     uint32_t member,
                                     struct shophead_count *count);

// Rivets that carry as much as the sheet: `stress × thickness × width / what one rivet carries`.
//
// Takes: `stress_psi`, from `shophead_material_tension` or what the splice is designed for; `thickness_nm`; `width_nm`; `per_rivet_lbf`,
// the allowable from `shophead_strength_find`. Writes: `needed`.
//
// Errors: those named `SHOPHEAD_ERROR_SPLICE_...`, `SHOPHEAD_ERROR_NOT_FINITE`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_splice_needed(double stress_psi,
                                      int64_t thickness_nm,
                                      int64_t width_nm,
                                      double per_rivet_lbf,
                                      struct shophead_needed *needed);

// Lays rivets out in equal rows across a width.
//
// Takes: `rivets`; `rows`, 1 to 65535; `width_nm`. Writes: `laid`.
//
// Errors: those named `SHOPHEAD_ERROR_SPLICE_...`, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_splice_lay(uint32_t rivets, uint32_t rows, int64_t width_nm, struct shophead_laid *laid);

// How a load in its plane divides over a group of rivets, by the elastic vector method.
//
// Takes: `rivets`, an array of `count`; `load`; both the caller's. `room`, an array of `room_count`, is the caller's to work in:
// `SHOPHEAD_ROOM_PER_RIVET` for each rivet suffice; what stands in it before and after does not matter. Writes: `group`; `shares`, an
// array of the caller's with room for `share_capacity`, one for each rivet in the order given; `findings`, an array of the caller's with
// room for `finding_capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
//
// Errors: those named `SHOPHEAD_ERROR_GROUP_...` and `SHOPHEAD_ERROR_MARGIN_...`, `SHOPHEAD_ERROR_NOT_FINITE`,
// `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`,
// `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_group_share(const struct shophead_rivet *rivets,
                                    size_t count,
                                    const struct shophead_plane_load *load,
                                    struct shophead_room *room,
                                    size_t room_count,
                                    struct shophead_group *group,
                                    struct shophead_share *shares,
                                    size_t share_capacity,
                                    struct shophead_finding *findings,
                                    size_t finding_capacity);

// Which rivet of a group yields first under the limit load, by the elastic vector method.
//
// Takes: `rivets`, an array of `count`; `load`; both the caller's. `room`, an array of `room_count`, is the caller's to work in:
// `SHOPHEAD_ROOM_PER_RIVET` for each rivet suffice; what stands in it before and after does not matter. Writes: `yielded`; `findings`, an
// array of the caller's with room for `finding_capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
//
// Errors: as `shophead_group_share`.
shophead_error shophead_group_yield(const struct shophead_yielding *rivets,
                                    size_t count,
                                    const struct shophead_plane_load *load,
                                    struct shophead_room *room,
                                    size_t room_count,
                                    struct shophead_yielded *yielded,
                                    struct shophead_finding *findings,
                                    size_t finding_capacity);

// Judges a hole: climbs from the least change until a step does.
//
// Takes: `query` and `found`, the caller's. Writes: `judgement`; `steps`, an array of the caller's with room for `step_capacity`
// (`SHOPHEAD_MAX_STEPS` always suffices); `findings`, an array of the caller's with room for `finding_capacity`
// (`SHOPHEAD_MAX_HOLE_FINDINGS` always suffices).
//
// Errors: those named `SHOPHEAD_ERROR_HOLE_...` and `SHOPHEAD_ERROR_STACK_...`; those of a part and of a practice;
// `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_hole_judge(const struct shophead_hole_query *query,
                                   const struct shophead_hole *found,
                                   struct shophead_hole_judgement *judgement,
                                   struct shophead_step *steps,
                                   size_t step_capacity,
                                   struct shophead_finding *findings,
                                   size_t finding_capacity);

// Judges a hole of which more may be said: measured one way only, which way it is worn, opened before it was measured.
//
// Takes: `query` and `found`, the caller's. Writes: `judgement`; `steps`, an array of the caller's with room for `step_capacity`
// (`SHOPHEAD_MAX_STEPS` always suffices); `findings`, an array of the caller's with room for `finding_capacity`
// (`SHOPHEAD_MAX_HOLE_FINDINGS` always suffices).
//
// Errors: as `shophead_hole_judge`.
shophead_error shophead_found_hole_judge(const struct shophead_hole_query *query,
                                         const struct shophead_found_hole *found,
                                         struct shophead_hole_judgement *judgement,
                                         struct shophead_step *steps,
                                         size_t step_capacity,
                                         struct shophead_finding *findings,
                                         size_t finding_capacity);

// Finds the force that squeezes a driven head.
//
// Takes: `part`, the caller's; its length does not matter; `head_nm`, how wide the driven head is to be. Writes: `force`; `findings`, an
// array of the caller's with room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
//
// Errors: `SHOPHEAD_ERROR_NO_SQUEEZE_TESTS`, `SHOPHEAD_ERROR_SQUEEZE_HEAD`; those of a part; `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
shophead_error shophead_squeeze_find(const struct shophead_part *part,
                                     int64_t head_nm,
                                     struct shophead_squeeze *force,
                                     struct shophead_finding *findings,
                                     size_t capacity);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* SHOPHEAD_H */
