#include <keysquare/thinking/move_effects.hpp>

#include <algorithm>
#include <utility>

#include <keysquare/thinking/move_wins.hpp>

namespace keysquare {

const Finding* finding_of(const Threat& win, const Findings& findings) noexcept {
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

int conceded_by(const Position& position, Move move, const Options& options) {
    const Position moved = after(position, move);
    const Threats replies = threats(moved, moved.mover(), options);
    if (replies.empty()) return 0;
    if (replies.front().mate) return conceded_mate;
    return (std::max)(0, replies.front().gain - immediate_gain(position, move, options.values));
}

namespace {

/// Whether an outcome is as good as a win that mates or gains so much.
[[nodiscard]] bool wins_as_much(const Outcome& outcome, const Threat& win, int least_gain) noexcept {
    if (outcome.line.empty()) return false;
    return outcome.mate || (!win.mate && outcome.gain > win.gain - least_gain);
}

[[nodiscard]] Theme theme_of(const Threat& win, const Prospects& where) {
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
[[nodiscard]] Outcome won_by(const Prospects& before, Move move, const Options& options) {
    return before.chances().empty() ? Outcome{} : MoveWins{before.position(), options.least_gain, options}.win(move);
}

/// The first legal move that keeps all, or else the first of those that concede least, with what it concedes.
[[nodiscard]] std::pair<Move, int> least_conceding(const Position& position, const Options& options) {
    const MoveList moves = legal_moves(position);
    for (const Move move : moves)
        if (!reply_wins(position, move, options)) return {move, 0}; // quicker to say than what it concedes
    std::pair<Move, int> least{Move{}, conceded_mate};
    for (const Move move : moves)
        if (const int conceded = conceded_by(position, move, options); conceded < least.second)
            least = {move, conceded};
    return least;
}

[[nodiscard]] Gift gift_of(const Prospects& before, Move move, const Prospects& after, const Options& options) {
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
void add_own_effects(const Prospects& before, const Outcome& won, bool was_given, const Options& options,
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
void add_gift(const Prospects& before, const Prospects& after, const Gift& gift, const Outcome& next_won,
              const Options& options, MoveEffects& effects) {
    if (!gift.better) return;
    const bool was_there = gift.stood != nullptr;
    if (was_there && !wins_as_much(next_won, *gift.reply, options.least_gain)) return;
    const Threat& win = was_there ? *gift.stood : *gift.reply;
    effects.push_back({was_there ? EffectKind::overlooked : EffectKind::allowed,
                       theme_of(win, was_there ? before : after), win, gift.cost, gift.left, gift.better});
}

} // namespace

std::vector<MoveEffects> move_effects(const std::vector<Prospects>& positions, const std::vector<Move>& moves,
                                      const Options& options) {
    std::vector<Outcome> won;
    std::vector<Gift> gifts;
    for (std::size_t at = 0; at < moves.size(); ++at) {
        won.push_back(won_by(positions[at], moves[at], options));
        gifts.push_back(gift_of(positions[at], moves[at], positions[at + 1], options));
    }
    std::vector<MoveEffects> effects(moves.size());
    for (std::size_t at = 0; at < moves.size(); ++at) {
        const bool was_given = at > 0 && gifts[at - 1].better;
        const Outcome next_won = at + 1 < moves.size() ? won[at + 1] : Outcome{};
        add_own_effects(positions[at], won[at], was_given, options, effects[at]);
        add_gift(positions[at], positions[at + 1], gifts[at], next_won, options, effects[at]);
    }
    return effects;
}

} // namespace keysquare
