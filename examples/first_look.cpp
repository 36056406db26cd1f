#include <iostream>
#include <keysquare/keysquare.hpp>

int main() {
    namespace ks = keysquare;
    const ks::Position position =
        ks::read_fen("4r1k1/1b1q1ppp/p4b2/1p1p4/2rN1P1P/P2R2Q1/1PP1N3/1K4R1 w - - 1 24").value();
    const ks::Findings found = ks::findings(position); // strongest first
    std::cout << ks::sentence(position, found.front()) << '\n';
    std::cout << ks::line_text(position, found.front().line) << '\n';
}
