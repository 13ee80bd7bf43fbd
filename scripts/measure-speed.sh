#!/usr/bin/env bash
# What a photo costs: the whole process against djpeg of the same file, its peak memory, the start of the program, what four
# times the pixels cost, and how a batch scales on two cores.
#
#   scripts/measure-speed.sh [PHOTO.jpg [ROUNDS [LARGER.jpg]]]    (default: a rendered photo of 12 megapixels, best of 7,
#                                                                  and the same scene of 48 megapixels)
#
# Program and djpeg take turns, so that whatever else the computer does meets both; the best of each counts. A batch is timed
# against the same batch on one core, in turns too. RIDGETALLY names the program (default: the one in build/).
set -euo pipefail
cd "$(dirname "$0")/.."
export LC_ALL=C
for tool in djpeg /usr/bin/time taskset; do
    command -v "$tool" >/dev/null || { echo "measure-speed: install $tool (packages libjpeg-turbo-progs, time, util-linux)" >&2; exit 69; }
done

program=${RIDGETALLY:-build/src/cli/ridgetally} photo=${1:-} rounds=${2:-7} larger=${3:-}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
if [ -z "$photo" ]; then
    [ -x build/tests/synthetic/render_scene ] || { echo "measure-speed: build the target render_scene, or name a photo" >&2; exit 66; }
    for megapixels in 12 48; do
        build/tests/synthetic/render_scene --seed 7200 --count 1 --stitch sc --megapixels $megapixels --out "$folder/$megapixels" 2>/dev/null
    done
    photo=$folder/12/s7200.jpg larger=$folder/48/s7200.jpg
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
four=("$program" swatch --stitch sc --json "$larger")
for ((i = 0; i < rounds; ++i)); do
    measured "${one[@]}" >>"$folder/whole"
    measured djpeg -outfile /dev/null "$photo" >>"$folder/djpeg"
    measured "$program" --version >>"$folder/start"
    [ -z "$larger" ] || measured "${four[@]}" >>"$folder/larger"
done
# memory COMMAND...: the peak in MB.
memory() {
    /usr/bin/time -f '%M' -o "$folder/memory" "$@" >/dev/null 2>&1 || true
    awk 'END { printf "%.0f MB", $1 * 1.024 / 1000 }' "$folder/memory"
}

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
for name in whole djpeg start ${larger:+larger} one two; do
    case $name in
        whole) title="whole process" ;;
        larger) title="larger photo" ;;
        start) title="--version" ;;
        one) title="8 on one core" ;;
        two) title="8 on two cores" ;;
        *) title=$name ;;
    esac
    printf '%-15s %.3f s   %.3f s\n' "$title" "$(wall $name)" "$(processor $name)"
done
printf 'to djpeg        %s      %s\n' "$(ratio "$(wall whole)" "$(wall djpeg)")" "$(ratio "$(processor whole)" "$(processor djpeg)")"
[ -z "$larger" ] ||
    printf 'larger to it    %s      %s\n' "$(ratio "$(wall larger)" "$(wall whole)")" "$(ratio "$(processor larger)" "$(processor whole)")"
printf 'two cores       %s times as fast as one\n' "$(ratio "$(wall one)" "$(wall two)")"
printf 'peak memory     %s%s\n' "$(memory "${one[@]}")" "${larger:+, larger photo $(memory "${four[@]}")}"
awk -v load="$load" -v cores="$(nproc)" 'BEGIN { if (load > 1.2 * cores) {
    print "load " load ": others keep the " cores " cores busy; wall times are too long and two cores gain too little" } }'
