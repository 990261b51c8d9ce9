#!/bin/sh
# SIGTERM and SIGHUP end the window in order: exit 0, settings kept, no half of a file left.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb xdotool
if [ -z "${PB_INSIDE:-}" ]; then
    export PB_INSIDE=1
    screen sh "$0" "$@"
    exit
fi
state=$work/state.json
for signal in TERM HUP; do
    env --default-signal=HUP,TERM "$program" --dump "$state" --shots "$work" "$root/assets/exercises/plain-2x4.json" \
        2>"$work/err" &
    pid=$!
    trap 'kill $pid 2>/dev/null || true' EXIT
    find_window $pid
    look
    xdotool key F11
    kill -$signal $pid
    code=0
    wait $pid || code=$?
    trap - EXIT
    [ $code = 0 ] || fail "SIG$signal: exit $code: $(cat "$work/err")"
    left=$(find "$work" -name '*pullback-part')
    [ -z "$left" ] || fail "SIG$signal left $left"
done
echo "endings: in order"
