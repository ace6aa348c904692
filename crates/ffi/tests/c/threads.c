// Several threads answer the same cases at once, sharing cases and library and nothing else; each must print what one thread prints alone:
// threads CASES.
#include "answers.h"

#include <pthread.h>

enum { THREADS = 4 };

struct work {
    const char *cases;
    FILE *to;
};

static void *answer_in_thread(void *given) {
    const struct work *work = (const struct work *)given;
    answer_all(work->cases, work->to);
    return NULL;
}

static long size_of(FILE *file) {
    return fseek(file, 0, SEEK_END) == 0 ? ftell(file) : -1;
}

int main(int count, char **arguments) {
    pthread_t threads[THREADS];
    struct work work[THREADS + 1];
    int failures = 0;
    if (count != 2) {
        fputs("threads CASES\n", stderr);
        return 2;
    }
    char *cases = read_file(arguments[1]);
    for (size_t index = 0; index <= THREADS; index++) {
        work[index].cases = cases;
        work[index].to = tmpfile();
        if (work[index].to == NULL) {
            perror("a file");
            return 2;
        }
    }
    for (size_t index = 0; index < THREADS; index++) {
        if (pthread_create(&threads[index], NULL, answer_in_thread, &work[index]) != 0) {
            perror("a thread");
            return 2;
        }
    }
    answer_all(cases, work[THREADS].to);
    for (size_t index = 0; index < THREADS; index++) {
        pthread_join(threads[index], NULL);
    }
    long size = size_of(work[THREADS].to);
    for (size_t index = 0; index < THREADS; index++) {
        int one, other;
        if (size <= 0 || size_of(work[index].to) != size) {
            printf("thread %zu printed another number of bytes\n", index);
            failures++;
        }
        rewind(work[THREADS].to);
        rewind(work[index].to);
        do {
            one = fgetc(work[THREADS].to);
            other = fgetc(work[index].to);
        } while (one == other && one != EOF);
        if (one != other) {
            printf("thread %zu printed something else\n", index);
            failures++;
        }
    }
    for (size_t index = 0; index <= THREADS; index++) {
        fclose(work[index].to);
    }
    free(cases);
    return failures == 0 ? 0 : 1;
}
