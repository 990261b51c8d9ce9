#!/bin/sh
# Years later: what the window shows at year 30 is what pullback-cli age works out from the same bay,
# for an even fill and for a bay packed by hand; the camera's pixels are the solver's temperatures.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb convert awk
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || fail "no $cli"

# The times of the window up to 30 years: steps are cut at the times asked for, and other cuts move
# the gap by up to 1 mm. The table has R of the bay and its stud, the page that of the whole wall, which
# has more wood in it and is less.
times=0.05,0.1,0.25,0.5,0.75,1,1.5,2,2.5,3,4,5,6,7,8,10,12.5,15,17.5,20,22.5,25,30
# $1 state, $2 largest difference of R, share: strips are 12 in the window and 4 in the table
same_as_core() {
    "$cli" age "$1.field.csv" --at "$times" --climate normal --json | tr -d '\n ' >"$work/age.json"
    gap=$(sed 's/.*"top_gap_m":\[[^]]*,\([-0-9.e+]*\)\].*/\1/' "$work/age.json")
    r=$(sed 's/.*"effective_r_m2k_w":\[[^]]*,\([-0-9.e+]*\)\].*/\1/' "$work/age.json")
    shown_gap=$(sed -n 's/.*"years_gap_m": \(.*\),/\1/p' "$1")
    shown_r=$(sed -n 's/.*"years_bay_r_m2k_w": \(.*\),/\1/p' "$1")
    echo "top gap $shown_gap m, core $gap m; R $shown_r, core $r m2K/W"
    awk -v a="$gap" -v b="$shown_gap" -v r="$r" -v s="$shown_r" -v share="$2" 'BEGIN {
        exit !((a - b)^2 < 1e-12 && (r - s)^2 < (share * r)^2 && r > 0.5) }' ||
        fail "the window and the core differ"
    wall_r=$(sed -n 's/.*"years_r_m2k_w": \(.*\),/\1/p' "$1")
    awk -v w="$wall_r" -v s="$shown_r" 'BEGIN { exit !(w < 0.95 * s && w > 0.75 * s) }' ||
        fail "R of the wall is $wall_r beside $shown_r of the bay"
}
script "$root/tests/app/gl/years.script" --room years --fill 44 --dump "$work/even.json" \
    "$root/assets/exercises/plain-2x4.json" || fail "years"
same_as_core "$work/even.json" 1e-6
sh "$root/tests/app/gl/compare_camera.sh" "$work/even.json" "$work/years.png"
script "$root/tests/app/gl/years_packed.script" --dump "$work/packed.json" \
    "$root/assets/exercises/plain-2x4.json" || fail "years of a packed bay"
same_as_core "$work/packed.json" 0.02
sh "$root/tests/app/gl/compare_camera.sh" "$work/packed.json" "$work/packed.png"
{
    printf '0.2 wait years_keys > 0 60\n'
    at_sizes 0.3 look "1.0 1.5 2.0"
} >"$work/look.script"
script "$work/look.script" --room years --lang es --scale 1.0 --size 900x600 || fail "a small window"
drawn look "1.0 1.5 2.0"
