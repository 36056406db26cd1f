// JudgedMoves: the legal moves of one side, and which of them keep what the side has.
#pragma once

#include <algorithm>
#include <array>

#include <keysquare/board/steady_list.hpp>
#include <keysquare/features/options.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

/// The legal moves of the side to move, judged by `value_of_move`, each when it is asked for.
///
/// - `best`: the most that any move keeps, at most 0. A move is *safe* when it keeps at least `best`. So where
///   something is lost anyway, the moves that lose least are the safe ones, and a quiet move is not unsafe just
///   because a capture was there to be made. 0 where there is no legal move.
/// - `standing`: what the side keeps when it does nothing (minus `resolve` with the move handed over), at most 0; 0
///   where it is in check. A move *loses* when it keeps less than both: a move that merely leaves an existing threat
///   unanswered is unsafe, but does not lose anything by itself.
///
/// Every mate counts alike. A move whose search hit the node bound is neither safe nor losing. Answers are kept, so
/// one object belongs to one thread.
class JudgedMoves {
  public:
    /// Looks at all legal moves once. Refers to the position, copies the options.
    JudgedMoves(const Position& position, const Options& options) noexcept
        : position_(position), options_(options), moves_(legal_moves(position)), known_(nothing_known(moves_.size())),
          best_(least_loss()), standing_(if_passed()) {}
    JudgedMoves(const Position&& position, const Options& options) = delete;

    /// In the order of `legal_moves`; the other functions take an index into it.
    [[nodiscard]] const MoveList& moves() const noexcept { return moves_; }
    /// The most that any move keeps, in pawns, at most 0.
    [[nodiscard]] int best() const noexcept { return best_; }
    /// What the side keeps when it does nothing, in pawns, at most 0.
    [[nodiscard]] int standing() const noexcept { return standing_; }
    /// What a losing move falls short of.
    [[nodiscard]] int baseline() const noexcept { return (std::min)(best_, standing_); }

    /// Whether the move loses nothing.
    [[nodiscard]] bool is_safe(std::size_t at) const noexcept { return judgement(at) == Judgement::safe; }
    /// Whether the move keeps less than the baseline, so that it loses something by itself.
    [[nodiscard]] bool loses(std::size_t at) const noexcept { return judgement(at) == Judgement::losing; }
    /// Neither safe nor losing: something else that is attacked would be left to fall.
    [[nodiscard]] bool neglects(std::size_t at) const noexcept { return judgement(at) == Judgement::neglecting; }

    /// `value_of_move` of the move.
    [[nodiscard]] Outcome value(std::size_t at) const {
        if (values_at_[at] == 0) {
            values_.push_back(searched(at));
            values_at_[at] = static_cast<std::uint16_t>(values_.size());
        }
        return values_[values_at_[at] - std::size_t{1}];
    }

    /// The best of the moves of `men` by `is_better`, the first of equals; no line where they have no move.
    [[nodiscard]] Outcome best_of(Squares men) const {
        Outcome best;
        bool complete = true;
        for (std::size_t at = 0; at < moves_.size(); ++at) {
            if (!men.has(moves_[at].origin())) continue;
            if (!best.line.empty() && !best.mate && !best.mated) { // a narrow question costs less than the whole answer
                const Verdict better = keeps(at, best.gain + 1);
                complete = complete && better.complete;
                if (!better.holds) continue;
            }
            const Outcome outcome = value(at);
            complete = complete && outcome.complete;
            if (is_better(outcome, best)) best = outcome;
        }
        best.complete = complete;
        return best;
    }

  private:
    enum class Judgement : std::uint8_t { not_asked, undecided, safe, neglecting, losing };

    [[nodiscard]] Judgement judgement(std::size_t at) const noexcept {
        if (judgements_[at] == Judgement::not_asked) judgements_[at] = judge(at);
        return judgements_[at];
    }

    [[nodiscard]] Judgement judge(std::size_t at) const noexcept {
        if (best_ <= -detail::mate_line) return Judgement::safe; // mated whatever is played
        const Verdict kept = keeps(at, best_);
        if (kept.holds) return Judgement::safe;
        if (!kept.complete) return Judgement::undecided;
        if (standing_ >= best_) return Judgement::losing;
        if (standing_ <= -detail::mate_line) return Judgement::neglecting; // nothing is worse than that mate
        const Verdict stands = keeps(at, standing_);
        if (!stands.complete) return Judgement::undecided;
        return stands.holds ? Judgement::neglecting : Judgement::losing;
    }

    [[nodiscard]] Verdict keeps(std::size_t at, int threshold) const noexcept {
        return move_keeps(position_, moves_[at], threshold, options_.bound, options_.values, known_[at]);
    }
    [[nodiscard]] Outcome searched(std::size_t at) const noexcept {
        return value_of_move(position_, moves_[at], options_.bound, options_.values, known_[at]);
    }

    [[nodiscard]] int least_loss() const noexcept {
        if (moves_.empty()) return 0;
        const Squares pieces = ~(position_.men(Kind::pawn) | position_.men(Kind::king));
        for (const bool of_pieces : {true, false}) // pieces first, as mobility asks about them anyway
            for (std::size_t at = 0; at < moves_.size(); ++at)
                if (pieces.has(moves_[at].origin()) == of_pieces && keeps(at, 0).holds) return 0;
        int best = -detail::mate_line;
        for (std::size_t at = 0; at < moves_.size(); ++at) {
            if (!keeps(at, best + 1).holds) continue;
            const Outcome outcome = searched(at);
            if (outcome.complete && !outcome.mated) best = (std::max)(best, outcome.gain);
        }
        return best;
    }

    [[nodiscard]] int if_passed() const noexcept {
        if (in_check(position_)) return 0;
        const Outcome taken = resolve(turned(position_), options_.bound, options_.values);
        if (!taken.complete) return 0;
        return taken.mate ? -detail::mate_line : (std::min)(0, -taken.gain);
    }

    const Position& position_;
    Options options_;
    MoveList moves_;
    mutable KeptList known_; ///< what each move keeps
    int best_;
    int standing_;
    mutable std::array<Judgement, most_moves> judgements_{};
    mutable std::array<std::uint16_t, most_moves> values_at_{}; ///< place in `values_`, from 1
    mutable SteadyList<Outcome, 64> values_;
};

/// The one move of several that keeps what the side has, where of all others it is known that they do not; null when
/// there is none.
[[nodiscard]] inline Move only_move(const JudgedMoves& judged) noexcept {
    if (judged.best() < 0) return {};
    Move only;
    for (std::size_t at = 0; at < judged.moves().size(); ++at) {
        if (judged.is_safe(at)) {
            if (only) return {};
            only = judged.moves()[at];
        } else if (!judged.loses(at) && !judged.neglects(at)) {
            return {};
        }
    }
    return judged.moves().size() > 1 ? only : Move{};
}

} // namespace keysquare
