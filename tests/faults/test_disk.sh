#!/bin/sh
# A disk that is full and a home that is read-only: every program says one clear line, leaves no half
# of a file, and the window goes on; the run it could not keep is put where there is room, whole.
# Needs the right to mount; what needs none is in test_homes.sh.
. "$(dirname "$0")/window.sh" "$@"
need Xvfb awk
command -v unshare >/dev/null 2>&1 && command -v mount >/dev/null 2>&1 || skip "there is no unshare or mount here"
# a mount of our own that nobody else sees and that ends with the command
own_mounts() {
    if [ "$(id -u)" = 0 ]; then unshare -m "$@"; else unshare -rm "$@"; fi
}
own_mounts sh -c 'mount -t tmpfs -o size=64k none /mnt' 2>/dev/null ||
    skip "no mounts of our own are allowed here"
"$cli" run "$bay" --hands "$root/assets/hands/steady-foot.json" --record "$work/run.pbrun" >"$work/said"

# ---- the headless program ----
cat >"$work/full.sh" <<'END'
# $1 program, $2 source tree, $3 scratch, $4 a recorded run
set -u
mount -t tmpfs -o size=32k none "$3/small" || exit 77
cd "$3"
# $1 name; then a command that writes into small/: exit 4 and one line, nothing left
full() {
    name=$1
    shift
    head -c 28672 /dev/zero >small/filler
    "$@" >"$name.out" 2>"$name.err"
    code=$?
    rm small/filler
    lines=$(wc -l <"$name.err")
    left=$(ls small | tr '\n' ' ')
    rm -rf small/*
    [ "$code" = 4 ] || { echo "$name: exit $code: $(cat "$name.err")"; exit 1; }
    [ "$lines" = 1 ] || { echo "$name: $lines lines: $(cat "$name.err")"; exit 1; }
    grep -q 'No space left\|full' "$name.err" || { echo "$name: said $(cat "$name.err")"; exit 1; }
    [ -z "$left" ] || { echo "$name: left $left"; exit 1; }
    echo "full disk, $name: $(cat "$name.err")"
}
bay=$2/assets/exercises/plain-2x4.json
hands=$2/assets/hands/steady-foot.json
full density "$1" run "$bay" --hands "$hands" --density small/d.csv
full signals "$1" run "$bay" --hands "$hands" --signals small/s.csv
full frames "$1" age --density 45 --cells 8 --frames small/f.csv
full field "$1" heat "$2/assets/heat/iso10211_case1.json" --field small/h.csv
# a recording: the result is still told, what the disk took of the run opens and replays
head -c 24576 /dev/zero >small/filler
"$1" run "$bay" --hands "$hands" --record small/r.pbrun >record.out 2>record.err
code=$?
[ "$code" = 4 ] && [ "$(wc -l <record.err)" = 1 ] || { echo "record: exit $code: $(cat record.err)"; exit 1; }
grep -q 'No space left' record.err && grep -q '^ledger' record.out || { echo "record: $(cat record.err)"; exit 1; }
"$1" replay small/r.pbrun >replay.out 2>&1 || { echo "record: $(cat replay.out)"; exit 1; }
echo "full disk, record: $(cat record.err); $(grep recorded replay.out)"
rm -f small/*
# no room for a store: refused; what stays of it is good for the next try
head -c 28672 /dev/zero >small/filler
"$1" learners add Learner1 --db small/t.db >/dev/null 2>store.err
code=$?
rm small/filler
[ "$code" = 4 ] && [ "$(wc -l <store.err)" = 1 ] || { echo "store: exit $code: $(cat store.err)"; exit 1; }
mount -o remount,size=512k "$3/small" && "$1" learners add Learner1 --db small/t.db >said 2>&1 ||
    { echo "the store after a full disk: $(cat said)"; exit 1; }
# runs into it until there is no room; those that were taken stay whole
n=0
code=0
while [ "$code" = 0 ] && [ "$n" -lt 60 ]; do
    n=$((n + 1))
    "$1" run "$bay" --hands "$hands" --seed $n --record "next-$n.pbrun" >/dev/null || exit 1
    "$1" runs import "next-$n.pbrun" --learner Learner1 --db small/t.db >import.out 2>import.err
    code=$?
    head -c 163840 /dev/zero >>small/filler 2>/dev/null
done
[ "$code" = 4 ] && [ "$(wc -l <import.err)" = 1 ] || { echo "import: exit $code: $(cat import.err)"; exit 1; }
rm -f small/filler
"$1" runs check --db small/t.db >check.out 2>&1 || { echo "store: $(cat check.out)"; exit 1; }
[ "$("$1" runs list --csv --db small/t.db | grep -c '^[0-9]')" = $((n - 1)) ] || { echo "runs are missing"; exit 1; }
"$1" runs import "next-$n.pbrun" --learner Learner1 --db small/t.db >import.out 2>&1 ||
    { echo "with room again: $(cat import.out)"; exit 1; }
echo "full disk, store: $((n - 1)) runs in it, then $(cat import.err); sound, and it goes on with room"
END
mkdir -p "$work/small"
own_mounts sh "$work/full.sh" "$cli" "$root" "$work" "$work/run.pbrun" || fail "a full disk"

# ---- the window ----
run_script "$work/run.script" 60 "6 key F
6.5 wait screen 1 60
6.6 expect runs_kept 0
6.6 expect has_notice 1
6.7 end"
cat >"$work/window.sh" <<'END'
# $1 program, $2 cli, $3 scratch, $4 script, $5 exercise: the store is made while there is room
mount -t tmpfs -o size=400k none "$3/small" || exit 77
export XDG_DATA_HOME="$3/small" HOME="$3/home" TMPDIR="$3/home"
"$2" learners add Learner1 >/dev/null || exit 1
# room enough to open the store, for SQLite shares 32 KiB of memory through a file, and no more
head -c 40960 /dev/zero >"$3/small/room"
dd if=/dev/zero of="$3/small/filler" bs=1k 2>/dev/null
rm "$3/small/room"
"$1" --script "$4" "$5" 2>"$3/window.err" || { cat "$3/window.err"; exit 1; }
rm "$3/small/filler"
"$2" runs check >"$3/check" 2>&1 || { cat "$3/check"; exit 1; }
END
mkdir -p "$work/home" "$XDG_CONFIG_HOME/pullback"
echo '{"format": "pullback settings 1", "learner": "Learner1"}' >"$XDG_CONFIG_HOME/pullback/settings.json"
if [ "$(id -u)" = 0 ]; then as_own="unshare -m"; else as_own="unshare -rm"; fi
# shellcheck disable=SC2086
screen $as_own sh "$work/window.sh" "$program" "$cli" "$work" "$work/run.script" "$bay" >"$work/out" 2>&1 ||
    fail "the window on a full disk: $(cat "$work/out")"
grep -q '^pullback: a run that could not be kept is in ' "$work/window.err" || fail "said: $(cat "$work/window.err")"
"$cli" replay "$work/home/pullback-run-1.pbrun" >"$work/replay" || fail "the run put elsewhere: $(cat "$work/replay")"
echo "full disk, window: $(tail -n 1 "$work/window.err")"

# ---- a home that can only be read ----
printf '0.1 every 60\n0.5 expect rows > 10\n0.6 key Return\n1.0 expect screen 0\n1.1 end\n' >"$work/door.script"
mkdir -p "$work/plain"
if own_mounts sh -c "mount --bind '$work/plain' '$work/plain' && mount -o remount,ro,bind '$work/plain'" 2>/dev/null; then
    cat >"$work/ro.sh" <<'END'
mount --bind "$1" "$1" && mount -o remount,ro,bind "$1" || exit 77
shift
exec "$@"
END
    mkdir -p "$work/ro"
    # shellcheck disable=SC2086
    screen $as_own sh "$work/ro.sh" "$work/ro" timeout 600 env -u XDG_DATA_HOME -u XDG_CONFIG_HOME HOME="$work/ro" \
        "$program" --door --script "$work/door.script" 2>"$work/home.err" || fail "read-only: $(cat "$work/home.err")"
    [ "$(grep -c 'grades are not kept.*Read-only' "$work/home.err")" = 1 ] || fail "read-only: said $(cat "$work/home.err")"
    echo "home read-only: $(grep '^pullback' "$work/home.err" | head -n 1)"
else
    echo "passed over: a folder cannot be mounted read-only here"
fi
echo "disk: all said so"
