#!/bin/sh
# Homes that are missing, a file, or not named, and an output that is always full: every program says
# one clear line, and the window goes on.
. "$(dirname "$0")/window.sh" "$@"
need Xvfb
low=$root/tests/app/data/low-bay.json # soon packed
hands=$root/tests/app/data/low-three-foot.json
"$cli" run "$low" --hands "$hands" --record "$work/run.pbrun" >"$work/said"

# to a device that is always full
device() {
    code=0
    "$@" >/dev/full 2>"$work/dev.err" || code=$?
    [ "$code" = 4 ] || fail "$* to a full device: exit $code: $(cat "$work/dev.err")"
}
device "$cli" run "$low" --hands "$hands"
device "$cli" run "$low" --hands "$hands" --json
device "$cli" age --density 45 --json
device "$cli" heat "$root/assets/heat/iso10211_case1.json"
device "$cli" replay "$work/run.pbrun"
device "$cli" grade "$work/run.pbrun"
device "$cli" grade "$work/run.pbrun" --json
device "$cli" replay "$work/run.pbrun" --json
echo "full device: eight commands say so"

printf '0.1 every 60\n0.5 expect rows > 10\n0.6 key Return\n1.0 expect screen 0\n1.1 end\n' >"$work/door.script"
# $1 name, $2 words that must be said once, "" = nothing; then the environment
home() {
    name=$1 words=$2
    shift 2
    screen timeout 600 env -u XDG_DATA_HOME -u XDG_CONFIG_HOME "$@" "$program" --door --script "$work/door.script" \
        2>"$work/home.err" >"$work/home.out" || fail "$name: $(cat "$work/home.err" "$work/home.out")"
    [ -z "$words" ] || [ "$(grep -c "$words" "$work/home.err")" = 1 ] || fail "$name: said $(cat "$work/home.err")"
    echo "home $name: $(grep '^pullback' "$work/home.err" | head -n 1)"
}
mkdir -p "$work/plain"
home missing "" HOME="$work/plain/not/there"
[ -s "$work/plain/not/there/.local/share/pullback/pullback.db" ] || fail "a missing home was not made"
home unset "grades are not kept" -u HOME
home a-file "grades are not kept" HOME="$work/run.pbrun"
set +e
env -u HOME -u XDG_DATA_HOME "$cli" learners list >"$work/out" 2>"$work/err"
code=$?
set -e
[ "$code" = 4 ] && [ "$(wc -l <"$work/err")" = 1 ] || fail "no home, headless: exit $code: $(cat "$work/err")"
echo "homes: all said so"
