// What some tests need and some platforms lack: without it a test is reported as skipped.
#pragma once

#include <boost/test/unit_test.hpp>

namespace keysquare::test {

/// Decorator of a test case or suite. `is_there`: whether the platform has what it needs.
inline boost::unit_test::precondition needs(bool is_there, const char* what) {
    return boost::unit_test::precondition{[is_there, what](boost::unit_test::test_unit_id) {
        boost::test_tools::assertion_result result{is_there};
        result.message() << "this build has no " << what;
        return result;
    }};
}

/// The libraries of all compressed formats; only a build for another platform goes without them.
inline boost::unit_test::precondition needs_compression() {
#ifdef KEYSQUARE_TESTS_WITHOUT_COMPRESSION
    constexpr bool is_there = false;
#else
    constexpr bool is_there = true;
#endif
    return needs(is_there, "libraries for compressed files");
}

inline boost::unit_test::precondition needs_threads() {
#if defined(__EMSCRIPTEN__) && !defined(__EMSCRIPTEN_PTHREADS__)
    constexpr bool is_there = false;
#else
    constexpr bool is_there = true;
#endif
    return needs(is_there, "threads");
}

} // namespace keysquare::test
