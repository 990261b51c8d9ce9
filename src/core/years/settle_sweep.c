/*
 * What wall friction leaves of the load: the sweep of equation (5) from the top down, shear between
 * columns row by row, and the rule that a layer thinner than the bay is deep cannot bridge (6).
 * Next: settle_exchange.c for the shear, settle.c for the step that calls this.
 */
#include "years/settle_private.h"

#include "core/pb_math.h"

#include <string.h>

/* Load below each slice of a row with blocks, empty cells or obstacles that take a share of the
 * depth; others are in settle_kernels.inc. */
static void row_mixed(PbSettle *s, size_t row, const unsigned char *thin)
{
    const double mu = s->law.friction, half_muk = 0.5 * mu * s->law.ratio;
    const double g = s->law.along_m_s2 * (1.0 + s->moisture);
    const double face = mu * s->law.across_m_s2 * (1.0 + s->moisture);
    for (int i = 0; i < s->nx; i++) {
        size_t c = row + (size_t)i;
        if (s->kind[c] != SETTLE_FILL) {
            s->raw_pa[i] = s->above_pa[i];
            if (s->kind[c] == SETTLE_BLOCKED) {
                s->above_pa[i] = 0.0; /* a block carries all that stands on it */
                s->share_above[i] = 1.0;
            }
            continue;
        }
        /* A narrowing rests in part on the obstacle; a widening spreads the load. */
        double q = s->above_pa[i];
        if (s->share_above[i] < s->share[c]) {
            q *= s->share_above[i] / s->share[c];
            s->above_pa[i] = q;
        }
        double a = s->perimeter_1_m[c] * half_muk * s->thick_m[c];
        double grip =
            s->perimeter_1_m[c] * mu * s->lateral_pa[c] * s->thick_m[c] + face * s->dry_kg_m2[c];
        double weight = g * s->dry_kg_m2[c];
        grip = thin[i] && grip > weight ? weight : grip;
        s->raw_pa[i] = (q * (1.0 - a) + weight - grip) / (1.0 + a);
        s->share_above[i] = s->share[c];
    }
}

/* Most shear between a slice and its right neighbour, Pa of the column's cross-section. */
static double link_limit(const PbSettle *s, size_t c, int i)
{
    if (s->kind[c + 1] != SETTLE_FILL || s->bottom_m[c] >= s->top_m[i + 1] ||
        s->bottom_m[c + 1] >= s->top_m[i]) {
        return 0.0; /* one stands free above the other */
    }
    double left = 0.5 * (s->above_pa[i] + s->raw_pa[i]);
    double right = 0.5 * (s->above_pa[i + 1] + s->raw_pa[i + 1]);
    left = s->lateral_pa[c] + s->law.ratio * (left > 0.0 ? left : 0.0);
    right = s->lateral_pa[c + 1] + s->law.ratio * (right > 0.0 ? right : 0.0);
    double height = pb_min(s->thick_m[c], s->thick_m[c + 1]);
    double share = pb_min(s->share[c], s->share[c + 1]);
    return share * height / s->dx_m * s->law.tan_phi * pb_min(left, right);
}

static void row_shear(PbSettle *s, size_t row)
{
    int i = 0;
    while (i < s->nx) {
        if (s->kind[row + (size_t)i] != SETTLE_FILL) {
            i++;
            continue;
        }
        int first = i, loaded = 0;
        while (i < s->nx && s->kind[row + (size_t)i] == SETTLE_FILL) {
            loaded |= s->raw_pa[i] > 0.0;
            if (i + 1 < s->nx) {
                s->links_pa[i] = link_limit(s, row + (size_t)i, i);
            }
            i++;
        }
        /* Where all hang by themselves, sharing would still leave all hanging. */
        if (loaded && i - first > 1) {
            settle_exchange(i - first, s->share + row + first, s->links_pa + first,
                            s->raw_pa + first, s->sum_x, s->sum_q, (SettleBends){0});
        }
    }
}

/* Where the string of a row bent in the same sweep of the step before. */
static SettleBends bends_of(const PbSettle *s, int sweep, int row)
{
    size_t wide = (size_t)s->nx + 1;
    if (s->bends == NULL) {
        return (SettleBends){0};
    }
    unsigned char *b = s->bends + 3 * wide * ((size_t)sweep * (size_t)s->rows + (size_t)row);
    return (SettleBends){b, b + wide, (signed char *)(b + 2 * wide)};
}

