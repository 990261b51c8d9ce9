#!/bin/sh
# The Debrief room in the real window: two recorded runs in a store; one is opened, scrubbed, played,
# its worst loss chosen, points and a comment given; then the store is asked what it holds.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || pass_over "there is no pullback-cli beside the program"
db=$work/runs.db
"$cli" learners add "Learner 1" --db "$db" >/dev/null
"$cli" learners add "Without runs" --db "$db" >/dev/null
for hands in three-foot steady-foot; do
    "$cli" run "$root/assets/exercises/plain-2x4.json" --hands "$root/assets/hands/$hands.json" \
        --record "$work/$hands.pbrun" >/dev/null || fail "recording $hands"
    "$cli" runs import "$work/$hands.pbrun" --learner "Learner 1" --db "$db" || fail "import $hands"
done
script "$root/tests/app/gl/debrief.script" --db "$db" --room debrief --size 1280x800 || fail "the script"
"$cli" runs show 1 --db "$db" >"$work/shown" || fail "runs show"
cat "$work/shown"
grep -q "pulled two feet in one go" "$work/shown" || fail "the comment is not in the store"
grep -q "^mark .* hands .*steady" "$work/shown" || fail "what was typed before another room was seen is not in the store"
grep -q "Trainer 1, pbrn" "$work/shown" || fail "the trainer's name is not in the store"
grep -q "by rubric old walls" "$work/shown" || fail "the grade by the other rubric is not in the store"
[ -s "$work/runs.db-run-1.pdf" ] || fail "no report was written"
if command -v pdftotext >/dev/null 2>&1; then
    pdftotext -layout "$work/runs.db-run-1.pdf" "$work/report.txt"
    for words in "In short" "pulled two feet in one go" "Trainer 1, pbrn" "Pull back 30 cm at a time"; do
        grep -q "$words" "$work/report.txt" || fail "the report does not say: $words"
    done
    [ "$(pdfinfo "$work/runs.db-run-1.pdf" | awk '/^Pages/ { print $2 }')" -le 2 ] || fail "the report has more than two pages"
fi
"$cli" runs check --db "$db" || fail "the store is damaged"
for picture in loss beside comment course; do
    [ -s "$work/$picture.png" ] || fail "no picture $picture"
done
# A replay that parts from its recording is not the run that was worked, and the room says so.
if [ -n "${PB_PARTED_RUN:-}" ]; then
    "$PB_PARTED_RUN" "$work/three-foot.pbrun" "$work/parted.pbrun" "$work/parted.db" || fail "no parted run"
    "$cli" runs import "$work/parted.pbrun" --learner Learner1 --db "$work/parted.db" 2>"$work/refused" && fail "a parted run was imported"
    grep -q "parts from its recording at tick" "$work/refused" || fail "the parted run: $(cat "$work/refused")"
    cat >"$work/parted.script" <<'END'
0.1 wait debrief_is_read 1 20
0.2 expect debrief_parted > 60
0.3 shot parted.png
0.4 end
END
    script "$work/parted.script" --db "$work/parted.db" --room debrief --size 1280x800 || fail "the parted run"
    [ -s "$work/parted.png" ] || fail "no picture parted"
fi
# And from the beginning, at the window: somebody learns, works a bay, and the run is found and marked.
script "$root/tests/app/gl/record.script" --door --db "$work/window.db" --size 1280x800 || fail "recording at the window"
"$cli" runs show 1 --db "$work/window.db" >"$work/window" || fail "runs show"
cat "$work/window"
grep -q "^steps " "$work/window" || fail "the kept run does not know its steps"
grep -q "^mark .* weakest" "$work/window" || fail "the mark is not kept"
