#!/bin/sh
# A whole wall: from the Door, its bays looked for by mouse and keys, and opened.
. "$(dirname "$0")/lib.sh" "$@"
need xvfb-run xauth
script "$root/tests/app/gl/wall.script" >"$work/out" || fail "the wall"
[ -s "$work/wall_closed.png" ] || fail "no picture of the closed wall"
[ -s "$work/wall_opened.png" ] || fail "no picture of the opened wall"
