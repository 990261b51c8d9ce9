#!/bin/sh
# Two windows and two headless programs on one store at once, all writing: each does its work, or
# says that the store is busy and changes nothing; afterwards the store is sound and nothing is
# missing.
. "$(dirname "$0")/window.sh" "$@"
need Xvfb
somebody
open_screen 1280x800
run_script "$work/run.script" 60 "4 key F
4.5 wait screen 1 60
4.6 expect runs_kept 1
4.7 end"
for seed in 1 2; do
    timeout 1200 "$program" --seed $seed --script "$work/run.script" "$bay" >"$work/window-$seed" 2>&1 &
    [ $seed = 1 ] && first=$! || second=$!
done
cat >"$work/many.sh" <<'END'
# $1 cli, $2 source tree, $3 name, $4 folder: four learners, each with a run of their own and a comment on it
for n in 1 2 3 4; do
    who="$3-$n"
    "$1" run "$2/tests/app/data/low-bay.json" --hands "$2/tests/app/data/low-three-foot.json" \
        --seed "$(printf %d "'$3")$n" --record "$4/$who.pbrun" >/dev/null || exit 1
    "$1" learners add "$who" >/dev/null || exit 1
    id=$("$1" runs import "$4/$who.pbrun" --learner "$who" | sed -n 's/.*run \([0-9]*\).*/\1/p')
    [ -n "$id" ] || exit 1
    "$1" runs comment "$id" --part run --points 60 --reason "seen" --by "$3" >/dev/null || exit 1
done
END
for name in a b; do
    timeout 1200 sh "$work/many.sh" "$cli" "$root" $name "$work" >"$work/many-$name" 2>&1 &
    [ $name = a ] && third=$! || fourth=$!
done
lost=
for pid in $first $second $third $fourth; do
    wait "$pid" || lost="$lost $pid"
done
[ -z "$lost" ] || fail "not all got through: $(cat "$work"/window-? "$work"/many-?)"
"$cli" runs check >"$work/check" || fail "the store: $(cat "$work/check")"
[ "$(kept)" = 10 ] || fail "$(kept) runs, not 10"
[ "$("$cli" learners list | grep -c '[ab]-[0-9]')" = 8 ] || fail "learners are missing"

# a store that stays locked: one line that says so, exit 4, within the time that calls wait
cat >"$work/lock.sh" <<'END'
# $1 database: holds it for writing until killed
exec 3>&1
{ echo "BEGIN IMMEDIATE;"; echo "SELECT 'held';"; sleep 600; } | sqlite3 "$1"
END
if command -v sqlite3 >/dev/null 2>&1; then
    setsid sh "$work/lock.sh" "$db" >"$work/held" 2>&1 &
    holder=$!
    for _ in $(seq 300); do
        [ -s "$work/held" ] && break
        sleep 0.1
    done
    set +e
    timeout 300 "$cli" learners add Late >"$work/out" 2>"$work/err"
    code=$?
    set -e
    kill -- -$holder
    [ "$code" = 4 ] && grep -qi 'busy\|another program' "$work/err" || fail "locked: exit $code: $(cat "$work/err")"
    echo "locked: $(cat "$work/err")"
else
    echo "locked: not tried, there is no sqlite3 here"
fi
echo "two copies: 10 runs and 8 comments of four writers, all there"
