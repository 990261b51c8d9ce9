#!/bin/sh
# Pictures of the window by the scripts of tests/app/gl, into the scratch folder.
#   window_shots.sh PROGRAM TREE SCRATCH pack|years
. "$(dirname "$0")/../app/gl/lib.sh" "$1" "$2" "$3"
need Xvfb convert awk
case $4 in
pack) script "$root/tests/app/gl/pack.script" "$root/assets/exercises/plain-2x4.json" || fail "the script" ;;
years)
    . "$root/tests/app/gl/golden_views.sh"
    draw_view years
    ;;
esac
