#include <keysquare/thinking/counted_facts.hpp>

#include <algorithm>
#include <array>
#include <cstdint>

#include <keysquare/board/literal.hpp>
#include <keysquare/features/development.hpp>
#include <keysquare/features/endgame.hpp>
#include <keysquare/features/pawn_chains.hpp>
#include <keysquare/features/pawn_levers.hpp>
#include <keysquare/features/scope.hpp>

#include "features/fact_counts.hpp"

namespace keysquare {

namespace {

/// A count before and after; `squares` are those that were added or, when it went down, those that were lost.
struct Change {
    int amount = 0;
    Squares squares;

    constexpr Change(int amount_, Squares squares_) noexcept : amount(amount_), squares(squares_) {}
    constexpr explicit Change(bool holds, Squares squares_) noexcept
        : amount(holds ? 1 : 0), squares(holds ? squares_ : Squares{}) {}
};

[[nodiscard]] constexpr Change more(Squares before, Squares after) noexcept {
    const int amount = after.count() - before.count();
    return {amount, amount >= 0 ? after & ~before : before & ~after};
}
[[nodiscard]] constexpr Change fewer(Squares before, Squares after) noexcept {
    const Change change = more(before, after);
    return {-change.amount, change.squares};
}

/// How many steps a square is away from the edge of the board, 0 to 3.
[[nodiscard]] constexpr int steps_from_edge(Square square) noexcept {
    const int file = file_of(square);
    const int rank = rank_of(square);
    return (std::min)((std::min)(file, 7 - file), (std::min)(rank, 7 - rank));
}

/// What the man that moved attacks where it arrived.
[[nodiscard]] Squares attacked_from_arrival(const MoveMade& made) noexcept {
    const Position& position = made.after.position;
    return attacks_of(position.piece_at(made.to()), made.to(), position.occupied());
}
[[nodiscard]] bool leaves_an_attack(const MoveMade& made) noexcept {
    return made.before.attacked(other(made.side())).has(made.from());
}

template <MoveFact Fact, class Compute> constexpr CountedFact counted(Literal definition, Compute) {
    return {Fact, definition, [](const MoveMade& made) noexcept {
                const Change change = Compute{}(made, made.side());
                return MoveReason{Fact, static_cast<std::int16_t>(change.amount), change.squares};
            }};
}

constexpr std::array counted_fact_table{
    counted<MoveFact::checks>("The move gives check.",
                              [](const MoveMade& m, Side side) {
                                  const Square king = m.after.position.king(other(side));
                                  return Change{m.after.attacked(side).has(king), Squares{king}};
                              }),
    counted<MoveFact::castles>("The move castles.",
                               [](const MoveMade& m, Side) {
                                   return Change{m.move.castles(), Squares{m.to()}};
                               }),
    counted<MoveFact::develops>("Undeveloped pieces of the side, fewer than before.",
                                [](const MoveMade& m, Side side) {
                                    return fewer(undeveloped_of(m.before.position, side),
                                                 undeveloped_of(m.after.position, side));
                                }),
    counted<MoveFact::moves_attacked_queen>(
        "The queen moves, and was attacked.",
        [](const MoveMade& m, Side) {
            return Change{m.kind() == Kind::queen && leaves_an_attack(m), Squares{m.from()}};
        }),
    counted<MoveFact::moves_attacked_piece>(
        "A knight, bishop, rook or queen moves, and was attacked.",
        [](const MoveMade& m, Side) {
            return Change{m.kind() != Kind::pawn && m.kind() != Kind::king && leaves_an_attack(m), Squares{m.from()}};
        }),
    counted<MoveFact::attacks_pieces>(
        "Knights, bishops, rooks and queens of the other side that the man attacks from where it arrives.",
        [](const MoveMade& m, Side side) {
            const Squares hit = attacked_from_arrival(m) & detail::pieces_but_king(m.after.position, other(side));
            return Change{hit.count(), hit};
        }),
    counted<MoveFact::attacks_pawns>("Pawns of the other side that the man attacks from where it arrives.",
                                     [](const MoveMade& m, Side side) {
                                         const Squares hit =
                                             attacked_from_arrival(m) & m.after.men(other(side), Kind::pawn);
                                         return Change{hit.count(), hit};
                                     }),
    counted<MoveFact::advances_pawn>(
        "A pawn moves: the rank on which it arrives, as the side counts from 1.",
        [](const MoveMade& m, Side side) {
            const bool pawn = m.kind() == Kind::pawn;
            return Change{pawn ? 1 + rank_for(side, m.to()) : 0, pawn ? Squares{m.to()} : Squares{}};
        }),
    counted<MoveFact::pawn_under_attack>(
        "A pawn moves to where the other side attacks it.",
        [](const MoveMade& m, Side side) {
            return Change{m.kind() == Kind::pawn && m.after.attacked(other(side)).has(m.to()), Squares{m.to()}};
        }),
    counted<MoveFact::pawn_lever>("A pawn moves to where it attacks a pawn of the other side.",
                                  [](const MoveMade& m, Side side) {
                                      const Squares hit =
                                          attacked_from_arrival(m) & m.after.men(other(side), Kind::pawn);
                                      const bool pawn = m.kind() == Kind::pawn && !m.move.promotes();
                                      return Change{pawn && hit, hit};
                                  }),
    counted<MoveFact::pushes_passer>(
        "A pawn moves that is passed where it arrives.",
        [](const MoveMade& m, Side side) {
            return Change{m.kind() == Kind::pawn && m.after.of(side).passed.passed.has(m.to()), Squares{m.to()}};
        }),
    counted<MoveFact::loosens_own_king>(
        "A pawn moves on the file of the side's king or a neighbouring one.",
        [](const MoveMade& m, Side side) {
            const int files = file_of(m.from()) - file_of(m.before.position.king(side));
            return Change{m.kind() == Kind::pawn && files >= -1 && files <= 1, Squares{m.from()}};
        }),
    counted<MoveFact::nearer_centre>(
        "Steps that the man is farther from the edge of the board than before (0 on it, 3 in the centre).",
        [](const MoveMade& m, Side) {
            return Change{m.move.castles() ? 0 : steps_from_edge(m.to()) - steps_from_edge(m.from()), Squares{m.to()}};
        }),
    counted<MoveFact::king_to_centre>(
        "The same, when the king moves in an endgame.",
        [](const MoveMade& m, Side) {
            const bool counts = m.kind() == Kind::king && !m.move.castles() && is_endgame(m.before.position);
            return Change{counts ? steps_from_edge(m.to()) - steps_from_edge(m.from()) : 0, Squares{m.to()}};
        }),
    counted<MoveFact::chained_pawns>("Chained pawns of the side, more than before.",
                                     [](const MoveMade& m, Side side) {
                                         return more(chained_pawns(m.before.men(side, Kind::pawn), side),
                                                     chained_pawns(m.after.men(side, Kind::pawn), side));
                                     }),
    counted<MoveFact::piece_scope>("Scope of the side's pieces, in squares, more than before.",
                                   [](const MoveMade& m, Side side) {
                                       return Change{detail::scope_of_all(m.after.of(side)) -
                                                         detail::scope_of_all(m.before.of(side)),
                                                     m.after.attacked(side) & ~m.before.attacked(side)};
                                   }),
    counted<MoveFact::rook_scope>("The part of it that the rooks have.",
                                  [](const MoveMade& m, Side side) {
                                      const auto rooks = index(Kind::rook);
                                      return Change{m.after.of(side).scope[rooks] - m.before.of(side).scope[rooks],
                                                    m.after.map.by(side, Kind::rook) &
                                                        ~m.before.map.by(side, Kind::rook)};
                                  }),
    counted<MoveFact::outnumbered_men>("Outnumbered men of the side, fewer than before.",
                                       [](const MoveMade& m, Side side) {
                                           return fewer(detail::outnumbered(m.before, side),
                                                        detail::outnumbered(m.after, side));
                                       }),
    counted<MoveFact::rook_on_open_file>("Rooks of the side on open files, more than before.",
                                         [](const MoveMade& m, Side side) {
                                             return more(m.before.men(side, Kind::rook) & m.before.pawns.open_files,
                                                         m.after.men(side, Kind::rook) & m.after.pawns.open_files);
                                         }),
    counted<MoveFact::rook_on_half_open_file>(
        "Rooks of the side on half-open files, more than before.",
        [](const MoveMade& m, Side side) {
            return more(m.before.men(side, Kind::rook) & m.before.pawns.of(side).half_open_files,
                        m.after.men(side, Kind::rook) & m.after.pawns.of(side).half_open_files);
        }),
    counted<MoveFact::loose_men>("Loose men of the side, fewer than before.",
                                 [](const MoveMade& m, Side side) {
                                     const auto loose = [side](const FeatureFacts& at) {
                                         return at.men_but_king(side) & ~at.attacked(side) & ~at.attacked(other(side));
                                     };
                                     return fewer(loose(m.before), loose(m.after));
                                 }),
    counted<MoveFact::own_king_squares>(
        "Escape squares of the side's king, more than before.",
        [](const MoveMade& m, Side side) { return more(m.before.of(side).escapes, m.after.of(side).escapes); }),
    counted<MoveFact::their_king_squares>("Escape squares of the other king, fewer than before.",
                                          [](const MoveMade& m, Side side) {
                                              return fewer(m.before.of(other(side)).escapes,
                                                           m.after.of(other(side)).escapes);
                                          }),
    counted<MoveFact::levers_at_hand>("Pawn levers that the side has, more than before.",
                                      [](const MoveMade& m, Side side) {
                                          return more(pawn_lever_arrivals(m.before.position, side),
                                                      pawn_lever_arrivals(m.after.position, side));
                                      }),
    counted<MoveFact::stuck_pieces>(
        "Pieces of the side without any scope, fewer than before.",
        [](const MoveMade& m, Side side) { return fewer(m.before.of(side).stuck, m.after.of(side).stuck); }),
    counted<MoveFact::men_in_other_half>("Men of the side in the other half, more than before.",
                                         [](const MoveMade& m, Side side) {
                                             return more(m.before.position.men(side) & half_of(other(side)),
                                                         m.after.position.men(side) & half_of(other(side)));
                                         }),
    counted<MoveFact::rook_on_seventh>("Rooks of the side on the seventh rank, more than before.",
                                       [](const MoveMade& m, Side side) {
                                           return more(detail::rooks_on_seventh(m.before.position, side),
                                                       detail::rooks_on_seventh(m.after.position, side));
                                       }),
    counted<MoveFact::attacked_men>("Men of the side, its king excepted, that are attacked, fewer than before.",
                                    [](const MoveMade& m, Side side) {
                                        return fewer(m.before.men_but_king(side) & m.before.attacked(other(side)),
                                                     m.after.men_but_king(side) & m.after.attacked(other(side)));
                                    }),
    counted<MoveFact::outpost>("Knights and bishops of the side on outposts, more than before.",
                               [](const MoveMade& m, Side side) {
                                   return more(m.before.of(side).outposts.taken, m.after.of(side).outposts.taken);
                               }),
    counted<MoveFact::frees_pawns>("Pawns of the side with a man of its own before them, fewer than before.",
                                   [](const MoveMade& m, Side side) {
                                       return fewer(m.before.of(side).blocked.obstructed,
                                                    m.after.of(side).blocked.obstructed);
                                   }),
    counted<MoveFact::battery>(
        "Batteries of the side, more than before.",
        [](const MoveMade& m, Side side) {
            return Change{m.after.of(side).batteries / 2 - m.before.of(side).batteries / 2, Squares{m.to()}};
        }),
    counted<MoveFact::rim_knights>("Knights of the side on the a-file or the h-file, fewer than before.",
                                   [](const MoveMade& m, Side side) {
                                       return fewer(rim_knights_of(m.before.position, side),
                                                    rim_knights_of(m.after.position, side));
                                   }),
    counted<MoveFact::takes_bishop>("Bishops of the other side, fewer than before.",
                                    [](const MoveMade& m, Side side) {
                                        return fewer(m.before.men(other(side), Kind::bishop),
                                                     m.after.men(other(side), Kind::bishop));
                                    }),
    counted<MoveFact::holes>(
        "Holes of the side, fewer than before.",
        [](const MoveMade& m, Side side) { return fewer(m.before.of(side).holes, m.after.of(side).holes); }),
    counted<MoveFact::squares_held_twice>(
        "Squares that at least two men of the side attack, more than before.",
        [](const MoveMade& m, Side side) { return more(m.before.attacked_twice(side), m.after.attacked_twice(side)); }),
    counted<MoveFact::doubled_pawns>("Doubled pawns of the side, fewer than before.",
                                     [](const MoveMade& m, Side side) {
                                         return fewer(m.before.pawns.of(side).doubled, m.after.pawns.of(side).doubled);
                                     }),
    counted<MoveFact::pins>("Pinned men of the other side, more than before.",
                            [](const MoveMade& m, Side side) {
                                return more(pinned_men(m.before.position, other(side)),
                                            pinned_men(m.after.position, other(side)));
                            }),
    counted<MoveFact::centre_pawns>("Pawns of the side on d4, e4, d5 and e5, more than before.",
                                    [](const MoveMade& m, Side side) {
                                        return more(m.before.men(side, Kind::pawn) & centre_squares,
                                                    m.after.men(side, Kind::pawn) & centre_squares);
                                    }),
    counted<MoveFact::uses_hole>("Usable holes of the other side, more than before.",
                                 [](const MoveMade& m, Side side) {
                                     return more(usable_holes_of(m.before.position, other(side), m.before.map),
                                                 usable_holes_of(m.after.position, other(side), m.after.map));
                                 }),
    counted<MoveFact::fewer_checks>(
        "Checks that the other side could give if it were to move, fewer than before; 0 when the side stands in check.",
        [](const MoveMade& m, Side side) {
            const bool counts = !m.before.attacked(other(side)).has(m.before.position.king(side));
            const int before = counts ? count_moves(turned(m.before.position)).checks : m.after.moves.checks;
            return Change{before - m.after.moves.checks, Squares{m.after.position.king(side)}};
        }),
    counted<MoveFact::uses_king>(
        "The king moves, and no queen is on the board.",
        [](const MoveMade& m, Side) {
            const bool queens = m.before.position.men(Kind::queen) != Squares{};
            return Change{m.kind() == Kind::king && !m.move.castles() && !queens, Squares{m.to()}};
        }),
    counted<MoveFact::blocks_passer>(
        "Passed pawns of the other side with a piece of the side on the square before them, more than before.",
        [](const MoveMade& m, Side side) {
            const auto blocked = [side](const FeatureFacts& at) {
                return at.of(other(side)).passed.passed & at.of(other(side)).blocked.blockaded;
            };
            return more(blocked(m.before), blocked(m.after));
        }),
};

static_assert(detail::is_in_order_of_facts(counted_fact_table));
static_assert(counted_fact_table.size() ==
              static_cast<std::size_t>(MoveFact::end_) - static_cast<std::size_t>(MoveFact::checks));

} // namespace

std::span<const CountedFact> counted_facts() noexcept { return counted_fact_table; }

} // namespace keysquare
