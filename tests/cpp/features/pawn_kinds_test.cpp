// Backward, passed and candidate pawns, chains, levers, blocked pawns and majorities: worked positions, border cases, a
// slow twin square by square, and the two mirrors. Positions are made up unless a name stands beside them.
#include <keysquare/features/backward_pawns.hpp>
#include <keysquare/features/blocked_pawns.hpp>
#include <keysquare/features/passed_pawns.hpp>
#include <keysquare/features/pawn_chains.hpp>
#include <keysquare/features/pawn_levers.hpp>
#include <keysquare/features/pawn_majority.hpp>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

namespace {

Position at(std::string_view text) { return read_fen(text).value(); }

/// Everything about the pawns of one side, to compare and to mirror.
struct Kinds {
    Squares backward, guarded, connected, outside, candidates, chained, bases, heads, deep, arrivals, opens, half_opens,
        contact, fixed, blockaded, obstructed;
    std::array<int, 2> majorities{}; ///< kingside, queenside

    friend bool operator==(const Kinds&, const Kinds&) = default;
};

Kinds kinds_of(const Position& position, Side side) {
    Kinds kinds;
    const PassedPawns passed = passed_pawns(position, side);
    const BlockedPawns blocked = blocked_pawns(position, side);
    kinds.backward = backward_pawns(position, side);
    kinds.guarded = passed.guarded;
    kinds.connected = passed.connected;
    kinds.outside = passed.outside;
    kinds.candidates = candidates_to_pass(position, side);
    for (const PawnChain& chain : pawn_chains(position, side)) {
        BOOST_TEST((kinds.chained & chain.pawns).empty());
        kinds.chained |= chain.pawns;
        kinds.bases |= chain.base;
        kinds.heads |= chain.head;
        kinds.deep |= chain.deep;
    }
    kinds.arrivals = pawn_lever_arrivals(position, side);
    for (const Square arrival : kinds.arrivals) {
        const PawnLever lever = pawn_lever_to(position, side, arrival);
        if (lever.opens_file) kinds.opens |= Squares{lever.pawn};
        if (lever.half_opens_file) kinds.half_opens |= Squares{lever.pawn};
    }
    kinds.contact = pawns_in_contact(position, side);
    kinds.fixed = blocked.fixed;
    kinds.blockaded = blocked.blockaded;
    kinds.obstructed = blocked.obstructed;
    for (const Wing wing : all_wings) kinds.majorities[index(wing)] = wing_pawns(position, side, wing).majority();
    return kinds;
}

/// A board that is asked by file and by rank as the side counts it.
struct Board {
    const Position& position;
    Side side;

