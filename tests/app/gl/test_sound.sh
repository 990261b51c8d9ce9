#!/bin/sh
# The sound of the real program in real time through a device: buffers asked for late are counted,
# the device is taken away for some seconds in the middle and comes back. PB_SOAK_S=600 makes the
# ten-minute soak of it, which must not have one late buffer; shorter ones, on machines that have
# other things to do, print the count.
# The device is SDL's disk driver on a pipe: when its reader ends SDL finds it disconnected, as with
# a loudspeaker that is unplugged.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb xdotool awk mkfifo
if [ -z "${PB_INSIDE:-}" ]; then
    export PB_INSIDE=1
    screen sh "$0" "$@"
    exit
fi
seconds=${PB_SOAK_S:-6}
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
await frames 'v > 0' 10
xdotool key space
await cautions_open 'v == 1' 10
xdotool key Return
await machine_on 'v == 1' 10
xdotool keydown s
await tube_in_m 'v > 0.3' 20
xdotool keyup s
await audio_playing 'v == 1' 10
# two of them lie between a change and the ear
is audio_buffer_frames 'v * 1000 / 48000 * 2 <= 40' || fail "buffers of $(value audio_buffer_frames) frames"
before=$(value audio_buffers)
# half of the time in sound: 48000 frames a second in buffers of 512
await audio_buffers "v > $before + 48000 / 512 * $seconds / 2" $((seconds / 2 + 1))
first=$(value audio_buffers)
# taken away
ln -sfn "$work/no such folder/device" "$work/device"
kill $reader
await audio_playing 'v == 0' 5
await has_notice 'v == 1' 5
sleep "$((seconds > 9 ? 3 : 1))"
ln -sfn /dev/null "$work/device"
await audio_playing 'v == 1' 10
again=$(value audio_buffers)
await audio_buffers "v > $again + 48000 / 512 * $seconds / 2" $((seconds / 2 + 1))
is audio_playing 'v == 1' || fail "the sound has gone"
late=$(value audio_late)
echo "sound: $(value audio_buffers) buffers of $(value audio_buffer_frames) frames, $late late, worst $(value audio_worst_ns_sample) ns a sample, $(value dropped_s) s of simulation dropped, at $(value time_s) s"
[ -z "${PB_SOAK_S:-}" ] || [ "$late" = 0 ] || fail "$late late buffers"
# in the middle of a run it is asked twice
xdotool key ctrl+q
sleep 0.5
xdotool key ctrl+q
wait $pid || fail "ended badly: $(cat "$work/err")"
