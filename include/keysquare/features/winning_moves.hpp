// WinningMoves: the legal moves of one side, and what those that are asked about win against every reply.
#pragma once

#include <keysquare/board/steady_list.hpp>
#include <keysquare/features/judged_moves.hpp>
#include <keysquare/tactics/every_reply.hpp>
#include <keysquare/tactics/mates.hpp>

namespace keysquare {

/// The legal moves of the side to move, each judged by `gain_against_every_reply` (checks are delays) when it is asked
/// about. A move *wins* when it mates, or when that is at least `least()`: `Options::least_gain` more than the side
/// gains anyway, whatever it plays, because the other side loses something with each of its moves (`JudgedMoves::best`;
/// nothing where the other side has no turn). A move that neither takes enough by itself nor gives check must also
/// carry a threat: with the turn handed back, `resolve` wins as much. Answers are kept, so one object belongs to one
/// thread.
class WinningMoves {
  public:
    /// `gained_anyway`: at least 0. Refers to the position, copies the options.
    WinningMoves(const Position& position, int gained_anyway, const Options& options) noexcept
        : position_(position), options_(options), moves_(legal_moves(position)), finder_(position),
          least_(gained_anyway + options.least_gain) {}
    WinningMoves(const Position&& position, int gained_anyway, const Options& options) = delete;

    /// In the order of `legal_moves`; `win` takes an index into it.
    [[nodiscard]] const MoveList& moves() const noexcept { return moves_; }
    /// The position that it was made for.
    [[nodiscard]] const Position& position() const noexcept { return position_; }
    /// What tells moves that give check.
    [[nodiscard]] const CheckFinder& finder() const noexcept { return finder_; }
    /// What a move must win at least, in pawns.
    [[nodiscard]] int least() const noexcept { return least_; }

    /// What the move wins, or null. `attacked`: the men that it is aimed at, which decides what is looked at first. The
    /// answer stays where it is as long as this object lives, whatever else is asked.
    [[nodiscard]] const Outcome* win(std::size_t at, Squares attacked) const {
        if (places_[at] == not_asked) {
            places_[at] = nothing;
            if (const Outcome outcome = judge(moves_[at], attacked); !outcome.line.empty()) keep(at, outcome);
        }
        if (places_[at] == nothing) return nullptr;
        return &wins_[static_cast<std::size_t>(places_[at])];
    }

    /// Whether the move gives no check and threatens mate in one, if the other side could pass.
    [[nodiscard]] bool threatens_mate(std::size_t at) const noexcept {
        if (mate_threats_[at] == 0)
            mate_threats_[at] =
                !finder_.gives_check(moves_[at]) && has_mating_move(turned(after(position_, moves_[at]))) ? 2 : 1;
        return mate_threats_[at] == 2;
    }

  private:
    static constexpr std::int16_t not_asked = -1;
    static constexpr std::int16_t nothing = -2;

    static constexpr std::array<std::int16_t, most_moves> nobody_asked() noexcept {
        std::array<std::int16_t, most_moves> places{};
        places.fill(not_asked);
        return places;
    }

    [[nodiscard]] Outcome judge(Move move, Squares attacked) const noexcept {
        const int won = immediate_gain(position_, move, options_.values);
        if (won < least_ && !finder_.gives_check(move) && !threatens(after(position_, move), least_ - won)) return {};
        Outcome outcome = gain_against_every_reply(position_, move, least_, attacked, Delays::checks, options_.bound,
                                                   options_.values);
        return outcome.mate || (!outcome.mated && outcome.gain >= least_) ? outcome : Outcome{};
    }

    void keep(std::size_t at, const Outcome& outcome) const {
        places_[at] = static_cast<std::int16_t>(wins_.size());
        wins_.push_back(outcome);
    }

    [[nodiscard]] bool threatens(const Position& moved, int threshold) const noexcept {
        return !in_check(moved) && resolve_wins(turned(moved), threshold, options_.bound, options_.values).holds;
    }

    const Position& position_;
    Options options_;
    MoveList moves_;
    CheckFinder finder_;
    int least_;
    mutable std::array<std::int16_t, most_moves> places_ = nobody_asked();
    mutable std::array<std::uint8_t, most_moves> mate_threats_{}; ///< 0: not asked, 1: no, 2: yes
    mutable SteadyList<Outcome, 48> wins_;
};

} // namespace keysquare
