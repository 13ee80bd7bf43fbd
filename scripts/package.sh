#!/usr/bin/env bash
# Installs what is missing, builds the program and makes a Debian package of it: build/package/ridgetally_*.deb
set -euo pipefail
cd "$(dirname "$0")/.."

scripts/setup.sh dpkg-dev file
scripts/build.sh ridgetally ridgetally_web_library guides
(cd build && cpack -G DEB -B package)
echo
echo "Install it, with what it depends on:  apt-get install $(ls -t "$PWD"/build/package/*.deb | head -n 1)"
