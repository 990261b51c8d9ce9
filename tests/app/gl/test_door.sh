#!/bin/sh
# The Door: learner, list, settings, rooms, files, and the way there and back, by keyboard and by
# mouse; what it keeps is there the next time; a store or settings that cannot be read stop nobody.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb
settings=$work/config/pullback/settings.json
# script lines part at spaces, so the dropped files stand where the path has none
place=$(mktemp -d)
cp "$root/assets/exercises/plain-2x4.json" "$place/good.json"
printf '{"format": "pullb' >"$place/bad.json"
sed "s|PLACE|$place|" "$root/tests/app/gl/door.script" >"$work/door.script"
script "$work/door.script" >"$work/out" || fail "the Door"
cat "$work/out"
# away from the bay its clock stands
[ "$(sed -n 's/.* time_s //p' "$work/out" | sort -u | wc -l)" = 1 ] || fail "the run went on unseen"
[ -s "$work/door.png" ] || fail "no picture"
for words in '"units": "us"' '"colours": "high-contrast"' '"motion": "reduced"' '"learner": "Learner1 2"'; do
    grep -q "$words" "$settings" || fail "not kept: $words"
done
[ "$(ls "$work/data/pullback/runs" | wc -l)" = 0 ] || fail "run files are left over"

# the next time
cat >"$work/again.script" <<'END'
0.3 expect is_us 1
0.3 expect is_contrast 1
0.3 expect is_still 1
0.3 expect learners 1
0.3 expect learner > 0
0.3 expect row_runs 1
0.4 end
END
script "$work/again.script" || fail "what was kept is not there"
# sound, captions, loudspeaker: chosen on the card, there the next time
cat >"$work/sound.script" <<'END'
0.3 expect is_captioned 1
0.3 expect is_muted 0
0.4 key F10
0.6 click set_sound 0.5
0.8 expect volume 0.4
0.9 click set_captions 0.75
1.1 click set_device
1.4 click set_sound 0.1
1.6 expect is_muted 1
1.7 end
END
script "$work/sound.script" || fail "the sound's settings"
grep -q '"sound_device": "..*"' "$settings" || fail "no loudspeaker was kept"
printf '0.3 expect is_muted 1\n0.3 expect volume 0.4\n0.3 expect is_captioned 0\n0.3 expect audio_playing 1\n0.4 end\n' >"$work/sound.script"
script "$work/sound.script" || fail "the sound's settings were not kept"
# options count for once and are not written down
before=$(cat "$settings")
printf '0.3 expect is_us 0\n0.3 expect text_scale 1.5\n0.4 end\n' >"$work/once.script"
script "$work/once.script" --units si --scale 1.5 || fail "options"
[ "$(cat "$settings")" = "$before" ] || fail "an option was written into the settings"

# settings that are no settings: put aside, told once
echo '{"format": "pullback settings 1", "units": "cubits"}' >"$settings"
printf '0.3 expect has_notice 1\n0.3 expect is_us 0\n0.4 end\n' >"$work/bad.script"
script "$work/bad.script" 2>"$work/err" || fail "with bad settings"
grep -q 'settings.json:1:.*expected' "$work/err" || fail "said: $(cat "$work/err")"
grep -q cubits "$settings.bad" || fail "the bad settings are not beside"
printf '0.3 expect has_notice 0\n0.4 end\n' >"$work/calm.script"
script "$work/calm.script" || fail "told twice"

# no store: everything works, nothing is kept, one line says why
cat >"$work/none.script" <<'END'
0.3 expect has_store 0
0.4 key Return
0.8 expect screen 0
0.9 key F
1.0 wait screen 1 40
1.1 expect runs_kept 0
1.2 end
END
script "$work/none.script" --db "$place/bad.json" 2>"$work/err" || fail "without a store"
[ "$(grep -c '^pullback: grades are not kept' "$work/err")" = 1 ] || fail "said: $(cat "$work/err")"

# a folder without exercises: the rooms answer, no crash
mkdir -p "$work/empty/exercises"
for row_turn in 0.4 0.42; do # two frames that follow one another
    printf '0.3 expect rows 0\n%s key 2\n0.9 expect rows 0\n1.0 end\n' $row_turn >"$work/empty.script"
    script "$work/empty.script" --door --data "$work/empty" || fail "without exercises"
done

# a school's worth of learners: a new name can be typed still
cli=$(dirname "$program")/../cli/pullback-cli
if [ -x "$cli" ]; then
    for i in $(seq 40); do
        "$cli" learners add "Person $i" --db "$work/many.db" >/dev/null || fail "adding learners"
    done
    printf '0.3 expect learners 40\n0.4 key L\n0.6 type Learner1\n0.8 key Return\n1.2 expect learners 41\n1.3 expect card 0\n1.4 end\n' >"$work/many.script"
    script "$work/many.script" --door --db "$work/many.db" || fail "a new name after many"
fi

# a run that was cut off by a kill is taken in the next time, once
[ -n "${PB_INSIDE:-}" ] || PB_INSIDE=1
printf '0.1 every 60\n0.4 key Space\n0.6 key Return\n0.8 keydown S\n3 keyup S\n400 end\n' >"$work/long.script"
cat >"$work/kill.sh" <<'END'
"$1" --script "$2" "$3" &
pid=$!
for _ in $(seq 600); do # until the recorder has brought something of the run to the disk
    [ "$(cat "$XDG_DATA_HOME"/pullback/runs/*.run 2>/dev/null | wc -c)" -gt 2500 ] && break
    sleep 0.1
done
kill -9 $pid
wait $pid
END
echo '{"format": "pullback settings 1", "learner": "Learner1 2"}' >"$settings"
screen timeout 600 sh "$work/kill.sh" "$program" "$work/long.script" \
    "$root/assets/exercises/plain-2x4.json" >/dev/null 2>&1 || true
[ "$(ls "$work/data/pullback/runs" | wc -l)" = 1 ] || fail "no run file after the kill"
script "$work/calm.script" 2>"$work/err" || fail "after the kill"
grep -q "cut off is kept" "$work/err" || fail "not taken in: $(cat "$work/err")"
[ "$(ls "$work/data/pullback/runs" | wc -l)" = 0 ] || fail "the file stayed"
# one that cannot be read stays where it is, and that is said
echo nothing >"$work/data/pullback/runs/1-20260101T000000Z-0-99999999.run"
script "$work/calm.script" 2>"$work/err" || fail "with a run file that is none"
grep -q "cut off stays in .*99999999.run: " "$work/err" || fail "said: $(cat "$work/err")"
[ "$(ls "$work/data/pullback/runs" | wc -l)" = 1 ] || fail "the file that is none was taken away"
echo "door: all answered"

# a fresh home: US units where the country is the US, until the person chooses
rm -rf "$work/config"
printf '0.3 expect is_us 1\n0.4 end\n' >"$work/us.script"
LC_ALL=en_US.UTF-8 script "$work/us.script" || fail "US units in the US"
printf '0.3 expect is_us 0\n0.4 end\n' >"$work/si.script"
LC_ALL=es_MX.UTF-8 script "$work/si.script" || fail "SI in Mexico"
printf '0.3 expect is_us 1\n0.4 click units 0.2\n0.6 expect is_us 0\n0.7 end\n' >"$work/choose.script"
LC_ALL=en_US.UTF-8 script "$work/choose.script" || fail "choosing SI"
LC_ALL=en_US.UTF-8 script "$work/si.script" || fail "the choice was not kept"
