// Reads cases, a word and its values a case, and prints every answer. `tests/programs/cases.rs` writes the cases and what the core itself
// answers; both must be the same byte for byte.
#ifndef ANSWERS_H
#define ANSWERS_H

#include "show.h"

// A word of a case; ends the program where there is none, since the cases are ours.
struct words {
    const char *rest;
    char word[256];
};

static const char *next_word(struct words *words) {
    size_t length = strcspn(words->rest, " \n");
    if (length == 0 || length >= sizeof words->word) {
        fprintf(stderr, "a case is wrong at: %.40s\n", words->rest);
        exit(2);
    }
    memcpy(words->word, words->rest, length);
    words->word[length] = 0;
    words->rest += length + (words->rest[length] != 0);
    return words->word;
}

static int64_t next_nm(struct words *words) {
    const char *word = next_word(words);
    return strcmp(word, "none") == 0 ? SHOPHEAD_NONE : strtoll(word, NULL, 10);
}

static uint32_t next_count(struct words *words) {
    return (uint32_t)strtoul(next_word(words), NULL, 10);
}

static double next_number(struct words *words) {
    return number_of(strtoull(next_word(words), NULL, 16));
}

static uint32_t next_listed(struct words *words, uint32_t list) {
    const char *word = next_word(words);
    uint32_t number = 0;
    if (strcmp(word, "-") != 0 && shophead_number(list, word, strlen(word), &number) != SHOPHEAD_OK) {
        fprintf(stderr, "not in list %" PRIu32 ": %s\n", list, word);
        exit(2);
    }
    return number;
}

static struct shophead_part next_part(struct words *words) {
    const char *word = next_word(words);
    struct shophead_part part;
    uint32_t warnings;
    if (shophead_part_parse(word, strlen(word), &part, &warnings) != SHOPHEAD_OK) {
        fprintf(stderr, "not a part: %s\n", word);
        exit(2);
    }
    return part;
}

static struct shophead_toleranced next_toleranced(struct words *words) {
    struct shophead_toleranced length;
    length.min_nm = next_nm(words);
    length.nominal_nm = next_nm(words);
    length.max_nm = next_nm(words);
    return length;
}

static uint32_t next_material(struct words *words) {
    const char *word = next_word(words);
    uint32_t material = 0;
    if (strcmp(word, "-") != 0 && shophead_material_parse(word, strlen(word), &material) != SHOPHEAD_OK) {
        fprintf(stderr, "not a material: %s\n", word);
        exit(2);
    }
    return material;
}

// The shop's own limits of the test: the same in `cases.rs`.
struct shop {
    struct shophead_limit own[3];
};

static struct shophead_limit own_limit(uint32_t name, const char *value) {
    struct shophead_limit limit;
    memset(&limit, 0, sizeof limit);
    limit.name = name;
    limit.diameter_nm = SHOPHEAD_NONE;
    limit.document = text_of("repair manual of the type");
    limit.place = text_of("section 4");
    if (shophead_value_parse(name, value, strlen(value), &limit.value) != SHOPHEAD_OK) {
        fprintf(stderr, "not a value: %s\n", value);
        exit(2);
    }
    return limit;
}

static struct shophead_practice next_practice(struct words *words, struct shop *shop) {
    struct shophead_practice practice;
    memset(&practice, 0, sizeof practice);
    practice.built_in = next_listed(words, SHOPHEAD_LIST_BUILT_IN);
    if (next_count(words) != 0) {
        shop->own[0] = own_limit(SHOPHEAD_LIMIT_HEAD_DIAMETER_LEAST, "1.4 D");
        shop->own[1] = own_limit(SHOPHEAD_LIMIT_EDGE_DISTANCE_LEAST, "2 D + 1/32");
        shop->own[1].head = SHOPHEAD_HEAD_SCOPE_FLUSH;
        shop->own[2] = own_limit(SHOPHEAD_LIMIT_HOLE_GREATEST, "shank + .006");
        shop->own[2].alloy = SHOPHEAD_ALLOY_2117;
        shop->own[2].diameter_nm = 3175000;
        practice.own = shop->own;
        practice.own_count = 3;
    }
    return practice;
}

