#!/bin/sh
# What `run` prints of a bay says the same in both systems of units.
#   run_text.sh PULLBACK_CLI SOURCE_TREE
set -eu
text=$("$1" run "$2/tests/app/data/low-bay.json" --hands "$2/assets/hands/steady-foot.json")
# $1 the pattern with two figures, SI and US; $2 SI for one of the US unit
same() {
    pair=$(printf '%s\n' "$text" | sed -n "s/$1/\1 \2/p")
    echo "$pair" | awk -v unit="$2" '{ exit !(NF == 2 && $1 > 0 && ($2 * unit - $1) ^ 2 < (0.006 * unit + 0.06) ^ 2) }' ||
        { echo "FAILED: \"$pair\" by $1 in: $text" >&2 && exit 1; }
}
same 'packed  *\([0-9.]*\) kg in .*(\([0-9.]*\) lb in .*' 0.45359237
same 'mean  *\([0-9.]*\) kg.m3 (\([0-9.]*\) lb.*' 16.018463
same 'mean .*target \([0-9.]*\) (\([0-9.]*\)).*' 16.018463
same 'softest  *twentieth \([0-9.]*\),.*(\([0-9.]*\), .*' 16.018463
echo "run: one bay in both units"
