// MoveStudies: every legal move of the side to move, with what it wins, keeps and threatens and all facts about it.
#pragma once

#include <cstddef>
#include <optional>

#include <keysquare/features/feature_facts.hpp>
#include <keysquare/features/judged_moves.hpp>
#include <keysquare/thinking/move_study.hpp>
#include <keysquare/thinking/move_wins.hpp>
#include <keysquare/thinking/parries.hpp>
#include <keysquare/thinking/threats.hpp>

namespace keysquare {

/// The facts about each legal move, worked out when it is asked about.
///
/// The searched ones: `mates` and `wins` are those of `won`. `meets_threat` is what `kept` has more than
/// `JudgedMoves::standing`, each at most 0. `costs` is what `kept` of a move that wins nothing has less than
/// `JudgedMoves::best`, from 0 to 9; being mated costs 9. `threatens_mate` and `threatens` are those of `threat`;
/// `threatens` is what it wins more than what `resolve` wins in the position as it stands (at least 0), and only where
/// the move wins nothing and gives no check. `trades` is 1 for a move that takes or promotes, wins nothing and keeps
/// exactly the balance. `parries` is 1 when the strongest threat of the other side is stopped (`Parry::stops`).
/// `allows`, which costs most, is left out by `study` and added by `add_allows`: 1 when the move wins nothing and some
/// reply wins `Options::least_gain` more than the move took (`MoveWins`). The squares are those of the men that the
/// lines take; for `meets_threat`, of those that would fall after a pass.
///
/// A tenth of a millisecond a move at worst. Refers to the position, copies the options, and belongs to one thread.
class MoveStudies {
  public:
    /// Judges all legal moves; what else is known of them is worked out when it is asked for.
    MoveStudies(const Position& position, const Options& options) noexcept;
    MoveStudies(const Position&& position, const Options& options) = delete;

    /// In the order of `legal_moves`.
    [[nodiscard]] const MoveList& moves() const noexcept { return judged_.moves(); }
    /// What each of the moves keeps and loses.
    [[nodiscard]] const JudgedMoves& judged() const noexcept { return judged_; }

    /// Everything about a move but `allows`, by its place in `moves()`.
    [[nodiscard]] MoveStudy study(std::size_t at) const;

    /// The strongest threat of the other side, or null.
    [[nodiscard]] const Threat* threat_of_other() const noexcept {
        return threats_.empty() ? nullptr : &threats_.front();
    }

    /// Adds the fact `allows` where it holds.
    void add_allows(MoveStudy& study) const;

    /// The best reply to a move that `allows` something: what it wins, and the line that starts with it. The first of
    /// equals.
    [[nodiscard]] Outcome allowed_by(Move move) const noexcept;

  private:
    void add_searched(MoveStudy& study) const;

    /// What the move threatens: a mate, or more than falls at once.
    [[nodiscard]] Outcome threat_of(const Position& moved) const noexcept;

    /// Whether the threat that is still on is enough, without a search: the move took nothing.
    [[nodiscard]] bool leaves_threat(const MoveStudy& study) const noexcept;

    [[nodiscard]] int won_at_once() const noexcept;

    [[nodiscard]] Squares falls_after_pass() const noexcept;

    const Position& position_;
    Options options_;
    JudgedMoves judged_;
    MoveWins wins_;
    FeatureFacts facts_;
    Outcome at_once_;
    Squares fallen_;
    Threats threats_; ///< of the other side
    std::optional<detail::ThreatAfterMoves> threatened_;
};

} // namespace keysquare
