# shellcheck shell=bash
# Read by the tests beside it: checks on an installed tree. PREFIX is the folder that holds bin/ and share/.

fail() {
    echo "FAILED: $*" >&2
    exit 1
}

# expect_files LIST <PATTERNS: every line of standard input, an extended regular expression, matches a line of LIST.
expect_files() {
    local pattern
    while read -r pattern; do
        grep -qxE "$pattern" <<<"$1" || fail "$pattern is not among the files:"$'\n'"$1"
    done
}

# expect_measuring PREFIX SAMPLE: the program there measures, from another folder, with facts of its own prefix.
expect_measuring() {
    local answer
    answer=$(cd / && env -u RIDGETALLY_MODELS "$1/bin/ridgetally" swatch --json --stitch sc --worked flat "$2") ||
        fail "swatch ended with status $?"
    grep -q '"stitches_per_10cm"' <<<"$answer" || fail "no gauge in: $answer"

    mv "$1/share/ridgetally/models/hooks.json" "$1/hooks.away"
    answer=$(cd / && env -u RIDGETALLY_MODELS "$1/bin/ridgetally" facts hooks 2>&1) &&
        fail "facts were read from somewhere else than $1"
    grep -qF "cannot be read in $1/share/ridgetally/models" <<<"$answer" || fail "another file is missing: $answer"
    mv "$1/hooks.away" "$1/share/ridgetally/models/hooks.json"
}

# expect_serving PREFIX FOLDER: the web server starts with the library of its own prefix and answers.
expect_serving() {
    local address="" port answer=""
    (cd / && exec env -u RIDGETALLY_MODELS XDG_DATA_HOME="$2" "$1/bin/ridgetally" serve --port 0) >"$2/served" 2>"$2/complaints" &
    local server=$!
    for _ in $(seq 200); do
        address=$(grep -o -m 1 'http://127[^ ]*' "$2/served") && break
        kill -0 "$server" 2>/dev/null || fail "serve ended: $(cat "$2/complaints")"
        sleep 0.05
    done
    port=$(sed -E 's,.*:([0-9]+)/.*,\1,' <<<"$address")
    grep -q "$1/.*/libridgetally_web.so" "/proc/$server/maps" || fail "the library comes from somewhere else"
    exec 5<>"/dev/tcp/127.0.0.1/$port"
    printf 'GET / HTTP/1.1\r\nHost: 127.0.0.1:%s\r\nConnection: close\r\n\r\n' "$port" >&5
    read -r -t 10 answer <&5 || true
    exec 5>&-
    kill "$server"
    wait "$server" || true
    [[ "$answer" == "HTTP/1.1 200"* ]] || fail "the page was answered with: $answer"
}
