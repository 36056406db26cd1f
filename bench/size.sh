#!/usr/bin/env bash
# Measures what the library costs those who build with it: how much longer a translation unit compiles that includes
# keysquare.hpp and nothing else than one that includes just the standard headers which that needs, and how long with
# keysquare.hpp as a precompiled header; and the size of the C++ examples, stripped. Status 1 when a bar is missed. Nothing
# tests it, as it is timed.
#
# Seconds are those of the processor (a compiler uses one core), so that other work on the machine matters little; the
# median of several runs, in turns. Optimised (-O2) and not (-O0); g++ and, where it is there, clang++.
steps=3
source "$(dirname "${BASH_SOURCE[0]}")/../examples/setup.sh"

runs=5
most_seconds=1.5
most_bytes=1000000
work=$build/bench/size
mkdir -p "$work"

step "Looking for compilers"
need libboost-dev preprocesses boost/version.hpp boost/test/included/unit_test.hpp # for the tests in build/release
prepare_machine
compilers=(g++)
for candidate in clang++ clang++-{19,18,17,16,15,14}; do
    if command -v "$candidate" >/dev/null; then
        compilers+=("$candidate")
        break
    fi
done
note "${compilers[*]}"

# The standard headers that ours name.
standard_headers() {
    "${compilers[0]}" -std=c++20 -Iinclude -MM "$work/keysquare.cpp" | tr -s ' \\' '\n' | grep '^include/' |
        xargs sed -n 's/^#include <\([a-z_0-9]*\)>.*/#include <\1>/p' | sort -u
}

# seconds COMMAND...: the processor time that it takes.
seconds() {
    local TIMEFORMAT='%U %S'
    { time "$@" 2>&3; } 3>&2 2>&1 | awk '{ print $1 + $2 }'
}

compile() { CCACHE_DISABLE=1 "$1" -std=c++20 "$2" -Iinclude "${@:4}" -c "$work/$3.cpp" -o "$work/$3.o"; }

# Both compilers find it as the file that is included with .gch after its name.
precompile() {
    mkdir -p "$work/$1$2"
    CCACHE_DISABLE=1 "$1" -std=c++20 "$2" -Iinclude -x c++-header "$work/keysquare.cpp" \
        -o "$work/$1$2/keysquare.hpp.gch"
}

measure_compile_time() {
    local compiler level unit
    for compiler in "${compilers[@]}"; do
        for level in -O0 -O2; do
            precompile "$compiler" "$level"
        done
    done
    for _ in $(seq "$runs"); do
        for compiler in "${compilers[@]}"; do
            for level in -O0 -O2; do
                for unit in standard keysquare; do
                    printf '%s %s\t%s\t' "$compiler" "$level" "$unit"
                    seconds compile "$compiler" "$level" "$unit"
                done
                printf '%s %s\tprecompiled\t' "$compiler" "$level"
                seconds compile "$compiler" "$level" empty -include "$work/$compiler$level/keysquare.hpp"
            done
        done
    done
}

# Reads what measure_compile_time writes, sorted by settings and seconds.
compile_time_table() {
    awk -F '\t' -v most="$most_seconds" '
        { times[$1, $2, ++count[$1, $2]] = $3 }
        !seen[$1]++ { order[++settings] = $1 }
        function median(setting, unit) { return times[setting, unit, int((count[setting, unit] + 1) / 2)] }
        END {
            printf "%-16s%20s%20s%12s%12s%16s\n", "compile, seconds",
                "standard headers", "keysquare.hpp", "added", "at most", "precompiled"
            for (at = 1; at <= settings; ++at) {
                setting = order[at]
                added = median(setting, "keysquare") - median(setting, "standard")
                printf "%-16s%20.2f%20.2f%12.2f%12.2f%16.2f%s\n", setting, median(setting, "standard"),
                    median(setting, "keysquare"), added, most, median(setting, "precompiled"),
                    (added > most ? "   MISSED" : "")
                if (added > most) missed = 1
            }
            exit missed
        }'
}

size_table() {
    local example bytes missed=0
    printf '%-16s%20s%12s\n' "stripped" "bytes" "at most"
    for example in examples/*.cpp; do
        example=$(basename "$example" .cpp)
        strip -o "$work/$example" "$build/release/examples/$example"
        bytes=$(stat -c %s "$work/$example")
        printf '%-16s%20s%12s' "$example" "$bytes" "$most_bytes"
        [ "$bytes" -le "$most_bytes" ] || { printf '   MISSED' && missed=1; }
        echo
    done
    return $missed
}

step "Compiling ($runs runs)"
echo '#include <keysquare/keysquare.hpp>' >"$work/keysquare.cpp"
standard_headers >"$work/standard.cpp"
: >"$work/empty.cpp"
logged size-compile measure_compile_time || die "It does not compile: see the lines above."

step "Building the examples"
logged size-configure cmake -G Ninja -S . -B "$build/release" -DCMAKE_BUILD_TYPE=Release &&
    logged size-build cmake --build "$build/release" --target examples/all --parallel "$jobs" ||
    die "The examples were not built: the lines above say why."

status=0
echo
sort -t "$(printf '\t')" -k 1,1 -k 3,3n "$logs/size-compile.log" | compile_time_table || status=1
echo
size_table || status=1
exit $status
