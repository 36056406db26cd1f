#include <iostream>

#include <keysquare/keysquare.hpp>
#include <keysquare/notation/game_file.hpp>

int main(int argc, char** argv) {
    const auto position = keysquare::read_fen(argc > 1 ? argv[1] : keysquare::start_fen);
    if (!position) {
        std::cerr << position.error().what() << '\n';
        return 1;
    }
    // Links what the library itself links for compressed files.
    if (keysquare::read_games("no-such-file.pgn.zst")) return 1;
    const auto candidates = keysquare::candidates(*position);
    if (candidates.empty() || keysquare::sentence(*position, candidates.front()).empty()) return 1;
    std::cout << keysquare::count_legal_moves(*position) << " legal moves\n";
}
