// MoveFact: the kinds of facts about a move that speak for it or against it.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include <keysquare/board/squares.hpp>

namespace keysquare {

/// One kind of fact about a move. Append only; `name(fact)` is the text that other languages use.
enum class MoveFact : std::uint8_t {
    // worked out by search, see `MoveStudies`
    mates,          ///< it mates by force
    wins,           ///< it wins this many pawns, whatever the reply
    meets_threat,   ///< it keeps this many pawns more than doing nothing would
    costs,          ///< it keeps this many pawns less than the best move does
    threatens_mate, ///< if the other side passed, a forced mate would follow
    threatens,      ///< if it passed, this many pawns more would fall than fall at once
    trades,         ///< it takes something, and the other side gets as much back
    parries,        ///< the strongest threat of the other side is gone
    allows,         ///< it lets the other side win something
    // counted, see `counted_facts`
    checks,               ///< the move gives check
    castles,              ///< the move castles
    develops,             ///< undeveloped pieces of the side, fewer than before
    moves_attacked_queen, ///< the queen moves, and was attacked
    moves_attacked_piece, ///< a knight, bishop, rook or queen moves, and was attacked
    /// knights, bishops, rooks and queens of the other side that the man attacks from where it arrives
    attacks_pieces,
    attacks_pawns,     ///< pawns of the other side that the man attacks from where it arrives
    advances_pawn,     ///< a pawn moves: the rank on which it arrives, as the side counts from 1
    pawn_under_attack, ///< a pawn moves to where the other side attacks it
    pawn_lever,        ///< a pawn moves to where it attacks a pawn of the other side
    pushes_passer,     ///< a pawn moves that is passed where it arrives
    loosens_own_king,  ///< a pawn moves on the file of the side's king or a neighbouring one
    /// steps that the man is farther from the edge of the board than before (0 on it, 3 in the centre)
    nearer_centre,
    king_to_centre,         ///< steps that the king is farther from the edge than before, in an endgame
    chained_pawns,          ///< chained pawns of the side, more than before
    piece_scope,            ///< scope of the side's pieces, in squares, more than before
    rook_scope,             ///< the part of `piece_scope` that the rooks have
    outnumbered_men,        ///< outnumbered men of the side, fewer than before
    rook_on_open_file,      ///< rooks of the side on open files, more than before
    rook_on_half_open_file, ///< rooks of the side on half-open files, more than before
    loose_men,              ///< loose men of the side, fewer than before
    own_king_squares,       ///< escape squares of the side's king, more than before
    their_king_squares,     ///< escape squares of the other king, fewer than before
    levers_at_hand,         ///< pawn levers that the side has, more than before
    stuck_pieces,           ///< pieces of the side without any scope, fewer than before
    men_in_other_half,      ///< men of the side in the other half, more than before
    rook_on_seventh,        ///< rooks of the side on the seventh rank, more than before
    attacked_men,           ///< men of the side, its king excepted, that are attacked, fewer than before
    outpost,                ///< knights and bishops of the side on outposts, more than before
    frees_pawns,            ///< pawns of the side with a man of its own before them, fewer than before
    battery,                ///< batteries of the side, more than before
    rim_knights,            ///< knights of the side on the a-file or the h-file, fewer than before
    takes_bishop,           ///< bishops of the other side, fewer than before
    holes,                  ///< holes of the side, fewer than before
    squares_held_twice,     ///< squares that at least two men of the side attack, more than before
    doubled_pawns,          ///< doubled pawns of the side, fewer than before
    pins,                   ///< pinned men of the other side, more than before
    centre_pawns,           ///< pawns of the side on d4, e4, d5 and e5, more than before
    uses_hole,              ///< usable holes of the other side, more than before
    /// checks that the other side could give if it were to move, fewer than before; 0 when the side stands in check
    fewer_checks,
    uses_king, ///< the king moves, and no queen is on the board
    /// passed pawns of the other side with a piece of the side on the square before them, more than before
    blocks_passer,
    end_ ///< one past the last
};

/// In snake case, as Python shows it.
[[nodiscard]] std::string_view name(MoveFact fact) noexcept;

/// A fact about one move: how much, and the squares where it is seen. More is better for the side that moves, except
/// with `costs`, `allows`, `loosens_own_king` and `trades`; a negative amount says that the move makes it worse.
struct MoveReason {
    MoveFact fact = MoveFact::end_; ///< which fact
    std::int16_t amount = 0;        ///< how much
    Squares squares;                ///< where it is seen
    /// Whether all of it is equal.
    friend bool operator==(const MoveReason&, const MoveReason&) noexcept = default;
};

/// What a fact that is worked out by search means.
struct SearchedFact {
    MoveFact fact;               ///< which fact
    std::string_view definition; ///< in words that two people would compute alike
};

/// Those facts, in the order of `MoveFact`; `MoveStudies` works them out.
[[nodiscard]] std::span<const SearchedFact> searched_facts() noexcept;

} // namespace keysquare