static size_t next_layers(struct words *words, struct shophead_layer *layers, size_t capacity) {
    size_t count = next_count(words);
    for (size_t index = 0; index < count; index++) {
        struct shophead_layer layer;
        memset(&layer, 0, sizeof layer);
        layer.thickness = next_toleranced(words);
        layer.material = next_material(words);
        layer.role = next_listed(words, SHOPHEAD_LIST_ROLE);
        layer.preparation = next_listed(words, SHOPHEAD_LIST_PREPARATION);
        if (index < capacity) {
            layers[index] = layer;
        }
    }
    return count;
}

static struct shophead_length_query next_query(struct words *words, struct shop *shop) {
    struct shophead_length_query query;
    memset(&query, 0, sizeof query);
    query.part = next_part(words);
    query.grip = next_toleranced(words);
    query.hole = next_toleranced(words);
    query.practice = next_practice(words, shop);
    return query;
}

static void length_case(struct words *words, FILE *to) {
    struct shop shop;
    struct shophead_length_query query = next_query(words, &shop);
    struct shophead_length_choice choice;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    if (show_error(to, shophead_length_choose(&query, &choice, findings, SHOPHEAD_MAX_FINDINGS))) {
        return;
    }
    fputs("  length ", to);
    show_nm(to, choice.length_nm);
    fputs(" shortest ", to);
    show_given(to, &choice.shortest);
    fputs(" longest ", to);
    show_given(to, &choice.longest);
    fprintf(to, " by %" PRIu32 " difference %" PRIu32, (uint32_t)choice.longest_by, (uint32_t)choice.difference);
    fprintf(to, " rule %" PRId64 " %" PRId64 " fill %" PRId64, choice.rule_of_thumb_nm, choice.rule_of_thumb_length_nm,
            choice.fill_nm);
    fputs(" protrusion ", to);
    show_range(to, &choice.protrusion);
    fputs(" head ", to);
    show_toleranced(to, &choice.head.diameter);
    fputs(" ", to);
    show_nm(to, choice.head.height_nm);
    fputs("\n", to);
    show_findings(to, findings, choice.findings);
}

static void assess_case(struct words *words, FILE *to) {
    struct shop shop;
    struct shophead_length_query query = next_query(words, &shop);
    struct shophead_span span;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    int64_t length = next_nm(words);
    if (!show_error(to, shophead_length_assess(&query, length, findings, SHOPHEAD_MAX_FINDINGS, &span))) {
        show_findings(to, findings, span);
    }
}

static void show_window(FILE *to, const struct shophead_window *window) {
    show_range(to, &window->height);
    fputs(" wide ", to);
    show_nm(to, window->diameter_least_nm);
    fputs("/", to);
    show_nm(to, window->diameter_greatest_nm);
    fputs(" within ", to);
    show_nm(to, window->hole_greatest_nm);
    fputs("/", to);
    show_nm(to, window->shank_least_nm);
    fputs("\n", to);
}

static void window_case(struct words *words, FILE *to) {
    struct shop shop;
    struct shophead_layer layers[SHOPHEAD_MAX_LAYERS];
    struct shophead_length_query query = next_query(words, &shop);
    size_t layer_count = next_layers(words, layers, SHOPHEAD_MAX_LAYERS);
    struct shophead_window window;
    struct shophead_serving servings[SHOPHEAD_MAX_SERVINGS];
    struct shophead_by_hole ranges[SHOPHEAD_MAX_HOLE_RANGES];
    struct shophead_length_choice choice;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    size_t count;
    if (show_error(to, shophead_head_window(&query, layers, layer_count, &window))) {
        return;
    }
    fputs("  window ", to);
    show_window(to, &window);
    if (show_error(to, shophead_length_serves(&query, layers, layer_count, servings, SHOPHEAD_MAX_SERVINGS, &count))) {
        return;
    }
    for (size_t index = 0; index < count; index++) {
        fputs("  serves ", to);
        show_nm(to, servings[index].length_nm);
        fputs(" head ", to);
        show_toleranced(to, &servings[index].head.diameter);
        fputs(" ", to);
        show_nm(to, servings[index].head.height_nm);
        fputs(" window ", to);
        show_window(to, &servings[index].window);
    }
    if (show_error(to, shophead_length_by_hole(&query, layers, layer_count, ranges, SHOPHEAD_MAX_HOLE_RANGES, &count))) {
        return;
    }
    for (size_t index = 0; index < count; index++) {
        fputs("  hole ", to);
        show_range(to, &ranges[index].hole);
        fputs(" length ", to);
        show_nm(to, ranges[index].length_nm);
        fputs(" cut ", to);
        show_range(to, &ranges[index].cut);
        fputs(" window ", to);
        show_window(to, &ranges[index].window);
    }
    if (layer_count > 0 &&
        !show_error(to, shophead_length_choose_through(&query, layers, layer_count, &choice, findings, SHOPHEAD_MAX_FINDINGS))) {
        fputs("  length ", to);
        show_nm(to, choice.length_nm);
        fputs("\n", to);
        show_findings(to, findings, choice.findings);
    }
}

