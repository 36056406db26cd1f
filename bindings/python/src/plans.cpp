// The questions about plans: route, check_plan.
#include "findings.hpp"

#include <keysquare/lesson/explain.hpp>
#include <keysquare/lesson/plan_sentences.hpp>
#include <keysquare/notation/san.hpp>

namespace keysquare::python {

using namespace py::literals;

namespace {

py::object python_route(const Route& route) {
    py::list squares;
    for (const Move move : route) squares.append(move.target());
    return result_class("Route")("squares"_a = squares, "moves"_a = std::vector<Move>(route.begin(), route.end()));
}

py::object python_routes(const Position& position, const Routes& routes) {
    py::list ways;
    for (const Route& route : routes.routes) ways.append(python_route(route));
    return result_class("Routes")(
        "position"_a = position, "piece"_a = routes.piece, "targets"_a = routes.targets, "known"_a = routes.exists,
        "after_pass"_a = routes.after_pass, "there"_a = routes.there, "moves"_a = routes.moves, "ways"_a = routes.ways,
        "routes"_a = ways, "sentence"_a = text_from(sentence(routes)),
        "texts"_a = in_languages([&](Language language) { return sentence(routes, language); }));
}

py::object python_spoiler(const Position& stepped, const Spoiler& spoiler) {
    return result_class("Spoiler")("how"_a = name(spoiler.how), "gain"_a = spoiler.gain, "mate"_a = spoiler.mate,
                                   "line"_a = spoiler.line, "line_san"_a = line_text(stepped, spoiler.line));
}

py::object python_step(const PlanStep& step) {
    const py::object spoiler =
        step.spoiler ? python_spoiler(after(step.before, step.move), *step.spoiler) : py::object{py::none()};
    return result_class("PlanStep")(
        "position"_a = step.before, "move"_a = step.move, "san"_a = san(step.before, step.move), "won"_a = step.won,
        "gives_check"_a = step.check, "safety"_a = name(step.safety), "taken"_a = python_outcome(step.taken),
        "kept"_a = python_outcome(step.kept), "spoiler"_a = spoiler);
}

py::object python_free_play(const FreePlay& play) {
    return result_class("FreePlay")(
        "looked_at"_a = play.looked_at, "gain"_a = play.gain, "mate"_a = play.mate, "complete"_a = play.complete,
        "moves"_a = std::vector<Move>(play.moves.begin(), play.moves.end()), "line"_a = play.line);
}

std::vector<FoundIn> found_in(const Position& position, const Findings& findings) {
    std::vector<FoundIn> found;
    for (const Finding& finding : findings) found.push_back({position, finding});
    return found;
}

/// The columns of the numeric vector that change.
py::dict changed_counts(const PlanCheck& plan) {
    py::dict counts;
    for (std::size_t at = 0; at < feature_count; ++at)
        if (plan.before[at] != plan.after[at])
            counts[text_from(feature_schema()[at].name)] = py::make_tuple(plan.before[at], plan.after[at]);
    return counts;
}

py::object python_plan(const Position& position, const PlanCheck& plan) {
    py::list steps;
    for (const PlanStep& step : plan.steps) steps.append(python_step(step));
    return result_class("PlanCheck")(
        "position"_a = position, "side"_a = plan.side, "after_pass"_a = plan.after_pass, "steps"_a = steps,
        "end"_a = plan.end, "won"_a = plan.won, "mates"_a = plan.mates, "compared"_a = plan.compared,
        "created"_a = found_in(plan.end, plan.created), "removed"_a = found_in(turned(plan.start), plan.removed),
        "gained"_a = plan.gained, "lost"_a = plan.lost, "counts"_a = changed_counts(plan),
        "other"_a = plan.other_may_play ? python_free_play(plan.other) : py::object{py::none()},
        "paragraph"_a = text_from(paragraph(plan)),
        "texts"_a = in_languages([&](Language language) { return paragraph(plan, language); }));
}

} // namespace

void register_plans(py::module_& module) {
    constexpr Bound usual;

    module.def(
        "route",
        [](const Position& position, Square square, const std::variant<Square, Squares>& target, int plies,
           int check_plies, int nodes, const ValuesArgument& values) {
            const Options options = options_of(1, plies, check_plies, nodes, values);
            const auto* const one = std::get_if<Square>(&target);
            const Squares targets = one ? Squares{*one} : std::get<Squares>(target);
            if (targets.empty()) throw py::value_error("target: no square is given");
            const Routes routes = [&] {
                const py::gil_scoped_release released;
                return route(position, square, targets, options).value();
            }();
            return python_routes(position, routes);
        },
        py::arg("position"), py::arg("square"), py::arg("target"), py::kw_only(), py::arg("plies") = usual.plies,
        py::arg("check_plies") = usual.check_plies, py::arg("nodes") = usual.nodes, py::arg("values") = py::none(),
        "The shortest safe routes of the piece on a square to a target, a square or several of them: Routes.\n\n"
        "The other side passes after each move (and before the first one, when it is to move), so only the last move "
        "may give check. At every stop the piece is safe by `exchange`, and no move loses anything by `resolve`. A "
        "capture or a promotion ends a route. At most six moves; no castling. Empty where there is no such route. "
        "Raises InputError (`no_such_piece`) for an empty square, ValueError when no target is given. The bound and "
        "`values` as in `resolve`.");

    module.def(
        "check_plan",
        [](const Position& position, const std::vector<MoveArgument>& moves, std::optional<Side> side, int least_gain,
           int plies, int check_plies, int nodes, const ValuesArgument& values) {
            const Options options = options_of(least_gain, plies, check_plies, nodes, values);
            const std::vector<std::string> texts = texts_of(moves);
            const std::vector<std::string_view> steps(texts.begin(), texts.end());
            const PlanCheck plan = [&] {
                const py::gil_scoped_release released;
                return check_plan(position, side.value_or(position.mover()), steps, options).value();
            }();
            return python_plan(position, plan);
        },
        py::arg("position"), py::arg("moves"), py::arg("side") = py::none(), py::kw_only(), py::arg("least_gain") = 1,
        py::arg("plies") = usual.plies, py::arg("check_plies") = usual.check_plies, py::arg("nodes") = usual.nodes,
        py::arg("values") = py::none(),
        "Looks at a plan, one to eight moves of one side (by default the mover) while the other side passes: a "
        "PlanCheck.\n\n"
        "It says whether each stop is safe, which reply spoils each step, what is attained at the end, and what the "
        "other side could do with as many free moves. A move that is illegal or ambiguous raises InputError with the "
        "field \"step\", the number of the step as `line` (also as `step`) and the column in its text; so do no moves "
        "(`empty_plan`), more than eight (`plan_too_long`), and a step before which the other side would have to pass "
        "in check (`pass_in_check`). `least_gain`: the least that a spoiler or a finding must win. The bound and "
        "`values` as in `resolve`.");
}

} // namespace keysquare::python
