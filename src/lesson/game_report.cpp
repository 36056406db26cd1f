#include <keysquare/lesson/game_report.hpp>

#include <algorithm>
#include <utility>

#include <keysquare/features/same_claim.hpp>
#include <keysquare/lesson/effect_sentences.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/lesson/theme_words.hpp>
#include <keysquare/thinking/candidates.hpp>

#include "thinking/played_line.hpp"

namespace keysquare {

namespace {

Standing standing_of(const Prospects& prospects, const Options& options) {
    const Position& position = prospects.position();
    Standing standing{balance(position, Side::white, options.values), false, position.mover()};
    if (prospects.chances().empty()) return standing;
    const Threat& best = prospects.chances().front();
    standing.mates = best.mate;
    standing.pawns += position.mover() == Side::white ? best.gain : -best.gain;
    return standing;
}

/// What a mistake comes to, in pawns.
int weight_in_pawns(const MoveEffect& effect) noexcept {
    return effect.win.mate ? pawns_for_mate : (std::min)(effect.difference(), pawns_for_mate);
}

const MoveEffect* worst_of(const MoveEffects& effects) noexcept {
    const MoveEffect* worst = nullptr;
    for (const MoveEffect& effect : effects)
        if (effect.kind != EffectKind::exploited && (!worst || weight_in_pawns(effect) > weight_in_pawns(*worst)))
            worst = &effect;
    return worst;
}

/// Names a candidate as the better move where one concedes as little; the first legal move that does may look odd.
void prefer_candidates(const Position& position, MoveEffects& effects, const Options& options) {
    const auto was_given = [](const MoveEffect& effect) {
        return effect.kind == EffectKind::allowed || effect.kind == EffectKind::overlooked;
    };
    const std::size_t at = detail::place_of(effects, was_given);
    if (at == effects.size()) return;
    MoveEffect& effect = effects[at];
    for (const Candidate& candidate : candidates(position, most_candidates, options))
        if (conceded_by(position, candidate.move, options) <= effect.left) {
            effect.better = candidate.move;
            return;
        }
}

void compare_with_last(const PlyReport& last, PlyReport& ply) {
    for (std::size_t at = 0; at < ply.findings.size(); ++at)
        if (!makes_claim(last.findings, ply.findings[at])) ply.created.push_back(at);
    for (const Finding& finding : last.findings)
        if (!makes_claim(ply.findings, finding)) ply.removed.push_back(finding);
}

void find_turning_points(GameReport& report) {
    for (std::size_t at = 1; at < report.plies.size(); ++at) {
        const PlyReport& last = report.plies[at - 1];
        const Lead before = lead_of(last.standing);
        const Lead after = lead_of(report.plies[at].standing);
        const bool is_worse = last.position.mover() == Side::white ? after < before : after > before;
        const MoveEffect* const why = worst_of(report.plies[at].effects);
        if (is_worse && why && weight_in_pawns(*why) >= least_lead)
            report.turning_points.push_back({at, before, after, *why});
    }
}

/// Chooses the moments of a game.
class MomentChooser {
  public:
    explicit MomentChooser(const GameReport& report) : report_(report) {
        for (std::size_t at = 1; at < report.plies.size(); ++at)
            for (const MoveEffect& effect : report.plies[at].effects) add_effect(at, effect);
        for (std::size_t at = 0; at < report.plies.size(); ++at) add_findings(at);
    }

    [[nodiscard]] std::vector<Moment> choose(std::size_t at_most) const {
        std::vector<const Moment*> worthiest;
        for (const Moment& moment : offered_) worthiest.push_back(&moment);
        detail::sort_few(worthiest, [](const Moment* a, const Moment* b) { return a->worth > b->worth; });
        std::vector<Moment> chosen;
        for (const Moment* const next : worthiest) {
            const Moment& moment = *next;
            if (chosen.size() == at_most || (moment.worth < least_worth && chosen.size() >= fewest_moments)) break;
            if (!detail::any_of(chosen, [&](const Moment& other) { return is_near(moment, other); }))
                chosen.push_back(moment);
        }
        detail::sort_few(chosen, [](const Moment& a, const Moment& b) { return a.ply < b.ply; });
        return chosen;
    }

  private:
    /// Close to each other, or about the same lasting thing.
    [[nodiscard]] static bool is_near(const Moment& a, const Moment& b) noexcept {
        const std::size_t apart = a.ply > b.ply ? a.ply - b.ply : b.ply - a.ply;
        const bool both_last = a.effect == EffectKind::end_ && b.effect == EffectKind::end_;
        return apart < moments_apart || (both_last && a.theme == b.theme);
    }

