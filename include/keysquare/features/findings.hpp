// findings: everything that the library sees in a position, strongest first.
#pragma once

#include <keysquare/features/colour_complex.hpp>
#include <keysquare/features/discoveries.hpp>
#include <keysquare/features/exchange_imbalance.hpp>
#include <keysquare/features/forks.hpp>
#include <keysquare/features/guardian.hpp>
#include <keysquare/features/intermediate_moves.hpp>
#include <keysquare/features/king_themes.hpp>
#include <keysquare/features/mate_themes.hpp>
#include <keysquare/features/material.hpp>
#include <keysquare/features/mutual_guards.hpp>
#include <keysquare/features/overloaded.hpp>
#include <keysquare/features/pawn_themes.hpp>
#include <keysquare/features/piece_safety.hpp>
#include <keysquare/features/piece_themes.hpp>
#include <keysquare/features/pins.hpp>
#include <keysquare/features/promotions.hpp>
#include <keysquare/features/ranking.hpp>
#include <keysquare/features/removable_guard.hpp>
#include <keysquare/features/rooks.hpp>
#include <keysquare/features/square_control.hpp>
#include <keysquare/features/square_themes.hpp>
#include <keysquare/features/trapped_pieces.hpp>

namespace keysquare {

/// All findings of a position, ranked, into a vector that is cleared first. Reuse the vector and nothing is allocated.
/// Any position that `read_fen` accepts will do. Claims that need a pass are left out while the mover is in check.
void findings(const Position& position, Findings& found, const Options& options = {});

/// The same as a value, for a single position.
[[nodiscard]] Findings findings(const Position& position, const Options& options = {});

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// Themes that rest on where the pieces of one side can go.
inline void find_by_mobility(const BoardView& view, Side side, const Duties& duties, Findings& found) {
    const Position& position = view.position();
    RookMobilities rooks;
    for (const Square square : position.men(side) & ~(position.men(Kind::pawn) | position.men(Kind::king))) {
        const Mobility survey = mobility(view, square, duties);
        find_denied_square(view, survey, found);
        if (survey.piece.piece.kind == Kind::rook && rooks.size() < rooks.capacity()) rooks.push_back(survey);
    }
    find_rook_themes(view, side, rooks, found);
}

} // namespace detail

inline void findings(const Position& position, Findings& found, const Options& options) {
    found.clear();
    const BoardView view{position, options};
    const std::array<Duties, 2> duties = guard_duties(view);
    find_piece_safety(view, found);
    find_guard_duties(view, duties, found);
    find_overloaded(view, duties, found);
    find_mutual_guards(view, duties, found);
    find_mates(view, found);
    find_forks(view, found);
    find_pins(view, found);
    find_discoveries(view, found);
    find_removable_guards(view, duties, found);
    find_trapped_pieces(view, found);
    find_promotions(view, found);
    find_intermediate_moves(view, found);
    for (const Side side : all_sides) detail::find_by_mobility(view, side, duties[index(side)], found);
    find_square_control(view, found);
    find_colour_complex(view, found);
    find_guardian(view, found);
    find_material(view, found);
    find_square_themes(view, found);
    find_piece_themes(view, duties, found);
    find_pawn_themes(view, found);
    find_king_themes(view, found);
    find_exchange_imbalance(view, found);
    rank(found);
}

inline Findings findings(const Position& position, const Options& options) {
    Findings found;
    findings(position, found, options);
    return found;
}

} // namespace keysquare
