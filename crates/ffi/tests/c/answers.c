// Prints the answers to the cases of a file: answers CASES. Compiled as C11 and as C++17.
#include "answers.h"

int main(int count, char **arguments) {
    if (count != 2) {
        fputs("answers CASES\n", stderr);
        return 2;
    }
    if (shophead_abi_version() != SHOPHEAD_ABI_VERSION) {
        fputs("the library and the header have different versions\n", stderr);
        return 2;
    }
    char *cases = read_file(arguments[1]);
    answer_all(cases, stdout);
    free(cases);
    return 0;
}
