#!/bin/sh
# The window and the command line on one store, in turn and at once: the window looks into the
# Debrief and adds learners, the command line adds and reads meanwhile. First to the end, then with
# kill -9 of either at odd moments. Whatever was answered is there, once, and the check says so.
# PB_TEST_ROUNDS learners by the window (default 12; 200 in the acceptance run), PB_TEST_KILLS kills
# (default 4).
. "$(dirname "$0")/window.sh" "$@"
need Xvfb
rounds=${PB_TEST_ROUNDS:-12} kills=${PB_TEST_KILLS:-4}
open_screen 1024x700

# $1 file, $2 prefix of names, $3 how many learners. What is printed is said after the store's answer.
learner_script() {
    awk -v who="$2" -v n="$3" 'BEGIN {
        print "0.1 every 200"
        for (i = 1; i <= n; i++) {
            t = i
            printf "%.2f key L\n%.2f type %s%d\n%.2f key Return\n", t, t + 0.1, who, i, t + 0.2
            printf "%.2f print learner\n", t + 0.4
            printf "%.2f key 4\n%.2f expect screen 3\n", t + 0.5, t + 0.7
            printf "%.2f key Escape\n%.2f expect screen 2\n", t + 0.8, t + 0.95
        }
        printf "%.2f end\n", n + 1.2 }' >"$1"
}
# "ID NAME" of each learner that the window was answered; $1 what it printed, $2 prefix
answered() {
    awk -v who="$2" '$2 == "learner" { printf "%d %s%d\n", $3, who, ++n }' "$1"
}
cat >"$work/hands.sh" <<'END2'
# $1 cli, $2 prefix, $3 how many (0 = until killed): adds learners, and reads after each
n=0
while [ "$3" = 0 ] || [ "$n" -lt "$3" ]; do
    n=$((n + 1))
    "$1" learners add "$2$n" || exit 1
    "$1" learners list >/dev/null || exit 1
    "$1" runs list >/dev/null || exit 1
done
END2
# every line "ID NAME" of $1 is in the list, nobody is there twice, and the store is whole
all_there() {
    "$cli" learners list | awk 'NR > 1 { print $1, $4 }' >"$work/list"
    sort "$work/list" >"$work/list.sorted"
    lost=$(sort "$1" | comm -23 - "$work/list.sorted")
    [ -z "$lost" ] || fail "answered and lost: $lost"
    [ "$(cut -d' ' -f2 "$work/list" | sort | uniq -d)" = "" ] || fail "somebody is there twice"
    "$cli" runs check >"$work/check" || fail "the store: $(cat "$work/check")"
}
# "learner 3: Name" -> "3 Name"
by_cli() { sed -n 's/^learner \([0-9]*\): /\1 /p' "$1"; }

learner_script "$work/all.script" Win "$rounds"
timeout 1500 "$program" --door --script "$work/all.script" >"$work/window" 2>&1 &
window=$!
sh "$work/hands.sh" "$cli" Cli "$rounds" >"$work/hands" 2>&1 || fail "the command line: $(cat "$work/hands")"
wait "$window" || fail "the window: $(cat "$work/window")"
{ answered "$work/window" Win; by_cli "$work/hands"; } >"$work/answers"
[ "$(wc -l <"$work/answers")" = $((2 * rounds)) ] || fail "$(wc -l <"$work/answers") answers, not $((2 * rounds))"
all_there "$work/answers"
[ "$(wc -l <"$work/list")" = $((2 * rounds)) ] || fail "$(wc -l <"$work/list") learners, not $((2 * rounds))"

n=0
while [ "$n" -lt "$kills" ]; do
    n=$((n + 1))
    learner_script "$work/kill.script" "W$n-" 5000 # more than it comes to
    "$program" --door --script "$work/kill.script" >"$work/window-$n" 2>&1 &
    window=$!
    setsid sh "$work/hands.sh" "$cli" "C$n-" 0 >"$work/hands-$n" 2>&1 &
    hands=$!
    trap 'kill -s KILL -- "-$hands" "$window" "$xvfb" 2>/dev/null || true' EXIT
    # No seed from the clock: the same delays every time.
    sleep "$(awk -v n="$n" 'BEGIN { srand(n * 7919); printf "%.3f", 1.0 + 2.0 * rand() }')"
    # the first to go is the window one time, the command line the next; the other goes on a while
    if [ $((n % 2)) = 1 ]; then kill -9 "$window"; else kill -s KILL -- "-$hands"; fi
    sleep 0.5
    kill -9 "$window" 2>/dev/null || true
    kill -s KILL -- "-$hands" 2>/dev/null || true
    wait "$window" "$hands" 2>/dev/null || true
    { answered "$work/window-$n" "W$n-"; by_cli "$work/hands-$n"; } >>"$work/answers"
    all_there "$work/answers"
done
echo "window and command line: $rounds rounds each, then $kills times two killed; $(wc -l <"$work/answers") answers, all there"
