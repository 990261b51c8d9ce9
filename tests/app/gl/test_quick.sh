#!/bin/sh
# The real window, stopped while the pointer clicks and the keys are struck, as on a machine that
# shows one picture a second: all of it comes at once, and each click and key counts, in its order.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb xdotool awk
if [ -z "${PB_INSIDE:-}" ]; then
    export PB_INSIDE=1
    screen sh "$0" "$@"
    exit
fi
state=$work/state.json
"$program" --room side --house "$root/tests/app/data/low-house.json" --db "$work/p.db" --lang en \
    --units si --size 1280x800 --scale 1.0 --dump "$state" &
pid=$!
trap 'kill -CONT $pid 2>/dev/null || true; kill $pid 2>/dev/null || true' EXIT
find_window $pid
is() { # is KEY 'awk condition on v'
    look
    awk -v v="$(value "$1")" "BEGIN { exit !($2) }"
}
await() { # await KEY CONDITION
    for _ in $(seq 80); do
        is "$1" "$2" && return 0
        sleep 0.1
    done
    fail "waited for $1: $2, it is $(value "$1")"
}
spot() { # spot NAME FX: its pixels, as of the last look
    sed -n "s/.*\"$1\": \[\(.*\)\].*/\1/p" "$state" | tr -d ' ' |
        awk -F, -v fx="${2:-0.5}" '{ printf "%d %d", $1 + fx * $3, $2 + 0.5 * $4 }'
}
click() { # click NAME FX; the place must have been there at the last look
    xy=$(spot "$@")
    [ -n "$xy" ] || fail "there is no $1"
    # shellcheck disable=SC2086
    xdotool mousemove --window "$window" $xy click 1
}
# The commands between are all there before the program looks at the first.
at_once() { kill -STOP $pid; }
go_on() { kill -CONT $pid; }

# Quick clicks on the rail, one in each stop, and two in one of which the later counts.
await years 'v == 0'
for _ in $(seq 80); do # the first picture may still be on its way
    [ -n "$(spot rail)" ] && break
    sleep 0.1
    look
done
for place in "0.7746 v>29.5&&v<30.5" "0.4472 v>9.5&&v<10.5" "0.8944 v>39.5&&v<40.5"; do
    at_once
    click rail "${place% *}"
    go_on
    await years "${place#* }"
done
at_once
click rail 0.2
click rail 0.7746
go_on
await years 'v > 29.5 && v < 30.5'

# The house page: five figures retyped and one taken back by Ctrl+A, all in one stop.
click to_house
await side_page 'v == 1'
look
at_once
click field_5
xdotool type --delay 0 140.6
click field_6
xdotool type --delay 0 999
xdotool key --delay 0 BackSpace BackSpace BackSpace
xdotool type --delay 0 21
click field_2 0.4
xdotool type --delay 0 2000
click field_3 0.4
xdotool key --delay 0 ctrl+a
xdotool type --delay 0 2510
xdotool key --delay 0 Left BackSpace 0 # 2500
click field_4 0.4
xdotool type --delay 0 3000
click use
go_on
await side_page 'v == 0'
is side_refused 'v == -1' || fail "refused: $(value side_refused)"
is side_area_m2 'v == 140.6' || fail "wall area $(value side_area_m2)"
is side_degree_days 'v == 2500' || fail "degree-days $(value side_degree_days)"

# A name of fifteen letters loses twelve, and what is typed then follows what stays.
click to_house
await side_page 'v == 1'
look
at_once
click field_0 0.98
xdotool key --delay 0 ctrl+a
xdotool type --delay 0 fifteen-letters
xdotool key --delay 0 --repeat 12 BackSpace
xdotool type --delay 0 -- -house
click use
go_on
await side_page 'v == 0'
kill $pid
wait $pid || true
grep -aq 'fif-house' "$work"/p.db* || fail "the name is not fif-house"
