#include <keysquare/thinking/difficulty.hpp>

#include <algorithm>

#include <keysquare/features/judged_moves.hpp>
#include <keysquare/features/tactical_finding.hpp>
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/thinking/move_wins.hpp>
#include <keysquare/thinking/stop.hpp>

#include "steps.hpp"
#include "threat_parts.hpp"

namespace keysquare {

namespace {

[[nodiscard]] bool is_forcing(const Position& position, const CheckFinder& finder, Move move) noexcept {
    return detail::takes(position, move) || finder.gives_check(move);
}

[[nodiscard]] int count_forcing(const Position& position, const MoveList& moves) noexcept {
    const CheckFinder finder{position};
    return detail::count_if(moves, [&](Move move) { return is_forcing(position, finder, move); });
}

/// What a move brings at first sight.
[[nodiscard]] int first_sight(const Position& position, Move move, const Values& values) noexcept {
    const Position moved = after(position, move);
    if (is_mated(moved)) return detail::mate_score;
    return immediate_gain(position, move, values) - exchange(moved, move.target(), values).gain;
}

/// Whether a move brings at least `least` at first sight.
[[nodiscard]] bool tempts(const Position& position, Move move, int least, const Values& values) noexcept {
    const Position moved = after(position, move);
    if (is_mated(moved)) return true;
    if (least >= detail::mate_score) return false;
    const int won = immediate_gain(position, move, values);
    return !exchange_wins(moved, move.target(), won - least + 1, values);
}

/// One move of the mover in a line. `arrived` is where the move before it arrived, none at the start.
[[nodiscard]] LineStep line_step(const Position& position, Move move, Square arrived, const Options& options) {
    const Side side = position.mover();
    const MoveList moves = legal_moves(position);
    const int brings = first_sight(position, move, options.values);
    LineStep step;
    step.move = move;
    step.man = position.kind_at(move.origin());
    step.captures = captured_by(position, move) != Kind::none;
    step.promotes = move.promotes();
    step.checks = CheckFinder{position}.gives_check(move);
    step.recaptures = step.captures && detail::taken_on(position, move) == arrived;
    step.gives_up = brings < 0;
    if (!move.castles()) {
        step.backward = rank_for(side, move.target()) < rank_for(side, move.origin());
        step.distance = king_distance(move.origin(), move.target());
    }
    step.legal = static_cast<int>(moves.size());
    step.forcing = count_forcing(position, moves);
    step.tempting = detail::count_if(
        moves, [&](Move other) { return other != move && tempts(position, other, brings, options.values); });
    const Position moved = after(position, move);
    const MoveList replies = legal_moves(moved);
    step.replies = static_cast<int>(replies.size());
    step.forcing_replies = count_forcing(moved, replies);
    return step;
}

/// The balance of the first mover after each ply of a line, compared with its start.
[[nodiscard]] BoundedList<int, longest_line> balances(const Position& start, const Line& line, const Values& values) {
    BoundedList<int, longest_line> after_ply;
    Position position = start;
    int balance = 0;
    for (const Move move : line) {
        const int won = immediate_gain(position, move, values);
        balance += position.mover() == start.mover() ? won : -won;
        after_ply.push_back(balance);
        position = after(position, move);
    }
    return after_ply;
}

/// Cuts what follows when the balance of the end is reached for good.
void cut(const Position& start, Line& line, const Values& values) {
    const auto after_ply = balances(start, line, values);
    std::size_t length = line.size();
    for (std::size_t at = line.size(); at-- > 0 && after_ply[at] >= after_ply.back();)
        if (after_ply[at] == after_ply.back()) length = at + 1;
    while (line.size() > length) line.pop_back();
}

/// How many men of the side make these moves. One that stands where another has arrived is that other one.
template <class Steps> [[nodiscard]] int count_movers(const Steps& steps) noexcept {
    Squares arrived;
    int movers = 0;
    for (const LineStep& step : steps) {
        if (!arrived.has(step.move.origin())) ++movers;
        arrived = arrived.without(step.move.origin()).with(step.move.target());
    }
    return movers;
}

/// Whether a move comes to at least `least` by captures and checks.
[[nodiscard]] bool comes_to(const Position& position, Move move, int least, const Options& options) noexcept {
    return move_keeps(position, move, least, options.bound, options.values).holds;
}

/// Compares the first move of the line with the others.
void compare_first(Difficulty& found, const MoveList& moves, const Options& options) {
    const Move first = found.line.front();
    const Outcome value = value_of_move(found.start, first, options.bound, options.values);
    found.shown_mate = value.complete && value.mate;
    found.shown_mated = value.complete && value.mated;
    found.shown = !value.complete || value.mate || value.mated ? 0 : value.gain;
    const int shown = found.shown_mate ? detail::mate_line : found.shown;
    const CheckFinder finder{found.start};
    for (const Move move : moves) {
        if (move == first) continue;
        const bool as_good = found.shown_mated || comes_to(found.start, move, shown, options);
        if (as_good) ++found.as_good;
        if (!as_good && is_forcing(found.start, finder, move)) ++found.failing;
        if (as_good && !found.shown_mate &&
            comes_to(found.start, move, found.shown_mated ? -detail::mate_line : shown + 1, options))
            ++found.better;
    }
}

/// Fills in what the line says. It is legal from `start`.
void read_line(Difficulty& found, const MoveList& moves, const Options& options) {
    if (found.line.empty()) return;
    Position position = found.start;
    Square arrived = Square::none;
    for (const Move move : found.line) {
        if (position.mover() == found.side) found.steps.push_back(line_step(position, move, arrived, options));
        arrived = move.target();
        position = after(position, move);
    }
    const auto after_ply = balances(found.start, found.line, options.values);
    found.gain = after_ply.back();
    found.deficit = 0;
    for (const int balance : after_ply) found.deficit = (std::max)(found.deficit, -balance);
    found.mate = position.mover() != found.side && is_mated(position);
    found.movers = count_movers(found.steps);
    compare_first(found, moves, options);
}

/// Counts the moves that win something. The strongest of them: the first of the side's `threats`.
[[nodiscard]] Threat count_winning(Difficulty& found, const Options& options) {
    Threat strongest;
    const MoveWins wins{found.start, options.least_gain, options};
    for (const Move move : wins.moves()) {
        const Outcome outcome = wins.win(move);
        if (outcome.line.empty()) continue;
        ++found.winning;
        const bool first = strongest.line.empty();
        const bool as_much =
            !first && outcome.mate == strongest.mate && (outcome.mate || outcome.gain == strongest.gain);
        const Threat threat{found.side, found.after_pass, outcome.mate, outcome.gain, Square::none, {}, outcome.line};
        const bool stronger = first || detail::is_stronger(threat, strongest);
        if (as_much)
            ++found.winning_most;
        else if (stronger)
            found.winning_most = 1;
        if (stronger) strongest = threat;
    }
    return strongest;
}

/// The line to be seen, where none is given.
void find_line(Difficulty& found, const MoveList& moves, const Threat& strongest, const Options& options) {
    if (!strongest.line.empty()) {
        found.source = LineSource::wins;
        found.line = strongest.line;
        if (!strongest.mate) cut(found.start, found.line, options.values);
        return;
    }
    if (!found.checked && !found.mate_at_stake && found.at_stake < options.least_gain) return;
    const Outcome best = best_of(found.start, moves, options.bound, options.values);
    if (!best.complete || best.mated || best.line.empty()) return;
    found.source = LineSource::holds;
    found.line = best.line;
    if (!best.mate) cut(found.start, found.line, options.values);
}

/// All but the line. `found.start` has the side to move.
void count_choice(Difficulty& found, const JudgedMoves& judged) {
    const MoveList& moves = judged.moves();
    found.checked = in_check(found.start);
    found.legal = static_cast<int>(moves.size());
    for (std::size_t at = 0; at < moves.size(); ++at) found.keeping += judged.is_safe(at) ? 1 : 0;
    found.mated = judged.best() <= -detail::mate_line;
    found.loss = found.mated ? 0 : -judged.best();
    found.mate_at_stake = judged.standing() <= -detail::mate_line;
    found.at_stake = found.mate_at_stake ? 0 : -judged.standing();
    found.forcing = count_forcing(found.start, moves);
}

/// The side's turn; `has_turn` is false where there is none.
[[nodiscard]] Difficulty difficulty_of_turn(const Position& position, Side side) {
    Difficulty found;
    found.side = side;
    found.after_pass = position.mover() != side;
    const auto turn = turn_of(position, side);
    found.has_turn = turn.has_value();
    found.start = turn.value_or(position);
    return found;
}

/// Fills in everything. `found.line` is set already where it is `given`.
void fill_in(Difficulty& found, const Options& options) {
    const JudgedMoves judged{found.start, options};
    count_choice(found, judged);
    const Threat strongest = count_winning(found, options);
    if (found.source != LineSource::given) find_line(found, judged.moves(), strongest, options);
    read_line(found, judged.moves(), options);
}

template <class Step>
[[nodiscard]] Result<Difficulty> difficulty_of_line(const Position& position, Side side, std::span<const Step> line,
                                                    const Options& options) {
    if (line.size() > longest_line)
        return detail::step_error(Reason::line_too_long, longest_line + 1, detail::text_of_step(line[longest_line]));
    Difficulty found = difficulty_of_turn(position, side);
    if (!found.has_turn)
        return detail::step_error(Reason::pass_in_check, 1,
                                  line.empty() ? std::string{} : detail::text_of_step(line.front()));
    found.source = LineSource::given;
    Position at = found.start;
    for (std::size_t number = 1; number <= line.size(); ++number) {
        const Result<Move> move = detail::step_in(at, line[number - 1], number);
        if (!move) return move.error();
        found.line.push_back(*move);
        at = after(at, *move);
    }
    fill_in(found, options);
    return found;
}

} // namespace

Difficulty difficulty(const Position& position, Side side, const Options& options) {
    Difficulty found = difficulty_of_turn(position, side);
    if (found.has_turn) fill_in(found, options);
    return found;
}

Result<Difficulty> difficulty(const Position& position, Side side, std::span<const Move> line, const Options& options) {
    return difficulty_of_line(position, side, line, options);
}

Result<Difficulty> difficulty(const Position& position, Side side, std::span<const std::string_view> line,
                              const Options& options) {
    return difficulty_of_line(position, side, line, options);
}

} // namespace keysquare