static void predict_case(struct words *words, FILE *to) {
    struct shop shop;
    struct shophead_length_query query = next_query(words, &shop);
    struct shophead_predicted predicted;
    int64_t height = next_nm(words);
    if (!show_error(to, shophead_head_predict(&query, height, &predicted))) {
        fputs("  head ", to);
        show_toleranced(to, &predicted.diameter);
        fputs(" ", to);
        show_nm(to, predicted.height_nm);
        fputs("\n", to);
    }
}

static void judge_case(struct words *words, FILE *to) {
    struct shop shop;
    struct shophead_measured measured;
    struct shophead_defect defects[SHOPHEAD_MAX_DEFECTS];
    struct shophead_part part = next_part(words);
    measured.diameter.min_nm = next_nm(words);
    measured.diameter.max_nm = next_nm(words);
    measured.height.min_nm = next_nm(words);
    measured.height.max_nm = next_nm(words);
    size_t count = next_count(words);
    for (size_t index = 0; index < count; index++) {
        memset(&defects[index], 0, sizeof defects[index]);
        defects[index].kind = next_count(words);
        defects[index].count = next_count(words);
        defects[index].meeting = next_count(words);
        defects[index].nm = next_nm(words);
        defects[index].head_height_nm = next_nm(words);
    }
    struct shophead_practice practice = next_practice(words, &shop);
    struct shophead_head_limits limits;
    struct shophead_judgement judgement;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    if (!show_error(to, shophead_head_find_limits(&part, &practice, &limits))) {
        const struct shophead_given *given[6] = {&limits.diameter_least, &limits.diameter_target, &limits.diameter_greatest,
                                                 &limits.height_least, &limits.height_target, &limits.height_greatest};
        for (size_t index = 0; index < 6; index++) {
            fputs("  limit ", to);
            show_given(to, given[index]);
            fputs("\n", to);
        }
    }
    if (!show_error(to, shophead_head_judge(&measured, defects, count, &part, &practice, &judgement, findings,
                                            SHOPHEAD_MAX_FINDINGS))) {
        fprintf(to, "  accepted %" PRIu32 " remedy ", judgement.accepted);
        show_word(to, SHOPHEAD_LIST_REMEDY, judgement.remedy);
        show_basis(to, &judgement.remedy_basis);
        fputs("\n", to);
        show_findings(to, findings, judgement.findings);
    }
}

