// move_effects: what a move that was played did about what could be won.
#pragma once

#include <optional>
#include <span>
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

// ---------------------------------------------------------------------------------------------------------------------

inline const Finding* finding_of(const Threat& win, const Findings& findings) noexcept {
    const auto names_it = [&](const Finding& finding) {
        if (finding.side != win.side || finding.after_pass != win.after_pass || finding.removed != Square::none)
            return false;
        if (finding.line.empty() || (!finding.mate && finding.gain < 1)) return false;
        const bool takes_it = finding.theme == Theme::hanging && win.line.front().target() == win.target &&
                              finding.pieces.front().square == win.target;
        return takes_it || finding.line.front() == win.line.front();
    };
    const std::size_t found = detail::place_of(findings, names_it);
    return found == findings.size() ? nullptr : &findings[found];
}

inline int conceded_by(const Position& position, Move move, const Options& options) {
    const Position moved = after(position, move);
    const Threats replies = threats(moved, moved.mover(), options);
    if (replies.empty()) return 0;
    if (replies.front().mate) return conceded_mate;
    return (std::max)(0, replies.front().gain - immediate_gain(position, move, options.values));
}

namespace detail {

/// Whether an outcome is as good as a win that mates or gains so much.
[[nodiscard]] inline bool wins_as_much(const Outcome& outcome, const Threat& win, int least_gain) noexcept {
    if (outcome.line.empty()) return false;
    return outcome.mate || (!win.mate && outcome.gain > win.gain - least_gain);
}

[[nodiscard]] inline Theme theme_of(const Threat& win, const Prospects& where) {
    const Finding* const finding = finding_of(win, where.findings());
    return finding ? finding->theme : Theme::end_;
}

/// What a move gives the other side, see `MoveEffect`.
struct Gift {
    const Threat* reply = nullptr;
    const Threat* stood = nullptr; ///< the same threat before the move; null when it is new
    int cost = 0;
    int left = 0;
    Move better; ///< null when the move gives nothing
};

/// What the move wins; where there are no chances, nothing does.
[[nodiscard]] inline Outcome won_by(const Prospects& before, Move move, const Options& options) {
    return before.chances().empty() ? Outcome{} : MoveWins{before.position(), options.least_gain, options}.win(move);
}

/// Whether the move concedes nothing that is worth speaking of: quicker to say than what it concedes.
[[nodiscard]] inline bool keeps_all(const Position& position, Move move, const Options& options) {
    const Position moved = after(position, move);
    const int enough = options.least_gain + immediate_gain(position, move, options.values);
    return !MoveWins{moved, enough, options}.any();
}

/// The first legal move that keeps all, or else the first of those that concede least, with what it concedes.
[[nodiscard]] inline std::pair<Move, int> least_conceding(const Position& position, const Options& options) {
    const MoveList moves = legal_moves(position);
    for (const Move move : moves)
        if (keeps_all(position, move, options)) return {move, 0};
    std::pair<Move, int> least{Move{}, conceded_mate};
    for (const Move move : moves)
        if (const int conceded = conceded_by(position, move, options); conceded < least.second)
            least = {move, conceded};
    return least;
}

[[nodiscard]] inline Gift gift_of(const Prospects& before, Move move, const Prospects& after, const Options& options) {
    if (after.chances().empty()) return {};
    const Threat& reply = after.chances().front();
    Gift gift{&reply, nullptr, reply.gain - immediate_gain(before.position(), move, options.values), 0, Move{}};
    if (!reply.mate && gift.cost < options.least_gain) return {};
    for (const Threat& threat : before.threats_of_waiter())
        if (!gift.stood && is_same_threat(threat, reply) && (threat.mate || threat.gain >= gift.cost))
            gift.stood = &threat;
    const auto [better, left] = least_conceding(before.position(), options);
    if (!better || (!reply.mate && gift.cost - left < options.least_gain)) return {};
    gift.better = better;
    gift.left = left;
    return gift;
}

/// The strongest chance of the mover, and what its move makes of it.
inline void add_own_effects(const Prospects& before, const Outcome& won, bool was_given, const Options& options,
                            MoveEffects& effects) {
    if (before.chances().empty()) return;
    const Threat& best = before.chances().front();
    if (!wins_as_much(won, best, options.least_gain))
        effects.push_back(
            {EffectKind::missed, theme_of(best, before), best, best.gain - won.gain, 0, best.line.front()});
    else if (was_given)
        effects.push_back({EffectKind::exploited, theme_of(best, before), best, best.gain, 0, Move{}});
}

/// What the move gives; `next_won` is what the other side's next move wins.
inline void add_gift(const Prospects& before, const Prospects& after, const Gift& gift, const Outcome& next_won,
                     const Options& options, MoveEffects& effects) {
    if (!gift.better) return;
    const bool was_there = gift.stood != nullptr;
    if (was_there && !wins_as_much(next_won, *gift.reply, options.least_gain)) return;
    const Threat& win = was_there ? *gift.stood : *gift.reply;
    effects.push_back({was_there ? EffectKind::overlooked : EffectKind::allowed,
                       theme_of(win, was_there ? before : after), win, gift.cost, gift.left, gift.better});
}

} // namespace detail

inline std::vector<MoveEffects> move_effects(const std::vector<Prospects>& positions, const std::vector<Move>& moves,
                                             const Options& options) {
    std::vector<Outcome> won;
    std::vector<detail::Gift> gifts;
    for (std::size_t at = 0; at < moves.size(); ++at) {
        won.push_back(detail::won_by(positions[at], moves[at], options));
        gifts.push_back(detail::gift_of(positions[at], moves[at], positions[at + 1], options));
    }
    std::vector<MoveEffects> effects(moves.size());
    for (std::size_t at = 0; at < moves.size(); ++at) {
        const bool was_given = at > 0 && gifts[at - 1].better;
        const Outcome next_won = at + 1 < moves.size() ? won[at + 1] : Outcome{};
        detail::add_own_effects(positions[at], won[at], was_given, options, effects[at]);
        detail::add_gift(positions[at], positions[at + 1], gifts[at], next_won, options, effects[at]);
    }
    return effects;
}

} // namespace keysquare
