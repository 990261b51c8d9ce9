#!/bin/sh
# Runs that break off, in the real window: one without a command is not kept; one that is killed in
# the middle is left where it was, is taken up again after a restart and finished as one run; Leave
# goes to the start screen; and Debrief shows the run that nobody kept, not another one.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
open_screen 1920x1200
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || pass_over "there is no pullback-cli beside the program"
db=$work/data/pullback/pullback.db
bay=$root/assets/exercises/plain-2x4.json
# killed SCRIPT ARGUMENTS...: kill -9 once the script has taken its picture, and what it recorded is
# on the disk
killed() {
    file=$1
    shift
    rm -f "$work/now.png"
    "$program" --script "$file" --shots "$work" --size 1280x800 "$@" >"$work/killed" 2>&1 &
    for _ in $(seq 2000); do
        [ -s "$work/now.png" ] && break
        sleep 0.05
    done
    [ -s "$work/now.png" ] || fail "it did not come so far: $(cat "$work/killed")"
    sleep 1.5
    kill -9 $!
    wait $! || true
}
"$cli" learners add Learner1 >/dev/null
mkdir -p "$XDG_CONFIG_HOME/pullback"

# nobody does anything in the room years: nothing is kept of that
cat >"$work/idle.script" <<'END'
0.3 key L
0.5 type Learner1
0.7 key Return
1.0 expect learner 1
1.3 key Return
1.8 wait screen 0 60
2.0 expect is_run_worked 0
2.5 shot now.png
3 wait screen 9 1000
END
killed "$work/idle.script" --door
[ -n "$(ls "$work"/data/pullback/runs)" ] || fail "a run under way has no file"
echo "0.5 expect learner 1
0.6 expect row_left_s -1
0.7 end" >"$work/none.script"
script "$work/none.script" --door --size 1280x800 || fail "the start after it"
"$cli" runs list >"$work/list"
grep -q '^0 runs' "$work/list" || fail "a run without a command was kept: $(cat "$work/list")"
[ -z "$(ls "$work"/data/pullback/runs)" ] || fail "its file is still there"

# a graded run, killed at some twenty seconds
cat >"$work/work.script" <<'END'
0.1 every 120
0.3 click graded 0.75
0.5 click start
1.0 wait screen 0 60
1.1 expect is_graded 1
1.2 click machine 0.75
1.4 click card_ok
1.6 expect machine_on 1
1.8 keydown S
6 keyup S
6.2 wait time_s > 20 200
6.4 shot now.png
7 wait screen 9 1000
END
killed "$work/work.script" --door
cat >"$work/on.script" <<'END'
0.5 expect learner 1
0.6 expect row_runs 0
0.6 expect row_left_s > 15
0.7 shot left.png
0.8 key Return
1.0 wait screen 0 60
1.1 expect taken_up_tick > 400
1.2 expect time_s > 15
1.2 expect is_graded 1
1.2 expect machine_on 1
1.2 expect fed_kg > 0.05
1.3 shot taken_up.png
1.4 wait time_s > 30 100
1.5 key F
1.6 wait screen 1 100
1.8 expect runs_kept 1
1.9 shot finished.png
2.0 click leave
2.4 expect screen 2
2.5 expect row_left_s -1
2.5 expect row_runs 1
2.6 shot door.png
2.7 end
END
script "$work/on.script" --door --size 1600x1000 || fail "going on after the restart"
"$cli" runs list >"$work/list"
cat "$work/list"
grep -q '^1 run$' "$work/list" || fail "not one run"
grep -q 'left and gone on with 1 time' "$work/list" || fail "the record does not say that it was left"
"$cli" runs check || fail "the store is not what its files give"
"$cli" runs export 1 "$work/whole.pbrun" >/dev/null
"$cli" replay "$work/whole.pbrun" >"$work/replay" || fail "the whole run does not replay"
grep -q 'to its end' "$work/replay" || fail "the run has no end: $(cat "$work/replay")"

# nobody is chosen: Debrief has the run all the same, and says what it is
cat >"$work/nobody.script" <<'END'
0.1 every 120
1.0 expect learner 0
1.2 click machine 0.75
1.4 click card_ok
1.8 key F
2.2 wait screen 1 60
2.4 expect runs_kept 0
2.6 click debrief
3.0 wait debrief_is_read 1 60
3.1 expect debrief_runs 1
3.1 expect debrief_end_s < 25
3.2 shot unkept.png
3.4 end
END
XDG_CONFIG_HOME=$work/nobody # which remembers no learner
script "$work/nobody.script" "$bay" --size 1280x800 || fail "Debrief after a run that nobody kept"
for picture in left taken_up finished door unkept; do
    [ -s "$work/$picture.png" ] || fail "no picture $picture"
done
echo "go on: killed at 20 s, taken up, finished: one run, which replays"
