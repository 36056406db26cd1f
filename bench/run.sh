#!/usr/bin/env bash
# Builds and runs the benchmarks and prints their rates beside those of the Python rules library for the same work.
# Arguments go to every benchmark program, e.g. --benchmark_filter=perft
steps=4
source "$(dirname "${BASH_SOURCE[0]}")/../examples/setup.sh"

step "Looking for a compiler, CMake, Google Benchmark and Python"
need libbenchmark-dev preprocesses benchmark/benchmark.h
prepare_machine

step "Preparing the Python environment build/venv"
prepare_python tests/requirements.txt
use_open_data

step "Building the benchmarks"
bench=$build/bench
logged bench-configure cmake -G Ninja -S . -B "$bench" -DCMAKE_BUILD_TYPE=Release -DKEYSQUARE_BENCH=ON \
    -DKEYSQUARE_TESTS=OFF -DKEYSQUARE_EXAMPLES=OFF &&
    logged bench-build cmake --build "$bench" --parallel "$jobs" ||
    die "The benchmarks were not built: the lines above say why."

step "Running the benchmarks (results in build/bench/results)"
mkdir -p "$bench/results"
results=()
for program in "$bench"/bench/*_bench; do
    name=$(basename "$program")
    note "$name"
    logged "$name" "$program" "$@" --benchmark_out="$bench/results/$name.json" --benchmark_out_format=json ||
        die "$name failed: the lines above say why."
    results+=("$bench/results/$name.json")
done
echo
python bench/reference.py "${results[@]}"

echo
note "Accuracy on open data (also in build/bench/results/accuracy.json)"
"$bench/bench/accuracy" --json "$bench/results/accuracy.json" || note "A bar is missed, or the data: see above."
