#!/bin/sh
# Does the program for Windows do what this one does? Run under wine, which is not Windows: what that
# leaves open is in docs/PORTS.md.
#   windows.sh LINUX_BUILD WINDOWS [KILLS]
# WINDOWS is what src/windows.sh made (build/windows); KILLS of a recording, 10 when not given.
# Ends with 77 and the reason where there is no wine.
set -eu
linux=$(realpath "$1") windows=$(realpath "$2") kills=${3:-10}
root=$(CDPATH='' cd -- "$(dirname -- "$0")/../.." && pwd)
command -v wine >/dev/null || {
    echo "passed over: no wine here (Debian packages: wine, wine64)"
    exit 77
}
setup=$(ls "$windows"/Pullback-*-setup.exe)
work=$windows/check
rm -rf "$work"
mkdir -p "$work/wine/app" "$work/wine/cli" "$work/wine/lab" "$work/wine/home"
export WINEPREFIX="$work/prefix" WINEARCH=win64 WINEDEBUG=-all WINEDLLOVERRIDES='mscoree,mshtml='
export LC_ALL=C.UTF-8 TZ=UTC
unset DISPLAY WAYLAND_DISPLAY LANGUAGE XDG_DATA_HOME XDG_CONFIG_HOME || true
cd "$root"

fail() {
    echo "FAILED: $*" >&2
    exit 1
}
step() {
    printf '%4s s  %s\n' "$(($(date +%s) - start))" "$*"
}
start=$(date +%s)
trap 'wineserver -k 2>/dev/null || true' EXIT
wine wineboot -i >"$work/boot.log" 2>&1 || true

