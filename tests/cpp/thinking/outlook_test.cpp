// The outlook: positions of our own with results worked out by hand, and what holds everywhere.
#include <boost/test/unit_test.hpp>

#include <map>
#include <set>
#include <string>
#include <type_traits>
#include <vector>

#include <keysquare/features/endgame.hpp>
#include <keysquare/features/feature_facts.hpp>
#include <keysquare/lesson/outlook_sentences.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/san.hpp>
#include <keysquare/thinking/counted_facts.hpp>
#include <keysquare/thinking/move_wins.hpp>
#include <keysquare/thinking/stop.hpp>

#include "features/mirrored.hpp"
#include "lesson/templates.hpp"

namespace {

using namespace keysquare;

using Names = std::set<std::string>;

/// Two walls of pawns that nothing gets through. White's rook and king do what they can; Black's king and rook do not.
constexpr std::string_view walls = "3rk3/8/1p1p1p1p/pPpPpPpP/P1P1P1P1/2K5/8/3R4 b - - 0 1";
/// The same without rooks, both kings as near to the centre as the walls let them.
constexpr std::string_view nothing_to_do = "8/3k4/1p1p1p1p/pPpPpPpP/P1P1P1P1/2K5/8/8 b - - 0 1";
/// A middlegame of our own: White's queen's bishop is at home, the e-file half open.
constexpr std::string_view middlegame = "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10";
/// A knight on the rim that gets to an outpost in two moves.
constexpr std::string_view towards_an_outpost = "r4rk1/pp3ppp/4p3/8/3P3N/8/PP2PPPP/R4RK1 w - - 0 1";

Position position_of(std::string_view text) { return read_fen(text).value(); }

Names useful_moves(const Position& position, const SideOutlook& side) {
    Names names;
    for (const UsefulMove& move : side.useful) names.insert(san(*turn_of(position, side.side), move.move));
    return names;
}

const UsefulMove& useful_move(const Position& position, const SideOutlook& side, std::string_view wanted) {
    for (const UsefulMove& move : side.useful)
        if (san(*turn_of(position, side.side), move.move) == wanted) return move;
    throw std::runtime_error{"not useful: " + std::string{wanted}};
}

std::map<MoveFact, int> amounts(const ReasonList& reasons) {
    std::map<MoveFact, int> found;
    for (const MoveReason& reason : reasons) found[reason.fact] = reason.amount;
    return found;
}

const BestSquare* best_of(const SideOutlook& side, Square piece) {
    for (const BestSquare& best : side.best_squares)
        if (best.piece.square == piece) return &best;
    return nullptr;
}

ReasonList facts_of(const Position& before, const Position& after, Move move) {
    const FeatureFacts facts{before};
    const FeatureFacts changed{after};
    ReasonList found;
    for (const CountedFact& counted : counted_facts())
        if (const MoveReason reason = counted.count({facts, changed, move}); reason.amount != 0)
            found.push_back(reason);
    return found;
}

/// The piece taken from one square and put on another, the move handed over.
Position moved_to(const Position& position, Square from, Square to) {
    PositionParts parts = position.parts();
    std::swap(parts.pieces[static_cast<std::size_t>(from)], parts.pieces[static_cast<std::size_t>(to)]);
    parts.mover = other(parts.mover);
    parts.en_passant = Square::none;
    return Position{parts};
}

} // namespace

BOOST_AUTO_TEST_SUITE(thinking_outlook)

BOOST_AUTO_TEST_CASE(useful_moves_and_their_reasons) {
    const Position position = position_of(middlegame);
    const SideOutlook white = outlook(position).of(Side::white);
    BOOST_TEST(white.legal == 37);
    // Re1 takes the half-open e-file. Bf4 develops and gives the bishop seven squares for one, and the rook one more.
    BOOST_TEST((amounts(useful_move(position, white, "Re1").reasons) ==
                std::map<MoveFact, int>{{MoveFact::rook_on_half_open_file, 1}}));
    BOOST_TEST((amounts(useful_move(position, white, "Bf4").reasons) ==
                std::map<MoveFact, int>{{MoveFact::develops, 1}, {MoveFact::piece_scope, 8}}));
    const Names useful = useful_moves(position, white);
    for (const char* idle : {"Kh1", "Rb1", "Nb1", "Qd2"}) BOOST_TEST(useful.count(idle) == 0U, idle);
    // Ne5 puts the d-pawn en prise, Bh6 the bishop: not even safe.
    for (const char* losing : {"Ne5", "Bh6"})
        BOOST_TEST(
            (std::ranges::find(white.merely_safe, read_move(position, losing).value()) == white.merely_safe.end()),
            losing);
    BOOST_TEST(!white.no_plan);
    BOOST_TEST(white.threats.empty());
}

