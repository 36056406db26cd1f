#!/usr/bin/env bash
# Installs what is missing, builds and runs every test, C++ and Python, and ends with one line that counts them. Each
# check that is no test case of its own (format, types, ...) counts as one test. Status 1 when anything failed.
steps=16
source "$(dirname "${BASH_SOURCE[0]}")/../examples/setup.sh"
source bench/build.sh

again=false
case ${1:-} in
"") ;;
--again) again=true ;;
*) die "usage: tests/run.sh [--again]    --again: repeat also what passed on the same files before" ;;
esac

passed=0 failed=0 skipped=0

# check NAME INPUT... -- COMMAND...: runs the command and counts its test cases, if it writes the report
# build/logs/NAME.xml or ends with a line that counts them, or else itself as one. What passed is not repeated until an
# input changes; without inputs it is.
check() {
    local name=$1 inputs=() now='' status=0 counts stamp=$venv/stamps/check_$1
    shift
    while [ "$1" != -- ]; do inputs+=("$1") && shift; done
    shift
    [ ${#inputs[@]} -eq 0 ] || now=$(digest "${inputs[@]}")
    if ! $again && [ -n "$now" ] && [ "$now" = "$(cat "$stamp" 2>/dev/null)" ]; then
        counts=$(cat "$stamp.counts")
        note "$name ($counts), unchanged since"
    else
        rm -f "$stamp" "$logs/$name.xml"
        logged "$name" "$@" || status=1
        if [ -e "$logs/$name.xml" ]; then
            counts=$(python tests/tally.py "$logs/$name.xml" $status)
        elif ! counts=$(tail -n 1 "$logs/$name.log" | grep -xE '[0-9]+ passed, [0-9]+ failed, [0-9]+ skipped'); then
            counts="$((1 - status)) passed, $status failed, 0 skipped"
        fi
        note "$name ($counts)"
        if [ "$status" -eq 0 ]; then
            echo "$counts" >"$stamp.counts"
            echo "$now" >"$stamp"
        fi
    fi
    local p f s
    read -r p _ f _ s _ <<<"$counts"
    [ "$status" -eq 0 ] || [ "$f" -gt 0 ] || f=1
    passed=$((passed + p)) failed=$((failed + f)) skipped=$((skipped + s))
}

finish() {
    printf '%d passed, %d failed, %d skipped\n' $passed $failed $skipped
    [ $failed -eq 0 ] && [ $passed -gt 0 ]
    exit
}

step "Looking for compilers, CMake, Boost, Google Benchmark, valgrind, Doxygen, Python and Chromium"
browser() { command -v chromium || command -v chromium-browser || command -v google-chrome; }
need chromium browser
need pkgconf pkg-config --version
need doxygen doxygen --version
need_bench
prepare_machine

step "Preparing the Python environment build/venv"
prepare_python tests/requirements.txt
use_open_data
open_data=()
[ ! -d "${KEYSQUARE_OPEN_DATA:-}" ] || open_data=("$KEYSQUARE_OPEN_DATA")

step "Building the library, the C++ tests and the examples"
if ! logged configure cmake -G Ninja -S . -B "$build/release" -DCMAKE_BUILD_TYPE=Release ||
    ! logged build cmake --build "$build/release" --parallel "$jobs"; then
    note "The C++ build failed, so no test was run. If this folder was moved, delete build/ and run this again."
    failed=1
    finish
fi

step "C++ tests"
check cpp "$build/release/tests/keysquare_tests" tests/fuzz bindings/schema examples/data "${open_data[@]}" -- \
    "$build/release/tests/keysquare_tests" --color_output=no --logger=HRF,message:JUNIT,message,"$logs/cpp.xml"

step "Every header compiled alone, projects that use the library, accuracy on open data"
check consumers CMakeLists.txt include src bench tests/CMakeLists.txt tests/consumers tests/without_exceptions.cpp \
    tests/both_exceptions bindings/schema examples/data/club.pgn "${open_data[@]}" -- \
    ctest --test-dir "$build/release" --exclude-regex '^cpp$' --output-on-failure --output-junit "$logs/consumers.xml"

step "With sanitizers: tests of foreign input and of threads"
check sanitize CMakeLists.txt include src tests/CMakeLists.txt tests/cpp tests/fuzz tests/sanitize.sh examples/data -- \
    tests/sanitize.sh

step "Fuzzing, ten seconds a target"
check fuzz CMakeLists.txt include src tests/CMakeLists.txt tests/fuzz tests/fuzz.sh -- tests/fuzz.sh

step "AArch64 and WASM: tests of what differs between platforms, and the same results"
check cross CMakeLists.txt include src tests/CMakeLists.txt tests/cpp tests/cross tests/cross.sh \
    tests/same_results.cpp bench/positions.epd examples/setup.sh examples/data -- tests/cross.sh

step "Format of the C and C++ files"
check_format() {
    local file status=0
    while IFS= read -r file; do
        if ! clang-format "$file" | cmp -s "$file" -; then
            echo "not formatted; run: build/venv/bin/clang-format -i $file"
            status=1
        fi
    done < <(find include src tests bench examples bindings -name '*.[hc]' -o -name '*.hpp' -o -name '*.cpp' | sort)
    return $status
}
check format .clang-format include src tests bench examples bindings -- check_format

step "clang-tidy on the library"
# Pinned to the version that the settings are written for; another one finds other things.
check_tidy() {
    { find src -name '*.cpp' -print0 && printf '%s\0' "$build/release/tests/headers/keysquare_keysquare_hpp.cpp"; } |
        xargs -0 -n 1 -P "$jobs" clang-tidy --quiet -p "$build/release"
}
if clang-tidy --version 2>/dev/null | grep -q 'version 14\.'; then
    check tidy .clang-tidy include src -- check_tidy
else
    note "skipped: needs clang-tidy 14 (Debian 12: apt-get install clang-tidy)"
    skipped=$((skipped + 1))
fi

step "Instructions that every operation takes"
comparable=0
bench/track.sh --comparable || comparable=$?
if [ $comparable -ne 3 ]; then
    check instructions CMakeLists.txt include src bench examples/data -- bench/track.sh
else
    note "skipped: what is kept in bench/instructions.tsv holds for another compiler"
    skipped=$((skipped + 1))
fi

step "Python package: build, then type stubs against the built module"
check package_build -- install_package
if ! python -c 'import keysquare' 2>/dev/null; then
    note "The Python package was not built, so no Python test was run."
    finish
fi
check stubs "${package_sources[@]}" tests/stubtest_allowlist.txt -- \
    python -m mypy.stubtest keysquare --allowlist tests/stubtest_allowlist.txt
check types "${package_sources[@]}" -- python -m mypy --strict --package keysquare

step "References: every public name is described"
check reference include "${package_sources[@]}" bindings/javascript examples/handbook README.md DEVELOPERS.md -- \
    examples/handbook/reference/make_reference.sh

step "Python tests"
check python "${package_sources[@]}" include bindings tests examples bench README.md DEVELOPERS.md "${open_data[@]}" -- \
    python -m pytest tests/python --numprocesses "$jobs" --junit-xml "$logs/python.xml"

step "The JavaScript package, in node and in Chromium"
check javascript CMakeLists.txt include src bindings/javascript bindings/schema tests/javascript.sh tests/cross/wasm.cmake \
    tests/cross/range_algorithms.hpp bench/positions.epd bench/game_positions.fen bench/tactical_positions.fen \
    examples/data/club.pgn -- tests/javascript.sh

step "pip install ./bindings/python in a clean virtual environment"
# The one step that needs the network whenever a source changed: pip fetches the build tools by itself there.
clean_install() {
    rm -rf "$build/clean_venv"
    "$(find_python)" -m venv "$build/clean_venv" &&
        "$build/clean_venv/bin/python" -m pip install ./bindings/python &&
        "$build/clean_venv/bin/python" -I -c 'import keysquare; assert keysquare.perft(keysquare.Position(), 3) == 8902'
}
check clean_install "${package_sources[@]}" -- clean_install

finish
