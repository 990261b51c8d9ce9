#!/bin/sh
# The sound of the real program in real time through a device: buffers asked for late are counted,
# the device is taken away for five seconds in the middle and comes back. PB_SOAK_S=600 makes the
# ten-minute soak of it, which must not have one late buffer; shorter ones, on machines that have
# other things to do, print the count.
# The device is SDL's disk driver on a pipe: when its reader ends SDL finds it disconnected, as with
# a loudspeaker that is unplugged.
. "$(dirname "$0")/lib.sh" "$@"
need xvfb-run xauth xdotool awk mkfifo
if [ -z "${PB_INSIDE:-}" ]; then
    export PB_INSIDE=1
    screen sh "$0" "$@"
    exit
fi
seconds=${PB_SOAK_S:-14}
state=$work/state.json
export SDL_AUDIODRIVER=disk SDL_DISKAUDIOFILE="$work/device"
mkfifo "$work/pipe"
ln -s "$work/pipe" "$work/device"
cat "$work/pipe" >/dev/null &
reader=$!
trap '' PIPE # a write without a reader is an error then, no signal
"$program" --dump "$state" "$root/assets/exercises/plain-2x4-high.json" 2>"$work/err" &
pid=$!
trap 'kill $pid $reader 2>/dev/null || true' EXIT
find_window $pid
is() { awk -v v="$(value "$1")" "BEGIN { exit !($2) }" || fail "$1: expected $2, it is $(value "$1")"; }
sleep 1
xdotool key space
sleep 1
xdotool key Return # cautions
sleep 1
xdotool keydown s
sleep 3
xdotool keyup s
look
is machine_on 'v == 1'
is audio_playing 'v == 1'
is audio_buffer_frames 'v * 1000 / 48000 * 2 <= 40' # two of them lie between a change and the ear
before=$(value audio_buffers)
sleep $((seconds / 2))
look
first=$(value audio_buffers)
awk -v n="$first" -v from="$before" -v s=$((seconds / 2)) 'BEGIN { exit !(n - from > 48000 / 512 * s * 0.8) }' ||
    fail "only $first buffers, $before before"
# taken away
ln -sfn "$work/no such folder/device" "$work/device"
kill $reader
sleep 2
look
is audio_playing 'v == 0'
is has_notice 'v == 1'
sleep 3
ln -sfn /dev/null "$work/device"
sleep 3
look
is audio_playing 'v == 1'
sleep $((seconds / 2))
look
is audio_playing 'v == 1'
is audio_buffers "v > $first"
late=$(value audio_late)
echo "sound: $(value audio_buffers) buffers of $(value audio_buffer_frames) frames, $late late, worst $(value audio_worst_ns_sample) ns a sample, $(value dropped_s) s of simulation dropped, at $(value time_s) s"
[ -z "${PB_SOAK_S:-}" ] || [ "$late" = 0 ] || fail "$late late buffers"
xdotool key ctrl+q
wait $pid || fail "ended badly: $(cat "$work/err")"
