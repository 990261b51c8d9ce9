#!/bin/sh
# What the window says, by value: the result of a run, the course of a learner and the list at the
# Door, once in English and SI, once in Spanish and US units. The figures are those of the store.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb awk sqlite3
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || pass_over "there is no pullback-cli beside the program"
bay=$root/assets/exercises/plain-2x4.json
db=$work/runs.db

# has FILE WORDS: they stand on the screen as one text
has() {
    sed 's/^[^ ]* [^ ]* //' "$work/$1" | grep -qxF -- "$2" || fail "$1 does not say \"$2\": $(cat "$work/$1")"
}
# line FILE WORDS: all texts on the line of these, from the left, with | between; another column may
# have a line at the same height, which comes behind
line() {
    awk -v words="$2" '{ x = $1; y = $2; sub(/^[^ ]* [^ ]* /, ""); all[NR] = x " " y " " $0; if ($0 == words) at = y }
        END { for (i in all) { split(all[i], f, " "); if (f[2] >= at - 2 && f[2] <= at + 2) print all[i] } }' "$work/$1" |
        sort -n | sed 's/^[^ ]* [^ ]* //' | tr '\n' '|'
}
# figure WORDS: the first number in them, with a point
figure() { echo "$1" | tr , . | sed 's/^[^0-9]*\([0-9.]*\).*/\1/'; }
# near A B OFF
near() { awk -v a="$1" -v b="$2" -v off="$3" 'BEGIN { exit !(a != "" && b != "" && a - b <= off && b - a <= off) }' ||
    fail "$1 is not $2, within $3"; }

# One stop, and the run is ended: both ways the same run.
cat >"$work/short.script" <<'END'
0.1 every 120
0.3 key Space
0.7 click card_ok
1.0 keydown S
4.0 keyup S
4.1 wait last_stall_s > 0 200
4.5 key F
5 wait screen 1 60
5.2 every 1
5.3 words result.txt
5.4 end
END
script "$work/short.script" --lang en --units si --size 1700x1000 "$bay" || fail "the run, in English"
mv "$work/result.txt" "$work/en.txt"
script "$work/short.script" --lang es --units us --size 1700x1000 "$bay" || fail "the run, in Spanish"
mv "$work/result.txt" "$work/es.txt"
for words in "How it packed" "What went in" "Mean density" "Lost on the way" "Bags by the chart" "Stops" \
    "Failed" "passing score 70" "On target" "Safety" "Technique" "Leave"; do
    has en.txt "$words"
done
for words in "Cómo quedó" "Lo que entró" "Densidad media" "Perdido en el camino" "Sacos según la tabla" "Paradas" \
    "Reprobado" "mínimo para aprobar 70" "En objetivo" "Seguridad" "Técnica" "Salir"; do
    has es.txt "$words"
done
case $(line en.txt "stop") in "stop|height m|pull m|time s|kg/m³|"*) ;; *) fail "heads: $(line en.txt stop)" ;; esac
case $(line es.txt "parada") in "parada|altura pies|jalón pies|tiempo s|lb/pie³|"*) ;; *) fail "heads: $(line es.txt parada)" ;; esac
# value FILE NAME: what stands on the line of a fact
value_of() { line "$1" "$2" | sed 's/.*'"$2"'|\([^|]*\)|.*/\1/'; }
mean=$(value_of en.txt "Mean density") mean_us=$(value_of es.txt "Densidad media")
case $mean in *" kg/m³") ;; *) fail "mean density: $mean" ;; esac
case $mean_us in *" lb/pie³") ;; *) fail "mean density: $mean_us" ;; esac
near "$(awk -v v="$(figure "$mean_us")" 'BEGIN { print v * 16.0185 }')" "$(figure "$mean")" 1.4
in=$(value_of en.txt "In the bay") in_us=$(value_of es.txt "En la cavidad")
case $in in *" kg") ;; *) fail "in the bay: $in" ;; esac
case $in_us in *" lb") ;; *) fail "in the bay: $in_us" ;; esac
near "$(awk -v v="$(figure "$in_us")" 'BEGIN { print v * 0.45359 }')" "$(figure "$in")" 0.03
# the row of the only stop: number, height, pull, time, density
row=$(line en.txt 1 | sed 's/^[^1]*|//') row_us=$(line es.txt 1 | sed 's/^[^1]*|//')
height=$(echo "$row" | cut -d'|' -f2) height_us=$(echo "$row_us" | cut -d'|' -f2)
near "$(awk -v v="$(figure "$height_us")" 'BEGIN { print v * 0.3048 }')" "$height" 0.01

