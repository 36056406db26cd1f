// The findings of pawns and kings: worked positions with what is told and what is not, the sentences, and the two
// mirrors. Positions are made up unless a name stands beside them.
#include <keysquare/features/king_themes.hpp>
#include <keysquare/features/pawn_themes.hpp>
#include <keysquare/lesson/explain.hpp>

#include <boost/test/unit_test.hpp>

#include <algorithm>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

namespace {

Findings themes_of(const Position& position) {
    Findings found;
    const BoardView view{position};
    find_pawn_themes(view, found);
    find_king_themes(view, found);
    return found;
}

Position at(std::string_view text) { return read_fen(text).value(); }

/// The sentences of one theme, in the order in which they were found.
std::vector<std::string> told(std::string_view text, Theme theme) {
    std::vector<std::string> sentences;
    const Position position = at(text);
    for (const Finding& finding : themes_of(position))
        if (finding.theme == theme) sentences.push_back(sentence(position, finding));
    return sentences;
}

using Told = std::vector<std::string>;

/// What a mirror must keep of a finding, as plain numbers that can be sorted.
template <class Map> std::vector<std::uint64_t> essence(const Finding& finding, Map map, bool flip, bool swap_wings) {
    Detail kind = finding.detail;
    if (swap_wings && kind == Detail::queenside)
        kind = Detail::kingside;
    else if (swap_wings && kind == Detail::kingside)
        kind = Detail::queenside;
    std::vector<std::uint64_t> words{static_cast<std::uint64_t>(finding.theme), static_cast<std::uint64_t>(kind),
                                     index(flip ? other(finding.side) : finding.side),
                                     test::mapped(finding.squares, map).bits()};
    Squares men;
    for (const Placed& placed : finding.pieces) men |= Squares{map(placed.square)};
    const bool all_named = finding.pieces.size() < finding.pieces.capacity();
    words.push_back(all_named ? men.bits() : 0);
    words.push_back(finding.pieces.size());
    for (const Number& number : finding.numbers) {
        words.push_back(static_cast<std::uint64_t>(number.measure));
        words.push_back(static_cast<std::uint64_t>(number.value));
    }
    return words;
}

template <class Map>
std::vector<std::vector<std::uint64_t>> essences(const Position& position, Map map, bool flip, bool swap_wings) {
    std::vector<std::vector<std::uint64_t>> all;
    for (const Finding& finding : themes_of(position)) all.push_back(essence(finding, map, flip, swap_wings));
    std::sort(all.begin(), all.end());
    return all;
}

} // namespace

BOOST_AUTO_TEST_SUITE(pawn_and_king_themes)

BOOST_AUTO_TEST_CASE(nothing_to_say_at_the_start_or_about_bare_kings) {
    BOOST_TEST(themes_of(start_position()).empty());
    BOOST_TEST(themes_of(at("4k3/8/8/8/8/8/8/4K3 w - - 0 1")).empty());
}

BOOST_AUTO_TEST_CASE(weak_pawns_are_good_for_the_other_side) {
    const char* fen = "4k3/p4p2/3p1p2/4p3/4P3/1P6/P7/4K3 w - - 0 1";
    BOOST_TEST(told(fen, Theme::isolated_pawn) ==
                   (Told{"White has one isolated pawn (e4).", "Black has one isolated pawn (a7)."}),
               boost::test_tools::per_element());
    BOOST_TEST(told(fen, Theme::doubled_pawns) == Told{"Black has 2 doubled pawns (f6 and f7)."},
               boost::test_tools::per_element());
    BOOST_TEST(told(fen, Theme::backward_pawn) == Told{"Black has 2 backward pawns (d6 and f6)."},
               boost::test_tools::per_element());
    for (const Finding& finding : themes_of(at(fen)))
        if (finding.theme == Theme::doubled_pawns) BOOST_TEST((finding.side == Side::white));
    const char* sound = "4k3/pp6/8/8/8/8/PP6/4K3 w - - 0 1";
    for (const Theme theme : {Theme::isolated_pawn, Theme::doubled_pawns, Theme::backward_pawn})
        BOOST_TEST(told(sound, theme).empty());
}

