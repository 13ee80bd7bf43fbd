#!/usr/bin/env bash
# What a photo costs: the whole process against djpeg of the same file, its peak memory, and how a batch scales on two cores.
#
#   scripts/measure-speed.sh [PHOTO.jpg [ROUNDS]]      (default: a rendered photo of 12 megapixels, best of 7)
#
# Program and djpeg take turns, so that whatever else the computer does meets both; the best of each counts. A batch is timed
# against the same batch on one core, in turns too. RIDGETALLY names the program (default: the one in build/).
set -euo pipefail
cd "$(dirname "$0")/.."
export LC_ALL=C
for tool in djpeg /usr/bin/time taskset; do
    command -v "$tool" >/dev/null || { echo "measure-speed: install $tool (packages libjpeg-turbo-progs, time, util-linux)" >&2; exit 69; }
done

program=${RIDGETALLY:-build/src/cli/ridgetally} photo=${1:-} rounds=${2:-7}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
if [ -z "$photo" ]; then
    [ -x build/tests/synthetic/render_scene ] || { echo "measure-speed: build the target render_scene, or name a photo" >&2; exit 66; }
    build/tests/synthetic/render_scene --seed 7200 --count 1 --stitch sc --megapixels 12 --out "$folder" 2>/dev/null
    photo=$folder/s7200.jpg
fi

# measured COMMAND...: "WALL PROCESSOR" seconds of one run; a photo that is refused takes its time as well.
measured() {
    local TIMEFORMAT='%R %U %S'
    { time { "$@" >/dev/null 2>"$folder/complaints" || [ $? = 2 ] || echo failed >"$folder/failed"; } 2>/dev/null; } 2>"$folder/times"
    [ ! -e "$folder/failed" ] || { cat "$folder/complaints" >&2; exit 70; }
    awk '{ print $1, $2 + $3 }' "$folder/times"
}
# wall NAME, processor NAME: the least of a series of runs.
wall() { cut -d ' ' -f 1 "$folder/$1" | sort -g | head -n 1; }
processor() { cut -d ' ' -f 2 "$folder/$1" | sort -g | head -n 1; }
ratio() { awk -v a="$1" -v b="$2" 'BEGIN { printf "%.2f", a / b }'; }

one=("$program" swatch --stitch sc --json "$photo")
for ((i = 0; i < rounds; ++i)); do
    measured "${one[@]}" >>"$folder/whole"
    measured djpeg -outfile /dev/null "$photo" >>"$folder/djpeg"
    measured "$program" --version >>"$folder/start"
done
/usr/bin/time -f '%M' -o "$folder/memory" "${one[@]}" >/dev/null || true

# One core and two: eight copies by path, measured one by one and two at a time.
copies=()
for ((i = 0; i < 8; ++i)); do copies+=("$photo"); done
batch=("$program" swatch --batch --stitch sc)
for ((i = 0; i < (rounds + 1) / 2; ++i)); do
    measured taskset -c 0 "${batch[@]}" --jobs 1 "${copies[@]}" >>"$folder/one"
    measured taskset -c 0,1 "${batch[@]}" --jobs 2 "${copies[@]}" >>"$folder/two"
done

read -r load _ </proc/loadavg
printf 'photo           %s (%s bytes), best of %s\n' "$(basename "$photo")" "$(stat -c %s "$photo")" "$rounds"
printf '                wall      processor\n'
for name in whole djpeg start one two; do
    case $name in
        whole) title="whole process" ;;
        start) title="--version" ;;
        one) title="8 on one core" ;;
        two) title="8 on two cores" ;;
        *) title=$name ;;
    esac
    printf '%-15s %.3f s   %.3f s\n' "$title" "$(wall $name)" "$(processor $name)"
done
printf 'to djpeg        %s      %s\n' "$(ratio "$(wall whole)" "$(wall djpeg)")" "$(ratio "$(processor whole)" "$(processor djpeg)")"
printf 'two cores       %s times as fast as one\n' "$(ratio "$(wall one)" "$(wall two)")"
printf 'peak memory     %.0f MB\n' "$(awk 'END { print $1 * 1.024 / 1000 }' "$folder/memory")"
awk -v load="$load" -v cores="$(nproc)" 'BEGIN { if (load > 1.2 * cores) {
    print "load " load ": others keep the " cores " cores busy; wall times are too long and two cores gain too little" } }'
