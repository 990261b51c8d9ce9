#!/bin/sh
# The real window, left alone: pictures that nothing has changed are not drawn. Counted, not timed: a
# machine that is slow draws no more of them. Then a hand moves the pointer, and they come again.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb xdotool awk
if [ -z "${PB_INSIDE:-}" ]; then
    export PB_INSIDE=1
    screen sh "$0" "$@"
    exit
fi
state=$work/state.json
# idle NAME MOST OPTIONS...: at most so many pictures in three seconds, where sixty a second used to come
idle() {
    name=$1 most=$2
    shift 2
    "$program" "$@" --db "$work/$name.db" --lang en --units si --size 1024x700 --scale 1.0 \
        --dump "$state" &
    pid=$!
    trap 'kill $pid 2>/dev/null || true' EXIT
    find_window $pid
    sleep 2 # letters that are drawn for the first time, the window manager's last word
    look
    before=$(value frames)
    sleep 3
    look
    drawn=$(awk -v a="$before" -v b="$(value frames)" 'BEGIN { print b - a }')
    echo "$name: $drawn pictures in three seconds"
    [ "$drawn" -le "$most" ] || fail "$name drew $drawn pictures while nothing moved, not $most"
    before=$(value frames)
    for x in 100 140 180 220 260 300; do
        xdotool mousemove --window "$window" "$x" 300
        sleep 0.1
    done
    await frames "v >= $before + 3" 5
    kill $pid
    wait $pid || true
}
idle door 1 --door
idle debrief 1 --room debrief
# The clock of a run whose machine is off goes on by the second.
idle bay 8 --room bay