BOOST_AUTO_TEST_CASE(one_side_has_nothing_to_do) {
    const Position position = position_of(walls);
    const Outlook found = outlook(position);
    const SideOutlook& white = found.of(Side::white);
    BOOST_TEST(white.after_pass);
    BOOST_TEST(white.useful.empty());
    BOOST_TEST(white.best_squares.empty());
    BOOST_TEST(white.no_plan);
    BOOST_TEST(white.merely_safe.size() == 14U);
    // Black's king is not where it should be, and the rook is shut in by its first rank.
    const SideOutlook& black = found.of(Side::black);
    BOOST_TEST((useful_moves(position, black) == Names{"Rd7", "Kd7", "Ke7", "Kf7"}));
    BOOST_TEST(!black.no_plan);
    BOOST_TEST(!found.equilibrium);
    BOOST_TEST(paragraph(position, white) == "If Black passed, White would have no useful move, only 14 safe moves. "
                                             "No piece has a better square: White can only wait.");
}

BOOST_AUTO_TEST_CASE(equilibrium) {
    const Position position = position_of(nothing_to_do);
    const Outlook found = outlook(position);
    for (const Side side : all_sides) BOOST_TEST(found.of(side).no_plan);
    BOOST_TEST(found.equilibrium);
    BOOST_TEST(paragraph(position, found) ==
               "Black has no useful move, only 5 safe moves. If Black passed, White would have no useful move, only 5 "
               "safe moves. Neither side has a threat, and no piece a better square: whoever is to move can only "
               "wait.");
}

BOOST_AUTO_TEST_CASE(the_only_move) {
    // Pawn takes knight, or the knight is lost: of the king's moves and the capture one keeps the material.
    const Position position = position_of("6k1/5ppp/8/8/8/5n2/5PPP/4R1K1 w - - 0 1");
    const SideOutlook white = outlook(position).of(Side::white);
    BOOST_TEST(white.in_check);
    BOOST_TEST(san(position, white.only_move) == "gxf3");
    BOOST_TEST(white.legal == 3);
    // One legal move is no choice.
    const Position forced = position_of("7k/8/8/8/8/8/1q6/K7 w - - 0 1");
    BOOST_TEST(outlook(forced).of(Side::white).legal == 1);
    BOOST_TEST(!outlook(forced).of(Side::white).only_move);
    // Two ways of saving the same man are two.
    const Position two = position_of("4k3/8/8/3r4/8/8/3N4/4K3 w - - 0 1");
    BOOST_TEST(!outlook(two).of(Side::white).only_move);
}

BOOST_AUTO_TEST_CASE(what_meets_a_threat_is_useful) {
    // The bishop attacks the rook; two moves hold (see the threats of this position).
    const Position position = position_of("r4rk1/ppp2ppp/1q6/8/1b1P4/4P1P1/PP2QP1P/R2NR1K1 w - - 0 1");
    const Outlook found = outlook(position);
    BOOST_TEST((useful_moves(position, found.of(Side::white)) == Names{"Nc3", "Rf1"}));
    const UsefulMove& met = useful_move(position, found.of(Side::white), "Rf1");
    BOOST_TEST((met.reasons.front().fact == MoveFact::meets_threat));
    BOOST_TEST(met.reasons.front().amount == 2);
    // For Black the threat itself is useful, and has its line.
    const UsefulMove& winning = useful_move(position, found.of(Side::black), "Bxe1");
    BOOST_TEST((winning.reasons.front().fact == MoveFact::wins));
    BOOST_TEST(winning.won.gain == 2);
    BOOST_TEST((winning.won.line.front() == winning.move));
    BOOST_REQUIRE(found.of(Side::black).threats.size() == 1);
}

