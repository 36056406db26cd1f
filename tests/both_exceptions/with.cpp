// A program of two files: this one is built with exceptions, the other one, linked before it, without. Here a refused text
// is thrown all the same.
#include <keysquare/notation/fen.hpp>

#include <cstdio>

int men_on_board(const char* fen);

int main() {
    if (men_on_board("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1") != 3) return std::puts("the other file reads three men"), 1;
    try {
        static_cast<void>(keysquare::read_fen("no position").value());
    } catch (const keysquare::InputError&) {
        return 0;
    }
    return std::puts("no error was thrown"), 1;
}
