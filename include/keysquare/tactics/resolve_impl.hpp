// Bodies of tactics/resolve.hpp.
#pragma once

#include <keysquare/tactics/forcing_moves.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

namespace detail {

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
    /// A move, what it wins at once and its place in the order as one number: the larger is tried earlier. The biggest
    /// gain comes first, then the cheapest man, the lower square of origin, the lower target. The order is that of the
    /// work, and decides which of equal lines is shown.
    class OrderedMove {
      public:
        OrderedMove(Move move, int won, Kind kind) noexcept
            : bits_((std::int64_t{16} * won - static_cast<int>(kind)) * (1 << 28) -
                    ((index(move.origin()) << 6 | index(move.raw_target())) << 16) + move.bits()) {}
        [[nodiscard]] Move move() const noexcept { return Move::from_bits(static_cast<std::uint16_t>(bits_)); }
        [[nodiscard]] int won() const noexcept {
            return static_cast<int>((bits_ + (std::int64_t{16} << 28) - 1) >> 32);
        }
        friend bool operator>(OrderedMove a, OrderedMove b) noexcept { return a.bits_ > b.bits_; }

      private:
        std::int64_t bits_;
    };
    using Moves = BoundedList<OrderedMove, most_moves>;

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

    /// Receives moves with their place in the order.
    struct OrderedReceiver {
        const Position& position;
        const Values& values;
        Moves& moves;

        void put(Move move, int gain, Kind kind) { moves.push_back(OrderedMove{move, gain, kind}); }
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

    /// Captures and promotions that win enough to raise alpha, then checks: after a move that wins less and gives no
    /// check the other side stops at once. How much is enough depends on the window, the order of the moves does not:
    /// what wins more is looked at earlier.
    void search_forcing(Node& node) noexcept {
        const Position& position = node.position;
        const Squares enemies = position.men(position.waiter()) & ~position.men(Kind::king);
        const int missing = node.alpha - node.balance;
        const Squares promising = promising_of(enemies, missing, node);
        Moves moves;
        OrderedReceiver receiver{position, values_, moves};
        each_capture(position, node.limits, promising, receiver);
        MoveList special; // what `each_capture` and `each_check` leave out
        each_promotion(position, node.limits, ListReceiver{special});
        if (position.en_passant() != Square::none)
            each_en_passant(position, node.limits, all_squares, ListReceiver{special});
        for (const Move move : special) {
            const int won = immediate_gain(position, move, values_);
            if (won > missing)
                receiver.single(move);
            else
                node.best = (std::max)(node.best, node.balance + won);
        }
        if (!moves.empty()) { // mostly there is nothing, and then a call would cost more than a question
            try_all(node, moves);
            if (stopped_ || node.best >= node.beta) return;
        }

        const bool quiet_too = node.ply < bound_.check_plies;
        const Squares others = (enemies & ~promising) | (quiet_too ? ~position.occupied() : Squares{});
        if (!others && special.empty()) return;
        const CheckFinder finder{position};
        each_check(position, node.limits, finder, others, receiver);
        if (quiet_too) each_castling(position, node.limits, all_squares, ListReceiver{special});
        for (const Move move : special)
            if (immediate_gain(position, move, values_) <= missing && finder.gives_check(move)) receiver.single(move);
        if (!moves.empty()) try_all(node, moves);
    }

    /// Those of `enemies` that are worth more than what is missing to raise alpha; all of them when the cheapest man is.
    /// Raises `node.best` to the most that the others could bring, so that the score stays an upper bound.
    [[nodiscard]] Squares promising_of(Squares enemies, int missing, Node& node) const noexcept {
        if (least_value_ > missing) return enemies;
        Squares promising;
        for (const Kind kind : all_kinds)
            if (const Squares men = node.position.men(kind) & enemies) {
                if (values_[kind] > missing)
                    promising |= men;
                else
                    node.best = (std::max)(node.best, node.balance + values_[kind]);
            }
        return promising;
    }

    /// Plays the moves in turn and keeps what is best.
    void try_all(Node& node, Moves& moves) noexcept {
        while (!moves.empty()) {
            const OrderedMove next = take_first(moves);
            const Move move = next.move();
            Line reply;
            const int value = -search(after(node.position, move), -(node.balance + next.won()), node.ply + 1,
                                      -node.beta, -node.alpha, node.line ? &reply : nullptr);
            if (stopped_) return;
            if (value <= node.best) continue;
            node.best = value;
            if (node.line) keep(*node.line, move, reply);
            if (value >= node.beta) return;
            node.alpha = (std::max)(node.alpha, value);
        }
    }

