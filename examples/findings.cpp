// What a trainer's author starts from: reads a FEN from the command line and prints what the library sees, with proof.
//
//     findings "6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 w - - 0 1"
#include <iostream>
#include <string>

#include <keysquare/keysquare.hpp>

int main(int argc, char** argv) {
    namespace ks = keysquare;
    if (argc != 2) {
        std::cerr << "usage: " << argv[0] << " FEN   (the FEN in quotes)\n";
        return 2;
    }
    const ks::Result<ks::Position> position = ks::read_fen(argv[1]);
    if (!position) {
        std::cerr << "This is no position to look at: " << position.error().what() << '\n';
        return 1;
    }
    for (const ks::Finding& finding : ks::findings(*position)) {
        std::cout << ks::name(finding.theme) << ": " << ks::sentence(*position, finding) << '\n';
        if (finding.line.size() > 1)
            std::cout << "    " << ks::line_text(ks::start_of_line(*position, finding), finding.line) << '\n';
    }
}
