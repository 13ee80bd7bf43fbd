#!/usr/bin/env bash
# clang-tidy (Debian's package) with the checks of .clang-tidy; a finding fails. Reads the commands of a build folder, which
# must have been configured once.
#
#   scripts/tidy.sh                 # files changed since main, and those that include a changed header
#   scripts/tidy.sh --all           # the whole tree, about an hour on two cores
#   scripts/tidy.sh FILE.cpp ...    # these
#
# BUILD names the build folder (default: build), JOBS how many run at once (default: all cores).
set -euo pipefail
cd "$(dirname "$0")/.."
command -v clang-tidy >/dev/null || { echo "tidy: install clang-tidy" >&2; exit 69; }
build=${BUILD:-build}
[ -f "$build/compile_commands.json" ] || { echo "tidy: configure first: cmake -S . -B $build -G Ninja" >&2; exit 66; }

# Sources that changed, and those that include a header that changed by its path from src/ or tests/ or by its name.
changed_sources() {
    local changed headers
    changed=$({ git diff --name-only --diff-filter=d main -- '*.h' '*.cpp'; git ls-files --others --exclude-standard -- '*.h' '*.cpp'; } | sort -u)
    headers=$(sed -n 's|^\(src\|tests\)/\(.*\.h\)$|\2|p' <<<"$changed")
    { grep '\.cpp$' <<<"$changed" || true
      while read -r header; do
          [ -z "$header" ] || git grep -lE "#include \"($header|$(basename "$header"))\"" -- '*.cpp' || true
      done <<<"$headers"; } | sort -u
}

case ${1:-} in
    --all) mapfile -t files < <(git ls-files 'src/*.cpp' 'tests/*.cpp') ;;
    '') mapfile -t files < <(changed_sources) ;;
    *) files=("$@") ;;
esac
[ ${#files[@]} -gt 0 ] || { echo "tidy: nothing changed"; exit 0; }

# The commands are those of the compiler that builds, whose warnings clang need not know.
printf '%s\0' "${files[@]}" |
    xargs -0 -n 4 -P "${JOBS:-$(nproc)}" clang-tidy -p "$build" --quiet --extra-arg=-Wno-unknown-warning-option
echo "tidy: ${#files[@]} files, nothing found"
