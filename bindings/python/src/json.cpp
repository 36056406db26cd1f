// The answers as JSON text, as every other binding gets them.
#include "findings.hpp"
#include "games.hpp"

#include <keysquare/lesson/json.hpp>

namespace keysquare::python {

namespace {

py::str json_of_findings(const Position& position, const std::optional<std::vector<Text>>& themes,
                         std::optional<Side> side, const Options& options, Language language) {
    const ThemeChoice wanted = themes_named(themes);
    std::string json;
    {
        const py::gil_scoped_release released;
        json = findings_json(position, findings_of(position, wanted, side, options), language);
    }
    return text_from(json);
}

py::str json_of_threats(const Position& position, std::optional<Side> side, const Options& options, Language language) {
    std::string json;
    {
        const py::gil_scoped_release released;
        const Side whose = side.value_or(position.waiter());
        json = threats_json(position, whose, threats(position, whose, options), language);
    }
    return text_from(json);
}

py::str json_of_candidates(const Position& position, int at_most, const Options& options, Language language) {
    if (at_most < 1) throw py::value_error("at_most: must be at least 1");
    std::string json;
    {
        const py::gil_scoped_release released;
        json = candidates_json(position, candidates(position, at_most, options), language);
    }
    return text_from(json);
}

py::str json_of_outlook(const Position& position, const Options& options, Language language) {
    std::string json;
    {
        const py::gil_scoped_release released;
        json = outlook_json(position, outlook(position, options), language);
    }
    return text_from(json);
}

py::str json_of_report(const Game& held, std::size_t at_most, const Options& options, Language language) {
    std::string json;
    {
        const Game game = held; // the caller's may change while the GIL is released
        const py::gil_scoped_release released;
        json = game_report_json(game, game_report(game, at_most, options), language);
    }
    return text_from(json);
}

} // namespace

void register_json(py::module_& module) {
    constexpr Options usual;

    module.def(
        "findings_json",
        [](const Position& position, const std::optional<std::vector<Text>>& themes, std::optional<Side> side,
           int least_gain, int plies, int check_plies, int nodes, const ValuesArgument& values, Language language) {
            return json_of_findings(position, themes, side, options_of(least_gain, plies, check_plies, nodes, values),
                                    language);
        },
        py::arg("position"), py::arg("themes") = py::none(), py::arg("side") = py::none(),
        py::arg("least_gain") = usual.least_gain, py::kw_only(), py::arg("plies") = usual.bound.plies,
        py::arg("check_plies") = usual.bound.check_plies, py::arg("nodes") = usual.bound.nodes,
        py::arg("values") = py::none(), py::arg("language") = "en",
        "What `findings` gives, as JSON of the schema \"keysquare findings 1\".\n\n"
        "The same text in every binding; a member of \"findings\" is what `Finding.as_dict` gives in that language. The "
        "other parameters as in `findings`.");

    module.def(
        "threats_json",
        [](const Position& position, std::optional<Side> side, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values, Language language) {
            return json_of_threats(position, side, options_of(least_gain, plies, check_plies, nodes, values), language);
        },
        py::arg("position"), py::arg("side") = py::none(), py::arg("least_gain") = usual.least_gain, py::kw_only(),
        py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(), py::arg("language") = "en",
        "What `threats` gives, as JSON of the schema \"keysquare threats 1\".\n\n"
        "The same text in every binding; a member of \"threats\" is what `Threat.as_dict` gives in that language, and "
        "\"known\" is false when the side has no turn because the other one stands in check. The other parameters as in "
        "`threats`.");

    module.def(
        "candidates_json",
        [](const Position& position, int at_most, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values, Language language) {
            return json_of_candidates(position, at_most, options_of(least_gain, plies, check_plies, nodes, values),
                                      language);
        },
        py::arg("position"), py::arg("at_most") = most_candidates, py::arg("least_gain") = usual.least_gain,
        py::kw_only(), py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(), py::arg("language") = "en",
        "What `candidates` gives, as JSON of the schema \"keysquare candidates 1\".\n\n"
        "The same text in every binding; a member of \"candidates\" is what `Candidate.as_dict` gives in that language. "
        "The other parameters as in `candidates`.");

    module.def(
        "outlook_json",
        [](const Position& position, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values, Language language) {
            return json_of_outlook(position, options_of(least_gain, plies, check_plies, nodes, values), language);
        },
        py::arg("position"), py::kw_only(), py::arg("least_gain") = usual.least_gain,
        py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(), py::arg("language") = "en",
        "What `outlook` gives, as JSON of the schema \"keysquare outlook 1\".\n\n"
        "The same text in every binding; but for \"schema\", \"language\" and \"fen\" it is what `Outlook.as_dict` gives in "
        "that language. The other parameters as in `outlook`.");

    module.def(
        "game_report_json",
        [](const std::shared_ptr<HeldGame>& game, std::size_t at_most, int least_gain, int plies, int check_plies,
           int nodes, const ValuesArgument& values, Language language) {
            if (!game) throw py::type_error("None is no game");
            return json_of_report(game->game, at_most, options_of(least_gain, plies, check_plies, nodes, values),
                                  language);
        },
        py::arg("game"), py::arg("at_most") = most_moments, py::kw_only(), py::arg("least_gain") = usual.least_gain,
        py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(), py::arg("language") = "en",
        "What `game_report` gives, as JSON of the schema \"keysquare game report 1\".\n\n"
        "The same text in every binding, with the names of `PlyReport`, `MoveEffect`, `TurningPoint` and `Moment`; a "
        "finding in \"created\" is named by its place in \"findings\". Sentences are in `language`. The other parameters as "
        "in `game_report`.");
}

} // namespace keysquare::python
