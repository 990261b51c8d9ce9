#!/bin/sh
# The pictures of the user guides, made from the program itself: real window, real input.
#   guide_pictures.sh PROGRAM TREE SCRATCH            compare with docs/guide/pictures
#   guide_pictures.sh PROGRAM TREE SCRATCH --write    make them anew; look at each before committing
# A picture is out of date when over 0.5 % of its pixels differ by more than 24 of 255: a word that
# changed shows, another version of the software rasteriser does not.
here=$(dirname "$0")
write=${4:-}
. "$here/../app/gl/lib.sh" "$1" "$2" "$3"
. "$here/../app/gl/golden_views.sh"
need Xvfb convert awk
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || fail "no $cli"
bay=$root/assets/exercises/plain-2x4.json
kept=$root/docs/guide/pictures
open_screen 1920x1200 # which the views share, each at the end of a pipe

# One view: name, then the program's arguments; the script comes from standard input.
view() {
    name=$1
    shift
    cat >"$work/$name.script"
    printf 'shown %s\n' "$name"
    script "$work/$name.script" --lang en --units si --size 1280x800 "$@" >/dev/null || fail "$name cannot be drawn"
    [ -s "$work/$name.png" ] || fail "no picture: $name"
}

"$cli" learners add 'Learner 1' >/dev/null
"$cli" runs import "$root/tests/app/recorded.pbrun" --learner 'Learner 1' >/dev/null
printf '0.3 expect screen 2\n0.6 move 2 2\n0.8 shot door.png\n1 end\n' | view door --door
{
    # hands of the packing test up to the middle of the bay
    sed -n '1,/^19 wait/p' "$root/tests/app/gl/pack.script" | grep -v '^#'
    printf '19.5 move 2 2\n20.5 every 1\n20.9 shot bay.png\n21 end\n'
} | view bay "$bay"
{
    # with every check before work, which the packing test leaves out: a bay that passes
    sed -n '1,/^37 print score/p' "$root/tests/app/gl/pack.script" | grep -v '^#'
    printf '37.1 every 1\n37.1 move 2 2\n37.5 shot result.png\n38 end\n'
} | awk '$2 " " $3 == "click card_ok" { for (i = 0; i < 6; i++) printf "%.1f click check%d\n", 0.7 + 0.2 * i, i }
    $1 > 0.6 { $1 += 1.4 } { print }' | view result "$bay"
{
    sed -n '1,/^15.5 key/p' "$root/tests/app/gl/closed_keys.script" | grep -v '^#\|hidden'
    printf '16 move 2 2\n17.2 every 1\n17.5 shot closed.png\n18 end\n'
} | view closed "$bay"
{
    printf '0.1 wait debrief_runs > 0 60\n0.3 key Return\n0.5 wait debrief_is_read 1 120\n'
    printf '1 key N\n1.5 move 2 2\n2 shot debrief.png\n2.5 end\n'
} | view debrief --room debrief
printf '0.1 wait years_keys > 27 600\n0.2 wait years_draws > 39 600\n0.3 at rail 0.7746 0.5\n0.4 down\n0.5 up\n0.6 move 2 2\n1.2 shot years.png\n1.3 end\n' |
    view years --room years --fill 44 "$bay"
draw_view side
cp "$work/side-1280x800.png" "$work/side.png"

names="door bay result closed debrief years side"
if [ "$write" = --write ]; then
    mkdir -p "$kept"
    for name in $names; do
        # 96 colours are enough for flat paper and ink, and a third of the bytes
        convert "$work/$name.png" -alpha off +dither -colors 96 -strip -define png:compression-level=9 \
            -define png:exclude-chunks=date,time "$kept/$name.png"
    done
    ls -l "$kept"
    exit 0
fi
as_kept side-1280x800 || fail "side: not as in tests/app/gl/golden (see $work/side-1280x800-off.png)"
old=""
for name in $names; do
    [ -s "$kept/$name.png" ] || fail "docs/guide/pictures/$name.png is missing"
    pixels_off "$kept/$name.png" "$work/$name.png" "$work/$name-off.png" |
        awk -v name="$name" '{ all += $1; if ($2 > 24) off += $1 }
            END { printf "%s: %.3f %% of %d pixels differ\n", name, 100 * off / all, all
                  exit !(all > 0 && off <= 0.005 * all) }' || old="$old $name"
done
[ -z "$old" ] || fail "out of date:$old. Make them anew: $0 PROGRAM TREE SCRATCH --write"
