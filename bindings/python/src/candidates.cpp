// The moves worth a look: candidates, and the facts about all moves.
#include "bindings.hpp"
#include "reasons.hpp"
#include "threats.hpp"

#include <keysquare/lesson/candidate_sentences.hpp>
#include <keysquare/notation/san.hpp>
#include <keysquare/thinking/counted_facts.hpp>
#include <keysquare/thinking/move_studies.hpp>

namespace keysquare::python {

using namespace py::literals;

namespace {

/// None for an outcome without a line.
py::object optional_outcome(const Outcome& outcome) {
    return outcome.line.empty() ? py::object{py::none()} : python_outcome(outcome);
}

py::object python_candidate(const Position& position, const Candidate& candidate) {
    return result_class("Candidate")(
        "position"_a = position, "move"_a = candidate.move, "san"_a = san(position, candidate.move),
        "won"_a = optional_outcome(candidate.won), "kept"_a = python_outcome(candidate.kept),
        "threat"_a = optional_outcome(candidate.threat), "loses"_a = candidate.loses,
        "reasons"_a = python_reasons(candidate.reasons), "drawbacks"_a = python_reasons(candidate.drawbacks),
        "parried"_a =
            candidate.parried.line.empty() ? py::object{py::none()} : py::cast(ThreatIn{position, candidate.parried}),
        "allowed"_a = optional_outcome(candidate.allowed), "sentence"_a = text_from(sentence(position, candidate)),
        "texts"_a = in_languages([&](Language language) { return sentence(position, candidate, language); }));
}

py::object candidates_of(const Position& position, int at_most, const Options& options) {
    if (at_most < 1) throw py::value_error("at_most: must be at least 1");
    const Candidates found = [&] {
        const py::gil_scoped_release released;
        return candidates(position, at_most, options);
    }();
    py::list moves;
    for (const Candidate& candidate : found) moves.append(python_candidate(position, candidate));
    return result_class("Candidates")("position"_a = position, "moves"_a = moves);
}

/// The amounts by the name of the fact, for each legal move.
py::list facts_of(const Position& position, const Options& options) {
    std::vector<MoveStudy> studies;
    {
        const py::gil_scoped_release released;
        const MoveStudies all{position, options};
        for (std::size_t at = 0; at < all.moves().size(); ++at) all.add_allows(studies.emplace_back(all.study(at)));
    }
    py::list moves;
    for (const MoveStudy& study : studies)
        moves.append(result_class("MoveFacts")(study.move, study.loses, python_reasons(study.facts)));
    return moves;
}

} // namespace

void register_candidates(py::module_& module) {
    constexpr Options usual;

    module.def(
        "candidates",
        [](const Position& position, int at_most, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values) {
            return candidates_of(position, at_most, options_of(least_gain, plies, check_plies, nodes, values));
        },
        py::arg("position"), py::arg("at_most") = most_candidates, py::arg("least_gain") = usual.least_gain,
        py::kw_only(), py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(),
        "The few moves of the mover that deserve a look, each with its reasons: Candidates.\n\n"
        "At most `at_most`, and fewer when fewer deserve it. A move that loses material inside the bound is none, "
        "unless every move does. They stand in the order of what speaks for them, by one table of weights that says "
        "nothing else. `least_gain`: what wins less is not said to win or threaten anything. The bound and `values` "
        "as in `resolve`. Raises ValueError when `at_most` is below 1.");

    module.def(
        "move_facts",
        [](const Position& position, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values) {
            return facts_of(position, options_of(least_gain, plies, check_plies, nodes, values));
        },
        py::arg("position"), py::arg("least_gain") = usual.least_gain, py::kw_only(),
        py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(),
        "All facts about every legal move, in the order of `Position.moves`: a list of MoveFacts.\n\n"
        "What the candidates are chosen from. `fact_definitions` says what each fact means. The parameters as in "
        "`candidates`.");

    module.def(
        "fact_definitions",
        [] {
            py::dict definitions;
            for (const auto& [fact, definition] : searched_facts())
                definitions[text_from(name(fact))] = text_from(definition);
            for (const CountedFact& fact : counted_facts())
                definitions[text_from(name(fact.fact))] = text_from(fact.definition);
            return definitions;
        },
        "What each fact about a move means, by its name.\n\n"
        "\"The side\" is the one that moves. The amount of a fact is what is counted, after the move minus before it "
        "where the definition says \"more than before\", and the other way round for \"fewer\".");
}

} // namespace keysquare::python