    /// Takes the move out that is to be tried first. No branch depends on the order, which can't be foretold.
    static OrderedMove take_first(Moves& moves) noexcept {
        std::size_t at = 0;
        for (std::size_t i = 1; i < moves.size(); ++i) at = moves[i] > moves[at] ? i : at;
        const OrderedMove first = moves[at];
        moves[at] = moves.back();
        moves.pop_back();
        return first;
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

/// What the score says, for an outcome that has its line. A search that was stopped says nothing of mates, and no more
/// than its line shows.
inline void set_result(const Position& position, int score, const Values& values, Outcome& outcome) noexcept {
    outcome.mate = outcome.complete && score > mate_line;
    outcome.mated = outcome.complete && score < -mate_line;
    const bool by_score = outcome.complete && !outcome.mate && !outcome.mated;
    outcome.gain = by_score ? score : gain_of_line(position, outcome.line, values);
}

/// Bounds longer than a line can hold would give lines that do not reach their gain.
inline Bound fitted(Bound bound) noexcept {
    bound.plies = std::clamp(bound.plies, 1, static_cast<int>(longest_line) - 1);
    return bound;
}

/// The score from which another move replaces the best one: a better one, or one as good that comes before it in the
/// list. Of moves that are all mated none does.
inline int better_than(const Outcome& best, bool comes_later) noexcept {
    if (best.mate) return mate_line + 1;
    if (best.mated) return -mate_line;
    return best.gain + (comes_later ? 1 : 0);
}

/// What a search says: exact inside its window, else a bound on that side.
struct Score {
    int score = 0;
    bool complete = true;
};

/// Both ends excluded.
struct Window {
    int low;
    int high;
};

/// What the mover has after `move`; the line is that of the reply.
inline Score score_after(const Position& position, Move move, Window window, const Bound& bound, const Values& values,
                         Line* reply) noexcept {
    const Bound fitted = detail::fitted(bound);
    ResolveSearch search{fitted, values};
    const int score = -search.search(after(position, move), -immediate_gain(position, move, values), 0, -window.high,
                                     -window.low, reply);
    return {score, !search.stopped()};
}

} // namespace detail

inline Outcome resolve(const Position& position, const Bound& bound, const Values& values) noexcept {
    Outcome outcome;
    const Bound fitted = detail::fitted(bound);
    detail::ResolveSearch search{fitted, values};
    const int score = search.search(position, 0, 0, -detail::mate_score, detail::mate_score, &outcome.line);
    outcome.complete = !search.stopped();
    detail::set_result(position, score, values, outcome);
    return outcome;
}

inline Verdict resolve_wins(const Position& position, int threshold, const Bound& bound,
                            const Values& values) noexcept {
    const Bound fitted = detail::fitted(bound);
    detail::ResolveSearch search{fitted, values};
    const int score = search.search(position, 0, 0, threshold - 1, threshold, nullptr);
    return {!search.stopped() && score >= threshold, !search.stopped()};
}

inline Outcome value_of_move(const Position& position, Move move, const Bound& bound, const Values& values,
                             Kept& known) noexcept {
    Line reply;
    const detail::Score kept =
        detail::score_after(position, move, {known.least - 1, known.most + 1}, bound, values, &reply);
    Outcome outcome;
    outcome.complete = kept.complete;
    outcome.line.push_back(move);
    outcome.line.insert(outcome.line.end(), reply.begin(), reply.end());
    detail::set_result(position, kept.score, values, outcome);
    if (kept.complete) known = {kept.score, kept.score};
    return outcome;
}

inline Outcome value_of_move(const Position& position, Move move, const Bound& bound, const Values& values) noexcept {
    Kept nothing;
    return value_of_move(position, move, bound, values, nothing);
}

inline bool is_better(const Outcome& a, const Outcome& b) noexcept {
    if (a.line.empty() || b.line.empty()) return !a.line.empty();
    if (a.mate != b.mate) return a.mate;
    if (a.mated != b.mated) return b.mated;
    return a.gain > b.gain;
}

inline Verdict move_keeps(const Position& position, Move move, int threshold, const Bound& bound, const Values& values,
                          Kept& known) noexcept {
    if (known.least >= threshold) return {true, true};
    if (known.most < threshold) return {false, true};
    const detail::Score kept = detail::score_after(position, move, {threshold - 1, threshold}, bound, values, nullptr);
    if (!kept.complete) return {false, false};
    (kept.score < threshold ? known.most : known.least) = kept.score;
    return {kept.score >= threshold, true};
}

inline Verdict move_keeps(const Position& position, Move move, int threshold, const Bound& bound,
                          const Values& values) noexcept {
    Kept nothing;
    return move_keeps(position, move, threshold, bound, values, nothing);
}

template <class Moves>
Outcome best_of(const Position& position, const Moves& moves, const Bound& bound, const Values& values,
                std::span<Kept> known) noexcept {
    if (moves.empty()) return {};
    std::size_t chosen = 0; // begins with the one that may keep most: the others then mostly fail a narrow question
    for (std::size_t at = 1; at < moves.size(); ++at)
        if (known[at].most > known[chosen].most) chosen = at;
    Outcome best = value_of_move(position, moves[chosen], bound, values, known[chosen]);
    bool complete = best.complete;
    for (std::size_t at = 0; at < moves.size(); ++at) {
        if (at == chosen) continue;
        if (best.mate && at > chosen) break;
        const Verdict better =
            move_keeps(position, moves[at], detail::better_than(best, at > chosen), bound, values, known[at]);
        complete = complete && better.complete;
        if (!better.holds) continue;
        chosen = at;
        best = value_of_move(position, moves[chosen], bound, values, known[chosen]);
        complete = complete && best.complete;
    }
    if (best.mated && chosen > 0) {
        best = value_of_move(position, moves[0], bound, values, known[0]);
        complete = complete && best.complete;
    }
    best.complete = complete;
    return best;
}

template <class Moves>
Outcome best_of(const Position& position, const Moves& moves, const Bound& bound, const Values& values) noexcept {
    KeptList nothing = nothing_known(moves.size());
    return best_of(position, moves, bound, values, nothing);
}

} // namespace keysquare
