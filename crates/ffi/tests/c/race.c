// Must fail: two threads count on one number. Proves that the thread sanitizer is really at work.
#include "show.h"

#include <pthread.h>

static long counted = 0;

static void *count_up(void *nothing) {
    for (int turn = 0; turn < 100000; turn++) {
        counted++;
    }
    return nothing;
}

int main(void) {
    pthread_t one, other;
    if (pthread_create(&one, NULL, count_up, NULL) != 0 || pthread_create(&other, NULL, count_up, NULL) != 0) {
        return 2;
    }
    pthread_join(one, NULL);
    pthread_join(other, NULL);
    return counted == 42;
}
