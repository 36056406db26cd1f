// Threats, and the questions about them: threats, parries, answers.
#include "threats.hpp"
#include "diagrams.hpp"

#include <keysquare/lesson/explain.hpp>
#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

namespace keysquare::python {

namespace {

std::vector<ThreatIn> find(const Position& position, std::optional<Side> side, const Options& options) {
    const py::gil_scoped_release released; // nothing of Python is touched below
    std::vector<ThreatIn> found;
    for (const Threat& threat : threats(position, side.value_or(position.waiter()), options))
        found.push_back({position, threat});
    return found;
}

std::string sentence_in(const ThreatIn& found, Language language) {
    return sentence(found.position, found.threat, language);
}
std::string sentence_of(const ThreatIn& found) { return sentence_in(found, Language::english); }

std::string san_of(const ThreatIn& found) {
    return line_text(found.threat.after_pass ? turned(found.position) : found.position, found.threat.line);
}

py::dict plain_data(const ThreatIn& found, Language language) {
    const Threat& threat = found.threat;
    py::list squares;
    for (const Square square : threat.squares) squares.append(text_from(name(square)));
    py::list line;
    for (const Move move : threat.line) line.append(coordinate(move));
    py::dict data;
    data["fen"] = fen(found.position);
    data["side"] = name(threat.side);
    data["gain"] = threat.gain;
    data["mate"] = threat.mate;
    data["after_pass"] = threat.after_pass;
    data["target"] = text_from(name(threat.target));
    data["squares"] = squares;
    data["line"] = line;
    data["line_san"] = san_of(found);
    data["sentence"] = sentence_in(found, language);
    return data;
}

py::object parries_of(const Position& position, const ThreatIn& found, const Options& options) {
    if (found.position != position) throw py::value_error("the threat was found in another position");
    if (!found.threat.after_pass) throw py::value_error("a threat of the mover needs no parry");
    Parries result;
    {
        const py::gil_scoped_release released;
        result = parries(position, found.threat, options);
    }
    const py::dict texts =
        in_languages([&](Language language) { return sentence(position, found.threat, result, language); });
    py::list moves;
    const py::object parry_class = result_class("Parry");
    for (const Parry& parry : result.moves)
        moves.append(parry_class(parry.move, parry.stops, parry.ends_all, parry.counters, parry.wins, parry.takes,
                                 parry.threatens, parry.castles, parry.develops));
    return result_class("Parries")(found, moves, result.legal, result.natural, result.natural_stopping, texts["en"],
                                   texts);
}

py::object answer_of(const Position& position, const MoveArgument& argument, const Options& options) {
    const Move move = move_in(position, argument);
    Answer answer;
    {
        const py::gil_scoped_release released;
        answer = answers(position, move, options);
    }
    const py::dict texts = in_languages([&](Language language) { return sentence(position, answer, language); });
    py::object reply = py::none();
    if (!answer.reply.line.empty()) reply = py::cast(ThreatIn{after(position, move), answer.reply});
    return result_class("Answer")(move, reply, answer.taken, answer.cost, answer.loses, answer.walks_into,
                                  answer.leaves, texts["en"], texts);
}

// The pickled form: the position as FEN, then the plain members in their order.

py::tuple stored(const ThreatIn& found) {
    const Threat& threat = found.threat;
    py::list bits;
    for (const Move move : threat.line) bits.append(move.bits());
    return py::make_tuple(fen(found.position), static_cast<int>(threat.side), threat.after_pass, threat.mate,
                          threat.gain, index(threat.target), threat.squares.bits(), bits);
}

ThreatIn restored(const py::tuple& state) {
    ThreatIn found;
    Threat& threat = found.threat;
    found.position = read_fen(state[0].cast<std::string>(), Strictness::lenient).value();
    threat.side = static_cast<Side>(state[1].cast<int>());
    threat.after_pass = state[2].cast<bool>();
    threat.mate = state[3].cast<bool>();
    threat.gain = state[4].cast<int>();
    threat.target = square_at(state[5].cast<int>());
    threat.squares = Squares{state[6].cast<std::uint64_t>()};
    for (const py::handle bits : state[7]) threat.line.push_back(move_from_bits(bits.cast<std::uint16_t>()));
    return found;
}

/// The sentence holds names of squares, pieces and moves alone: nothing in it needs to be escaped.
std::string html_of(const ThreatIn& found) {
    return joined_text("<figure>", drawing_of(found), "<figcaption>", sentence_of(found), "</figcaption></figure>");
}

void register_threat(py::module_& module) {
    py::class_<ThreatIn> type(
        module, "Threat",
        "One thing that a side would win if it were to move, with the move that wins most of it.\n\n"
        "`line` is legal from the position, after a pass where `after_pass`; it starts with a move of `side` and "
        "wins `gain` pawns for it against every reply inside the search bound, or ends in checkmate with `mate`. "
        "`str(threat)` is one English sentence. Immutable, compares by content, pickles, and draws itself in "
        "notebooks; `keysquare.diagram` takes it among the findings.");
    type.def_property_readonly(
            "position", [](const ThreatIn& found) { return found.position; },
            "The position that the threat was found in.")
        .def_property_readonly(
            "side", [](const ThreatIn& found) { return found.threat.side; }, "The side that threatens.")
        .def_property_readonly(
            "gain", [](const ThreatIn& found) { return found.threat.gain; }, "What the line wins for `side`, in pawns.")
        .def_property_readonly(
            "mate", [](const ThreatIn& found) { return found.threat.mate; }, "The line ends in checkmate by `side`.")
        .def_property_readonly(
            "after_pass", [](const ThreatIn& found) { return found.threat.after_pass; },
            "Whether the line starts from the position with the move handed over.")
        .def_property_readonly(
            "target", [](const ThreatIn& found) { return found.threat.target; },
            "The square of the first man that `side` takes on the line (where it promotes, if it takes nothing "
            "before); for a mate, where the last move arrives.")
        .def_property_readonly(
            "squares", [](const ThreatIn& found) { return found.threat.squares; },
            "Where the men stand that `side` takes on the line, and the king that it mates.")
        .def_property_readonly(
            "line", [](const ThreatIn& found) { return found.threat.line; }, "The move and the best replies.")
        .def_property_readonly("line_san", &san_of, "The line as people write it: \"12.Nxd6 Bxd6 13.Rxd6\".")
        .def("text", &sentence_in, py::arg("language") = "en",
             "The sentence in a language of `keysquare.languages`; `str(threat)` is the English one. Raises ValueError "
             "for a language that is not known.")
        .def("as_dict", &plain_data, py::arg("language") = "en",
             "All of it as plain data, fit for JSON; moves in coordinate notation, the sentence as in `text`.");
    type.def(
            "__eq__",
            [](const ThreatIn& a, const ThreatIn& b) { return a.position == b.position && a.threat == b.threat; },
            py::is_operator())
        .def("__hash__",
             [](const ThreatIn& found) {
                 return py::hash(py::make_tuple(found.position.key(), found.threat.squares.bits(), found.threat.gain,
                                                found.threat.line.front().bits()));
             })
        .def("__str__", &sentence_of)
        .def("__repr__",
             [](const ThreatIn& found) { return joined_text("<keysquare.Threat: ", sentence_of(found), ">"); })
        .def("_repr_html_", &html_of)
        .def(py::pickle(&stored, &restored));
}

} // namespace

void register_threats(py::module_& module) {
    register_threat(module);
    constexpr Options usual;

    module.def(
        "threats",
        [](const Position& position, std::optional<Side> side, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values) {
            return find(position, side, options_of(least_gain, plies, check_plies, nodes, values));
        },
        py::arg("position"), py::arg("side") = py::none(), py::arg("least_gain") = usual.least_gain, py::kw_only(),
        py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(),
        "What `side` would win if it were to move: a list of Threat, strongest first.\n\n"
        "Without `side` it is the waiter, after a pass: what the opponent of the mover is up to. There is none while "
        "the mover is in check. For the mover it is what can be done at once. A quiet move is a threat only when it "
        "adds something to what could be won at once; of threats that are the same, the strongest is given. What "
        "wins less than `least_gain` pawns is left out. `plies`, `check_plies`, `nodes` and `values` as in `resolve`. "
        "Raises InputError for a side that is none.");

    module.def(
        "parries",
        [](const Position& position, const ThreatIn* threat, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values) {
            if (!threat) throw py::type_error("None is no threat");
            return parries_of(position, *threat, options_of(least_gain, plies, check_plies, nodes, values));
        },
        py::arg("position"), py::arg("threat"), py::arg("least_gain") = usual.least_gain, py::kw_only(),
        py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(),
        "What every legal move of the mover does about a threat of the waiter: a Parries.\n\n"
        "`threat` comes from `threats(position)`. The other parameters as in `threats`, and should be the same. "
        "Raises ValueError when the threat was found in another position or is the mover's own.");

    module.def(
        "answers",
        [](const Position& position, const MoveArgument& move, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values) {
            return answer_of(position, move, options_of(least_gain, plies, check_plies, nodes, values));
        },
        py::arg("position"), py::arg("move"), py::arg("least_gain") = usual.least_gain, py::kw_only(),
        py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(),
        "What the other side has after a move, and whether the move walks into it: an Answer.\n\n"
        "`move`: SAN, coordinate text or a Move. The other parameters as in `threats`. Raises InputError when the "
        "move is not legal.");
}

} // namespace keysquare::python
