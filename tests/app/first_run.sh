#!/bin/sh
# What src/run.sh does where there is no display: the wall, its marks and thirty years as text in the
# reader's units and language, and a report; nothing is written anywhere else.
#   first_run.sh PULLBACK_CLI SOURCE_TREE SCRATCH
set -eu
cli=$1 root=$2 work=$3
rm -rf "$work"
mkdir -p "$work/home" "$work/us" "$work/es"
echo mine >"$work/us/notes.txt"
export HOME="$work/home"
unset LC_ALL LC_MEASUREMENT LC_MESSAGES XDG_DATA_HOME XDG_CONFIG_HOME || true
fail() {
    echo "FAILED: $*" >&2
    exit 1
}
# $1 the text; the rest must stand in it
says() {
    text=$1
    shift
    for words in "$@"; do
        grep -qF -e "$words" "$work/$text" || fail "$text: no \"$words\" in: $(cat "$work/$text")"
    done
}
cd "$work"
LANG=en_US.UTF-8 sh "$root/src/first_run.sh" "$root" "$cli" "$work/us" >us.txt || fail "exit $?: $(cat us.txt)"
LANG=es_MX.UTF-8 sh "$root/src/first_run.sh" "$root" "$cli" "$work/es" >es.txt || fail "exit $?: $(cat es.txt)"
cp us.txt before.txt # a second time, in the folder of the first
LANG=en_US.UTF-8 sh "$root/src/first_run.sh" "$root" "$cli" "$work/us" >us.txt || fail "again: exit $?: $(cat us.txt)"
cmp before.txt us.txt || fail "the second time it says something else"
[ "$(grep -c '^ *[0-9.]* ft |[#+. ]*| [0-9.]* lb/ft3' us.txt)" = 24 ] || fail "not 24 lines of wall: $(cat us.txt)"
[ "$(grep -c '^ *[0-9.]* m  |[#+. ]*| [0-9.]* kg/m3' es.txt)" = 24 ] || fail "not 24 lines of wall: $(cat es.txt)"
grep -q '^ *1.3 ft .*<- hole' us.txt || fail "the hole is not at 1.3 ft: $(cat us.txt)"
grep -q '^ *0.4 m .*<- hoyo' es.txt || fail "the hole is not at 0.4 m: $(cat es.txt)"
says us.txt 'THE WALL, opened.' ' of 100' 'after 1 year:   gap at the top ' 'after 30 years: gap at the top ' 'report.pdf'
says es.txt 'LA PARED, abierta.' ' de 100' 'tras 1 año:' 'tras 30 años:' 'report.pdf'
# one wall in two systems of units: inches and mm, lb/ft3 and kg/m3, R of either kind
figures() { # gap, density and R of the thirtieth year
    sed -n "s/.*30 [a-zñ]*: *[a-z ]* \([0-9.]*\) [a-z.]*, [a-zá ]* \([0-9.]*\) [a-z/0-9]*, [a-zR ]* \([0-9.]*\).*/\1 \2 \3/p" "$1"
}
echo "$(figures us.txt) $(figures es.txt)" | awk '{ print
    exit !(NF == 6 && ($1 * 25.4 - $4) ^ 2 < 0.13 ^ 2 && ($2 * 16.01846 - $5) ^ 2 < 0.1 ^ 2 && ($3 / 5.678263 - $6) ^ 2 < 0.06 ^ 2 && $6 > 1) }' ||
    fail "the thirtieth year differs between the units"
for paper in us es; do
    [ "$(head -c 5 $paper/report.pdf)" = %PDF- ] || fail "no report in $paper"
done
[ "$(cat us/notes.txt)" = mine ] || fail "somebody's own file was touched"
[ -z "$(find home -type f)" ] || fail "written into the home folder: $(find home -type f)"
# an answer that cannot be written is no success
code=0
sh "$root/src/first_run.sh" "$root" "$cli" "$work/us/notes.txt/x" >no.txt 2>&1 || code=$?
[ "$code" != 0 ] || fail "exit 0 without a place to write to"
echo "first run: told in both languages and units"
