#!/bin/sh
# Makes anew what is kept of runs and pictures, after the physics, an exercise, the rubric or a screen
# has changed. Look at what changed before it is committed: git diff.
#   tests/support/renew.sh BUILD [runs] [tables] [pictures]      all three when none is named
#   tests/support/renew.sh BUILD teach                           do marks and advice teach?
#   tests/support/renew.sh BUILD search                          new hands for the reference runs
# runs      the same hands recorded again: assets/reference/*.pbrun, tests/app/recorded.pbrun; then
#           app.reference and app.run_file
# tables    the two of docs/TRAINERS.md that app.crew_signals_all and app.score_order print
# teach     the evidence of docs/TRAINERS.md, by pullback-lab teach: sixteen minutes of processor time
# pictures  tests/app/gl/golden and docs/guide/pictures
# search    coach, about five minutes of processor time: when app.reference says that the kept
#           hands no longer beat the plain one-foot rule, or have lost points
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
[ $# -ge 1 ] && [ -f "$1/build.ninja" ] || {
    echo "renew.sh: expected a build folder, such as build/release" >&2
    exit 2
}
build=$(cd "$1" && pwd)
shift
[ $# -gt 0 ] || set -- runs tables pictures
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail() {
    echo "renew.sh: $*" >&2
    exit 1
}
make() { cmake --build "$build" --target "$@" >"$work/make" || fail "does not build: $(tail -n 20 "$work/make")"; }
cli=$build/src/cli/pullback-cli
program=$build/src/app/pullback

runs() {
    make renew_run test_reference test_run_file
    for run in "$root"/assets/reference/*.pbrun "$root/tests/app/recorded.pbrun"; do
        "$build/tests/renew_run" "$run" "$root"
    done
    for name in reference run_file; do
        "$build/tests/test_$name" >"$work/$name" || fail "test_$name: $(cat "$work/$name")"
    done
    echo "runs: app.reference and app.run_file pass"
}

search() {
    make pullback-cli
    for run in "$root"/assets/reference/*.pbrun; do
        name=$(basename "$run" .pbrun)
        # 1: nothing beats the plain rule, which is an answer too
        "$cli" coach "$root/assets/exercises/$name.json" --out "$work/$name.pbrun" || [ $? = 1 ]
        mv "$work/$name.pbrun" "$run"
    done
    echo "search: put the hands and points above into docs/TRAINERS.md, Reference runs"
}

# Figures of the table under one heading of docs/TRAINERS.md, from what a test prints.
#   put_rows HEADING FILE    lines KEY<tab>CELLS: the row of that name ends in these cells
put_rows() {
    awk -F '\t' -v heading="## $1" -v rows="$2" '
        /^## / { is_here = $0 == heading }
        BEGIN { while ((getline line < rows) > 0) { split(line, part, "\t"); cells[part[1]] = part[2] } }
        { out = $0; n = split($0, cell, / *\| */)
          for (at = 2; is_here && at <= 3 && at <= n; at++) {
              key = cell[at]; gsub(/`/, "", key)
              if (key in cells) {
                  m = split(cells[key], value, " "); keep = n - 1 - m
                  out = ""
                  for (i = 2; i <= keep; i++) out = out "| " cell[i] " "
                  for (i = 1; i <= m; i++) out = out "| " value[i] " "
                  out = out "|"; done[key] = 1; break
              }
          }
          print out }
        END { for (key in cells) if (!(key in done)) { print "no row " key > "/dev/stderr"; bad = 1 }
              exit bad }' "$root/docs/TRAINERS.md" >"$work/page" || fail "docs/TRAINERS.md has lost a row"
    cp "$work/page" "$root/docs/TRAINERS.md"
}

tables() {
    make test_crew_signals test_score_order
    PB_CREW_ALL=1 "$build/tests/test_crew_signals" >"$work/crew" || fail "test_crew_signals: $(tail -n 5 "$work/crew")"
    "$build/tests/test_score_order" >"$work/order" || fail "test_score_order: $(tail -n 5 "$work/order")"
    # | level | exercise | pass | by signals | by the clock |
    awk -F ' *[|] *' '/^\| [0-9]/ { gsub(/ blown out/, ""); print $3 "\t" $4 " " $5 " " $6 }' "$work/crew" >"$work/rows"
    put_rows "Two crews" "$work/rows"
    # a name, its total and verdict, then eight figures
    awk 'NF > 9 && $NF ~ /^[0-9]/ && match($0, / +[0-9]+\.[0-9]/) {
        name = substr($0, 1, RSTART - 1); $0 = substr($0, RSTART)
        line = sprintf("%.1f %s", $1, $2)
        for (i = 3; i <= 8; i++) { sub(/\.0$/, "", $i); line = line " " $i }
        print name "\t" line " " $9 " " $10 }' "$work/order" >"$work/rows"
    put_rows "What a run loses, and on which part" "$work/rows"
    echo "tables: docs/TRAINERS.md"
}

teach() {
    make pullback-lab
    cmake -DLAB="$build/src/lab/pullback-lab" -DPAGE="$root/docs/TRAINERS.md" -DWRITE=ON \
        -P "$root/tests/docs/teach.cmake"
    echo "teach: docs/TRAINERS.md"
}

pictures() {
    make pullback pullback-cli
    sh "$root/tests/app/gl/bless_golden.sh" "$program" "$root" "$work/golden"
    sh "$root/tests/docs/guide_pictures.sh" "$program" "$root" "$work/guide" --write
}

for what in "$@"; do
    case $what in
    runs | tables | pictures | search | teach) $what ;;
    *) fail "\"$what\": expected runs, tables, teach, pictures or search" ;;
    esac
done
