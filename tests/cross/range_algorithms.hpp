// The range algorithms of C++20 that libc++ lacks before version 15, for the compiler that Debian 12 has for WASM (its
// libc++ is 13). The headers of the library do without; src/ and the tests don't. tests/cross/wasm.cmake includes this
// file before every other one; with a newer libc++ it is empty, and with an older standard, which CMake tries things
// out in. Only what is called is here, each algorithm in terms of the older one of the same name.
#pragma once

#if __cplusplus >= 202002L
#include <version>
#endif

#if defined(_LIBCPP_VERSION) && _LIBCPP_VERSION < 15000

#include <algorithm>
#include <functional>
#include <iterator>
#include <ranges>
#include <utility>

namespace std::ranges { // NOLINT(cert-dcl58-cpp): it stands in for the part of the standard library that is missing

namespace keysquare_detail {
/// The predicate, asked of what the projection shows of an element.
template <class Predicate, class Projection> constexpr auto of_each(Predicate& predicate, Projection& projection) {
    return [&](auto&& element) -> bool { return std::invoke(predicate, std::invoke(projection, element)); };
}
/// The comparison of what the projection shows of two elements.
template <class Compare, class Projection> constexpr auto of_both(Compare& compare, Projection& projection) {
    return [&](auto&& a, auto&& b) -> bool {
        return std::invoke(compare, std::invoke(projection, a), std::invoke(projection, b));
    };
}
} // namespace keysquare_detail

// Algorithms that ask a predicate of every element.
#define KEYSQUARE_ASKING(algorithm)                                                                                    \
    template <range Range, class Predicate, class Projection = identity>                                               \
    constexpr auto algorithm(Range&& all, Predicate predicate, Projection projection = {}) {                           \
        return std::algorithm(ranges::begin(all), ranges::end(all), keysquare_detail::of_each(predicate, projection)); \
    }
KEYSQUARE_ASKING(all_of)
KEYSQUARE_ASKING(any_of)
KEYSQUARE_ASKING(find_if)
KEYSQUARE_ASKING(count_if)
#undef KEYSQUARE_ASKING

// Algorithms that compare the elements with each other.
#define KEYSQUARE_COMPARING(algorithm)                                                                                 \
    template <input_or_output_iterator Iterator, sentinel_for<Iterator> End, class Compare = less,                     \
              class Projection = identity>                                                                             \
    constexpr auto algorithm(Iterator first, End last, Compare compare = {}, Projection projection = {}) {             \
        return std::algorithm(first, last, keysquare_detail::of_both(compare, projection));                            \
    }                                                                                                                  \
    template <range Range, class Compare = less, class Projection = identity>                                          \
    constexpr auto algorithm(Range&& all, Compare compare = {}, Projection projection = {}) {                          \
        return ranges::algorithm(ranges::begin(all), ranges::end(all), std::move(compare), std::move(projection));     \
    }
KEYSQUARE_COMPARING(is_sorted)
KEYSQUARE_COMPARING(sort)
#undef KEYSQUARE_COMPARING

template <range Range, class Value, class Projection = identity>
constexpr auto find(Range&& all, const Value& value, Projection projection = {}) {
    return ranges::find_if(
        all, [&](const auto& shown) { return shown == value; }, std::move(projection));
}

template <range A, range B, class Equal = equal_to, class ProjectA = identity, class ProjectB = identity>
constexpr bool equal(A&& a, B&& b, Equal same = {}, ProjectA project_a = {}, ProjectB project_b = {}) {
    return std::equal(ranges::begin(a), ranges::end(a), ranges::begin(b), ranges::end(b),
                      [&](const auto& of_a, const auto& of_b) -> bool {
                          return std::invoke(same, std::invoke(project_a, of_a), std::invoke(project_b, of_b));
                      });
}

template <range A, range B, class Equal = equal_to> constexpr bool is_permutation(A&& a, B&& b, Equal same = {}) {
    return std::is_permutation(ranges::begin(a), ranges::end(a), ranges::begin(b), ranges::end(b), same);
}

template <range Range, class Old, class New> constexpr void replace(Range&& all, const Old& old, const New& fresh) {
    std::replace(ranges::begin(all), ranges::end(all), old, fresh);
}

template <range Range, class Random> void shuffle(Range&& all, Random&& random) {
    std::shuffle(ranges::begin(all), ranges::end(all), std::forward<Random>(random));
}

} // namespace std::ranges

#endif