    [[nodiscard]] Square square(int file, int rank) const {
        return square_at(file, side == Side::white ? rank : 7 - rank);
    }
    [[nodiscard]] Piece man(int file, int rank) const {
        return file < 0 || file > 7 || rank < 0 || rank > 7 ? Piece{} : position.piece_at(square(file, rank));
    }
    [[nodiscard]] bool own(int file, int rank) const { return man(file, rank) == Piece{side, Kind::pawn}; }
    [[nodiscard]] bool enemy(int file, int rank) const { return man(file, rank) == Piece{other(side), Kind::pawn}; }
    /// Pawns on the file, from one rank to another, both included.
    [[nodiscard]] int owns(int file, int from, int to) const {
        int count = 0;
        for (int rank = from; rank <= to; ++rank) count += own(file, rank);
        return count;
    }
    [[nodiscard]] int enemies(int file, int from, int to) const {
        int count = 0;
        for (int rank = from; rank <= to; ++rank) count += enemy(file, rank);
        return count;
    }
    [[nodiscard]] bool passed(int file, int rank) const {
        return own(file, rank) &&
               enemies(file - 1, rank + 1, 7) + enemies(file, rank + 1, 7) + enemies(file + 1, rank + 1, 7) == 0;
    }
    [[nodiscard]] bool guarded(int file, int rank) const { return own(file - 1, rank - 1) || own(file + 1, rank - 1); }
    [[nodiscard]] bool guards(int file, int rank) const { return own(file - 1, rank + 1) || own(file + 1, rank + 1); }
    [[nodiscard]] bool in_contact(int file, int rank) const {
        return enemy(file - 1, rank + 1) || enemy(file + 1, rank + 1);
    }
};

/// The definitions again, pawn by pawn.
Kinds twin(const Position& position, Side side) {
    const Board board{position, side};
    Kinds kinds;
    for (int file = 0; file < 8; ++file)
        for (int rank = 0; rank < 8; ++rank) {
            kinds.majorities[file < 4 ? 1 : 0] += board.own(file, rank) - board.enemy(file, rank);
            if (!board.own(file, rank)) continue;
            const Squares pawn{board.square(file, rank)};
            const auto add = [&](bool fits, Squares& kind) {
                if (fits) kind |= pawn;
            };
            const int neighbours = board.owns(file - 1, 0, 7) + board.owns(file + 1, 0, 7);
            const int helpers = board.owns(file - 1, 0, rank) + board.owns(file + 1, 0, rank);
            const int sentries = board.enemies(file - 1, rank + 1, 7) + board.enemies(file + 1, rank + 1, 7);
            const int ahead = board.owns(file, rank + 1, 7) + board.enemies(file, rank + 1, 7);
            add(neighbours > 0 && helpers == 0 && board.in_contact(file, rank + 1), kinds.backward);
            const bool passed = board.passed(file, rank);
            bool connected = false;
            int enemies = 0;
            int near = 0;
            for (int any = 0; any < 8; ++any) {
                connected = connected || board.passed(file - 1, any) || board.passed(file + 1, any);
                enemies += board.enemies(any, 0, 7);
                if (std::abs(any - file) < 3) near += board.enemies(any, 0, 7);
            }
            add(passed && board.guarded(file, rank), kinds.guarded);
            add(passed && connected, kinds.connected);
            add(passed && enemies > 0 && near == 0 && file != 3 && file != 4, kinds.outside);
            add(!passed && ahead == 0 && helpers >= sentries, kinds.candidates);
            add(board.guarded(file, rank) || board.guards(file, rank), kinds.chained);
            add(!board.guarded(file, rank) && board.guards(file, rank), kinds.bases);
            add(board.guarded(file, rank) && !board.guards(file, rank), kinds.heads);
            for (const int beside : {-1, 1})
                add(board.own(file + beside, rank - 1) && board.guarded(file + beside, rank - 1), kinds.deep);
            add(board.in_contact(file, rank), kinds.contact);
            const Piece before = board.man(file, rank + 1);
            add(before == Piece{other(side), Kind::pawn}, kinds.fixed);
            add(before && before.side != side && before.kind != Kind::pawn, kinds.blockaded);
            add(before && before.side == side, kinds.obstructed);
            for (int steps = 1; steps <= (rank == 1 ? 2 : 1) && rank + steps < 8; ++steps) {
                if (board.man(file, rank + steps)) break;
                if (!board.in_contact(file, rank + steps)) continue;
                kinds.arrivals |= Squares{board.square(file, rank + steps)};
                add(board.owns(file, 0, 7) == 1 && board.enemies(file, 0, 7) == 0, kinds.opens);
                add(board.owns(file, 0, 7) == 1 && board.enemies(file, 0, 7) > 0, kinds.half_opens);
            }
        }
    return kinds;
}

template <class Map> Kinds image(Kinds kinds, Map map) {
    for (Squares* squares : {&kinds.backward, &kinds.guarded, &kinds.connected, &kinds.outside, &kinds.candidates,
                             &kinds.chained, &kinds.bases, &kinds.heads, &kinds.deep, &kinds.arrivals, &kinds.opens,
                             &kinds.half_opens, &kinds.contact, &kinds.fixed, &kinds.blockaded, &kinds.obstructed})
        *squares = test::mapped(*squares, map);
    return kinds;
}

} // namespace

BOOST_AUTO_TEST_SUITE(pawn_kinds)

BOOST_AUTO_TEST_CASE(backward) {
    // The hole before d6 in the Boleslavsky structure (common practice, no source): e4 holds the d6 pawn back.
    const Position boleslavsky = at("r1bqk2r/pp3ppp/2np1n2/4p3/4P3/2N2N2/PPP2PPP/R1BQKB1R w KQkq - 0 1");
    BOOST_TEST(backward_pawns(boleslavsky, Side::black).bits() == Squares{d6}.bits());
    BOOST_TEST(backward_pawns(boleslavsky, Side::white).empty());
    // A neighbour level with it or behind it can still help; without a neighbour the pawn is isolated, not backward.
    BOOST_TEST(backward_pawns(at("4k3/8/2pp4/4p3/4P3/8/8/4K3 w - - 0 1"), Side::black).empty());
    BOOST_TEST(backward_pawns(at("4k3/8/3p4/8/4P3/8/8/4K3 w - - 0 1"), Side::black).empty());
    // Nothing attacks the square before it.
    BOOST_TEST(backward_pawns(at("4k3/8/3p4/4p3/8/4P3/8/4K3 w - - 0 1"), Side::black).empty());
}

