// Forks and double attacks: one move, two threats.
#pragma once

#include <keysquare/features/tactical_finding.hpp>

namespace keysquare {

/// Theme `fork`, for both sides: a move after which the man that moved threatens two or more men of the other side. A
/// man is threatened when it is the king, is worth more than the attacker, or is guarded by none of its own side (pins
/// are not looked at). Promotions count as queens or knights; castling does not fork.
///
/// - The fork wins when the move wins (`WinningMoves`) more than it takes and promotes by itself and does not mate:
///   line and gain are the move and the best replies. One finding a side: the fork that wins most.
/// - Where none wins, the safe fork (`JudgedMoves`) that takes and promotes nothing and forces no mate (`WinningMoves`)
///   and whose threatened men are worth most together (the king counts nothing) is reported with no gain; `point` is
///   its move.
/// detail = `with_check`, `with_capture`, `quiet`, the first that holds; pieces = the forking man where it stands
/// before the move, then the threatened men, the most valuable first; squares = where it goes, and the threatened men;
/// number: targets.
///
/// Theme `double_attack`, for both sides: a move that takes nothing, promotes nothing and gives no check, that
/// threatens mate in one (if the other side could pass) and whose man threatens exactly one man as well, and that wins
/// (`WinningMoves`) without mating. One finding a side, the move that wins most. Line and gain as above; pieces = the
/// man that moves, the threatened man; squares = where it goes, and the threatened man; number: targets.
void find_forks(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline Squares fork_targets(const Position& position, Move move, const Values& values) noexcept {
    if (move.castles() || (move.promotes() && move.promotion() != Kind::queen && move.promotion() != Kind::knight))
        return {};
    return threatened_from(position, arriving_man(position, move), move.target(), occupied_after(position, move),
                           values, move.target());
}

/// The forking or attacking man, its arrival and its targets.
inline void show_targets(const Position& position, Move move, Squares targets, const Values& values, Finding& finding) {
    finding.pieces.push_back({move.origin(), position.piece_at(move.origin())});
    const auto worth = [&](Square square) {
        const Kind kind = position.kind_at(square);
        return kind == Kind::king ? 1'000'000 : values[kind];
    };
    const auto begin = static_cast<std::ptrdiff_t>(finding.pieces.size());
    for (const Square target : targets) {
        if (finding.pieces.size() == finding.pieces.capacity()) break;
        const Placed man{target, position.piece_at(target)};
        const auto place = std::find_if(finding.pieces.begin() + begin, finding.pieces.end(),
                                        [&](const Placed& other) { return worth(other.square) < worth(target); });
        finding.pieces.insert(place, man);
    }
    finding.squares = targets.with(move.target());
    finding.count(Measure::targets, targets.count());
}

inline Detail how_it_starts(const Position& position, const CheckFinder& finder, Move move) noexcept {
    if (finder.gives_check(move)) return Detail::with_check;
    return captured_by(position, move) != Kind::none ? Detail::with_capture : Detail::quiet;
}

inline int worth_of(const Position& position, Squares men, const Values& values) noexcept {
    int worth = 0;
    for (const Square man : men) worth += values[position.kind_at(man)];
    return worth;
}

inline void add_fork(const BoardView& view, Side side, Findings& findings) {
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const Values& values = view.options().values;
    const Outcome* best = nullptr;
    Move move;
    Squares targets;
    Move parried;
    Squares parried_targets;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move candidate = winning.moves()[at];
        const Squares attacked = fork_targets(position, candidate, values);
        if (!attacked.several()) continue;
        const Outcome* outcome = winning.win(at, attacked);
        if (outcome && !outcome->mate && outcome->gain > immediate_gain(position, candidate, values)) {
            if (best && !is_better(*outcome, *best)) continue;
            best = outcome;
            move = candidate;
            targets = attacked;
        } else if (!best && !outcome && !takes(position, candidate) &&
                   worth_of(position, attacked, values) > worth_of(position, parried_targets, values) &&
                   view.judged(side).is_safe(at)) {
            parried = candidate;
            parried_targets = attacked;
        }
    }
    if (!best && !parried_targets) return;
    const Move shown = best ? move : parried;
    Finding finding = winning_finding(view, Theme::fork, how_it_starts(position, winning.finder(), shown), side,
                                      best ? *best : Outcome{});
    if (!best) finding.point = {parried};
    show_targets(position, shown, best ? targets : parried_targets, values, finding);
    findings.push_back(finding);
}

inline void add_double_attack(const BoardView& view, Side side, Findings& findings) {
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const Values& values = view.options().values;
    const Outcome* best = nullptr;
    Squares target;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        if (move.castles() || move.promotes() || captured_by(position, move) != Kind::none) continue;
        const Squares attacked = fork_targets(position, move, values);
        if (!attacked || attacked.several() || !winning.threatens_mate(at)) continue;
        const Outcome* outcome = winning.win(at, attacked);
        if (!outcome || outcome->mate || (best && !is_better(*outcome, *best))) continue;
        best = outcome;
        target = attacked;
    }
    if (!best) return;
    Finding& finding = findings.emplace_back(winning_finding(view, Theme::double_attack, Detail::none, side, *best));
    show_targets(position, best->line.front(), target, values, finding);
}

} // namespace detail

inline void find_forks(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides) {
        if (!view.turn(side).exists) continue;
        detail::add_fork(view, side, findings);
        detail::add_double_attack(view, side, findings);
    }
}

} // namespace keysquare
