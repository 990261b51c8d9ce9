#!/bin/sh
# compare_pixels.sh STATE.json PICTURE.png PLACE: the ramp of docs (degree 5 in display-encoded
# channels, a step at the target) worked out here again, against the pixels at cell centres. Cells
# with a neighbour more than 8 kg/m3 away, near the target or near wood are left out; a pixel may lie
# on a hatch line (1 px in 7), so the nearest of three in a row counts. Tolerance 6 of 255: one for
# rounding, the rest because a pixel is up to one and a half of about six from the centre of its
# cell, where the picture has moved by up to 2 kg/m3 towards the next (ramp slope at most 2.7).
set -eu
state=$1
picture=$2
place=$3
rect=$(sed -n "s/.*\"$place\": \[\(.*\)\].*/\1/p" "$state" | tr -d ' ')
IFS=, read -r x y w h <<END
$rect
END
crop=$(awk -v x="$x" -v y="$y" -v w="$w" -v h="$h" 'BEGIN { printf "%dx%d+%d+%d", w, h, x, y }')
{
    sed -n '/"density"/,$p' "$state" | tr -d '[],' | grep -E '^ *[0-9]'
    echo pixels
    convert "$picture" -crop "$crop" +repage -depth 8 rgb:- | od -An -v -t u1 -w3
} | awk -v w="${w%.*}" -v h="${h%.*}" -v target="$(sed -n 's/.*"target_kg_m3": \([0-9.]*\),/\1/p' "$state")" '
function ramp(rho, k,   t, c) {
    t = (rho - 20) / 60; t = t < 0 ? 0 : t > 1 ? 1 : t
    if (k == 0) c = 0.945 + t*(-0.090 + t*(-2.371 + t*(2.899 + t*(-2.758 + t*1.449))))
    if (k == 1) c = 0.870 + t*(-0.844 + t*(0.099 + t*(0.777 + t*(-1.297 + t*0.573))))
    if (k == 2) c = 0.697 + t*(-1.437 + t*(0.811 + t*(3.525 + t*(-5.258 + t*1.922))))
    return 255 * (rho < target ? c + 0.1 * (1 - c) : c * 0.9)
}
function abs(a) { return a < 0 ? -a : a }
/^pixels/ { reading = 1; next }
!reading { for (i = 1; i <= NF; i++) rho[ny, i - 1] = $i; nx = NF; ny++; next }
{ px[n, 0] = $1; px[n, 1] = $2; px[n, 2] = $3; n++ }
END {
    if (n != w * h) { print "expected", w * h, "pixels, got", n; exit 1 }
    for (j = 2; j < ny - 2; j++) for (i = 2; i < nx - 2; i++) {
        r = rho[j, i]
        steep = abs(r - target) < 3 || r < 20
        for (b = -1; b <= 1; b++) for (a = -1; a <= 1; a++)
            if (abs(rho[j + b, i + a] - r) > 8) steep = 1
        if (steep) continue
        cx = int((i + 0.5) * w / nx); cy = int(h - (j + 0.5) * h / ny)
        best = 999
        for (d = -1; d <= 1; d++) {
            at = cy * w + cx + d; far = 0
            for (k = 0; k < 3; k++) { e = abs(px[at, k] - ramp(r, k)); if (e > far) far = e }
            if (far < best) best = far
        }
        seen++
        if (best > 6) { wrong++; if (wrong < 5) printf "cell %d,%d: %.1f kg/m3, off by %.1f\n", i, j, r, best }
    }
    printf "%d cells compared, %d wrong\n", seen, wrong
    exit !(seen >= 100 && wrong <= seen / 100)
}'
