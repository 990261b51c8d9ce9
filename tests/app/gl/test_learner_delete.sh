#!/bin/sh
# A learner is deleted at the window, where learners are chosen: a question says what goes and is
# answered no, twice, then yes; then nothing of the person is left in the folder of the store, and
# the settings have forgotten the name. By keyboard as well. While a run of theirs is being recorded
# nothing goes.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || pass_over "there is no pullback-cli beside the program"
folder=$XDG_DATA_HOME/pullback
settings=$XDG_CONFIG_HOME/pullback/settings.json
for name in Learnerone Learnertwo; do
    "$cli" learners add $name >/dev/null
done
"$cli" runs import "$root/tests/app/recorded.pbrun" --learner Learnerone >/dev/null || fail "import"
"$cli" runs pdf 1 "$folder/run-1.pdf" >/dev/null 2>&1 || echo "no report in this build" >"$folder/run-1.pdf"
cat >"$work/delete.script" <<'END'
0.1 every 30
0.3 key L
0.5 expect learners 2
0.6 click person_1
0.9 expect learner 1
1.0 key L
1.2 click delete_1
1.4 expect card 5
1.5 every 1
1.6 shot question.png
1.7 every 30
1.8 key Escape
2.0 expect learners 2
2.1 key L
2.3 click delete_1
2.5 key Return
2.7 expect card 2
2.8 expect learners 2
# the second time it is meant
2.9 click delete_1
3.1 click card_ok
3.5 expect card 2
3.5 expect learners 1
3.5 expect learner 0
3.6 key Escape
# the other one by keyboard, refused while a run of theirs is recorded
3.8 key L
4.0 click person_1
4.2 expect learner 2
4.4 key Return
4.8 wait screen 0 60
4.9 keydown W
5.2 keyup W
5.4 key Escape
5.8 wait screen 2 60
6.0 key L
6.2 key shift+Tab
6.3 key Return
6.6 expect card 5
6.7 key Tab
6.8 key Return
7.2 expect card 5
7.3 expect learners 1
7.4 end
END
script "$work/delete.script" --door --size 1280x800 || fail "the script"
[ -s "$work/question.png" ] || fail "no picture of the question"
"$cli" learners list >"$work/list"
grep -q Learnertwo "$work/list" || fail "the learner whose run is under way is gone"
! grep -q Learnerone "$work/list" || fail "the learner is still there"
[ ! -e "$folder/run-1.pdf" ] || fail "the report is still there"
for file in "$settings" "$folder"/* "$folder"/runs/*; do
    [ ! -f "$file" ] || ! grep -q Learnerone "$file" || fail "the name is still in $file"
done
"$cli" runs check >/dev/null || fail "the store is damaged"

# While another program records a run of theirs: refused, and told in the language of the window.
recording=$folder/runs/2-20260304T093000Z-0-1.run
"$cli" run "$root/assets/exercises/plain-2x4.json" --hands "$root/assets/hands/steady-foot.json" \
    --pace 5 --record "$recording" >/dev/null 2>&1 &
recorder=$!
trap 'kill -9 $recorder 2>/dev/null || true' EXIT
# it is held from when it first grows
until [ -s "$recording" ] && first=${first:-$(wc -c <"$recording")} && [ "$(wc -c <"$recording")" -gt "$first" ]; do
    kill -0 $recorder 2>/dev/null || fail "nobody records"
    sleep 0.05
done
kill -STOP $recorder
cat >"$work/held.script" <<'END'
0.1 every 30
0.3 key L
0.5 key shift+Tab
0.6 key Return
0.9 expect card 5
1.0 key Tab
1.1 key Return
1.3 expect card 5
1.3 expect learners 1
1.4 every 1
1.5 shot held.png
1.5 words held.txt
1.6 end
END
script "$work/held.script" --door --size 1280x800 --lang es || fail "while another program records"
grep -q "Una práctica de este aprendiz está en curso en otro programa." "$work/held.txt" ||
    fail "the refusal: $(cat "$work/held.txt")"
kill -9 $recorder
wait $recorder 2>/dev/null || true

# in Spanish, with the keyboard alone, and now that no run is under way
cat >"$work/keys.script" <<'END'
0.1 every 30
0.3 key L
0.5 key shift+Tab
0.6 key Return
0.9 expect card 5
1.0 key Tab
1.1 key Return
1.4 expect learners 0
1.5 end
END
script "$work/keys.script" --door --size 1280x800 --lang es || fail "by keyboard"
"$cli" learners list >"$work/list"
! grep -q Learnertwo "$work/list" || fail "the second learner is still there"
echo "learner deleted: asked first, nothing left"
