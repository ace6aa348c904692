// Must fail under valgrind and the address sanitizer: memory that nobody frees.
#include "show.h"

int main(void) {
    void *volatile lost = malloc(1000);
    lost = NULL;
    return lost != NULL;
}
