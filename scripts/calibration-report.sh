#!/usr/bin/env bash
# Do the stated intervals hold? Measures 500 seeded renders and writes tests/calibration/report.
#
#   scripts/calibration-report.sh [SWATCHES [CROWNS]]     (default: 440 and 60; about 20 minutes on two quiet cores)
#
# Trials are collected in build/calibration-COMMIT.csv; a run that was broken off goes on there.
set -euo pipefail
cd "$(dirname "$0")/.."
cmake --build build --target calibrate
commit=$(git rev-parse --short=10 HEAD)
weights=$(python3 -c 'import json; print(json.load(open("models/recogniser/manifest.json"))["phase_fields"]["sha256"][:16])')
git diff --quiet HEAD -- src models tests/synthetic || echo "calibration-report: src, models or tests/synthetic differ from the commit" >&2
nice build/tests/calibration/calibrate --out "build/calibration-$commit.csv" --swatches "${1:-440}" --crowns "${2:-60}"
python3 tests/calibration/report.py "build/calibration-$commit.csv" tests/calibration/report "commit $commit, weights $weights..."
