#!/bin/sh
# The display goes away in the middle of a run: the program ends by itself in a bounded time with one
# clear line and exit code 1, and the run as far as it went is in the store and replays.
. "$(dirname "$0")/window.sh" "$@"
need Xvfb awk
somebody
open_screen 1280x800
run_script "$work/long.script" 1 "4000 end"
"$program" --script "$work/long.script" "$bay" >"$work/out" 2>"$work/err" &
pid=$!
for _ in $(seq 300); do # until material has gone in
    sleep 0.5
    size=$(cat "$XDG_DATA_HOME"/pullback/runs/*.run 2>/dev/null | wc -c)
    [ "$size" -gt 2500 ] && break
done
[ "$size" -gt 2500 ] || fail "nothing is being recorded ($size bytes)"
kill -9 "$xvfb"
begin=$(seconds)
set +e
timeout 300 tail --pid=$pid -f /dev/null # 300 s and it counts as hanging
late=$?
wait $pid
code=$?
set -e
[ "$late" = 0 ] || { kill -9 $pid; fail "it hangs"; }
took=$(awk -v a="$begin" -v b="$(seconds)" 'BEGIN { print b - a }')
[ "$code" = 1 ] || fail "exit $code: $(cat "$work/err")"
[ "$(grep -c '^pullback: ' "$work/err")" = 1 ] || fail "said: $(cat "$work/err")"
grep -q '^pullback: the display went away; the run so far is kept' "$work/err" ||
    fail "said: $(cat "$work/err")"
[ "$(kept)" = 1 ] || fail "the run is not in the store"
"$cli" runs check >"$work/check" || fail "the store: $(cat "$work/check")"
"$cli" runs export 1 "$work/kept.pbrun" >"$work/said" 2>&1 || fail "$(cat "$work/said")"
"$cli" replay "$work/kept.pbrun" >"$work/replay" || fail "it does not replay: $(cat "$work/replay")"
echo "display gone: ended after $took s; $(grep recorded "$work/replay")"
