#!/bin/sh
# Installs what is missing from Debian, builds, and opens the program. Arguments go to the program.
# Without a display it does the main job as text instead: src/first_run.sh.
# Works from any folder; everything made lands in build/program of this copy.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
# shellcheck source=src/packages.sh
. "$root/src/packages.sh"

pb_need build

cd "$root"
pb_say "building in build/program"
mkdir -p build
cmake --preset program >build/program-setup.log 2>&1 || {
    cat build/program-setup.log >&2
    pb_say "the build could not be set up; the lines above say why"
    exit 1
}
cmake --build --preset program || {
    pb_say "the build failed; the lines above say why"
    exit 1
}

program=build/program/src/app/pullback
if [ ! -x "$program" ]; then
    pb_say "this copy builds no windowed program, only build/program/src/cli/pullback-cli"
    exit 1
fi
if [ -z "${DISPLAY:-}${WAYLAND_DISPLAY:-}${SDL_VIDEODRIVER:-}" ]; then
    [ $# = 0 ] || pb_say "without a display these are not used: $*"
    pb_say "there is no display to open a window on (DISPLAY is not set), so here is the main job as text"
    sh src/first_run.sh "$root"
    pb_say "to open the window, run $root/src/run.sh on a desktop, or through ssh -X"
    exit 0
fi
exec "$program" "$@"
