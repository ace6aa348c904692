// Everything wrong that can be handed over, one thing at a time: every pointer NULL and misaligned, every enumeration out of its list, every
// length and number out of range, every buffer too short, every text not UTF-8. Each must be refused with its own error, and no output may
// have been touched. `errors list` prints the functions that are tried, for the test that none is forgotten.
//
// Compiled as C11 and as C++17.
#include "show.h"

#include <math.h>

// All inputs, right as they stand; one thing is spoilt at a time.
static struct {
    struct shophead_part part;
    struct shophead_part made;
    struct shophead_length_query query;
    struct shophead_limit limit;
    struct shophead_practice practice;
    struct shophead_layer layers[3];
    size_t layer_capacity;
    struct shophead_measured measured;
    struct shophead_defect defects[2];
    struct shophead_hole_query hole_query;
    struct shophead_hole hole;
    struct shophead_found_hole found_hole;
    struct shophead_row row;
    struct shophead_point points[4];
    struct shophead_edge edges[2];
    struct shophead_joint joint;
    struct shophead_load load;
    struct shophead_rivet rivets[4];
    struct shophead_yielding yieldings[4];
    struct shophead_plane_load plane_load;
    struct shophead_value value;
    struct shophead_finding finding;
    uint32_t saying;
    const char *text;
    size_t text_length;
    int64_t nm;
    double number;
    double other_number;
    uint32_t listed;
    uint32_t material;
    uint32_t rows;
    size_t count;
    size_t text_capacity;
    size_t finding_capacity;
    size_t step_capacity;
    size_t sheet_capacity;
    size_t share_capacity;
    size_t serving_capacity;
    size_t range_capacity;
    size_t layer_count;
    size_t room_count;
} in;

// All outputs, watched for writes.
static struct {
    char text[SHOPHEAD_TEXT_MAX];
    size_t length;
    struct shophead_text word;
    uint32_t number;
    int64_t nm;
    double real;
    struct shophead_toleranced toleranced;
    struct shophead_basis basis;
    struct shophead_drill drill;
    struct shophead_part part;
    struct shophead_layer layers[SHOPHEAD_MAX_LAYERS];
    struct shophead_fitted fitted;
    struct shophead_diameter_choice diameter;
    struct shophead_squeeze squeeze;
    struct shophead_dimensions dimensions;
    struct shophead_tension tension;
    struct shophead_value value;
    struct shophead_applies applies;
    struct shophead_length_choice choice;
    struct shophead_head_limits limits;
    struct shophead_predicted predicted;
    struct shophead_window window;
    struct shophead_serving servings[SHOPHEAD_MAX_SERVINGS];
    struct shophead_by_hole ranges[SHOPHEAD_MAX_HOLE_RANGES];
    struct shophead_judgement judgement;
    struct shophead_hole_judgement hole_judgement;
    struct shophead_step steps[SHOPHEAD_MAX_STEPS];
    struct shophead_pattern pattern;
    struct shophead_margin margin;
    struct shophead_strength strength;
    struct shophead_sheet sheets[SHOPHEAD_MAX_LAYERS];
    struct shophead_tables tables;
    struct shophead_per_inch per_inch;
    struct shophead_count count;
    struct shophead_needed needed;
    struct shophead_laid laid;
    struct shophead_group group;
    struct shophead_share shares[4];
    struct shophead_yielded yielded;
    struct shophead_finding findings[SHOPHEAD_MAX_HOLE_FINDINGS];
    struct shophead_span span;
} out;

static struct shophead_room room[16];

static int failures = 0;

static void set_up(void) {
    uint32_t warnings;
    struct shophead_basis basis;
    memset(&in, 0, sizeof in);
    shophead_part_parse("MS20470AD4", 10, &in.part, &warnings);
    shophead_part_parse("MS20470AD4-6", 12, &in.made, &warnings);
    in.limit.name = SHOPHEAD_LIMIT_EDGE_DISTANCE_LEAST;
    in.limit.head = SHOPHEAD_HEAD_SCOPE_PROTRUDING;
    in.limit.alloy = SHOPHEAD_ALLOY_2117;
    in.limit.rows = 1;
    in.limit.diameter_nm = 3175000;
    in.limit.value.kind = SHOPHEAD_VALUE_DIAMETERS;
    in.limit.value.num = 5;
    in.limit.value.den = 2;
    in.limit.document = text_of("manual");
    in.limit.place = text_of("section 4");
    in.finding.code = SHOPHEAD_CODE_NO_LIMIT;
    in.finding.severity = SHOPHEAD_SEVERITY_REFER;
    in.finding.layer = 1;
    in.finding.measured.kind = SHOPHEAD_FIGURE_LENGTH;
    in.finding.measured.whole = 3175000;
    in.finding.limit.kind = SHOPHEAD_FIGURE_RATIO;
    in.finding.limit.number = 1.5;
    in.finding.basis.document = text_of("manual");
    in.finding.basis.place = text_of("section 4");
    in.finding.basis.status = SHOPHEAD_STATUS_SHOP;
    in.saying = SHOPHEAD_SAYING_SENTENCE;
    in.practice.built_in = SHOPHEAD_BUILT_IN_HANDBOOK;
    in.practice.own = &in.limit;
    in.practice.own_count = 1;
    in.query.part = in.made;
    in.query.grip.min_nm = in.query.grip.nominal_nm = in.query.grip.max_nm = 5588000;
    shophead_practice_hole(&in.practice, &in.part, &in.query.hole, &basis);
    in.query.practice = in.practice;
    for (size_t index = 0; index < 3; index++) {
        struct shophead_toleranced thickness = {1000000, 1016000, 1032000};
        in.layers[index].thickness = thickness;
        shophead_material_parse("2024-T3", 7, &in.layers[index].material);
        in.layers[index].role = SHOPHEAD_ROLE_SKIN;
        in.layers[index].preparation = SHOPHEAD_PREPARATION_PLAIN;
    }
    in.measured.diameter.min_nm = in.measured.diameter.max_nm = 3810000;
    in.measured.height.min_nm = in.measured.height.max_nm = 1587500;
    in.defects[0].kind = SHOPHEAD_DEFECT_CRACKS;
    in.defects[0].nm = 3000000;
    in.defects[1].kind = SHOPHEAD_DEFECT_TOOL_MARK;
    in.defects[1].nm = 3000000;
    in.defects[1].head_height_nm = 1000000;
    in.hole_query.part = in.part;
    in.hole_query.layers = in.layers;
    in.hole_query.layer_count = 3;
    in.hole_query.edge_nm = 9525000;
    in.hole_query.pitch_nm = 19050000;
    in.hole_query.transverse_pitch_nm = 19050000;
    in.hole_query.rows = 1;
    in.hole_query.member = SHOPHEAD_MEMBER_SKIN;
    in.hole_query.practice = in.practice;
    in.hole.major_nm = 3600000;
    in.hole.minor_nm = 3300000;
    in.hole.damage = SHOPHEAD_DAMAGE_SOUND;
    in.found_hole.major_nm = in.hole.major_nm;
    in.found_hole.minor_nm = in.hole.minor_nm;
    in.found_hole.damage = in.hole.damage;
    in.found_hole.direction = SHOPHEAD_DIRECTION_ALONG;
    in.row.edge_nm = 3000000;
    in.row.pitch_nm = 3000000;
    in.row.transverse_pitch_nm = 3000000;
    for (int index = 0; index < 4; index++) {
        in.points[index].x_nm = index * 3000000;
        in.points[index].y_nm = index * index * 1000000;
        in.rivets[index].at = in.points[index];
        in.rivets[index].weight = 1.0;
        in.rivets[index].allowable_known = 1;
        in.rivets[index].allowable_lbf = 1.0;
        in.rivets[index].status = SHOPHEAD_STATUS_SHOP;
        in.rivets[index].document = text_of("manual");
        in.yieldings[index].rivet = in.rivets[index];
        in.yieldings[index].yield_known = 1;
        in.yieldings[index].yield_lbf = 1.0;
    }
    in.edges[0].to.x_nm = 50000000;
    in.edges[1].to.y_nm = 50000000;
    in.joint.part = in.part;
    in.joint.layers = in.layers;
    in.joint.layer_count = 3;
    in.joint.edge_nm = 9525000;
    in.joint.hole_nm = 3263900;
    in.joint.pitch_nm = 19050000;
    in.joint.shear = SHOPHEAD_SHEAR_DOUBLE;
    in.load.kind = SHOPHEAD_LOAD_LIMIT;
    in.load.factors = SHOPHEAD_FACTORS_FITTING;
    in.load.lbf = 900.0;
    in.joint.load = in.load;
    in.plane_load.x_lbf = 100.0;
    in.plane_load.at.y_nm = 50000000;
    in.plane_load.kind = SHOPHEAD_LOAD_ULTIMATE;
    in.plane_load.factors = SHOPHEAD_FACTORS_SEAM;
    in.value = in.limit.value;
    in.text = "1/8";
    in.text_length = 3;
    in.nm = 3175000;
    in.number = 388.0;
    in.other_number = 75000.0;
    in.listed = 1;
    in.material = in.layers[0].material;
    in.rows = 1;
    in.count = 4;
    in.text_capacity = SHOPHEAD_TEXT_MAX;
    in.finding_capacity = SHOPHEAD_MAX_HOLE_FINDINGS;
    in.step_capacity = SHOPHEAD_MAX_STEPS;
    in.sheet_capacity = SHOPHEAD_MAX_LAYERS;
    in.layer_capacity = SHOPHEAD_MAX_LAYERS;
    in.share_capacity = 4;
    in.serving_capacity = SHOPHEAD_MAX_SERVINGS;
    in.range_capacity = SHOPHEAD_MAX_HOLE_RANGES;
    in.layer_count = 3;
    in.room_count = 16;
    memset(&out, 0xa5, sizeof out);
}

