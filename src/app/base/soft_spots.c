/* Rows of patches with one under target, neighbours of one kind joined; the softest of them. */
#include "base/soft_spots.h"

#include <math.h>

typedef struct Row {
    double y0_m, y1_m, area_m2, void_m2, mass, worst_kg_m3;
} Row;

/* The row that begins at `at`; returns where the next one begins. */
static int read_row(const PbPatch *p, int at, int count, double void_kg_m3, Row *row)
{
    *row = (Row){p[at].y0_m, p[at].y1_m, 0.0, 0.0, 0.0, HUGE_VAL};
    int i = at;
    for (; i < count && fabs(p[i].y0_m - p[at].y0_m) < 1e-9; i++) {
        double area = p[i].free_area_m2;
        if (area <= 0.0) {
            continue;
        }
        row->area_m2 += area;
        row->mass += area * p[i].density_kg_m3;
        row->void_m2 += p[i].density_kg_m3 < void_kg_m3 ? area : 0.0;
        row->worst_kg_m3 = fmin(row->worst_kg_m3, p[i].density_kg_m3);
    }
    return i;
}

static SoftKind kind_of(const Row *row)
{
    return row->void_m2 <= 0.0                          ? SOFT_LOW
           : row->void_m2 < row->area_m2 * (1.0 - 1e-9) ? SOFT_PART
                                                        : SOFT_EMPTY;
}

/* How soft a bracket is among the others: empty ones before those that are empty in part. */
static double softness(const SoftSpot *s)
{
    return s->kg_m3 - 1e4 * (double)s->kind;
}

/* Move the softest to the front, then put those back in order of height. */
static int choose(SoftSpot *all, int n, SoftSpot *out)
{
    int kept = 0;
    for (; kept < SOFT_SPOTS_MAX && kept < n; kept++) {
        int best = kept;
        for (int i = kept; i < n; i++) {
            best = softness(&all[i]) < softness(&all[best]) ? i : best;
        }
        SoftSpot s = all[best];
        all[best] = all[kept];
        all[kept] = s;
    }
    for (int i = 0; i < kept; i++) {
        int k = i;
        for (; k > 0 && out[k - 1].y0_m > all[i].y0_m; k--) {
            out[k] = out[k - 1];
        }
        out[k] = all[i];
    }
    return kept;
}

int soft_spots(const PbPatch *patches, int count, double target_kg_m3, double void_kg_m3,
               SoftSpot *out)
{
    SoftSpot all[128];
    double area[128];
    int n = 0;
    for (int at = 0; at < count;) {
        Row row;
        at = read_row(patches, at, count, void_kg_m3, &row);
        if (row.area_m2 <= 0.0 || row.worst_kg_m3 >= target_kg_m3) {
            continue;
        }
        SoftKind kind = kind_of(&row);
        double mean = row.mass / row.area_m2;
        if (n > 0 && all[n - 1].kind == kind && row.y0_m <= all[n - 1].y1_m + 0.01) {
            SoftSpot *s = &all[n - 1];
            double both = area[n - 1] + row.area_m2;
            s->kg_m3 = kind == SOFT_PART ? (s->kg_m3 * area[n - 1] + mean * row.area_m2) / both
                                         : fmin(s->kg_m3, row.worst_kg_m3);
            s->y1_m = fmax(s->y1_m, row.y1_m);
            area[n - 1] = both;
        } else if (n < 128) {
            area[n] = row.area_m2;
            all[n++] =
                (SoftSpot){kind, row.y0_m, row.y1_m, kind == SOFT_PART ? mean : row.worst_kg_m3};
        }
    }
    return choose(all, n, out);
}
