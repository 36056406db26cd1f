// Pins and skewers: two men on one line of a slider.
#pragma once

#include <keysquare/features/alignments.hpp>
#include <keysquare/features/tactical_finding.hpp>

namespace keysquare {

/// Theme `pin`, for both sides. A pin is an alignment of a slider of `side` with two men of the other side, the front
/// one not the king:
/// - `absolute`: the man behind is the king;
/// - `relative`: the man behind is worth at least as much as the front one, which is no pawn; `exchange` on the man
///   behind does not win `least_gain` now, but does with the front man removed, and after each legal move of the front
///   man off the line it wins at least `least_gain` more than that move took. Not looked for where either side has no
///   turn.
///
/// A pin that is on the board is reported with no gain, or with the line and gain of the move that wins most
/// (`WinningMoves`) among those that
/// - take the pinned man, which does not hang by `exchange` on its square, or
/// - attack it, the slider's own moves apart, with the moved man or with another one that did not attack it before, or
/// - arrive on a square that the pinned man attacks, where it may not take (absolute pins only).
/// A pin that a move makes (`absolute_next`, `relative_next`) is reported when that move wins more than it takes, mates
/// excepted, and the pinned man is the front of an alignment of the slider that moved, or of one from whose line the
/// moved man went away: no pawn, and behind it the king or a man worth more; one a side, the move that wins most.
///
/// pieces = the pinned man, the slider where it stands now, the man behind; squares = the line from the slider (where
/// it goes, if it has to move first) to the man behind, without the slider.
///
/// Theme `skewer`, for both sides: a move after which a slider, the moved one or one from whose line the moved man went
/// away, attacks the front man of an alignment - the king, a man worth more than the slider, or an unguarded one - with
/// a man behind it that is no king, not worth more than the front one (the king counts above all), and itself worth
/// more than the slider or unguarded once the front man is gone; the move wins more than it takes and does not mate.
/// One a side, the one that wins most. Where none wins, the safe one (`JudgedMoves`) that takes and promotes nothing
/// and forces no mate (`WinningMoves`), with the most valuable man behind, is reported with no gain, its move as
/// `point`. pieces = the slider where it stands now, the front man, the man behind; squares = where the slider stands
/// after the move, and the two men.
void find_pins(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline int worth_on_line(Kind kind, const Values& values) noexcept {
    return kind == Kind::king ? 1'000'000 : values[kind];
}

/// Whether the line is a relative pin.
inline bool holds_relatively(const BoardView& view, Side side, const Alignment& line) noexcept {
    const Position& position = view.position();
    const Options& options = view.options();
    const Kind front = position.kind_at(line.front);
    const Kind back = position.kind_at(line.back);
    if (front == Kind::pawn || options.values[back] < options.values[front]) return false;
    const Turn& owner = view.turn(other(side));
    const Turn& pinner = view.turn(side);
    if (!owner.exists || !pinner.exists) return false;
    if (!exchange_wins(without(pinner.position, line.front), line.back, options.least_gain, options.values))
        return false;
    if (exchange_wins(pinner.position, line.back, options.least_gain, options.values)) return false;
    const Squares on_line = line_through(line.slider, line.back);
    for (const Move move : view.judged(other(side)).moves()) {
        if (move.origin() != line.front || on_line.has(move.target())) continue;
        const int least = immediate_gain(owner.position, move, options.values) + options.least_gain;
        if (!exchange_wins(after(owner.position, move), line.back, least, options.values)) return false;
    }
    return true;
}

/// The move that wins most of what the pin allows, or null.
inline const Outcome* exploit_pin(const BoardView& view, Side side, const Alignment& line, bool absolute) {
    if (!view.turn(side).exists) return nullptr;
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const Squares covered = absolute ? attacks_of(position.piece_at(line.front), line.front, position.occupied()) &
                                           ~line_through(line.slider, line.back)
                                     : Squares{};
    const bool hangs = exchange_wins(position, line.front, view.options().least_gain, view.options().values);
    const Outcome* best = nullptr;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        if (move.castles()) continue;
        if (move.target() == line.front && hangs) continue;
        const bool aims = move.target() == line.front || covered.has(move.target()) ||
                          (move.origin() != line.slider && adds_attacker(position, move, line.front));
        if (!aims) continue;
        const Outcome* outcome = winning.win(at, Squares{line.front});
        if (outcome && (!best || is_better(*outcome, *best))) best = outcome;
    }
    return best;
}

inline void show_line(const Position& position, const Alignment& line, Square slider_now, Finding& finding) {
    finding.squares = squares_between(line.slider, line.front) | squares_between(line.front, line.back) |
                      Squares{line.front, line.back};
    finding.pieces.push_back({line.front, position.piece_at(line.front)});
    finding.pieces.push_back({slider_now, position.piece_at(slider_now)});
    finding.pieces.push_back({line.back, position.piece_at(line.back)});
}

inline void add_standing_pins(const BoardView& view, Side side, Findings& findings) {
    const Position& position = view.position();
    const Squares enemies = position.men(other(side));
    each_alignment(position, side, [&](const Alignment& line) {
        if (!enemies.has(line.front) || !enemies.has(line.back) || position.kind_at(line.front) == Kind::king) return;
        const bool absolute = position.kind_at(line.back) == Kind::king;
        if (!absolute && !holds_relatively(view, side, line)) return;
        const Outcome* won = exploit_pin(view, side, line, absolute);
        Finding& finding = findings.emplace_back(winning_finding(
            view, Theme::pin, absolute ? Detail::absolute : Detail::relative, side, won ? *won : Outcome{}));
        if (!won) finding.after_pass = false;
        show_line(position, line, line.slider, finding);
    });
}

inline bool slides(Kind kind) noexcept { return kind == Kind::bishop || kind == Kind::rook || kind == Kind::queen; }

/// A move that makes a pin or a skewer: the alignment that it makes, its slider, and what is occupied after the move.
struct MadeAlignment {
    std::size_t at = 0; ///< the place of the move in the list
    Move move;
    Alignment line;
    Piece slider;
    Squares occupied;
};

/// Calls `receive` for each alignment of two men of the other side that a move makes: by the slider that moves, or by
/// one whose line it opens.
template <class Receive> void each_made_alignment(const WinningMoves& winning, Receive receive) {
    const Position& position = winning.position();
    const Squares sliders = position.sliders(position.mover());
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        if (move.castles()) continue;
        const Squares occupied = occupied_after(position, move);
        const Squares enemies = position.men(position.waiter()) & occupied.without(move.target());
        const auto look_from = [&](Piece slider, Square square, Squares between) {
            each_alignment(slider, square, occupied, [&](const Alignment& line) {
                const bool wanted = !between || (squares_between(square, line.front) & between);
                if (wanted && enemies.has(line.front) && enemies.has(line.back))
                    receive(MadeAlignment{at, move, line, slider, occupied});
            });
        };
        if (const Piece man = arriving_man(position, move); slides(man.kind)) look_from(man, move.target(), {});
        for (const Square slider : attackers_of(position, move.origin(), position.mover()) & sliders)
            look_from(position.piece_at(slider), slider, Squares{move.origin()});
    }
}

