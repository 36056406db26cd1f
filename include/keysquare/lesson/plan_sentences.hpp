// The English sentences about routes and plans. They say nothing that the result does not hold.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include <keysquare/lesson/explain.hpp>
#include <keysquare/thinking/plan.hpp>
#include <keysquare/thinking/route.hpp>

namespace keysquare {

/// No more findings that a plan creates are told in its paragraph.
inline constexpr std::size_t most_told_findings = 2;

/// One English sentence for the routes of a piece.
[[nodiscard]] std::string sentence(const Routes& routes);

/// One short English paragraph for a plan: its steps; the first stop that is not safe; the first reply that spoils it;
/// what is won, the strongest findings that it creates for the planner, and the squares; what the other side could do.
[[nodiscard]] std::string paragraph(const PlanCheck& plan);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The templates, with the placeholders that `fill_template` is told.
namespace plan_templates {
inline constexpr std::string_view no_turn = "{Other} stands in check and can't pass, so {man} has no turn.";
inline constexpr std::string_view there_already = "{Man} stands there already.";
inline constexpr std::string_view no_way =
    "{Man} has no safe way to {targets} in {longest} moves, even if {Other} only "
    "passes.";
inline constexpr std::string_view way = "{Man} gets to {targets} in {moves} if {Other} only passes: {ways}.";

inline constexpr std::string_view steps = "{Side} plans {steps}: {tempi}, with {Other} passing.";
inline constexpr std::string_view all_safe = " Every stop is safe.";
inline constexpr std::string_view falls = " The stop after {step} is not safe: captures on {square} cost {worth} "
                                          "({line}).";
inline constexpr std::string_view loses = " {step} is not safe: it loses {worth} ({line}).";
inline constexpr std::string_view mated = " {step} is not safe: it runs into mate ({line}).";
inline constexpr std::string_view undecided = " Whether {step} is safe was not decided inside the bound.";
inline constexpr std::string_view wins = " After {step}, {Other} wins {worth} with {line}.";
inline constexpr std::string_view mates = " After {step}, {Other} mates with {line}.";
inline constexpr std::string_view punishes =
    " After {step}, {reply} spoils it: then {next} would cost {worth} ({line}).";
inline constexpr std::string_view punishes_by_mate =
    " After {step}, {reply} spoils it: then {next} would run into mate ({line}).";
inline constexpr std::string_view prevents = " After {step}, {reply} makes {next} impossible.";
inline constexpr std::string_view defuses = " After {step}, {reply} takes the point out of {next}.";
inline constexpr std::string_view checks = " After {step}, the check {reply} does not leave time for {next}.";
inline constexpr std::string_view unspoiled = " No reply inside the bound spoils a step.";
inline constexpr std::string_view ends_in_mate = " It ends in mate.";
inline constexpr std::string_view won = " On the way it takes {worth}.";
inline constexpr std::string_view new_at_the_end = "New at the end: ";
inline constexpr std::string_view squares = " {Side} gains hold of {gained} and gives up {lost}.";
inline constexpr std::string_view free_gain = " Left alone for {free}, {Other} could win {worth} with {moves}.";
inline constexpr std::string_view free_mate = " Left alone for {free}, {Other} could mate with {moves}.";
inline constexpr std::string_view free_nothing = " Left alone for {free}, {Other} wins nothing.";
} // namespace plan_templates

/// What the placeholders of a template stand for.
using Filling = std::pair<std::string_view, std::string>;
using Fillings = std::vector<Filling>;

/// The template with every {key} replaced.
[[nodiscard]] inline std::string filled(std::string_view pattern, const Fillings& fillings) {
    return filled(pattern, [&](std::string_view key) {
        for (const Filling& filling : fillings)
            if (filling.first == key) return filling.second;
        return std::string{};
    });
}

/// "e3-d5 or g3-e4-d5".
[[nodiscard]] inline std::string ways_of(const Routes& routes) {
    std::string text;
    for (const Route& route : routes.routes) {
        if (!text.empty()) text += " or ";
        for (std::size_t at = 0; at < route.size(); ++at) {
            if (at > 0) text += '-';
            text += name(route[at].target());
        }
    }
    const int more = routes.ways - static_cast<int>(routes.routes.size());
    return more > 0 ? text + ", and " + std::to_string(more) + " more" : text;
}

/// "d5", "one of d5 and e5".
[[nodiscard]] inline std::string goal_of(Squares squares) {
    if (squares.empty()) return "no square";
    return squares.several() ? "one of " + square_names(squares) : square_names(squares);
}

/// Writes the paragraph of one plan.
class PlanWriter {
  public:
    explicit PlanWriter(const PlanCheck& plan) : plan_(plan) {}

    [[nodiscard]] std::string write() const {
        std::vector<std::string> names;
        for (const PlanStep& step : plan_.steps) names.push_back(name_of(step));
        return told(plan_templates::steps, {{"steps", listed(names)}, {"tempi", counted(plan_.tempi(), "move")}}) +
               safety() + spoiler() + attained() + free_play_of_other();
    }

  private:
    [[nodiscard]] static std::string name_of(const PlanStep& step) { return san(step.before, step.move); }

