#!/bin/sh
# Recordings of a program under wine, killed at random moments: each opens and replays, hash by hash,
# and has all but the last second of the clock since its file was there.
#   kills.sh PULLBACK_CLI TREE SCRATCH KILLS
# As tests/app/kill_record.sh, but by the clock of the file: wine takes its time to start a program.
set -eu
cli=$1 root=$2 scratch=$3 kills=$4
rm -rf "$scratch"
mkdir -p "$scratch"
n=0 late=0 worst=0
while [ "$n" -lt "$kills" ]; do
    n=$((n + 1)) pace=$((1 + 9 * (n % 2)))
    file=$scratch/run-$n.pbrun
    delay=$(awk -v n="$n" 'BEGIN { srand(n * 7919); printf "%.3f", 0.05 + 2.95 * rand() }')
    "$cli" run "$root/assets/exercises/plain-2x4.json" --hands "$root/assets/hands/steady-foot.json" \
        --record "$file" --pace "$pace" --seed "$n" >"$scratch/out" 2>&1 &
    pid=$!
    while [ ! -s "$file" ]; do
        kill -0 "$pid" 2>/dev/null || {
            echo "run $n ends by itself: $(cat "$scratch/out")" >&2
            exit 1
        }
        sleep 0.02
    done
    begin=$(date +%s.%N)
    sleep "$delay"
    waited=$(cat "/proc/$pid"/task/*/schedstat 2>/dev/null | awk '{ s += $2 } END { print s / 1e9 }')
    end=$(date +%s.%N)
    kill -9 "$pid"
    wait "$pid" 2>/dev/null || true
    if ! "$cli" replay "$file" --json >"$scratch/replay.json" 2>"$scratch/said" ||
        ! grep -q '"matches":true' "$scratch/replay.json"; then
        echo "run $n does not replay: $(cat "$scratch/said" "$scratch/replay.json")" >&2
        exit 1
    fi
    replayed=$(sed -n 's/.*"replayed_s":\([0-9.]*\).*/\1/p' "$scratch/replay.json")
    lost=$(awk -v b="$begin" -v e="$end" -v p="$pace" -v r="$replayed" -v w="$waited" \
        'BEGIN { print e - b - w - r / p }')
    worst=$(awk -v a="$worst" -v b="$lost" 'BEGIN { print (b > a) ? b : a }')
    awk -v l="$lost" 'BEGIN { exit !(l > 1.0) }' && late=$((late + 1))
done
echo "$kills kills: all opened and matched hash by hash, $late lost more than a second, at most $worst s"
[ "$late" -eq 0 ]
