#!/usr/bin/env bash
# cmake --install into a folder of its own; the program there measures and serves with what was installed.
#   install_test.sh BUILD_FOLDER SAMPLES_FOLDER
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
. "$here/installed.sh"

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cmake --install "$1" --prefix "$folder/prefix" >/dev/null
expect_files "$(cd "$folder/prefix" && find . -type f)" <"$here/files.txt"
expect_measuring "$folder/prefix" "$2/brimful-moss.jpg"
expect_serving "$folder/prefix" "$folder"