BOOST_AUTO_TEST_CASE(passed_pawns_one_by_one) {
    BOOST_TEST(told("4k3/5p2/8/1PP5/P7/8/5P2/4K3 w - - 0 1", Theme::passed_pawn) ==
                   (Told{"The pawn on a4 is a passed pawn, connected with the pawn on b5; it has 4 steps to go.",
                         "The pawn on b5 is a passed pawn, guarded by the pawn on a4; it has 3 steps to go.",
                         "The pawn on c5 is a passed pawn, connected with the pawn on b5; it has 3 steps to go."}),
               boost::test_tools::per_element());
    BOOST_TEST(told("4k3/P4pp1/8/8/8/8/5PP1/4K3 w - - 0 1", Theme::passed_pawn) ==
                   Told{"The pawn on a7 is an outside passed pawn; it has one step to go."},
               boost::test_tools::per_element());
    BOOST_TEST(told("4k3/7p/8/4P3/8/8/7P/4K3 w - - 0 1", Theme::passed_pawn) ==
                   Told{"The pawn on e5 is a passed pawn; it has 3 steps to go."},
               boost::test_tools::per_element());
    BOOST_TEST(told("4k3/5p2/8/4P3/8/8/8/4K3 w - - 0 1", Theme::passed_pawn).empty());
    BOOST_TEST(told("4k3/6p1/8/8/8/8/5PP1/4K3 w - - 0 1", Theme::candidate_to_pass) ==
                   Told{"The pawn on f2 is a candidate to pass: no pawn stands before it on its file, and it has one "
                        "helper against one enemy pawn beside its way."},
               boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(chains_and_their_bases) {
    // The advance variation of the French defence (common practice, no source): no pawn of Black can hit b2 or f7.
    BOOST_TEST(told("rnbqkbnr/pp3ppp/4p3/2ppP3/3P4/2P5/PP3PPP/RNBQKBNR b KQkq - 0 4", Theme::pawn_chain) ==
                   (Told{"White has a chain of 4 pawns (b2, c3, d4 and e5).",
                         "Black has a chain of 3 pawns (d5, e6 and f7)."}),
               boost::test_tools::per_element());
    // Without the c-pawn before it, d4 is the base, and c5 can hit it.
    BOOST_TEST(told("4k3/2p5/4p3/3pP3/3P4/8/8/4K3 b - - 0 1", Theme::pawn_chain) ==
                   Told{"The pawns on d4 and e5 form a chain; a pawn of Black can advance and attack its base, the "
                        "pawn on d4."},
               boost::test_tools::per_element());
    BOOST_TEST(told("4k3/8/4p3/2ppP3/3P4/8/8/4K3 b - - 0 1", Theme::pawn_chain) ==
                   (Told{"The pawns on d4 and e5 form a chain, and a pawn of Black attacks its base, the pawn on d4."}),
               boost::test_tools::per_element());
    // Three pawns in the shape of a roof are no chain to speak of.
    BOOST_TEST(told("4k3/8/8/8/3P4/2P1P3/8/4K3 w - - 0 1", Theme::pawn_chain).empty());
}

BOOST_AUTO_TEST_CASE(islands_majorities_and_blocks) {
    const char* fen = "4k3/5ppp/8/p7/P1P5/8/PP3P1P/4K3 w - - 0 1";
    BOOST_TEST(told(fen, Theme::pawn_islands) == Told{"Black has 2 pawn islands, White 3."},
               boost::test_tools::per_element());
    BOOST_TEST(told(fen, Theme::pawn_majority) == (Told{"White has the majority on the queenside: 4 pawns against 1.",
                                                        "Black has the majority on the kingside: 3 pawns against 2."}),
               boost::test_tools::per_element());
    BOOST_TEST(told("4k3/8/8/8/8/8/PP6/4K3 w - - 0 1", Theme::pawn_majority).empty()); // against nothing
    BOOST_TEST(told("4k3/8/8/8/8/8/PP1P4/4K3 w - - 0 1", Theme::pawn_islands).empty());
    BOOST_TEST(told("4k3/8/4p3/3pP3/3P4/8/8/4K3 b - - 0 1", Theme::blocked_pawns) ==
                   Told{"The pawns on d4, d5, e5 and e6 fix each other."},
               boost::test_tools::per_element());
    BOOST_TEST(told("4k3/8/8/3p4/3P4/8/8/4K3 b - - 0 1", Theme::blocked_pawns).empty()); // one pair is nothing special
    BOOST_TEST(told("4k3/8/3n4/3P4/8/4P3/4P3/4K3 w - - 0 1", Theme::blocked_pawns) ==
                   Told{"Black blockades a pawn from d6."},
               boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(levers_that_do_not_lose_the_pawn) {
    BOOST_TEST(told("4k3/8/8/3p4/8/4P3/4K3/8 w - - 0 1", Theme::pawn_lever).empty()); // one attacker, no guard
    BOOST_TEST(
        told("4k3/8/8/3p4/8/3KP3/8/8 w - - 0 1", Theme::pawn_lever) ==
            Told{"White has a lever: the pawn on e3 can go to e4 and attack the pawn on d5; taking it would open "
                 "the e-file."},
        boost::test_tools::per_element());
    BOOST_TEST(told("4k3/4p3/8/3p4/8/3KP3/8/8 w - - 0 1", Theme::pawn_lever) ==
                   Told{"White has a lever: the pawn on e3 can go to e4 and attack the pawn on d5; an exchange there "
                        "would make the e-file half-open for White."},
               boost::test_tools::per_element());
    BOOST_TEST(told("4k3/8/8/3p4/8/3KP3/4P3/8 w - - 0 1", Theme::pawn_lever) ==
                   Told{"White has a lever: the pawn on e3 can go to e4 and attack the pawn on d5."},
               boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(shelter_and_lines_when_there_is_someone_to_attack) {
    const char* bare = "3q2k1/5ppp/8/8/8/6P1/5P2/6K1 w - - 0 1";
    BOOST_TEST(told(bare, Theme::king_shelter) ==
                   Told{"The shelter of the king on g1 has gaps: it has 2 shield pawns."},
               boost::test_tools::per_element());
    BOOST_TEST(told("6k1/5ppp/8/8/8/6P1/5P2/6K1 w - - 0 1", Theme::king_shelter).empty()); // nobody there
    BOOST_TEST(told("3r2k1/5ppp/8/8/8/6P1/5P2/6K1 w - - 0 1", Theme::king_shelter).empty());
    BOOST_TEST(told("2rr2k1/5ppp/8/8/8/6P1/5P2/6K1 w - - 0 1", Theme::king_shelter).size() == 1U);
    BOOST_TEST(told("3q2k1/5ppp/8/8/8/7P/5PP1/6K1 w - - 0 1", Theme::king_shelter).empty()); // intact
    // The h-file is half-open for Black, who has nobody on it, then a rook.
    BOOST_TEST(told("3q2k1/5pp1/8/8/8/6P1/5P1P/6K1 w - - 0 1", Theme::king_lines).empty());
    BOOST_TEST(told("3q1rk1/5pp1/8/8/7r/6P1/5P1P/6K1 w - - 0 1", Theme::king_lines) ==
                   Told{"Black has the rook on h4 on the half-open h-file, which leads to the king on g1 or past it."},
               boost::test_tools::per_element());
    BOOST_TEST(told("6k1/5p1p/8/8/3Q4/8/5P2/6K1 w - - 0 1", Theme::king_lines) ==
                   (Told{"The open g-file leads to the king on g8 or past it.",
                         "White has a diagonal on the king on g8, held by the queen on d4."}),
               boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(zone_escape_and_centre) {
    BOOST_TEST(told("6k1/5ppp/8/4N2Q/8/8/5PPP/6K1 w - - 0 1", Theme::near_king) ==
                   Told{"White has 2 attackers round the king on g8, Black no defender."},
               boost::test_tools::per_element());
    BOOST_TEST(told("6k1/5ppp/8/7Q/8/8/5PPP/6K1 w - - 0 1", Theme::near_king).empty());

    BOOST_TEST(told("6k1/5ppp/8/8/8/8/8/4R1K1 w - - 0 1", Theme::king_escape) ==
                   Told{"The king on g8 has no luft: it can't step off its first rank."},
               boost::test_tools::per_element());
    BOOST_TEST(told("6k1/5ppp/8/8/8/8/8/4B1K1 w - - 0 1", Theme::king_escape).empty()); // no rook or queen
    BOOST_TEST(told("6k1/5pp1/7p/8/8/8/8/4R1K1 w - - 0 1", Theme::king_escape).empty());
    BOOST_TEST(told("5rkr/5ppp/8/8/8/8/8/4N1K1 w - - 0 1", Theme::king_escape) ==
                   Told{"The king on g8 has no square to go to."},
               boost::test_tools::per_element());

    BOOST_TEST(told("4k2r/5ppp/8/8/8/8/5PPP/3Q2K1 w k - 0 1", Theme::king_in_centre) ==
                   Told{"The king on e8 is in the centre, where White has the d-file and e-file for an attack, but may "
                        "still castle."},
               boost::test_tools::per_element());
    BOOST_TEST(told("4k2r/3PpPpp/8/8/8/4P3/5PPP/3Q2K1 b k - 0 1", Theme::king_in_centre).empty()); // nothing open
    BOOST_TEST(told("4k2r/3p1ppp/8/8/8/3P4/4PPPP/3Q2K1 w - - 0 1", Theme::king_in_centre) ==
                   Told{"The king on e8 is in the centre and can't castle any more."},
               boost::test_tools::per_element());
    BOOST_TEST(told("4k2r/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1", Theme::king_in_centre).empty()); // no queen
}

BOOST_AUTO_TEST_CASE(a_mirror_gives_the_mirrored_findings) {
    const auto itself = [](Square square) { return square; };
    std::size_t compared = 0;
    std::array<int, static_cast<std::size_t>(Theme::end_)> seen{};
    for (const Position& position : test::random_positions(500, 73)) BOOST_TEST_CONTEXT(fen(position)) {
            const auto found = themes_of(position);
            compared += found.size();
            for (const Finding& finding : found) {
                ++seen[static_cast<std::size_t>(finding.theme)];
                BOOST_TEST(finding.line.empty());
                for (const Placed& placed : finding.pieces)
                    BOOST_TEST((position.piece_at(placed.square) == placed.piece));
            }
            BOOST_TEST((essences(position, test::left_right, false, true) ==
                        essences(test::mirrored(position), itself, false, false)));
            BOOST_TEST((essences(position, test::up_down, true, false) ==
                        essences(test::flipped(position), itself, false, false)));
        }
    BOOST_TEST(compared > 3000U);
    for (auto theme = Theme::isolated_pawn; theme < Theme::end_;
         theme = static_cast<Theme>(static_cast<int>(theme) + 1))
        BOOST_TEST(seen[static_cast<std::size_t>(theme)] > 50, name(theme));
}

BOOST_AUTO_TEST_SUITE_END()
