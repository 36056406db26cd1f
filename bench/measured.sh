#!/usr/bin/env bash
# Runs the benchmarks, the accuracy programs and what measures compile time and size, and writes what they gave to
# examples/handbook/measured.md. Nothing tests the figures. Takes some ten minutes on a machine that has nothing else to do.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

results=build/bench/results
mkdir -p "$results"
changed=$(git status --porcelain --untracked-files=no -- include src bench)
echo "$(git rev-parse --short HEAD)${changed:+ with changes}" >"$results/commit.txt" # what is measured below
bench/run.sh --benchmark_min_time=0.5
bench/size.sh | tee "$results/size.txt" || true # a missed bar is said in the table
build/venv/bin/python bench/measured.py build/bench examples/handbook/measured.md
