#!/bin/sh
# The verbs of pullback-cli that use threads, on one and on four: the same output. Under the thread
# sanitizer a race ends the program with another exit code.
#   threads_cli.sh PULLBACK_CLI SOURCE_TREE SCRATCH
set -eu
cli=$1 root=$2 work=$3
rm -rf "$work"
mkdir -p "$work"
export TSAN_OPTIONS="exitcode=66 ${TSAN_OPTIONS:-}"
same() {
    name=$1
    shift
    for threads in 1 4; do
        "$cli" "$@" --threads $threads >"$work/$name-$threads" 2>"$work/$name-$threads.err" || {
            cat "$work/$name-$threads.err"
            exit 1
        }
        grep -q 'ThreadSanitizer' "$work/$name-$threads.err" && { cat "$work/$name-$threads.err"; exit 1; }
    done
    cmp "$work/$name-1" "$work/$name-4"
}
same spread age --density 45 --years 5 --spread 6 --seed 3 --json
"$cli" heat --bay "$root/assets/heat/bay_top_void.json" --json >"$work/heat" 2>"$work/heat.err" ||
    { cat "$work/heat.err"; exit 1; }
grep ThreadSanitizer "$work"/*.err && exit 1
echo "threads: the same on one and on four"
