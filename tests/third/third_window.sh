#!/bin/sh
# The window in a language that is not shipped, from the Door to the result.
. "$(dirname "$0")/../app/gl/lib.sh" "$@"
need Xvfb
cat >"$work/third.script" <<'END'
0.5 expect lang 2
0.6 words door.txt
1.0 key F10
1.5 words settings.txt
1.6 key Escape
2.0 click lang
2.2 expect lang 0
2.4 click lang
2.6 expect lang 1
2.8 click lang
3.0 end
END
script "$work/third.script" --lang qaa --size 1700x1000 || fail "the Door in a third language"
# A text is of the catalogue when it has « or », or goes on from one that was wrapped.
for file in door settings; do
    sed 's/^[^ ]* [^ ]* //' "$work/$file.txt" | awk '
        { own = /[«»]/ || is_open; if (/«/) is_open = !/»$/; else if (/»/) is_open = 0 } !own' |
        grep -E '[A-Za-z][a-z]' | grep -vxE 'Pullback|English|Español|Third' >"$work/outside.txt" || true
    [ ! -s "$work/outside.txt" ] || fail "$file says outside of the catalogue: $(cat "$work/outside.txt")"
    [ "$(grep -c « "$work/$file.txt")" -gt 12 ] || fail "$file has few words of the catalogue"
done
