#!/bin/sh
# usage: one_replay.sh COUNTED-CLI RUN_FILE BUILD_FOLDER NM LIBPB_REPORT
# A run is simulated once and marked once for its page, whoever asks for it: counted in a command-line
# program whose calls are counted (count_replays.c), and by what the report's library cannot call.
set -eu
program=$1 run=$2 folder=$3 nm=$4 report=$5
fail() {
    echo "one_replay: $*" >&2
    exit 1
}
rm -rf "$folder"
mkdir -p "$folder"
cd "$folder"
counted() {
    "$program" "$@" >out 2>said || [ $? = 1 ] || fail "$*: $(cat said)"
    [ "$(grep -c '^replays 1, marked 1$' said)" = 1 ] || fail "$*: $(cat said)"
}
counted grade "$run"
counted grade "$run" --pdf grade.pdf
[ -s grade.pdf ] || fail "no page was written"
"$program" learners add "Learner 1" --db t.db >out 2>&1 || fail "$(cat out)"
"$program" runs import "$run" --learner "Learner 1" --db t.db >out 2>&1 || fail "$(cat out)"
counted runs pdf 1 runs.pdf --db t.db
[ -s runs.pdf ] || fail "no page was written of a kept run"
if "$nm" -u "$report" 2>/dev/null |
    grep -E 'pb_(replay_(create|step|seek)|session_(create|step)|watched_|score(_session)?$)'; then
    fail "the report plays or marks by itself"
fi
