// Finding, and the function that makes them.
#include "findings.hpp"
#include "diagrams.hpp"

#include <keysquare/features/findings.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

namespace keysquare::python {

namespace {

std::vector<FoundIn> find(const Position& position, const std::optional<std::vector<Text>>& themes,
                          std::optional<Side> side, const Options& options) {
    const ThemeChoice wanted = themes_named(themes);
    const py::gil_scoped_release released; // nothing of Python is touched below
    std::vector<FoundIn> found;
    for (const Finding& finding : findings_of(position, wanted, side, options)) found.push_back({position, finding});
    return found;
}

py::dict numbers_of(const FoundIn& found) {
    py::dict numbers;
    for (const Number& number : found.finding.numbers) numbers[text_from(name(number.measure))] = number.value;
    return numbers;
}

std::optional<std::string_view> detail_of(const FoundIn& found) {
    if (found.finding.detail == Detail::none) return std::nullopt;
    return name(found.finding.detail);
}

std::vector<Placed> pieces_of(const FoundIn& found) {
    return {found.finding.pieces.begin(), found.finding.pieces.end()};
}

std::string san_of(const FoundIn& found, const Line& line) {
    return line_text(start_of_line(found.position, found.finding), line);
}

std::string sentence_in(const FoundIn& found, Language language) {
    return sentence(found.position, found.finding, language);
}
std::string sentence_of(const FoundIn& found) { return sentence_in(found, Language::english); }

py::list texts_of(const Line& line) {
    py::list texts;
    for (const Move move : line) texts.append(coordinate(move));
    return texts;
}

py::dict plain_data(const FoundIn& found, Language language) {
    const Finding& finding = found.finding;
    py::list squares;
    for (const Square square : finding.squares) squares.append(text_from(name(square)));
    py::list pieces;
    for (const Placed& placed : finding.pieces) {
        py::dict piece;
        piece["square"] = text_from(name(placed.square));
        piece["piece"] = joined_text(name(placed.piece.side), " ", name(placed.piece.kind));
        pieces.append(piece);
    }
    py::dict data;
    data["fen"] = fen(found.position);
    data["theme"] = name(finding.theme);
    data["detail"] = detail_of(found);
    data["side"] = name(finding.side);
    data["squares"] = squares;
    data["pieces"] = pieces;
    data["gain"] = finding.gain;
    data["mate"] = finding.mate;
    data["mated"] = finding.mated;
    data["line"] = texts_of(finding.line);
    data["line_san"] = san_of(found, finding.line);
    data["point"] = texts_of(finding.point);
    data["point_san"] = san_of(found, finding.point);
    data["after_pass"] = finding.after_pass;
    data["removed"] =
        finding.removed == Square::none ? py::object{py::none()} : py::object{text_from(name(finding.removed))};
    data["numbers"] = numbers_of(found);
    data["weight"] = finding.weight;
    data["sentence"] = sentence_in(found, language);
    return data;
}

bool is_same(const FoundIn& a, const FoundIn& b) {
    const Finding& x = a.finding;
    const Finding& y = b.finding;
    return a.position == b.position && x.theme == y.theme && x.detail == y.detail && x.side == y.side &&
           x.squares == y.squares && x.pieces == y.pieces && x.gain == y.gain && x.mate == y.mate &&
           x.mated == y.mated && x.line == y.line && x.point == y.point && x.after_pass == y.after_pass &&
           x.removed == y.removed && x.weight == y.weight &&
           std::ranges::equal(x.numbers, y.numbers, [](const Number& one, const Number& other) {
               return one.measure == other.measure && one.value == other.value;
           });
}

std::string in_short(const FoundIn& found) {
    const std::string text = sentence_of(found);
    return joined_text("<keysquare.Finding ", name(found.finding.theme), text.empty() ? "" : ": ", text, ">");
}

/// The sentence holds names of squares, pieces and moves alone, but "<" is what it must never let through.
std::string html_of(const FoundIn& found) {
    std::string caption;
    for (const char c : sentence_of(found)) switch (c) {
        case '&': caption += "&amp;"; break;
        case '<': caption += "&lt;"; break;
        case '>': caption += "&gt;"; break;
        default: caption += c;
        }
    return joined_text("<figure>", drawing_of(found), "<figcaption>", caption, "</figcaption></figure>");
}

// The pickled form: the position as FEN, then the plain members in their order.

py::tuple stored(const FoundIn& found) {
    const Finding& finding = found.finding;
    const auto bits_of = [](const Line& line) {
        py::list bits;
        for (const Move move : line) bits.append(move.bits());
        return bits;
    };
    py::list pieces;
    for (const Placed& placed : finding.pieces)
        pieces.append(py::make_tuple(index(placed.square), static_cast<int>(placed.piece.side),
                                     static_cast<int>(placed.piece.kind)));
    return py::make_tuple(fen(found.position), name(finding.theme), name(finding.detail),
                          static_cast<int>(finding.side), finding.after_pass, finding.mate, finding.mated,
                          index(finding.removed), finding.gain, finding.weight, finding.squares.bits(), pieces,
                          bits_of(finding.line), bits_of(finding.point), numbers_of(found));
}

template <class Enum> Enum named(std::string_view text) {
    for (int at = 0; at < static_cast<int>(Enum::end_); ++at)
        if (name(static_cast<Enum>(at)) == text) return static_cast<Enum>(at);
    throw py::value_error(joined_text("a pickled finding of another version: \"", text, "\" is not known"));
}

FoundIn restored(const py::tuple& state) {
    FoundIn found;
    Finding& finding = found.finding;
    const auto fill = [](Line& line, const py::handle& bits) {
        for (const py::handle one : bits) line.push_back(move_from_bits(one.cast<std::uint16_t>()));
    };
    found.position = read_fen(state[0].cast<std::string>(), Strictness::lenient).value();
    finding.theme = named<Theme>(state[1].cast<std::string>());
    finding.detail = named<Detail>(state[2].cast<std::string>());
    finding.side = static_cast<Side>(state[3].cast<int>());
    finding.after_pass = state[4].cast<bool>();
    finding.mate = state[5].cast<bool>();
    finding.mated = state[6].cast<bool>();
    finding.removed = square_at(state[7].cast<int>());
    finding.gain = state[8].cast<int>();
    finding.weight = state[9].cast<int>();
    finding.squares = Squares{state[10].cast<std::uint64_t>()};
    for (const py::handle item : state[11]) {
        const auto [square, side, kind] = item.cast<std::tuple<int, int, int>>();
        finding.pieces.push_back({square_at(square), {static_cast<Side>(side), static_cast<Kind>(kind)}});
    }
    fill(finding.line, state[12]);
    fill(finding.point, state[13]);
    for (const auto& [text, value] : state[14].cast<py::dict>())
        finding.count(named<Measure>(text.cast<std::string>()), value.cast<int>());
    return found;
}

} // namespace

ThemeChoice themes_named(const std::optional<std::vector<Text>>& names) {
    ThemeChoice wanted{};
    wanted.fill(!names);
    if (names)
        for (const Text text : *names) {
            const Theme theme = theme_named(text.view);
            if (theme == Theme::end_) throw py::value_error(joined_text("no theme is called \"", text.view, "\""));
            wanted[static_cast<std::size_t>(theme)] = true;
        }
    return wanted;
}

Findings findings_of(const Position& position, const ThemeChoice& wanted, std::optional<Side> side,
                     const Options& options) {
    Findings found = findings(position, options);
    std::erase_if(found, [&](const Finding& finding) {
        return !wanted[static_cast<std::size_t>(finding.theme)] || (side && *side != finding.side);
    });
    return found;
}

void register_findings(py::module_& module) {
    py::class_<FoundIn> type(
        module, "Finding",
        "One statement about one position, with its witness.\n\n"
        "What holds for every finding: `line` is legal from the position, after a pass where `after_pass`, and "
        "without the man on `removed` where that is set; it starts with a move of `side`, wins `gain` pawns for it "
        "against every reply inside the search bound, and with `mate` it ends in checkmate. A warning (themes "
        "`poisoned`, `denied_square`, `tied`, `stuffed_rooks` and locked pairs) is told from the view of the side "
        "that must beware: the first move is its mistake, `gain` is zero or less, or `mated` is set. A finding "
        "without a line is a count: `squares` holds what was counted.\n\n"
        "`str(finding)` is one English sentence that says nothing that the finding does not hold. Immutable, compares "
        "by content, pickles, and draws itself in notebooks.");

    type.def_property_readonly(
            "position", [](const FoundIn& found) { return found.position; },
            "The position that the finding was made for.")
        .def_property_readonly(
            "theme", [](const FoundIn& found) { return name(found.finding.theme); },
            "What it is about: \"hanging\", \"overloaded\", ... (`keysquare.themes`).")
        .def_property_readonly("detail", &detail_of,
                               "The particular case within the theme (\"guard_pinned\", \"locked\", ...), or None.")
        .def_property_readonly(
            "side", [](const FoundIn& found) { return found.finding.side; },
            "The side that it is good for; in a warning, the side that is warned.")
        .def_property_readonly(
            "squares", [](const FoundIn& found) { return found.finding.squares; },
            "The squares that it is about or that were counted, in the order a1 to h8.")
        .def_property_readonly("pieces", &pieces_of, "The pieces that it is about, the main one first, at most eight.")
        .def_property_readonly("numbers", &numbers_of, "Its counts by name.")
        .def_property_readonly(
            "gain", [](const FoundIn& found) { return found.finding.gain; },
            "What the line wins for `side`, in pawns; negative when it loses.")
        .def_property_readonly(
            "mate", [](const FoundIn& found) { return found.finding.mate; }, "The line ends in checkmate by `side`.")
        .def_property_readonly(
            "mated", [](const FoundIn& found) { return found.finding.mated; },
            "A warning whose line ends in checkmate of `side`.")
        .def_property_readonly(
            "line", [](const FoundIn& found) { return found.finding.line; },
            "The moves that show it; empty when it is a count.")
        .def_property_readonly(
            "line_san", [](const FoundIn& found) { return san_of(found, found.finding.line); },
            "The line as people write it: \"12.Nxd6 Bxd6 13.Rxd6\".")
        .def_property_readonly(
            "point", [](const FoundIn& found) { return found.finding.point; },
            "A second line that shows the idea when the other side plays along; mostly empty.")
        .def_property_readonly(
            "point_san", [](const FoundIn& found) { return san_of(found, found.finding.point); }, "The same as text.")
        .def_property_readonly(
            "after_pass", [](const FoundIn& found) { return found.finding.after_pass; },
            "Whether the line starts from the position with the move handed over.")
        .def_property_readonly(
            "removed", [](const FoundIn& found) { return found.finding.removed; },
            "The square of the man that the line does without (\"without this piece ...\"), or None.")
        .def_property_readonly(
            "weight", [](const FoundIn& found) { return found.finding.weight; },
            "Its place in the ranking; larger is mentioned earlier.")
        .def("text", &sentence_in, py::arg("language") = "en",
             "The sentence in a language of `keysquare.languages`; `str(finding)` is the English one.\n\n"
             "Moves in it have the letters of the pieces that readers of the language know. Raises ValueError for a "
             "language that is not known.")
        .def(
            "as_dict", &plain_data, py::arg("language") = "en",
            "All of it as plain data, fit for JSON: texts, numbers, lists and dicts; moves in coordinate notation, the "
            "position as `fen`, the sentence, as in `text`, as `sentence`.");

    type.def("__eq__", &is_same, py::is_operator())
        .def("__hash__",
             [](const FoundIn& found) {
                 return py::hash(py::make_tuple(found.position.key(), name(found.finding.theme),
                                                found.finding.squares.bits(), found.finding.gain));
             })
        .def("__str__", &sentence_of)
        .def("__repr__", &in_short)
        .def("_repr_html_", &html_of)
        .def(py::pickle(&stored, &restored));

    constexpr Options usual;
    module.def(
        "findings",
        [](const Position& position, const std::optional<std::vector<Text>>& themes, std::optional<Side> side,
           int least_gain, int plies, int check_plies, int nodes, const ValuesArgument& values) {
            return find(position, themes, side, options_of(least_gain, plies, check_plies, nodes, values));
        },
        py::arg("position"), py::arg("themes") = py::none(), py::arg("side") = py::none(),
        py::arg("least_gain") = usual.least_gain, py::kw_only(), py::arg("plies") = usual.bound.plies,
        py::arg("check_plies") = usual.bound.check_plies, py::arg("nodes") = usual.bound.nodes,
        py::arg("values") = py::none(),
        "Everything that the library sees in a position, strongest first: a list of Finding.\n\n"
        "`themes`: only these, by name; `side`: only what is good for (in a warning: warns) that side. Claims that "
        "win less than `least_gain` pawns are not made. `plies`, `check_plies`, `nodes` and `values` as in `resolve`. "
        "Claims that need a pass are left out while the mover is in check. Raises ValueError for an unknown theme.");

    py::list languages;
    for (std::size_t at = 0; at < language_count; ++at) languages.append(text_from(name(static_cast<Language>(at))));
    module.attr("languages") = py::tuple(languages);
    module.def(
        "move_letters", &move_letters, py::arg("language") = "en",
        "What stands for the letters \"NBRQKO\" of SAN in the moves of sentences, in that order.\n\n"
        "PGN and `san` have the English letters whatever the language. Raises ValueError for a language that is not "
        "known.");

    py::list themes;
    for (int at = 0; at < static_cast<int>(Theme::end_); ++at) themes.append(text_from(name(static_cast<Theme>(at))));
    module.attr("themes") = py::tuple(themes);
}

} // namespace keysquare::python
