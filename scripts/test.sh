#!/usr/bin/env bash
# Installs what is missing, builds everything and runs every test.
#
#   scripts/test.sh [CTEST_ARGUMENT ...]      e.g. scripts/test.sh -R Document
set -euo pipefail
cd "$(dirname "$0")/.."

scripts/build.sh
ctest --test-dir build --output-on-failure -j "$(nproc)" "$@"
