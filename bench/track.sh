#!/usr/bin/env bash
# Counts the instructions of every operation of the benchmarks under callgrind and compares them with the numbers that
# are kept in bench/instructions.tsv: on a busy machine times say little, but instructions stay the same (to 0.2 % where
# threads wait for each other, to the last one elsewhere). Status 1 when an operation takes over 5 % more than what is
# kept, or when the operations are not those that are kept.
#
# usage: bench/track.sh [--update | --comparable]
#   --update      keeps the numbers of this run, on purpose
#   --comparable  only says by its status whether this machine can be compared (0) or not (3): the numbers hold for one
#                 compiler
steps=3
source "$(dirname "${BASH_SOURCE[0]}")/../examples/setup.sh"
source bench/build.sh

kept=bench/instructions.tsv
now=$measured/instructions.tsv
head="# instructions on $(uname -m), compiler $("${CXX:-c++}" --version | sed 's/^[^ ]* //;q')"
grep -q '^# instructions on ' "$kept" 2>/dev/null || [ "${1:-}" = --update ] ||
    die "$kept is not there or damaged. To make it: bench/track.sh --update"
comparable() { [ "$(head -n 1 "$kept" 2>/dev/null)" = "$head" ]; }

update=false
case ${1:-} in
"") ;;
--update) update=true ;;
--comparable) comparable && exit || exit 3 ;;
*) die "usage: bench/track.sh [--update | --comparable]" ;;
esac

step "Looking for a compiler, CMake, Google Benchmark and valgrind"
need_bench
prepare_machine

step "Building the benchmarks"
build_benches

# count_program PROGRAM FOLDER: a line for each of its operations: name, item, instructions an item. What callgrind
# dumped is named by the operation; the program says how many items there were.
count_program() {
    local folder
    folder=$2/$(basename "$1")
    mkdir -p "$folder"
    # A fixed environment and the plainest memcpy, so that the machine makes as little difference as can be.
    env -i PATH="$PATH" TMPDIR="${TMPDIR:-/tmp}" GLIBC_TUNABLES=glibc.cpu.hwcaps=-AVX2,-AVX512F,-ERMS,-FSRM \
        valgrind -q --tool=callgrind --instr-atstart=no --callgrind-out-file="$folder/dump" "$1" --count \
        >"$folder/items" || return 1
    [ -s "$folder/items" ] || return 0
    awk -F '\t' '
        sub(/^desc: Trigger: Client Request: /, "") { name = $0 }
        sub(/^totals: /, "") { instructions[name] = $0 }
        NF == 3 && !(instructions[$1] > 0 && $3 > 0) { print "nothing was counted for " $1 | "cat >&2"; exit 1 }
        NF == 3 { printf "%s\t%s\t%.1f\n", $1, $2, instructions[$1] / $3 }
    ' "$folder"/dump.* "$folder/items" >"$folder/counts"
}
export -f count_program

count_all() {
    rm -rf "$measured/callgrind"
    bench_programs |
        xargs -I '{}' -P "$jobs" bash -c 'count_program "$@"' bash '{}' "$measured/callgrind" &&
        { echo "$head" && echo $'operation\titem\tinstructions' && cat "$measured"/callgrind/*/counts; } >"$now"
}

step "Counting instructions (results in build/bench/instructions.tsv)"
logged count count_all || die "Counting failed: the lines above say why."

if $update; then
    cp "$now" "$kept"
    note "$kept holds the numbers of this run now"
    exit
fi
if ! comparable; then
    note "not compared: $kept says \"$(head -n 1 "$kept" 2>/dev/null)\""
    note "here these are $head"
    exit
fi
echo
awk -F '\t' -f bench/compare_counts.awk "$kept" "$now"
