#!/bin/sh
# A clock that is put forward and back by an hour, over and over, while a run is recorded and kept:
# the length of the run is that of its ticks, its time is within an hour of the truth, and the store
# is sound. Then a process that is stopped for three seconds: it does not make up for them.
. "$(dirname "$0")/window.sh" "$@"
# preloading knows no path with a space
place=$(mktemp -d) && cp "$4" "$place/shim.so"
shim=$place/shim.so
trap 'rm -rf "$place"' EXIT
need xvfb-run xauth xdotool awk
somebody
run_script "$work/run.script" 60 "6 key F
6.5 wait screen 1 60
6.6 expect runs_kept 1
6.7 print time_s
6.8 end"
script "$work/run.script" "$bay" >"$work/still" 2>"$work/err" || fail "$(cat "$work/err")"
# shellcheck disable=SC2016
printf '#!/bin/sh\nLD_PRELOAD=%s exec "$@"\n' "$shim" >"$work/jumping.sh"
FAULT_CLOCK_S=3600 screen timeout 120 sh "$work/jumping.sh" "$program" --script "$work/run.script" "$bay" \
    >"$work/jumped" 2>"$work/err" || fail "with a jumping clock: $(cat "$work/err")"
rm -rf "$place"
cmp "$work/still" "$work/jumped" || fail "the clock changed the run"
[ "$(kept)" = 2 ] || fail "$(kept) runs are kept, not 2"
"$cli" runs check >"$work/check" || fail "the store: $(cat "$work/check")"
now=$(date +%s)
"$cli" runs list --csv | sed -n 's/.*,\(20..-..-..T..:..:..Z\),.*/\1/p' >"$work/times"
[ "$(wc -l <"$work/times")" = 2 ] || fail "no times of two runs: $(cat "$work/times")"
while read -r when; do
    off=$(($(date -d "$when" +%s) - now))
    [ "$off" -gt -4000 ] && [ "$off" -lt 4000 ] || fail "a run of $when"
done <"$work/times"
hashes=$("$cli" runs list --csv | cut -d, -f6 | sort -u | wc -l)
[ "$hashes" = 2 ] || fail "the two runs are not of one length" # the title line is one of them

# stopped and continued: the window at its own pace, its state asked for by a signal
open_screen 1280x800
"$program" --dump "$work/state.json" "$bay" >"$work/out" 2>"$work/err" &
pid=$!
time_s() {
    rm -f "$work/state.json"
    kill -USR1 $pid
    for _ in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do
        grep -q '"nx"' "$work/state.json" 2>/dev/null && break
        sleep 0.1
    done
    sed -n 's/.*"time_s": \([0-9.]*\),.*/\1/p' "$work/state.json"
}
sleep 3
before=$(time_s)
kill -STOP $pid
sleep 3
kill -CONT $pid
sleep 0.1
after=$(time_s)
kill -TERM $pid
set +e
timeout 20 tail --pid=$pid -f /dev/null
wait $pid
code=$?
set -e
[ "$code" = 0 ] || fail "asked to end: exit $code: $(cat "$work/err")"
# the two calls themselves take up to 2 s each on a busy machine; making up for the gap would be 3 more
awk -v a="$before" -v b="$after" 'BEGIN { exit !(a > 0 && b > a && b - a < 2.5) }' ||
    fail "simulated time went from $before to $after s over a stop of 3 s"
echo "clock: runs of one length; stopped for 3 s, simulated $before to $after s"
