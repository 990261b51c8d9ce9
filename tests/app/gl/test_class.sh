#!/bin/sh
# A class at one computer: whose turn it is by one key, who has worked which exercise how often, first,
# last and best; the table and the statements as files. In both languages, by pointer and by keys.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb sqlite3
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || pass_over "there is no pullback-cli beside the program"
folder=$XDG_DATA_HOME/pullback
for n in 1 2 3; do
    "$cli" learners add "Learner $n" >/dev/null
done
"$cli" runs import "$root/tests/app/recorded.pbrun" --learner "Learner 2" >/dev/null || fail "import"
# three tries by a person's hands: 41.9, then 72, then 60
sqlite3 "$folder/pullback.db" "
UPDATE runs SET is_scripted = 0, total = 41.9, is_pass = 0, ended = '2026-03-02T10:00:00Z';
CREATE TEMP TABLE more AS SELECT * FROM runs;
UPDATE more SET id = 2, total = 60, ended = '2026-03-04T10:00:00Z'; INSERT INTO runs SELECT * FROM more;
UPDATE more SET id = 3, total = 72, is_pass = 1, ended = '2026-03-03T10:00:00Z';
INSERT INTO runs SELECT * FROM more;
INSERT INTO drills VALUES (1, 1, '2026-03-02T11:00:00Z', 7, 2, 1, 3, 14, 12, 11, 10, 1, 6, 150.0, 0.31, 1);"
# another computer: one person more, with a run of their own
"$cli" learners add "Learner 4" --db "$work/other.db" >/dev/null
"$cli" run "$root/tests/app/data/low-bay.json" --hands "$root/tests/app/data/low-three-foot.json" \
    --record "$work/low.pbrun" >/dev/null || true
"$cli" runs import "$work/low.pbrun" --learner "Learner 4" --db "$work/other.db" >/dev/null || fail "import"
cat >"$work/class.script" <<'END'
0.1 every 30
0.3 key L
0.5 click class
0.8 every 1
0.9 words class.txt
1.0 every 30
1.1 click class_csv
1.3 click card_ok
1.5 every 1
1.6 words refused.txt
1.7 every 30
1.8 click card_field
2.0 type https://school.example
2.2 click card_ok
2.5 click card_close
# who never worked, then who did so longest ago; the one at the machine is passed over
2.7 key N
2.9 expect learner 3
3.0 key N
3.2 expect learner 1
3.3 key C
3.5 key Return
3.8 expect learner 3
3.9 expect card 0
4.0 key C
4.1 click class_merge
4.3 type other.db
4.4 key Return
4.5 wait learners 4 60
4.6 wait merging 0 60
4.8 every 1
4.9 words merged.txt
5.0 key Escape
5.1 end
END
cd "$work"
script "$work/class.script" --door --size 1280x800 || fail "the script"
grep -q "1 of 1 runs looked at. New here: runs 1, people 1, drills 0. He" "$work/merged.txt" ||
    fail "the merge: $(cat "$work/merged.txt")"
cut -d ' ' -f 3- "$work/class.txt" >"$work/said.txt"
said=$(tr '\n' '|' <"$work/said.txt")
for words in "|Next: Learner 3|" "|Learner 2|Box, cable and pipe|3|1|41|60|72|On target −9|"; do
    case $said in *"$words"*) ;; *) fail "no \"$words\": $said" ;; esac
done
grep -q "Expected an address such as https://school.example" "$work/refused.txt" || fail "the refusal"
"$cli" learners table >"$work/table.csv"
cmp "$work/table.csv" "$folder/class-table.csv" || fail "the table of the window is not the command's"
grep -q '^Learner 2,old-wires,no,3,41,60,72,1,2026-03-04T10:00:00Z,on_target,' "$folder/class-table.csv" ||
    fail "the table: $(cat "$folder/class-table.csv")"
"$cli" runs xapi --home https://school.example --learner "Learner 2" >"$work/statements.json"
[ "$(tr -d ' \n' <"$folder/class-statements.json")" = "$(tr -d ' \n' <"$work/statements.json")" ] ||
    fail "the statements of the window are not the command's"
"$cli" runs list --csv | grep -q ",Learner 4,low-bay," || fail "the other computer's run is not here"
[ ! -e "$folder/merge.db" ] || fail "the copy is left"
echo "class: turns, table, statements, another computer's runs"
