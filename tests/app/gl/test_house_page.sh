#!/bin/sh
# Layers, fuel and bill on the house page (house_page.script), and the wall drawn as it is chosen.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
mkdir -p "$work/db"
low=$root/tests/app/data/low-house.json # a bay of half the height, soon packed
script "$root/tests/app/gl/house_page.script" --house "$low" --db "$work/db/p.db" || fail "the tour"
grep -q 'tablero de yeso' "$work/other_language.txt" || fail "choices of the page keep the old language"
for picture in wall_refused house_page saved; do
    [ -s "$work/$picture.png" ] || fail "no picture: $picture"
done