    void add_effect(std::size_t at, const MoveEffect& effect) {
        const PlyReport& before = report_.plies[at - 1];
        const PlyReport& after = report_.plies[at];
        Moment moment;
        moment.ply = at - 1;
        moment.move_ply = at;
        moment.theme = effect.theme;
        moment.effect = effect.kind;
        moment.worth =
            worth_of_effect[static_cast<std::size_t>(effect.kind)] + worth_per_pawn * weight_in_pawns(effect);
        const int hidden = (std::min)(static_cast<int>(effect.win.line.size()) - 1, most_hidden_plies);
        moment.worth += worth_per_ply * (std::max)(hidden, 0);
        if (detail::any_of(report_.turning_points, [&](const TurningPoint& turn) { return turn.ply == at; }))
            moment.worth += worth_of_turn;
        const PlyReport& where = effect.is_after_move() ? after : before;
        const Finding* const finding = finding_of(effect.win, where.findings);
        if (finding) moment.findings.push_back(*finding);
        if (effect.theme == Theme::end_) moment.worth -= worth_of_name;
        offered_.push_back(std::move(moment));
    }

    /// Findings that are no matter of one move: they are new here and last.
    void add_findings(std::size_t at) {
        const PlyReport& here = report_.plies[at];
        for (const Finding& finding : here.findings) {
            if (words_of(finding.theme).question.empty() || finding.gain > 0 || finding.mate) continue;
            if (finding.after_pass) continue; // the side that it speaks of is not to move
            if (was_there(at, finding) || !lasts(at, finding)) continue;
            Moment moment;
            moment.ply = at;
            moment.theme = finding.theme;
            moment.worth = finding.weight * percent_of_finding / 100;
            moment.findings.push_back(finding);
            offered_.push_back(std::move(moment));
        }
    }

    /// Whether it was said of one of the last two positions: some things are said only of the side to move.
    [[nodiscard]] bool was_there(std::size_t at, const Finding& finding) const {
        for (std::size_t back = 1; back <= (std::min)(at, std::size_t{2}); ++back)
            for (const Finding& earlier : report_.plies[at - back].findings)
                if (earlier.detail == finding.detail && is_same_claim(earlier, finding)) return true;
        return false;
    }

    [[nodiscard]] bool lasts(std::size_t at, const Finding& finding) const {
        const std::size_t last = at + plies_to_last;
        if (last > report_.plies.size()) return false;
        for (std::size_t later = at + 1; later < last; ++later)
            if (!makes_claim(report_.plies[later].findings, finding)) return false;
        return true;
    }

    const GameReport& report_;
    std::vector<Moment> offered_;
};

} // namespace

Lead lead_of(const Standing& standing) noexcept {
    if (standing.mates) return standing.mating == Side::white ? Lead::white_mates : Lead::black_mates;
    if (standing.pawns >= least_lead) return Lead::white_ahead;
    return standing.pawns <= -least_lead ? Lead::black_ahead : Lead::level;
}

MomentTexts texts_of(const GameReport& report, const Moment& moment, Language language) {
    if (moment.move_ply == 0) {
        const Finding& finding = moment.findings.front();
        return {question(finding, language), sentence(report.plies[moment.ply].position, finding, language), {}};
    }
    const Position& before = report.plies[moment.ply].position;
    const PlyReport& ply = report.plies[moment.move_ply];
    const std::size_t at =
        detail::place_of(ply.effects, [&](const MoveEffect& effect) { return effect.kind == moment.effect; });
    const MoveEffect& effect = ply.effects[at];
    const Position& where = effect.is_after_move() ? ply.position : before;
    MomentTexts texts{question(before, ply.move, effect, language), {}, verdict(before, ply.move, effect, language)};
    texts.answer = (moment.findings.empty() ? sentence(where, effect.win, language)
                                            : sentence(where, moment.findings.front(), language)) +
                   " " + texts.verdict;
    return texts;
}

GameReport game_report(const Game& game, std::size_t at_most, const Options& options, Language language) {
    const detail::PlayedLine line{game, options};
    const std::vector<MoveEffects> effects = move_effects(line.positions, line.moves, options);
    GameReport report;
    for (std::size_t at = 0; at < line.positions.size(); ++at) {
        const Prospects& prospects = line.positions[at];
        PlyReport& ply = report.plies.emplace_back();
        ply.position = prospects.position();
        ply.findings = prospects.findings();
        ply.chances = prospects.chances();
        ply.threats = prospects.threats_of_waiter();
        ply.standing = standing_of(prospects, options);
        if (at == 0) continue;
        ply.step = line.steps[at - 1];
        ply.move = line.moves[at - 1];
        ply.effects = effects[at - 1];
        prefer_candidates(report.plies[at - 1].position, ply.effects, options);
        compare_with_last(report.plies[at - 1], ply);
    }
    find_turning_points(report);
    report.moments = MomentChooser{report}.choose(at_most);
    for (Moment& moment : report.moments) {
        MomentTexts texts = texts_of(report, moment, language);
        moment.question = std::move(texts.question);
        moment.answer = std::move(texts.answer);
        moment.verdict = std::move(texts.verdict);
    }
    return report;
}

} // namespace keysquare
