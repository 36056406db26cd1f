// move_effects: what a move that was played did about what could be won.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include <keysquare/features/findings.hpp>
#include <keysquare/thinking/answers.hpp>

namespace keysquare {

/// What both sides could win in a position, for the move before it and the move after it. What mostly is not needed is
/// worked out when it is asked for; so an object belongs to one thread.
class Prospects {
  public:
    /// Looks for what the mover can win at once. The position and the options are copied.
    explicit Prospects(const Position& position, const Options& options = {})
        : position_(position), options_(options), chances_(threats(position, position.mover(), options)) {}

    /// The position that it is about.
    [[nodiscard]] const Position& position() const noexcept { return position_; }
    /// `threats` of the mover: what it can win at once.
    [[nodiscard]] const Threats& chances() const noexcept { return chances_; }
    /// `threats` of the waiter: what it would win after a pass.
    [[nodiscard]] const Threats& threats_of_waiter() const {
        if (!threats_) threats_ = threats(position_, position_.waiter(), options_);
        return *threats_;
    }
    /// `findings`, strongest first.
    [[nodiscard]] const Findings& findings() const {
        if (!findings_) findings_ = keysquare::findings(position_, options_);
        return *findings_;
    }

  private:
    Position position_;
    Options options_;
    Threats chances_;
    mutable std::optional<Threats> threats_;
    mutable std::optional<Findings> findings_;
};

/// What a move can do about something that could be won. Append only.
enum class EffectKind : std::uint8_t {
    exploited,  ///< it wins what the other side's last move left or gave
    missed,     ///< its side could have won more by another move
    allowed,    ///< the other side can now win something that it could not before
    overlooked, ///< a threat that stood before the move was not met, and was carried out
    end_        ///< one past the last
};

/// "exploited", "missed", "allowed" or "overlooked".
[[nodiscard]] constexpr std::string_view name(EffectKind kind) noexcept {
    constexpr std::array<std::string_view, 4> names{"exploited", "missed", "allowed", "overlooked"};
    return names[static_cast<std::size_t>(kind)];
}

/// One thing that a move did, or failed to do.
///
/// The *strongest* chance is the first of `Prospects::chances`, and the *reply* is the strongest chance of the other
/// side after the move. A move *concedes* what the reply to it wins more than the move took, at least 0, or a mate. It
/// *gives* the reply when another legal move concedes less: at least `least_gain` less, or no mate where this one does.
/// - exploited: the other side's last move gave the strongest chance, and the move wins as much;
/// - missed: the move wins at least `least_gain` less than the strongest chance, or it does not mate and that does;
/// - allowed: the move gives the reply, which was no threat before the move (`Answer::walks_into`);
/// - overlooked: the move gives the reply, which was a threat before the move, and the other side's next move wins as
///   much.
/// There is at most one effect of each kind.
struct MoveEffect {
    EffectKind kind = EffectKind::end_; ///< what the move did
    Theme theme = Theme::end_;          ///< what a teacher calls the win (`finding_of`); `end_` when no finding says it
    /// What is won: by the mover in the position before the move (exploited, missed), by the other side after the move
    /// (allowed), or, after a pass, in the position before it (overlooked).
    Threat win;
    int cost = 0; ///< exploited: its gain; missed: its gain less that of the move; otherwise what the move concedes
    int left = 0; ///< allowed, overlooked: what `better` concedes, the least that any legal move does
    Move better;  ///< missed: the first move of `win`; allowed, overlooked: see `left`; exploited: null

    /// Whether `win` belongs to the position after the move, and not to the one before it.
    [[nodiscard]] bool is_after_move() const noexcept { return kind == EffectKind::allowed; }
    /// What the mistake comes to: what would not have been lost with the better move.
    [[nodiscard]] int difference() const noexcept { return cost - left; }
};

/// The effects of one move, at most one of each kind.
using MoveEffects = BoundedList<MoveEffect, static_cast<std::size_t>(EffectKind::end_)>;

/// What each of `moves` did, in the order of `EffectKind`. `positions` are the prospects of the position before the first
/// move and of those after each move, so there is one more of them. Mostly less than a tenth of a millisecond a move;
/// where something is conceded, until a move is found that concedes nothing.
[[nodiscard]] std::vector<MoveEffects> move_effects(const std::vector<Prospects>& positions,
                                                    const std::vector<Move>& moves, const Options& options = {});

/// The strongest of the findings in which the side of `win` wins something by the same first move or, of hanging men, by
/// taking the same man; null when there is none. Its theme is what a teacher calls the win.
[[nodiscard]] const Finding* finding_of(const Threat& win, const Findings& findings) noexcept;

/// What a legal move concedes, in pawns (see `MoveEffect`); `conceded_mate` when the reply mates.
[[nodiscard]] int conceded_by(const Position& position, Move move, const Options& options = {});
/// Stands for a mate that is conceded; larger than any material.
inline constexpr int conceded_mate = detail::mate_line;

} // namespace keysquare
