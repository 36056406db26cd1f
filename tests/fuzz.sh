#!/usr/bin/env bash
# Builds the fuzz targets of tests/fuzz (clang's libFuzzer, with AddressSanitizer and UndefinedBehaviorSanitizer) and runs
# them one after another. What they learn is kept in build/fuzz/TARGET; an input that fails, in build/fuzz/TARGET.failed-*:
# put it into tests/fuzz/corpus/TARGET as found-..., where the C++ tests try it ever after. Ends with one line that counts.
steps=2
source "$(dirname "${BASH_SOURCE[0]}")/../examples/setup.sh"

seconds=10
usage="usage: tests/fuzz.sh [--seconds N] [TARGET...]    N seconds a target, 10 when not said; all targets when none is named"
if [ "${1:-}" = --seconds ]; then
    seconds=${2:-}
    [[ $seconds =~ ^[1-9][0-9]*$ ]] || die "$usage"
    shift 2
fi
targets=()
for header in tests/fuzz/*_target.hpp; do targets+=("$(basename "$header" _target.hpp)"); done
for target in "$@"; do [[ " ${targets[*]} " == *" $target "* ]] || die "$usage: ${targets[*]}"; done
[ $# -eq 0 ] || targets=("$@")

step "Building the fuzz targets"
need clang clang++ --version
need libboost-dev preprocesses boost/version.hpp boost/test/included/unit_test.hpp # of the tests in that tree
prepare_machine
folder=$build/sanitize/address
logged fuzz-configure cmake -G Ninja -S . -B "$folder" -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_CXX_STANDARD=23 \
    -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_FLAGS_RELEASE=-O1 -DKEYSQUARE_SANITIZE=address,undefined \
    -DKEYSQUARE_EXAMPLES=OFF -DKEYSQUARE_FUZZ=ON &&
    logged fuzz-build cmake --build "$folder" --parallel "$jobs" --target keysquare_fuzz ||
    die "The fuzz targets were not built: the lines above say why."

# The words that a target's inputs are made of, and how long they get.
dictionary_of() {
    case $1 in
    san | plan) echo tests/fuzz/moves.dict ;;
    *) echo "tests/fuzz/$1.dict" ;;
    esac
}
longest_of() {
    case $1 in
    pgn | compressed) echo 8192 ;;
    position) echo 70 ;; # 32 men
    *) echo 512 ;;
    esac
}

# How long a target's corpus takes, which is tried first: that time comes on top.
seconds_of_corpus() {
    case $1 in
    position) echo 30 ;;
    *) echo 0 ;;
    esac
}

step "$seconds s a target"
passed=0 failed=0
for target in "${targets[@]}"; do
    mkdir -p "$build/fuzz/$target"
    options=(-max_total_time=$((seconds + $(seconds_of_corpus "$target"))) -max_len="$(longest_of "$target")"
        -timeout=120 -rss_limit_mb=2500 -print_final_stats=1 -artifact_prefix="$build/fuzz/$target.failed-")
    dictionary=$(dictionary_of "$target")
    [ ! -e "$dictionary" ] || options+=(-dict="$dictionary")
    if KEYSQUARE_FUZZ_TARGET=$target logged "fuzz-$target" "$folder/tests/keysquare_fuzz" "${options[@]}" \
        "$build/fuzz/$target" "tests/fuzz/corpus/$target"; then
        passed=$((passed + 1))
        note "$target: $(sed -n 's/^stat::number_of_executed_units: *//p' "$logs/fuzz-$target.log") inputs"
    else
        failed=$((failed + 1))
        # Slow inputs get the same prefix and are no failure.
        note "$target: failed; the input is $(ls -t "$build/fuzz/$target".failed-* | grep -v failed-slow-unit | head -n 1)"
    fi
done

printf '%d passed, %d failed, 0 skipped\n' $passed $failed
[ $failed -eq 0 ] && [ $passed -gt 0 ]
