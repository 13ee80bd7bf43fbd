#!/usr/bin/env bash
# Installs what is missing, builds everything and runs every test but those of tests/known-faults.txt, which it names.
#
#   scripts/test.sh [CTEST_ARGUMENT ...]      e.g. scripts/test.sh -R Document
set -euo pipefail
cd "$(dirname "$0")/.."

# The page is tested in a browser. Node and npm may come from elsewhere than Debian.
browser=(chromium)
command -v node >/dev/null || browser+=(nodejs)
command -v npm >/dev/null || browser+=(npm)
# parallel hands out photos; the others make and check the Debian package.
scripts/setup.sh "${browser[@]}" parallel dpkg-dev file mandoc
scripts/build.sh

known=""
while read -r test fault; do
    [[ -z "$test" || "$test" == \#* ]] && continue
    echo "left out, a known fault: $test ($fault)"
    known="$known${known:+|}$test"
done <tests/known-faults.txt

ctest --test-dir build --output-on-failure -j "$(nproc)" ${known:+-E "$known"} "$@"
