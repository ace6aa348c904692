#include <shophead.h>
#include <stdio.h>

int main(void) {
    struct shophead_length_query query = {.practice = {.built_in = SHOPHEAD_BUILT_IN_HANDBOOK}};
    struct shophead_length_choice choice;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    struct shophead_basis basis;
    uint32_t warnings;
    char number[SHOPHEAD_TEXT_MAX];
    size_t length;
    if (shophead_part_parse("MS20470AD5", 10, &query.part, &warnings) != SHOPHEAD_OK) return 1;
    if (shophead_toleranced_parse(".322+-.009", 10, &query.grip) != SHOPHEAD_OK) return 1;
    if (shophead_practice_hole(&query.practice, &query.part, &query.hole, &basis) != SHOPHEAD_OK) return 1;
    if (shophead_length_choose(&query, &choice, findings, SHOPHEAD_MAX_FINDINGS) != SHOPHEAD_OK) return 1;
    if (shophead_part_with_length(&query.part, choice.length_nm, &query.part) != SHOPHEAD_OK) return 1;
    if (shophead_part_print(&query.part, number, sizeof number, &length) != SHOPHEAD_OK) return 1;
    printf("%s, and %u findings\n", number, choice.findings.count);
    return 0;
}
