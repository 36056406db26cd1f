// The main program of every layer. It is that of Google Benchmark, unless it is started with `--count` alone: then,
// under callgrind, it does each operation once on its counted inputs, has callgrind dump the instructions of just that,
// and writes a line with the operation's name, what its items are, and how many there were. track.sh joins both.
#include <cstdlib>
#include <iostream>
#include <stdexcept>
#include <string_view>

#include <benchmark/benchmark.h>
#if __has_include(<valgrind/callgrind.h>)
#include <valgrind/callgrind.h>
#define KEYSQUARE_CAN_COUNT
#endif

#include "operations.hpp"

namespace {

using bench::Amount;
using bench::Operation;
using bench::Pass;
using bench::Purpose;

void time(benchmark::State& state, const Operation& operation) {
    const Pass pass = operation.prepare(Purpose::timing);
    if (!pass) {
        state.SkipWithError("no open data: set KEYSQUARE_OPEN_DATA");
        return;
    }
    Amount done;
    for ([[maybe_unused]] auto _ : state) done += pass();
    state.SetItemsProcessed(done.items);
    if (done.bytes > 0) state.SetBytesProcessed(done.bytes);
}

void register_with_google_benchmark(const Operation& operation) {
    auto* const registered = benchmark::RegisterBenchmark(operation.name.c_str(), time, operation);
    registered->Unit(operation.unit);
    if (operation.real_time) registered->UseRealTime();
}

#ifdef KEYSQUARE_CAN_COUNT
Amount count(const Operation& operation) {
    const Pass pass = operation.prepare(Purpose::counting);
    if (!pass) throw std::runtime_error{"no inputs to count " + operation.name + " on"};
    pass(); // so that what is made or grown once is there
    CALLGRIND_START_INSTRUMENTATION;
    CALLGRIND_ZERO_STATS;
    const Amount done = pass();
    CALLGRIND_DUMP_STATS_AT(operation.name.c_str());
    CALLGRIND_STOP_INSTRUMENTATION;
    return done;
}

void count_all(const bench::Operations& operations) {
    if (RUNNING_ON_VALGRIND == 0) throw std::runtime_error{"--count is for track.sh, which runs it under callgrind"};
    for (const Operation& operation : operations.all())
        if (operation.counted)
            std::cout << operation.name << '\t' << operation.item << '\t' << count(operation).items << std::endl;
}
#else
void count_all(const bench::Operations&) { throw std::runtime_error{"built without valgrind/callgrind.h"}; }
#endif

void time_all(const bench::Operations& operations, int argc, char** argv) {
    for (const Operation& operation : operations.all()) register_with_google_benchmark(operation);
    benchmark::Initialize(&argc, argv);
    if (benchmark::ReportUnrecognizedArguments(argc, argv)) throw std::runtime_error{"unknown arguments"};
    benchmark::RunSpecifiedBenchmarks();
    benchmark::Shutdown();
}

} // namespace

int main(int argc, char** argv) {
    try {
        bench::Operations operations;
        bench::describe(operations);
        if (argc == 2 && std::string_view{argv[1]} == "--count")
            count_all(operations);
        else
            time_all(operations, argc, argv);
        return EXIT_SUCCESS;
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return EXIT_FAILURE;
    }
}