static int touched(void) {
    const unsigned char *bytes = (const unsigned char *)&out;
    for (size_t index = 0; index < sizeof out; index++) {
        if (bytes[index] != 0xa5) {
            return 1;
        }
    }
    return 0;
}

// The layers as a text beside that of the rivet.
static char in_layers[] = "2024-T3:.064,2024-T3:.125";

// One function: its name, how it is called with pointers from a list, and the right pointers with what they must be aligned to.
enum { MOST_POINTERS = 8 };
struct pointer {
    void *right;
    size_t alignment;
};
struct function {
    const char *name;
    shophead_error (*call)(void *const *pointers);
    struct pointer pointers[MOST_POINTERS];
};

#define CALL(function, ...) \
    static shophead_error call_##function(void *const *p) { return shophead_##function(__VA_ARGS__); }
#define IN(type, index) (const struct shophead_##type *)p[index]
#define OUT(type, index) (struct shophead_##type *)p[index]
#define TEXT_IN(index) (const char *)p[index], in.text_length
#define TEXT_OUT(index) (char *)p[index], in.text_capacity, (size_t *)p[index + 1]
#define FINDINGS(index) OUT(finding, index), in.finding_capacity

CALL(error_message, SHOPHEAD_ERROR_NULL, TEXT_OUT(0))
CALL(explain, SHOPHEAD_READING_PART, 0, TEXT_IN(0), TEXT_OUT(1))
CALL(finding_say, IN(finding, 0), in.listed, in.saying, TEXT_OUT(1))
CALL(word, in.listed, SHOPHEAD_SEVERITY_REFER, OUT(text, 0))
CALL(number, in.listed, TEXT_IN(0), (uint32_t *)p[1])
CALL(length_parse, TEXT_IN(0), (int64_t *)p[1])
CALL(toleranced_parse, TEXT_IN(0), OUT(toleranced, 1))
CALL(length_print, in.nm, in.listed, TEXT_OUT(0))
CALL(force_parse, TEXT_IN(0), (double *)p[1])
CALL(force_from_newtons, in.number, (double *)p[0])
CALL(force_to_newtons, in.number, (double *)p[0])
CALL(material_parse, TEXT_IN(0), (uint32_t *)p[1])
CALL(material_print, in.material, TEXT_OUT(0))
CALL(material_tension, in.material, in.nm, OUT(tension, 0))
CALL(drill_parse, TEXT_IN(0), OUT(drill, 1))
CALL(drill_at_or_above, in.nm, OUT(drill, 0))
CALL(drill_at_or_below, in.nm, OUT(drill, 0))
CALL(hole_parse, TEXT_IN(0), (int64_t *)p[1])
CALL(part_parse, TEXT_IN(0), OUT(part, 1), (uint32_t *)p[2])
CALL(part_print, IN(part, 0), TEXT_OUT(1))
CALL(part_with_length, IN(part, 0), in.nm, OUT(part, 1))
CALL(part_dimensions, IN(part, 0), OUT(dimensions, 1))
CALL(part_check, IN(part, 0), FINDINGS(1), OUT(span, 2))
CALL(value_parse, in.listed, TEXT_IN(0), OUT(value, 1))
CALL(value_print, in.listed, IN(value, 0), TEXT_OUT(1))
CALL(practice_find, IN(practice, 0), in.listed, IN(part, 1), in.rows, OUT(applies, 2))
CALL(practice_find_after_step_up, IN(practice, 0), in.listed, IN(part, 1), in.rows, 0, OUT(applies, 2))
CALL(practice_hole, IN(practice, 0), IN(part, 1), OUT(toleranced, 2), OUT(basis, 3))
CALL(layers_parse, TEXT_IN(0), OUT(layer, 1), in.layer_capacity, (size_t *)p[2])
CALL(layers_parse_by, TEXT_IN(0), IN(practice, 1), OUT(layer, 2), in.layer_capacity, (size_t *)p[3])
CALL(key_parse, TEXT_IN(0), (int64_t *)p[1])
CALL(key_print, in.nm, TEXT_OUT(0))
CALL(stack_grip, IN(layer, 0), 3, OUT(toleranced, 1))
CALL(head_find_limits, IN(part, 0), IN(practice, 1), OUT(head_limits, 2))
CALL(head_predict, IN(length_query, 0), in.nm, OUT(predicted, 1))
CALL(head_judge, IN(measured, 0), IN(defect, 1), 2, IN(part, 2), IN(practice, 3), OUT(judgement, 4), FINDINGS(5))
CALL(length_choose, IN(length_query, 0), OUT(length_choice, 1), FINDINGS(2))
CALL(length_fit, TEXT_IN(0), (const char *)p[1], sizeof in_layers - 1, IN(practice, 2), OUT(fitted, 3), FINDINGS(4))
CALL(diameter_choose, IN(part, 0), in.nm, IN(practice, 1), OUT(diameter_choice, 2), FINDINGS(3))
CALL(squeeze_find, IN(part, 0), in.nm, OUT(squeeze, 1), FINDINGS(2))
CALL(length_assess, IN(length_query, 0), in.nm, FINDINGS(1), OUT(span, 2))
CALL(length_choose_through, IN(length_query, 0), IN(layer, 1), in.layer_count, OUT(length_choice, 2), FINDINGS(3))
CALL(length_serves, IN(length_query, 0), IN(layer, 1), in.layer_count, OUT(serving, 2), in.serving_capacity, (size_t *)p[3])
CALL(length_by_hole, IN(length_query, 0), IN(layer, 1), in.layer_count, OUT(by_hole, 2), in.range_capacity, (size_t *)p[3])
CALL(head_window, IN(length_query, 0), IN(layer, 1), in.layer_count, OUT(window, 2))
CALL(row_check, IN(row, 0), IN(part, 1), in.rows, IN(practice, 2), FINDINGS(3), OUT(span, 4))
CALL(points_check, IN(point, 0), in.count, IN(edge, 1), 2, IN(part, 2), in.rows, IN(practice, 3), OUT(room, 4), in.room_count,
     OUT(pattern, 5), FINDINGS(6))
