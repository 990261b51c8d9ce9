#!/bin/sh
# A controller pulled out while its stick pushes the tube: the tube stops, mouse and keys go on. A
# loudspeaker lost while the blower runs: one notice, silence, and the run goes on to its end.
. "$(dirname "$0")/window.sh" "$@"
need Xvfb
somebody
cat >"$work/pad.script" <<'END'
0.1 every 60
0.2 pad on
0.5 expect has_pad 1
0.6 stick lefty 1
1.6 expect tube_in_m > 0.15
1.6 pad off
1.8 expect has_pad 0
1.9 expect tube_in_m < 0.45
4.0 expect tube_in_m < 0.45
4.1 keydown S
5.1 keyup S
5.2 expect tube_in_m > 0.45
5.3 pad on
5.6 expect has_pad 1
5.7 stick lefty -1
9.0 expect tube_in_m < 0.05
9.1 end
END
script "$work/pad.script" "$bay" 2>"$work/err" || fail "the controller: $(cat "$work/err")"

# SDL's disk driver writes the sound into a file; this one is always full, which SDL takes for a
# device that was pulled out. Paced, so that the sound has time to be written and lost.
run_script "$work/sound.script" 30 "0.05 pace 1
4.0 wait has_notice 1 60
4.1 pace 0
5.0 key F
5.5 wait screen 1 60
5.6 expect runs_kept 1
5.7 end"
sort -n -s -k1,1 "$work/sound.script" >"$work/sorted.script"
SDL_AUDIODRIVER=disk SDL_DISKAUDIOFILE=/dev/full
export SDL_AUDIODRIVER SDL_DISKAUDIOFILE
script "$work/sorted.script" "$bay" 2>"$work/err" || fail "the loudspeaker: $(cat "$work/err")"
# the controller's run as left, and this one
[ "$(kept)" = 2 ] || fail "$(kept) runs are kept, not 2"
echo "devices: the tube stopped, the run went on in silence"
