#!/bin/sh
# Large type: in every room, on every tab, card and notice each text can be read whole, in letters of
# the size that was asked for, and each control can be reached. Nothing lies on anything, is cut, too
# small, or leaves the page (script verb "legible", which reads the calls that draw). Both languages;
# a small window, a usual one and a large one; 100, 175 and 200 %. One program goes once through all
# of it and lays out each state in each of these views.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
views="1024x700:2.0:es 1024x700:1.75:en 1024x700:1.0:es 1280x800:2.0:en 1280x800:1.75:es 1280x800:1.0:en
    1920x1080:2.0:es 1920x1080:1.0:en"
cli=$(dirname "$program")/../cli/pullback-cli
[ -x "$cli" ] || pass_over "there is no pullback-cli beside the program"
"$cli" learners add "Learner 1" --db "$work/p.db" >/dev/null
"$cli" learners add "Learner with a name as long as some are" --db "$work/p.db" >/dev/null
"$cli" runs import "$root/tests/app/recorded.pbrun" --learner "Learner 1" --db "$work/p.db" ||
    fail "import"
# script lines part at spaces, so the file that is dropped stands where the path has none
place=$(mktemp -d)
sed -e 's/"fastener_spacing_m": [0-9.]*/"fastener_spacing_m": 0.6/' -e 's/"open_frac": [0-9.]*/"open_frac": 0.05/' \
    "$root/assets/exercises/thin-panelling.json" >"$place/thin.json"
# "TIME legible NAME" once in each view, then the one before again
awk -v views="$views" -v place="$place/thin.json" '
    { gsub("THIN", place) }
    $2 == "view" { home = $3 " " $4 " " $5 }
    $2 != "legible" { print; next }
    { n = split(views, v, " ")
      for (i = 1; i <= n; i++) {
          split(v[i], p, ":")
          print $1, "view", p[1], p[2], p[3]
          print $1, "legible", $3 "-in-" v[i]
      }
      print $1, "view", home
    }' "$root/tests/app/gl/large_text.script" >"$work/large_text.script"
grep -q legible "$work/large_text.script" || fail "there is nothing to look at"
code=0
script "$work/large_text.script" --door --db "$work/p.db" --size 1920x1080 --lang en --units us --speed 8 \
    --house "$root/tests/app/data/low-house.json" || code=$?
rm -r "$place"
exit $code
