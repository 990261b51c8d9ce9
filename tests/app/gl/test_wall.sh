#!/bin/sh
# A whole wall: from the Door, its bays looked for by mouse and keys, and opened.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
script "$root/tests/app/gl/wall.script" >"$work/out" || fail "the wall"
[ -s "$work/wall_closed.png" ] || fail "no picture of the closed wall"
[ -s "$work/wall_opened.png" ] || fail "no picture of the opened wall"
# A whole job there: one bay by hand in the bay room, one by the crew, one missed.
script "$root/tests/app/gl/wall_job.script" --seed 100 >"$work/out" || fail "the job"
for picture in packed closed opened marks; do
    [ -s "$work/job_$picture.png" ] || fail "no picture: job_$picture"
done
[ -n "$(find "$work" -name '*job-two-bays-100.pdf' -size +1k)" ] || fail "no record of the job"
