#!/bin/sh
# usage: many_cases.sh PULLBACK-CLI BUILD_FOLDER [CASES]
# 200 cases, or as many as are asked for, under GNU parallel, as docs/formats/many-cases.md has it: killed twice without warning and
# gone on with each time, every case is there exactly once and is what the verb prints by itself.
set -eu
program=$1 folder=$2 cases=${3:-200}
fail() {
    echo "many_cases: $*" >&2
    exit 1
}
if ! parallel --version 2>/dev/null | grep -q '^GNU parallel'; then
    echo "skipped: GNU parallel is not installed (Debian package parallel)"
    exit 77
fi
rm -rf "$folder"
mkdir -p "$folder/rows"
cd "$folder"
export HOME="$folder" # parallel keeps notes of its own there
echo density,climate,years >cases.csv
for i in $(seq $cases); do
    climate=normal
    [ $((i % 2)) = 0 ] || climate=damp
    echo "$((30 + i % 50)).${i}1,$climate,0.$((100 + i))" >>cases.csv
done

# What the page says, word for word but for the program and the number of jobs.
start() {
    exec parallel --will-cite -j2 --colsep , --header : --joblog cases.log --resume \
        "'$program'" age --density '{density}' --climate '{climate}' --years '{years}' --threads 1 --json '>' 'rows/{#}.json' \
        :::: cases.csv
}
logged() {
    [ ! -e cases.log ] && echo 0 || grep -c '^[0-9]' cases.log || true
}

for until in $((cases / 7)) $((cases / 2)); do
    (start) &
    runner=$!
    while [ "$(logged)" -lt $until ] && kill -0 $runner 2>/dev/null; do
        sleep 0.1
    done
    kill -9 $runner 2>/dev/null || fail "all was done before the kill at $until"
    wait $runner 2>/dev/null || true
    [ "$(logged)" -lt $cases ] || fail "nothing was left to go on with after the kill at $until"
done
(start) || fail "a case failed, or parallel did"

[ "$(ls rows | wc -l)" = $cases ] || fail "$(ls rows | wc -l) rows, not $cases"
[ "$(grep '^[0-9]' cases.log | cut -f1 | sort -n | uniq | wc -l)" = "$(logged)" ] || fail "a case is in the log twice"
[ "$(logged)" = $cases ] || fail "$(logged) cases in the log, not $cases"
for i in $(seq $cases); do
    sed -n "$((i + 1))p" cases.csv | tr -d '\n'
    printf ','
    cat "rows/$i.json"
done >all.txt
[ "$(wc -l <all.txt)" = $cases ] || fail "$(wc -l <all.txt) lines, not one a case"
# density,climate,years of the table, then the row's own words for them
awk -F, '{
    if (index($0, "\"density_kg_m3\":" $1 ",") == 0 || index($0, "\"climate\":\"" $2 "\"") == 0 ||
        substr($0, length($0)) != "}") { print "case " NR " holds: " $0; exit 1 }
}' all.txt || fail "a row is not of its case"
for i in 1 $((cases / 2)) $cases; do
    IFS=, read -r density climate years <<EOF
$(sed -n "$((i + 1))p" cases.csv)
EOF
    "$program" age --density "$density" --climate "$climate" --years "$years" --threads 1 --json >alone.json
    cmp "rows/$i.json" alone.json || fail "case $i is not what the verb prints by itself"
done
echo "many_cases: $cases cases, two kills: each there once"
