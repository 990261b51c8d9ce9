#!/bin/sh
# The real window for hours: at eight times speed, paced by the clock, through every room, over and
# over, by scripted input. Memory must stay flat after the first rounds, no OpenGL error, no audio
# buffer late, and the slowest hundredth of frames at the end as at the start.
#   soak.sh PROGRAM TREE SCRATCH [MINUTES]
# Default 120 minutes. The short form of CI is one minute, which is one round, or more where the
# machine is fast: not paced and with each fourth frame shown, it proves the script and the counters.
# Up to 29 minutes hold memory to a looser limit, because the first rounds fill caches. Timings only
# count on a machine that does nothing else, so frames and audio are printed there, not judged:
# PB_SOAK_STRICT=1 judges them, as every run of 30 minutes and more does.
minutes=${4:-120}
# shellcheck source=../app/gl/lib.sh
. "$(dirname "$0")/../app/gl/lib.sh" "$1" "$2" "$3"
need Xvfb awk pkill
strict=${PB_SOAK_STRICT:-}
[ "$minutes" -lt 30 ] || strict=1
least=3 # rounds, however slow the machine
[ "$minutes" -gt 1 ] || least=1
cli=$(dirname "$program")/../cli/pullback-cli
"$cli" learners add Learner1 >/dev/null
mkdir -p "$XDG_CONFIG_HOME/pullback"
echo '{"format": "pullback settings 1", "learner": "Learner1", "guide": "seen"}' >"$XDG_CONFIG_HOME/pullback/settings.json"

# One round takes about 75 seconds of the clock, half of it waiting for stalls and for what is worked
# out: a bay packed by keys, its result, Years later, Side by side with its pages and a handout, the
# Door in Spanish, US units and larger text, Debrief with its report, and the Door as it was. Times are
# counted from the start of the round, and a wait moves everything after it.
round() {
    awk -v t0="$1" '{ printf "%.2f", t0 + $1; $1 = ""; print }' <<'END'
0.1 fresh
0.2 expect screen 2
0.3 expect row 0
0.5 click start
1.0 wait screen 0 20
1.2 click machine 0.75
1.6 click card_ok
1.9 expect machine_on 1
2.0 keydown S
3.5 keyup S
3.6 wait last_stall_s > 0 200
3.7 key shift+W
4.2 wait last_stall_s > 0 60
4.3 key shift+W
4.8 wait last_stall_s > 0 60
4.9 key V
5.0 key V
5.1 key shift+W
5.6 wait last_stall_s > 0 60
5.7 key V
5.8 key shift+W
6.4 key F
13.2 wait screen 1 60
13.5 click years
14.0 wait screen 4 20
14.2 wait years_keys > 0 60
14.4 click play
20 key Space
20.2 key Escape
20.6 wait screen 1 20
21 key Escape
21.5 wait screen 2 20
22 key 3
22.5 wait screen 5 20
23 key End
25 key Home
26 key P
28 key P
28.2 click to_house
28.5 expect side_page 1
28.6 key Escape
28.8 key F2
29.1 expect side_page 2
29.2 key PageDown
29.6 key Escape
29.7 wait side_is_over 1 200
29.8 click to_handout
30.1 expect side_page 3
30.2 type Demo~company
30.4 key Return
30.6 wait side_handouts > 0 10
31 key Escape
31.3 key Escape
31.8 wait screen 2 20
32.0 click lang 0.9
32.1 click units 0.75
32.2 key ctrl+=
32.5 key 4
33 wait screen 3 20
33.5 wait debrief_is_read 1 60
34 key N
34.5 click pdf
34.6 wait debrief_pdfs > 0 30
35 key P
37.5 key P
38.0 key Escape
38.4 wait screen 2 20
38.6 click lang 0.1
38.7 click units 0.25
38.8 key ctrl+-
39.2 expect text_scale 1
39.5 print memory_kib
39.5 print frames
39.5 print frame_median_ms
39.5 print frame_p99_ms
39.5 print gl_errors
39.5 print audio_late
39.5 print runs_kept
END
}
# More rounds than fit, so that the clock ends it.
rounds=$((minutes * 60 / 40 + 3))
pace='pace 1'
[ "$minutes" -gt 1 ] || pace='every 4'
printf '0.05 %s\n' "$pace" >"$work/soak.script"
n=0
while [ $n -lt $rounds ]; do
    round $((n * 40)) >>"$work/soak.script"
    n=$((n + 1))
done
printf '%d end\n' $((rounds * 40)) >>"$work/soak.script"
began=$(date +%s)
told() {
    grep -c runs_kept "$work/soak.txt" || true
}
screen "$program" --door --speed 8 --size 1280x800 --script "$work/soak.script" --shots "$work" >"$work/soak.txt" 2>"$work/soak.err" &
while kill -0 $! 2>/dev/null; do
    if [ $(($(date +%s) - began)) -ge $((minutes * 60)) ] && [ "$(told)" -ge $least ]; then
        pkill -TERM -f "^$program .*$work/soak.script" || true
        ended=1
        break
    fi
    sleep 1
done
wait $! || [ -n "${ended:-}" ] ||
    { tail -n 5 "$work/soak.err" && fail "the soak stopped after $(told) rounds"; }
echo "soak: $(told) rounds in $((($(date +%s) - began) / 60)) minutes"
awk -v strict="$strict" -v least=$least '
    $2 == "memory_kib" { n++; t[n] = $1; m[n] = $3 }
    $2 == "frame_p99_ms" { p[n] = $3 }
    $2 == "frame_median_ms" { d[n] = $3 }
    $2 == "gl_errors" { gl = $3 }
    $2 == "audio_late" { late = $3 }
    $2 == "runs_kept" { kept = $3 }
    END {
        if (n < least) { print "too few rounds were told of"; exit 1 }
        from = int(n / 4) + 1; if (from > n - 1 && n > 1) from = n - 1
        for (i = from; i <= n; i++) { k++; st += t[i]; sm += m[i] }
        for (i = from; i <= n; i++) { x = t[i] - st / k; a += x * (m[i] - sm / k); b += x * x }
        slope = b > 0 ? a / b * 3600 / 1024 : 0
        few = n < 3 ? n : 3
        for (i = 1; i <= few; i++) { p0 += p[i] / few; p1 += p[n + 1 - i] / few }
        printf "memory %.1f MiB at the first round, %.1f at the last, slope %.2f MiB an hour after the warm-up\n", m[1] / 1024, m[n] / 1024, slope
        printf "frames: median %.2f, 99th percentile %.2f ms at first, %.2f at last; OpenGL errors %d; late buffers %d; runs kept %d\n", d[n], p0, p1, gl, late, kept
        bad = 0
        if (gl > 0) { print "OpenGL errors"; bad = 1 }
        if (kept < n) { print "not every round kept its run"; bad = 1 }
        if (n > 2 && m[n] - m[2] > 24 * 1024) { print "memory grew by more than 24 MiB"; bad = 1 }
        if (strict && slope > 1) { print "memory is not flat"; bad = 1 }
        if (strict && late > 0) { print "audio was late"; bad = 1 }
        if (strict && p1 > 1.2 * p0 + 1) { print "frames became slower"; bad = 1 }
        exit bad
    }' "$work/soak.txt" || fail "see $work/soak.txt"
