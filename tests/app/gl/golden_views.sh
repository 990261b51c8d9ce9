# The views that are kept as pictures: sourced after lib.sh; draws them into $work/<name>.png.
#   draw_view years|side        as_kept NAME     true when it is as golden/NAME.png
# Everything is worked out before the picture is taken, so nothing depends on the speed of a machine.
draw_view() {
    case $1 in
    years) set -- years-900x600 years 900x600 '0.1 wait years_keys > 27 600\n0.2 wait years_draws > 39 600' ;;
    side) set -- side-1280x800 side 1280x800 '0.1 wait side_is_over 1 900' ;;
    *) fail "no view $1" ;;
    esac
    {
        printf '%b\n' "$4"
        cat <<END
0.3 at rail 0.7746 0.5
0.4 down
0.5 up
0.6 expect years 30
0.6 move 2 2
1.2 shot $1.png
1.3 end
END
    } >"$work/view.script"
    script "$work/view.script" --room "$2" --fill 44 --size "$3" \
        --house "$root/assets/houses/demo.json" "$root/assets/exercises/plain-2x4.json" ||
        fail "$1 cannot be drawn"
    [ -s "$work/$1.png" ] || fail "no picture: $1"
}
# pixels_off KEPT DRAWN OFF: how many pixels differ and by how much of 255, the worst of the three
# channels of each: lines of "pixels difference". OFF is the picture of the differences.
pixels_off() {
    convert "$1" "$2" -alpha off -compose difference -composite -depth 8 \
        -separate -evaluate-sequence max -depth 8 "$3"
    convert "$3" -depth 8 -format '%c' histogram:info:- | sed -n 's/^ *\([0-9]*\): (\([0-9]*\).*/\1 \2/p'
}
# Same size, no channel off by more than 2 of 255 on 99.9 % of the pixels and never by more than 24.
as_kept() {
    kept_picture=$root/tests/app/gl/golden/$1.png
    size=$(convert "$work/$1.png" -format '%wx%h' info:-)
    [ "$size" = "$(convert "$kept_picture" -format '%wx%h' info:-)" ] || fail "$1: the size is $size"
    pixels_off "$kept_picture" "$work/$1.png" "$work/$1-off.png" |
        awk -v name="$1" '{ all += $1; if ($2 > 2) off += $1; if ($2 > worst) worst = $2 }
            END { printf "%s: %d pixels, %.4f %% off by more than 2, worst %d\n", name, all,
                      100 * off / all, worst
                  exit !(all > 0 && off <= 0.001 * all && worst <= 24) }'
}
