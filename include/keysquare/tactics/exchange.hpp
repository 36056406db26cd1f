// exchange: what captures on one square win, by legal moves, either side free to stop.
#pragma once

#include <keysquare/tactics/values.hpp>

namespace keysquare {

/// The exact outcome of captures on `square` for the side to move: both sides may take there in turn, with any man and
/// by legal moves only, and either may stop at any time. So pins, discovered checks, X-rays, promotion and king
/// captures come out right. A pawn on `square` that may be taken en passant is; the captures then go on where the taker
/// stands.
///
/// `gain` is 0 with an empty line when there is nothing to take or taking wins nothing. Exhaustive over all orders of
/// capture, cut by alpha-beta: a few captures cost well under a microsecond, a square with ten attackers some
/// microseconds.
[[nodiscard]] Outcome exchange(const Position& position, Square square, const Values& values = {}) noexcept;

/// Whether `exchange(position, square).gain >= threshold`, without the line. Cheaper: only the question is answered.
[[nodiscard]] bool exchange_wins(const Position& position, Square square, int threshold = 1,
                                 const Values& values = {}) noexcept;

/// The legal moves of the mover that take the man on `square`, en passant included, cheapest taker first.
[[nodiscard]] MoveList captures_of(const Position& position, Square square) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline void add_capture(const Position& position, Square from, Square to, MoveList& captures) {
    const bool promotes = position.kind_at(from) == Kind::pawn && rank_for(position.mover(), to) == 7;
    if (!promotes) return captures.push_back(Move{from, to});
    for (const Kind kind : promotion_kinds) captures.push_back(Move{from, to, promotion_to(kind)});
}

/// The value that captures on `square` have for the mover within (alpha, beta). `line` may be null.
inline int exchange_search(const Position& position, Square square, int alpha, int beta, const Values& values,
                           Line* line) noexcept {
    if (line) line->clear();
    int best = 0; // the mover may stop
    if (best >= beta) return best;
    alpha = (std::max)(alpha, best);
    for (const Move move : captures_of(position, square)) {
        Line reply;
        const int won = immediate_gain(position, move, values);
        if (won <= alpha) continue; // no recapture makes it more
        const int value = won - exchange_search(after(position, move), move.raw_target(), won - beta, won - alpha,
                                                values, line ? &reply : nullptr);
        if (value <= best) continue;
        best = value;
        if (line) {
            line->assign(1, move);
            line->insert(line->end(), reply.begin(), reply.end());
        }
        if (best >= beta) return best;
        alpha = (std::max)(alpha, best);
    }
    return best;
}

} // namespace detail

inline MoveList captures_of(const Position& position, Square square) noexcept {
    MoveList captures;
    const Side mover = position.mover();
    const Piece victim = position.piece_at(square);
    if (!victim || victim.side == mover || victim.kind == Kind::king) return captures;
    const Square ahead = position.en_passant();
    const bool passing = ahead != Square::none && index(ahead) - advance_of(mover) == index(square);
    const Squares takers = attackers_of(position, square, mover);
    if (!takers && !passing) return captures;
    const Limits limits{position};
    if (limits.answers.has(square))
        for (const Kind kind : all_kinds)
            for (const Square taker : takers& position.men(kind) & ~position.men(Kind::king))
                if (!limits.pinned.has(taker) || line_through(limits.king, taker).has(square))
                    detail::add_capture(position, taker, square, captures);
    if (takers.has(limits.king) && !detail::dangerous(position, Squares{square}))
        captures.push_back(Move{limits.king, square});
    if (passing) detail::each_en_passant(position, limits, all_squares, detail::ListReceiver{captures});
    return captures;
}

inline Outcome exchange(const Position& position, Square square, const Values& values) noexcept {
    Outcome outcome;
    constexpr int unbounded = 1'000'000;
    outcome.gain = detail::exchange_search(position, square, -unbounded, unbounded, values, &outcome.line);
    return outcome;
}

inline bool exchange_wins(const Position& position, Square square, int threshold, const Values& values) noexcept {
    return detail::exchange_search(position, square, threshold - 1, threshold, values, nullptr) >= threshold;
}

} // namespace keysquare
