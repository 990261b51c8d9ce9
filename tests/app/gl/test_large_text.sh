#!/bin/sh
# Large type: in every room and on every card each text can be read whole, and each control can be
# reached. Nothing lies on anything, is cut, or leaves the page (script verb "legible", which reads
# the calls that draw). Both languages; a small window and a usual one; 175 and 200 %.
. "$(dirname "$0")/lib.sh" "$@"
need xvfb-run xauth
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || pass_over "there is no pullback-cli beside the program"
"$cli" learners add "Learner 1" --db "$work/seed.db" >/dev/null
"$cli" runs import "$root/tests/app/recorded.pbrun" --learner "Learner 1" --db "$work/seed.db" ||
    fail "import"
# The years of an even fill: those of a bay hardly begun have the air of all its empty room to solve.
cat >"$work/years.script" <<'END'
0.2 wait years_r_m2k_w > 0 60
0.5 legible years
0.6 end
END
for way in "1024x700 es 2.0" "1024x700 en 1.75" "1280x800 en 2.0" "1280x800 es 1.75"; do
    # shellcheck disable=SC2086
    set -- $way
    cp "$work/seed.db" "$work/p.db"
    script "$root/tests/app/gl/large_text.script" --door --db "$work/p.db" --size "$1" --lang "$2" \
        --scale "$3" --units us \
        --house "$root/tests/app/data/low-house.json" || fail "$way"
    script "$work/years.script" --room years --fill 44 --size "$1" --lang "$2" --scale "$3" --units us ||
        fail "$way: years"
    for picture in door taped result debrief side house; do
        mv "$work/$picture.png" "$work/$picture-$1-$2-$3.png" || fail "$way: no picture $picture"
    done
done
