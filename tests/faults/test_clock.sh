#!/bin/sh
# A clock that is put forward and back by an hour, over and over, while a run is recorded and kept:
# the length of the run is that of its ticks, its time is within an hour of the truth, and the store
# is sound. Then a process that is stopped for five seconds: it does not make up for them.
. "$(dirname "$0")/window.sh" "$@"
# preloading knows no path with a space
place=$(mktemp -d) && cp "$4" "$place/shim.so"
shim=$place/shim.so
trap 'rm -rf "$place"' EXIT
need Xvfb xdotool awk
somebody
run_script "$work/run.script" 60 "6 key F
6.5 wait screen 1 60
6.6 expect runs_kept 1
6.7 print time_s
6.8 end"
script "$work/run.script" "$bay" >"$work/still" 2>"$work/err" || fail "$(cat "$work/err")"
# shellcheck disable=SC2016
printf '#!/bin/sh\nLD_PRELOAD=%s exec "$@"\n' "$shim" >"$work/jumping.sh"
FAULT_CLOCK_S=3600 screen timeout 1200 sh "$work/jumping.sh" "$program" --script "$work/run.script" "$bay" \
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
"$program" --dump "$work/state.json" "$bay" >"$work/out" 2>"$work/err" &
find_window $! # from then on it takes signals
time_s() {
    rm -f "$work/state.json"
    kill -USR1 $pid
    for _ in $(seq 300); do
        grep -q '"nx"' "$work/state.json" 2>/dev/null && break
        sleep 0.1
    done
    sed -n 's/.*"time_s": \([0-9.]*\),.*/\1/p' "$work/state.json"
}
for _ in $(seq 300); do
    less 0 "$(time_s)" && break
    sleep 0.1
done
ran=$(seconds)
before=$(time_s)
kill -STOP $pid
stopped=$(seconds)
sleep 5
went_on=$(seconds)
kill -CONT $pid
after=$(time_s)
read_at=$(seconds)
kill -TERM $pid
set +e
timeout 200 tail --pid=$pid -f /dev/null
wait $pid
code=$?
set -e
[ "$code" = 0 ] || fail "asked to end: exit $code: $(cat "$work/err")"
# it may have run before the stop and after it, however busy the machine is, and a quarter of a second
# counts of the stop itself; making up for it would be five more
allowed=$(awk -v a="$ran" -v b="$stopped" -v c="$went_on" -v d="$read_at" 'BEGIN { print b - a + d - c + 0.5 }')
awk -v a="$before" -v b="$after" -v most="$allowed" 'BEGIN { exit !(a > 0 && b > a && b - a < most) }' ||
    fail "simulated time went from $before to $after s over a stop of 5 s, allowed $allowed"
echo "clock: runs of one length; stopped for 5 s, simulated $before to $after s"
