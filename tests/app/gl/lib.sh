# Shared by the tests of this folder: tools, a display of one's own, and the program's state.
# $1 program, $2 source tree, $3 scratch folder.
program=$1
root=$2
work=$3
set -eu
rm -rf "$work"
mkdir -p "$work"
export LIBGL_ALWAYS_SOFTWARE=1 SDL_AUDIODRIVER=dummy LC_ALL=C.UTF-8 LANG=C.UTF-8
export XDG_CONFIG_HOME="$work/config" XDG_DATA_HOME="$work/data" # nobody's own
mkdir -p "$work/home"
export HOME="$work/home" # where a run that nobody keeps is put aside
unset WAYLAND_DISPLAY SDL_VIDEODRIVER LANGUAGE || true

# What this machine does not allow, whatever is installed on it.
skip() {
    echo "passed over: $1"
    exit 77
}
# What the packages of src/packages.sh should have brought.
pass_over() {
    [ -z "${PB_REQUIRE_GL:-}" ] || { echo "FAILED: $1" >&2 && exit 1; }
    skip "$1"
}
need() {
    for tool in "$@"; do
        command -v "$tool" >/dev/null 2>&1 || pass_over "there is no $tool here"
    done
}
fail() {
    echo "FAILED: $*" >&2
    exit 1
}
# A display of this test's own, which all its commands share: to start one costs as much as to start the
# program. It ends with the shell that asked for it. The server chooses its number itself: xvfb-run looks
# for a free one first, and on a busy machine two of them find the same. Sets DISPLAY and xvfb; $1 its size
open_screen() {
    rm -f "$work.display"
    setpriv --pdeathsig TERM Xvfb -displayfd 3 -screen 0 "$1x24" -noreset -nolisten tcp \
        3>"$work.display" 2>/dev/null &
    xvfb=$!
    for _ in $(seq 1200); do
        [ -s "$work.display" ] || ! kill -0 "$xvfb" 2>/dev/null || sleep 0.05
    done
    [ -s "$work.display" ] || fail "Xvfb did not start"
    DISPLAY=:$(cat "$work.display")
    export DISPLAY PB_SCREEN="$work"
}
# A command on that display.
screen() {
    [ "${PB_SCREEN:-}" = "$work" ] || open_screen 1920x1200
    "$@"
}
# Run a script and the pictures it takes; more arguments go to the program. Nobody sees the frames
# between the pictures, and drawing them in software is most of the work. What fails is told with its
# line of played.script.
script() {
    {
        echo '0 every 120'
        cat "$1"
    } >"$work/played.script"
    shift
    screen timeout 1500 "$program" --script "$work/played.script" --shots "$work" "$@"
}
# Lines of a script that go up through text sizes, from 1.0 in tenths, and keep a picture of each:
#   at_sizes TIME PREFIX "SCALE..."     half a second a size and more; PREFIX-SCALE.png
at_sizes() {
    awk -v t="$1" -v name="$2" -v sizes="$3" 'BEGIN {
        n = split(sizes, size, " ")
        for (now = i = 1; i <= n; i++) {
            for (; now < size[i] - 0.01; now += 0.1) { printf "%.2f key ctrl+=\n", t; t += 0.05 }
            printf "%.2f expect text_scale %s\n", t + 0.2, size[i]
            printf "%.2f shot %s-%s.png\n", t + 0.3, name, size[i]
            t += 0.5
        }
        printf "%.2f end\n", t }'
}
# The pictures of at_sizes are there: drawn PREFIX "SCALE...". They are removed.
drawn() {
    for of_size in $2; do
        [ -s "$work/$1-$of_size.png" ] || fail "no picture: $1-$of_size"
        rm "$work/$1-$of_size.png"
    done
}
# The real window of a program that runs with --dump "$state": wait for it, give it the keyboard.
# Sets window. $1: the program's process, kept in pid for look
find_window() {
    pid=$1
    window=$(timeout 300 xdotool search --sync --onlyvisible --class '^pullback$' | head -n 1)
    [ -n "$window" ] || fail "no window came"
    timeout 100 xdotool windowfocus "$window"
}
# A fresh state.
look() {
    rm -f "$state"
    kill -USR1 "$pid" || fail "the program has gone"
    for _ in $(seq 2000); do
        [ -s "$state" ] && return 0
        sleep 0.05
    done
    fail "no state came"
}
# is KEY 'awk condition on v', of a fresh state
is() {
    look
    awk -v v="$(value "$1")" "BEGIN { exit !($2) }"
}
# await KEY CONDITION SECONDS: of a quiet machine; a busy one has ten times as long
await() {
    tries=$(($3 * 100))
    while [ $tries -gt 0 ]; do
        is "$1" "$2" && return 0
        tries=$((tries - 1))
        sleep 0.1
    done
    fail "waited for $1: $2, it is $(value "$1")"
}
value() { sed -n "s/^ *\"$1\": \([-0-9.e+]*\),/\1/p" "$state"; }