static void hole_case(struct words *words, FILE *to) {
    struct shop shop;
    struct shophead_layer layers[SHOPHEAD_MAX_LAYERS];
    struct shophead_hole_query query;
    struct shophead_hole found;
    struct shophead_found_hole more;
    memset(&query, 0, sizeof query);
    memset(&found, 0, sizeof found);
    memset(&more, 0, sizeof more);
    query.part = next_part(words);
    found.major_nm = next_nm(words);
    found.minor_nm = next_nm(words);
    found.damage = next_listed(words, SHOPHEAD_LIST_DAMAGE);
    more.major_nm = found.major_nm;
    more.minor_nm = found.minor_nm;
    more.damage = found.damage;
    more.direction = next_count(words);
    more.opened = next_count(words);
    query.layer_count = next_layers(words, layers, SHOPHEAD_MAX_LAYERS);
    query.layers = query.layer_count == 0 ? NULL : layers;
    query.edge_nm = next_nm(words);
    query.pitch_nm = next_nm(words);
    query.transverse_pitch_nm = next_nm(words);
    query.rows = next_count(words);
    query.member = next_listed(words, SHOPHEAD_LIST_MEMBER);
    query.practice = next_practice(words, &shop);
    struct shophead_hole_judgement judgement;
    struct shophead_step steps[SHOPHEAD_MAX_STEPS];
    struct shophead_finding findings[SHOPHEAD_MAX_HOLE_FINDINGS];
    // What the first call can say goes through it.
    const int is_plain = found.minor_nm != SHOPHEAD_NONE && more.direction == 0 && more.opened == 0;
    const shophead_error error =
        is_plain ? shophead_hole_judge(&query, &found, &judgement, steps, SHOPHEAD_MAX_STEPS, findings,
                                       SHOPHEAD_MAX_HOLE_FINDINGS)
                 : shophead_found_hole_judge(&query, &more, &judgement, steps, SHOPHEAD_MAX_STEPS, findings,
                                             SHOPHEAD_MAX_HOLE_FINDINGS);
    if (show_error(to, error)) {
        return;
    }
    fputs("  disposition ", to);
    show_word(to, SHOPHEAD_LIST_DISPOSITION, judgement.disposition);
    fprintf(to, " steps %" PRIu32 "\n", judgement.steps);
    for (uint32_t index = 0; index < judgement.steps; index++) {
        const struct shophead_step *step = &steps[index];
        fputs("  step ", to);
        show_word(to, SHOPHEAD_LIST_DISPOSITION, step->kind);
        fprintf(to, " does %" PRIu32 " ", step->does);
        show_part(to, &step->part);
        fputs(" ", to);
        show_drill(to, &step->cut);
        fputs(" ", to);
        show_range(to, &step->hole);
        fputs("\n", to);
        show_findings(to, findings, step->findings);
    }
    show_findings(to, findings, judgement.findings);
}

static void row_case(struct words *words, FILE *to) {
    struct shop shop;
    struct shophead_row row;
    struct shophead_part part = next_part(words);
    row.edge_nm = next_nm(words);
    row.pitch_nm = next_nm(words);
    row.transverse_pitch_nm = next_nm(words);
    uint32_t rows = next_count(words);
    struct shophead_practice practice = next_practice(words, &shop);
    struct shophead_span span;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    if (!show_error(to, shophead_row_check(&row, &part, rows, &practice, findings, SHOPHEAD_MAX_FINDINGS, &span))) {
        show_findings(to, findings, span);
    }
}

static void points_case(struct words *words, FILE *to) {
    enum { MOST = 32 };
    struct shop shop;
    struct shophead_point points[MOST];
    struct shophead_edge edges[MOST];
    struct shophead_room room[2 * MOST];
    struct shophead_part part = next_part(words);
    uint32_t rows = next_count(words);
    struct shophead_practice practice = next_practice(words, &shop);
    size_t point_count = next_count(words), edge_count = next_count(words);
    for (size_t index = 0; index < point_count; index++) {
        points[index].x_nm = next_nm(words);
        points[index].y_nm = next_nm(words);
    }
    for (size_t index = 0; index < edge_count; index++) {
        edges[index].from.x_nm = next_nm(words);
        edges[index].from.y_nm = next_nm(words);
        edges[index].to.x_nm = next_nm(words);
        edges[index].to.y_nm = next_nm(words);
    }
    struct shophead_pattern pattern;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    if (show_error(to, shophead_points_check(points, point_count, edges, edge_count, &part, rows, &practice, room,
                                             point_count + edge_count, &pattern, findings, SHOPHEAD_MAX_FINDINGS))) {
        return;
    }
    fprintf(to, "  pair %zu %zu ", pattern.closest_pair[0], pattern.closest_pair[1]);
    show_nm(to, pattern.pitch_nm);
    fprintf(to, " edge %zu ", pattern.closest_to_edge);
    show_nm(to, pattern.edge_nm);
    fputs("\n", to);
    show_findings(to, findings, pattern.findings);
}

