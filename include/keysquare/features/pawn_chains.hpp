// Pawn chains: pawns of one side that guard one another along diagonals, and the base that no pawn guards.
#pragma once

#include <keysquare/board/attacks.hpp>
#include <keysquare/board/bounded_list.hpp>
#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// One chain: pawns of one side that hang together by guarding one another, at least two of them. Of two pawns next to
/// each other on a diagonal the rear one guards the front one; two pawns belong to the same chain when such steps lead
/// from one to the other, in either direction.
struct PawnChain {
    Squares pawns; ///< all of them
    Squares base;  ///< its pawns that no pawn of the side guards; never empty
    Squares head;  ///< its pawns that guard no pawn of the side; never empty
    Squares deep;  ///< its pawns that are guarded by a pawn which a third pawn guards: the chain is three pawns long
};

/// Sixteen men make at most seven chains.
using PawnChains = BoundedList<PawnChain, 8>;

/// The pawns of `side` that belong to some chain. Constant time. Common practice, no source.
[[nodiscard]] constexpr Squares chained_pawns(Squares pawns, Side side) noexcept {
    return pawns & (pawn_attacks(side, pawns) | pawn_attacks(other(side), pawns));
}

/// The chain that a pawn belongs to; empty when it neither guards a pawn nor is guarded by one. At most as many steps
/// as there are pawns. Precondition: `pawn` is one of `pawns`, the pawns of `side`.
[[nodiscard]] constexpr PawnChain pawn_chain_of(Squares pawns, Side side, Square pawn) noexcept {
    Squares chain{pawn};
    for (Squares before; before != chain;) {
        before = chain;
        chain |= pawns & (pawn_attacks(side, chain) | pawn_attacks(other(side), chain));
    }
    if (!chain.several()) return {};
    const Squares guarded = chain & pawn_attacks(side, chain);
    return {chain, chain & ~guarded, chain & ~pawn_attacks(other(side), chain), chain & pawn_attacks(side, guarded)};
}

/// Every chain of `side`, in the order of their lowest squares. O(pawns of the side).
[[nodiscard]] inline PawnChains pawn_chains(const Position& position, Side side) noexcept {
    const Squares pawns = position.men(side, Kind::pawn);
    PawnChains chains;
    for (Squares rest = chained_pawns(pawns, side); rest;) {
        chains.push_back(pawn_chain_of(pawns, side, rest.first()));
        rest &= ~chains.back().pawns;
    }
    return chains;
}

} // namespace keysquare
