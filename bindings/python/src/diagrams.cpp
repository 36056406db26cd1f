// Diagrams: pictures of positions, with marks, arrows and findings.
#include "diagrams.hpp"

#include <variant>

#include <keysquare/lesson/diagram.hpp>
#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/lesson/finding_marks.hpp>

namespace keysquare::python {

namespace {

using MarkArgument = std::tuple<Square, Text, int>;
using ArrowArgument = std::tuple<Square, Square, Text, int>;
using FindingArgument = std::variant<const FoundIn*, const ThreatIn*>;

Finding shown(const Position& position, const FoundIn& found) {
    if (found.position != position) throw py::value_error("a finding was made for another position");
    return found.finding;
}

Finding shown(const Position& position, const ThreatIn& found) {
    if (found.position != position) throw py::value_error("a threat was found in another position");
    return as_finding(position, found.threat);
}

template <std::size_t size>
std::size_t place_of(std::string_view text, const std::array<std::string_view, size>& known, const char* what) {
    const auto place = std::ranges::find(known, text);
    if (place != known.end()) return static_cast<std::size_t>(place - known.begin());
    std::string message = joined_text("no ", what, " is called \"", text, "\"; there are");
    for (const std::string_view one : known) message += joined_text(one == known.front() ? " " : ", ", one);
    throw py::value_error(message);
}

MarkStyle mark_style(std::string_view text) {
    constexpr std::array<std::string_view, 8> known{
        "outline", "double_outline", "dotted_outline", "corners", "ring", "cross", "dot", "bare"};
    return static_cast<MarkStyle>(place_of(text, known, "mark style"));
}

LineStyle line_style(std::string_view text) {
    constexpr std::array<std::string_view, 3> known{"solid", "dashed", "dotted"};
    return static_cast<LineStyle>(place_of(text, known, "line style"));
}

std::string draw(const Position& position, const std::vector<FindingArgument>& found, Side bottom, int square_size,
                 bool coordinates, bool mover_mark, Text title, const std::vector<MarkArgument>& marks,
                 const std::vector<ArrowArgument>& arrows, int serial, Language language) {
    DiagramOptions options;
    options.bottom = bottom;
    options.square_size = square_size;
    options.coordinates = coordinates;
    options.mover_mark = mover_mark;
    options.title = title.view;
    options.serial = serial;
    options.language = language;
    for (const auto& [square, style, number] : marks) options.marks.push_back({square, mark_style(style.view), number});
    for (const auto& [from, to, style, number] : arrows) {
        if (from == to) throw py::value_error("an arrow needs two different squares");
        options.arrows.push_back({from, to, line_style(style.view), number});
    }
    std::vector<Finding> findings;
    for (const FindingArgument& argument : found)
        std::visit(
            [&](const auto* one) {
                if (!one) throw py::type_error("None is no finding");
                findings.push_back(shown(position, *one));
            },
            argument);
    return diagram(position, diagram_of(position, findings, std::move(options)));
}

} // namespace

std::string drawing_of(const FoundIn& found) {
    return diagram(found.position, diagram_of(found.position, std::span{&found.finding, 1}));
}

std::string drawing_of(const ThreatIn& found) {
    const Finding finding = as_finding(found.position, found.threat);
    return diagram(found.position, diagram_of(found.position, std::span{&finding, 1}));
}

void register_diagrams(py::module_& module) {
    module.def("draw", &draw, py::arg("position"), py::arg("findings"), py::arg("bottom"), py::arg("square_size"),
               py::arg("coordinates"), py::arg("mover_mark"), py::arg("title"), py::arg("marks"), py::arg("arrows"),
               py::arg("serial"), py::arg("language"), "What `keysquare.diagram` calls, with every argument given.");
}

} // namespace keysquare::python
