#include <iostream>

#include <keysquare/board/legal.hpp>
#include <keysquare/features/findings.hpp>
#include <keysquare/notation/fen.hpp>

int main(int argc, char** argv) {
    const auto position = keysquare::read_fen(argc > 1 ? argv[1] : keysquare::start_fen);
    if (!position) {
        std::cerr << position.error().what() << '\n';
        return 1;
    }
    // All of it is in headers, so that this program links nothing.
    if (keysquare::findings(*position).empty()) return 1;
    std::cout << keysquare::count_legal_moves(*position) << " legal moves\n";
}
