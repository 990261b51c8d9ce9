#!/bin/sh
# Keys are changed on the controls card, kept, read again at the next start; a file that cannot be
# read is put aside and told of with its line and column; one hand can do everything.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
kept=$XDG_CONFIG_HOME/pullback/keymap.json
cat >"$work/change.script" <<'END'
0.1 key F9
0.3 expect keys_open 1
0.3 click key1
0.5 key J
0.7 click keys_done
0.9 expect keys_open 0
1.0 keydown J
2.0 keyup J
2.1 expect tube_in_m > 0.15
2.2 keydown S
2.8 keyup S
2.8 expect tube_in_m < 0.3
2.9 end
END
script "$work/change.script" --room bay || fail "change"
grep -q '"tube_in": "J"' "$kept" || fail "not kept"
cat >"$work/again.script" <<'END'
0.2 keydown J
1.2 keyup J
1.3 expect tube_in_m > 0.15
1.4 key F9
1.6 click layout 0.84
1.9 expect layout 2
2.0 key Escape
2.2 keydown K
3.2 keyup K
3.3 expect tube_in_m > 0.35
3.7 key P
4.9 expect last_pull_m > 0.2
5.0 end
END
script "$work/again.script" --room bay || fail "read again"
cp "$kept" "$work/good.json"
sed 's/"turn": "Y"/"turn": "Frobnicate"/' "$work/good.json" >"$kept"
cat >"$work/usual.script" <<'END'
0.2 expect layout 0
0.2 keydown S
1.2 keyup S
1.3 expect tube_in_m > 0.15
1.4 end
END
script "$work/usual.script" --room bay 2>"$work/said" || fail "defaults after a bad file"
grep -q 'keymap.json:[0-9]*:[0-9]*: "turn": expected the name of a key' "$work/said" || {
    cat "$work/said"
    fail "no line and column"
}
[ -s "$kept.bad" ] && [ ! -e "$kept" ] || fail "the bad file was not put aside"
script "$work/usual.script" --room bay 2>"$work/said" || fail "second start"
grep -q keymap "$work/said" && fail "told twice"
echo "keymap: kept, read, put aside"
