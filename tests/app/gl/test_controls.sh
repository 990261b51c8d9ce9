#!/bin/sh
# Mouse, wheel, drag, keys, Tab and arrows do what they say; and at every text size and language a
# frame can be drawn and a picture taken.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
plain="$root/assets/exercises/plain-2x4.json"
script "$root/tests/app/gl/controls.script" "$plain" || fail "controls"
script "$root/tests/app/gl/controls_pad.script" "$plain" || fail "controller"
script "$root/tests/app/gl/taps.script" "$plain" || fail "keys let go at once"
rm -rf "$work/config"
# a window is as small as --size says, though nobody can pull it so small
printf '0.2 expect width_px 640\n0.2 expect height_px 400\n0.3 end\n' >"$work/small.script"
script "$work/small.script" --size 640x400 "$plain" || fail "a window of 640x400"
sizes="1.0 1.2 1.5 1.8 2.0"
at_sizes 0.2 sized "$sizes" >"$work/sizes.script"
for look in "900x600 en $plain" "1280x800 es --door"; do # more of them are read by app.gl.large_text
    size=${look%% *} first=${look#* }
    script "$work/sizes.script" "${first#* }" --lang "${first%% *}" --scale 1.0 --size "$size" || fail "$look"
    drawn sized "$sizes"
done
rm -rf "$work/config"
# every exercise, one after the other in one window; script lines part at spaces
place=$(mktemp -d)
cp "$root"/assets/exercises/*.json "$place"
for exercise in "$place"/*; do
    printf '%s drop %s\n%s wait screen 0 60\n%s shot %s.png\n%s key Escape\n%s wait screen 2 60\n' \
        0.3 "$exercise" 0.5 0.7 "$(basename "$exercise" .json)" 0.8 1.0
done | awk -v t=0 '{ $1 += t } { print } /screen 2/ { t += 1 } END { print t + 0.3, "end" }' >"$work/each.script"
script "$work/each.script" --door || fail "opening each exercise"
for exercise in "$place"/*; do
    [ -s "$work/$(basename "$exercise" .json).png" ] || fail "no picture of $exercise"
done
rm -r "$place"
echo "controls: all answered"
