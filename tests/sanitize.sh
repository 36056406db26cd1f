#!/usr/bin/env bash
# Builds the library and the C++ tests with checks at run time and runs them: by clang as C++23 with AddressSanitizer and
# UndefinedBehaviorSanitizer, and by g++ as C++20 with ThreadSanitizer; both with the assertions of the standard library.
# Without --all only the tests of what takes foreign input, and of what uses threads. Ends with one line that counts.
steps=3
source "$(dirname "${BASH_SOURCE[0]}")/../examples/setup.sh"

foreign='cpp/(notation|fuzz_corpus)' threads='cpp/(research|threads)'
if [ "${1:-}" = --all ]; then
    foreign=. threads=.
    shift
fi
chosen=("$@")
for name in "$@"; do
    case $name in
    address | thread) ;;
    *) die "usage: tests/sanitize.sh [--all] [address] [thread]    --all: every file of tests; both when none is named" ;;
    esac
done
[ $# -gt 0 ] || chosen=(address thread)

passed=0 failed=0 skipped=0

# sanitized NAME COMPILER STANDARD SANITIZERS FILES CMAKE_ARGUMENT...
sanitized() {
    step "$4, $2, C++$3"
    if [[ " ${chosen[*]} " != *" $1 "* ]]; then
        note "not asked for"
        return
    fi
    local folder=$build/sanitize/$1 status=0 counts p f s
    # -O1: quick enough to run, and what went wrong can still be read
    if ! logged "sanitize-$1-configure" cmake -G Ninja -S . -B "$folder" -DCMAKE_CXX_COMPILER="$2" \
        -DCMAKE_CXX_STANDARD="$3" -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_FLAGS_RELEASE=-O1 -DKEYSQUARE_SANITIZE="$4" \
        -DKEYSQUARE_EXAMPLES=OFF -DKEYSQUARE_TEST_FILES="$5" "${@:6}" ||
        ! logged "sanitize-$1-build" cmake --build "$folder" --parallel "$jobs" --target keysquare_tests; then
        note "the build failed"
        failed=$((failed + 1))
        return
    fi
    rm -f "$logs/sanitize-$1.xml"
    logged "sanitize-$1-tests" "$folder/tests/keysquare_tests" --color_output=no \
        --logger=HRF,message:JUNIT,message,"$logs/sanitize-$1.xml" || status=1
    counts=$(python3 tests/tally.py "$logs/sanitize-$1.xml" $status)
    note "$counts"
    read -r p _ f _ s _ <<<"$counts"
    passed=$((passed + p)) failed=$((failed + f)) skipped=$((skipped + s))
}

step "Looking for both compilers"
need clang clang++ --version
need libboost-dev preprocesses boost/version.hpp boost/test/included/unit_test.hpp
prepare_machine

sanitized address clang++ 23 address,undefined "$foreign" -DKEYSQUARE_FUZZ=ON # tests/fuzz.sh goes on in this folder
sanitized thread g++ 20 thread "$threads"

printf '%d passed, %d failed, %d skipped\n' $passed $failed $skipped
[ $failed -eq 0 ] && [ $passed -gt 0 ]
