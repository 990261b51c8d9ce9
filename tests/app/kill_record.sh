#!/bin/sh
# Recordings killed at random moments: each file must open and replay, hash by hash, to within one
# second of the last moment that the recorder was told of.
#   kill_record.sh PULLBACK_CLI SOURCE_TREE SCRATCH [KILLS]
# A run at its own pace, or at 20 times it, is killed 0.05 to 2 s after its start. The recorder owes all but the last
# second of the wall clock, start-up of the process included, which counts against it here; what it waited for a
# processor on a busy machine does not.
set -eu
cli=$1 root=$2 scratch=$3 kills=${4:-20}

rm -rf "$scratch"
mkdir -p "$scratch"
n=0 opened=0 same=0 late=0 worst=0 early=0
while [ "$n" -lt "$kills" ]; do
    n=$((n + 1)) pace=$((1 + 19 * (n % 2)))
    file=$scratch/run-$n.pbrun
    # No seed from the clock: the same delays every time.
    delay=$(awk -v n="$n" 'BEGIN { srand(n * 7919); printf "%.3f", 0.05 + 1.95 * rand() }')
    "$cli" run "$root/assets/exercises/plain-2x4.json" --hands "$root/assets/hands/steady-foot.json" \
        --record "$file" --pace "$pace" --seed "$n" >"$scratch/out-$n" 2>&1 &
    pid=$!
    begin=$(date +%s.%N)
    sleep "$delay"
    waited=$(cat "/proc/$pid"/task/*/schedstat 2>/dev/null | awk '{ s += $2 } END { print s / 1e9 }')
    end=$(date +%s.%N)
    kill -9 "$pid"
    wait "$pid" 2>/dev/null || true
    if [ ! -s "$file" ]; then
        # killed before the file was made: there was no run yet
        early=$((early + 1))
        continue
    fi
    if ! "$cli" replay "$file" --json >"$scratch/replay-$n.json" 2>"$scratch/said-$n"; then
        echo "run $n: does not replay: $(cat "$scratch/said-$n")" >&2
        exit 1
    fi
    opened=$((opened + 1))
    grep -q '"matches":true' "$scratch/replay-$n.json" && same=$((same + 1))
    # Seconds of wall clock that are not in the file; the process's own start counts against it.
    replayed=$(sed -n 's/.*"replayed_s":\([0-9.]*\).*/\1/p' "$scratch/replay-$n.json")
    lost=$(awk -v b="$begin" -v e="$end" -v p="$pace" -v r="$replayed" -v w="$waited" \
        'BEGIN { print e - b - w - r / p }')
    worst=$(awk -v a="$worst" -v b="$lost" 'BEGIN { print (b > a) ? b : a }')
    awk -v l="$lost" 'BEGIN { exit !(l > 1.0) }' && late=$((late + 1))
    rm -f "$scratch/out-$n"
done
echo "$kills kills: $early before there was a file, $opened opened, $same matched hash by hash, $late lost more than a second, at most $worst s"
# Without one run opened nothing was proven.
[ "$late" -eq 0 ] && [ "$same" -eq "$opened" ] && [ "$((opened + early))" -eq "$kills" ] &&
    [ "$opened" -gt 0 ]
