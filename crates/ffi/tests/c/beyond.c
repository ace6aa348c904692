// Must fail: reads beyond an array. Proves that the address sanitizer, or valgrind, is really at work.
#include "show.h"

int main(void) {
    int64_t *lengths = (int64_t *)calloc(2, sizeof *lengths);
    volatile size_t beyond = 2;
    int64_t read = lengths[beyond];
    free(lengths);
    return read == 42;
}
