#!/bin/sh
# Makes the packages and checks them on this machine: lintian, menu entry, metainfo, manual pages,
# an archive unpacked into a folder with a space. The bare root is tests/support/package_root.sh.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/../.." && pwd)
out=$root/build/package
fail() {
    echo "package: $*" >&2
    exit 1
}
sh "$root/src/package.sh" >"$root/build/package-made.log" 2>&1 || {
    tail -n 30 "$root/build/package-made.log"
    fail "could not be made"
}
deb=$(ls "$out"/*.deb) archive=$(ls "$out"/*.tar.xz)
size=$(dpkg-deb -f "$deb" Installed-Size)
[ "$size" -lt 15000 ] || fail "installs $size KiB, the limit is 15000"

# A tool of the list that is not here is named, never passed over in silence.
with() {
    if command -v "$1" >/dev/null; then
        "$@" || fail "$1 is not content"
    else
        echo "package: $1 is not installed: that check was passed over"
    fi
}
with lintian --allow-root --fail-on error,warning "$deb"
with desktop-file-validate "$root/src/package/invalid.pullback.Pullback.desktop"
with appstreamcli validate --no-net "$root/src/package/invalid.pullback.Pullback.metainfo.xml"

place=$out/"my programs"
rm -rf "$place" && mkdir "$place"
tar -C "$place" -xf "$archive"
program=$(ls -d "$place"/*/bin)
share=$(ls -d "$place"/*/share)
for page in pullback pullback-cli; do
    gzip -dc "$share/man/man1/$page.1.gz" >"$out/page.1"
    words=$("$program/$page" --help | grep -o -- '--[a-z][a-z-]*' | sort -u)
    for word in $words; do
        tr -d '\\' <"$out/page.1" | grep -q -- "$word" || fail "$word is not in the page of $page"
    done
done
cd /
"$program/pullback-cli" run "$share/pullback/exercises/plain-2x4.json" \
    --hands "$share/pullback/hands/steady-foot.json" --json >"$out/run.json" || fail "no run"
grep -q '"state_hash"' "$out/run.json" || fail "no result"
if grep -aq "$root/assets" "$program/pullback" "$program/pullback-cli"; then
    fail "the place of this tree is built in"
fi
opened=0
xvfb-run -a timeout 5 "$program/pullback" >"$out/window.log" 2>&1 || opened=$?
[ "$opened" = 124 ] || {
    cat "$out/window.log"
    fail "the window ended with $opened"
}
# Completion asks the program.
# shellcheck disable=SC2016
bash -c 'PATH="$1:$PATH"; . "$2"; COMP_WORDS=(pullback-cli "") COMP_CWORD=1; _pullback pullback-cli "" pullback-cli; printf "%s\n" "${COMPREPLY[@]}"' \
    completion "$program" "$share/bash-completion/completions/pullback-cli" | grep -qx replay ||
    fail "completion does not know the verbs"
echo "package: $(stat -c %s "$deb") bytes of .deb, $size KiB installed, $(stat -c %s "$archive") bytes of archive"
rm -rf "$place"