static void joint_case(struct words *words, FILE *to) {
    struct shophead_layer layers[SHOPHEAD_MAX_LAYERS];
    struct shophead_joint joint;
    memset(&joint, 0, sizeof joint);
    joint.part = next_part(words);
    joint.layer_count = next_layers(words, layers, SHOPHEAD_MAX_LAYERS);
    joint.layers = layers;
    joint.edge_nm = next_nm(words);
    joint.hole_nm = next_nm(words);
    joint.pitch_nm = next_nm(words);
    joint.shear = next_count(words);
    joint.load.kind = next_count(words);
    joint.load.factors = next_count(words);
    joint.load.lbf = next_number(words);
    struct shophead_strength strength;
    struct shophead_sheet sheets[SHOPHEAD_MAX_LAYERS];
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    if (show_error(to, shophead_strength_find(&joint, &strength, sheets, SHOPHEAD_MAX_LAYERS, findings,
                                              SHOPHEAD_MAX_FINDINGS))) {
        return;
    }
    fprintf(to, "  counted %" PRId64, strength.diameter_nm);
    show_basis(to, &strength.diameter_basis);
    fprintf(to, " factor %016" PRIx64 "\n", bits(strength.thin_sheet_factor));
    show_allowable(to, "shear", &strength.shear);
    show_allowable(to, "allowable", &strength.allowable);
    show_allowable(to, "indication", &strength.indication);
    show_allowable(to, "yield", &strength.yield_load);
    show_allowable(to, "net section", &strength.net_section);
    fprintf(to, "  in layer %" PRIu32 " governing ", strength.net_section_layer);
    show_word(to, SHOPHEAD_LIST_MODE, strength.governing);
    fprintf(to, " in layer %" PRIu32 " margin ", strength.governing_layer);
    show_margin(to, &strength.margin);
    fputs(" basis ", to);
    show_basis(to, &strength.basis);
    fputs("\n", to);
    for (uint32_t index = 0; index < strength.sheets; index++) {
        const struct shophead_sheet *sheet = &sheets[index];
        fprintf(to, "  sheet %" PRIu32 " bearing %" PRIu32 " margin %016" PRIx64 " share %016" PRIx64 "\n", sheet->layer,
                (uint32_t)sheet->bearing_kind, bits(sheet->edge_margin), bits(sheet->share));
        show_allowable(to, "bearing", &sheet->bearing);
        show_allowable(to, "bearing yield", &sheet->bearing_yield);
        show_allowable(to, "tear-out", &sheet->tear_out);
        show_allowable(to, "relief", &sheet->tear_out_with_relief);
        show_allowable(to, "net section", &sheet->net_section);
    }
    show_findings(to, findings, strength.findings);
}

static void splice_case(struct words *words, FILE *to) {
    uint32_t material = next_material(words);
    int64_t thickness = next_nm(words), width = next_nm(words);
    struct shophead_part part = next_part(words);
    uint32_t member = next_count(words), rows = next_count(words);
    double per_rivet = next_number(words);
    struct shophead_tables tables;
    struct shophead_tension tension;
    if (!show_error(to, shophead_splice_tables(material, &tables))) {
        uint32_t both[2] = {tables.first, tables.also};
        for (size_t index = 0; index < 2 && both[index] != SHOPHEAD_TABLE_NONE; index++) {
            struct shophead_per_inch per_inch;
            struct shophead_count count;
            struct shophead_laid laid;
            if (show_error(to, shophead_splice_per_inch(both[index], thickness, &part, &per_inch))) {
                continue;
            }
            fprintf(to, "  table %" PRIu32 " %016" PRIx64 " %016" PRIx64 " %016" PRIx64 " by %" PRIu32, both[index],
                    bits(per_inch.printed), bits(per_inch.formula), bits(per_inch.used), (uint32_t)per_inch.critical);
            show_basis(to, &per_inch.basis);
            fputs("\n", to);
            if (show_error(to, shophead_splice_count(per_inch.used, width, member, &count))) {
                continue;
            }
            fprintf(to, "  count %016" PRIx64 " %016" PRIx64 " %" PRIu32, bits(count.per_inch), bits(count.unreduced),
                    count.total);
            show_basis(to, &count.basis);
            fputs("\n", to);
            if (!show_error(to, shophead_splice_lay(count.total, rows, width, &laid))) {
                fprintf(to, "  rows %" PRIu32 " %" PRIu32 " %" PRId64 " %" PRId64 "\n", laid.per_row, laid.total,
                        laid.pitch_nm, laid.first_nm);
            }
        }
    }
    if (!show_error(to, shophead_material_tension(material, thickness, &tension))) {
        struct shophead_needed needed;
        fprintf(to, "  tension %016" PRIx64 " %016" PRIx64, bits(tension.ultimate_psi), bits(tension.yield_psi));
        show_basis(to, &tension.basis);
        fputs("\n", to);
        if (!show_error(to, shophead_splice_needed(tension.ultimate_psi, thickness, width, per_rivet, &needed))) {
            fprintf(to, "  needed %016" PRIx64 " %016" PRIx64 " %016" PRIx64 " %" PRIu32 "\n", bits(needed.load_lbf),
                    bits(needed.per_inch), bits(needed.exact), needed.total);
        }
    }
}

