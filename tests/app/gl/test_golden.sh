#!/bin/sh
# Years later against its picture in golden/ (how near: golden_views.sh). Side by side, which works
# for a minute, is held to its own by docs.guide_pictures, which shows the same view. On failure the
# difference is left in the scratch folder. After a change that is meant, bless_golden.sh makes them
# anew: look at them.
. "$(dirname "$0")/lib.sh" "$@"
need Xvfb convert awk
. "$root/tests/app/gl/golden_views.sh"
draw_view years
as_kept years-900x600 || fail "not as it was (see $work/years-900x600-off.png)"
