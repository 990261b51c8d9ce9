#!/bin/sh
# Tables of cases: rows are complete, in order and the same for any number of workers; a kill -9 at
# any moment loses and repeats no row; shards join to the whole; bad tables are refused with line and
# column and leave nothing behind.
#   cases.sh PROGRAM SOURCE_DIR OUT_DIR KILLS
set -eu
program=$1 assets=$2/assets out=$3 kills=$4
rm -rf "$out"
mkdir -p "$out"
cd "$out"
fail() {
    echo "cases: $*" >&2
    exit 1
}
{
    echo 'label,density,climate,years,seed'
    i=0
    while [ $i -lt 40 ]; do
        echo "\"no. $i, \"\"quoted\"\"\",$((30 + i)),normal,$((1 + i % 8)),$i"
        i=$((i + 1))
    done
    echo 'bad one,5000,normal,30,1'
} >table.csv
"$program" age --cases table.csv --rows whole.jsonl --workers 2 2>says.txt && fail "a refused case is an answer of no"
grep -q '41 of 41 cases, 1 of them refused' says.txt || fail "the closing line: $(cat says.txt)"
[ "$(wc -l <whole.jsonl)" = 42 ] || fail "expected 42 lines"
tail -n 1 whole.jsonl | grep -q '"case":41,"label":"bad one","exit":3,"error":"--density 5000 is out of range' ||
    fail "the refused case: $(tail -n 1 whole.jsonl)"
grep -q 'no. 3, \\"quoted\\"' whole.jsonl || fail "quotes in a cell"
"$program" age --cases table.csv --rows one.jsonl --workers 1 2>/dev/null || true
cmp whole.jsonl one.jsonl || fail "rows depend on the number of workers"
before=$(cksum <whole.jsonl)
"$program" age --cases table.csv --rows whole.jsonl 2>/dev/null || true
[ "$before" = "$(cksum <whole.jsonl)" ] || fail "a second start changed the rows"

n=0 middle=0
while [ $n -lt "$kills" ]; do
    rm -f killed.jsonl
    "$program" age --cases table.csv --rows killed.jsonl --workers 2 2>/dev/null &
    pid=$!
    if [ $((n % 4)) = 3 ]; then
        sleep "0.0$((n * 7 % 10))$((n % 10))" # before the first row too
    else
        # by rows, not by the clock: on a busy machine a fixed time ends before the first of them
        tries=0
        while [ $tries -lt 5000 ]; do
            lines=0
            [ ! -e killed.jsonl ] || lines=$(wc -l <killed.jsonl)
            [ "$lines" -le $((1 + n * 7 % 30)) ] || break
            tries=$((tries + 1))
        done
    fi
    kill -9 $pid 2>/dev/null || true
    wait $pid 2>/dev/null || true
    lines=0
    [ ! -e killed.jsonl ] || lines=$(wc -l <killed.jsonl)
    [ "$lines" -lt 2 ] || [ "$lines" -gt 41 ] || middle=$((middle + 1))
    [ $((n % 2)) = 0 ] || [ "$lines" = 0 ] || printf '{"case":%s,"exi' "$lines" >>killed.jsonl # a torn line
    "$program" age --cases table.csv --rows killed.jsonl 2>/dev/null || true
    cmp -s whole.jsonl killed.jsonl || fail "after kill $n the rows differ"
    n=$((n + 1))
done
[ "$middle" -gt 0 ] || fail "no kill fell between the first row and the last: the test proves nothing"

for i in 1 2 3; do
    "$program" age --cases table.csv --rows "shard$i.jsonl" --shard "$i/3" 2>/dev/null || true
done
"$program" merge shard3.jsonl shard1.jsonl shard2.jsonl >joined.jsonl
cmp whole.jsonl joined.jsonl || fail "the shards do not join to the whole"
"$program" merge shard1.jsonl shard3.jsonl >/dev/null 2>says.txt && fail "missing cases are an answer of no"
grep -q '14 of 41 cases have no row' says.txt || fail "missing cases: $(cat says.txt)"
"$program" merge whole.jsonl --csv >whole.csv
[ "$(wc -l <whole.csv)" = 42 ] || fail "the CSV"
head -n 1 whole.csv | grep -q 'top_gap_m' || fail "no figures of the last year in $(head -n 1 whole.csv)"

printf '{"exercise":"%s/exercises/plain-2x4.json","hands":"%s/hands/no-tube.json","seed":2}\n' "$assets" "$assets" >run.jsonl
"$program" run --cases run.jsonl --rows run-rows.jsonl 2>/dev/null || fail "a table of JSON lines"
grep -q '"state_hash"' run-rows.jsonl || fail "no result in the row"

