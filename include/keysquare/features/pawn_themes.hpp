// Pawn themes: weak and passed pawns, chains, islands, majorities, levers and blocked pawns, as findings.
#pragma once

#include <keysquare/features/board_view.hpp>
#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// The pawn themes of both sides. All of them are counts without a line; `side` is the side that the finding is good
/// for, `pieces` holds at most eight men, groups of men in the order given and each group in the order a1 to h8. What
/// the words mean stands with the calculations in `pawn_structure.hpp`, `backward_pawns.hpp`, `passed_pawns.hpp`,
/// `pawn_chains.hpp`, `pawn_majority.hpp`, `pawn_levers.hpp` and `blocked_pawns.hpp`.
///
/// For the side that has such pawns, at most one finding each, good for the other side:
/// - isolated_pawn, doubled_pawns, backward_pawn: squares = the pawns; pieces = the same; number: pieces.
/// - blocked_pawns `blocked_by_piece`: pawns that a piece of the other side, or its king, blockades; squares = those
///   before the pawns; pieces = the pawns, then the pieces before them; number: pieces (the pawns).
/// For each pawn:
/// - passed_pawn: good for its side; detail = the first that holds of `guarded_by_pawn`, `connected`, `outside`, or
///   none; squares = its path, which begins before the pawn and ends with the last rank; pieces = the pawn, then the
///   pawns that guard it (`guarded_by_pawn`) or the passed pawns of its side on the neighbouring files (`connected`);
///   number: steps (the squares of the path: a double step counts as two).
/// - candidate_to_pass: good for its side; squares = its helpers and sentries; pieces = the pawn, helpers, sentries;
///   numbers: squares (helpers), squares_of_other (sentries).
/// - pawn_lever: good for the side that may advance, whether or not it has the move; one for each arrival square that,
///   once the pawn stands there, no more men of the other side would attack than men of its own would guard (kings and
///   the targets are men too; pins are not looked at, and a man behind another one on a line does not count); detail =
///   `on_open_file` when the lever opens the pawn's file, `on_half_open_file` when it half-opens it, or none; squares =
///   the arrival square; pieces = the pawn, its targets; numbers: guards, attackers (the men just said).
/// For each chain:
/// - pawn_chain: `attacked_already` when a pawn of the other side attacks a base of it, `attackable` when one could
///   after one advance (a lever, good or bad); both are good for the other side. Otherwise none, told of chains with a
///   deep pawn (`PawnChain::deep`) and good for their own side. squares = the chain; pieces = the bases that are or can
///   be attacked (without such a detail: all bases), then the rest of it; number: pieces (its pawns).
/// For the position:
/// - pawn_islands: both sides have pawns, and one has fewer islands; side = that one; squares = all pawns; numbers:
///   islands, islands_of_other.
/// - pawn_majority, `queenside` or `kingside`: one side has more pawns on that wing, and the other has some there;
///   side = the side with more; squares = all pawns on the wing; pieces = its own; numbers: squares (its own),
///   squares_of_other, majority.
/// - blocked_pawns `fixed_by_pawn`: at least two pairs of pawns that fix each other; the mover stands in as side, and
///   nothing is meant by it; squares and pieces = these pawns; number: pieces.
void find_pawn_themes(const BoardView& view, Findings& findings);

} // namespace keysquare

#include <keysquare/features/pawn_themes_impl.hpp>
