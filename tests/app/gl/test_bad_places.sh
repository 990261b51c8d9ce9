#!/bin/sh
# No display, no OpenGL 3.3, a driver that shows nothing, bad files, bad options: one clear sentence
# on stderr, the documented exit code, and no crash.
. "$(dirname "$0")/lib.sh" "$@"

# expect CODE WORDS command...
expect() {
    code=$1
    words=$2
    shift 2
    set +e
    timeout 600 "$@" >"$work/out" 2>"$work/err"
    got=$?
    set -e
    [ "$got" = "$code" ] || fail "$*: exit $got, expected $code: $(cat "$work/err")"
    grep -q "$words" "$work/err" || fail "$*: said \"$(cat "$work/err")\", expected \"$words\""
    # Libraries below may say things of their own; the program says one line.
    lines=$(grep -c '^pullback: ' "$work/err")
    [ "$lines" = 1 ] || fail "$*: $lines lines, expected one: $(cat "$work/err")"
}
sed 's/"board_pitch_m": 0.14/"board_pitch_m": "wide"/' "$root/assets/exercises/plain-2x4.json" >"$work/bad.json"
printf '{"format": "pullb' >"$work/cut.json"

expect 1 "no display" env -u DISPLAY "$program"
expect 1 "no display" env DISPLAY=:9999 "$program"
expect 2 "\-\-scale" "$program" --scale 7
expect 2 "\-\-size" "$program" --size big
expect 2 "\-\-lang" "$program" --lang xx
expect 2 "\-\-lang" "$program" --lang estonian
expect 2 "whole number" "$program" --bench-frames 2.5
expect 2 "nonsense" "$program" --nonsense 1
expect 2 "a value after it" "$program" --seed
expect 3 "bad.json:[0-9]*:[0-9]*: .*expected" "$program" "$work/bad.json"
expect 3 "cut.json:1:" "$program" "$work/cut.json"
expect 4 "none.json" "$program" "$work/none.json"

need Xvfb
expect 1 "OpenGL 3.3" env SDL_VIDEODRIVER=dummy "$program"
PB_OLD_GL=$work/old_gl.sh
printf '#!/bin/sh\n. "%s/tests/app/gl/lib.sh"\nscreen env MESA_GL_VERSION_OVERRIDE=2.1 "$program"\n' "$root" >"$PB_OLD_GL"
expect 1 "OpenGL" sh "$PB_OLD_GL" "$program" "$root" "$work.old"
echo "bad places: each with its sentence"