CALL(margin_find, in.number, IN(load, 0), OUT(margin, 1))
CALL(strength_find, IN(joint, 0), OUT(strength, 1), OUT(sheet, 2), in.sheet_capacity, FINDINGS(3))
CALL(strength_find_by, IN(joint, 0), IN(practice, 1), OUT(strength, 2), OUT(sheet, 3), in.sheet_capacity, FINDINGS(4))
CALL(splice_tables, in.material, OUT(tables, 0))
CALL(splice_per_inch, in.listed, in.nm, IN(part, 0), OUT(per_inch, 1))
CALL(splice_count, in.number, in.nm, in.listed, OUT(count, 0))
CALL(splice_needed, in.other_number, in.nm, in.nm, in.number, OUT(needed, 0))
CALL(splice_lay, 37, in.rows, in.nm, OUT(laid, 0))
CALL(group_share, IN(rivet, 0), in.count, IN(plane_load, 1), OUT(room, 2), in.room_count, OUT(group, 3), OUT(share, 4),
     in.share_capacity, FINDINGS(5))
CALL(group_yield, IN(yielding, 0), in.count, IN(plane_load, 1), OUT(room, 2), in.room_count, OUT(yielded, 3), FINDINGS(4))
CALL(hole_judge, IN(hole_query, 0), IN(hole, 1), OUT(hole_judgement, 2), OUT(step, 3), in.step_capacity, FINDINGS(4))
CALL(found_hole_judge, IN(hole_query, 0), IN(found_hole, 1), OUT(hole_judgement, 2), OUT(step, 3), in.step_capacity, FINDINGS(4))

#ifdef __cplusplus
#define ALIGNED(place) {&(place), alignof(decltype(place))}
#else
#define ALIGNED(place) {&(place), _Alignof(__typeof__(place))}
#endif
#define TEXT {in_text, 1}
#define PRINTED {out.text, 1}, ALIGNED(out.length)
#define FOUND ALIGNED(out.findings[0])

// A text with room for a misaligned copy; the functions read it through `in.text_length`.
static char in_text[64];

