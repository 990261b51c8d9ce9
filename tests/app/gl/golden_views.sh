# The views that are kept as pictures: sourced after lib.sh; draws them into $work/<name>.png.
#   draw_view years|side        as_kept NAME     true when it is as golden/NAME.png
# Everything is worked out before the picture is taken, so nothing depends on the speed of a machine.
draw_view() {
    cat >"$work/years.script" <<'END'
0.1 wait years_keys > 27 600
0.2 wait years_draws > 39 600
0.3 at rail 0.7746 0.5
0.4 down
0.5 up
0.6 expect years 30
0.6 move 2 2
1.2 shot NAME.png
1.3 end
END
    cat >"$work/side.script" <<'END'
0.1 wait side_is_over 1 900
0.3 at rail 0.7746 0.5
0.4 down
0.5 up
0.6 expect years 30
0.6 move 2 2
1.2 shot NAME.png
1.3 end
END
    case $1 in
    years) set -- years-900x600 years 900x600 ;;
    side) set -- side-1280x800 side 1280x800 ;;
    esac
    sed "s/NAME/$1/" "$work/$2.script" >"$work/view.script"
    script "$work/view.script" --room "$2" --fill 44 --size "$3" \
        --house "$root/assets/houses/demo.json" "$root/assets/exercises/plain-2x4.json" ||
        fail "$1 cannot be drawn"
    [ -s "$work/$1.png" ] || fail "no picture: $1"
}
# Same size, no channel off by more than 2 of 255 on 99.9 % of the pixels and never by more than 24.
as_kept() {
    kept_picture=$root/tests/app/gl/golden/$1.png
    size=$(convert "$work/$1.png" -format '%wx%h' info:-)
    [ "$size" = "$(convert "$kept_picture" -format '%wx%h' info:-)" ] || fail "$1: the size is $size"
    # the worst of the three channels of every pixel, counted by value
    convert "$kept_picture" "$work/$1.png" -alpha off -compose difference -composite -depth 8 \
        -separate -evaluate-sequence max -depth 8 "$work/$1-off.png"
    convert "$work/$1-off.png" -depth 8 -format '%c' histogram:info:- |
        sed -n 's/^ *\([0-9]*\): (\([0-9]*\).*/\1 \2/p' |
        awk -v name="$1" '{ all += $1; if ($2 > 2) off += $1; if ($2 > worst) worst = $2 }
            END { printf "%s: %d pixels, %.4f %% off by more than 2, worst %d\n", name, all,
                      100 * off / all, worst
                  exit !(all > 0 && off <= 0.001 * all && worst <= 24) }'
}
