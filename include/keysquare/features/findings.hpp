// findings: everything that the library sees in a position, strongest first.
#pragma once

#include <initializer_list>

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
#include <keysquare/features/square_themes.hpp>
#include <keysquare/features/trapped_pieces.hpp>

namespace keysquare {

/// A set of themes.
class ThemeSet {
  public:
    constexpr ThemeSet() noexcept = default;
    /// These themes.
    constexpr ThemeSet(std::initializer_list<Theme> themes) noexcept {
        for (const Theme theme : themes) add(theme);
    }
    /// Every theme.
    [[nodiscard]] static constexpr ThemeSet all() noexcept {
        ThemeSet set;
        set.bits_ = ~std::uint64_t{0};
        return set;
    }
    /// Puts a theme in.
    constexpr void add(Theme theme) noexcept { bits_ |= std::uint64_t{1} << static_cast<int>(theme); }
    /// Whether the two have a theme in common.
    [[nodiscard]] constexpr bool meets(ThemeSet other) const noexcept { return (bits_ & other.bits_) != 0; }

  private:
    std::uint64_t bits_ = 0;
};
static_assert(static_cast<int>(Theme::end_) <= 64);

/// All findings of a position, ranked, into a vector that is cleared first. Reuse the vector and nothing is allocated.
/// Any position that `read_fen` accepts will do. Claims that need a pass are left out while the mover is in check.
void findings(const Position& position, Findings& found, const Options& options = {});

/// The same as a value, for a single position.
[[nodiscard]] Findings findings(const Position& position, const Options& options = {});

/// Appends the findings of the wanted themes, maybe with some of others, without weights and in no order that means
/// anything: enough to know whether a position shows a theme, and often much faster than all findings.
void find_themes(const BoardView& view, ThemeSet wanted, Findings& found);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// Most positions have fewer findings: a list that is new has room for them at once.
inline constexpr std::size_t usual_findings = 64;

/// Themes that rest on where the pieces of one side can go.
inline void find_by_mobility(const BoardView& view, Side side, Findings& found) {
    const Position& position = view.position();
    RookMobilities rooks;
    for (const Square square : position.men(side) & ~(position.men(Kind::pawn) | position.men(Kind::king))) {
        const Mobility survey = mobility(view, square);
        find_denied_square(view, survey, found);
        if (survey.piece.piece.kind == Kind::rook && rooks.size() < rooks.capacity()) rooks.push_back(survey);
    }
    find_rook_themes(view, side, rooks, found);
}

} // namespace detail

inline void find_themes(const BoardView& view, ThemeSet wanted, Findings& found) {
    using enum Theme;
    const auto about = [wanted](auto... themes) { return wanted.meets(ThemeSet{themes...}); };
    const bool by_mobility = about(denied_square, rook_scope, stuffed_rooks, open_file, seventh_rank, doubled_rooks,
                                   connected_rooks, entry_square);
    const bool about_pieces = about(good_bishop, bad_bishop, rim_knight, undeveloped, passive_piece, guarding_only);
    if (about(hanging, poisoned, loose)) find_piece_safety(view, found);
    if (about(guard_duty, tied)) find_guard_duties(view, found);
    if (about(overloaded)) find_overloaded(view, found);
    if (about(mutual_guards, shield_pair)) find_mutual_guards(view, found);
    if (about(mate_in_one, mate_in_two, back_rank)) find_mates(view, found);
    if (about(fork, double_attack)) find_forks(view, found);
    if (about(pin, skewer)) find_pins(view, found);
    if (about(discovered_attack, battery)) find_discoveries(view, found);
    if (about(removable_guard)) find_removable_guards(view, found);
    if (about(trapped_piece)) find_trapped_pieces(view, found);
    if (about(promotion_threat)) find_promotions(view, found);
    if (about(intermediate_move)) find_intermediate_moves(view, found);
    if (by_mobility)
        for (const Side side : all_sides) detail::find_by_mobility(view, side, found);
    if (about(square_control)) find_square_control(view, found);
    if (about(colour_complex)) find_colour_complex(view, found);
    if (about(guardian)) find_guardian(view, found);
    if (about(material)) find_material(view, found);
    if (about(hole, outpost, space)) find_square_themes(view, found);
    if (about_pieces) find_piece_themes(view, found);
    if (about(isolated_pawn, doubled_pawns, backward_pawn, passed_pawn, candidate_to_pass, pawn_chain, pawn_islands,
              pawn_majority, pawn_lever, blocked_pawns))
        find_pawn_themes(view, found);
    if (about(king_shelter, king_lines, near_king, king_escape, king_in_centre)) find_king_themes(view, found);
    if (about(exchange_imbalance)) find_exchange_imbalance(view, found);
}

inline void findings(const Position& position, Findings& found, const Options& options) {
    found.clear();
    found.reserve(detail::usual_findings);
    find_themes(BoardView{position, options}, ThemeSet::all(), found);
    rank(found);
}

inline Findings findings(const Position& position, const Options& options) {
    Findings found;
    findings(position, found, options);
    return found;
}

} // namespace keysquare
