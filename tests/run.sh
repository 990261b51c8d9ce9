#!/bin/sh
# Installs what is missing from Debian, builds, and runs every test.
#   tests/run.sh         one build, all tests
#   tests/run.sh --ci    warnings are errors, and more builds: headless, Clang, sanitised,
#                        a short search by each fuzz target, and the packages
# Works from any folder. The last lines are ctest's own. Exit 0 only when everything passed.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
# shellcheck source=src/packages.sh
. "$root/src/packages.sh"

mode=person
case "${1:-}" in
'') ;;
--ci) mode=ci ;;
*)
    pb_say "unknown option \"$1\"; usage: tests/run.sh [--ci]"
    exit 2
    ;;
esac

pb_need "$([ "$mode" = ci ] && echo ci || echo test)"

cd "$root"
mkdir -p build
jobs=$(nproc)
failed=
# With the packages above there is software OpenGL, so a test that cannot get a context fails.
export PB_REQUIRE_GL=1 LIBGL_ALWAYS_SOFTWARE=1 SDL_AUDIODRIVER=dummy
# The renderer draws in the program's own thread: as many tests as cores run at once already, and
# handing tiles to threads costs a tenth.
export LP_NUM_THREADS=0

stage_line() {
    printf '\n== %s (%s s so far)\n' "$*" "$(($(date +%s) - start))"
}
start=$(date +%s)

# Configure a preset, any more arguments going to cmake. Prints only what matters.
setup() {
    preset=$1
    shift
    cmake --preset "$preset" "$@" >"build/setup-$preset.log" 2>&1 || {
        cat "build/setup-$preset.log"
        return 1
    }
}
build() {
    setup "$@" && cmake --build --preset "$1" -j "$jobs"
}

# ctest under a virtual screen of its own, so that no window appears on anybody's desktop.
tests() {
    xvfb-run -a -s "-screen 0 1280x1024x24 -nolisten tcp" ctest -j "$jobs" --preset "$@"
}

# Runs one stage and notes its name when it fails; the others still run.
stage() {
    name=$1
    shift
    stage_line "$name"
    if ! "$@"; then
        failed="$failed [$name]"
    fi
}

# Two stages at once that each leave a core idle; what they say comes one after the other.
stage_pair() {
    stage_line "$1, and beside it: $3"
    "$2" >build/pair.log 2>&1 &
    first=$!
    "$4" >build/beside.log 2>&1 || failed="$failed [$3]"
    wait "$first" || failed="$failed [$1]"
    cat build/pair.log build/beside.log
}

# A whole run by the program without a window. The last stage goes on in the same folder, builds what
# is left and runs the tests of all of it.
headless_stage() {
    build ci -DPB_BUILD_APP=OFF &&
        ./build/ci/src/cli/pullback-cli run assets/exercises/plain-2x4.json --hands assets/hands/steady-foot.json
}
clang_stage() {
    build clang -DPB_WERROR=ON && tests clang -L 'unit|fuzz'
}
# No -Werror: with sanitizers GCC warns of paths that it made itself.
asan_stage() {
    setup asan &&
        cmake --build --preset asan -j "$jobs" --target sanitized &&
        tests asan -L 'unit|fuzz|sanitized'
}
# Only the parts with threads, and only what they need.
tsan_stage() {
    setup tsan &&
        cmake --build --preset tsan -j "$jobs" --target threaded &&
        ctest -j "$jobs" --preset tsan -L threads
}
fuzz_stage() {
    setup fuzz -DPB_FUZZ_SECONDS=2 &&
        cmake --build --preset fuzz -j "$jobs" --target searching &&
        ctest -j "$jobs" --preset fuzz -L search
}
package_stage() {
    sh tests/package/check.sh
}
full_stage() {
    build "$1" -DPB_BUILD_APP=ON && tests "$1"
}

if [ "$mode" = ci ]; then
    stage "headless: no window, GCC; a run" headless_stage
    stage "Clang Debug: unit and fuzz-corpus tests" clang_stage
    stage "GCC Debug, address and undefined-behaviour sanitizers: unit, fuzz-corpus and chosen tests" asan_stage
    stage "Clang Debug, sanitizers: 2 seconds of fuzzing a reader" fuzz_stage
    stage_pair "thread sanitizer: the parts with threads" tsan_stage "packages" package_stage
    stage "GCC, warnings are errors: all tests" full_stage ci
else
    stage "all tests" full_stage release
fi
if [ -n "$failed" ]; then
    pb_say "failed:$failed"
    exit 1
fi
