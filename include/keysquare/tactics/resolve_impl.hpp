// Bodies of tactics/resolve.hpp.
#pragma once

#include <optional>

#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

namespace detail {

/// A mate at ply n counts `mate_score - n`; every score above `mate_line` is a mate.
inline constexpr int mate_score = 1'000'000;
inline constexpr int mate_line = mate_score - 1'000;

class ResolveSearch {
  public:
    ResolveSearch(const Bound& bound, const Values& values) noexcept : bound_(bound), values_(values) {}

    /// The best score for the mover within (alpha, beta), fail-soft. `balance` is the mover's gain since the root.
    int search(const Position& position, int balance, int ply, int alpha, int beta, Line* line) noexcept {
        if (line) line->clear();
        if (++nodes_ > bound_.nodes) stopped_ = true;
        if (stopped_ || ply >= bound_.plies) return balance;

        const bool checked = in_check(position);
        int best = -mate_score + ply; // in check: mated unless a move is found
        if (!checked) {
            best = balance;
            if (best >= beta) return best;
            alpha = (std::max)(alpha, best);
        }
        const Limits limits{position};
        std::optional<CheckFinder> finder; // not every position needs it
        const auto gives_check = [&](Move move) {
            if (!finder) finder.emplace(position);
            return finder->gives_check(move);
        };
        const auto try_all = [&](Moves& moves, bool all_check) {
            for (std::size_t at = 0; at < moves.size(); ++at) {
                bring_best_forward(moves, at);
                const Move move = moves[at].move;
                const int won = immediate_gain(position, move, values_);
                // Out of check the other side may stop at once, so no more than this can come of the move.
                if (!checked && balance + won <= alpha && !all_check && !gives_check(move)) continue;
                Line reply;
                const int value =
                    -search(after(position, move), -(balance + won), ply + 1, -beta, -alpha, line ? &reply : nullptr);
                if (stopped_) return;
                if (value <= best) continue;
                best = value;
                if (line) keep(*line, move, reply);
                if (best >= beta) return;
                alpha = (std::max)(alpha, best);
            }
        };
        Moves moves;
        if (checked) {
            collect(
                position, limits, all_squares, [](Move) { return true; }, moves);
            try_all(moves, false);
            return best;
        }
        const auto takes = [&](Move move) { return captured_by(position, move) != Kind::none || move.promotes(); };
        collect(position, limits, taking_squares(position), takes, moves);
        try_all(moves, false);
        if (stopped_ || best >= beta || ply >= bound_.check_plies) return best;
        if (!finder) finder.emplace(position);
        moves.clear();
        collect(
            position, limits, checking_squares(position, *finder),
            [&](Move move) { return !takes(move) && finder->gives_check(move); }, moves);
        try_all(moves, true);
        return best;
    }

    [[nodiscard]] bool stopped() const noexcept { return stopped_; }

  private:
    struct Ordered {
        Move move;
        std::int16_t first; ///< larger is tried earlier
    };
    using Moves = boost::container::static_vector<Ordered, most_moves>;

    /// The legal moves to `wanted` squares that are asked for.
    template <class Asked>
    void collect(const Position& position, const Limits& limits, Squares wanted, Asked asked,
                 Moves& moves) const noexcept {
        MoveList all;
        each_legal_move(position, limits, wanted, ListReceiver{all});
        for (const Move move : all)
            if (asked(move)) moves.push_back({move, order_of(position, move)});
    }

    /// Where captures and promotions arrive.
    [[nodiscard]] static Squares taking_squares(const Position& position) noexcept {
        const bool white = position.mover() == Side::white;
        Squares squares = position.men(position.waiter());
        if (position.men(position.mover(), Kind::pawn) & rank_squares(white ? 6 : 1))
            squares |= rank_squares(white ? 7 : 0);
        return position.en_passant() == Square::none ? squares : squares.with(position.en_passant());
    }

    /// Where quiet moves that give check arrive, castling among them.
    [[nodiscard]] static Squares checking_squares(const Position& position, const CheckFinder& finder) noexcept {
        Squares squares = finder.reach();
        for (const Wing wing : all_wings)
            if (position.castling_rook(position.mover(), wing) != Square::none)
                squares =
                    squares.with(square_at(wing == Wing::short_ ? 6 : 2, position.mover() == Side::white ? 0 : 7));
        return squares & ~position.men(position.waiter());
    }

