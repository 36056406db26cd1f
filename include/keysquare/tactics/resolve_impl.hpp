// Bodies of tactics/resolve.hpp.
#pragma once

#include <optional>

#include <keysquare/tactics/forcing_moves.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

namespace detail {

/// A mate at ply n counts `mate_score - n`; every score above `mate_line` is a mate.
inline constexpr int mate_score = 1'000'000;
inline constexpr int mate_line = mate_score - 1'000;

class ResolveSearch {
  public:
    ResolveSearch(const Bound& bound, const Values& values) noexcept
        : bound_(bound), values_(values), least_value_(*std::min_element(values.of.begin(), values.of.begin() + 5)) {}

    /// The best score for the mover within (alpha, beta), fail-soft. `balance` is the mover's gain since the root.
    int search(const Position& position, int balance, int ply, int alpha, int beta, Line* line) noexcept {
        if (line) line->clear();
        if (++nodes_ > bound_.nodes) stopped_ = true;
        if (stopped_ || ply >= bound_.plies) return balance;
        const Limits limits{position};
        if (limits.checkers) {
            // Mated until a move is found.
            Node node{position, limits, balance, ply, alpha, beta, -mate_score + ply, line};
            search_evasions(node);
            return node.best;
        }
        if (balance >= beta) return balance;
        Node node{position, limits, balance, ply, (std::max)(alpha, balance), beta, balance, line};
        search_forcing(node);
        return node.best;
    }

    [[nodiscard]] bool stopped() const noexcept { return stopped_; }

  private:
    /// A move and its place in the order as one number: the larger is tried earlier, of equals the one that came first.
    using Ordered = std::uint64_t;
    using Moves = BoundedList<Ordered, most_moves>;

    [[nodiscard]] static Ordered ordered(Move move, int first, std::size_t came) noexcept {
        constexpr int bias = 1 << 30;
        return static_cast<Ordered>(first + bias) << 32 | static_cast<Ordered>(most_moves - came) << 16 | move.bits();
    }

    /// One position of the tree, and how far its search has come.
    struct Node {
        const Position& position;
        const Limits& limits;
        int balance;
        int ply;
        int alpha;
        int beta;
        int best;
        Line* line;
    };

    /// Receives moves with their place in the order: biggest gain first, by the cheapest man; only the order of work
    /// depends on it, never the value.
    struct OrderedReceiver {
        const Position& position;
        const Values& values;
        Moves& moves;

        void put(Move move, int gain, Kind kind) {
            moves.push_back(ordered(move, 16 * gain - static_cast<int>(index(kind)), moves.size()));
        }
        void single(Move move) { put(move, immediate_gain(position, move, values), position.kind_at(move.origin())); }
        void piece(Square origin, Squares targets) {
            const Kind kind = position.kind_at(origin);
            for (const Square target : targets) put(Move{origin, target}, values[position.kind_at(target)], kind);
        }
        void pawns(Squares targets, int step, MoveType type) {
            for (const Square target : targets)
                put(Move{square_at(index(target) - step), target, type}, values[position.kind_at(target)], Kind::pawn);
        }
        void promotions(Squares targets, int step) {
            for (const Square target : targets)
                for (const Kind kind : promotion_kinds)
                    single(Move{square_at(index(target) - step), target, promotion_to(kind)});
        }
    };

    /// Every legal answer to a check: first taking the attacker and stepping between, then the king's other moves,
    /// which are dearer to find and mostly not needed.
    void search_evasions(Node& node) noexcept {
        Moves moves;
        OrderedReceiver receiver{node.position, values_, moves};
        for (const Squares squares : {node.limits.answers, ~node.limits.answers}) {
            each_legal_move(node.position, node.limits, squares, receiver);
            try_all(node, moves);
            if (stopped_ || node.best >= node.beta) return;
        }
    }

