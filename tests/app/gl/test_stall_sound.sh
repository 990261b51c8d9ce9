#!/bin/sh
# The stall in the sound of the real program: the window runs in real time, SDL's disk driver writes
# what goes to the loudspeaker, and the rattle band loses 6 dB within two seconds of the stall. Odd
# seeds with the wall open, even ones closed. As many as PB_STALL_SEEDS says, 3 side by side; the second
# alone unless it is set.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb xdotool awk wc
[ -x "${PB_STALL_DROP:-}" ] || fail "PB_STALL_DROP names no program"
# one seed, on the display it finds
if [ -n "${PB_ONE_SEED:-}" ]; then
    seed=$PB_ONE_SEED
    state=$work/state.json
    # a low bay, so that the first stall comes soon
    sed 's/"height_m": 2.35/"height_m": 1.2/; s/"y_m": 2.05/"y_m": 0.9/' \
        "$root/assets/exercises/plain-2x4-high.json" >"$work/low.json"
    export SDL_AUDIODRIVER=disk SDL_DISKAUDIOFILE="$work/sound.raw"
    "$program" --dump "$state" --seed "$seed" --size 640x400 "$work/low.json" 2>"$work/err" &
    pid=$!
    trap 'kill $pid 2>/dev/null || true' EXIT
    find_window $pid
    await frames 'v > 0' 10
    xdotool key space
    await cautions_open 'v == 1' 10
    xdotool key Return
    await machine_on 'v == 1' 10
    if [ $((seed % 2)) = 0 ]; then
        xdotool key v
        await sight 'v == 1' 10
        xdotool key v
        await sight 'v == 2' 10
    fi
    xdotool keydown s
    await tube_in_m 'v > 0.45' 20
    xdotool keyup s
    await last_stall_s 'v > 0' 90
    look
    frames=$(($(wc -c <"$work/sound.raw") / 4))
    at=$(awk "BEGIN { print $frames / 48000 - ($(value time_s) - $(value last_stall_s)) }")
    sleep 3
    kill $pid
    wait $pid || true
    if levels=$("$PB_STALL_DROP" "$work/sound.raw" "$at"); then
        echo "seed $seed: $levels" >"$work/ok"
    else
        fail "seed $seed, stall at $at s of the recording: $levels"
    fi
    rm -f "$work/sound.raw"
    exit
fi
seeds=${PB_STALL_SEEDS:-2}
[ -n "${PB_STALL_SEEDS:-}" ] && from=1 || from=2
seed=$from
while [ "$seed" -le "$seeds" ]; do
    for _ in 1 2 3; do
        [ "$seed" -le "$seeds" ] || break
        mkdir -p "$work/$seed"
        ( # a display of its own: screen keeps its number beside $work
            work=$work/$seed
            PB_ONE_SEED=$seed screen sh "$0" "$program" "$root" "$work"
        ) &
        seed=$((seed + 1))
    done
    wait
done
seed=$from
while [ "$seed" -le "$seeds" ]; do
    [ -s "$work/$seed/ok" ] || fail "seed $seed did not drop by 6 dB"
    cat "$work/$seed/ok"
    seed=$((seed + 1))
done
