// What a side has to see: difficulty.
#include "bindings.hpp"

#include <keysquare/lesson/difficulty_sentences.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/notation/san.hpp>

namespace keysquare::python {

using namespace py::literals;

namespace {

using LineArgument = std::optional<std::vector<MoveArgument>>;

py::object python_steps(const Difficulty& found) {
    py::list steps;
    const py::object step_class = result_class("LineStep");
    Position position = found.start;
    for (std::size_t at = 0; at < found.line.size(); ++at) {
        if (at % 2 == 0) {
            const LineStep& step = found.steps[at / 2];
            steps.append(step_class("position"_a = position, "move"_a = step.move, "san"_a = san(position, step.move),
                                    "man"_a = name(step.man), "captures"_a = step.captures,
                                    "promotes"_a = step.promotes, "checks"_a = step.checks,
                                    "backward"_a = step.backward, "recaptures"_a = step.recaptures,
                                    "gives_up"_a = step.gives_up, "distance"_a = step.distance, "legal"_a = step.legal,
                                    "forcing"_a = step.forcing, "tempting"_a = step.tempting,
                                    "replies"_a = step.replies, "forcing_replies"_a = step.forcing_replies));
        }
        position = after(position, found.line[at]);
    }
    return steps;
}

py::object python_difficulty(const Position& position, const Difficulty& found) {
    py::dict numbers;
    for (const DifficultyNumber& number : difficulty_numbers()) numbers[text_from(number.name)] = number.of(found);
    return result_class("Difficulty")(
        "position"_a = position, "side"_a = found.side, "known"_a = found.has_turn, "after_pass"_a = found.after_pass,
        "checked"_a = found.checked, "legal"_a = found.legal, "keeping"_a = found.keeping, "loss"_a = found.loss,
        "mated"_a = found.mated, "at_stake"_a = found.at_stake, "mate_at_stake"_a = found.mate_at_stake,
        "forcing"_a = found.forcing, "winning"_a = found.winning, "winning_most"_a = found.winning_most,
        "source"_a = name(found.source), "line"_a = found.line, "line_san"_a = line_text(found.start, found.line),
        "gain"_a = found.gain, "mate"_a = found.mate, "deficit"_a = found.deficit, "movers"_a = found.movers,
        "steps"_a = python_steps(found), "shown"_a = found.shown, "shown_mate"_a = found.shown_mate,
        "shown_mated"_a = found.shown_mated, "as_good"_a = found.as_good, "better"_a = found.better,
        "failing"_a = found.failing, "numbers"_a = numbers, "paragraph"_a = text_from(paragraph(found)),
        "texts"_a = in_languages([&](Language language) { return paragraph(found, language); }));
}

py::object of_both(const Position& position, const Options& options) {
    const auto both = [&] {
        const py::gil_scoped_release released;
        return std::pair{difficulty(position, position.mover(), options),
                         difficulty(position, position.waiter(), options)};
    }();
    const auto& [mover, waiter] = both;
    py::dict sides;
    for (const Side side : all_sides)
        sides[py::cast(side)] = python_difficulty(position, side == mover.side ? mover : waiter);
    return result_class("Difficulties")(
        "position"_a = position, "sides"_a = sides, "paragraph"_a = text_from(paragraph(mover, waiter)),
        "texts"_a = in_languages([&](Language language) { return paragraph(both.first, both.second, language); }));
}

py::object of_one(const Position& position, Side side, const LineArgument& line, const Options& options) {
    const std::vector<std::string> texts = texts_of(line.value_or(std::vector<MoveArgument>{}));
    const std::vector<std::string_view> moves(texts.begin(), texts.end());
    const Difficulty found = [&] {
        const py::gil_scoped_release released;
        return line ? difficulty(position, side, moves, options).value() : difficulty(position, side, options);
    }();
    return python_difficulty(position, found);
}

} // namespace

void register_difficulty(py::module_& module) {
    constexpr Options usual;

    module.def(
        "difficulty",
        [](const Position& position, std::optional<Side> side, const LineArgument& line, int least_gain, int plies,
           int check_plies, int nodes, const ValuesArgument& values) {
            const Options options = options_of(least_gain, plies, check_plies, nodes, values);
            if (!side && !line) return of_both(position, options);
            return of_one(position, side.value_or(position.mover()), line, options);
        },
        py::arg("position"), py::arg("side") = py::none(), py::arg("line") = py::none(), py::kw_only(),
        py::arg("least_gain") = usual.least_gain, py::arg("plies") = usual.bound.plies,
        py::arg("check_plies") = usual.bound.check_plies, py::arg("nodes") = usual.bound.nodes,
        py::arg("values") = py::none(),
        "What a side has to see when it is to move (after a pass, where the other one is), as counts: a Difficulty.\n\n"
        "How many legal moves keep the material; the line to be seen, how long and how quiet it is, and which of its "
        "moves go backwards or far; what looks as good at first sight; how many captures, promotions and checks the "
        "other side has in reply. Without `line` it is that of the side's strongest threat, or of its best move where "
        "something must be met; `line` gives it instead, the solution of an exercise, say: moves of both sides in turn, "
        "a move of `side` (by default the mover) first. With neither `side` nor `line` the answer is about both sides: "
        "a Difficulties.\n\n"
        "A move of `line` that is illegal or ambiguous raises InputError with the field \"step\", the number of the "
        "move as `line` (also as `step`) and the column in its text; so do more than 32 (`line_too_long`), and a line "
        "of a side without a turn (`pass_in_check`). `least_gain`: the least that a threat must win. The bound and "
        "`values` as in `resolve`.");

    module.def(
        "difficulty_numbers",
        [] {
            py::dict definitions;
            for (const DifficultyNumber& number : difficulty_numbers())
                definitions[text_from(number.name)] = text_from(number.definition);
            return definitions;
        },
        "The counts of a Difficulty: name and definition of each, in the order of `Difficulty.numbers`.");
}

} // namespace keysquare::python
