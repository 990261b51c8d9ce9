#!/bin/sh
# The main job where there is no display: packs the first exercise with the shipped hands, shows the
# wall, its marks and what thirty years do to it as text, and writes the report.
#   first_run.sh ROOT_OF_THE_COPY [PULLBACK_CLI FOLDER]      else those of build/program
# Writes nothing outside that folder; keeps no run in anybody's records. Exit 0 when done.
set -eu
root=$1
cli=${2:-$root/build/program/src/cli/pullback-cli}
out=${3:-$root/build/program/first-run}
exercise=$root/assets/exercises/plain-2x4.json
hands=$root/assets/hands/steady-foot.json
years=0,1,10,30

# The reader's country has the units, the language the words, as in the programs themselves.
place=${LC_ALL:-${LC_MEASUREMENT:-${LANG:-}}} words=${LC_ALL:-${LC_MESSAGES:-${LANG:-}}}
units=si lang=en
case $place in *_US* | *_LR* | *_MM*) units=us ;; esac
case $words in es*) lang=es ;; esac
export LC_NUMERIC=C
unset LC_ALL || true
say() { # English, then Spanish
    [ "$lang" = en ] || shift
    printf '%s\n' "$1"
}

mkdir -p "$out"
# of the last time; a recording is never written over
rm -f "$out/run.pbrun" "$out/run.txt" "$out/density.csv" "$out/years.json" "$out/report.pdf" "$out/report.png"
say "Packing exercise 1, a plain 2x4 stud bay: one-foot pulls, each after the stall. About ten seconds." \
    "Se rellena el ejercicio 1, un hueco sencillo de 2x4: tramos de un pie, cada uno tras la caída del caudal. Unos diez segundos."
"$cli" run "$exercise" --hands "$hands" --density "$out/density.csv" --record "$out/run.pbrun" >"$out/run.txt"

# One line a tenth of a meter, or four inches, as patches are weighed by.
echo
say "THE WALL, opened. # at least 56 kg/m3 (3.5 lb/ft3), + at least 48 (3.0), . less, blank nothing" \
    "LA PARED, abierta. # al menos 56 kg/m3 (3.5 lb/pie3), + al menos 48 (3.0), . menos, en blanco nada"
hole_m=$(sed -n 's/.*"hole": {.*"y_m": *\([0-9.]*\).*/\1/p' "$exercise")
awk -F, -v us="$([ $units = us ] && echo 1)" -v es="$([ $lang = es ] && echo 1)" -v hole="${hole_m:--1}" '
    BEGIN { step = us ? 4 * 0.0254 : 0.1 }
    /^[0-9]/ {
        row = int($2 / step); col = int($1 / 0.023)
        sum[row, col] += $3; n[row, col]++; all[row] += $3; of[row]++
        if (row > rows) rows = row
        if (col > cols) cols = col
    }
    END {
        for (r = rows; r >= 0; r--) {
            line = ""
            for (c = 0; c <= cols; c++) {
                d = n[r, c] ? sum[r, c] / n[r, c] : 0
                line = line (d >= 56 ? "#" : d >= 48 ? "+" : d >= 1 ? "." : " ")
            }
            mean = all[r] / of[r]
            mark = hole >= r * step && hole < (r + 1) * step ? (es ? "  <- hoyo" : "  <- hole") : ""
            if (us) printf "  %4.1f ft |%s| %4.2f lb/%s%s\n", r * step / 0.3048, line, mean / 16.01846, es ? "pie3" : "ft3", mark
            else printf "  %4.1f m  |%s| %4.1f kg/m3%s\n", r * step, line, mean, mark
        }
    }' "$out/density.csv"

echo
say "ITS MARKS" "SUS PUNTOS"
"$cli" grade "$out/run.pbrun" --lang $lang --units $units --pdf "$out/report.pdf" \
    --paper "$([ $units = us ] && echo letter || echo a4)" || [ $? = 1 ] # 1: graded, and not passed

echo
say "THE SAME WALL YEARS LATER, with long cold winters: a prediction with the shipped values, no promise" \
    "LA MISMA PARED AÑOS DESPUÉS, con inviernos largos y fríos: una predicción con los valores dados, no una promesa"
"$cli" age "$out/density.csv" --climate cold --years 30 --at "${years#0,}" --json >"$out/years.json"
sed 's/[[,]/&\n/g; s/\]/\n&/g' "$out/years.json" | # one number a line
    awk -v us="$([ $units = us ] && echo 1)" -v es="$([ $lang = es ] && echo 1)" '
    /":\[$/ { key = $1; gsub(/[":[]/, "", key); i = 0; next }
    /^ *\]/ { key = "" }
    key != "" { v = $1; sub(/,/, "", v); value[key, ++i] = v; if (key == "years") count = i }
    END {
        for (i = 1; i <= count; i++) {
            gap = value["top_gap_m", i] * (us ? 1 / 0.0254 : 1000)
            worst = value["worst_patch_kg_m3", i] / (us ? 16.01846 : 1)
            r = value["effective_r_m2k_w", i] * (us ? 5.678263 : 1)
            form = es ? "  tras %-9s hueco arriba %.2f %s, lugar más flojo %.2f %s, R efectiva %.1f%s\n" \
                : "  after %-9s gap at the top %.2f %s, softest spot %.2f %s, effective R %.1f%s\n"
            n = value["years", i] + 0
            when = n " " (es ? "año" : "year") (n == 1 ? "" : "s") ":"
            printf form, when, gap, us ? (es ? "pulg." : "in.") : "mm",
                worst, us ? (es ? "lb/pie3" : "lb/ft3") : "kg/m3", r, us ? "" : " m2K/W"
        }
    }'

echo
picture=
if command -v pdftoppm >/dev/null && pdftoppm -r 110 -png -f 1 -l 1 -singlefile "$out/report.pdf" "$out/report"; then
    picture=report.png
fi
say "Written to $out:" "Escrito en $out:"
[ -z "$picture" ] || say "  report.png    the wall with its density, and the points: a picture" \
    "  report.png    la pared con su densidad, y los puntos: una imagen"
say "  report.pdf    the same on paper, with what it assumes and the cautions" \
    "  report.pdf    lo mismo en papel, con lo que supone y las precauciones"
say "  run.pbrun     the run itself: pullback-cli replay, grade, or Debrief in the window" \
    "  run.pbrun     el ejercicio mismo: pullback-cli replay, grade, o Repaso en la ventana"
