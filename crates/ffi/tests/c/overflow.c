// Must fail: a sum that leaves its type. Proves that the sanitizer for undefined behaviour is really at work.
#include "show.h"

int main(void) {
    volatile int32_t most = INT32_MAX;
    most = most + 1;
    return most == 42;
}
