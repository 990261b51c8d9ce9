#!/bin/sh
# Command line and reports in a language that is not shipped: $1 program, $2 source tree, $3 scratch.
set -eu
program=$1
root=$2
work=$3
# outside FILE: what stands in no « », as words with two letters at least, one a line.
outside() {
    tr '\n' ' ' <"$1" | sed -e ':a' -e 's/«[^«»]*»//g' -e 'ta' | grep -oE '[A-Za-z{][A-Za-z}]+' || true
}
mkdir -p "$work"
cd "$work"
export LC_ALL=C.UTF-8
fail() {
    echo "FAILED: $*" >&2
    exit 1
}
# all_of FILE ALLOWED: no word stands outside « » but these
all_of() {
    outside "$1" | grep -vxE "$2" >outside.txt || true
    [ ! -s outside.txt ] || fail "$1 says outside of the catalogue: $(sort -u outside.txt | tr '\n' ' ')"
    [ "$(grep -o « "$1" | wc -l)" -gt "$3" ] || fail "$1 has few words of the catalogue"
}
run=$root/assets/reference/plain-2x4.pbrun
"$program" grade --lang qaa --pdf run.pdf "$run" >grade.txt || fail "grade"
grep -q '«On target»' grade.txt || fail "no part: $(cat grade.txt)"
all_of grade.txt 'plain|coach|default|cold' 8
house=$root/tests/app/data/low-house.json
"$program" compare --lang qaa --draws 0 --years 0,1 "$house" >compare.txt || fail "compare"
all_of compare.txt 'x' 25
"$program" grade --lang xx "$run" 2>said && fail "a language that there is not"
grep -q 'expected en or es or qaa' said || fail "$(cat said)"
command -v pdftotext >/dev/null || exit 0
"$program" compare --lang qaa --draws 0 --years 0,1 --pdf house.pdf "$house" || fail "the handout"
for page in run house; do
    pdftotext -raw "$page.pdf" "$page.txt"
    [ "$(grep -c '[«»]' "$page.txt")" -gt 40 ] || fail "$page.pdf has few words of the catalogue"
done
for words in 'Report of a run' 'On target' 'Cautions' 'What the numbers assume' 'hatched: under target'; do
    grep -qF "«$words»" run.txt || fail "the report does not say $words"
done
for words in 'What the figures rest on' 'Dense pack' 'R, whole wall' 'Wall area'; do
    grep -qF "«$words»" house.txt || fail "the handout does not say $words"
done
