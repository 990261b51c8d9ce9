#!/bin/sh
# Lines that the tests of a build ran, by folder of src: of a Clang build with -fprofile-instr-generate
# -fcoverage-mapping whose tests left their counts in BUILD_FOLDER/counted.
#   coverage.sh BUILD_FOLDER
set -eu
build=$1
llvm-profdata merge -sparse "$build"/counted/*.profraw -o "$build/counted/all.profdata"
# Each program has the map of the parts that it links.
set --
for program in "$build"/src/app/pullback "$build"/src/cli/pullback-cli "$build"/tests/test_* \
    "$build"/tests/*/test_* "$build"/tests/fuzz/replay_*; do
    if [ -f "$program" ] && [ -x "$program" ]; then
        set -- "$@" -object "$program"
    fi
done
shift # the first stands without -object
llvm-cov export -summary-only -instr-profile "$build/counted/all.profdata" "$@" >"$build/counted/summary.json" \
    2>"$build/counted/said" || {
    cat "$build/counted/said" >&2
    exit 1
}
printf '\nLines run by the tests of this stage, by folder\n'
tr '{' '\n' <"$build/counted/summary.json" | awk -F'"' '
    /"filename":/ { file = $0; sub(/.*"filename":"/, "", file); sub(/".*/, "", file) }
    /"count":.*"covered":/ && kind == "lines" {
        kind = ""
        if (match(file, /\/src\/[a-z]+(\/[a-z]+)?\//) && file !~ /\/include\//) {
            folder = substr(file, RSTART + 1, RLENGTH - 2)
            count = $0; sub(/.*"count":/, "", count); sub(/[^0-9].*/, "", count)
            ran = $0; sub(/.*"covered":/, "", ran); sub(/[^0-9].*/, "", ran)
            lines[folder] += count; hit[folder] += ran; all += count; all_hit += ran
        }
    }
    { kind = $0 ~ /"lines":$/ ? "lines" : "" }
    END {
        for (folder in lines) printf "  %-20s %6d lines %6.1f %% run\n", folder, lines[folder], 100 * hit[folder] / lines[folder] | "sort"
        close("sort")
        if (all < 1) { print "no lines were counted"; exit 1 }
        printf "  %-20s %6d lines %6.1f %% run\n", "all", all, 100 * all_hit / all
    }'
