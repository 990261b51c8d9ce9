# Shared by the window's tests of this folder: a learner whose runs are kept, and a short run.
# $1 program, $2 source tree, $3 scratch folder.
# shellcheck source=../app/gl/lib.sh
. "$2/tests/app/gl/lib.sh"
cli=$(dirname "$program")/../cli/pullback-cli
bay=$root/assets/exercises/plain-2x4.json
db=$XDG_DATA_HOME/pullback/pullback.db
export MESA_DEBUG=1 # every OpenGL error is said on stderr

[ -x "$cli" ] || fail "no $cli"
# a learner, chosen at the start
somebody() {
    mkdir -p "$XDG_CONFIG_HOME/pullback"
    "$cli" learners add Learner1 >"$work/added" || fail "no learner: $(cat "$work/added")"
    echo '{"format": "pullback settings 1", "learner": "Learner1"}' >"$XDG_CONFIG_HOME/pullback/settings.json"
}
# the machine on, the tube in, and blow; $1 script, $2 frames a picture, $3 how it goes on
run_script() {
    cat >"$1" <<END
0.1 every $2
0.2 expect learner > 0
0.3 click machine 0.75
0.7 click card_ok
1.0 keydown S
3.0 keyup S
$3
END
}
kept() { # how many runs the store holds
    "$cli" runs list --csv | grep -c '^[0-9]'
}
no_gl_error() {
    grep -i 'mesa.*error\|GL_INVALID' "$1" && fail "an OpenGL error"
    return 0
}
seconds() { date +%s.%N; }
# true when $1 < $2
less() { awk -v a="$1" -v b="$2" 'BEGIN { exit !(a < b) }'; }