static void group_case(struct words *words, FILE *to) {
    enum { MOST = 32 };
    struct shophead_rivet rivets[MOST];
    struct shophead_room room[MOST * SHOPHEAD_ROOM_PER_RIVET];
    struct shophead_share shares[MOST];
    struct shophead_plane_load load;
    memset(&load, 0, sizeof load);
    size_t count = next_count(words);
    for (size_t index = 0; index < count; index++) {
        struct shophead_rivet rivet;
        memset(&rivet, 0, sizeof rivet);
        rivet.at.x_nm = next_nm(words);
        rivet.at.y_nm = next_nm(words);
        rivet.weight = next_number(words);
        rivet.allowable_known = next_count(words);
        rivet.allowable_lbf = next_number(words);
        rivet.status = SHOPHEAD_STATUS_SHOP;
        rivet.document = text_of("test of the shop");
        rivets[index] = rivet;
    }
    load.x_lbf = next_number(words);
    load.y_lbf = next_number(words);
    load.at.x_nm = next_nm(words);
    load.at.y_nm = next_nm(words);
    load.moment_in_lbf = next_number(words);
    load.kind = next_count(words);
    load.factors = next_count(words);
    struct shophead_group group;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    if (show_error(to, shophead_group_share(rivets, count, &load, room, count * SHOPHEAD_ROOM_PER_RIVET, &group, shares,
                                            count, findings, SHOPHEAD_MAX_FINDINGS))) {
        return;
    }
    fputs("  centroid ", to);
    show_nm(to, group.centroid.x_nm);
    fputs(" ", to);
    show_nm(to, group.centroid.y_nm);
    fputs(" turns about ", to);
    show_nm(to, group.rotation_centre.x_nm);
    fputs(" ", to);
    show_nm(to, group.rotation_centre.y_nm);
    fprintf(to, " polar %016" PRIx64 " moment %016" PRIx64 " most %zu worst %zu margin ", bits(group.polar_in2),
            bits(group.moment_in_lbf), group.most_loaded, group.worst);
    show_margin(to, &group.margin);
    show_basis(to, &group.basis);
    fputs("\n", to);
    for (size_t index = 0; index < count; index++) {
        const struct shophead_share *share = &shares[index];
        fprintf(to, "  share %016" PRIx64 " %016" PRIx64 " %016" PRIx64 " %016" PRIx64 " %016" PRIx64 "\n",
                bits(share->direct.x_lbf), bits(share->direct.y_lbf), bits(share->torsional.x_lbf),
                bits(share->torsional.y_lbf), bits(share->size_lbf));
    }
    show_findings(to, findings, group.findings);
    struct shophead_yielding yieldings[MOST];
    for (size_t index = 0; index < count; index++) {
        memset(&yieldings[index], 0, sizeof yieldings[index]);
        yieldings[index].rivet = rivets[index];
        // Three quarters of the allowable.
        yieldings[index].yield_known = rivets[index].allowable_known;
        yieldings[index].yield_lbf = rivets[index].allowable_lbf * 0.75;
    }
    struct shophead_yielded yielded;
    if (show_error(to, shophead_group_yield(yieldings, count, &load, room, count * SHOPHEAD_ROOM_PER_RIVET, &yielded, findings,
                                            SHOPHEAD_MAX_FINDINGS))) {
        return;
    }
    fprintf(to, "  yields %zu margin ", yielded.worst);
    show_margin(to, &yielded.margin);
    fputs("\n", to);
    show_findings(to, findings, yielded.findings);
}

