// Template text: the one way in which placeholders become words.
#pragma once

#include <string>
#include <string_view>

namespace keysquare::detail {

/// The pattern with each `{key}` replaced by `value_of(key)`.
template <class ValueOf> [[nodiscard]] std::string filled(std::string_view pattern, ValueOf value_of) {
    std::string text;
    while (!pattern.empty()) {
        const auto open = pattern.find('{');
        text += pattern.substr(0, open);
        if (open == std::string_view::npos) break;
        const auto close = pattern.find('}', open);
        text += value_of(pattern.substr(open + 1, close - open - 1));
        pattern.remove_prefix(close + 1);
    }
    return text;
}

} // namespace keysquare::detail
