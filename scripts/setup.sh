#!/usr/bin/env bash
# Installs what Ridgetally needs and this machine lacks, with apt-get, as root or through sudo.
# Says what it is about to install first; does nothing where nothing is missing.
#
#   scripts/setup.sh [FURTHER_PACKAGE ...]
set -euo pipefail

packages=(
    build-essential cmake ninja-build ccache pkg-config                 # compiler and build
    libopencv-core-dev libopencv-imgproc-dev libopencv-dnn-dev          # matrices, picture arithmetic, networks
    libjpeg62-turbo-dev libpng-dev libheif-dev libwebp-dev libexif-dev  # reading photos
    nettle-dev                                                          # SHA-256 of photos and weights
    libsqlite3-dev                                                      # the record of yarns
    libcpp-httplib-dev libqrencode-dev                                  # the web server, its QR code
    libcli11-dev nlohmann-json3-dev libgtest-dev                        # command line, JSON, tests
    libbenchmark-dev                                                    # times of the stages
    "$@"
)

missing=()
for package in "${packages[@]}"; do
    if ! dpkg-query -W -f='${Status}\n' "$package" 2>/dev/null | grep -q '^install ok installed$'; then
        missing+=("$package")
    fi
done
if [ ${#missing[@]} -eq 0 ]; then
    echo "setup: everything needed is installed"
    exit 0
fi

as_root=()
if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
        echo "setup: run this as root, or install sudo; missing: ${missing[*]}" >&2
        exit 1
    fi
    as_root=(sudo)
fi

echo "setup: about to install with apt-get (and what these depend on, nothing recommended or suggested):"
printf '    %s\n' "${missing[@]}"
"${as_root[@]}" apt-get update
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}"