BOOST_AUTO_TEST_CASE(a_side_without_a_turn_and_one_without_a_move) {
    const Position in_check = position_of("4k3/8/8/8/4r3/8/3P4/3QK3 w - - 0 1");
    const Outlook found = outlook(in_check);
    BOOST_TEST(!found.of(Side::black).exists);
    BOOST_TEST(found.of(Side::white).in_check);
    BOOST_TEST(found.of(Side::white).best_squares.empty());
    BOOST_TEST(paragraph(in_check, found) ==
               "White stands in check and has 3 legal moves. Black has no turn, as White stands in check.");
    const Position stalemate = position_of("k7/2Q5/8/8/8/8/8/K7 b - - 0 1");
    BOOST_TEST(outlook(stalemate).of(Side::black).legal == 0);
    BOOST_TEST(!outlook(stalemate).of(Side::black).no_plan);
    BOOST_TEST(paragraph(stalemate, outlook(stalemate).of(Side::black)) == "Black has no legal move.");
    const Position mate = position_of("R5k1/5ppp/8/8/8/8/8/6K1 b - - 0 1");
    BOOST_TEST(paragraph(mate, outlook(mate).of(Side::black)) == "Black is mated.");
}

BOOST_AUTO_TEST_CASE(the_best_square_is_two_moves_away) {
    // d4 guards e5, where no black pawn can drive the knight away once the f-pawn is gone.
    const Position position = position_of("r4rk1/pp4pp/4p3/8/3P3N/8/PP2PPPP/R4RK1 w - - 0 1");
    const SideOutlook white = outlook(position).of(Side::white);
    const BestSquare* best = best_of(white, Square::h4);
    BOOST_REQUIRE(best);
    BOOST_TEST((best->square == Square::e5));
    BOOST_REQUIRE(best->route.size() == 2);
    BOOST_TEST((best->gains.front().fact == MoveFact::outpost));
    // With the f-pawn e5 is no outpost.
    const Position guarded = position_of(towards_an_outpost);
    const SideOutlook with_f_pawn = outlook(guarded).of(Side::white);
    const BestSquare* other_best = best_of(with_f_pawn, Square::h4);
    BOOST_REQUIRE(other_best);
    BOOST_TEST((other_best->gains.front().fact != MoveFact::outpost));
}

BOOST_AUTO_TEST_CASE(yardsticks_decide_in_their_order) {
    const auto facts = [](std::initializer_list<MoveReason> reasons) {
        ReasonList list(reasons.begin(), reasons.end());
        std::ranges::sort(list, {}, &MoveReason::fact);
        return list;
    };
    // A rook leaves a half-open file for an open one, and not the other way round.
    BOOST_TEST(improvement(facts({{MoveFact::rook_on_open_file, 1, {}}, {MoveFact::rook_on_half_open_file, -1, {}}})) >
               0);
    BOOST_TEST(improvement(facts({{MoveFact::rook_on_open_file, -1, {}}, {MoveFact::rook_on_half_open_file, 1, {}}})) <
               0);
    // What is less than `least` is nothing, up or down.
    BOOST_TEST(improvement(facts({{MoveFact::piece_scope, 2, {}}})) == 0);
    BOOST_TEST(improvement(facts({{MoveFact::holes, -1, {}}, {MoveFact::piece_scope, 3, {}}})) > 0);
    BOOST_TEST(improvement(facts({{MoveFact::holes, -2, {}}, {MoveFact::piece_scope, 9, {}}})) < 0);
    BOOST_TEST(improvement({}) == 0);
    BOOST_TEST(improvements(facts({{MoveFact::outpost, 1, {}}, {MoveFact::piece_scope, -5, {}}})).size() == 1U);
    for (const Yardstick& yardstick : yardsticks()) BOOST_TEST(yardstick.least > 0);
}

