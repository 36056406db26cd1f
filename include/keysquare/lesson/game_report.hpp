// game_report: a game as a teacher goes through it: what every move changed, where the game turned, where to stop.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include <keysquare/lesson/language.hpp>
#include <keysquare/notation/game.hpp>
#include <keysquare/thinking/move_effects.hpp>

namespace keysquare {

/// What the material comes to when the mover takes its strongest chance.
struct Standing {
    int pawns = 0;             ///< White's material less Black's, with the gain of that chance
    bool mates = false;        ///< the chance is a mate
    Side mating = Side::white; ///< by whom, when it is

    /// Whether all of it is equal.
    friend bool operator==(const Standing&, const Standing&) noexcept = default;
};

/// Who stands better by material, in steps that a student would call by name.
enum class Lead : std::int8_t {
    black_mates = -2, ///< Black mates
    black_ahead = -1, ///< Black is ahead by `least_lead` or more
    level = 0,        ///< neither
    white_ahead = 1,  ///< White is ahead by `least_lead` or more
    white_mates = 2   ///< White mates
};

/// In snake case, as Python shows it.
[[nodiscard]] constexpr std::string_view name(Lead lead) noexcept {
    constexpr std::array<std::string_view, 5> names{"black_mates", "black_ahead", "level", "white_ahead",
                                                    "white_mates"};
    const int place = static_cast<int>(lead) - static_cast<int>(Lead::black_mates);
    return names[static_cast<std::size_t>(place)];
}

/// So many pawns are a lead; with less the game is level.
inline constexpr int least_lead = 2;

/// Who leads at a standing, by `least_lead`.
[[nodiscard]] Lead lead_of(const Standing& standing) noexcept;

/// The game after one ply. The first one of a report stands for the start, without a move.
struct PlyReport {
    StepIndex step = root_step;       ///< the node of the game
    Move move;                        ///< the move that led here; null at the start
    Position position;                ///< after it
    std::vector<Finding> findings;    ///< of the position, strongest first
    Threats chances;                  ///< what the mover can win at once
    Threats threats;                  ///< what the waiter would win after a pass
    Standing standing;                ///< the material with what can be won at once
    std::vector<std::size_t> created; ///< the findings that were none before the move (`is_same_claim`), by place
    std::vector<Finding> removed;     ///< the findings of the position before the move that are none any more
    MoveEffects effects;              ///< what the move did
};

/// A move after which the lead is another one, to the disadvantage of the side that moved, though a better move was
/// there: it missed, allowed or overlooked something that weighs a lead by itself.
struct TurningPoint {
    std::size_t ply = 0;       ///< of the move, from 1
    Lead before = Lead::level; ///< who led before the move
    Lead after = Lead::level;  ///< who leads after it
    MoveEffect effect;         ///< why: the effect of the move that mates, or that costs most
};

/// A position worth stopping at, with what to ask there.
struct Moment {
    std::size_t ply = 0;                  ///< of the position to show
    std::size_t move_ply = 0;             ///< of the move that it is about; 0 when it is about the position as such
    Theme theme = Theme::end_;            ///< what it teaches
    EffectKind effect = EffectKind::end_; ///< what the move did; `end_` when it is about the position
    int worth = 0;                        ///< how much it teaches, only to be compared with other moments of a game
    std::vector<Finding>
        findings;         ///< what to look at there, at most three; drawn with the answer, not with the question
    std::string question; ///< what to ask a student
    std::string answer;   ///< what answers it
    std::string verdict;  ///< the end of the answer that speaks of the move; empty when it is about the position
};

/// While there are fewer, moments worth less than `least_worth` are taken, too.
inline constexpr std::size_t fewest_moments = 3;
/// The most moments of a report unless another number is asked for.
inline constexpr std::size_t most_moments = 8;

/// What `game_report` says of a game.
struct GameReport {
    std::vector<PlyReport> plies;             ///< one more than the moves of the main line
    std::vector<TurningPoint> turning_points; ///< in the order of the game
    std::vector<Moment> moments;              ///< in the order of the game
};

/// Goes through the main line of a game; a null move ends it. Effects are those of `move_effects`, except that the better
/// move is the first of the `candidates` that concedes as little, where one does. Moments: those that teach most, at most `at_most`, apart
/// from each other by at least `moments_apart` plies and about different things; those worth less than `least_worth`
/// only while there are fewer than `fewest_moments`. Their texts are in `language`. About a millisecond a ply.
[[nodiscard]] GameReport game_report(const Game& game, std::size_t at_most = most_moments, const Options& options = {},
                                     Language language = Language::english);

/// What is said at a moment.
struct MomentTexts {
    std::string question; ///< what to ask
    std::string answer;   ///< what is there to see
    std::string verdict;  ///< the end of the answer that speaks of the move; empty when it is about the position
};

/// The question, the answer and the verdict of a moment of the report, in any language.
[[nodiscard]] MomentTexts texts_of(const GameReport& report, const Moment& moment,
                                   Language language = Language::english);

// ---------------------------------------------------------------------------------------------------------------------

// How much a moment teaches (common practice, no source): what went wrong and was to be seen on the board comes before
// what was done well, and both before what is true of a position for longer.
inline constexpr std::array<int, 4> worth_of_effect{10, 30, 20, 30}; ///< in the order of `EffectKind`
inline constexpr int worth_per_pawn = 10;                            ///< a mate counts as `pawns_for_mate`
inline constexpr int worth_of_turn = 15;                             ///< added where the lead changes with the move
inline constexpr int worth_per_ply = 2;          ///< of the line after the first, up to `most_hidden_plies`
inline constexpr int worth_of_name = 10;         ///< what has no name teaches less
inline constexpr int percent_of_finding = 60;    ///< what a finding is worth as a moment, in percent of its weight
inline constexpr int least_worth = 40;           ///< less is a moment only to come to `fewest_moments`
inline constexpr std::size_t moments_apart = 4;  ///< plies between two moments, at least
inline constexpr std::size_t plies_to_last = 4;  ///< a finding that is true for less is no moment by itself
inline constexpr std::size_t findings_shown = 3; ///< at most so many findings go with a moment

} // namespace keysquare
