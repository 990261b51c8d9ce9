#!/bin/sh
# Graded runs: what the screen allows, what skipped checks cost, and that the record says it.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
script "$root/tests/app/gl/graded.script" || fail "graded"
[ -s "$work/graded.png" ] || fail "no picture"
# which bay it is would give the answer away: neither the list nor the room says so before the result
for file in graded_door.txt graded_bay.txt; do
    [ -s "$work/$file" ] || fail "$file is empty"
    ! grep -q "A plain wall bay\|wait for the stall" "$work/$file" || fail "told before: $(cat "$work/$file")"
done
grep -q "Exercise 1" "$work/graded_door.txt" || fail "the list: $(cat "$work/graded_door.txt")"
grep -q "Graded run" "$work/graded_bay.txt" || fail "the room: $(cat "$work/graded_bay.txt")"
# each try has chances of its own, the same only on purpose
printf '1 expect screen 0\n1.1 print seed\n1.2 end\n' >"$work/seed.script"
for seed in 0 0 4711; do
    script "$work/seed.script" --seed $seed "$root/assets/exercises/plain-2x4.json" >"$work/seed.txt" || fail "seed $seed"
    seeds="${seeds:-} $(sed -n 's/.* seed \([0-9]*\)$/\1/p' "$work/seed.txt")"
done
set -- $seeds
[ "$1" -ge 1 ] && [ "$1" -le 999999 ] && [ "$1" != "$2" ] && [ "$3" = 4711 ] || fail "seeds: $seeds"
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