BOOST_AUTO_TEST_CASE(every_reason_for_a_useful_move_has_words_in_the_order_in_which_it_is_told) {
    using enum MoveFact;
    std::vector<MoveFact> reasons{mates, wins, meets_threat, threatens_mate, threatens};
    for (const Yardstick& yardstick : yardsticks()) reasons.push_back(yardstick.fact);
    for (const TableOf<OutlookWords>& rows : detail::outlook_words) {
        std::vector<MoveFact> told;
        for (const OutlookWords& row : rows) told.push_back(row.fact);
        BOOST_TEST((told == reasons));
    }
}

BOOST_AUTO_TEST_CASE(a_move_back_does_not_improve_what_the_move_improved) {
    int useful = 0;
    for (const Position& position : test::random_positions(150, 41)) {
        const auto side = outlook(position).of(position.mover());
        for (const UsefulMove& move : side.useful) {
            if (!move.won.line.empty() || move.reasons.front().fact == MoveFact::meets_threat) continue;
            const auto again = passed(after(position, move.move));
            const Move back{move.move.target(), move.move.origin()};
            if (!again || !is_legal(*again, back) || position.kind_at(move.move.origin()) == Kind::pawn) continue;
            ++useful;
            const SideOutlook later = outlook(*again).of(position.mover());
            for (const UsefulMove& other_move : later.useful)
                BOOST_TEST((other_move.move != back || !other_move.won.line.empty() ||
                            other_move.reasons.front().fact == MoveFact::meets_threat),
                           fen(position) << ' ' << san(position, move.move));
        }
    }
    BOOST_TEST(useful > 200);
}

BOOST_AUTO_TEST_CASE(useful_and_merely_safe_are_all_safe_moves) {
    for (const Position& position : test::random_positions(150, 42)) {
        const Outlook found = outlook(position);
        for (const SideOutlook& side : found.sides) {
            const auto turn = turn_of(position, side.side);
            BOOST_TEST(side.exists == turn.has_value());
            if (!turn) continue;
            const Options options;
            const JudgedMoves judged{*turn, options};
            const MoveWins wins{*turn, options.least_gain, options};
            std::size_t expected = 0;
            for (std::size_t at = 0; at < judged.moves().size(); ++at)
                expected += judged.is_safe(at) || wins.wins(judged.moves()[at]) ? 1U : 0U;
            BOOST_TEST(side.useful.size() + side.merely_safe.size() == expected);
            BOOST_TEST((side.threats == threats(position, side.side)));
            for (const UsefulMove& move : side.useful) BOOST_TEST(!move.reasons.empty());
        }
    }
}

BOOST_AUTO_TEST_CASE(a_side_of_an_outlook_that_is_not_kept_lives_on) {
    const Position position = start_position();
    const SideOutlook& black = outlook(position).of(Side::black);
    BOOST_TEST((black.side == Side::black));
    BOOST_TEST(black.useful.size() == outlook(position).sides[1].useful.size());
    static_assert(std::is_same_v<decltype(outlook(position).of(Side::black)), SideOutlook>);
}

BOOST_AUTO_TEST_CASE(best_squares_against_a_slow_twin) {
    // Every empty square, reached by `route`, with the piece put there by hand.
    int found_squares = 0;
    for (const Position& position : test::random_positions(40, 43)) {
        if (in_check(position)) continue;
        const Outlook found = outlook(position);
        for (const SideOutlook& side : found.sides) {
            const Position turn = *turn_of(position, side.side);
            Squares pieces = turn.men(side.side) & ~(turn.men(Kind::pawn) | turn.men(Kind::king));
            if (is_endgame(turn)) pieces = pieces.with(turn.king(side.side));
            for (const Square piece : pieces) {
                Square best = Square::none;
                ReasonList best_facts;
                Route best_route;
                for (int place = 0; place < 64; ++place) {
                    const Square to = square_at(side.side == Side::white ? place : place ^ 56);
                    if (turn.piece_at(to)) continue;
                    const Routes routes = route(position, piece, to).value();
                    if (routes.moves == 0 || routes.moves > 2) continue;
                    const ReasonList facts = facts_of(turn, moved_to(turn, piece, to), Move{piece, to});
                    if (improvement(facts) <= 0) continue;
                    const bool nearer = routes.routes.front().size() < best_route.size();
                    if (best != Square::none && !gains_more(facts, best_facts) &&
                        (gains_more(best_facts, facts) || !nearer))
                        continue;
                    best = to;
                    best_facts = facts;
                    best_route = routes.routes.front();
                }
                const BestSquare* told = best_of(side, piece);
                BOOST_TEST(((told ? told->square : Square::none) == best), fen(position) << ' ' << name(piece));
                if (!told) continue;
                ++found_squares;
                BOOST_TEST((told->route == best_route));
                BOOST_TEST((told->gains == improvements(best_facts)));
            }
        }
    }
    BOOST_TEST(found_squares > 100);
}

