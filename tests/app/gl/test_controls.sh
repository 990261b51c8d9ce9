#!/bin/sh
# Mouse, wheel, drag, keys, Tab and arrows do what they say; and at every text size and language a
# frame can be drawn and a picture taken.
. "$(dirname "$0")/lib.sh" "$@"
need xvfb-run xauth
plain="$root/assets/exercises/plain-2x4.json"
script "$root/tests/app/gl/controls.script" "$plain" || fail "controls"
script "$root/tests/app/gl/controls_pad.script" "$plain" || fail "controller"
script "$root/tests/app/gl/taps.script" "$plain" || fail "keys let go at once"
rm -rf "$work/config"
# a window is as small as --size says, though nobody can pull it so small
printf '0.2 expect width_px 640\n0.2 expect height_px 400\n0.3 end\n' >"$work/small.script"
script "$work/small.script" --size 640x400 "$plain" || fail "a window of 640x400"
cat >"$work/look.script" <<'END'
0.2 shot look.png
0.4 end
END
sizes="1.0 1.2 1.5 1.8 2.0"
{
    at_sizes 0.2 sized "$sizes"
} >"$work/sizes.script"
for lang in en es; do
    for size in 900x600 1280x800; do
        for first in "$plain" --door; do
            script "$work/sizes.script" "$first" --lang $lang --scale 1.0 --size $size ||
                fail "$first $lang $size"
            drawn sized "$sizes"
        done
    done
done
rm -rf "$work/config"
for exercise in "$root"/assets/exercises/*.json; do
    script "$work/look.script" "$exercise" || fail "$exercise"
done
echo "controls: all answered"