# After the guide, in large letters: one list at a time, and none of points, which half a bay has not.
cat >"$work/guided.script" <<'END'
0.1 every 120
0.4 click card_ok
0.9 expect cautions_open 1
1.0 click check0
1.2 click check1
1.4 click check2
1.6 click check3
1.8 click check4
2.0 click check5
2.3 click card_ok
2.6 key F
3 wait screen 1 60
3.2 every 1
3.3 words guided.txt
3.4 end
END
script "$work/guided.script" --guide --lang es --scale 2.0 --size 1280x800 || fail "after the guide"
for words in "En breve" "Material" "Paradas"; do
    has guided.txt "$words"
done
! grep -q "Puntos" "$work/guided.txt" || fail "points after the guide: $(cat "$work/guided.txt")"

# A hint while practising, with the length that was pulled.
cat >"$work/hint.script" <<'END'
0.1 every 120
0.3 key Space
0.7 click card_ok
1.0 keydown S
5.0 keyup S
8.0 keydown W
10.4 keyup W
11.4 words hint.txt
11.5 end
END
script "$work/hint.script" --lang en --units si "$bay" || fail "the hint, in English"
has hint.txt "You pulled 0.60 m"
script "$work/hint.script" --lang es --units us "$bay" || fail "the hint, in Spanish"
has hint.txt "Jaló 2.0 pies"

# A learner's course: the last of two kept runs. Those by scripted hands are none of it: these pass for a
# person's here.
"$cli" learners add "Learner 1" --db "$db" >/dev/null
for hands in two-foot steady-foot; do
    "$cli" run "$bay" --hands "$root/assets/hands/$hands.json" --record "$work/$hands.pbrun" >/dev/null ||
        fail "recording $hands"
    "$cli" runs import "$work/$hands.pbrun" --learner "Learner 1" --db "$db" >/dev/null || fail "import $hands"
done
sqlite3 "$db" "UPDATE runs SET is_scripted = 0" || fail "the store"
cat >"$work/course.script" <<'END'
0.1 wait debrief_is_read 1 20
0.2 words run.txt
0.3 click course
0.6 words course.txt
0.7 end
END
script "$work/course.script" --db "$db" --room debrief --lang en --units si --size 1700x1000 || fail "the course, in English"
mv "$work/course.txt" "$work/course-en.txt"
# Ninety-nine points: the part that shows one less than its most says where it went.
full=$(grep -cE ' ([0-9]+) / \1$' "$work/run.txt") none=$(grep -c ' nothing lost$' "$work/run.txt" || true)
[ "$full" -eq 5 ] && [ "$none" -eq 5 ] && grep -q ' –1  softest stretch: ' "$work/run.txt" ||
    fail "$full parts are full, $none lost nothing: $(cat "$work/run.txt")"
script "$work/course.script" --db "$db" --room debrief --lang es --units us --size 1700x1000 || fail "the course, in Spanish"
mv "$work/course.txt" "$work/course-es.txt"
# the newest run is the last of the course: kept_of KEY from the table of runs
"$cli" runs list --csv --db "$db" >"$work/runs.csv"
kept_of() { awk -F, -v key="$1" 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == key) k = i } NR == 2 { print $k }' "$work/runs.csv"; }
pull=$(value_of course-en.txt "Length of a pull") pull_us=$(value_of course-es.txt "Largo del jalón")
wait=$(value_of course-en.txt "Wait after the stall") wait_us=$(value_of course-es.txt "Espera después del stall")
whole=$(value_of course-en.txt "Whole score")
case "$pull, $pull_us, $wait, $wait_us" in *" m ± "*" m, "*" pies ± "*" pies, "*" s ± "*" s, "*" s ± "*" s") ;;
*) fail "the course says $pull, $pull_us, $wait, $wait_us" ;; esac
near "$(figure "$pull")" "$(kept_of step_mean_m)" 0.006
near "$(awk -v v="$(figure "$pull_us")" 'BEGIN { print v * 0.3048 }')" "$(kept_of step_mean_m)" 0.016
near "$(figure "$wait")" "$(kept_of dwell_mean_s)" 0.06
near "$(figure "$wait_us")" "$(kept_of dwell_mean_s)" 0.06
near "$(figure "$whole")" "$(awk -v v="$(kept_of total)" 'BEGIN { print int(v) }')" 0
has course-en.txt "Progress of Learner 1"
has course-es.txt "Progreso de Learner 1"
