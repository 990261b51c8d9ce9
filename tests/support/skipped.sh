#!/bin/sh
# Names the tests that ctest's last run in a build folder passed over, each with its reason: a test
# says "passed over: REASON" and ends with 77, or goes on when only a part of it cannot run here.
#   skipped.sh BUILD_FOLDER [NAME_OF_BUILD]
awk -v build="${2:-}" '
    /^[0-9]+\/[0-9]+ Testing: / { name = $3; said = 0 }
    /passed over: / && name != "" {
        sub(/^.*passed over: /, "")
        printf "  %s%s: %s\n", name, build == "" ? "" : " (" build ")", $0
        said = 1
    }
    /^Test Skipped\./ && !said { printf "  %s: it gave no reason\n", name }
' "$1/Testing/Temporary/LastTest.log"
