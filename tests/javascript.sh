#!/usr/bin/env bash
# Builds the JavaScript package with WASM and tests it in node and in headless Chromium, and against what the machine's own
# build says, byte for byte. Ends with one line that counts.
steps=5
source "$(dirname "${BASH_SOURCE[0]}")/../examples/setup.sh"

measure=false
case ${1:-} in
"") ;;
--measure) measure=true ;;
*) die "usage: tests/javascript.sh [--measure]    --measure: say, too, how fast it is" ;;
esac

passed=0 failed=0 skipped=0
count() { # NAME STATUS "N passed, N failed, N skipped"
    local p f s
    read -r p _ f _ s _ <<<"$3"
    [ "$2" -eq 0 ] || [ "$f" -gt 0 ] || f=1
    passed=$((passed + p)) failed=$((failed + f)) skipped=$((skipped + s))
    note "$1: $3"
}
finish() {
    printf '%d passed, %d failed, %d skipped\n' $passed $failed $skipped
    [ $failed -eq 0 ] && [ $passed -gt 0 ]
    exit
}

step "Looking for Emscripten, node and Chromium"
browser() { command -v chromium || command -v chromium-browser || command -v google-chrome; }
node_runs_tests() { node -e 'require("node:test")'; }
need emscripten em++ --version
need nodejs node_runs_tests
need chromium browser
prepare_machine

step "Preparing the Python environment build/venv, which drives the browser"
prepare_python tests/requirements.txt

step "The package, and results of the machine's own build"
export KEYSQUARE_PACKAGE=$build/wasm/keysquare KEYSQUARE_RESULTS=$build/wasm/results
if ! logged javascript-build bindings/javascript/build.sh "$jobs"; then
    note "The package was not built, so it was not tested."
    failed=1
    finish
fi
note "$(tail -n 1 "$logs/javascript-build.log")"

own_results() {
    cmake -G Ninja -S . -B "$build/release" -DCMAKE_BUILD_TYPE=Release &&
        cmake --build "$build/release" --parallel "$jobs" --target keysquare || return
    mkdir -p "$KEYSQUARE_RESULTS"
    "${CC:-cc}" -std=c11 -Wall -Wextra -Wpedantic -Werror -Iinclude -c bindings/javascript/test_results.c \
        -o "$KEYSQUARE_RESULTS/test_results.o" || return
    "${CXX:-c++}" "$KEYSQUARE_RESULTS/test_results.o" "$build/release/libkeysquare.a" -lz -lbz2 -lzstd -pthread \
        -o "$KEYSQUARE_RESULTS/test_results" || return
    cat bench/positions.epd bench/game_positions.fen bench/tactical_positions.fen >"$KEYSQUARE_RESULTS/positions.txt"
    cp examples/data/club.pgn "$KEYSQUARE_RESULTS/games.pgn"
    "$KEYSQUARE_RESULTS"/{test_results,positions.txt,games.pgn} >"$KEYSQUARE_RESULTS/results.txt"
}
logged javascript-own-results own_results || die "There is nothing to compare with: see above."

step "In node"
status=0
logged javascript-node node --expose-gc --test --test-reporter=tap bindings/javascript/test_node.mjs || status=1
of_tap() { sed -n "s/^# $1 \([0-9]*\)$/\1/p" "$logs/javascript-node.log" | tail -n 1; }
count node $status "$(of_tap pass) passed, $(($(of_tap fail) + $(of_tap cancelled))) failed, $(of_tap skipped) skipped"

step "In Chromium"
status=0
rm -f "$logs/javascript-browser.xml"
logged javascript-browser python -m pytest bindings/javascript/test_browser.py \
    --junit-xml "$logs/javascript-browser.xml" || status=1
count Chromium $status "$(python tests/tally.py "$logs/javascript-browser.xml" $status)"

if $measure; then
    logged javascript-measure node bindings/javascript/measure.mjs || failed=$((failed + 1))
    note "$(sed -n 1p "$logs/javascript-measure.log")"
    note "$(sed -n 2p "$logs/javascript-measure.log")"
fi
finish