BOOST_AUTO_TEST_CASE(kinds_of_passed_pawns) {
    const PassedPawns some = passed_pawns(at("4k3/5p2/8/1PP5/P7/8/5P2/4K3 w - - 0 1"), Side::white);
    BOOST_TEST(some.passed.bits() == (Squares{a4, b5, c5}).bits());
    BOOST_TEST(some.guarded.bits() == Squares{b5}.bits());
    BOOST_TEST(some.connected.bits() == (Squares{a4, b5, c5}).bits());
    BOOST_TEST(some.outside.bits() == (Squares{a4, b5, c5}).bits()); // the f-file is three files from the c-file
    BOOST_TEST(passed_pawns(at("4k3/4p3/8/2P5/8/8/8/4K3 w - - 0 1"), Side::white).outside.empty());
    BOOST_TEST(passed_pawns(at("4k3/8/8/2P5/8/8/8/4K3 w - - 0 1"), Side::white).outside.empty());  // outside of what?
    BOOST_TEST(passed_pawns(at("4k3/7p/8/4P3/8/8/8/4K3 w - - 0 1"), Side::white).outside.empty()); // a centre file
    // Both pawns of a pair on one file are passed, and they are not connected with each other.
    BOOST_TEST(passed_pawns(at("4k3/8/2P5/2P5/8/8/8/4K3 w - - 0 1"), Side::white).connected.empty());
}

BOOST_AUTO_TEST_CASE(candidates) {
    // Two against one: the pawn without an opponent on its file is the candidate (common practice, no source).
    const Position two_to_one = at("4k3/6p1/8/8/8/8/5PP1/4K3 w - - 0 1");
    BOOST_TEST(candidates_to_pass(two_to_one, Side::white).bits() == Squares{f2}.bits());
    BOOST_TEST(candidates_to_pass(two_to_one, Side::black).empty());
    // One helper does not do against two sentries, and a helper that has gone ahead is none.
    BOOST_TEST(candidates_to_pass(at("4k3/4p1p1/8/8/8/8/5PP1/4K3 w - - 0 1"), Side::white).empty());
    BOOST_TEST(candidates_to_pass(at("4k3/6p1/8/6P1/8/8/5P2/4K3 w - - 0 1"), Side::white).empty());
    // The rear one of two pawns on a file has a pawn ahead of it.
    BOOST_TEST(candidates_to_pass(at("4k3/6p1/8/8/8/5P2/5PP1/4K3 w - - 0 1"), Side::white).bits() ==
               Squares{f3}.bits());
}

BOOST_AUTO_TEST_CASE(chains) {
    // The chains of the advance variation of the French defence (common practice, no source).
    const Position french = at("rnbqkbnr/pp3ppp/4p3/2ppP3/3P4/2P5/PP3PPP/RNBQKBNR b KQkq - 0 4");
    const PawnChains white = pawn_chains(french, Side::white);
    BOOST_REQUIRE(white.size() == 1U);
    BOOST_TEST(white[0].pawns.bits() == (Squares{b2, c3, d4, e5}).bits());
    BOOST_TEST(white[0].base.bits() == Squares{b2}.bits());
    BOOST_TEST(white[0].head.bits() == Squares{e5}.bits());
    BOOST_TEST(white[0].deep.bits() == (Squares{d4, e5}).bits());
    const PawnChains black = pawn_chains(french, Side::black);
    BOOST_REQUIRE(black.size() == 1U);
    BOOST_TEST(black[0].base.bits() == Squares{f7}.bits());
    // Neighbours on a rank do not guard each other. Two bases may carry one head.
    BOOST_TEST(pawn_chains(start_position(), Side::white).empty());
    const PawnChains roof = pawn_chains(at("4k3/8/8/8/3P4/2P1P3/8/4K3 w - - 0 1"), Side::white);
    BOOST_REQUIRE(roof.size() == 1U);
    BOOST_TEST(roof[0].base.bits() == (Squares{c3, e3}).bits());
    BOOST_TEST(roof[0].deep.empty());
    BOOST_TEST(pawn_chain_of(Squares{a2}, Side::white, a2).pawns.empty());
}