/// What the move wins, when that is more than it takes and no mate.
inline const Outcome* wins_more(const WinningMoves& winning, const MadeAlignment& made, const Values& values) {
    const Outcome* outcome = winning.win(made.at, Squares{made.line.front});
    const bool more =
        outcome && !outcome->mate && outcome->gain > immediate_gain(winning.position(), made.move, values);
    return more ? outcome : nullptr;
}

inline void add_made_pin(const BoardView& view, Side side, Findings& findings) {
    const WinningMoves& winning = view.winning(side);
    const Values& values = view.options().values;
    const Outcome* best = nullptr;
    MadeAlignment shown;
    each_made_alignment(winning, [&](const MadeAlignment& made) {
        const Kind front = winning.position().kind_at(made.line.front);
        const int behind = worth_on_line(winning.position().kind_at(made.line.back), values);
        if (front == Kind::king || front == Kind::pawn || behind <= values[front]) return;
        const Outcome* outcome = wins_more(winning, made, values);
        if (!outcome || (best && !is_better(*outcome, *best))) return;
        best = outcome;
        shown = made;
    });
    if (!best) return;
    const Position& position = view.position();
    const bool absolute = position.kind_at(shown.line.back) == Kind::king;
    Finding& finding = findings.emplace_back(
        winning_finding(view, Theme::pin, absolute ? Detail::absolute_next : Detail::relative_next, side, *best));
    const bool moves = shown.line.slider == shown.move.target();
    show_line(position, shown.line, moves ? shown.move.origin() : shown.line.slider, finding);
}

inline bool is_skewer(const Position& position, const MadeAlignment& made, const Values& values) noexcept {
    const Kind front = position.kind_at(made.line.front);
    const Kind back = position.kind_at(made.line.back);
    if (back == Kind::king || worth_on_line(front, values) < values[back]) return false;
    const auto threatened = [&](Squares occupied) {
        return threatened_from(position, made.slider, made.line.slider, occupied, values, made.move.target());
    };
    return threatened(made.occupied).has(made.line.front) &&
           threatened(made.occupied.without(made.line.front)).has(made.line.back);
}

inline void add_skewer(const BoardView& view, Side side, Findings& findings) {
    const WinningMoves& winning = view.winning(side);
    const Values& values = view.options().values;
    const Outcome* best = nullptr;
    MadeAlignment shown;
    int worth_of_parried = 0;
    each_made_alignment(winning, [&](const MadeAlignment& made) {
        if (!is_skewer(winning.position(), made, values)) return;
        const int worth = values[winning.position().kind_at(made.line.back)];
        if (const Outcome* outcome = wins_more(winning, made, values)) {
            if (best && !is_better(*outcome, *best)) return;
            best = outcome;
        } else {
            if (best || worth <= worth_of_parried || takes(winning.position(), made.move)) return;
            if (winning.win(made.at, Squares{made.line.front}) || !view.judged(side).is_safe(made.at)) return;
            worth_of_parried = worth;
        }
        shown = made;
    });
    if (!best && worth_of_parried == 0) return;
    const Position& position = view.position();
    Finding& finding =
        findings.emplace_back(winning_finding(view, Theme::skewer, Detail::none, side, best ? *best : Outcome{}));
    if (!best) finding.point = {shown.move};
    finding.squares = Squares{shown.line.slider, shown.line.front, shown.line.back};
    const bool moves = shown.line.slider == shown.move.target();
    for (const Square square : {moves ? shown.move.origin() : shown.line.slider, shown.line.front, shown.line.back})
        finding.pieces.push_back({square, position.piece_at(square)});
}

} // namespace detail

inline void find_pins(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides) {
        detail::add_standing_pins(view, side, findings);
        if (!view.turn(side).exists) continue;
        detail::add_made_pin(view, side, findings);
        detail::add_skewer(view, side, findings);
    }
}

} // namespace keysquare