static void part_case(struct words *words, FILE *to) {
    struct shop shop;
    char sentence[SHOPHEAD_TEXT_MAX];
    char text[256];
    size_t length;
    struct shophead_part part;
    uint32_t warnings;
    strcpy(text, next_word(words));
    struct shophead_practice practice = next_practice(words, &shop);
    if (shophead_part_parse(text, strlen(text), &part, &warnings) != SHOPHEAD_OK) {
        if (!show_error(to, shophead_explain(SHOPHEAD_READING_PART, 0, text, strlen(text), sentence, sizeof sentence,
                                             &length))) {
            fprintf(to, "  %s (%zu bytes)\n", sentence, length);
        }
        return;
    }
    struct shophead_dimensions dimensions;
    struct shophead_span span;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    struct shophead_toleranced hole;
    struct shophead_basis basis;
    fputs("  part ", to);
    show_part(to, &part);
    fputs(" ", to);
    show_word(to, SHOPHEAD_LIST_SERIES, part.series);
    fputs(" ", to);
    show_word(to, SHOPHEAD_LIST_ALLOY, part.alloy);
    fprintf(to, " %" PRIu32 " %" PRIu32 " ", part.dash, part.finish);
    show_nm(to, part.length_nm);
    fprintf(to, " warnings %" PRIu32 "\n", warnings);
    if (!show_error(to, shophead_part_dimensions(&part, &dimensions))) {
        fprintf(to, "  head %" PRIu32 " diameter %" PRId64 " %" PRId64 " shank ", (uint32_t)dimensions.head,
                dimensions.diameter_nm, dimensions.standard_diameter_nm);
        show_range(to, &dimensions.shank);
        fputs(" head ", to);
        show_nm(to, dimensions.head_diameter_nm);
        fputs(" ", to);
        show_nm(to, dimensions.head_height_nm);
        fprintf(to, " step %" PRId64, dimensions.length_step_nm);
        show_basis(to, &dimensions.basis);
        fputs("\n", to);
    }
    if (!show_error(to, shophead_part_check(&part, findings, SHOPHEAD_MAX_FINDINGS, &span))) {
        show_findings(to, findings, span);
    }
    if (!show_error(to, shophead_practice_hole(&practice, &part, &hole, &basis))) {
        fputs("  hole ", to);
        show_toleranced(to, &hole);
        show_basis(to, &basis);
        fputs("\n", to);
    }
    for (uint32_t name = 1;; name++) {
        struct shophead_applies applies;
        shophead_error error = shophead_practice_find(&practice, name, &part, 1, &applies);
        if (error == SHOPHEAD_ERROR_UNKNOWN_NUMBER) {
            break;
        }
        if (show_error(to, error)) {
            continue;
        }
        fputs("  ", to);
        show_word(to, SHOPHEAD_LIST_LIMIT_NAME, name);
        if (applies.value.kind == SHOPHEAD_VALUE_NONE) {
            fputs(" none", to);
        } else if (!show_error(to, shophead_value_print(name, &applies.value, sentence, sizeof sentence, &length))) {
            fprintf(to, " %s", sentence);
        }
        fputs(" ", to);
        show_nm(to, applies.length_nm);
        show_basis(to, &applies.basis);
        for (uint32_t dimpled = 0; dimpled < 2; dimpled++) {
            if (!show_error(to, shophead_practice_find_after_step_up(&practice, name, &part, 1, dimpled, &applies))) {
                show_nm(to, applies.length_nm);
                show_basis(to, &applies.basis);
            }
        }
        fputs("\n", to);
    }
}

static void drill_case(struct words *words, FILE *to) {
    struct shophead_drill drill;
    int64_t diameter = next_nm(words);
    if (!show_error(to, shophead_drill_at_or_above(diameter, &drill))) {
        fputs("  above ", to);
        show_drill(to, &drill);
        fputs("\n", to);
    }
    if (!show_error(to, shophead_drill_at_or_below(diameter, &drill))) {
        fputs("  below ", to);
        show_drill(to, &drill);
        fputs("\n", to);
    }
    for (uint32_t form = SHOPHEAD_FORM_INCHES; form <= SHOPHEAD_FORM_FRACTION; form++) {
        char text[SHOPHEAD_TEXT_MAX];
        size_t length;
        if (!show_error(to, shophead_length_print(diameter, form, text, sizeof text, &length))) {
            fprintf(to, "  is %s\n", text);
        }
    }
}