# Installed as a person does it; everything below runs what was installed.
wine "$setup" /S >"$work/setup.log" 2>&1 || fail "the installer: $(cat "$work/setup.log")"
user=$(echo "$WINEPREFIX"/drive_c/users/*/AppData | head -n 1)
installed=$user/Local/Programs/Pullback
for file in bin/pullback.exe bin/pullback-cli.exe bin/SDL2.dll share/pullback/fonts/B612-Regular.otf \
    licenses/cairo.txt uninstall.exe; do
    [ -s "$installed/$file" ] || fail "not installed: $file"
done
[ -s "$user/Roaming/Microsoft/Windows/Start Menu/Programs/Pullback.lnk" ] || fail "no entry in the start menu"
subsystem() {
    x86_64-w64-mingw32-objdump -p "$1" | sed -n 's/^Subsystem.*(\(.*\))/\1/p'
}
[ "$(subsystem "$installed/bin/pullback.exe")" = "Windows GUI" ] || fail "the window has a console beside it"
[ "$(subsystem "$installed/bin/pullback-cli.exe")" = "Windows CUI" ] || fail "the command line has no console"

# Each program of Windows under the name that scripts know.
as() {
    printf '#!/bin/sh\nexec wine "%s" "$@"\n' "$2" >"$work/wine/$1"
    chmod +x "$work/wine/$1"
}
as app/pullback "$installed/bin/pullback.exe"
as cli/pullback-cli "$installed/bin/pullback-cli.exe"
as lab/pullback-lab "$windows/programs/src/lab/pullback-lab.exe"
here=$linux/src/cli/pullback-cli there=$work/wine/cli/pullback-cli
step "installed"

# same NAME COMMAND...: pullback-cli here and there, byte for byte but for what a clock measured.
timeless='s/"\(realtime_factor\|wall_s\|time_ms\)": *[^,}]*//g'
same() {
    name=$1 code=0
    shift
    "$linux/src/${program:-cli/pullback-cli}" "$@" >"$work/$name.here" 2>&1 || code=$?
    "$work/wine/${program:-cli/pullback-cli}" "$@" >"$work/$name.there" 2>&1 || code="$code $?"
    [ "$code" = 0 ] || [ "${code% *}" = "${code#* }" ] || fail "$name ends with $code"
    sed -i "$timeless" "$work/$name.here" "$work/$name.there"
    cmp "$work/$name.here" "$work/$name.there" ||
        fail "$name: $(diff "$work/$name.here" "$work/$name.there" | head -n 6)"
}
# Every command that no build may change: runs, jobs, heat, years, houses, grades (docs/TESTING.md).
n=0
while IFS= read -r line; do
    case $line in '#'* | '') continue ;; esac
    line=${line#[0-9]: }
    n=$((n + 1)) program=cli/pullback-cli
    case $line in 'lab '*) line=${line#lab } program=lab/pullback-lab ;; esac
    # shellcheck disable=SC2086
    same "command-$n" $line
done <tests/app/determinism_commands.txt
step "$n commands print the same"
program=lab/pullback-lab same verify verify
step "verify prints the same: $(tail -n 1 "$work/verify.there")"
program=cli/pullback-cli

# A recording of each is played and graded by both; a name, a folder and a path as people have them.
folder="$work/Ana Núñez"
long=$folder
for _ in 1 2 3 4 5 6 7 8; do long="$long/una carpeta con un nombre bastante largo"; done
mkdir -p "$folder" "$long"
bay=assets/exercises/plain-2x4.json
"$here" run $bay --hands assets/hands/steady-foot.json --record "$folder/here.pbrun" >"$work/recorded.here"
"$there" run $bay --hands assets/hands/steady-foot.json --record "$long/there.pbrun" >"$work/recorded.there"
[ ${#long} -gt 300 ] || fail "a path of ${#long} letters is not long"
for run in "$folder/here.pbrun" "$long/there.pbrun"; do
    made=$(basename "$run" .pbrun)
    same "replay-$made" replay "$run" --json
    grep -q '"matches":true' "$work/replay-$made.there" || fail "$made does not replay"
    same "grade-$made" grade "$run" --json
    same "grade-es-$made" grade "$run" --lang es --units us
    "$here" grade "$run" --pdf "$work/$made-here.pdf" >/dev/null || :
    "$there" grade "$run" --pdf "$work/$made-there.pdf" >/dev/null || :
    for side in here there; do
        pdftotext -layout "$work/$made-$side.pdf" "$work/$made-$side.txt"
        pdftoppm -r 60 -gray "$work/$made-$side.pdf" "$work/$made-$side"
    done
    cmp "$work/$made-here.txt" "$work/$made-there.txt" || fail "the pages of $made say different things"
    for page in "$work/$made-here"-*.pgm; do
        cmp "$page" "$work/$made-there-${page##*-}" || fail "the pages of $made look different"
    done
done
step "recordings of both replay, grade and print alike; a path of ${#long} letters"

# One store, written by both in turn.
db="$long/store.db"
"$here" learners add "Ana Núñez" --db "$db" >/dev/null
"$there" runs import "$folder/here.pbrun" --learner "Ana Núñez" --db "$db" >/dev/null ||
    fail "a store of Linux cannot be written"
"$there" learners add "José Peña" --db "$db" >/dev/null
"$here" runs import "$long/there.pbrun" --learner "José Peña" --db "$db" >/dev/null ||
    fail "a store of Windows cannot be written"
same learners learners list --db "$db"
grep -q "Ana Núñez" "$work/learners.there" || fail "a name is not as it was given"
same runs runs list --json --db "$db"
same shown runs show 2 --db "$db"
same checked runs check --db "$db"
step "a store goes from one to the other and back"

# What is wrong is said in the same words, and nothing is left of an output that was broken off.
same no-file grade "$folder/none.pbrun"
same a-folder grade "$folder"
"$there" run $bay --hands assets/hands/steady-foot.json --pace 1 --signals "$folder/signals.csv" \
    --record "$folder/cut.pbrun" >"$work/broken" 2>&1 &
job=$!
for _ in $(seq 100); do
    [ -e "$folder/signals.csv.pullback-part" ] && [ -s "$folder/cut.pbrun" ] && break
    sleep 0.1
done
[ -e "$folder/signals.csv.pullback-part" ] || fail "no part of an output to be seen"
kill -INT $job
! wait $job || fail "Ctrl-C ends nothing"
[ -z "$(find "$folder" -name 'signals*')" ] || fail "a part of an output is left"
same cut-replays replay "$folder/cut.pbrun" --json
step "an output that was broken off leaves nothing"

sh tests/ports/kills.sh "$there" "$root" "$work/kills" "$kills" || fail "a recording was lost"
step "recordings killed"

# The window: no DISPLAY is known to it; the same pictures to the last pixel.
shots() {
    for view in pack years; do
        sh tests/ports/window_shots.sh "$1" "$root" "$work/shots-$2-$view" $view || fail "$view of $2"
    done
}
shots "$linux/src/app/pullback" here
shots "$work/wine/app/pullback" there
for picture in "$work"/shots-here-*/*.png; do
    other=$work/shots-there-${picture#"$work"/shots-here-}
    off=$(compare -metric AE "$picture" "$other" null: 2>&1) || :
    [ "$off" = 0 ] || fail "$picture: $off pixels differ"
    step "$(basename "$picture"): $off pixels differ"
done

# What a person made stays when the program goes.
mkdir -p "$user/Local/pullback"
echo kept >"$user/Local/pullback/kept"
wine "$installed/uninstall.exe" /S "_?=$(wine winepath -w "$installed" | tr -d '\r')" >"$work/uninstall.log" 2>&1 ||
    fail "uninstalling: $(cat "$work/uninstall.log")"
[ ! -e "$installed/bin" ] || fail "left behind: $(find "$installed")"
[ -s "$user/Local/pullback/kept" ] || fail "a person's runs went with the program"
step "uninstalled, runs kept"
