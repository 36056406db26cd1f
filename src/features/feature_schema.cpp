#include <keysquare/features/feature_schema.hpp>

#include <array>

#include "feature_tables.hpp"

namespace keysquare {

namespace {

static_assert([] {
    std::size_t count = 0;
    for (const detail::Quantity& quantity : detail::quantities) count += columns_of(quantity.spread);
    return count;
}() == feature_count);

constexpr std::string_view white_prefix = "white_";
constexpr std::string_view black_prefix = "black_";
constexpr std::string_view difference_suffix = "_difference";

/// How many characters all names have.
constexpr std::size_t names_length = [] {
    std::size_t length = 0;
    for (const detail::Quantity& quantity : detail::quantities)
        for (std::size_t column = 0; column < detail::columns_of(quantity.spread); ++column) {
            const FeatureView view = detail::view_of(quantity.spread, column);
            length += quantity.name.size();
            if (view == FeatureView::white) length += white_prefix.size();
            if (view == FeatureView::black) length += black_prefix.size();
            if (view == FeatureView::difference) length += difference_suffix.size();
        }
    return length;
}();

/// The columns and the text of their names. Made when the program runs: compilers take long for it.
class Schema {
  public:
    Schema() noexcept {
        std::size_t at = 0;
        for (const detail::Quantity& quantity : detail::quantities)
            for (std::size_t column = 0; column < detail::columns_of(quantity.spread); ++column, ++at) {
                const FeatureView view = detail::view_of(quantity.spread, column);
                columns_[at] = {name_of(quantity, view), "int16", quantity.unit, view, quantity.definition};
            }
    }
    Schema(const Schema&) = delete; // names refer to the text
    Schema& operator=(const Schema&) = delete;
    ~Schema() = default;

    [[nodiscard]] const std::array<FeatureColumn, feature_count>& columns() const noexcept { return columns_; }

  private:
    [[nodiscard]] std::string_view name_of(const detail::Quantity& quantity, FeatureView view) noexcept {
        const std::size_t begin = length_;
        if (view == FeatureView::white) add(white_prefix);
        if (view == FeatureView::black) add(black_prefix);
        add(quantity.name);
        if (view == FeatureView::difference) add(difference_suffix);
        return {text_.data() + begin, length_ - begin};
    }
    void add(std::string_view part) noexcept {
        for (const char c : part) text_[length_++] = c;
    }

    std::array<char, names_length> text_{};
    std::size_t length_ = 0;
    std::array<FeatureColumn, feature_count> columns_{};
};

} // namespace

std::span<const FeatureColumn, feature_count> feature_schema() noexcept {
    static const Schema schema;
    return schema.columns();
}

std::size_t feature_column(std::string_view name) noexcept {
    const auto columns = feature_schema();
    std::size_t at = 0;
    while (at < feature_count && columns[at].name != name) ++at;
    return at;
}

} // namespace keysquare