BOOST_AUTO_TEST_CASE(both_sides_are_treated_alike) {
    for (const Position& position : test::random_positions(80, 44)) {
        const Outlook found = outlook(position);
        const Outlook mirror = outlook(test::flipped(position));
        BOOST_TEST(found.equilibrium == mirror.equilibrium);
        for (const Side side : all_sides) {
            const SideOutlook& one = found.of(side);
            const SideOutlook& two = mirror.of(other(side));
            BOOST_TEST(one.legal == two.legal);
            BOOST_TEST(one.no_plan == two.no_plan);
            BOOST_TEST(one.merely_safe.size() == two.merely_safe.size());
            BOOST_TEST(one.threats.empty() == two.threats.empty());
            BOOST_TEST(bool(one.only_move) == bool(two.only_move));
            std::map<std::pair<Square, Square>, std::map<MoveFact, int>> there;
            std::map<std::pair<Square, Square>, std::map<MoveFact, int>> mirrored;
            for (const UsefulMove& move : one.useful)
                there[{test::up_down(move.move.origin()), test::up_down(move.move.target())}] = amounts(move.reasons);
            for (const UsefulMove& move : two.useful)
                mirrored[{move.move.origin(), move.move.target()}] = amounts(move.reasons);
            BOOST_TEST((there == mirrored), fen(position));
            std::map<Square, Square> squares;
            std::map<Square, Square> mirrored_squares;
            for (const BestSquare& best : one.best_squares)
                squares[test::up_down(best.piece.square)] = test::up_down(best.square);
            for (const BestSquare& best : two.best_squares) mirrored_squares[best.piece.square] = best.square;
            BOOST_TEST((squares == mirrored_squares), fen(position));
        }
    }
}

BOOST_AUTO_TEST_CASE(every_paragraph_is_filled_in) {
    for (const Position& position : test::random_positions(200, 45)) {
        const std::string text = paragraph(position, outlook(position));
        for (const char* fault : {"{", "}", "  ", "()", " ."})
            BOOST_TEST((text.find(fault) == std::string::npos), fen(position) << ": " << text);
        BOOST_TEST(text.back() == '.');
    }
}

BOOST_AUTO_TEST_CASE(the_ledger_with_threats_and_useful_moves) {
    const Position earlier = position_of("r1r3k1/5pp1/p2pp2p/1p1b4/8/1PN1P3/P4PPP/R1R3K1 b - - 0 25");
    Position now = earlier;
    for (const char* move : {"Rxc3", "Rxc3"}) now = after(now, read_move(now, move).value());
    const auto exchange = exchange_outlook(now, {}, &earlier);
    BOOST_REQUIRE(exchange.has_value());
    BOOST_TEST((exchange->ledger.giver() == Side::black));
    BOOST_TEST(exchange->ledger.compensation.points == exchange_context(now)->compensation.points);
    BOOST_TEST(exchange->outlook.of(Side::black).useful.size() == outlook(now).of(Side::black).useful.size());
    BOOST_TEST(paragraph(now, *exchange) ==
               "White is the exchange up; Black has something for it: a pawn. The knight on c3 is gone: of the light "
               "squares White held 10 and holds 10 now, Black held 14 and holds 13. Black has 4 useful moves and no "
               "threat; White has 5 useful moves and no threat.");
    BOOST_TEST(!exchange_outlook(position_of(middlegame)).has_value());
}

BOOST_AUTO_TEST_SUITE_END()