static void read_case(struct words *words, FILE *to) {
    char text[256];
    char sentence[SHOPHEAD_TEXT_MAX];
    size_t length;
    strcpy(text, next_word(words));
    size_t bytes = strlen(text);
    int64_t nm;
    double lbf;
    struct shophead_toleranced toleranced;
    struct shophead_drill drill;
    uint32_t material;
    if (shophead_length_parse(text, bytes, &nm) == SHOPHEAD_OK) {
        fprintf(to, "  length %" PRId64 "\n", nm);
    }
    if (shophead_toleranced_parse(text, bytes, &toleranced) == SHOPHEAD_OK) {
        fputs("  toleranced ", to);
        show_toleranced(to, &toleranced);
        fputs("\n", to);
    }
    if (shophead_force_parse(text, bytes, &lbf) == SHOPHEAD_OK) {
        fprintf(to, "  force %016" PRIx64 "\n", bits(lbf));
    }
    if (shophead_drill_parse(text, bytes, &drill) == SHOPHEAD_OK) {
        fputs("  drill ", to);
        show_drill(to, &drill);
        fputs("\n", to);
    }
    if (shophead_hole_parse(text, bytes, &nm) == SHOPHEAD_OK) {
        fprintf(to, "  hole %" PRId64 "\n", nm);
    }
    if (shophead_material_parse(text, bytes, &material) == SHOPHEAD_OK) {
        if (!show_error(to, shophead_material_print(material, sentence, sizeof sentence, &length))) {
            fprintf(to, "  material %s\n", sentence);
        }
    }
    for (uint32_t reading = SHOPHEAD_READING_LENGTH; reading <= SHOPHEAD_READING_VALUE; reading++) {
        uint32_t name = 0;
        if (reading == SHOPHEAD_READING_VALUE) name = SHOPHEAD_LIMIT_PITCH_LEAST;
        if (!show_error(to, shophead_explain(reading, name, text, bytes, sentence, sizeof sentence, &length))) {
            fprintf(to, "  %" PRIu32 ": %s\n", reading, sentence);
        }
    }
}

// Answers every case of a text.
static void answer_all(const char *cases, FILE *to) {
    struct words words;
    words.rest = cases;
    for (unsigned long number = 1; *words.rest != 0; number++) {
        char kind[256];
        strcpy(kind, next_word(&words));
        fprintf(to, "%lu %s\n", number, kind);
        if (strcmp(kind, "length") == 0) length_case(&words, to);
        else if (strcmp(kind, "assess") == 0) assess_case(&words, to);
        else if (strcmp(kind, "window") == 0) window_case(&words, to);
        else if (strcmp(kind, "predict") == 0) predict_case(&words, to);
        else if (strcmp(kind, "judge") == 0) judge_case(&words, to);
        else if (strcmp(kind, "hole") == 0) hole_case(&words, to);
        else if (strcmp(kind, "row") == 0) row_case(&words, to);
        else if (strcmp(kind, "points") == 0) points_case(&words, to);
        else if (strcmp(kind, "joint") == 0) joint_case(&words, to);
        else if (strcmp(kind, "splice") == 0) splice_case(&words, to);
        else if (strcmp(kind, "group") == 0) group_case(&words, to);
        else if (strcmp(kind, "part") == 0) part_case(&words, to);
        else if (strcmp(kind, "drill") == 0) drill_case(&words, to);
        else if (strcmp(kind, "read") == 0) read_case(&words, to);
        else {
            fprintf(stderr, "no such case: %s\n", kind);
            exit(2);
        }
    }
}

// The whole of a file, with a zero byte after it; the caller frees it.
static char *read_file(const char *path) {
    FILE *file = fopen(path, "rb");
    long size;
    char *text;
    if (file == NULL || fseek(file, 0, SEEK_END) != 0 || (size = ftell(file)) < 0 || fseek(file, 0, SEEK_SET) != 0) {
        perror(path);
        exit(2);
    }
    text = (char *)malloc((size_t)size + 1);
    if (text == NULL || fread(text, 1, (size_t)size, file) != (size_t)size) {
        perror(path);
        exit(2);
    }
    text[size] = 0;
    fclose(file);
    return text;
}

#endif
