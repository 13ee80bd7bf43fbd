#!/usr/bin/env bash
# Measures tens of thousands of photos on all cores, or on several computers, with GNU parallel. Stopped at any time, the same
# command goes on where it was.
#
#   scripts/measure-many.sh FOLDER LIST [OPTION_OF_PARALLEL ...] [-- OPTION_OF_SWATCH ...]
#
# LIST names one photo a line. FOLDER gets jobs.log (one line a photo: host, seconds, exit status), answers/ and in the end
# gauges.jsonl: one JSON line a photo, in the order of LIST. A photo that the program could not measure has its line too, with the
# reason; one that failed otherwise (no such file, host gone) is tried again by the next run.
# RIDGETALLY names the program where it is not `ridgetally`. Exit status: 0 every photo has its line, 1 some have none yet.
set -euo pipefail
if [ $# -lt 2 ]; then
    sed -n '2,/^set /s/^# \{0,1\}//p' "$0" >&2
    exit 64
fi
command -v parallel >/dev/null || { echo "measure-many: install the package parallel" >&2; exit 69; }

folder=$1 list=$2
shift 2
for_parallel=()
while [ $# -gt 0 ] && [ "$1" != -- ]; do for_parallel+=("$1") && shift; done
[ $# -eq 0 ] || shift

mkdir -p "$folder/answers"
# The lock is inherited by parallel and its jobs: whatever an earlier run left at work ends before this one begins.
exec 9>"$folder/lock"
flock --wait 120 9 || { echo "measure-many: another run is at work in $folder" >&2; exit 75; }
# Jobs are known by their place in the list, so it must stay the same.
[ -e "$folder/photos.txt" ] || { cp "$list" "$folder/photos.txt.part" && mv "$folder/photos.txt.part" "$folder/photos.txt"; }
if ! cmp -s "$list" "$folder/photos.txt"; then
    echo "measure-many: $list is not the list that $folder was begun with; take another folder for it" >&2
    exit 65
fi

# 0 measured, 2 not measured, 65 not a photo: the answer stands. Anything else failed and is tried again.
measure=$(printf '%q ' "${RIDGETALLY:-ridgetally}" swatch --batch --jobs 1 "$@")
PARALLEL_SHELL=$(command -v bash) parallel --joblog "$folder/jobs.log" --resume-failed --results "$folder/answers/{#}.line" \
    "${for_parallel[@]}" -a "$folder/photos.txt" "$measure {} || [ \$? = 2 -o \$? = 65 ]" >/dev/null || true

# One whole line a photo that jobs.log calls done, in the order of the list; the others are named.
awk -F '\t' 'FNR == NR { if ($7 == "0" && $8 == "0") done[$1] = 1; next } { print FNR in done, $0 }' \
    "$folder/jobs.log" "$folder/photos.txt" >"$folder/done.part"
missing=0 number=0
while read -r answered photo; do
    number=$((number + 1))
    answer="$folder/answers/$number.line" line="" more=""
    if [ "$answered" = 1 ] && { read -r line && ! read -r more && [ -z "$more" ]; } <"$answer"; then
        printf '%s\n' "$line"
    else
        echo "measure-many: no answer yet: $photo" >&2
        missing=$((missing + 1))
    fi
done <"$folder/done.part" >"$folder/gauges.jsonl.part"
rm "$folder/done.part"
[ "$missing" = 0 ] || { echo "measure-many: $missing photos have no answer; run the same command again" >&2; exit 1; }
mv "$folder/gauges.jsonl.part" "$folder/gauges.jsonl"
