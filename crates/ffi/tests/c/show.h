// What the test programs share: every structure of an answer printed to the last bit, one line or several.
#ifndef SHOW_H
#define SHOW_H

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <shophead.h>

// A floating-point number bit by bit, so that no rounding hides a difference.
static inline uint64_t bits(double number) {
    uint64_t pattern;
    memcpy(&pattern, &number, sizeof pattern);
    return pattern;
}

static inline double number_of(uint64_t pattern) {
    double number;
    memcpy(&number, &pattern, sizeof number);
    return number;
}

static inline void show_text(FILE *to, struct shophead_text text) {
    fprintf(to, "%.*s", (int)text.length, text.start);
}

static inline struct shophead_text text_of(const char *zero_ended) {
    struct shophead_text text;
    text.start = zero_ended;
    text.length = strlen(zero_ended);
    return text;
}

static inline void show_word(FILE *to, uint32_t list, uint32_t number) {
    struct shophead_text word;
    if (number == 0) {
        fputs("-", to);
    } else if (shophead_word(list, number, &word) == SHOPHEAD_OK) {
        show_text(to, word);
    } else {
        fprintf(to, "unknown:%" PRIu32, number);
    }
}

static inline void show_nm(FILE *to, int64_t nm) {
    if (nm == SHOPHEAD_NONE) {
        fputs("none", to);
    } else {
        fprintf(to, "%" PRId64, nm);
    }
}

static inline void show_basis(FILE *to, const struct shophead_basis *basis) {
    fputs("[", to);
    show_text(to, basis->document);
    fputs("|", to);
    show_text(to, basis->place);
    fputs("|", to);
    show_word(to, SHOPHEAD_LIST_STATUS, basis->status);
    fputs("]", to);
}

static inline void show_given(FILE *to, const struct shophead_given *given) {
    show_nm(to, given->nm);
    show_basis(to, &given->basis);
}

static inline void show_toleranced(FILE *to, const struct shophead_toleranced *length) {
    show_nm(to, length->min_nm);
    fputs("/", to);
    show_nm(to, length->nominal_nm);
    fputs("/", to);
    show_nm(to, length->max_nm);
}

static inline void show_range(FILE *to, const struct shophead_range *range) {
    show_nm(to, range->min_nm);
    fputs("/", to);
    show_nm(to, range->max_nm);
}

static inline void show_figure(FILE *to, const struct shophead_figure *figure) {
    switch (figure->kind) {
    case SHOPHEAD_FIGURE_NONE: fputs("none", to); break;
    case SHOPHEAD_FIGURE_LENGTH: fprintf(to, "length:%" PRId64, figure->whole); break;
    case SHOPHEAD_FIGURE_COUNT: fprintf(to, "count:%" PRId64, figure->whole); break;
    case SHOPHEAD_FIGURE_FACTS: fprintf(to, "facts:%" PRId64, figure->whole); break;
    case SHOPHEAD_FIGURE_KEY: fprintf(to, "key:%" PRId64, figure->whole); break;
    case SHOPHEAD_FIGURE_FORCE: fprintf(to, "force:%016" PRIx64, bits(figure->number)); break;
    case SHOPHEAD_FIGURE_STRESS: fprintf(to, "stress:%016" PRIx64, bits(figure->number)); break;
    case SHOPHEAD_FIGURE_RATIO: fprintf(to, "ratio:%016" PRIx64 ":%" PRId64, bits(figure->number), figure->whole); break;
    default: fprintf(to, "unknown:%" PRIu32, (uint32_t)figure->kind);
    }
}

static inline void show_findings(FILE *to, const struct shophead_finding *findings, struct shophead_span span) {
    fprintf(to, "  findings %" PRIu32 " complete %" PRIu32 "\n", span.count, span.complete);
    for (uint32_t index = 0; index < span.count; index++) {
        const struct shophead_finding *finding = &findings[span.first + index];
        fputs("  - ", to);
        show_word(to, SHOPHEAD_LIST_CODE, finding->code);
        fputs(" ", to);
        show_word(to, SHOPHEAD_LIST_SEVERITY, finding->severity);
        fprintf(to, " layer %" PRIu32 " ", finding->layer);
        show_figure(to, &finding->measured);
        fputs(" ", to);
        show_figure(to, &finding->limit);
        fputs(" ", to);
        show_basis(to, &finding->basis);
        fputs("\n", to);
        for (uint32_t units = SHOPHEAD_UNITS_INCHES; units <= SHOPHEAD_UNITS_MILLIMETRES; units++) {
            for (uint32_t saying = SHOPHEAD_SAYING_SENTENCE; saying <= SHOPHEAD_SAYING_SHORT; saying++) {
                char said[SHOPHEAD_TEXT_MAX];
                size_t length;
                shophead_error error = shophead_finding_say(finding, units, saying, said, sizeof said, &length);
                fprintf(to, "    %s\n", error == SHOPHEAD_OK && said[length] == 0 ? said : "unsaid");
            }
        }
    }
}

static inline void show_part(FILE *to, const struct shophead_part *part) {
    char number[SHOPHEAD_TEXT_MAX];
    size_t length;
    if (part->series == 0) {
        fputs("none", to);
    } else if (shophead_part_print(part, number, sizeof number, &length) == SHOPHEAD_OK) {
        fputs(number, to);
    } else {
        fputs("unprintable", to);
    }
}

static inline void show_drill(FILE *to, const struct shophead_drill *drill) {
    fprintf(to, "%s ", drill->name[0] == 0 ? "none" : drill->name);
    show_nm(to, drill->diameter_nm);
    show_basis(to, &drill->basis);
}

static inline void show_allowable(FILE *to, const char *name, const struct shophead_allowable *allowable) {
    fprintf(to, "  %s ", name);
    if (allowable->known != 0) {
        fprintf(to, "%016" PRIx64, bits(allowable->lbf));
        show_basis(to, &allowable->basis);
    } else {
        fputs("none", to);
    }
    fputs("\n", to);
}

static inline void show_margin(FILE *to, const struct shophead_margin *margin) {
    if (margin->known != 0) {
        fprintf(to, "%016" PRIx64 " of %016" PRIx64, bits(margin->value), bits(margin->factored_load_lbf));
    } else {
        fputs("none", to);
    }
}

// The sentence of an error on a line of its own. True when it was one.
static inline int show_error(FILE *to, shophead_error error) {
    char sentence[SHOPHEAD_TEXT_MAX];
    size_t length;
    if (error == SHOPHEAD_OK) {
        return 0;
    }
    if (shophead_error_message(error, sentence, sizeof sentence, &length) != SHOPHEAD_OK) {
        strcpy(sentence, "no sentence");
    }
    fprintf(to, "  error: %s\n", sentence);
    return 1;
}

#endif
