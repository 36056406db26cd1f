// DiagramWords: a diagram in words, for screen readers and for pictures that are not shown.
#pragma once

#include <array>
#include <string_view>

#include <keysquare/lesson/language.hpp>

namespace keysquare {

/// {Side} is the side to move, {list} what stands in a list, {square}, {from} and {to} are squares, {number} is "(1)" with
/// a space before it where there is one.
struct DiagramWords {
    std::string_view title;
    std::string_view no_men;
    std::string_view to_move;
    std::string_view marks;
    std::string_view mark; ///< {style}
    std::string_view arrows;
    std::array<std::string_view, 8> mark_styles; ///< in the order of `MarkStyle`
    std::array<std::string_view, 3> arrow_of;    ///< in the order of `LineStyle`
};

inline constexpr DiagramWords diagram_words[language_count]{
    {
        .title = "Chess position, {Side} to move",
        .no_men = "no men",
        .to_move = "{Side} to move.",
        .marks = " Marks: {list}.",
        .mark = "{style} on {square}{number}",
        .arrows = " Arrows: {list}.",
        .mark_styles = {"outline", "double outline", "dotted outline", "corners", "ring", "cross", "dot", "number"},
        .arrow_of = {"from {from} to {to}{number}", "dashed from {from} to {to}{number}",
                     "dotted from {from} to {to}{number}"},
    },
    {
        .title = "Schachstellung, {Side} am Zug",
        .no_men = "keine Steine",
        .to_move = "{Side} am Zug.",
        .marks = " Markierungen: {list}.",
        .mark = "{style} auf {square}{number}",
        .arrows = " Pfeile: {list}.",
        .mark_styles = {"Umrandung", "doppelte Umrandung", "gepunktete Umrandung", "Ecken", "Ring", "Kreuz", "Punkt",
                        "Nummer"},
        .arrow_of = {"von {from} nach {to}{number}", "gestrichelt von {from} nach {to}{number}",
                     "gepunktet von {from} nach {to}{number}"},
    },
};

} // namespace keysquare
