#!/bin/sh
# usage: outputs.sh PULLBACK-CLI SOURCE_TREE BUILD_FOLDER
# No output of any verb takes the place of an input, of the database of runs, of another output, or of
# a file of another kind, however it is spelled: refused with exit 3 (2 when the command line says so
# already) and one line, and not a byte of the folder is another.
set -eu
program=$1 root=$2 folder=$3
rm -rf "$folder"
mkdir -p "$folder/sub"
cd "$folder"
export XDG_DATA_HOME="$folder/home" HOME="$folder/home"
fail() {
    echo "outputs: $*" >&2
    exit 1
}

# What the verbs read.
cp "$root/assets/exercises/plain-2x4.json" e.json
cp "$root/assets/hands/no-tube.json" h.json
cp "$root/assets/houses/demo.json" house.json
cp "$root/assets/heat/iso10211_case1.json" c.json
cp "$root/assets/heat/bay_full_60.json" b.json
cp "$root/assets/rubrics/default.json" r.json
cp "$root/tests/app/recorded.pbrun" r.pbrun
printf '# pullback density v1 nx=1 ny=1 width_m=0.4 height_m=0.1 depth_m=0.1 tilt_deg=90 rh=0.5\n' >f.csv
printf 'x_m,y_m,density_kg_m3,past_kg_m3,lateral_pa,free_frac\n0.2,0.05,50,50,0,1\n' >>f.csv
echo "dear diary" >letter.txt
"$program" learners add A >/dev/null
"$program" runs import r.pbrun --learner A >/dev/null
store=home/pullback/pullback.db
[ -s "$store" ] || fail "no store at $store"
cp "$store" s.db
cp "$store" other.db
: >empty

# Names, what they are, and bytes; a reader of the store may come and go with its log. A folder that
# nothing was done to is listed in the same order.
picture() {
    find . ! -name said ! -name out ! -name '*-wal' ! -name '*-shm' -printf '%p %i %l\n' \
        -type f -exec cksum {} +
}
refusals=0
# $1: how it is spelled; the rest: the command.
refuses() {
    what=$1
    shift
    code=0
    timeout 60 "$program" "$@" >out 2>said || code=$?
    [ $code = 2 ] || [ $code = 3 ] || fail "$what: exit $code: $* $(cat said)"
    [ ! -s out ] || fail "$what: it printed: $* $(cat out)"
    { IFS= read -r _ && ! IFS= read -r _; } <said || fail "$what: not one line: $* $(cat said)"
    refusals=$((refusals + 1))
}
# The folder is as it was in ../before.txt; told: what was done to it.
unchanged() {
    picture >../after.txt
    cmp -s ../before.txt ../after.txt ||
        fail "something is another: $* $(diff ../before.txt ../after.txt | head -5)"
}
refused() {
    picture >../before.txt
    refuses "$@"
    unchanged "$@"
}
# Every spelling of $1 in the place of @ in the rest.
only=
each_spelling() {
    target=$1
    shift
    ln -s "$folder/$target" symbolic
    ln "$target" hard
    picture >../before.txt
    for spelling in "$target" "./$target" "$folder/$target" "sub/../$target" symbolic ./hard; do
        [ -n "$only" ] && [ "$spelling" != "$only" ] || set_args "$spelling" "$@"
    done
    unchanged "$target by any name" "$@"
    rm symbolic hard
}
# The spelling that says least of what it is: what a name stands for is found in one place for all verbs.
by_link() {
    only=symbolic
    each_spelling "$@"
    only=
}
# Runs the command with @ replaced.
set_args() {
    at=$1
    shift
    for word in "$@"; do # the words of the list as it was; each goes to the end of the new one
        [ "$word" = @ ] && word=$at
        shift
        set -- "$@" "$word"
    done
    refuses "$at" "$@"
}

