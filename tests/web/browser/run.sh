#!/usr/bin/env bash
# Runs one browser test: installs the driver into the build folder where it is missing, then the test with node.
#
#   run.sh PROGRAM BUILD_FOLDER TEST_FILE
#
# Exit status 77 (skipped) where Chromium, node or npm is missing or the driver cannot be installed; a failure instead
# where RIDGETALLY_REQUIRE_BROWSER is set, as .ci/run does.
set -euo pipefail
program=$1 build=$2 test=$3
here=$(cd "$(dirname "$0")" && pwd)

skip() {
    echo "browser tests: $1"
    [ -z "${RIDGETALLY_REQUIRE_BROWSER:-}" ] || { echo "browser tests: they are required here (RIDGETALLY_REQUIRE_BROWSER)"; exit 1; }
    echo "browser tests: skipped; scripts/test.sh installs what is missing"
    exit 77
}

chromium=${RIDGETALLY_CHROMIUM:-$(command -v chromium || true)}
[ -n "$chromium" ] || skip "chromium is not installed"
command -v node >/dev/null || skip "node is not installed"
command -v npm >/dev/null || skip "npm is not installed"

mkdir -p "$build"
exec 9>"$build/install.lock"
flock 9
if ! cmp -s "$here/package-lock.json" "$build/installed-lock.json"; then
    cp "$here/package.json" "$here/package-lock.json" "$build/"
    (cd "$build" && npm ci --ignore-scripts --no-audit --no-fund --omit-lockfile-registry-resolved) || skip "npm could not install the driver"
    cp "$here/package-lock.json" "$build/installed-lock.json"
fi
flock -u 9

RIDGETALLY_BINARY=$program RIDGETALLY_CHROMIUM=$chromium RIDGETALLY_BROWSER_BUILD=$build exec node --test "$here/$test"
