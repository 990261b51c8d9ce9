#!/bin/sh
# Years later and Side by side against the pictures in golden/: same size, no channel off by more
# than 2 of 255 on 99.9 % of the pixels and never by more than 24. On failure the difference is left
# in the scratch folder. After a change that is meant, bless_golden.sh makes them anew: look at them.
. "$(dirname "$0")/lib.sh" "$@"
need xvfb-run xauth convert compare awk
. "$root/tests/app/gl/golden_views.sh"
draw_views
bad=""
for kept in "$root"/tests/app/gl/golden/*.png; do
    name=$(basename "$kept" .png)
    size=$(convert "$work/$name.png" -format '%wx%h' info:-)
    [ "$size" = "$(convert "$kept" -format '%wx%h' info:-)" ] || fail "$name: the size is $size"
    # the worst of the three channels of every pixel, counted by value
    convert "$kept" "$work/$name.png" -alpha off -compose difference -composite -depth 8 \
        -separate -evaluate-sequence max -depth 8 "$work/$name-off.png"
    convert "$work/$name-off.png" -depth 8 -format '%c' histogram:info:- |
        sed -n 's/^ *\([0-9]*\): (\([0-9]*\).*/\1 \2/p' |
        awk -v name="$name" '{ all += $1; if ($2 > 2) off += $1; if ($2 > worst) worst = $2 }
            END { printf "%s: %d pixels, %.4f %% off by more than 2, worst %d\n", name, all,
                      100 * off / all, worst
                  exit !(all > 0 && off <= 0.001 * all && worst <= 24) }' ||
        bad="$bad $name"
done
[ -z "$bad" ] || fail "not as they were:$bad (see $work/*-off.png)"