# Inputs.
each_spelling e.json run e.json --hands h.json --density @
each_spelling h.json run e.json --hands h.json --signals @
each_spelling c.json run e.json --hands h.json --constants c.json --record @
each_spelling f.csv age f.csv --years 1 --frames @
each_spelling house.json compare house.json --draws 0 --years 1 --json @
each_spelling r.pbrun compare house.json --draws 0 --years 1 --own r.pbrun --csv @
each_spelling house.json compare house.json --draws 0 --years 1 --pdf @
each_spelling c.json heat c.json --field @
each_spelling b.json heat --bay b.json --field @
each_spelling r.pbrun grade r.pbrun --pdf @
each_spelling r.json grade r.pbrun --rubric r.json --pdf @
each_spelling e.json coach e.json --runs 2 --no-save --out @
each_spelling r.json runs pdf 1 @ --rubric r.json

# The store: of this command, the person's own, one that has nothing to do with it; other files.
for target in s.db "$store" other.db letter.txt; do
    each_spelling "$target" runs pdf 1 @ --db s.db
    by_link "$target" runs export 1 @ --db s.db
    by_link "$target" grade r.pbrun --pdf @
    by_link "$target" run e.json --hands h.json --density @
    by_link "$target" run e.json --hands h.json --record @
    by_link "$target" age --density 45 --years 1 --frames @
    by_link "$target" compare house.json --draws 0 --years 1 --csv @
    by_link "$target" heat c.json --field @
    by_link "$target" coach e.json --runs 2 --no-save --out @
done
# Beside a database such a name is the database's own, whether it is there or not.
for name in s.db-wal ./s.db-shm "$folder/s.db-journal" "$store-wal"; do
    refused "$name" runs pdf 1 "$name" --db s.db
    refused "$name" run e.json --hands h.json --signals "$name"
done
# A store that is not there yet: its name is taken all the same.
mkdir sub/pullback
XDG_DATA_HOME="$folder/sub" refused "a store to come" age --density 45 --years 1 --frames sub/pullback/pullback.db

# Two outputs, one file.
mkdir real
ln -s real linked
for pair in "zz|zz" "zz|./zz" "zz|$folder/zz" "real/zz|linked/zz" "zz|sub/../zz" "zz|ZZ" "empty|./empty"; do
    one=${pair%|*} two=${pair#*|}
    refused "$pair" compare house.json --draws 0 --years 1 --json "$one" --csv "$two"
    refused "$pair" run e.json --hands h.json --density "$one" --signals "$two"
    refused "$pair" run e.json --hands h.json --signals "$one" --record "$two"
done
# "-" is standard output where a verb says so, and never a file of that name.
refused - run e.json --hands h.json --density -
refused - age --density 45 --years 1 --frames -
refused - heat c.json --field -
refused - runs pdf 1 - --db s.db
refused - grade r.pbrun --pdf -
refused - compare house.json --draws 0 --years 1 --json - --csv -
"$program" runs export 1 - --db s.db >exported.pbrun 2>said || fail "export to standard output: $(cat said)"
cmp exported.pbrun r.pbrun || fail "export to standard output is not the run"
[ ! -e ./- ] || fail "there is a file named -"

# What is meant to be replaced is: an older output of the same kind, and an empty file.
for name in new.pdf new.pdf empty; do
    "$program" runs pdf 1 "$name" --db s.db >out 2>said || fail "$name: $(cat said)"
    [ "$(head -c 4 "$name")" = "%PDF" ] || fail "$name is no PDF"
done
for again in 1 2; do
    "$program" heat c.json --field t.csv >out 2>said || fail "field, time $again: $(cat said)"
    "$program" age f.csv --years 1 --frames fr.csv >out 2>said || fail "frames, time $again: $(cat said)"
done
refused "another table" age f.csv --years 1 --frames t.csv
"$program" runs check --db s.db >out 2>said || fail "the store is not whole: $(cat said)"
"$program" learners list --db other.db >out 2>said || fail "the other store: $(cat said)"
echo "outputs: $refusals refusals, nothing lost"
