// Bodies of features/exchange_imbalance.hpp.
#pragma once

#include <keysquare/features/exchange_imbalance.hpp>
#include <keysquare/features/finding_parts.hpp>

namespace keysquare {

namespace detail {

/// The ledger without the scope of the rooks, which is all that costs: what a count of compensation needs.
inline ExchangeLedger counted_ledger(const Position& position, ExchangeUp up) noexcept {
    ExchangeLedger ledger;
    ledger.up = up;
    const PawnStructure structure = pawn_structure(position);
    for (const Side side : all_sides) {
        LedgerPage& page = ledger.pages[index(side)];
        page.pawns = structure.of(side);
        page.more_pawns = page.pawns.pawns.count() - structure.of(other(side)).pawns.count();
        if (has_bishop_pair(position, side)) page.pair = position.men(side, Kind::bishop);
        page.open_files = structure.open_files;
        page.half_open_files = page.pawns.half_open_files;
        page.outposts = outposts(position, side).taken;
        page.king = king_shelter(position, side, structure);
    }
    const LedgerPage& own = ledger.of(ledger.giver());
    const LedgerPage& others = ledger.of(up.side);
    CompensationCounts counts;
    counts.exchanges = up.times;
    counts.own_pawns = own.pawns.pawns.count();
    counts.other_pawns = others.pawns.pawns.count();
    counts.own_pair = !own.pair.empty();
    counts.other_pair = !others.pair.empty();
    counts.own_outposts = own.outposts.count();
    counts.other_outposts = others.outposts.count();
    counts.own_passed = own.pawns.passed.count();
    counts.other_passed = others.pawns.passed.count();
    counts.own_queen = !position.men(ledger.giver(), Kind::queen).empty();
    counts.own_shield = own.king.shield.count();
    counts.other_shield = others.king.shield.count();
    counts.bearing_men = others.king.bearing_men.count();
    counts.rook_files = others.rook_files();
    counts.own_weak = own.weak_pawns();
    counts.other_weak = others.weak_pawns();
    ledger.compensation = compensation(counts);
    return ledger;
}

inline void add_scope(const BoardView& view, Side side, LedgerPage& page) {
    page.scope_known = view.turn(side).exists;
    for (const Square rook : view.position().men(side, Kind::rook))
        page.rooks.push_back({rook, page.scope_known ? mobility(view, rook).scope() : no_squares});
}

/// The minor piece that `side` had in `earlier` and has no longer; no piece when that is not clear.
inline Placed minor_gone(const Position& earlier, const Position& now, Side side) noexcept {
    Placed gone;
    for (const auto& [kind, colour] : {std::pair{Kind::knight, all_squares}, std::pair{Kind::bishop, light_squares},
                                       std::pair{Kind::bishop, dark_squares}}) {
        const Squares before = earlier.men(side, kind) & colour;
        const Squares left = now.men(side, kind) & colour;
        if (before.count() == left.count()) continue;
        const Squares moved_or_gone = before & ~left;
        if (gone.piece || before.count() != left.count() + 1 || moved_or_gone.several()) return {};
        gone = {moved_or_gone.first(), {side, kind}};
    }
    return gone;
}

inline Grasp grasp_of(const Position& position, Complex complex, const Options& options) noexcept {
    const SquareControl control = square_control(position, options);
    Grasp grasp;
    for (const Side side : all_sides) {
        grasp.held[index(side)] = control.held[index(side)] & squares_of(complex);
        grasp.attacked[index(side)] = control.attacked[index(side)] & squares_of(complex);
    }
    return grasp;
}

inline std::optional<GuardianGone> guardian_gone(const Position& earlier, const Position& now, Side rook_side,
                                                 const Options& options) noexcept {
    const Side giver = other(rook_side);
    const auto lost = [&](Side side, Kind kind) {
        return earlier.men(side, kind).count() - now.men(side, kind).count();
    };
    if (lost(rook_side, Kind::rook) != 0 || lost(giver, Kind::rook) != 1 || lost(giver, Kind::knight) != 0 ||
        lost(giver, Kind::bishop) != 0 || lost(Side::white, Kind::queen) != lost(Side::black, Kind::queen))
        return std::nullopt;
    const Placed piece = minor_gone(earlier, now, rook_side);
    if (!piece.piece) return std::nullopt;
    GuardianGone gone;
    gone.piece = piece;
    const bool light = is_light(piece.square) == (piece.piece.kind == Kind::bishop);
    gone.complex = light ? Complex::light : Complex::dark;
    gone.before = grasp_of(earlier, gone.complex, options);
    gone.now = grasp_of(now, gone.complex, options);
    return gone;
}

} // namespace detail

inline std::optional<ExchangeLedger> exchange_context(const BoardView& view, const Position* earlier) {
    const Position& position = view.position();
    const auto up = exchange_up(material_signature(position));
    if (!up) return std::nullopt;
    std::optional<ExchangeLedger> ledger{detail::counted_ledger(position, *up)};
    for (const Side side : all_sides) detail::add_scope(view, side, ledger->pages[index(side)]);
    if (earlier) ledger->guardian = detail::guardian_gone(*earlier, position, up->side, view.options());
    return ledger;
}

inline void find_exchange_imbalance(const BoardView& view, Findings& findings) {
    const Position& position = view.position();
    const auto up = exchange_up(material_signature(position));
    if (!up) return;
    const ExchangeLedger ledger = detail::counted_ledger(position, *up);
    const Compensation& compensation = ledger.compensation;
    const Side giver = ledger.giver();
    const LedgerPage& own = ledger.of(giver);
    const LedgerPage& others = ledger.of(up->side);

    Finding& finding = findings.emplace_back();
    finding.theme = Theme::exchange_imbalance;
    finding.detail = detail_of(compensation.level);
    finding.side = compensation.level >= CompensationLevel::enough ? giver : up->side;
    const Squares rooks = position.men(up->side, Kind::rook);
    const Squares minors = detail::minors_of(position) & position.men(giver);
    for (const Squares men : {rooks, minors}) detail::name_men(position, men, finding);
    finding.squares = rooks | minors;
    finding.count(Measure::material, balance(position, finding.side, view.options().values));
    finding.count(Measure::pawns, ledger.of(finding.side).more_pawns);
    finding.count(Measure::exchanges, up->times);
    finding.count(Measure::compensation, compensation.points);
    finding.count(Measure::rook_files, others.rook_files());

    if (compensation.counts(CompensationItem::pawns)) finding.squares |= own.pawns.pawns;
    const auto speak = [&](CompensationItem item, Measure measure, int count, Squares behind) {
        if (!compensation.counts(item)) return;
        finding.count(measure, count);
        finding.squares |= behind;
    };
    speak(CompensationItem::bishop_pair, Measure::bishop_pairs, 1, own.pair);
    speak(CompensationItem::outpost, Measure::outposts, own.outposts.count(), own.outposts);
    speak(CompensationItem::passed_pawn, Measure::passed_pawns, own.pawns.passed.count(), own.pawns.passed);
    speak(CompensationItem::exposed_king, Measure::missing_shield, own.king.shield.count() - others.king.shield.count(),
          others.king.shield.with(others.king.king));
    speak(CompensationItem::men_at_king, Measure::bearing_men, others.king.bearing_men.count(),
          others.king.bearing_men);
    speak(CompensationItem::damaged_pawns, Measure::weak_pawns, others.weak_pawns() - own.weak_pawns(),
          others.pawns.isolated | others.pawns.doubled);
}

} // namespace keysquare
