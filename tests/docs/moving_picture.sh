#!/bin/sh
# The moving picture of the README: one bay twice, pulled by the clock and pulled at each stall, from
# the program itself by real input.
#   moving_picture.sh PROGRAM TREE SCRATCH            the kept one moves, is small, and README shows it
#   moving_picture.sh PROGRAM TREE SCRATCH --write    make it anew; look at it before committing
write=${4:-}
# shellcheck source=../app/gl/lib.sh
. "$(dirname "$0")/../app/gl/lib.sh" "$1" "$2" "$3"
kept=$root/docs/guide/pictures/two-bays.gif
every_s=2.0 # of the run, a picture
bay=$root/assets/exercises/plain-2x4.json

if [ "$write" != --write ]; then
    need identify awk
    grep -q '](docs/guide/pictures/two-bays.gif)' "$root/README.md" || fail "README does not show it"
    [ "$(wc -l <"$root/README.md")" -le 60 ] || fail "README has more than 60 lines"
    [ -s "$kept" ] || fail "$kept is missing; make it: $0 PROGRAM TREE SCRATCH --write"
    bytes=$(wc -c <"$kept")
    identify -format '%W %T\n' "$kept" | awk -v bytes="$bytes" '
        { width = $1; seconds += $2 / 100 }
        END {
            printf "%d pictures, %.1f s, %d pixels wide, %d bytes\n", NR, seconds, width, bytes
            exit !(NR >= 40 && seconds >= 8 && seconds <= 14 && width >= 480 && width <= 800 && bytes < 2000000)
        }' || fail "not 40 pictures in 8 to 14 s, 480 to 800 pixels wide, under 2 MB"
    exit 0
fi
need Xvfb convert identify awk

# A script without waits: each line at the time it had in a first run with them. $1 script, $2 out
fixed() {
    awk '{ print } $2 == "wait" { print $1, "print time_s" }' "$1" >"$work/probe.script"
    script "$work/probe.script" $view "$bay" >"$work/probe.txt" || fail "the first run of $1"
    awk 'FNR == NR { if ($2 == "time_s") at[++n] = $1; next }
        $2 == "wait" { shift_s = at[++k] - $1; next }
        { $1 = sprintf("%.3f", $1 + shift_s); print }' "$work/probe.txt" "$1" >"$2"
}
# Pictures of the bay and the way of the tube. $1 name, $2 script without waits, $3 seconds of the run
film() {
    {
        cat "$2"
        awk -v name="$1" -v end="$3" -v every="$every_s" 'BEGIN {
            for (t = 1.5; t < end; t += every) {
                printf "%.3f every 1\n%.3f shot %s-%03d.png\n%.3f every 120\n", t - 0.05, t, name, n++, t + 0.05
            } }'
    } | sort -n -s -k1,1 >"$work/$1.script"
    script "$work/$1.script" $view "$bay" >"$work/$1.txt" || fail "$1 cannot be filmed"
}
view="--lang en --units us --size 1280x800"
end='38 print score
38.1 end'
{
    sed '/^36 key F/,$d; /^#/d' "$root/tests/app/gl/pack.script"
    printf '36 key B\n44 key F\n44.5 wait screen 1 60\n%s\n' "$end" | sed 's/^38/46/'
} >"$work/stalls.waits"
# the same hands, but one foot each twelve seconds, whatever the flow does
cat >"$work/clock.waits" <<'END'
0.1 every 120
0.3 click machine 0.75
0.7 click card_ok
1.0 keydown S
9.0 keyup S
21 key shift+W
33 key shift+W
45 key shift+W
57 key shift+W
69 key shift+W
81 key B
83 keydown W
86 keyup W
86.5 key T
87 keydown S
90 keyup S
90.1 key Space
102 key shift+W
114 key B
122 key F
122.5 wait screen 1 60
124 print score
124.1 end
END
for name in stalls clock; do
    fixed "$work/$name.waits" "$work/$name.fixed"
    film $name "$work/$name.fixed" "$(awk '/key F$/ { print $1 - 0.2 }' "$work/$name.fixed")"
    sed -n 's/.* score //p' "$work/$name.txt" >"$work/$name.score"
    echo "$name: $(cat "$work/$name.score") points, $(ls "$work/$name"-*.png | wc -l) pictures"
done

# One half of a frame: the way of the tube and the bay, with words above. $1 picture, $2 and $3 words
half() {
    convert "$1" -crop 412x730+225+60 +repage -resize 68% -background '#f4eddf' -gravity north -splice 0x50 \
        -fill '#231f1a' -font "$root/assets/fonts/B612-Bold.otf" -pointsize 17 -annotate +0+6 "$2" \
        -font "$root/assets/fonts/B612-Regular.otf" -pointsize 14 -annotate +0+28 "$3" "$4"
}
# the last picture of a name that is not after number $2
picture() {
    name=$(printf '%s-%03d.png' "$1" "$2")
    [ -s "$work/$name" ] || name=$(cd "$work" && ls "$1"-*.png | tail -n 1)
    echo "$work/$name"
}
clock() { awk -v t="$1" 'BEGIN { printf "%d:%02d", t / 60, t % 60 }'; }
grade() { # with the pass mark of the exercise
    awk -v pass=70 '{ printf "%.0f of 100, %s", $1, ($1 >= pass ? "passed" : "not passed") }' "$work/$1.score"
}
frames=$(cd "$work" && ls stalls-*.png | wc -l)
n=0
while [ "$n" -lt "$frames" ]; do
    when=$(clock "$(awk -v n=$n -v s=$every_s 'BEGIN { print 1.5 + n * s }')")
    if [ $n = $((frames - 1)) ]; then
        left=$(grade clock) right=$(grade stalls)
    else
        left=$when right=$when
        [ -s "$work/$(printf 'clock-%03d.png' $n)" ] || left="done"
    fi
    half "$(picture clock $n)" "Pulled by the clock" "$left" "$work/left.png"
    half "$(picture stalls $n)" "Pulled at each stall" "$right" "$work/right.png"
    convert "$work/left.png" "$work/right.png" +append +dither -colors 48 "$work/$(printf 'frame-%03d.gif' $n)"
    n=$((n + 1))
done
last=$(printf 'frame-%03d.gif' $((frames - 1)))
# one table of colors for all, or the flat paper flickers from picture to picture
convert -delay 12 -loop 0 "$work"/frame-*.gif -delay 300 "$work/$last" +dither -colors 48 +map \
    -layers OptimizeTransparency "$work/two-bays.gif"
cp "$work/two-bays.gif" "$kept"
ls -l "$kept"