refused() { # exit code, what the complaint must hold, arguments...
    code=0 want=$1 words=$2
    shift 2
    "$program" "$@" --rows refused.jsonl 2>says.txt || code=$?
    [ $code = "$want" ] || fail "$*: ended with $code"
    grep -q -- "$words" says.txt || fail "$*: said $(cat says.txt)"
    [ "$(wc -l <says.txt)" = 1 ] || fail "$*: more than one line"
    [ ! -e refused.jsonl ] || fail "$*: left rows behind"
}
printf 'exercise,hands\na,"b\n' >bad.csv
refused 3 'bad.csv:2:5: the quote is not closed' run --cases bad.csv
printf 'exercise,hands\na,b\na,b,c\n' >bad.csv
refused 3 'bad.csv:3:5: more cells' run --cases bad.csv
printf 'exercise,pace\na,2\n' >bad.csv
refused 3 'bad.csv:1:10: no column' run --cases bad.csv
printf 'hands\na\n' >bad.csv
refused 3 'expected a column "exercise"' run --cases bad.csv
printf '{"exercise":"a","hands":"b"}\n{"exercise":"a" "hands":"b"}\n' >bad.jsonl
refused 3 'bad.jsonl:2:' run --cases bad.jsonl
printf '' >bad.csv
refused 3 'empty table' run --cases bad.csv
printf 'label,density\nSe\361or,40\n' >bad.csv # as a spreadsheet saves it that knows no UTF-8
refused 3 'bad.csv:2:3: no UTF-8' age --cases bad.csv
printf '{"density":40,"label":"%0128d"}\n' 0 >bad.jsonl
refused 3 'bad.jsonl:1:15: a label has at most 127 bytes, not 128' age --cases bad.jsonl
refused 4 'is a folder' age --cases .
refused 4 'cannot open' run --cases none.csv
code=0
timeout 20 "$program" age --cases table.csv --rows /dev/full 2>says.txt || code=$?
[ $code = 4 ] || fail "rows on a device ended with $code: $(cat says.txt)"

# What spreadsheets put in front of UTF-8 is no part of the first head.
printf '\357\273\277density,years\n40,1\n' >marked.csv
"$program" age --cases marked.csv --rows marked.jsonl 2>/dev/null || fail "a byte order mark in front of CSV"
printf '\357\273\277{"density":40,"years":1}\n' >marked.json
"$program" age --cases marked.json --rows marked-json.jsonl 2>/dev/null || fail "a byte order mark in front of JSON"
# Nothing that is said goes into a file that took the number of a closed stream.
"$program" age --cases marked.csv --rows closed.jsonl >&- 2>&- || fail "closed streams"
cmp marked.jsonl closed.jsonl || fail "closed streams changed the rows"
# The complaint of a case, not the progress that stands before it. A search takes a minute in a
# sanitized build, which kills less too.
if [ "$kills" -ge 10 ]; then
    printf 'exercise,runs,out\n%s/exercises/plain-2x4.json,2,no-folder/x.pbrun\n' "$assets" >coach.csv
    "$program" coach --cases coach.csv --rows coach.jsonl 2>/dev/null && fail "a run that cannot be kept"
    grep -q '"error":"no-folder/x.pbrun: cannot write' coach.jsonl || fail "the complaint: $(cat coach.jsonl)"
fi

# More shards than files may be open.
i=1
while [ $i -le 300 ]; do
    head -n 1 whole.jsonl | sed "s/\"shard\":1,\"shards\":1/\"shard\":$i,\"shards\":300/" >"many$i.jsonl"
    i=$((i + 1))
done
i=1
while [ $i -le 41 ]; do # the last of them, beyond what stays open
    sed -n "$((i + 1))p" whole.jsonl >>"many$((301 - i)).jsonl"
    i=$((i + 1))
done
(
    ulimit -n 256
    "$program" merge many*.jsonl >joined.jsonl
) || fail "300 shards do not join"
cmp whole.jsonl joined.jsonl || fail "300 shards do not join to the whole"

cp whole.jsonl other.jsonl
"$program" age --cases run.jsonl --rows other.jsonl 2>/dev/null && fail "rows of another table were taken"
cmp whole.jsonl other.jsonl || fail "the rows of another table were changed"
printf 'a letter without a line end' >letter.txt
cp letter.txt kept.txt
"$program" age --cases table.csv --rows letter.txt 2>/dev/null && fail "a letter was taken for rows"
cmp letter.txt kept.txt || fail "a file that is no rows was changed"
head -c 20 whole.jsonl >torn.jsonl # killed within its first line: gone on with
"$program" age --cases table.csv --rows torn.jsonl 2>/dev/null || true
cmp whole.jsonl torn.jsonl || fail "rows cut within their first line"
echo "cases: $kills kills, $middle of them between rows: nothing lost, nothing twice"
