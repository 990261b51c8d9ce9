#!/bin/sh
# Installs what is missing from Debian, builds, and runs the tests.
#   tests/run.sh         for a person: one build; unit, physics, command-line and window tests
#   tests/run.sh --ci    every test, warnings are errors, and more builds: headless, Clang with
#                        sanitizers and coverage, a short search by each fuzz target, the packages
#   tests/run.sh --ports the program for Windows: built, run under wine, compared with this one
# Works from any folder. What was skipped is named with its reason; the last lines are ctest's own.
# Exit 0 only when nothing failed.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
# shellcheck source=src/packages.sh
. "$root/src/packages.sh"

mode=person
case "${1:-}" in
'') ;;
--ci) mode=ci ;;
--ports) exec "$root/src/windows.sh" ;;
*)
    pb_say "unknown option \"$1\"; usage: tests/run.sh [--ci | --ports]"
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
: >build/skipped.txt

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

# ctest with a preset and more arguments, under a virtual screen of its own, so that no window appears
# on anybody's desktop. As many tests as cores, no more: the rooms' workers have a low
# priority and would starve behind it. The count is held back until the skipped tests are named.
tests() {
    preset=$1
    : >build/tests.count
    {
        code=0
        xvfb-run -a -s "-screen 0 1280x1024x24 -nolisten tcp" ctest -j "$jobs" --preset "$@" || code=$?
        echo "$code" >build/tests.code
    } | { # by the shell: an awk may wait for a whole block before it shows a line
        held=
        while IFS= read -r line; do
            case $line in [0-9]*"% tests passed"*) held=1 ;; esac
            if [ -n "$held" ]; then
                printf '%s\n' "$line" >>build/tests.count
            else
                printf '%s\n' "$line"
            fi
        done
    }
    sh tests/support/skipped.sh "build/$preset" "$preset" >>build/skipped.txt
    [ "$preset" != "$last" ] || say_skipped
    cat build/tests.count
    return "$(cat build/tests.code)"
}
say_skipped() {
    [ -s build/skipped.txt ] || return 0
    printf '\nSkipped, and why:\n'
    cat build/skipped.txt
}

# The leak report of a sanitized program stops its threads as a debugger does. Where the machine
# forbids that, every sanitized program would fail at its end, so leaks go unlooked for.
leaks_can_be_found() {
    printf 'int main(void) { return 0; }\n' >build/leak.c
    cc -fsanitize=address -o build/leak build/leak.c && build/leak >build/leak.log 2>&1 && return 0
    grep -q 'LeakSanitizer' build/leak.log || return 0 # the tests will say what it is
    export PB_ASAN_ALSO=":detect_leaks=0" ASAN_OPTIONS="detect_leaks=0"
    echo "  search for leaks (asan, fuzz): this machine lets no program trace another" | tee -a build/skipped.txt
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
# By the other compiler, sanitized, with every line counted: unit tests, the fuzz corpus, and what is
# chosen of the command line and the window. Its warnings on all other files: lint.clang.
asan_stage() {
    leaks_can_be_found
    rm -rf build/asan/counted
    export LLVM_PROFILE_FILE="$root/build/asan/counted/%4m.profraw"
    code=0
    setup asan -DPB_WERROR=ON -DCMAKE_C_FLAGS="-O1 -fprofile-instr-generate -fcoverage-mapping" &&
        cmake --build --preset asan -j "$jobs" --target sanitized &&
        tests asan -L 'unit|fuzz|sanitized|counted' || code=1
    unset LLVM_PROFILE_FILE
    sh tests/support/coverage.sh build/asan || code=1
    return $code
}
# Only the parts with threads, and only what they need.
tsan_stage() {
    setup tsan &&
        cmake --build --preset tsan -j "$jobs" --target threaded &&
        tests tsan -L threads
}
fuzz_stage() {
    setup fuzz -DPB_FUZZ_SECONDS=2 &&
        cmake --build --preset fuzz -j "$jobs" --target searching &&
        tests fuzz -L search
}
package_stage() {
    sh tests/package/check.sh
}
# Windows, where its libraries are at hand: they take ten minutes to build, and need a network. Whoever
# keeps CI makes them once (src/windows.sh --libraries) and keeps the folder.
ports_stage() {
    libraries=${PB_WINDOWS_CACHE:-build/windows-libraries}
    if [ ! -e "$libraries/prefix/made/libsdl2-ttf" ]; then
        echo "  program for Windows: no libraries in $libraries; src/windows.sh --libraries makes them" |
            tee -a build/skipped.txt
        return 0
    fi
    if ! (pb_need windows); then
        echo "  program for Windows: its packages cannot be installed here" | tee -a build/skipped.txt
        return 0
    fi
    src/windows.sh
}
# Not again what the sanitizers ran longer, nor a sample of what is run whole.
full_stage() {
    build ci -DPB_BUILD_APP=ON && tests ci -LE 'sample|sanitized'
}
# Label ci: what takes long and only the code's keepers need. Label sample: of what CI runs all of.
person_stage() {
    build release && tests release -LE ci
}

if [ "$mode" = ci ]; then
    last=ci
    stage "headless: no window, GCC; a run" headless_stage
    stage "Clang Debug, address and undefined-behaviour sanitizers: unit, fuzz-corpus and chosen tests; coverage by folder" asan_stage
    stage "Clang Debug, sanitizers: 2 seconds of fuzzing a reader" fuzz_stage
    stage_pair "thread sanitizer: the parts with threads" tsan_stage "packages" package_stage
    stage "Windows: packages, and what they do under wine" ports_stage
    stage "GCC, warnings are errors: all tests" full_stage
else
    last=release
    stage "tests for a person" person_stage
fi
if [ -n "$failed" ]; then
    pb_say "failed:$failed"
    exit 1
fi
