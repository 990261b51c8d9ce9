#!/bin/sh
# Make the pictures in golden/ anew: sh bless_golden.sh PROGRAM TREE SCRATCH. Look at every one
# before it is committed.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb convert
. "$root/tests/app/gl/golden_views.sh"
draw_view years
draw_view side
for name in years-900x600 side-1280x800; do
    # no dates inside, fewest bytes
    convert "$work/$name.png" -alpha off -strip -define png:compression-level=9 \
        -define png:exclude-chunks=date,time "$root/tests/app/gl/golden/$name.png"
    ls -l "$root/tests/app/gl/golden/$name.png"
done
