#!/bin/sh
# Every room at one pixel, at one pixel by 2000 and the other way round, and at 3840 x 2160: each size
# is drawn in each room; no crash, no OpenGL error, and the room still answers to a key afterwards.
. "$(dirname "$0")/window.sh" "$@"
need Xvfb xdotool awk stdbuf
somebody
open_screen 3840x2160
"$cli" runs import "$root/tests/app/recorded.pbrun" --learner Learner1 >"$work/said" 2>&1 ||
    fail "$(cat "$work/said")"
# $1 when: wait for each size and say so; at the end press something
sizes() {
    echo "$1 every 1"
    for size in "width_px < 2" "width_px > 3800" "height_px < 2" "height_px > 1900" "width_px 1280"; do
        echo "$1 wait $size 4000"
        echo "$1 print width_px"
    done
    awk -v t="$1" 'BEGIN { print t + 0.1, "key F10"; print t + 0.3, "expect card 1"
        print t + 0.4, "key Escape"; print t + 0.5, "end" }'
}
# the size for a number of sizes seen
size_for() {
    case $1 in
    0) echo "1 1" ;;
    1) echo "3840 2160" ;;
    2) echo "2000 1" ;;
    3) echo "1 2000" ;;
    *) echo "1280 800" ;;
    esac
}
# $1 name; the script of that name runs while somebody outside, as a window manager that minds no
# least size, pulls at the window until the script says that it has seen it
drive() {
    name=$1
    shift
    timeout 1200 stdbuf -oL "$program" --script "$work/$name.script" "$@" >"$work/$name.out" \
        2>"$work/$name.err" &
    pid=$!
    window=
    while kill -0 $pid 2>/dev/null; do
        [ -n "$window" ] || window=$(xdotool search --class '^pullback$' 2>/dev/null | head -n 1)
        # shellcheck disable=SC2046
        [ -z "$window" ] ||
            xdotool windowsize "$window" $(size_for "$(grep -c width_px "$work/$name.out")") 2>/dev/null || true
        sleep 0.1
    done
    set +e
    wait $pid
    code=$?
    set -e
    [ "$code" = 0 ] || fail "$name: exit $code: $(cat "$work/$name.out" "$work/$name.err")"
    no_gl_error "$work/$name.err"
    echo "$name: $(grep -c width_px "$work/$name.out") sizes"
}
for room in door bay years side debrief result; do
    case $room in
    result) run_script "$work/$room.script" 60 "5 key F
5.5 wait screen 1 60" && sizes 6 >>"$work/$room.script" ;;
    *) sizes 0.3 >"$work/$room.script" ;;
    esac
done
drive door --door
drive bay "$bay"
drive years --room years --fill 44 "$bay"
drive side --room side "$bay"
drive debrief --room debrief "$bay"
drive result "$bay"
echo "rooms: all sizes drawn"
