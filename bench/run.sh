#!/usr/bin/env bash
# Builds and runs the benchmarks and prints their rates beside those of the Python rules library for the same work.
# Arguments go to every benchmark program, e.g. --benchmark_filter=perft
steps=4
source "$(dirname "${BASH_SOURCE[0]}")/../examples/setup.sh"
source bench/build.sh

step "Looking for a compiler, CMake, Google Benchmark, valgrind and Python"
need_bench
prepare_machine

step "Preparing the Python environment build/venv"
prepare_python tests/requirements.txt
use_open_data

step "Building the benchmarks"
build_benches

step "Running the benchmarks (results in build/bench/results)"
mkdir -p "$measured/results"
files=()
while IFS= read -r program; do
    name=$(basename "$program")
    note "$name"
    logged "$name" "$program" "$@" --benchmark_out="$measured/results/$name.json" --benchmark_out_format=json ||
        die "$name failed: the lines above say why."
    files+=("$measured/results/$name.json")
done < <(bench_programs)
echo
python bench/reference.py --json "$measured/reference.json" "${files[@]}"

echo
note "Accuracy on open data (also in build/bench/results/accuracy.json)"
"$programs/accuracy" --json "$measured/results/accuracy.json" || note "A bar is missed, or the data: see above."
