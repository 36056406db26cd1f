// Asks one question of each part, so that whatever the installed library lacks is seen when this is linked.
#include <algorithm>
#include <array>
#include <cstdint>
#include <iostream>
#include <string>
#include <string_view>

#include <keysquare/keysquare.hpp>
#include <keysquare/lesson/finding_marks.hpp>
#include <keysquare/lesson/json.hpp>
#include <keysquare/notation/game_file.hpp>
#include <keysquare/research/scan.hpp>
#include <keysquare/research/summary.hpp>

namespace {

namespace ks = keysquare;

/// What a lesson says of a position: a rook attacks the knight, which must not leave the file, either.
std::array<std::string, 11> lesson() {
    const ks::Position position = ks::read_fen("4r1k1/5ppp/8/8/4N3/8/5PPP/6K1 w - - 0 1").value();
    const ks::Findings found = ks::findings(position);
    const ks::Threat threat = ks::threats(position).at(0);
    const ks::Candidate candidate = ks::candidates(position).at(0);
    return {ks::sentence(position, found.at(0)),
            ks::sentence(position, threat, ks::parries(position, threat)),
            ks::sentence(position, candidate),
            ks::sentence(position, ks::answers(position, candidate.move)),
            ks::sentence(ks::route(position, ks::Square::e4, ks::Square::b5).value()),
            ks::paragraph(position, ks::outlook(position)),
            ks::paragraph(position, ks::exchange_outlook(position).value()),
            ks::paragraph(ks::difficulty(position, ks::Side::white)),
            ks::paragraph(ks::check_plan(position, ks::Side::white, std::array<std::string_view, 1>{"h3"}).value()),
            ks::diagram(position, ks::diagram_of(position, found)),
            ks::findings_json(position, found)};
}

/// What is said of a game, and its text.
std::array<std::string, 2> review() {
    const ks::Game game = ks::read_pgn("1. f3 e5 2. g4 Qh4# 0-1").value();
    if (!ks::game_states(game).back().mover_is_mated) return {};
    return {ks::game_report_json(game, ks::game_report(game)), ks::write_pgn(game)};
}

/// Whether the numbers that researchers take are those of a position, and tables of no files empty.
bool counts(const ks::Position& position, int legal_moves) {
    std::array<std::int16_t, ks::feature_count> row{};
    ks::feature_vector(position, row);
    if (row.at(ks::feature_column("legal_moves")) != legal_moves) return false;
    const ks::ChosenColumn column = ks::scan_column("legal_moves").value();
    ks::Scan scan{ks::shards({}), {column}, {}, 1};
    ks::Summarising summarising{{}, ks::Summary{{}, {column}}, {}, 1};
    return !ks::difficulty_numbers().empty() && scan.next() == nullptr &&
           ks::Summary::from_bytes(summarising.result().bytes()).has_value();
}

/// Whether no file is read or written where there is none. Links what the library itself links for compressed files.
bool refuses_files() {
    if (ks::read_games("no-such-file.pgn.zst")) return false;
    try {
        ks::GameFileWriter{"no-such-folder/games.pgn.zst"};
        return false;
    } catch (const ks::InputError&) {
        return true;
    }
}

bool is_empty(const std::string& text) { return text.empty(); }

} // namespace

int main(int argc, char** argv) {
    const auto position = ks::read_fen(argc > 1 ? argv[1] : ks::start_fen);
    if (!position) {
        std::cerr << position.error().what() << '\n';
        return 1;
    }
    const int legal_moves = ks::count_legal_moves(*position);
    if (std::ranges::any_of(lesson(), is_empty) || std::ranges::any_of(review(), is_empty)) return 1;
    if (!counts(*position, legal_moves) || !refuses_files()) return 1;
    std::cout << legal_moves << " legal moves\n";
}
