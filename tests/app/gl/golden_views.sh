# The views that are kept as pictures: sourced after lib.sh; draws them into $work/<name>.png.
# Everything is worked out before the picture is taken, so nothing depends on the speed of a machine.
draw_views() {
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
    for view in "years-900x600 years 900x600" \
        "side-1280x800 side 1280x800"; do
        # shellcheck disable=SC2086
        set -- $view
        sed "s/NAME/$1/" "$work/$2.script" >"$work/view.script"
        script "$work/view.script" --room "$2" --fill 44 --size "$3" \
            --house "$root/assets/houses/demo.json" "$root/assets/exercises/plain-2x4.json" ||
            fail "$1 cannot be drawn"
        [ -s "$work/$1.png" ] || fail "no picture: $1"
    done
}
