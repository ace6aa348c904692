// What a finding says is not on file, entered by its key: a dimension, a material of the shop's own, a flush joint, a plain joint. Each time the
// finding is gone, and the figure decides. Prints what was found before and after; `tests/programs` knows what the core says.
#include "show.h"

static struct shophead_limit own[8];
static struct shophead_practice practice = {SHOPHEAD_BUILT_IN_HANDBOOK, 0, own, 0};
static struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];

static void must(shophead_error error, const char *what) {
    if (error != SHOPHEAD_OK) {
        fprintf(stderr, "%s: error %" PRIu32 "\n", what, (uint32_t)error);
        exit(1);
    }
}

static int64_t key_of(const char *text) {
    int64_t key;
    must(shophead_key_parse(text, strlen(text), &key), text);
    return key;
}

static struct shophead_limit *enter(int64_t key, uint32_t kind, uint32_t num, uint32_t den, int64_t nm) {
    struct shophead_limit *figure = &own[practice.own_count++];
    memset(figure, 0, sizeof *figure);
    figure->name = SHOPHEAD_BY_KEY;
    figure->diameter_nm = key;
    figure->value.kind = kind;
    figure->value.num = num;
    figure->value.den = den;
    figure->value.nm = nm;
    figure->document = text_of("test report");
    figure->place = text_of("sheet 2");
    return figure;
}

// Prints the sentences that name a key, and gives the key of the first; 0 where none does.
static int64_t named(struct shophead_span span) {
    int64_t first = 0;
    for (uint32_t index = span.first; index < span.first + span.count; index++) {
        const struct shophead_figure *limit = &findings[index].limit;
        char said[SHOPHEAD_TEXT_MAX];
        size_t length;
        if (limit->kind != SHOPHEAD_FIGURE_KEY && (limit->kind != SHOPHEAD_FIGURE_RATIO || limit->whole == 0)) continue;
        must(shophead_finding_say(&findings[index], SHOPHEAD_UNITS_INCHES, SHOPHEAD_SAYING_SENTENCE, said, sizeof said, &length), "a sentence");
        puts(said);
        if (first == 0) first = limit->whole;
    }
    return first;
}

static int64_t fit(const char *part, const char *layers) {
    struct shophead_fitted fitted;
    char said[SHOPHEAD_TEXT_MAX];
    size_t length;
    must(shophead_length_fit(part, strlen(part), layers, strlen(layers), &practice, &fitted, findings, SHOPHEAD_MAX_FINDINGS), layers);
    must(shophead_part_print(&fitted.part, said, sizeof said, &length), part);
    puts(said);
    return named(fitted.choice.findings);
}

static int64_t carries(const char *part, const char *text, int64_t edge_nm) {
    struct shophead_layer layers[SHOPHEAD_MAX_LAYERS];
    struct shophead_joint joint;
    struct shophead_strength strength;
    struct shophead_sheet sheets[SHOPHEAD_MAX_LAYERS];
    uint32_t warnings;
    size_t count;
    memset(&joint, 0, sizeof joint);
    must(shophead_layers_parse_by(text, strlen(text), &practice, layers, SHOPHEAD_MAX_LAYERS, &count), text);
    must(shophead_part_parse(part, strlen(part), &joint.part, &warnings), part);
    joint.layers = layers;
    joint.layer_count = count;
    joint.edge_nm = edge_nm;
    joint.hole_nm = joint.pitch_nm = SHOPHEAD_NONE;
    joint.shear = SHOPHEAD_SHEAR_SINGLE;
    must(shophead_strength_find_by(&joint, &practice, &strength, sheets, SHOPHEAD_MAX_LAYERS, findings, SHOPHEAD_MAX_FINDINGS), text);
    if (strength.allowable.known) {
        printf("%s: %.1f lbf, %.*s\n", part, strength.allowable.lbf, (int)strength.allowable.basis.document.length,
               strength.allowable.basis.document.start);
    } else {
        printf("%s: not known\n", part);
    }
    return named(strength.findings);
}

int main(void) {
    const char *const sunk = "2024-T3:.080:countersunk, 2024-T3:.125", *const shop = "2219-T87:.063, 2219-T87:.063";
    const char *const seat = "2024-T3:.063:countersunk, 2024-T3:.125", *const thin = "2024-T3:.016, 2024-T3:.063";
    uint32_t material;

    // The head of an oversize rivet.
    enter(fit("NAS1241AD4", sunk), SHOPHEAD_VALUE_TOLERANCED, 25400, 25400, 914400);
    fit("NAS1241AD4", sunk);

    // A material that is not on file.
    if (shophead_length_fit("MS20470AD5", 10, shop, strlen(shop), &practice, NULL, findings, 0) != SHOPHEAD_ERROR_NULL) return 1;
    enter(key_of("material.2219-T87.tension_ultimate"), SHOPHEAD_VALUE_STRESS, 63000, 0, 0);
    enter(carries("MS20470AD5", shop, 12700000), SHOPHEAD_VALUE_STRESS, 100000, 0, 0);
    carries("MS20470AD5", shop, 12700000);

    // A tested joint of a flush rivet of another alloy, with its yield.
    must(shophead_material_parse("2024-T3", 7, &material), "2024-T3");
    {
        struct shophead_limit *joint = enter(carries("MS20426D5", seat, 12700000), SHOPHEAD_VALUE_JOINT, 411, 300, 1600200);
        joint->head = SHOPHEAD_PREPARATION_COUNTERSUNK;
        joint->rows = material;
    }
    carries("MS20426D5", seat, 12700000);

    // One in sheet that is too thin for the tables, tested near its edge.
    {
        int64_t key = carries("MS20470AD5", thin, 6000000);
        enter(key, SHOPHEAD_VALUE_JOINT, 111, 0, 406400)->rows = material;
        enter(key, SHOPHEAD_VALUE_LENGTH, 0, 0, 5080000);
    }
    carries("MS20470AD5", thin, 6000000);
    return 0;
}