static const struct function functions[] = {
    {"error_message", call_error_message, {PRINTED}},
    {"explain", call_explain, {TEXT, PRINTED}},
    {"finding_say", call_finding_say, {ALIGNED(in.finding), PRINTED}},
    {"word", call_word, {ALIGNED(out.word)}},
    {"number", call_number, {TEXT, ALIGNED(out.number)}},
    {"length_parse", call_length_parse, {TEXT, ALIGNED(out.nm)}},
    {"toleranced_parse", call_toleranced_parse, {TEXT, ALIGNED(out.toleranced)}},
    {"length_print", call_length_print, {PRINTED}},
    {"force_parse", call_force_parse, {TEXT, ALIGNED(out.real)}},
    {"force_from_newtons", call_force_from_newtons, {ALIGNED(out.real)}},
    {"force_to_newtons", call_force_to_newtons, {ALIGNED(out.real)}},
    {"material_parse", call_material_parse, {TEXT, ALIGNED(out.number)}},
    {"material_print", call_material_print, {PRINTED}},
    {"material_tension", call_material_tension, {ALIGNED(out.tension)}},
    {"drill_parse", call_drill_parse, {TEXT, ALIGNED(out.drill)}},
    {"drill_at_or_above", call_drill_at_or_above, {ALIGNED(out.drill)}},
    {"drill_at_or_below", call_drill_at_or_below, {ALIGNED(out.drill)}},
    {"hole_parse", call_hole_parse, {TEXT, ALIGNED(out.nm)}},
    {"part_parse", call_part_parse, {TEXT, ALIGNED(out.part), ALIGNED(out.number)}},
    {"part_print", call_part_print, {ALIGNED(in.part), PRINTED}},
    {"part_with_length", call_part_with_length, {ALIGNED(in.part), ALIGNED(out.part)}},
    {"part_dimensions", call_part_dimensions, {ALIGNED(in.part), ALIGNED(out.dimensions)}},
    {"part_check", call_part_check, {ALIGNED(in.part), FOUND, ALIGNED(out.span)}},
    {"value_parse", call_value_parse, {TEXT, ALIGNED(out.value)}},
    {"value_print", call_value_print, {ALIGNED(in.value), PRINTED}},
    {"practice_find", call_practice_find, {ALIGNED(in.practice), ALIGNED(in.part), ALIGNED(out.applies)}},
    {"practice_find_after_step_up", call_practice_find_after_step_up, {ALIGNED(in.practice), ALIGNED(in.part), ALIGNED(out.applies)}},
    {"practice_hole", call_practice_hole, {ALIGNED(in.practice), ALIGNED(in.part), ALIGNED(out.toleranced), ALIGNED(out.basis)}},
    {"layers_parse", call_layers_parse, {TEXT, ALIGNED(out.layers[0]), ALIGNED(out.length)}},
    {"layers_parse_by", call_layers_parse_by, {TEXT, ALIGNED(in.practice), ALIGNED(out.layers[0]), ALIGNED(out.length)}},
    {"key_parse", call_key_parse, {TEXT, ALIGNED(out.nm)}},
    {"key_print", call_key_print, {PRINTED}},
    {"stack_grip", call_stack_grip, {ALIGNED(in.layers[0]), ALIGNED(out.toleranced)}},
    {"head_find_limits", call_head_find_limits, {ALIGNED(in.part), ALIGNED(in.practice), ALIGNED(out.limits)}},
    {"head_predict", call_head_predict, {ALIGNED(in.query), ALIGNED(out.predicted)}},
    {"head_judge",
     call_head_judge,
     {ALIGNED(in.measured), ALIGNED(in.defects[0]), ALIGNED(in.part), ALIGNED(in.practice), ALIGNED(out.judgement), FOUND}},
    {"length_choose", call_length_choose, {ALIGNED(in.query), ALIGNED(out.choice), FOUND}},
    {"length_fit", call_length_fit, {TEXT, {in_layers, 1}, ALIGNED(in.practice), ALIGNED(out.fitted), FOUND}},
    {"diameter_choose", call_diameter_choose, {ALIGNED(in.part), ALIGNED(in.practice), ALIGNED(out.diameter), FOUND}},
    {"squeeze_find", call_squeeze_find, {ALIGNED(in.part), ALIGNED(out.squeeze), FOUND}},
    {"length_assess", call_length_assess, {ALIGNED(in.query), FOUND, ALIGNED(out.span)}},
    {"length_choose_through",
     call_length_choose_through,
     {ALIGNED(in.query), ALIGNED(in.layers[0]), ALIGNED(out.choice), FOUND}},
    {"length_serves",
     call_length_serves,
     {ALIGNED(in.query), ALIGNED(in.layers[0]), ALIGNED(out.servings[0]), ALIGNED(out.length)}},
    {"length_by_hole",
     call_length_by_hole,
     {ALIGNED(in.query), ALIGNED(in.layers[0]), ALIGNED(out.ranges[0]), ALIGNED(out.length)}},
    {"head_window", call_head_window, {ALIGNED(in.query), ALIGNED(in.layers[0]), ALIGNED(out.window)}},
    {"row_check", call_row_check, {ALIGNED(in.row), ALIGNED(in.part), ALIGNED(in.practice), FOUND, ALIGNED(out.span)}},
    {"points_check",
     call_points_check,
     {ALIGNED(in.points[0]), ALIGNED(in.edges[0]), ALIGNED(in.part), ALIGNED(in.practice), ALIGNED(room[0]),
      ALIGNED(out.pattern), FOUND}},
    {"margin_find", call_margin_find, {ALIGNED(in.load), ALIGNED(out.margin)}},
    {"strength_find", call_strength_find, {ALIGNED(in.joint), ALIGNED(out.strength), ALIGNED(out.sheets[0]), FOUND}},
    {"strength_find_by",
     call_strength_find_by,
     {ALIGNED(in.joint), ALIGNED(in.practice), ALIGNED(out.strength), ALIGNED(out.sheets[0]), FOUND}},
    {"splice_tables", call_splice_tables, {ALIGNED(out.tables)}},
    {"splice_per_inch", call_splice_per_inch, {ALIGNED(in.part), ALIGNED(out.per_inch)}},
    {"splice_count", call_splice_count, {ALIGNED(out.count)}},
    {"splice_needed", call_splice_needed, {ALIGNED(out.needed)}},
    {"splice_lay", call_splice_lay, {ALIGNED(out.laid)}},
    {"group_share",
     call_group_share,
     {ALIGNED(in.rivets[0]), ALIGNED(in.plane_load), ALIGNED(room[0]), ALIGNED(out.group), ALIGNED(out.shares[0]), FOUND}},
    {"group_yield",
     call_group_yield,
     {ALIGNED(in.yieldings[0]), ALIGNED(in.plane_load), ALIGNED(room[0]), ALIGNED(out.yielded), FOUND}},
    {"hole_judge",
     call_hole_judge,
     {ALIGNED(in.hole_query), ALIGNED(in.hole), ALIGNED(out.hole_judgement), ALIGNED(out.steps[0]), FOUND}},
    {"found_hole_judge",
     call_found_hole_judge,
     {ALIGNED(in.hole_query), ALIGNED(in.found_hole), ALIGNED(out.hole_judgement), ALIGNED(out.steps[0]), FOUND}},
};
enum { FUNCTIONS = sizeof functions / sizeof functions[0] };

// A text that the function reads.
static void give_text(const char *name) {
    const char *text = "1/8";
    if (strcmp(name, "explain") == 0) text = "MS20470AD7-5";
    else if (strcmp(name, "number") == 0) text = "refer";
    else if (strcmp(name, "material_parse") == 0) text = "2024-T3";
    else if (strcmp(name, "part_parse") == 0) text = "MS20470AD4";
    else if (strcmp(name, "length_fit") == 0) text = "MS20426AD4";
    else if (strcmp(name, "key_parse") == 0) text = "flush.MS20426AD4";
    else if (strncmp(name, "layers_parse", 12) == 0) text = "2024-T3:.032:countersunk,.005:sealant,.125+-.004";
    else if (strcmp(name, "force_parse") == 0) text = "250";
    else if (strcmp(name, "value_parse") == 0) text = "1.5 D";
    memset(in_text, 0, sizeof in_text);
    memcpy(in_text, text, strlen(text));
    in.text_length = strlen(text);
    // A driven head far wider than those tested; a sheet too thick for any rivet.
    if (strcmp(name, "squeeze_find") == 0) in.nm = 9525000;
    if (strcmp(name, "diameter_choose") == 0) in.nm = 25400000;
    if (strcmp(name, "key_print") == 0) shophead_key_parse("flush.MS20426AD4", 16, &in.nm);
    if (strcmp(name, "value_print") == 0) in.listed = SHOPHEAD_LIMIT_EDGE_DISTANCE_LEAST;
}

static shophead_error call(const struct function *function, size_t spoilt, void *instead) {
    void *pointers[MOST_POINTERS];
    for (size_t index = 0; index < MOST_POINTERS; index++) {
        pointers[index] = index == spoilt ? instead : function->pointers[index].right;
    }
    return function->call(pointers);
}

static void expect(const char *name, const char *what, shophead_error got, shophead_error wanted) {
    if (got != wanted) {
        printf("%s, %s: %" PRIu32 ", expected %" PRIu32 "\n", name, what, (uint32_t)got, (uint32_t)wanted);
        failures++;
    }
    if (wanted != SHOPHEAD_OK && touched()) {
        printf("%s, %s: an output was touched\n", name, what);
        failures++;
    }
}

static const struct function *named(const char *name) {
    for (size_t index = 0; index < FUNCTIONS; index++) {
        if (strcmp(functions[index].name, name) == 0) {
            return &functions[index];
        }
    }
    fprintf(stderr, "no function %s\n", name);
    exit(2);
}

// Everything right again, for this function.
static const struct function *fresh(const char *name) {
    set_up();
    give_text(name);
    return named(name);
}

