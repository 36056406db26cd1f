// A program without exceptions that uses the headers: errors are values.
#include <keysquare/keysquare.hpp>

#include <cstdio>
#include <cstring>

using namespace keysquare;

namespace {

int failed(const char* what) {
    std::fprintf(stderr, "%s\n", what);
    return 1;
}

} // namespace

int main() {
    if (read_fen("8/8/8/8/8/8/8/8 w - - 0 1").error().reason != Reason::no_king) return failed("a board without kings");
    const Result<Position> position = read_fen("6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 w - - 0 1");
    if (!position) return failed("a sound FEN");
    const Findings found = findings(*position);
    if (found.empty() || found.front().gain != 3) return failed("the knight on d6 hangs");
    if (san(*position, found.front().line.front()) != "Rxd6") return failed("and how it is taken");
    if (!read_san(*position, "Rxd6")) return failed("a sound move");
    if (read_san(*position, "Rd9")) return failed("a move beyond the board");
    if (!read_epd("6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 w - - bm Rxd6;")) return failed("a sound EPD");
    return 0;
}
