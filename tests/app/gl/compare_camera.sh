#!/bin/sh
# compare_camera.sh STATE.json PICTURE.png: the camera ramp of shaders/camera.frag worked out here
# again and read backwards: the pixel at the centre of a cell of the solver's picture, through the
# printed scale, is that cell's surface temperature to 0.05 K. Pixels
# whose colour is not on the ramp lie under a reading's line or dot.
set -eu
state=$1
picture=$2
IFS=, read -r x y w h <<END
$(sed -n 's/.*"camera": \[\(.*\)\].*/\1/p' "$state" | tr -d ' ')
END
crop=$(awk -v x="$x" -v y="$y" -v w="$w" -v h="$h" 'BEGIN { printf "%dx%d+%d+%d", w, h, x, y }')
{
    sed -n '/"surface_c"/,$p' "$state" | tr -d '[],' | grep -E '^ *-?[0-9]'
    echo pixels
    convert "$picture" -crop "$crop" +repage -depth 8 rgb:- | od -An -v -t u1 -w3
} | awk -v w="${w%.*}" -v h="${h%.*}" \
    -v low="$(sed -n 's/.*"years_low_c": \([-0-9.]*\),/\1/p' "$state")" \
    -v high="$(sed -n 's/.*"years_high_c": \([-0-9.]*\),/\1/p' "$state")" '
function abs(a) { return a < 0 ? -a : a }
BEGIN {
    n = ny = 0
    for (i = 0; i <= 4000; i++) {
        t = i / 4000
        red[i] = 255 * (0.033 + t*(-0.646 + t*(7.417 + t*(-12.910 + t*(11.259 - t*4.181)))))
        green[i] = 255 * (0.132 + t*(0.755 + t*(0.239 + t*(-1.145 + t*(1.421 - t*0.469)))))
        blue[i] = 255 * (0.225 + t*(1.078 + t*(-0.900 + t*(-0.666 + t*(0.981 + t*0.115)))))
    }
}
/^pixels/ { reading = 1; next }
!reading { for (i = 1; i <= NF; i++) c[ny, i - 1] = $i; nx = NF; ny++; next }
{ px[n, 0] = $1; px[n, 1] = $2; px[n, 2] = $3; n++ }
# The temperature under a place in the picture: between the four cells round it.
function at(u, v,   i, j) {
    u = u * nx - 0.5; v = v * ny - 0.5
    u = u < 0 ? 0 : u > nx - 1.001 ? nx - 1.001 : u; v = v < 0 ? 0 : v > ny - 1.001 ? ny - 1.001 : v
    i = int(u); j = int(v); u -= i; v -= j
    return (1-v) * ((1-u) * c[j,i] + u * c[j,i+1]) + v * ((1-u) * c[j+1,i] + u * c[j+1,i+1])
}
END {
    if (n != w * h) { print "expected", w * h, "pixels, got", n; exit 1 }
    for (k = 0; k < 400; k++) {
        a = int((k * 0.618034 % 1) * w); b = int((k + 0.5) / 400 * h)
        p = b * w + a; best = 1e9
        for (i = 0; i <= 4000; i++) {
            e = (px[p,0]-red[i])^2 + (px[p,1]-green[i])^2 + (px[p,2]-blue[i])^2
            if (e < best) { best = e; found = i }
        }
        if (best > 100) { covered++; continue } # ten steps of one channel off the ramp: a line or dot
        is = low + (high - low) * found / 4000
        wanted = at((a + 0.5) / w, 1 - (b + 0.5) / h)
        seen++
        off = abs(is - wanted)
        if (off > 0.05) { wrong++; if (wrong < 6) printf "pixel %d,%d: %.2f C, the solver says %.2f\n", a, b, is, wanted }
        else if (off > worst) worst = off
    }
    printf "%d places read back, %d off, worst of the rest %.3f K, %d under a line or dot, span %.0f to %.0f C\n", seen, wrong, worst, covered, low, high
    exit !(wrong == 0 && seen > 350)
}'