static void spoil_pointers(void) {
    for (size_t index = 0; index < FUNCTIONS; index++) {
        const struct function *function = fresh(functions[index].name);
        expect(function->name, "nothing spoilt", call(function, MOST_POINTERS, NULL), SHOPHEAD_OK);
        if (!touched()) {
            printf("%s: nothing was written\n", function->name);
            failures++;
        }
        for (size_t pointer = 0; pointer < MOST_POINTERS && function->pointers[pointer].right != NULL; pointer++) {
            char what[40];
            fresh(function->name);
            snprintf(what, sizeof what, "pointer %zu NULL", pointer);
            expect(function->name, what, call(function, pointer, NULL), SHOPHEAD_ERROR_NULL);
            for (size_t by = 1; by < function->pointers[pointer].alignment; by++) {
                snprintf(what, sizeof what, "pointer %zu off by %zu", pointer, by);
                expect(function->name, what, call(function, pointer, (char *)function->pointers[pointer].right + by),
                       SHOPHEAD_ERROR_MISALIGNED);
            }
        }
    }
}

// Texts that are not UTF-8: a stray byte, one cut off, one too long for its value, a half of a pair.
static void spoil_texts(void) {
    static const char *const wrong[] = {"\xff", "1/8\xc3", "\xc0\xaf", "\xed\xa0\x80"};
    for (size_t index = 0; index < FUNCTIONS; index++) {
        if (functions[index].pointers[0].right != in_text) {
            continue;
        }
        for (size_t which = 0; which < sizeof wrong / sizeof wrong[0]; which++) {
            const struct function *function = fresh(functions[index].name);
            memcpy(in_text, wrong[which], strlen(wrong[which]));
            in.text_length = strlen(wrong[which]);
            expect(function->name, "not UTF-8", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_NOT_UTF8);
        }
        const struct function *function = fresh(functions[index].name);
        in.text_length = SIZE_MAX;
        expect(function->name, "longer than memory", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    }
    for (int place = 0; place < 2; place++) {
        const struct function *function = fresh("length_choose");
        struct shophead_text text = {"\xff", 1};
        *(place != 0 ? &in.limit.place : &in.limit.document) = text;
        expect(function->name, "own limit not UTF-8", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_NOT_UTF8);
        function = fresh("finding_say");
        *(place != 0 ? &in.finding.basis.place : &in.finding.basis.document) = text;
        expect(function->name, "basis not UTF-8", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_NOT_UTF8);
        function = fresh("group_share");
        *(place != 0 ? &in.rivets[2].place : &in.rivets[2].document) = text;
        expect(function->name, "rivet not UTF-8", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_NOT_UTF8);
    }
}

// Of any type that a number of a list has: C++ keeps them apart.
static void spoil_number(const char *name, const char *what, void *number, uint32_t wrong, shophead_error wanted) {
    const struct function *function = fresh(name);
    memcpy(number, &wrong, sizeof wrong);
    expect(name, what, call(function, MOST_POINTERS, NULL), wanted);
}

// Texts that say something else.
static void spoil_meanings(void) {
    static const struct {
        const char *name;
        const char *text;
        shophead_error wanted;
    } wrong[] = {
        {"length_fit", "MS20470AD7", SHOPHEAD_ERROR_NOT_A_PART},
        {"length_fit", ".032", SHOPHEAD_ERROR_NOT_A_PART},
        {"layers_parse", "", SHOPHEAD_ERROR_NOT_LAYERS},
        {"layers_parse", ".032,", SHOPHEAD_ERROR_NOT_LAYERS},
        {"layers_parse", "MS20470AD4", SHOPHEAD_ERROR_NOT_LAYERS},
        {"layers_parse", ".1,.1,.1,.1,.1,.1,.1,.1,.1", SHOPHEAD_ERROR_NOT_LAYERS},
        {"layers_parse_by", "2219-T87:.032", SHOPHEAD_ERROR_NOT_LAYERS},
        {"key_parse", "flush.MS20470AD4", SHOPHEAD_ERROR_NOT_A_KEY},
        {"part_parse", "MS20470AD7", SHOPHEAD_ERROR_NOT_A_PART},
        {"material_parse", "2024", SHOPHEAD_ERROR_NOT_A_MATERIAL},
    };
    for (size_t index = 0; index < sizeof wrong / sizeof wrong[0]; index++) {
        const struct function *function = fresh(wrong[index].name);
        memcpy(in_text, wrong[index].text, strlen(wrong[index].text));
        in.text_length = strlen(wrong[index].text);
        expect(function->name, wrong[index].text, call(function, MOST_POINTERS, NULL), wrong[index].wanted);
    }
    const struct function *function = fresh("length_fit");
    in_layers[0] = 'x';
    expect(function->name, "layers", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_NOT_LAYERS);
    in_layers[0] = '2';
}

// Numbers that are not of their list. 0 is none: refused where something is needed.
static void spoil_lists(void) {
    static const uint32_t wrong[] = {0, 999, 0x7fffffff, 0x80000000, 0xffffffff};
#define LISTED(name, member) spoil_number(name, #member, &(member), wrong[which], SHOPHEAD_ERROR_UNKNOWN_NUMBER)
    for (size_t which = 0; which < sizeof wrong / sizeof wrong[0]; which++) {
        LISTED("part_print", in.part.series);
        LISTED("part_print", in.part.alloy);
        LISTED("length_choose", in.query.part.series);
        LISTED("length_choose", in.query.practice.built_in);
        LISTED("length_choose", in.limit.name);
        LISTED("length_choose", in.limit.value.kind);
        LISTED("practice_hole", in.practice.built_in);
        LISTED("length_fit", in.practice.built_in);
        LISTED("diameter_choose", in.practice.built_in);
        LISTED("diameter_choose", in.part.series);
        LISTED("squeeze_find", in.part.alloy);
        LISTED("practice_find", in.listed);
        LISTED("practice_find_after_step_up", in.listed);
        LISTED("value_print", in.value.kind);
        LISTED("value_print", in.listed);
        LISTED("value_parse", in.listed);
        LISTED("word", in.listed);
        LISTED("finding_say", in.listed);
        LISTED("finding_say", in.saying);
        LISTED("finding_say", in.finding.code);
        LISTED("finding_say", in.finding.severity);
        LISTED("finding_say", in.finding.basis.status);
        LISTED("number", in.listed);
        LISTED("length_print", in.listed);
        LISTED("material_print", in.material);
        LISTED("material_tension", in.material);
        LISTED("splice_tables", in.material);
        LISTED("splice_per_inch", in.listed);
        LISTED("splice_count", in.listed);
        LISTED("stack_grip", in.layers[1].role);
        LISTED("stack_grip", in.layers[1].preparation);
        LISTED("head_judge", in.defects[1].kind);
        LISTED("hole_judge", in.hole.damage);
        LISTED("found_hole_judge", in.found_hole.damage);
        LISTED("found_hole_judge", in.hole_query.member);
        LISTED("hole_judge", in.hole_query.member);
        LISTED("strength_find", in.joint.shear);
        LISTED("strength_find_by", in.joint.shear);
        LISTED("strength_find_by", in.practice.built_in);
        LISTED("layers_parse_by", in.practice.built_in);
        LISTED("strength_find", in.joint.load.factors);
        LISTED("margin_find", in.load.kind);
        LISTED("margin_find", in.load.factors);
        LISTED("group_share", in.plane_load.kind);
        LISTED("group_share", in.rivets[3].status);
        LISTED("group_yield", in.yieldings[3].rivet.status);
        if (wrong[which] != 0) {
            LISTED("length_choose", in.limit.head);
            LISTED("length_choose", in.limit.alloy);
            if (wrong[which] < SHOPHEAD_OWN_MATERIAL) LISTED("stack_grip", in.layers[1].material);
            LISTED("hole_judge", in.layers[1].material);
            LISTED("strength_find", in.layers[1].material);
            LISTED("strength_find_by", in.layers[1].material);
            LISTED("finding_say", in.finding.measured.kind);
            spoil_number("finding_say", "layer", &in.finding.layer, wrong[which], SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
            LISTED("head_judge", in.defects[0].meeting);
            LISTED("strength_find", in.joint.load.kind);
            LISTED("group_share", in.plane_load.factors);
            LISTED("group_share", in.rivets[3].allowable_known);
            LISTED("group_yield", in.yieldings[3].yield_known);
            spoil_number("length_choose", "finish", &in.query.part.finish, wrong[which], SHOPHEAD_ERROR_PART_FINISH);
            spoil_number("length_choose", "own rows", &in.limit.rows, wrong[which], SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
        }
        spoil_number("part_print", "dash", &in.part.dash, wrong[which], SHOPHEAD_ERROR_PART_SIZE);
        spoil_number("row_check", "rows", &in.rows, wrong[which], SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
        spoil_number("practice_find", "rows", &in.rows, wrong[which], SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
        spoil_number("hole_judge", "rows", &in.hole_query.rows, wrong[which], SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
        spoil_number("found_hole_judge", "opened", &in.found_hole.opened, 2, SHOPHEAD_ERROR_UNKNOWN_NUMBER);
        spoil_number("found_hole_judge", "direction", &in.found_hole.direction, 3, SHOPHEAD_ERROR_UNKNOWN_NUMBER);
    }
    spoil_number("squeeze_find", "no tests", &in.part.alloy, SHOPHEAD_ALLOY_2024, SHOPHEAD_ERROR_NO_SQUEEZE_TESTS);
    spoil_number("part_print", "copper", &in.part.alloy, SHOPHEAD_ALLOY_COPPER, SHOPHEAD_ERROR_PART_MATERIAL);
    spoil_number("value_print", "den", &in.value.den, 0, SHOPHEAD_ERROR_NOT_A_VALUE);
    spoil_number("length_choose", "den", &in.limit.value.den, 0, SHOPHEAD_ERROR_NOT_A_VALUE);
    spoil_number("value_print", "kind", &in.value.kind, SHOPHEAD_VALUE_COUNT, SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT);
    spoil_number("length_choose", "kind", &in.limit.value.kind, SHOPHEAD_VALUE_FRACTION, SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT);
    spoil_number("splice_lay", "rows", &in.rows, 65536, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    spoil_number("splice_lay", "rows", &in.rows, 0, SHOPHEAD_ERROR_SPLICE_NO_ROWS);
}

static void spoil_length(const char *name, const char *what, int64_t *length, int64_t wrong, shophead_error wanted) {
    const struct function *function = fresh(name);
    *length = wrong;
    expect(name, what, call(function, MOST_POINTERS, NULL), wanted);
}

static void spoil_lengths(void) {
    static const int64_t wrong[] = {INT64_MAX, INT64_MIN + 1, 1000000000001, -1000000000001, SHOPHEAD_NONE};
#define FAR(name, member) spoil_length(name, #member, &(member), wrong[which], SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE)
    for (size_t which = 0; which < sizeof wrong / sizeof wrong[0]; which++) {
        FAR("length_print", in.nm);
        FAR("drill_at_or_above", in.nm);
        FAR("drill_at_or_below", in.nm);
        FAR("material_tension", in.nm);
        FAR("length_choose", in.query.grip.min_nm);
        FAR("length_choose", in.query.grip.nominal_nm);
        FAR("length_choose", in.query.grip.max_nm);
        FAR("length_choose", in.query.hole.nominal_nm);
        FAR("length_assess", in.nm);
        FAR("diameter_choose", in.nm);
        FAR("squeeze_find", in.nm);
        FAR("finding_say", in.finding.measured.whole);
        FAR("head_predict", in.nm);
        FAR("stack_grip", in.layers[2].thickness.max_nm);
        FAR("head_judge", in.measured.diameter.min_nm);
        FAR("head_judge", in.measured.height.max_nm);
        FAR("head_judge", in.defects[1].nm);
        FAR("head_judge", in.defects[1].head_height_nm);
        FAR("hole_judge", in.hole.major_nm);
        FAR("found_hole_judge", in.found_hole.major_nm);
        FAR("hole_judge", in.hole.minor_nm);
        FAR("points_check", in.points[3].x_nm);
        FAR("points_check", in.edges[1].to.y_nm);
        FAR("strength_find", in.joint.edge_nm);
        FAR("splice_per_inch", in.nm);
        FAR("splice_count", in.nm);
        FAR("splice_needed", in.nm);
        FAR("splice_lay", in.nm);
        FAR("group_share", in.rivets[0].at.x_nm);
        FAR("group_share", in.plane_load.at.y_nm);
        if (wrong[which] != SHOPHEAD_NONE) {
            FAR("part_with_length", in.nm);
            FAR("part_print", in.part.length_nm);
            FAR("length_choose", in.limit.diameter_nm);
            FAR("length_choose", in.limit.value.nm);
            FAR("hole_judge", in.hole_query.edge_nm);
            FAR("hole_judge", in.hole_query.pitch_nm);
            FAR("hole_judge", in.hole_query.transverse_pitch_nm);
            FAR("row_check", in.row.edge_nm);
            FAR("row_check", in.row.pitch_nm);
            FAR("row_check", in.row.transverse_pitch_nm);
            FAR("strength_find", in.joint.hole_nm);
            FAR("strength_find", in.joint.pitch_nm);
            FAR("head_judge", in.defects[0].nm);
        }
    }
    spoil_length("length_choose", "order", &in.query.grip.min_nm, 6000000, SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER);
    spoil_length("length_choose", "order", &in.query.hole.max_nm, 1, SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER);
    spoil_length("head_judge", "order", &in.measured.diameter.max_nm, 1, SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER);
    spoil_length("length_choose", "a limit that never holds", &in.limit.diameter_nm, 0, SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE);
    spoil_length("length_choose", "negative limit", &in.limit.value.nm, -1, SHOPHEAD_ERROR_NOT_A_VALUE);
    spoil_length("head_predict", "no length", &in.query.part.length_nm, SHOPHEAD_NONE, SHOPHEAD_ERROR_PART_WITHOUT_LENGTH);
    spoil_length("head_predict", "no height", &in.nm, 0, SHOPHEAD_ERROR_FIT_NO_HEIGHT);
    spoil_length("squeeze_find", "no wider than the shank", &in.nm, 3175000, SHOPHEAD_ERROR_SQUEEZE_HEAD);
    spoil_length("part_with_length", "not in steps", &in.nm, 3175001, SHOPHEAD_ERROR_PART_NOT_IN_STEPS);
    spoil_length("part_print", "no shank", &in.part.length_nm, 0, SHOPHEAD_ERROR_PART_NO_SHANK);
    spoil_length("part_print", "too long", &in.part.length_nm, 254000000, SHOPHEAD_ERROR_PART_TOO_LONG);
    spoil_length("hole_judge", "axes", &in.hole.minor_nm, 3700000, SHOPHEAD_ERROR_HOLE_AXES_SWAPPED);
    spoil_length("found_hole_judge", "axes", &in.found_hole.minor_nm, 3700000, SHOPHEAD_ERROR_HOLE_AXES_SWAPPED);
    spoil_length("hole_judge", "nothing", &in.hole.minor_nm, 0, SHOPHEAD_ERROR_HOLE_NOT_POSITIVE);
    spoil_length("stack_grip", "nothing", &in.layers[0].thickness.min_nm, 0, SHOPHEAD_ERROR_STACK_NOT_POSITIVE);
    spoil_length("strength_find", "edge", &in.joint.edge_nm, 0, SHOPHEAD_ERROR_JOINT_EDGE_NOT_POSITIVE);
    spoil_length("strength_find", "hole", &in.joint.hole_nm, 0, SHOPHEAD_ERROR_JOINT_HOLE_NOT_POSITIVE);
    spoil_length("strength_find", "pitch", &in.joint.pitch_nm, 1, SHOPHEAD_ERROR_JOINT_PITCH_INSIDE_HOLE);
    spoil_length("drill_at_or_above", "no drill", &in.nm, 25400000, SHOPHEAD_ERROR_NO_SUCH_DRILL);
    spoil_length("drill_at_or_below", "no drill", &in.nm, 0, SHOPHEAD_ERROR_NO_SUCH_DRILL);
    spoil_length("key_print", "no key", &in.nm, 0, SHOPHEAD_ERROR_UNKNOWN_NUMBER);
    spoil_length("key_print", "no key", &in.nm, -1, SHOPHEAD_ERROR_UNKNOWN_NUMBER);
    spoil_length("material_tension", "no strength", &in.nm, 1, SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED);
}

static void spoil_real(const char *name, const char *what, double *number, double wrong, shophead_error wanted) {
    const struct function *function = fresh(name);
    *number = wrong;
    expect(name, what, call(function, MOST_POINTERS, NULL), wanted);
}

static void spoil_reals(void) {
    const double wrong[] = {(double)NAN, -(double)NAN, (double)INFINITY, -(double)INFINITY};
#define REAL(name, member) spoil_real(name, #member, &(member), wrong[which], SHOPHEAD_ERROR_NOT_FINITE)
    for (size_t which = 0; which < sizeof wrong / sizeof wrong[0]; which++) {
        REAL("force_from_newtons", in.number);
        REAL("force_to_newtons", in.number);
        REAL("margin_find", in.number);
        REAL("finding_say", in.finding.limit.number);
        REAL("margin_find", in.load.lbf);
        REAL("strength_find", in.joint.load.lbf);
        REAL("splice_count", in.number);
        REAL("splice_needed", in.number);
        REAL("splice_needed", in.other_number);
        REAL("group_share", in.plane_load.x_lbf);
        REAL("group_share", in.plane_load.y_lbf);
        REAL("group_share", in.plane_load.moment_in_lbf);
        REAL("group_share", in.rivets[2].weight);
        REAL("group_share", in.rivets[2].allowable_lbf);
        REAL("group_yield", in.yieldings[2].yield_lbf);
    }
    spoil_real("margin_find", "load", &in.load.lbf, 0.0, SHOPHEAD_ERROR_MARGIN_LOAD_NOT_POSITIVE);
    spoil_real("margin_find", "allowable", &in.number, -1.0, SHOPHEAD_ERROR_MARGIN_ALLOWABLE_NOT_VALID);
    spoil_real("margin_find", "too far apart", &in.load.lbf, 5e-324, SHOPHEAD_ERROR_MARGIN_OUT_OF_RANGE);
    spoil_real("force_to_newtons", "too large", &in.number, 1e308, SHOPHEAD_ERROR_NOT_FINITE);
    spoil_real("splice_count", "negative", &in.number, -1.0, SHOPHEAD_ERROR_SPLICE_NOT_POSITIVE);
    spoil_real("group_share", "weight", &in.rivets[0].weight, 0.0, SHOPHEAD_ERROR_GROUP_WEIGHT_NOT_POSITIVE);
    spoil_real("group_share", "no load", &in.plane_load.x_lbf, 0.0, SHOPHEAD_ERROR_GROUP_NO_LOAD);
    spoil_real("group_share", "too large", &in.plane_load.x_lbf, 1e308, SHOPHEAD_ERROR_GROUP_OUT_OF_RANGE);
}

static void spoil_size(const char *name, const char *what, size_t *size, size_t wrong, shophead_error wanted) {
    const struct function *function = fresh(name);
    *size = wrong;
    expect(name, what, call(function, MOST_POINTERS, NULL), wanted);
}

// From nothing up to one less than suffices, and more than memory.
static void spoil_sizes(void) {
    static const char *const printing[] = {"error_message", "finding_say", "explain", "length_print", "material_print", "part_print", "value_print", "key_print"};
    for (size_t index = 0; index < sizeof printing / sizeof printing[0]; index++) {
        const struct function *function = fresh(printing[index]);
        expect(function->name, "room enough", call(function, MOST_POINTERS, NULL), SHOPHEAD_OK);
        size_t suffices = out.length + 1;
        for (size_t less = 0; less < suffices; less++) {
            spoil_size(function->name, "short text", &in.text_capacity, less, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
        }
        spoil_size(function->name, "just enough", &in.text_capacity, suffices, SHOPHEAD_OK);
        spoil_size(function->name, "text too long", &in.text_capacity, SIZE_MAX, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    }
    static const char *const finding[] = {"length_choose", "length_fit", "diameter_choose", "squeeze_find", "head_judge", "row_check", "points_check", "strength_find", "strength_find_by", "group_share", "group_yield", "hole_judge", "found_hole_judge"};
    for (size_t index = 0; index < sizeof finding / sizeof finding[0]; index++) {
        spoil_size(finding[index], "no room for findings", &in.finding_capacity, 0, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
        spoil_size(finding[index], "findings", &in.finding_capacity, SIZE_MAX, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
        spoil_size(finding[index], "findings", &in.finding_capacity, SIZE_MAX / 64, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    }
    spoil_size("layers_parse", "layers", &in.layer_capacity, 2, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("layers_parse_by", "layers", &in.layer_capacity, 2, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("strength_find_by", "sheets", &in.sheet_capacity, 2, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    // A layer thicker than the rivet is worth a note.
    const struct function *through = fresh("length_choose_through");
    struct shophead_toleranced thick = {3300000, 3300000, 3300000};
    in.layers[0].thickness = thick;
    in.finding_capacity = 0;
    expect(through->name, "no room for findings", call(through, MOST_POINTERS, NULL), SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("length_choose_through", "no layers", &in.layer_count, 0, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    spoil_size("length_serves", "servings", &in.serving_capacity, 1, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("length_serves", "servings", &in.serving_capacity, SIZE_MAX / 8, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    spoil_size("length_by_hole", "ranges", &in.range_capacity, SIZE_MAX / 8, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    spoil_size("head_window", "layers", &in.layer_count, SIZE_MAX, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    spoil_size("hole_judge", "steps", &in.step_capacity, 1, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("strength_find", "sheets", &in.sheet_capacity, 2, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("group_share", "shares", &in.share_capacity, 3, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("group_share", "room", &in.room_count, 3, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("points_check", "room", &in.room_count, 3, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("group_yield", "room", &in.room_count, 3, SHOPHEAD_ERROR_BUFFER_TOO_SMALL);
    spoil_size("group_yield", "no rivets", &in.count, 0, SHOPHEAD_ERROR_GROUP_NO_RIVETS);
    spoil_size("group_share", "no rivets", &in.count, 0, SHOPHEAD_ERROR_GROUP_NO_RIVETS);
    spoil_size("group_share", "rivets", &in.count, SIZE_MAX / 8, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    spoil_size("length_choose", "own", &in.query.practice.own_count, SIZE_MAX / 8, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    spoil_size("hole_judge", "layers", &in.hole_query.layer_count, SIZE_MAX, SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    spoil_size("strength_find", "one sheet", &in.joint.layer_count, 1, SHOPHEAD_ERROR_JOINT_TOO_FEW_SHEETS);
    spoil_size("strength_find", "two sheets", &in.joint.layer_count, 2, SHOPHEAD_ERROR_JOINT_DOUBLE_SHEAR_NEEDS_THREE_SHEETS);
}

// Pointers inside structures, and counts of what is really there.
static void spoil_inside(void) {
    const struct function *function = fresh("length_choose");
    in.query.practice.own = NULL;
    expect(function->name, "own NULL", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_NULL);
    function = fresh("length_choose");
    in.query.practice.own = (const struct shophead_limit *)(const void *)((const char *)&in.limit + 4);
    expect(function->name, "own misaligned", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_MISALIGNED);
    function = fresh("length_choose");
    in.query.practice.own = NULL;
    in.query.practice.own_count = 0;
    expect(function->name, "no own", call(function, MOST_POINTERS, NULL), SHOPHEAD_OK);
    function = fresh("length_choose");
    in.limit.document.start = NULL;
    expect(function->name, "document NULL", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_NULL);
    function = fresh("length_choose");
    in.limit.document.start = NULL;
    in.limit.document.length = 0;
    expect(function->name, "no document", call(function, MOST_POINTERS, NULL), SHOPHEAD_OK);
    function = fresh("hole_judge");
    in.hole_query.layers = NULL;
    expect(function->name, "layers NULL", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_NULL);
    function = fresh("strength_find");
    in.joint.layers = NULL;
    in.joint.layer_count = 0;
    expect(function->name, "no layers", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_JOINT_TOO_FEW_SHEETS);

    // One limit, one layer, one defect more than there may be.
    static struct shophead_limit limits[SHOPHEAD_MAX_OWN_LIMITS + 1];
    function = fresh("length_choose");
    for (size_t index = 0; index <= SHOPHEAD_MAX_OWN_LIMITS; index++) {
        limits[index] = in.limit;
    }
    in.query.practice.own = limits;
    in.query.practice.own_count = SHOPHEAD_MAX_OWN_LIMITS + 1;
    expect(function->name, "own limits", call(function, MOST_POINTERS, NULL), SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
    in.query.practice.own_count = SHOPHEAD_MAX_OWN_LIMITS;
    expect(function->name, "as many as may be", call(function, MOST_POINTERS, NULL), SHOPHEAD_OK);
    struct shophead_layer layers[SHOPHEAD_MAX_LAYERS + 1];
    fresh("stack_grip");
    for (size_t index = 0; index <= SHOPHEAD_MAX_LAYERS; index++) {
        layers[index] = in.layers[0];
    }
    expect("stack_grip", "layers", shophead_stack_grip(layers, SHOPHEAD_MAX_LAYERS + 1, &out.toleranced),
           SHOPHEAD_ERROR_STACK_TOO_MANY_LAYERS);
    struct shophead_defect defects[SHOPHEAD_MAX_DEFECTS + 1];
    for (size_t index = 0; index <= SHOPHEAD_MAX_DEFECTS; index++) {
        defects[index] = in.defects[0];
    }
    expect("head_judge", "defects",
           shophead_head_judge(&in.measured, defects, SHOPHEAD_MAX_DEFECTS + 1, &in.part, &in.practice, &out.judgement,
                               out.findings, in.finding_capacity),
           SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);

    // A text that is none, for each reader.
    static const struct {
        const char *name;
        shophead_error error;
    } readers[] = {
        {"length_parse", SHOPHEAD_ERROR_NOT_A_LENGTH}, {"toleranced_parse", SHOPHEAD_ERROR_NOT_A_LENGTH},
        {"force_parse", SHOPHEAD_ERROR_NOT_A_FORCE},   {"drill_parse", SHOPHEAD_ERROR_NOT_A_DRILL},
        {"hole_parse", SHOPHEAD_ERROR_NOT_A_HOLE},     {"part_parse", SHOPHEAD_ERROR_NOT_A_PART},
        {"material_parse", SHOPHEAD_ERROR_NOT_A_MATERIAL}, {"number", SHOPHEAD_ERROR_UNKNOWN_WORD},
        {"value_parse", SHOPHEAD_ERROR_NOT_A_VALUE},   {"key_parse", SHOPHEAD_ERROR_NOT_A_KEY},
    };
    for (size_t index = 0; index < sizeof readers / sizeof readers[0]; index++) {
        function = fresh(readers[index].name);
        memcpy(in_text, "nonsense", 8);
        in.text_length = 8;
        expect(function->name, "nonsense", call(function, MOST_POINTERS, NULL), readers[index].error);
        function = fresh(readers[index].name);
        in.text_length = 0;
        expect(function->name, "empty", call(function, 0, NULL), readers[index].error);
    }
}

int main(int count, char **arguments) {
    if (count == 2 && strcmp(arguments[1], "list") == 0) {
        for (size_t index = 0; index < FUNCTIONS; index++) {
            printf("shophead_%s\n", functions[index].name);
        }
        return 0;
    }
    spoil_pointers();
    spoil_texts();
    spoil_meanings();
    spoil_lists();
    spoil_lengths();
    spoil_reals();
    spoil_sizes();
    spoil_inside();
    return failures == 0 ? 0 : 1;
}
