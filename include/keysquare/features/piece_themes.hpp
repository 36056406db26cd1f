// Themes about pieces: good and bad bishops, rim knights, undeveloped and passive pieces, and pieces that only guard.
#pragma once

#include <keysquare/features/bishop_quality.hpp>
#include <keysquare/features/duties.hpp>
#include <keysquare/features/finding_parts.hpp>

namespace keysquare {

/// Themes `good_bishop`, `bad_bishop`, `rim_knight`, `undeveloped`, `passive_piece` and `guarding_only`, for both
/// sides: counts without a line. `good_bishop` is good for the owner, all others for the other side.
///
/// - good_bishop, bad_bishop: a bishop whose `bishop_standing` says so; one finding each. squares = the fixed pawns of
///   its side, of a bad bishop those on its colour, of a good one those on the other colour; pieces = the bishop, then
///   these pawns as fit in; numbers: fixed_pawns (these squares), pawns_on_colour (all pawns of its side on its own
///   colour), scope (`scope_of`).
/// - rim_knight: a knight of `rim_knights_of` with at most half of the usual scope of a knight; one finding each.
///   squares = its scope; pieces = it; numbers: scope, usual_scope.
/// - undeveloped: `undeveloped_of` a side, when it has more of them than the other side. One finding for all of them.
///   squares = their squares; pieces = they; numbers: pieces.
/// - passive_piece: `passive_piece_of` a side. squares = its scope; pieces = it; numbers: scope, usual_scope.
/// - guarding_only: a knight, bishop, rook or queen with a duty (`Duty`) that attacks no man of the other side and no
///   square of the other side's half (`attacks_of` on the occupied board); one finding each. squares = the targets of
///   its duties, its own square among them where that is one (a mate there); pieces = it, then the other men of its
///   side that stand on targets, as fit in; numbers: duties (these squares, of whatever kind the duties are). None for
///   the side to move while it is in check: nobody has a duty then, as the other side has no turn.
void find_piece_themes(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline void add_bishops(const BoardView& view, Side owner, Findings& findings) {
    const Position& position = view.position();
    const Squares bishops = position.men(owner, Kind::bishop);
    if (!bishops) return;
    const Squares fixed_pawns = fixed_pawns_of(position, owner, view.options().values);
    for (const Square square : bishops) {
        const BishopStanding standing = bishop_standing(position, square, fixed_pawns);
        if (standing.quality == BishopQuality::neither) continue;
        const bool is_good = standing.quality == BishopQuality::good;
        Finding& finding = add_count(findings, is_good ? Theme::good_bishop : Theme::bad_bishop, Detail::none,
                                     is_good ? owner : other(owner), is_good ? standing.fixed_off : standing.fixed_on);
        name_men(position, Squares{square}, finding);
        name_men(position, finding.squares, finding);
        finding.count(Measure::fixed_pawns, finding.squares.count());
        finding.count(Measure::pawns_on_colour, standing.pawns_on.count());
        finding.count(Measure::scope, standing.scope.count());
    }
}

/// A finding about one piece of `owner` and how little scope it has.
inline void add_narrow_piece(const Position& position, Theme theme, Square square, Findings& findings) {
    const Piece piece = position.piece_at(square);
    Finding& finding = add_count(findings, theme, Detail::none, other(piece.side), scope_of(position, square));
    finding.pieces.push_back({square, piece});
    finding.count(Measure::scope, finding.squares.count());
    finding.count(Measure::usual_scope, usual_scope(piece.kind));
}

inline void add_rim_knights(const Position& position, Side owner, Findings& findings) {
    for (const Square square : rim_knights_of(position, owner))
        if (2 * scope_of(position, square).count() <= usual_scope(Kind::knight))
            add_narrow_piece(position, Theme::rim_knight, square, findings);
}

inline void add_undeveloped(const Position& position, Side owner, Findings& findings) {
    const Squares at_home = undeveloped_of(position, owner);
    if (at_home.count() <= undeveloped_of(position, other(owner)).count()) return;
    Finding& finding = add_count(findings, Theme::undeveloped, Detail::none, other(owner), at_home);
    name_men(position, at_home, finding);
    finding.count(Measure::pieces, at_home.count());
}

inline void add_guarding_only(const Position& position, Side owner, const Duties& duties, Findings& findings) {
    const Squares pieces = position.men(owner) & ~(position.men(Kind::pawn) | position.men(Kind::king));
    const Squares aims = position.men(other(owner)) | half_of(other(owner));
    for (const Square square : pieces) {
        Squares targets;
        for (const Duty& duty : duties)
            if (duty.guard == square) targets |= Squares{duty.target};
        if (!targets || (attacks_of(position.piece_at(square), square, position.occupied()) & aims)) continue;
        Finding& finding = add_count(findings, Theme::guarding_only, Detail::none, other(owner), targets);
        name_men(position, Squares{square}, finding);
        name_men(position, targets & position.men(owner) & ~Squares{square}, finding);
        finding.count(Measure::duties, targets.count());
    }
}

} // namespace detail

inline void find_piece_themes(const BoardView& view, Findings& findings) {
    const Position& position = view.position();
    for (const Side owner : all_sides) {
        detail::add_bishops(view, owner, findings);
        detail::add_rim_knights(position, owner, findings);
        detail::add_undeveloped(position, owner, findings);
        if (const Square passive = passive_piece_of(position, owner); passive != Square::none)
            detail::add_narrow_piece(position, Theme::passive_piece, passive, findings);
        detail::add_guarding_only(position, owner, view.duties(owner), findings);
    }
}

} // namespace keysquare