    /// Captures and promotions, then quiet checks. A capture that takes too little to raise alpha is looked at only
    /// when it gives check: otherwise the other side stops at once.
    void search_forcing(Node& node) noexcept {
        const Position& position = node.position;
        const Squares enemies = position.men(position.waiter()) & ~position.men(Kind::king);
        const Squares promising = worth_taking(node) & enemies;
        std::optional<CheckFinder> finder; // made when the first question needs it
        Moves moves;
        OrderedReceiver receiver{position, values_, moves};
        if (promising == enemies)
            each_forcing_move(position, node.limits, NoChecks{}, promising, {}, receiver);
        else
            each_forcing_move(position, node.limits, finder.emplace(position), promising, enemies & ~promising,
                              receiver);
        if (position.en_passant() != Square::none) each_en_passant(position, node.limits, all_squares, receiver);
        each_promotion(position, node.limits, receiver);
        try_all(node, moves);
        if (stopped_ || node.best >= node.beta || node.ply >= bound_.check_plies) return;
        if (!finder) finder.emplace(position);
        each_forcing_move(position, node.limits, *finder, {}, finder->reach() & ~position.occupied(), receiver);
        MoveList castlings;
        each_castling(position, node.limits, all_squares, ListReceiver{castlings});
        for (const Move move : castlings)
            if (finder->gives_check(move)) receiver.single(move);
        try_all(node, moves);
    }

    /// The men that are worth more than what is missing to raise alpha; all of them when a pawn is.
    [[nodiscard]] Squares worth_taking(const Node& node) const noexcept {
        if (node.balance + least_value_ > node.alpha) return all_squares;
        Squares men;
        for (const Kind kind : all_kinds)
            if (node.balance + values_[kind] > node.alpha) men |= node.position.men(kind);
        return men;
    }

    /// Plays the moves in turn and keeps what is best.
    void try_all(Node& node, Moves& moves) noexcept {
        while (!moves.empty()) {
            const Move move = take_first(moves);
            const int won = immediate_gain(node.position, move, values_);
            Line reply;
            const int value = -search(after(node.position, move), -(node.balance + won), node.ply + 1, -node.beta,
                                      -node.alpha, node.line ? &reply : nullptr);
            if (stopped_) return;
            if (value <= node.best) continue;
            node.best = value;
            if (node.line) keep(*node.line, move, reply);
            if (value >= node.beta) return;
            node.alpha = (std::max)(node.alpha, value);
        }
    }

    /// Takes the move out that is to be tried first. No branch depends on the order, which can't be foretold.
    static Move take_first(Moves& moves) noexcept {
        std::size_t at = 0;
        for (std::size_t i = 1; i < moves.size(); ++i) at = moves[i] > moves[at] ? i : at;
        const Move move = Move::from_bits(static_cast<std::uint16_t>(moves[at]));
        moves[at] = moves.back();
        moves.pop_back();
        return move;
    }

    static void keep(Line& line, Move move, const Line& reply) noexcept {
        line.assign(1, move);
        line.insert(line.end(), reply.begin(),
                    reply.begin() + static_cast<std::ptrdiff_t>((std::min)(reply.size(), line.capacity() - 1)));
    }

    const Bound& bound_;
    const Values& values_;
    int least_value_; ///< of the men that can be taken
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

inline Verdict move_keeps(const Position& position, Move move, int threshold, const Bound& bound,
                          const Values& values) noexcept {
    // The mover keeps `threshold` when the other side does not win more than the rest.
    const int too_much = immediate_gain(position, move, values) - threshold + 1;
    const Bound fitted = detail::fitted(bound);
    detail::ResolveSearch search{fitted, values};
    const int score = search.search(after(position, move), 0, 0, too_much - 1, too_much, nullptr);
    return {!search.stopped() && score < too_much, !search.stopped()};
}

template <class Moves>
Outcome best_of(const Position& position, const Moves& moves, const Bound& bound, const Values& values,
                int most) noexcept {
    Outcome best;
    bool complete = true;
    for (const Move move : moves) {
        if (best.mate || (!best.line.empty() && !best.mated && best.gain >= most)) break;
        if (!best.line.empty()) { // a narrow question costs less than the whole answer
            const int more = best.mated ? -detail::mate_line : best.gain + 1;
            const Verdict better = move_keeps(position, move, more, bound, values);
            complete = complete && better.complete;
            if (!better.holds) continue;
        }
        const Outcome outcome = value_of_move(position, move, bound, values);
        complete = complete && outcome.complete;
        if (is_better(outcome, best)) best = outcome;
    }
    best.complete = complete;
    return best;
}

} // namespace keysquare
