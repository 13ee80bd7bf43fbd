#!/usr/bin/env bash
# Installs what is missing, builds the program and measures a sample photograph, so that you see what it does.
set -euo pipefail
cd "$(dirname "$0")/.."

scripts/build.sh ridgetally
picture="$PWD/build/brimful-moss.marked.jpg"
echo
build/src/cli/ridgetally swatch --stitch sc --worked flat --annotated "$picture" samples/brimful-moss.jpg
echo
echo "The photo:          $PWD/samples/brimful-moss.jpg"
echo "What was read in it: $picture   (open it in any picture viewer)"
