# Sourced after examples/setup.sh by run.sh, track.sh and tests/run.sh: builds the benchmarks. They share
# build/release with the tests, so that the library is compiled once.

programs=$build/release/bench
measured=$build/bench
mkdir -p "$measured"

# The programs, one a layer, by their paths; those of sources that are gone may still lie there.
bench_programs() {
    local source
    for source in bench/*_bench.cpp; do printf '%s\n' "$programs/$(basename "$source" .cpp)"; done
}

need_bench() {
    need libboost-dev preprocesses boost/version.hpp boost/test/included/unit_test.hpp # for the tests in that tree
    need libbenchmark-dev preprocesses benchmark/benchmark.h
    need valgrind preprocesses valgrind/callgrind.h
}

build_benches() {
    logged bench-configure cmake -G Ninja -S . -B "$build/release" -DCMAKE_BUILD_TYPE=Release -DKEYSQUARE_BENCH=ON &&
        logged bench-build cmake --build "$build/release" --target benches --parallel "$jobs" ||
        die "The benchmarks were not built: the lines above say why."
}
