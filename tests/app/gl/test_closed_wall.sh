#!/bin/sh
# The closed wall: packed to a pass by keyboard, by mouse and by a virtual controller, going by the
# rattle alone; on the way frames are drawn twice with everything hidden exchanged and must be equal
# to the byte. Then small and large text can be drawn closed and taped, in both languages.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
for hand in keys mouse pad; do
    script "$root/tests/app/gl/closed_$hand.script" "$root/assets/exercises/plain-2x4.json" || fail "$hand"
done
: >"$work/look.script"
for scale in 1.0 1.5 2.0; do
    case $scale in 1.0) t=0 ;; 1.5) t=3 ;; *) t=6 ;; esac
    awk -v t=$t '{ printf "%.2f", t + $1; $1 = ""; print }' <<END
0.1 expect text_scale $scale
0.1 key V
0.2 shot taped-$scale.png
0.3 hidden 1
0.4 key V
0.5 expect sight 2
0.6 hidden 0
0.6 shot closed-$scale.png
0.7 key F9
0.8 expect keys_open 1
0.9 shot keys-$scale.png
1.0 key Escape
1.1 expect keys_open 0
1.2 key V
1.4 expect sight 0
1.5 key ctrl+=
1.6 key ctrl+=
1.7 key ctrl+=
1.8 key ctrl+=
1.9 key ctrl+=
END
done >>"$work/look.script"
echo '9 end' >>"$work/look.script"
for look in "en --size 900x600" "es --size 1280x800"; do
    # shellcheck disable=SC2086
    script "$work/look.script" --room bay --scale 1.0 --lang $look || fail "$look"
    for picture in taped closed keys; do
        drawn $picture "1.0 1.5 2.0"
    done
done
echo "closed wall: nothing hidden on the screen"
