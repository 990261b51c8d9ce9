#!/bin/sh
# usage: signals.sh PULLBACK-CLI SOURCE_TREE BUILD_FOLDER
# SIGTERM, SIGHUP and SIGINT in the middle of a run leave no half of an output; what SIGKILL leaves is
# in nobody's way and goes with the next run.
set -eu
program=$1 root=$2 folder=$3
rm -rf "$folder"
mkdir -p "$folder"
cd "$folder"
fail() {
    echo "signals: $*" >&2
    exit 1
}
start() {
    # a shell has its background processes ignore SIGINT
    env --default-signal=INT,HUP,TERM "$program" run "$root/assets/exercises/plain-2x4.json" \
        --hands "$root/assets/hands/steady-foot.json" --density d.csv --signals s.csv "$@" >/dev/null &
    pid=$!
    tries=0
    until [ -e s.csv.pullback-part ]; do
        tries=$((tries + 1))
        [ $tries -lt 600 ] || fail "no part file after a minute"
        sleep 0.1
    done
}
for signal in TERM:143 HUP:129 INT:130; do
    start --pace 1
    kill -"${signal%:*}" $pid
    code=0
    wait $pid 2>/dev/null || code=$?
    [ $code = "${signal#*:}" ] || fail "SIG${signal%:*}: exit $code"
    [ -z "$(ls)" ] || fail "SIG${signal%:*} left: $(ls)"
done
start --pace 1
kill -KILL $pid
wait $pid 2>/dev/null || true
ls ./*.pullback-part >/dev/null || fail "no part file to find"
rm s.csv.pullback-part
# another program that is writing there is told of, not written over
start --pace 1
"$program" run "$root/assets/exercises/plain-2x4.json" --hands "$root/assets/hands/no-tube.json" --density d.csv \
    >/dev/null 2>says.txt && fail "two programs wrote one part file"
grep -q 'd.csv.pullback-part is in the way' says.txt || fail "$(cat says.txt)"
kill -TERM $pid
wait $pid 2>/dev/null || true
rm says.txt
"$program" run "$root/assets/exercises/plain-2x4.json" --hands "$root/assets/hands/no-tube.json" --density d.csv \
    >/dev/null || fail "a part file that was left is in the way"
[ "$(ls)" = d.csv ] || fail "left behind: $(ls)"
echo "signals: nothing left behind"
