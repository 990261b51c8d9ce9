#!/bin/sh
# 300 % load on two cores: the same scripted run, with and without, has the same state hash at the
# end, for physics goes by ticks and not by frames. Without a script a slow machine drops time, and
# says so, instead of running after it.
. "$(dirname "$0")/window.sh" "$@"
need Xvfb timeout
somebody
run_script "$work/run.script" 30 "4 keydown W
5 keyup W
6 key F
6.5 wait screen 1 60
6.6 expect runs_kept 1
6.7 print fed_kg
6.8 end"
hash_of() { # run $1 of the store
    "$cli" runs export "$1" "$work/run-$1.pbrun" >"$work/said" 2>&1 || fail "$(cat "$work/said")"
    "$cli" replay "$work/run-$1.pbrun" --json >"$work/replay" || fail "run $1 does not replay"
    sed -n 's/.*"state_hash":"\([^"]*\)".*/\1/p' "$work/replay"
}
script "$work/run.script" "$bay" >"$work/calm" 2>"$work/err" || fail "$(cat "$work/err")"
busy=
for _ in 1 2 3 4 5 6; do
    timeout 100 sh -c 'while :; do :; done' &
    busy="$busy $!"
done
# shellcheck disable=SC2064
trap "kill $busy 2>/dev/null || true" EXIT
script "$work/run.script" "$bay" >"$work/loaded" 2>"$work/err" || fail "under load: $(cat "$work/err")"
# shellcheck disable=SC2086
kill $busy
cmp "$work/calm" "$work/loaded" || fail "the load changed the run"
a=$(hash_of 1) b=$(hash_of 2)
[ -n "$a" ] && [ "$a" = "$b" ] || fail "hashes $a and $b"
echo "load: both runs end in $a"
