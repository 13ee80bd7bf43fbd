#!/usr/bin/env bash
# Runs the tests beside it with node. Exit status 77 (skipped) where node is missing; a failure instead where
# RIDGETALLY_REQUIRE_BROWSER is set, as .ci/run does.
set -euo pipefail
cd "$(dirname "$0")"
if ! command -v node >/dev/null; then
    echo "page tests: node is not installed; scripts/test.sh installs it"
    [ -z "${RIDGETALLY_REQUIRE_BROWSER:-}" ] || exit 1
    exit 77
fi
exec node --test ./*.test.mjs
