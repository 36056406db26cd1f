#!/usr/bin/env bash
# Builds for AArch64 and for WASM, runs the C++ tests there (under qemu-user and in node), and holds what the library
# computes there to what it computes here, byte for byte. Ends with one line that counts.
#
# WASM is made by Emscripten. Of the two ways that Debian 12 has only it has exceptions, which src/ and the tests need:
# the libc++ for WASI (14 to 19) is built without them. Its own libc++ is 13; the headers need no more, src/ and the
# tests do, and get it from tests/cross/range_algorithms.hpp. A WASM program has no threads here, so the tests of scans
# are skipped.
steps=5
source "$(dirname "${BASH_SOURCE[0]}")/../examples/setup.sh"

# What differs between platforms most: bits, numbers, characters, sizes, files. The rest is compared by its results.
files='cpp/(board|notation|research)/'
case ${1:-} in
"") ;;
--all) files=. ;;
*) die "usage: tests/cross.sh [--all]    --all: every file of tests, not only those of $files" ;;
esac

passed=0 failed=0 skipped=0
count() { # "N passed, N failed, N skipped"
    local p f s
    read -r p _ f _ s _ <<<"$1"
    passed=$((passed + p)) failed=$((failed + f)) skipped=$((skipped + s))
}

# build_for NAME FOLDER TARGETS CMAKE_ARGUMENT...
build_for() {
    logged "cross-$1-configure" cmake -G Ninja -S . -B "$2" -DCMAKE_BUILD_TYPE=Release "${@:4}" &&
        logged "cross-$1-build" cmake --build "$2" --parallel "$jobs" --target $3
}

# results_of FILE PROGRAM...: all that same_results prints, of each game with notes of the club and of some others.
results_of() {
    local file=$1
    shift
    "$@" bench/positions.epd 1 5 examples/data/club.pgn >"$file" &&
        "$@" bench/positions.epd 20 7 examples/data/season.pgn >>"$file"
}

# target NAME PROGRAM_SUFFIX RUNNER... -- CMAKE_ARGUMENT...: builds for a platform, or in another way for this one (no
# runner, and say -DCMAKE_CXX_FLAGS=-DNAME), runs the tests there and compares the results.
target() {
    local name=$1 suffix=$2 runner=() status=0 folder=$build/cross/$1
    shift 2
    while [ "$1" != -- ]; do runner+=("$1") && shift; done
    shift
    if ! build_for "$name" "$folder" "keysquare_tests same_results" -DKEYSQUARE_TEST_FILES="$files" "$@"; then
        note "$name: the build failed"
        failed=$((failed + 1))
        return
    fi
    rm -f "$logs/cross-$name.xml"
    logged "cross-$name-tests" "${runner[@]}" "$folder/tests/keysquare_tests$suffix" --color_output=no \
        --logger=HRF,message:JUNIT,message,"$logs/cross-$name.xml" || status=1
    local counts
    counts=$(python3 tests/tally.py "$logs/cross-$name.xml" $status)
    count "$counts"
    note "$name: $counts"

    local program=("${runner[@]}" "$folder/tests/same_results$suffix")
    if logged "cross-$name-results" results_of "$folder/results.txt" "${program[@]}" &&
        logged "cross-$name-compare" diff "$build/cross/results.txt" "$folder/results.txt"; then
        passed=$((passed + 1))
        note "$name: the same results, in $(wc -l <"$folder/results.txt") lines"
    else
        failed=$((failed + 1))
        note "$name: other results"
    fi
}

step "Looking for the compilers for AArch64 and WASM, qemu-user and node"
need g++-aarch64-linux-gnu aarch64-linux-gnu-g++ --version
need qemu-user qemu-aarch64 --version
need emscripten em++ --version
need libboost-dev preprocesses boost/version.hpp boost/test/included/unit_test.hpp # of the tests
prepare_machine

# The headers of Boost alone, which the tests need, without those of this machine beside them.
mkdir -p "$build/cross/include"
ln -sfn "$(preprocesses boost/version.hpp | sed -n 's|.*"\(.*/boost\)/version.hpp".*|\1|p' | head -n 1)" \
    "$build/cross/include/boost"
boost=-DBoost_INCLUDE_DIR=$build/cross/include

step "Results on this machine"
build_for native "$build/release" same_results &&
    logged cross-native-results results_of "$build/cross/results.txt" "$build/release/tests/same_results" ||
    die "There is nothing to compare with: see above."

step "AArch64"
# -O2 at least: with less, GCC does not yet fuse products and sums. C++23, which g++ is nowhere else asked for.
target aarch64 "" qemu-aarch64 -L /usr/aarch64-linux-gnu -- --toolchain tests/cross/aarch64.cmake "$boost" \
    -DCMAKE_CXX_FLAGS_RELEASE=-O2 -DCMAKE_CXX_STANDARD=23

step "The headers alone for WASM"
headers_alone() {
    printf '#include <keysquare/keysquare.hpp>\n' |
        em++ -std=c++20 -Wall -Wextra -Wconversion -Wsign-conversion -Werror -Iinclude -fsyntax-only -x c++ -
}
if logged cross-headers headers_alone; then passed=$((passed + 1)); else failed=$((failed + 1)); fi

step "WASM"
# -O1 at most: with more, linking needs a JavaScript package that not every node finds.
target wasm .js node -- --toolchain tests/cross/wasm.cmake "$boost" -DCMAKE_CXX_FLAGS_RELEASE=-O1

printf '%d passed, %d failed, %d skipped\n' $passed $failed $skipped
[ $failed -eq 0 ] && [ $passed -gt 0 ]
