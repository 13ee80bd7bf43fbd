#!/usr/bin/env bash
# The Debian package: its files, what it depends on, and that the program in it measures and serves.
#   debian_test.sh BUILD_FOLDER SAMPLES_FOLDER
# Exit status 77 (skipped) where Debian's tools are missing.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
. "$here/installed.sh"

for tool in dpkg-deb dpkg-shlibdeps file; do
    command -v "$tool" >/dev/null || { echo "skipped: $tool is not installed (packages dpkg, dpkg-dev, file)"; exit 77; }
done
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
(cd "$1" && cpack -G DEB -B "$folder/made" >"$folder/log" 2>&1) || fail "$(cat "$folder/log")"
package=$(echo "$folder"/made/*.deb)

expect_files "$(dpkg-deb -c "$package" | awk '{print $6}' | sed 's,^\./usr/,./,')" <"$here/files.txt"
outside=$(dpkg-deb -c "$package" | awk '{print $6}' | grep -vE '^\./(usr/.*)?$') && fail "files outside of /usr: $outside"

depends=$(dpkg-deb -f "$package" Depends)
# One library of each kind: pictures, record, and those that only the library of serve uses.
for library in libopencv-dnn libjpeg libheif libsqlite3 libcpp-httplib libqrencode libc6; do
    [[ "$depends" == *"$library"* ]] || fail "$library is not among: $depends"
done

dpkg-deb -x "$package" "$folder/unpacked"
if grep -rqF "$(cd "$1" && pwd)" "$folder/unpacked"; then fail "the folder of the build is named in the package"; fi
expect_measuring "$folder/unpacked/usr" "$2/brimful-moss.jpg"
expect_serving "$folder/unpacked/usr" "$folder"
