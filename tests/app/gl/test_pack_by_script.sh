#!/bin/sh
# A bay packed to a pass by scripted keys, in program time, the same twice over; then the picture:
# where the core says a density is, the pixel has the colour of the ramp.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb convert awk
script "$root/tests/app/gl/pack.script" --dump "$work/state.json" "$root/assets/exercises/plain-2x4.json" \
    >"$work/first" || fail "the script"
cat "$work/first"
script "$root/tests/app/gl/pack.script" "$root/assets/exercises/plain-2x4.json" >"$work/second" ||
    fail "the script, second time"
cmp "$work/first" "$work/second" || fail "two runs of one script differ"
sh "$root/tests/app/gl/compare_pixels.sh" "$work/state.json" "$work/result.png" map
