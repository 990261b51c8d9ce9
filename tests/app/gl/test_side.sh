#!/bin/sh
# Side by side as a salesperson uses it (side.script): what the window shows at year 30 is what
# pullback-cli compare gives for the same house; the handout has the company's name; a
# house file that is not understood ends the program with its line; a small window draws.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb convert awk
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || fail "no $cli"
mkdir -p "$work/db"
low=$root/tests/app/data/low-house.json # the demo house with a bay of half the height, soon packed
script "$root/tests/app/gl/side.script" --house "$low" --db "$work/db/p.db" --dump "$work/side.json" ||
    fail "the tour"
for picture in refused side hasty assumed handout proof; do
    [ -s "$work/$picture.png" ] || fail "no picture: $picture"
done

# The same house by the command line, with the other price. Of its key times the window
# has nine more; draws are the same at each.
sed 's/"mid": 0.09/"mid": 0.11/' "$low" >"$work/house.json"
timeout 2000 "$cli" compare "$work/house.json" --years 1,30 --csv "$work/core.csv" || fail "compare"
number=0
for fill in empty loose foam dense; do
    number=$((number + 1))
    for pair in "side_ratio heat_ratio" "side_low heat_ratio_low" "side_high heat_ratio_high" \
        "side_r r_m2k_w" "side_cost cost"; do
        # shellcheck disable=SC2086
        set -- $pair
        shown=$(sed -n "s/.*\"$1_$number\": \(.*\),/\1/p" "$work/side.json")
        # The window keeps pictures between the times and cuts its steps there: by up to 1 mm of gap.
        awk -F, -v fill=$fill -v column="$2" -v shown="$shown" '
            NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i; next }
            $1 == fill && $2 == 30 { core = $at[column] }
            END { printf "%s %s: window %s, core %s\n", fill, column, shown, core
                  exit !(core > 0 && (shown - core)^2 < (0.005 * core)^2) }' "$work/core.csv" ||
            fail "the window and the core differ in $2 of $fill"
    done
done

# The handout: a page and its sources, with the company's name as typed and the customer's.
page=$work/db/handout-demo-house.pdf
[ -s "$page" ] || fail "no handout at $page"
if command -v pdftotext >/dev/null 2>&1 && command -v pdfinfo >/dev/null 2>&1; then
    pdftotext -layout "$page" "$work/handout.txt"
    [ "$(pdfinfo "$page" | sed -n 's/^Pages: *//p')" = 2 ] || fail "the handout is not two pages"
    for words in "Demo company" "Demo house"; do
        grep -q "$words" "$work/handout.txt" || fail "the handout does not say $words"
    done
fi

# The sheet of the day: one page with what was typed and the prediction that goes by it.
sheet=$work/db/proof-demo-house.pdf
[ -s "$sheet" ] || fail "no sheet at $sheet"
if command -v pdftotext >/dev/null 2>&1 && command -v pdfinfo >/dev/null 2>&1; then
    pdftotext -raw "$sheet" "$work/sheet.txt"
    [ "$(pdfinfo "$sheet" | sed -n 's/^Pages: *//p')" = 1 ] || fail "the sheet is not one page"
    for words in "Demo company" "2 cores have 56" "As measured"; do
        grep -q "$words" "$work/sheet.txt" || fail "the sheet does not say $words"
    done
fi

# Files that are no house: one line with the place, exit 3 or 4, no window.
printf '{"format": "pullback house 1", "wall_area_m2": -4}\n' >"$work/bad.json"
refused() {
    code=0
    timeout 600 "$program" --room side --house "$1" >"$work/bad.out" 2>&1 || code=$?
    [ $code = "$2" ] || fail "$1: exit $code, not $2"
    [ "$(wc -l <"$work/bad.out")" = 1 ] || fail "$1: not one line"
}
refused "$work/bad.json" 3
refused "$work/none.json" 4

# On the house page: degree-days with a mark for the thousands are refused, not taken for three; a
# wall area that is only looked at in the other units and the other language is what it was.
cat >"$work/house.script" <<'END'
0.2 click to_house
0.5 click demo
0.8 click field_2
0.9 key Backspace
1.0 key Backspace
1.1 key Backspace
1.2 key Backspace
1.3 type 2,500
1.4 key Return
1.7 expect side_refused 2
1.7 expect side_page 1
1.7 expect side_degree_days 3700
1.8 key Backspace
1.9 key Backspace
2.0 key Backspace
2.1 key Backspace
2.2 key Backspace
2.3 type 2500,5
2.8 click field_5
2.9 key Backspace
3.0 key Backspace
3.1 key Backspace
3.2 type 140.6
3.7 key F10
4.0 click set_units 0.75
4.3 click set_lang 0.75
4.6 click set_units 0.25
4.9 key Escape
5.2 click use
5.6 expect side_refused -1
5.6 expect side_page 0
5.6 expect side_area_m2 140.6
# the house's air: a blower door that no house has is refused, one that it may have is taken
5.7 click to_house
6.0 at field_5
6.1 wheel -30
6.5 click field_31
6.6 key Backspace
6.7 type 12
6.8 key Return
7.1 expect side_refused 31
7.2 expect side_page 1
7.3 type 00
7.5 key Return
7.9 expect side_refused -1
8.0 expect side_page 0
8.1 expect side_door_m3_h 1200
8.2 click to_air
8.5 expect side_page 5
8.6 click to_house
8.9 expect side_saved 1
9.0 click delete
9.3 expect side_saved 0
9.4 end
END
script "$work/house.script" --room side --db "$work/house.db" --lang en --units si \
    --house "$root/assets/houses/demo.json" || fail "the house page"
[ -s "$work/house.db" ] || fail "no store"
grep -aq "Demo house" "$work"/house.db* && fail "the customer's name stays in the store after Delete"

# A small window draws, with three fills worked out and with one, and a room left while it works is
# left at once; other layouts are read by app.gl.large_text.
for look in "en 2" "es 1"; do
    {
        printf '0.2 wait side_ratio_%s > 0 1000000\n' "${look#* }"
        at_sizes 0.3 look "1.0 1.5 2.0"
    } >"$work/look.script"
    script "$work/look.script" --room side --lang "${look% *}" --scale 1.0 --size 900x600 \
        --house "$low" || fail "$look"
    drawn look "1.0 1.5 2.0"
done
