// A program without an operating system's or a C library's help: its own start, its own way out, the five memory functions that compilers
// call behind everybody's back, and the library built without the standard library of its language. It chooses a length, judges a hole and
// ends with status 0 when the answers are right.
//
// For x86-64 Linux, since a test has to end somehow; the library itself asks nothing of a system.
#include <shophead.h>

void *memcpy(void *restrict to, const void *restrict from, size_t count);
void *memmove(void *to, const void *from, size_t count);
void *memset(void *to, int byte, size_t count);
int memcmp(const void *one, const void *other, size_t count);
int bcmp(const void *one, const void *other, size_t count);
void start(void);

void *memcpy(void *restrict to, const void *restrict from, size_t count) {
    unsigned char *out = to;
    const unsigned char *in = from;
    while (count-- > 0) *out++ = *in++;
    return to;
}

void *memmove(void *to, const void *from, size_t count) {
    unsigned char *out = to;
    const unsigned char *in = from;
    if (out < in) {
        while (count-- > 0) *out++ = *in++;
    } else {
        while (count-- > 0) out[count] = in[count];
    }
    return to;
}

void *memset(void *to, int byte, size_t count) {
    unsigned char *out = to;
    while (count-- > 0) *out++ = (unsigned char)byte;
    return to;
}

int memcmp(const void *one, const void *other, size_t count) {
    const unsigned char *a = one, *b = other;
    for (; count > 0; a++, b++, count--) {
        if (*a != *b) return *a < *b ? -1 : 1;
    }
    return 0;
}

int bcmp(const void *one, const void *other, size_t count) {
    return memcmp(one, other, count);
}

static struct shophead_finding findings[SHOPHEAD_MAX_HOLE_FINDINGS];
static struct shophead_step steps[SHOPHEAD_MAX_STEPS];

// 0 when everything is right; otherwise the number of the step that is not.
static int work(void) {
    static const char number[] = "MS20470AD4", material[] = "2024-T3", thicknesses[3][6] = {".032", ".040", ".125"};
    struct shophead_practice practice = {SHOPHEAD_BUILT_IN_HANDBOOK, 0, NULL, 0};
    struct shophead_layer layers[3];
    struct shophead_length_query query;
    struct shophead_length_choice choice;
    struct shophead_part part;
    struct shophead_basis basis;
    uint32_t warnings;
    if (shophead_abi_version() != SHOPHEAD_ABI_VERSION) return 1;
    if ((shophead_features() & SHOPHEAD_FEATURE_STD) != 0) return 2;
    if (shophead_part_parse(number, sizeof number - 1, &part, &warnings) != SHOPHEAD_OK) return 3;
    for (size_t index = 0; index < 3; index++) {
        size_t length = 0;
        while (thicknesses[index][length] != 0) length++;
        layers[index].role = SHOPHEAD_ROLE_SKIN;
        layers[index].preparation = SHOPHEAD_PREPARATION_PLAIN;
        if (shophead_toleranced_parse(thicknesses[index], length, &layers[index].thickness) != SHOPHEAD_OK) return 4;
        if (shophead_material_parse(material, sizeof material - 1, &layers[index].material) != SHOPHEAD_OK) return 5;
    }
    query.part = part;
    query.practice = practice;
    if (shophead_stack_grip(layers, 3, &query.grip) != SHOPHEAD_OK) return 6;
    if (shophead_practice_hole(&practice, &part, &query.hole, &basis) != SHOPHEAD_OK) return 7;
    if (shophead_length_choose(&query, &choice, findings, SHOPHEAD_MAX_FINDINGS) != SHOPHEAD_OK) return 8;
    // README's first example: MS20470AD4-6, 3/8 in long.
    if (choice.length_nm != 9525000) return 9;

    struct shophead_hole_query asked = {
        part, layers, 3, 9525000, 19050000, SHOPHEAD_NONE, 1, SHOPHEAD_MEMBER_SKIN, practice,
    };
    struct shophead_hole found = {3581400, 3302000, SHOPHEAD_DAMAGE_SOUND, 0};
    struct shophead_hole_judgement judgement;
    if (shophead_hole_judge(&asked, &found, &judgement, steps, SHOPHEAD_MAX_STEPS, findings, SHOPHEAD_MAX_HOLE_FINDINGS)
        != SHOPHEAD_OK) return 10;
    if (judgement.disposition != SHOPHEAD_DISPOSITION_OVERSIZE) return 11;

    struct shophead_joint joint = {
        part, layers, 3, 9525000, SHOPHEAD_NONE, SHOPHEAD_NONE, SHOPHEAD_SHEAR_SINGLE, 0,
        {SHOPHEAD_LOAD_LIMIT, SHOPHEAD_FACTORS_SEAM, 100.0},
    };
    struct shophead_strength strength;
    struct shophead_sheet sheets[3];
    if (shophead_strength_find(&joint, &strength, sheets, 3, findings, SHOPHEAD_MAX_FINDINGS) != SHOPHEAD_OK) return 12;
    if (strength.allowable.known != 1 || strength.margin.known != 1 || !(strength.margin.value > 0.0)) return 13;
    if (shophead_length_choose(NULL, &choice, findings, SHOPHEAD_MAX_FINDINGS) != SHOPHEAD_ERROR_NULL) return 14;
    return 0;
}

void start(void) {
    // exit(status) by itself.
    __asm__ volatile("syscall" : : "a"(60L), "D"((long)work()) : "rcx", "r11", "memory");
    for (;;) {
    }
}

__asm__(".globl _start\n_start:\n  xor %ebp, %ebp\n  and $-16, %rsp\n  call start\n");
