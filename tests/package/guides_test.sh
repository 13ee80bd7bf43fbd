#!/usr/bin/env bash
# Man page and completions against the help of every command: each option must stand in all of them.
#   guides_test.sh PROGRAM GUIDES_FOLDER
set -euo pipefail
. "$(cd "$(dirname "$0")" && pwd)/installed.sh"
program=$1 guides=$2

# commands_below PATH...: names under "Subcommands:" of its help.
commands_below() { "$program" "$@" --help | sed -n '/^Subcommands:/,/^$/s/^  \([a-z][a-z-]*\) .*/\1/p'; }
# options_of PATH...: "--json", one a line.
options_of() { "$program" "$@" --help | sed -nE 's/^  (-[a-z],)?(--[a-z0-9-]+)( .*)?$/\2/p'; }

# man_section PATH...: source of its part of the man page, hyphens as typed.
man_section() {
    sed 's/\\-/-/g' "$guides/ridgetally.1" | awk -v heading=".SS ridgetally $* [" -v root="$#" '
        /^\.S[SH] / { inside = root == 0 ? $0 == ".SH OPTIONS" : index($0, heading) == 1 } inside'
}

. "$guides/ridgetally.bash"
compopt() { :; } # the shell allows it only while a person completes
# completed WORD...: what bash offers for the last word.
completed() {
    COMP_WORDS=(ridgetally "$@") COMP_CWORD=$#
    _ridgetally
    printf '%s\n' "${COMPREPLY[@]}"
}

checked=0
# check_command PATH...
check_command() {
    local options manual bash_offers fish_offers="" option below
    options=$(options_of "$@")
    [ -n "$options" ] || fail "the help of '$*' lists no option"
    manual=$(man_section "$@")
    bash_offers=$(completed "$@" --)
    if command -v fish >/dev/null; then
        fish_offers=$(fish --no-config -c "source '$guides/ridgetally.fish'; complete -C 'ridgetally $* --'")
    fi
    local zsh_part
    zsh_part=$(awk -v name="_$(tr ' ' _ <<<"ridgetally${*:+ $*}")() {" '$0 == name { inside = 1 } inside; /^}/ { inside = 0 }' \
        "$guides/_ridgetally")
    for option in $options; do
        grep -qE -- "$option(\\\\| |$|,)" <<<"$manual" || fail "man page: '$*' lacks $option"
        grep -qx -- "$option" <<<"$bash_offers" || fail "bash: '$*' lacks $option"
        grep -qF -- "${option}[" <<<"$zsh_part" || fail "zsh: '$*' lacks $option"
        [ -z "$fish_offers" ] || grep -qP -- "^$option(\t|$)" <<<"$fish_offers" || fail "fish: '$*' lacks $option"
        checked=$((checked + 1))
    done
    for below in $(commands_below "$@"); do
        grep -qx -- "$below" <<<"$(completed "$@" "")" || fail "bash: '$*' lacks $below"
        check_command "$@" "$below"
    done
}
check_command
# A reading of the help that finds nothing must not pass.
[ "$checked" -ge 100 ] || fail "only $checked options were found in the help"

bash -n "$guides/ridgetally.bash"
if command -v zsh >/dev/null; then zsh -n "$guides/_ridgetally"; fi
if command -v mandoc >/dev/null; then
    faults=$(mandoc -Tlint -Wwarning "$guides/ridgetally.1" | grep -v 'missing date' || true)
    [ -z "$faults" ] || fail "man page: $faults"
fi

[ "$(completed swatch --worked "" | xargs)" = "flat round" ] || fail "bash: values of --worked"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
touch "$folder/moss one.jpg"
cd "$folder"
[ "$(completed swatch mo)" = "moss one.jpg" ] || fail "bash: photos"
[ "$(completed swatch --annotated mo)" = "moss one.jpg" ] || fail "bash: files of options"
[ -z "$(completed swatch --stitch mo)" ] || fail "bash: files are offered for a stitch"
echo "$checked options stand in the man page and in every completion"
