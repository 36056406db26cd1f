// Our lists against those of the standard library.
#include <boost/test/unit_test.hpp>

#include <random>
#include <vector>

#include <keysquare/board/steady_list.hpp>

namespace {

using keysquare::BoundedList;
using keysquare::SteadyList;

template <class List> std::vector<int> contents(const List& list) {
    std::vector<int> items;
    for (const int item : list) items.push_back(item);
    BOOST_REQUIRE(items.size() == list.size());
    for (std::size_t at = 0; at < items.size(); ++at) BOOST_REQUIRE(list[at] == items[at]);
    return items;
}

SteadyList<int, 4> up_to(int count) {
    SteadyList<int, 4> list;
    for (int item = 0; item < count; ++item) list.push_back(item);
    return list;
}

std::vector<int> counted(int count) {
    std::vector<int> items;
    for (int item = 0; item < count; ++item) items.push_back(item);
    return items;
}

} // namespace

BOOST_AUTO_TEST_SUITE(lists)

BOOST_AUTO_TEST_CASE(a_bounded_list_does_what_a_vector_does) {
    std::mt19937 random(26); // NOLINT: the same steps every time
    const auto below = [&](std::size_t end) { return static_cast<std::ptrdiff_t>(random() % end); };
    BoundedList<int, 16> list;
    std::vector<int> twin;
    for (int step = 0; step < 20000; ++step) {
        const std::ptrdiff_t place = below(twin.size() + 1);
        const std::ptrdiff_t end =
            place + below(static_cast<std::size_t>(static_cast<std::ptrdiff_t>(twin.size()) - place) + 1);
        switch (random() % 6) {
        case 0:
            if (twin.size() == list.capacity()) break;
            list.push_back(step);
            twin.push_back(step);
            break;
        case 1: {
            const int some[] = {step, -step, 7};
            if (twin.size() + 3 > list.capacity()) break;
            list.insert(list.begin() + place, some, some + 3);
            twin.insert(twin.begin() + place, some, some + 3);
            break;
        }
        case 2:
            list.erase(list.begin() + place, list.begin() + end);
            twin.erase(twin.begin() + place, twin.begin() + end);
            break;
        case 3:
            if (twin.empty()) break;
            list.pop_back();
            twin.pop_back();
            break;
        case 4:
            if (random() % 8 != 0) break;
            list.assign(static_cast<std::size_t>(place), step);
            twin.assign(static_cast<std::size_t>(place), step);
            break;
        default:
            if (random() % 16 == 0) {
                list.clear();
                twin.clear();
            }
        }
        BOOST_REQUIRE(contents(list) == twin);
        const BoundedList<int, 16> copy = list;
        BOOST_REQUIRE(copy == list);
    }
}

BOOST_AUTO_TEST_CASE(a_steady_list_keeps_everything_where_it_is) {
    SteadyList<int, 4> list;
    std::vector<const int*> places;
    for (int item = 0; item < 23; ++item) {
        list.push_back(item);
        places.push_back(&list[static_cast<std::size_t>(item)]);
    }
    for (std::size_t at = 0; at < places.size(); ++at) BOOST_TEST((&list[at] == places[at]));
    BOOST_TEST(contents(list) == counted(23));
}

BOOST_AUTO_TEST_CASE(steady_lists_move) {
    for (const int here : {0, 3, 4, 6, 13})
        for (const int there : {0, 1, 4, 9}) {
            SteadyList<int, 4> target = up_to(here);
            SteadyList<int, 4> source = up_to(there);
            target = std::move(source);
            BOOST_TEST(contents(target) == counted(there));
            contents(source); // NOLINT: what is left may be anything, but whole
            const SteadyList<int, 4> moved = std::move(target);
            BOOST_TEST(contents(moved) == counted(there));
            BOOST_TEST(contents(target).empty()); // NOLINT
        }
}

BOOST_AUTO_TEST_SUITE_END()