static void sweep_once(PbSettle *s, int sweep)
{
    for (int i = 0; i < s->nx; i++) {
        s->above_pa[i] = 0.0;
        s->share_above[i] = 1.0;
        s->hangs[i] = 0;
    }
    for (int j = s->rows - 1; j >= 0; j--) {
        size_t row = (size_t)j * (size_t)s->nx;
        if (s->row_is_plain[j] && s->nx > 1) {
            s->kernels->row(s, j, bends_of(s, sweep, j));
            continue;
        }
        for (int i = 0; i < s->nx && j + 1 < s->rows && s->row_is_plain[j + 1]; i++) {
            s->share_above[i] = 1.0;
        }
        row_mixed(s, row, s->thin + row);
        if (s->nx > 1) {
            row_shear(s, row);
        }
        for (int i = 0; i < s->nx; i++) {
            size_t c = row + (size_t)i;
            if (s->kind[c] == SETTLE_FILL) {
                double out = s->raw_pa[i] > 0.0 ? s->raw_pa[i] : 0.0;
                int held = !(s->raw_pa[i] > 0.0);
                s->stuck[c] = (unsigned char)held;
                s->hangs[i] |= s->stuck[c];
                s->stress_pa[c] = held ? 0.0 : 0.5 * (s->above_pa[i] + out);
                s->above_pa[i] = out;
            }
        }
    }
}

/* Mark held layers thinner than the depth with fill below. @return how many slices were marked. */
static int mark_thin(PbSettle *s)
{
    int marked = 0;
    size_t nx = (size_t)s->nx;
    for (size_t i = 0; i < nx; i++) {
        if (!s->hangs[i]) {
            continue;
        }
        int on_floor = 1, run_start = -1, run_on_floor = 0;
        double run = 0.0, run_top = 0.0;
        for (int j = 0; j <= s->rows; j++) {
            size_t c = (size_t)j * nx + i;
            int kind = j < s->rows ? s->kind[c] : SETTLE_BLOCKED;
            if (kind == SETTLE_EMPTY) {
                continue;
            }
            int held = kind == SETTLE_FILL && s->stuck[c];
            int goes_on = held && run_start >= 0 && s->bottom_m[c] - run_top < 1e-9;
            if (run_start >= 0 && !goes_on) {
                if (!run_on_floor && run < s->depth_m) {
                    for (int k = run_start; k < j; k++) {
                        s->thin[(size_t)k * nx + i] = 1;
                        marked++;
                    }
                }
                run_start = -1;
            }
            if (held) {
                if (run_start < 0) {
                    run_start = j;
                    run = 0.0;
                    run_on_floor = on_floor;
                }
                run += s->thick_m[c];
                run_top = s->bottom_m[c] + s->thick_m[c];
            }
            on_floor = kind == SETTLE_BLOCKED;
        }
    }
    return marked;
}

void settle_sweep(PbSettle *s)
{
    size_t n = (size_t)s->nx * (size_t)s->rows;
    memset(s->thin, 0, n);
    sweep_once(s, 0);
    if (mark_thin(s) > 0) {
        sweep_once(s, 1);
    }
}

void settle_drop(PbSettle *s)
{
    size_t nx = (size_t)s->nx;
    for (size_t i = 0; i < nx; i++) {
        s->sum_q[i] = 0.0; /* top of what is below, per column */
    }
    for (int j = 0; j < s->rows; j++) {
        if (s->row_is_plain[j] && nx > 1) {
            s->kernels->drop_row(s, j);
            continue;
        }
        for (size_t i = 0; i < nx; i++) {
            size_t c = (size_t)j * nx + i;
            double top = s->sum_q[i];
            if (s->kind[c] == SETTLE_BLOCKED) {
                s->sum_q[i] = (j + 1) * s->dy_m;
            } else if (s->kind[c] == SETTLE_FILL) {
                double y = s->stuck[c] && s->bottom_m[c] > top ? s->bottom_m[c] : top;
                s->bottom_m[c] = y;
                s->sum_q[i] = s->top_m[i] = y + s->thick_m[c];
            }
        }
    }
}
