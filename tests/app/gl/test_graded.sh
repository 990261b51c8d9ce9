#!/bin/sh
# Graded runs: what the screen allows, what skipped checks cost, and that the record says it.
. "$(dirname "$0")/lib.sh" "$@"
need xvfb-run xauth
script "$root/tests/app/gl/graded.script" || fail "graded"
[ -s "$work/graded.png" ] || fail "no picture"
# 6 checks and 5 points of 15
script "$root/tests/app/gl/plug_power.script" "$root/assets/exercises/damp-material.json" || fail "plug"
script "$root/tests/app/gl/spill.script" "$root/assets/exercises/plain-2x4.json" || fail "outside"
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || pass_over "there is no pullback-cli beside the program"
db=$work/data/pullback/pullback.db
"$cli" runs export 1 "$work/1.pbrun" --db "$db" >/dev/null || fail "no run was kept"
"$cli" grade "$work/1.pbrun" >"$work/grade" || [ $? = 1 ] || fail "it cannot be graded"
grep -q 'checks before work skipped: 4, at 0:0' "$work/grade" || fail "checks: $(cat "$work/grade")"
# command 9 (mark) with 1201: graded, taped wall
bytes=$(od -An -v -tx1 "$work/1.pbrun" | tr -d ' \n')
case $bytes in
*090000000000c49240*) ;;
*) fail "the record does not say that it counts" ;;
esac
echo "graded: the record says so"