BOOST_AUTO_TEST_CASE(levers) {
    // After 1.d4 d5: c4 and e4 are levers, and so are c5 and e5 for Black.
    const Position queens_pawns = at("rnbqkbnr/ppp1pppp/8/3p4/3P4/8/PPP1PPPP/RNBQKBNR w KQkq - 0 2");
    BOOST_TEST(pawn_lever_arrivals(queens_pawns, Side::white).bits() == (Squares{c4, e4}).bits());
    BOOST_TEST(pawn_lever_arrivals(queens_pawns, Side::black).bits() == (Squares{c5, e5}).bits());
    const PawnLever lever = pawn_lever_to(queens_pawns, Side::white, c4);
    BOOST_TEST(index(lever.pawn) == index(c2));
    BOOST_TEST(lever.targets.bits() == Squares{d5}.bits());
    BOOST_TEST((!lever.opens_file && lever.half_opens_file)); // Black has a pawn on c7
    BOOST_TEST(pawn_lever_arrivals(start_position(), Side::white).empty());
    // A man on the way stops the double step, a man on the arrival square both.
    BOOST_TEST(pawn_lever_arrivals(at("4k3/8/8/3p4/8/2n5/2P5/4K3 w - - 0 1"), Side::white).empty());
    BOOST_TEST(pawn_lever_arrivals(at("4k3/8/8/3p4/2n5/2P5/8/4K3 w - - 0 1"), Side::white).empty());
    // A double step is for pawns on their second rank. Two targets, and a file that opens.
    const Position fork = at("4k3/8/8/3p1p2/8/4P3/8/4K3 w - - 0 1");
    BOOST_TEST(pawn_lever_arrivals(fork, Side::white).bits() == Squares{e4}.bits());
    BOOST_TEST(pawn_lever_to(fork, Side::white, e4).targets.bits() == (Squares{d5, f5}).bits());
    BOOST_TEST(pawn_lever_to(fork, Side::white, e4).opens_file);
    BOOST_TEST(pawns_in_contact(at("4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1"), Side::white).bits() == Squares{e4}.bits());
}

BOOST_AUTO_TEST_CASE(blocked_and_majorities) {
    const Position position = at("4k3/8/3n4/p2P4/P6p/7P/6P1/4K1N1 w - - 0 1");
    const BlockedPawns white = blocked_pawns(position, Side::white);
    BOOST_TEST(white.fixed.bits() == (Squares{a4, h3}).bits());
    BOOST_TEST(white.blockaded.bits() == Squares{d5}.bits());
    BOOST_TEST(white.obstructed.empty());
    BOOST_TEST(blocked_pawns(at("4k3/8/8/8/8/4P3/4P3/4K3 w - - 0 1"), Side::white).obstructed.bits() ==
               Squares{e2}.bits());
    BOOST_TEST(wing_pawns(position, Side::white, Wing::long_).majority() == 1);
    BOOST_TEST(wing_pawns(position, Side::black, Wing::short_).majority() == -1);
}

BOOST_AUTO_TEST_CASE(eight_pawns_none_and_too_many) {
    const Position bare = at("4k3/8/8/8/8/8/8/4K3 w - - 0 1");
    BOOST_TEST((kinds_of(bare, Side::white) == Kinds{}));
    for (const char* text : {"rnbqkbnr/1p1p1p1p/p1p1p1p1/8/8/P1P1P1P1/1P1P1P1P/RNBQKBNR w - - 0 1", // eight, zigzag
                             "NNN1k2q/8/8/8/8/8/PPPPP3/4K3 w - - 0 1"}) {                           // promoted men
        const Position position = at(text);
        for (const Side side : all_sides) BOOST_TEST((kinds_of(position, side) == twin(position, side)), text);
    }
    BOOST_TEST(pawn_chains(at("rnbqkbnr/1p1p1p1p/p1p1p1p1/8/8/P1P1P1P1/1P1P1P1P/RNBQKBNR w - - 0 1"), Side::white)
                   .front()
                   .pawns.count() == 8);
}

BOOST_AUTO_TEST_CASE(agree_with_their_slow_twin_and_their_mirrors) {
    std::array<int, 16> seen{};
    for (const Position& position : test::random_positions(1500, 71)) {
        const Position left_right = test::mirrored(position);
        const Position turned_round = test::flipped(position);
        for (const Side side : all_sides) BOOST_TEST_CONTEXT(fen(position) << ' ' << name(side)) {
                const Kinds fast = kinds_of(position, side);
                BOOST_TEST((fast == twin(position, side)));
                Kinds mirror = image(fast, test::left_right);
                std::swap(mirror.majorities[0], mirror.majorities[1]);
                BOOST_TEST((kinds_of(left_right, side) == mirror));
                BOOST_TEST((kinds_of(turned_round, other(side)) == image(fast, test::up_down)));
                const Squares shown[] = {fast.backward,   fast.guarded,  fast.connected, fast.outside,
                                         fast.candidates, fast.chained,  fast.bases,     fast.heads,
                                         fast.deep,       fast.arrivals, fast.opens,     fast.half_opens,
                                         fast.contact,    fast.fixed,    fast.blockaded, fast.obstructed};
                for (std::size_t kind = 0; kind < seen.size(); ++kind) seen[kind] += !shown[kind].empty();
            }
    }
    for (const int times : seen) BOOST_TEST(times > 50); // the positions do show the cases
}

BOOST_AUTO_TEST_SUITE_END()
