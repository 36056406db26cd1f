#include <keysquare/lesson/plan_sentences.hpp>

#include <utility>
#include <vector>

#include <keysquare/lesson/explain.hpp>

#include "templates.hpp"
#include "words.hpp"

namespace keysquare {

namespace {

/// The template with every {key} replaced; counts stand in `counts`.
using Counts = std::vector<std::pair<std::string_view, int>>;
[[nodiscard]] std::string filled(std::string_view pattern, const detail::Words& words, const detail::Fillings& fillings,
                                 const Counts& counts = {}) {
    return detail::filled(pattern, [&](std::string_view key) {
        const detail::Placeholder asked{key};
        for (const detail::Filling& filling : fillings)
            if (filling.first == key) return filling.second;
        for (const auto& [name, count] : counts)
            if (name == asked.name) return name == "worth" ? words.worth(count, key) : words.count(count, asked);
        return detail::unknown(key);
    });
}

/// "e3-d5 or g3-e4-d5".
[[nodiscard]] std::string ways_of(const Routes& routes, const PlanTemplates& templates, const detail::Words& words) {
    std::string text;
    for (const Route& route : routes.routes) {
        if (!text.empty()) text += words.vocabulary().alternative;
        for (std::size_t at = 0; at < route.size(); ++at) {
            if (at > 0) text += '-';
            text += name(route[at].target());
        }
    }
    const int more = routes.ways - static_cast<int>(routes.routes.size());
    return more > 0 ? filled(templates.more_ways, words, {{"ways", text}}, {{"more", more}}) : text;
}

/// "d5", "one of d5 and e5".
[[nodiscard]] std::string goal_of(Squares squares, const PlanTemplates& templates, const detail::Words& words) {
    return filled(squares.empty()     ? templates.no_target
                  : squares.several() ? templates.one_of_targets
                                      : templates.one_target,
                  words, {{"squares", words.squares(squares)}});
}

/// Writes the paragraph of one plan.
class PlanWriter {
  public:
    PlanWriter(const PlanCheck& plan, Language language)
        : plan_(plan), words_(language), templates_(*detail::plan_templates[static_cast<std::size_t>(language)]) {}

    [[nodiscard]] std::string write() const {
        std::vector<std::string> names;
        for (const PlanStep& step : plan_.steps) names.push_back(name_of(step));
        return told(templates_.steps, {{"steps", words_.listed(names)}}, {{"tempi", plan_.tempi()}}) + safety() +
               spoiler() + attained() + free_play_of_other();
    }

  private:
    [[nodiscard]] std::string name_of(const PlanStep& step) const { return words_.move(step.before, step.move); }

    [[nodiscard]] std::string told(std::string_view pattern, detail::Fillings fillings,
                                   const Counts& counts = {}) const {
        fillings.push_back({"Side", words_.side(plan_.side)});
        fillings.push_back({"Other", words_.side(other(plan_.side))});
        return filled(pattern, words_, fillings, counts);
    }

    /// The first stop that is not safe.
    [[nodiscard]] const PlanStep* unsafe() const noexcept {
        for (const PlanStep& step : plan_.steps)
            if (step.safety != StopSafety::safe) return &step;
        return nullptr;
    }

    [[nodiscard]] std::string safety() const {
        const PlanStep* step = unsafe();
        if (!step) return std::string{templates_.all_safe};
        const std::string played = name_of(*step);
        if (step->safety == StopSafety::undecided) return told(templates_.undecided, {{"step", played}});
        const Position stepped = after(step->before, step->move);
        if (step->safety == StopSafety::falls)
            return told(templates_.falls,
                        {{"step", played},
                         {"square", std::string{name(step->move.target())}},
                         {"line", words_.line(stepped, step->taken.line)}},
                        {{"worth", step->taken.gain - step->won}});
        return told(step->kept.mated ? templates_.mated : templates_.loses,
                    {{"step", played},
                     {"line", words_.line(stepped, Line(step->kept.line.begin() + 1, step->kept.line.end()))}},
                    {{"worth", -step->kept.gain}});
    }

