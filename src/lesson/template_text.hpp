// Template text: the one way in which placeholders become words.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace keysquare::detail {

/// What gives the value of a placeholder: any function of its name that returns text, for the length of one call. It
/// is no template parameter of `filled` because that would be compiled anew for every template that is filled.
class ValueOf {
  public:
    template <class Function>
    ValueOf(const Function& function) noexcept // NOLINT(google-explicit-constructor)
        : function_(&function), add_([](const void* held, std::string_view key, std::string& text) {
              text += (*static_cast<const Function*>(held))(key);
          }) {}

    void add_to(std::string& text, std::string_view key) const { add_(function_, key, text); }

  private:
    const void* function_;
    void (*add_)(const void*, std::string_view, std::string&);
};

/// The pattern with each `{key}` replaced by its value.
[[nodiscard]] inline std::string filled(std::string_view pattern, ValueOf value_of) {
    std::string text;
    while (!pattern.empty()) {
        const auto open = pattern.find('{');
        text += pattern.substr(0, open);
        if (open == std::string_view::npos) break;
        const auto close = pattern.find('}', open);
        value_of.add_to(text, pattern.substr(open + 1, close - open - 1));
        pattern.remove_prefix(close + 1);
    }
    return text;
}

/// Stands for a placeholder that nobody knows: itself, so that whoever reads the sentence sees the mistake.
[[nodiscard]] inline std::string unknown(std::string_view key) { return std::string{"{"}.append(key).append("}"); }

/// A placeholder in its parts: `{name}`, `{name:form}`, or `{name?for one|for several}`.
struct Placeholder {
    std::string_view name;
    std::string_view form;
    bool chooses = false;

    constexpr explicit Placeholder(std::string_view key) noexcept {
        const auto end = key.find_first_of(":?");
        name = key.substr(0, end);
        if (end == std::string_view::npos) return;
        form = key.substr(end + 1);
        chooses = key[end] == '?';
    }

    /// The form of the two that goes with a count.
    [[nodiscard]] constexpr std::string_view chosen(int count) const noexcept {
        const auto bar = form.find('|');
        if (count <= 1) return form.substr(0, bar);
        return bar == std::string_view::npos ? std::string_view{} : form.substr(bar + 1);
    }
};

/// What the placeholders of a template stand for.
using Filling = std::pair<std::string_view, std::string>;
using Fillings = std::vector<Filling>;

} // namespace keysquare::detail
