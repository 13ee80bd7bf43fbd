#!/usr/bin/env bash
# Twelve rendered photos over GNU parallel: killed half-way and resumed, every photo has one line, the same as in one batch, and
# what was measured before is not measured again.
#   many_test.sh PROGRAM RENDER_SCENE MEASURE_MANY
# Exit status 77 (skipped) where parallel is missing.
set -euo pipefail
program=$1 render=$2 many=$3
fail() {
    echo "FAILED: $*" >&2
    exit 1
}
command -v parallel >/dev/null || { echo "skipped: parallel is not installed; scripts/test.sh installs it"; exit 77; }

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
# What `parallel --citation` leaves behind once its notice has been read.
export PARALLEL_HOME=$folder/parallel
mkdir "$PARALLEL_HOME" && touch "$PARALLEL_HOME/will-cite"

"$render" --seed 7100 --count 12 --megapixels 0.3 --out "$folder/photos" 2>/dev/null
echo "no photo" >"$folder/photos/letter of moss.jpg"
ls "$folder"/photos/*.jpg >"$folder/list.txt"
measure=("$many" "$folder/answers" "$folder/list.txt" --jobs 2 -- --stitch sc)

# The program, which does not begin with a photo after the fifth of the list while $folder/hold is there: a fast machine is not
# through before it can be stopped.
sed -n '6,$p' "$folder/list.txt" >"$folder/late.txt"
touch "$folder/hold"
cat >"$folder/program" <<END
#!/usr/bin/env bash
while grep -qxF "\${*: -1}" "$folder/late.txt" && [ -e "$folder/hold" ]; do sleep 0.05; done
exec "$program" "\$@"
END
chmod +x "$folder/program"
export RIDGETALLY=$folder/program
# Sequence numbers of photos that are done.
done_jobs() { awk -F '\t' '$7 == "0" && $8 == "0" { print $1 }' "$folder/answers/jobs.log" 2>/dev/null | sort -n; }

"${measure[@]}" 2>"$folder/killed.err" &
run=$!
for _ in $(seq 600); do
    [ "$(done_jobs | wc -l)" -lt 5 ] || break
    sleep 0.1
done
# Script and engine are killed at once, without a chance to tidy up; jobs at work are left orphans.
engine=$(pgrep -P "$run" -x perl || pgrep -P "$run" -x parallel || true)
[ -n "$engine" ] || fail "parallel is not running: $(cat "$folder/killed.err")"
kill -KILL "$run" $engine
wait "$run" 2>/dev/null || true
rm "$folder/hold"
cp "$folder/answers/jobs.log" "$folder/before.log"
count=$(awk -F '\t' '$7 == "0" && $8 == "0"' "$folder/before.log" | wc -l)
[ "$count" = 5 ] || fail "$count of 13 photos were done when it was killed: not half-way"
[ ! -e "$folder/answers/gauges.jsonl" ] || fail "a result was left half-way"

"${measure[@]}" || fail "the second run ended with status $?"
"$program" swatch --batch --stitch sc "$folder"/photos/s*.jpg >"$folder/alone.jsonl" || true
"$program" swatch --batch --stitch sc "$folder/photos/letter of moss.jpg" >"$folder/letter.jsonl" || true
cat "$folder/letter.jsonl" "$folder/alone.jsonl" | sort >"$folder/expected"
[ "$(wc -l <"$folder/expected")" = 13 ] || fail "one batch gave $(wc -l <"$folder/expected") lines"
sort "$folder/answers/gauges.jsonl" | diff -q - "$folder/expected" || fail "the lines differ from those of one batch"

# The log of before goes on: no photo that was done has a second line, and the first one still stands.
while read -r job; do
    [ "$(done_jobs | grep -cx "$job")" = 1 ] || fail "photo $job was measured again"
done < <(done_jobs)
[ "$(head -c "$(stat -c %s "$folder/before.log")" "$folder/answers/jobs.log")" = "$(cat "$folder/before.log")" ] ||
    fail "jobs.log was begun anew"
[ "$(done_jobs | uniq | wc -l)" = 13 ] || fail "jobs.log calls $(done_jobs | uniq | wc -l) of 13 done"

# A third run has nothing to do; another list is refused.
"${measure[@]}" && [ "$(done_jobs | wc -l)" = 13 ] || fail "a third run measured again"
head -n 3 "$folder/list.txt" >"$folder/other.txt"
"$many" "$folder/answers" "$folder/other.txt" 2>/dev/null && fail "another list was taken for the same folder"

# Several hosts, with a stand-in for ssh that runs the command here: one cannot be reached at first.
cat >"$folder/ssh" <<'END'
#!/usr/bin/env bash
while [[ $1 == -* ]]; do shift; done
host=$1
shift
[[ $1 != -- ]] || shift
here=$(dirname "$0")
echo "$host" >>"$here/hosts"
[[ $host != loft || -e $here/loft-is-up ]] || exit 255
exec bash -c "$*"
END
chmod +x "$folder/ssh"
head -n 4 "$folder/list.txt" >"$folder/four.txt"
over_hosts=("$many" "$folder/hosted" "$folder/four.txt" --ssh "$folder/ssh" --sshlogin "1/loft,1/cellar" -- --stitch sc)
"${over_hosts[@]}" 2>"$folder/hosted.err" && fail "a host was gone and every photo was called done"
grep -q "no answer yet: $folder/photos/" "$folder/hosted.err" || fail "no photo is named: $(cat "$folder/hosted.err")"
touch "$folder/loft-is-up"
"${over_hosts[@]}" || fail "with all hosts the run ended with status $?"
[ "$(sort -u "$folder/hosts" | xargs)" = "cellar loft" ] || fail "hosts asked: $(sort -u "$folder/hosts")"
head -n 4 "$folder/answers/gauges.jsonl" | cmp - "$folder/hosted/gauges.jsonl" || fail "hosts give other lines"

echo "killed after $count of 13, resumed: each photo once"