    /// The first reply that spoils it.
    [[nodiscard]] std::string spoiler() const {
        const std::size_t at = plan_.spoiled_at();
        if (at == plan_.steps.size()) return std::string{templates_.unspoiled};
        const PlanStep& step = plan_.steps[at];
        const Spoiler& spoiler = *step.spoiler;
        const Position stepped = after(step.before, step.move);
        const std::string reply = words_.line(stepped, Line{spoiler.line.front()});
        const std::string next = at + 1 < plan_.steps.size() ? name_of(plan_.steps[at + 1]) : std::string{};
        const auto pattern = [&] {
            switch (spoiler.how) {
            case Spoil::wins: return spoiler.mate ? templates_.mates : templates_.wins;
            case Spoil::punishes: return spoiler.mate ? templates_.punishes_by_mate : templates_.punishes;
            case Spoil::prevents: return templates_.prevents;
            case Spoil::defuses: return templates_.defuses;
            default: return templates_.checks;
            }
        }();
        return told(
            pattern,
            {{"step", name_of(step)}, {"reply", reply}, {"next", next}, {"line", words_.line(stepped, spoiler.line)}},
            {{"worth", spoiler.gain}});
    }

    [[nodiscard]] std::string attained() const {
        std::string text;
        if (plan_.won > 0) text += told(templates_.won, {}, {{"worth", plan_.won}});
        if (plan_.mates) text += templates_.ends_in_mate;
        std::size_t told_findings = 0;
        for (const Finding& finding : plan_.created) {
            if (finding.side != plan_.side || finding.gain < 0 || finding.mated) continue;
            if (told_findings++ == most_told_findings) break;
            text += " " + std::string{told_findings == 1 ? templates_.new_at_the_end : ""} +
                    sentence(plan_.end, finding, words_.language());
        }
        if (plan_.gained || plan_.lost)
            text += told(templates_.squares, {}, {{"gained", plan_.gained.count()}, {"lost", plan_.lost.count()}});
        return text;
    }

    [[nodiscard]] std::string free_play_of_other() const {
        if (!plan_.other_may_play) return {};
        const FreePlay& play = plan_.other;
        std::vector<std::string> moves;
        Position position = turn_of(plan_.start, other(plan_.side)).value_or(plan_.start);
        for (const Move move : play.moves) {
            moves.push_back(words_.move(position, move));
            position = turned(after(position, move));
        }
        const auto& pattern = play.mate            ? templates_.free_mate
                              : play.moves.empty() ? templates_.free_nothing
                                                   : templates_.free_gain;
        return told(pattern, {{"moves", words_.listed(moves)}}, {{"free", play.looked_at}, {"worth", play.gain}});
    }

    const PlanCheck& plan_;
    detail::Words words_;
    const PlanTemplates& templates_;
};

} // namespace

std::string sentence(const Routes& routes, Language language) {
    const PlanTemplates& templates = *detail::plan_templates[static_cast<std::size_t>(language)];
    const detail::Words words{language};
    const auto pattern = !routes.exists          ? templates.no_turn
                         : routes.there          ? templates.there_already
                         : routes.routes.empty() ? templates.no_way
                                                 : templates.way;
    Squares ends;
    for (const Route& route : routes.routes) ends |= Squares{route.back().target()};
    const std::string man = words.man(routes.piece);
    return filled(pattern, words,
                  {{"man", man},
                   {"Man", detail::capitalised(man)},
                   {"Other", words.side(other(routes.piece.piece.side))},
                   {"targets", goal_of(routes.routes.empty() ? routes.targets : ends, templates, words)},
                   {"ways", ways_of(routes, templates, words)}},
                  {{"longest", longest_safe_route}, {"moves", routes.moves}});
}

std::string paragraph(const PlanCheck& plan, Language language) { return PlanWriter{plan, language}.write(); }

} // namespace keysquare
