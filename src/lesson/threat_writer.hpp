// Fills templates for a threat.
#pragma once

#include <string>
#include <string_view>

#include <keysquare/lesson/explain_threats.hpp>

#include "sentence_writer.hpp"

namespace keysquare::detail {

/// Fills the templates of threats and answers, which speak of one line.
[[nodiscard]] inline std::string filled_for(const Position& position, const Threat& threat, std::string_view pattern,
                                            const Words& words, const std::string& asked = {}) {
    const Finding finding = as_finding(position, threat);
    const SentenceWriter writer{position, finding, words};
    return filled(pattern, [&](std::string_view key) -> std::string {
        if (key == "asked") return asked;
        if (Placeholder{key}.name == "man" && finding.pieces.empty()) return std::string{name(threat.target)};
        return writer.value_of(key);
    });
}

} // namespace keysquare::detail
