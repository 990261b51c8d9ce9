#!/bin/sh
# The closed wall: packed to a pass by keyboard, by mouse and by a virtual controller, going by the
# rattle alone; on the way frames are drawn twice with everything hidden exchanged and must be equal
# to the byte. Then every text size and language can be drawn closed and taped.
. "$(dirname "$0")/lib.sh" "$@"
need xvfb-run xauth
for hand in keys mouse pad; do
    script "$root/tests/app/gl/closed_$hand.script" "$root/assets/exercises/plain-2x4.json" || fail "$hand"
done
cat >"$work/look.script" <<'END'
0.1 key V
0.2 shot taped.png
0.3 hidden 1
0.4 key V
0.5 expect sight 2
0.6 hidden 0
0.6 shot closed.png
0.7 key F9
0.8 expect keys_open 1
0.9 shot keys.png
1.0 key Escape
1.1 expect keys_open 0
1.2 end
END
for lang in en es; do
    for scale in 1.0 1.5 2.0; do
        for size in 900x600 1920x1080; do
            script "$work/look.script" --room bay --lang $lang --scale $scale --size $size || fail "$lang $scale $size"
        done
    done
done
echo "closed wall: nothing hidden on the screen"
