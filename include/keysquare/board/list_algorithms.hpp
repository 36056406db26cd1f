// Questions about whole lists, as plain loops: the constrained algorithms of the standard library, and sorting by it, cost
// whoever includes us ten to a hundred times as much compile time for every new kind of element.
#pragma once

#include <cstddef>
#include <utility>

namespace keysquare::detail {

template <class List, class Holds> [[nodiscard]] constexpr bool any_of(const List& list, Holds holds) {
    for (const auto& item : list)
        if (holds(item)) return true;
    return false;
}

template <class List, class Holds> [[nodiscard]] constexpr bool all_of(const List& list, Holds holds) {
    for (const auto& item : list)
        if (!holds(item)) return false;
    return true;
}

template <class List, class Holds> [[nodiscard]] constexpr int count_if(const List& list, Holds holds) {
    int count = 0;
    for (const auto& item : list)
        if (holds(item)) ++count;
    return count;
}

template <class List, class Value> [[nodiscard]] constexpr bool contains(const List& list, const Value& value) {
    for (const auto& item : list)
        if (item == value) return true;
    return false;
}

/// The place of the first element for which that holds, the size when there is none.
template <class List, class Holds> [[nodiscard]] constexpr std::size_t place_of(const List& list, Holds holds) {
    std::size_t at = 0;
    for (const auto& item : list) {
        if (holds(item)) break;
        ++at;
    }
    return at;
}

/// Sorts a short list (takes the square of its length); equals keep their order.
template <class Place, class Before> constexpr void sort_few(Place first, Place last, Before before) {
    for (Place next = first; next != last; ++next) {
        auto moved = std::move(*next);
        Place to = next;
        for (; to != first && before(moved, to[-1]); --to) *to = std::move(to[-1]);
        *to = std::move(moved);
    }
}
template <class List, class Before> constexpr void sort_few(List& list, Before before) {
    sort_few(list.begin(), list.end(), before);
}

/// Whether a table has a row for one fact after the other, in their order.
template <class Rows> [[nodiscard]] constexpr bool is_in_order_of_facts(const Rows& rows) {
    for (std::size_t at = 1; at < rows.size(); ++at)
        if (rows[at].fact < rows[at - 1].fact) return false;
    return true;
}

} // namespace keysquare::detail