    [[nodiscard]] std::string told(std::string_view pattern, Fillings fillings) const {
        fillings.push_back({"Side", side_name(plan_.side)});
        fillings.push_back({"Other", side_name(other(plan_.side))});
        return filled(pattern, fillings);
    }

    /// The first stop that is not safe.
    [[nodiscard]] const PlanStep* unsafe() const noexcept {
        for (const PlanStep& step : plan_.steps)
            if (step.safety != StopSafety::safe) return &step;
        return nullptr;
    }

    [[nodiscard]] std::string safety() const {
        const PlanStep* step = unsafe();
        if (!step) return std::string{plan_templates::all_safe};
        const std::string played = name_of(*step);
        if (step->safety == StopSafety::undecided) return told(plan_templates::undecided, {{"step", played}});
        const Position stepped = after(step->before, step->move);
        if (step->safety == StopSafety::falls)
            return told(plan_templates::falls, {{"step", played},
                                                {"square", std::string{name(step->move.target())}},
                                                {"worth", worth(step->taken.gain - step->won)},
                                                {"line", line_text(stepped, step->taken.line)}});
        return told(step->kept.mated ? plan_templates::mated : plan_templates::loses,
                    {{"step", played},
                     {"worth", worth(-step->kept.gain)},
                     {"line", line_text(stepped, Line(step->kept.line.begin() + 1, step->kept.line.end()))}});
    }

    /// The first reply that spoils it.
    [[nodiscard]] std::string spoiler() const {
        const std::size_t at = plan_.spoiled_at();
        if (at == plan_.steps.size()) return std::string{plan_templates::unspoiled};
        const PlanStep& step = plan_.steps[at];
        const Spoiler& spoiler = *step.spoiler;
        const Position stepped = after(step.before, step.move);
        const std::string reply = line_text(stepped, Line{spoiler.line.front()});
        const std::string next = at + 1 < plan_.steps.size() ? name_of(plan_.steps[at + 1]) : std::string{};
        const auto pattern = [&] {
            switch (spoiler.how) {
            case Spoil::wins: return spoiler.mate ? plan_templates::mates : plan_templates::wins;
            case Spoil::punishes: return spoiler.mate ? plan_templates::punishes_by_mate : plan_templates::punishes;
            case Spoil::prevents: return plan_templates::prevents;
            case Spoil::defuses: return plan_templates::defuses;
            default: return plan_templates::checks;
            }
        }();
        return told(pattern, {{"step", name_of(step)},
                              {"reply", reply},
                              {"next", next},
                              {"worth", worth(spoiler.gain)},
                              {"line", line_text(stepped, spoiler.line)}});
    }

    [[nodiscard]] std::string attained() const {
        std::string text;
        if (plan_.won > 0) text += told(plan_templates::won, {{"worth", worth(plan_.won)}});
        if (plan_.mates) text += plan_templates::ends_in_mate;
        std::size_t told_findings = 0;
        for (const Finding& finding : plan_.created) {
            if (finding.side != plan_.side || finding.gain < 0 || finding.mated) continue;
            if (told_findings++ == most_told_findings) break;
            text += " " + std::string{told_findings == 1 ? plan_templates::new_at_the_end : ""} +
                    sentence(plan_.end, finding);
        }
        if (plan_.gained || plan_.lost)
            text += told(plan_templates::squares, {{"gained", counted(plan_.gained.count(), "square")},
                                                   {"lost", counted(plan_.lost.count(), "square")}});
        return text;
    }

    [[nodiscard]] std::string free_play_of_other() const {
        if (!plan_.other_may_play) return {};
        const FreePlay& play = plan_.other;
        std::vector<std::string> moves;
        Position position = turn_of(plan_.start, other(plan_.side)).value_or(plan_.start);
        for (const Move move : play.moves) {
            moves.push_back(san(position, move));
            position = turned(after(position, move));
        }
        const auto& pattern = play.mate            ? plan_templates::free_mate
                              : play.moves.empty() ? plan_templates::free_nothing
                                                   : plan_templates::free_gain;
        return told(pattern,
                    {{"free", counted(play.looked_at, "move")}, {"worth", worth(play.gain)}, {"moves", listed(moves)}});
    }

    const PlanCheck& plan_;
};

} // namespace detail

inline std::string sentence(const Routes& routes) {
    namespace templates = detail::plan_templates;
    const auto pattern = !routes.exists          ? templates::no_turn
                         : routes.there          ? templates::there_already
                         : routes.routes.empty() ? templates::no_way
                                                 : templates::way;
    Squares ends;
    for (const Route& route : routes.routes) ends |= Squares{route.back().target()};
    const std::string man = detail::piece_name(routes.piece);
    return detail::filled(pattern, {{"man", man},
                                    {"Man", detail::capitalised(man)},
                                    {"Other", detail::side_name(other(routes.piece.piece.side))},
                                    {"targets", detail::goal_of(routes.routes.empty() ? routes.targets : ends)},
                                    {"longest", std::to_string(longest_safe_route)},
                                    {"moves", detail::counted(routes.moves, "safe move")},
                                    {"ways", detail::ways_of(routes)}});
}

inline std::string paragraph(const PlanCheck& plan) { return detail::PlanWriter{plan}.write(); }

} // namespace keysquare
