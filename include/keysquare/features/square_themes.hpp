// Themes about squares: holes, outposts, space, and who holds more squares.
#pragma once

#include <keysquare/features/board_view.hpp>
#include <keysquare/features/endgame.hpp>
#include <keysquare/features/finding_parts.hpp>
#include <keysquare/features/holes.hpp>
#include <keysquare/features/outpost_routes.hpp>
#include <keysquare/features/space.hpp>

namespace keysquare {

/// From this many squares on, a lead in space is worth a word.
inline constexpr int least_space_lead = 3;

/// Themes `hole`, `outpost` and `space`, for both sides: counts without a line, good for `side`.
///
/// - hole: `usable_holes_of` the other side, when there are any and the other side has a pawn left. One finding for all
///   of them. squares = they; pieces = the knights and bishops of `side` that stand on one of them, then its other
///   knights and bishops that attack one of them that no man of `side` stands on, as fit in; numbers: squares.
/// - outpost, `held_by_piece`: a knight or bishop of `side` that stands on an outpost (`Outposts::taken`); one finding
///   each. squares = its square; pieces = it. No numbers.
/// - outpost, `within_reach`: `nearest_outposts` of `side`, when there are any and the king of `side` is not in check.
///   One finding for all of them. squares = the outposts; pieces = the knights and bishops that reach one of them;
///   numbers: moves_to_go. Nothing is claimed about what the other side does in the meantime.
/// - space: `space_of` both sides, when `side` has at least `least_space_lead` squares more and it is no endgame
///   (`is_endgame`). squares = the room of `side`; no pieces; numbers: squares, squares_of_other.
void find_square_themes(const BoardView& view, Findings& findings);

/// `Theme::square_control` for the side that holds more squares, if one does and no king is in check. `held` and
/// `held_by_other` are the counts, `squares` those held by `side`. No line.
void find_square_control(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline void add_holes(const Position& position, Side side, const AttackMap& map, Findings& findings) {
    if (!position.men(other(side), Kind::pawn)) return;
    const Squares holes = usable_holes_of(position, other(side), map);
    if (!holes) return;
    const Squares minors = position.men(side) & (position.men(Kind::knight) | position.men(Kind::bishop));
    Squares users;
    for (const Square square : holes & ~position.men(side)) users |= attackers_of(position, square, side) & minors;
    Finding& finding = add_count(findings, Theme::hole, Detail::none, side, holes);
    name_men(position, minors & holes, finding);
    name_men(position, users & ~holes, finding);
    finding.count(Measure::squares, holes.count());
}

inline void add_held_outposts(const Position& position, Side side, Findings& findings) {
    for (const Square square : outposts(position, side).taken) {
        Finding& finding = add_count(findings, Theme::outpost, Detail::held_by_piece, side, Squares{square});
        finding.pieces.push_back({square, position.piece_at(square)});
    }
}

inline void add_near_outposts(const Position& position, Side side, Findings& findings) {
    if (attackers_of(position, position.king(side), other(side))) return;
    const OutpostRoutes routes = nearest_outposts(position, side);
    if (routes.moves == 0) return;
    Finding& finding = add_count(findings, Theme::outpost, Detail::within_reach, side, routes.squares);
    name_men(position, routes.pieces, finding);
    finding.count(Measure::moves_to_go, routes.moves);
}

inline void add_space(const Position& position, Side side, Findings& findings) {
    const Squares room = space_of(position, side);
    const int room_of_other = space_of(position, other(side)).count();
    if (room.count() < room_of_other + least_space_lead || is_endgame(position)) return;
    Finding& finding = add_count(findings, Theme::space, Detail::none, side, room);
    finding.count(Measure::squares, room.count());
    finding.count(Measure::squares_of_other, room_of_other);
}

} // namespace detail

inline void find_square_themes(const BoardView& view, Findings& findings) {
    const Position& position = view.position();
    const AttackMap& map = view.attacks();
    for (const Side side : all_sides) {
        detail::add_holes(position, side, map, findings);
        detail::add_held_outposts(position, side, findings);
        detail::add_near_outposts(position, side, findings);
        detail::add_space(position, side, findings);
    }
}

inline void find_square_control(const BoardView& view, Findings& findings) {
    if (!view.turn(view.position().waiter()).exists) return;
    const SquareControl& control = view.control();
    const int white = control.held[index(Side::white)].count();
    const int black = control.held[index(Side::black)].count();
    if (white == black) return;
    Finding& finding = findings.emplace_back();
    finding.theme = Theme::square_control;
    finding.side = white > black ? Side::white : Side::black;
    finding.squares = control.held[index(finding.side)];
    finding.count(Measure::held, (std::max)(white, black));
    finding.count(Measure::held_by_other, (std::min)(white, black));
}

} // namespace keysquare
