#!/bin/sh
# pullback-cli with memory that runs out at the n-th call of the whole process, libraries included:
# never a crash or a hang; either the very output of an undisturbed run with its exit code, or a
# refusal: exit 1 to 4, or 70, with a line on stderr. n goes up by a quarter each time; FAULTS_EACH=1 tries
# every n.
#   test_cli_memory.sh PROGRAM SOURCE_TREE SCRATCH SHIM
set -eu
cli=$(dirname "$1")/../cli/pullback-cli root=$2 work=$3
# preloading knows no path with a space
place=$(mktemp -d) && cp "$4" "$place/shim.so"
shim=$place/shim.so
trap 'rm -rf "$place"' EXIT
rm -rf "$work"
mkdir -p "$work"
cd "$work"
export LC_ALL=C.UTF-8 XDG_DATA_HOME="$work/data"
fail() {
    echo "FAILED: $*" >&2
    exit 1
}
"$cli" learners add Learner1 >added
"$cli" runs import "$root/tests/app/recorded.pbrun" --learner Learner1 >added
# but for how long it took
same() {
    sed 's/"[a-z_]*ms":[ 0-9.e+-]*//' "$name.good" >good.still
    sed 's/"[a-z_]*ms":[ 0-9.e+-]*//' out >out.still
    cmp -s good.still out.still
}
sweep() {
    name=$1
    shift
    "$cli" "$@" >"$name.good" 2>"$name.said" || fail "$name: $(cat "$name.said")"
    tried=0 refused=0
    for sign in "" -; do
        n=1
        while :; do
            set +e
            timeout 200 env FAULT_ALLOC="$sign$n" FAULT_TOLD=told LD_PRELOAD="$shim" "$cli" "$@" >out 2>err
            code=$?
            set -e
            tried=$((tried + 1))
            # a program that was killed did not tell
            [ "$code" -le 4 ] || [ "$code" = 70 ] || fail "$name: allocation $sign$n: exit $code: $(cat err)"
            if [ "$code" = 0 ]; then
                same || fail "$name: allocation $sign$n: another answer, called good"
            else
                refused=$((refused + 1))
                grep -q '^pullback-cli: ' err || fail "$name: allocation $sign$n: exit $code, said \"$(cat err)\""
            fi
            [ "$(cat told)" = 1 ] || break
            n=$((${FAULTS_EACH:-0} ? n + 1 : n + 1 + n / 4))
        done
    done
    echo "$name: $tried shortages, $refused refused"
}
sweep check check "$root/assets/exercises/electrical-box.json"
sweep age age --density 45 --years 2 --json
sweep age_text age --density 45 --years 2
sweep foam age --foam typical --years 2 --json
sweep spread age --density 45 --years 1 --spread 2 --threads 1 --json
sweep heat heat "$root/assets/heat/iso10211_case1.json" --json
sweep replay replay "$root/tests/app/recorded.pbrun" --to 1 --json
sweep learners learners list
sweep runs runs list --json
sweep show runs show 1
sweep xapi runs xapi --home https://school.example
echo "memory of the headless program: all answered"
