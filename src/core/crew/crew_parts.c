/* Parts of a wall that a crew believes in: what it can say of each, and how they compare with the
 * bays that are there once the wall is open. Next: crew_belief.c, where they come from. */
#include "core/crew_belief.h"
#include "evidence.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

#define PLATE_REACH_M 0.05 /* a tube ends this near to what bounds the part */

static double middle(double a, double b)
{
    return 0.5 * (a + b);
}

/* What a rod says beyond "hollow". */
static void read_rod(const PbCrewAnswer *answer, PbCrewPart *part)
{
    for (int n = 1; n < answer->layer_count; n++) {
        part->has_soft |= answer->layers[n].feel == PB_FEEL_SOFT;
    }
    part->has_metal |= answer->feel == PB_FEEL_METAL;
}

static void read_act(const PbCrew *crew, const PbCrewDone *done, const PbBays *believed,
                     PbCrewPart *list)
{
    const PbCrewAct *a = &done->act;
    int at = pb_bays_at(believed, a->x_m, a->y_m);
    if (a->kind == PB_CREW_TUBE) {
        at = pb_bays_at(believed, crew->holes[a->hole].x_m, crew->holes[a->hole].y_m);
    }
    if (at < 0) {
        return;
    }
    PbCrewPart *part = &list[at];
    if (a->kind == PB_CREW_LEAVE) {
        part->left = a->reason;
    } else if (a->kind == PB_CREW_PROBE && done->answer.layer_count > 1) {
        int is_straight = a->right_deg == 0.0 && a->up_deg == 0.0;
        read_rod(&done->answer, part);
        part->has_wood |= is_straight && done->answer.feel == PB_FEEL_WOOD;
        if (is_straight && done->answer.feel == PB_FEEL_BACK) {
            part->depth_m = done->answer.reach_m - done->answer.layers[0].to_m;
        }
    } else if (a->kind == PB_CREW_DRILL) {
        part->has_metal |= done->answer.feel == PB_FEEL_METAL;
        part->holes += done->answer.feel == PB_FEEL_NOTHING;
    }
}

void pb_crew_parts(const PbCrew *crew, const PbBays *believed, PbCrewPart *list)
{
    int count;
    const PbFramedBay *bays = pb_bays_list(believed, &count);
    Evidence e;
    crew_evidence(crew, &e);
    memset(list, 0, (size_t)count * sizeof *list);
    for (int n = 0; n < crew->done_count; n++) {
        read_act(crew, &crew->done[n], believed, list);
    }
    for (int n = 0; n < e.hollow_count; n++) {
        const PbRect *h = &e.hollow[n];
        int at = pb_bays_at(believed, middle(h->x0_m, h->x1_m), middle(h->y0_m, h->y1_m));
        if (at >= 0) {
            list[at].is_felt = 1;
        }
    }
    for (int n = 0; n < e.wood_count; n++) {
        const Wood *w = &e.wood[n];
        for (int k = 0; k < count; k++) {
            const PbRect *r = &bays[k].around;
            if (w->to_right == 0 && w->x_m > r->x0_m && w->x_m < r->x1_m) {
                list[k].is_low_felt |= fabs(w->y_m - r->y0_m) < PLATE_REACH_M;
                list[k].is_high_felt |= fabs(w->y_m - r->y1_m) < PLATE_REACH_M;
            }
        }
    }
}

enum { GRID = 16 }; /* samples of a bay each way */

/* Samples of `around` that lie in bay `n`, and those of them that lie in bay `k` of the other. */
static int shared(const PbBays *bays, int n, const PbRect *around, const PbBays *other, int k,
                  int *all)
{
    int both = 0;
    *all = 0;
    for (int i = 0; i < GRID; i++) {
        for (int j = 0; j < GRID; j++) {
            double x = around->x0_m + (around->x1_m - around->x0_m) * (i + 0.5) / GRID;
            double y = around->y0_m + (around->y1_m - around->y0_m) * (j + 0.5) / GRID;
            if (pb_bays_at(bays, x, y) == n) {
                (*all)++;
                both += pb_bays_at(other, x, y) == k;
            }
        }
    }
    return both;
}

/* Hold two bays to be one when at least half of each lies in the other. */
static int is_same(const PbBays *truth, int n, const PbBays *believed, int k)
{
    int count, all;
    const PbRect *a = &pb_bays_list(truth, &count)[n].around;
    const PbRect *b = &pb_bays_list(believed, &count)[k].around;
    if (a->x1_m <= b->x0_m || b->x1_m <= a->x0_m || a->y1_m <= b->y0_m || b->y1_m <= a->y0_m) {
        return 0;
    }
    int both = shared(truth, n, a, believed, k, &all);
    if (2 * both < all) {
        return 0;
    }
    both = shared(believed, k, b, truth, n, &all);
    return 2 * both >= all;
}

/* Which felt part is bay `n`? */
static int part_of(const Evidence *e, const PbBays *truth, int n, const PbBays *believed)
{
    int last = -1;
    for (int k = 0; k < e->hollow_count; k++) {
        const PbRect *h = &e->hollow[k];
        int at = pb_bays_at(believed, middle(h->x0_m, h->x1_m), middle(h->y0_m, h->y1_m));
        if (at >= 0 && at != last && is_same(truth, n, believed, at)) {
            return at;
        }
        last = at;
    }
    return -1;
}

void pb_crew_compare(const PbCrew *crew, const PbBays *truth, const PbBays *believed,
                     PbCrewFound *list)
{
    int count;
    Evidence e;
    crew_evidence(crew, &e);
    (void)pb_bays_list(truth, &count);
    for (int n = 0; n < count; n++) {
        list[n] = (PbCrewFound){part_of(&e, truth, n, believed), -1, PB_LEAVE_NONE, 0};
    }
    for (int n = crew->hole_count - 1; n >= 0; n--) {
        const PbCrewHole *h = &crew->holes[n];
        int at = h->met == PB_FEEL_NOTHING ? pb_bays_at(truth, h->x_m, h->y_m) : -1;
        if (at >= 0) {
            list[at].hole = n;
        }
    }
    for (int n = 0; n < crew->done_count; n++) {
        const PbCrewAct *a = &crew->done[n].act;
        int at = a->kind == PB_CREW_LEAVE ? pb_bays_at(truth, a->x_m, a->y_m) : -1;
        if (at >= 0) {
            list[at].left = a->reason;
        }
    }
    for (int n = 0; n < count; n++) {
        list[n].is_found = list[n].part >= 0 || list[n].hole >= 0 || list[n].left != PB_LEAVE_NONE;
    }
}