    /// Biggest gain first, by the cheapest man; only the order of work depends on it, never the value.
    [[nodiscard]] std::int16_t order_of(const Position& position, Move move) const noexcept {
        return static_cast<std::int16_t>(16 * immediate_gain(position, move, values_) -
                                         static_cast<int>(index(position.kind_at(move.origin()))));
    }

    static void bring_best_forward(Moves& moves, std::size_t at) noexcept {
        std::size_t best = at;
        for (std::size_t i = at + 1; i < moves.size(); ++i)
            if (moves[i].first > moves[best].first) best = i;
        std::rotate(moves.begin() + static_cast<std::ptrdiff_t>(at), moves.begin() + static_cast<std::ptrdiff_t>(best),
                    moves.begin() + static_cast<std::ptrdiff_t>(best + 1));
    }

    static void keep(Line& line, Move move, const Line& reply) noexcept {
        line.assign(1, move);
        line.insert(line.end(), reply.begin(),
                    reply.begin() + static_cast<std::ptrdiff_t>((std::min)(reply.size(), line.capacity() - 1)));
    }

    const Bound& bound_;
    const Values& values_;
    int nodes_ = 0;
    bool stopped_ = false;
};

/// The material that a line wins for the side that makes its first move.
inline int gain_of_line(Position position, const Line& line, const Values& values) noexcept {
    int sum = 0;
    int sign = 1;
    for (const Move move : line) {
        sum += sign * immediate_gain(position, move, values);
        position = after(position, move);
        sign = -sign;
    }
    return sum;
}

/// Bounds longer than a line can hold would give lines that do not reach their gain.
inline Bound fitted(Bound bound) noexcept {
    bound.plies = std::clamp(bound.plies, 1, static_cast<int>(longest_line) - 1);
    return bound;
}

} // namespace detail

inline Outcome resolve(const Position& position, const Bound& bound, const Values& values) noexcept {
    Outcome outcome;
    const Bound fitted = detail::fitted(bound);
    detail::ResolveSearch search{fitted, values};
    const int score = search.search(position, 0, 0, -detail::mate_score, detail::mate_score, &outcome.line);
    outcome.complete = !search.stopped();
    outcome.mate = score > detail::mate_line;
    outcome.mated = score < -detail::mate_line;
    outcome.gain = outcome.mate || outcome.mated ? detail::gain_of_line(position, outcome.line, values) : score;
    return outcome;
}

inline Verdict resolve_wins(const Position& position, int threshold, const Bound& bound,
                            const Values& values) noexcept {
    const Bound fitted = detail::fitted(bound);
    detail::ResolveSearch search{fitted, values};
    const int score = search.search(position, 0, 0, threshold - 1, threshold, nullptr);
    return {!search.stopped() && score >= threshold, !search.stopped()};
}

inline Outcome value_of_move(const Position& position, Move move, const Bound& bound, const Values& values) noexcept {
    const Outcome reply = resolve(after(position, move), bound, values);
    Outcome outcome;
    outcome.gain = immediate_gain(position, move, values) - reply.gain;
    outcome.mate = reply.mated;
    outcome.mated = reply.mate;
    outcome.complete = reply.complete;
    outcome.line.push_back(move);
    outcome.line.insert(outcome.line.end(), reply.line.begin(), reply.line.end());
    return outcome;
}

inline bool is_better(const Outcome& a, const Outcome& b) noexcept {
    if (a.line.empty() || b.line.empty()) return !a.line.empty();
    if (a.mate != b.mate) return a.mate;
    if (a.mated != b.mated) return b.mated;
    return a.gain > b.gain;
}

template <class Moves>
Outcome best_of(const Position& position, const Moves& moves, const Bound& bound, const Values& values) noexcept {
    Outcome best;
    bool complete = true;
    for (const Move move : moves) {
        const Outcome outcome = value_of_move(position, move, bound, values);
        complete = complete && outcome.complete;
        if (is_better(outcome, best)) best = outcome;
    }
    best.complete = complete;
    return best;
}

inline Verdict move_keeps(const Position& position, Move move, int threshold, const Bound& bound,
                          const Values& values) noexcept {
    // The mover keeps `threshold` when the other side does not win more than the rest.
    const int too_much = immediate_gain(position, move, values) - threshold + 1;
    const Bound fitted = detail::fitted(bound);
    detail::ResolveSearch search{fitted, values};
    const int score = search.search(after(position, move), 0, 0, too_much - 1, too_much, nullptr);
    return {!search.stopped() && score < too_much, !search.stopped()};
}

} // namespace keysquare
