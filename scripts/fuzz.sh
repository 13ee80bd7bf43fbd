#!/usr/bin/env bash
# Builds the fuzz targets with clang (libFuzzer, AddressSanitizer, UndefinedBehaviorSanitizer) and runs each for so
# many seconds from the inputs of tests/fuzz/corpus. What is found lies in build-fuzz/found: a crash-, leak- or
# timeout- file each. Needs the Debian package clang.
#
#   scripts/fuzz.sh SECONDS [TARGET...]      # photo exif catalogue quantity record request http; default: all
set -euo pipefail
cd "$(dirname "$0")/.."

seconds=${1:?usage: scripts/fuzz.sh SECONDS [TARGET...]}
shift
targets=("$@")
[ ${#targets[@]} -gt 0 ] || targets=(photo exif catalogue quantity record request http)

cmake -S . -B build-fuzz -G Ninja -DCMAKE_BUILD_TYPE=RelWithDebInfo -DRIDGETALLY_FUZZ=ON \
    -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_C_COMPILER=clang >/dev/null
cmake --build build-fuzz -j "$(nproc)" --target "${targets[@]/#/fuzz_}"

declare -A dictionary=([photo]=photo [quantity]=quantity [catalogue]=json [record]=json [request]=http [http]=http)
mkdir -p build-fuzz/found
for target in "${targets[@]}"; do
    mkdir -p "build-fuzz/corpus/$target" # what libFuzzer adds stays out of the source tree
    options=(-max_total_time="$seconds" -timeout=60 -rss_limit_mb=2048 -artifact_prefix=build-fuzz/found/ -print_final_stats=1)
    [ -z "${dictionary[$target]:-}" ] || options+=(-dict="tests/fuzz/dictionaries/${dictionary[$target]}.dict")
    log=build-fuzz/$target.log
    if ! "build-fuzz/tests/fuzz/fuzz_$target" "${options[@]}" "build-fuzz/corpus/$target" "tests/fuzz/corpus/$target" >"$log" 2>&1; then
        tail -n 40 "$log" >&2
        echo "fuzz: $target found something, see build-fuzz/found" >&2
        exit 1
    fi
    echo "fuzz: $target: $(sed -n 's/^stat::number_of_executed_units: *//p' "$log") executions, nothing found"
done
