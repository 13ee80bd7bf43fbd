#!/usr/bin/env bash
# Installs what is missing and builds into build/, optimised.
#
#   scripts/build.sh [TARGET ...]      (default: everything)
set -euo pipefail
cd "$(dirname "$0")/.."

scripts/setup.sh
mkdir -p build
if ! cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release >build/configure.log 2>&1; then
    cat build/configure.log >&2
    exit 1
fi
cmake --build build -j "$(nproc)" ${1:+--target "$@"}
