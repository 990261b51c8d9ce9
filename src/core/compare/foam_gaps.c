/* From what a foam lost to boxes of air for the heat solver. */
#include "core/compare.h"

#include "core/pb_math.h"

static const double least_gap_m = 2e-4; /* breaks nearer than this fall into one line of the grid */
enum { MOST_ACROSS = 16, MOST_ALONG = 6 };

typedef struct Boxes {
    PbHeatGap *gap;
    int count;
} Boxes;

static void add(Boxes *b, PbHeatGap g)
{
    if (g.x1_m - g.x0_m >= least_gap_m && g.y1_m - g.y0_m >= least_gap_m &&
        g.z1_m - g.z0_m >= least_gap_m && b->count < PB_HEAT_MAX_GAPS) {
        b->gap[b->count++] = g;
    }
}

/* The widest of the cracks, ascending in place again; returns how many. What the rest opened is
 * given to them in proportion, so that the axis loses what the foam lost. */
static int widest(const PbFoamCrack *cracks, int count, int most, PbFoamCrack *kept)
{
    unsigned char is_kept[PB_FOAM_MAX_CRACKS] = {0};
    double all = 0.0, held = 0.0;
    int n = 0;
    for (int k = 0; k < most && k < count; k++) {
        int best = -1;
        for (int i = 0; i < count; i++) {
            if (!is_kept[i] && (best < 0 || cracks[i].open_m > cracks[best].open_m)) {
                best = i;
            }
        }
        if (best >= 0) {
            is_kept[best] = 1;
        }
    }
    for (int i = 0; i < count; i++) {
        all += cracks[i].open_m;
        if (is_kept[i]) {
            held += cracks[i].open_m;
            kept[n++] = cracks[i];
        }
    }
    for (int i = 0; i < n && held > 0.0; i++) {
        kept[i].open_m *= all / held;
    }
    return n;
}

int pb_foam_heat_gaps(const PbFoamState *s, double width_m, double height_m, double depth_m,
                      PbHeatGap gaps[PB_HEAT_MAX_GAPS])
{
    Boxes b = {gaps, 0};
    PbFoamCrack kept[PB_FOAM_MAX_CRACKS];
    double w = width_m, h = height_m, d = depth_m;
    double face = pb_min(s->face_gap_m, d);
    add(&b, s->face_gap_is_inner ? (PbHeatGap){0, w, 0, h, 0, face}
                                 : (PbHeatGap){0, w, 0, h, d - face, d});
    add(&b, (PbHeatGap){0, w, 0, s->plate_gap_m[0], 0, d});
    add(&b, (PbHeatGap){0, w, h - s->plate_gap_m[1], h, 0, d});
    add(&b, (PbHeatGap){0, s->stud_gap_m[0], 0, h, 0, d});
    add(&b, (PbHeatGap){w - s->stud_gap_m[1], w, 0, h, 0, d});
    int n = widest(s->across, s->across_count, MOST_ACROSS, kept);
    for (int i = 0; i < n; i++) {
        double half = 0.5 * kept[i].open_m;
        add(&b, (PbHeatGap){0, w, pb_max(kept[i].at_m - half, 0.0), pb_min(kept[i].at_m + half, h),
                            0, d});
    }
    n = widest(s->along, s->along_count, MOST_ALONG, kept);
    for (int i = 0; i < n; i++) {
        double half = 0.5 * kept[i].open_m;
        add(&b, (PbHeatGap){pb_max(kept[i].at_m - half, 0.0), pb_min(kept[i].at_m + half, w), 0, h,
                            0, d});
    }
    return b.count;
}
