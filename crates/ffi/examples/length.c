#include <shophead.h>
#include <stdio.h>
#include <string.h>

int main(void) {
    const char *part = "MS20470AD5", *layers = "2024-T3:.032, 2024-T3:.040, 2024-T3:.250";
    struct shophead_practice practice = {.built_in = SHOPHEAD_BUILT_IN_HANDBOOK};
    struct shophead_fitted fitted;
    struct shophead_finding findings[SHOPHEAD_MAX_FINDINGS];
    char said[SHOPHEAD_TEXT_MAX];
    size_t length;
    if (shophead_length_fit(part, strlen(part), layers, strlen(layers), &practice, &fitted, findings, SHOPHEAD_MAX_FINDINGS)) return 1;
    if (shophead_part_print(&fitted.part, said, sizeof said, &length)) return 1;
    puts(said);
    for (uint32_t each = 0; each < fitted.choice.findings.count; each++) {
        if (shophead_finding_say(&findings[each], SHOPHEAD_UNITS_INCHES, SHOPHEAD_SAYING_SENTENCE, said, sizeof said, &length)) return 1;
        puts(said);
    }
    return 0;
}
