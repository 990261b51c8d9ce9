/* Reads the record of a crew as evidence about places. Next: crew_belief.c, what follows from it.
 */
#include "evidence.h"

#include "core/pb_math.h"

#include <math.h>

#define STEEP_DEG 40.0 /* from here on what stops a rod is beside it and not before it */

static void add_hollow(Evidence *e, double x0, double y0, double x1, double y1)
{
    if (e->hollow_count < EVIDENCE_MAX) {
        e->hollow[e->hollow_count++] =
            (PbRect){pb_min(x0, x1), pb_min(y0, y1), pb_max(x0, x1), pb_max(y0, y1)};
    }
}

static void add_wood(Evidence *e, Wood wood)
{
    if (e->wood_count < EVIDENCE_MAX) {
        e->wood[e->wood_count++] = wood;
    }
}

static void read_probe(Evidence *e, const PbCrewAct *a, const PbCrewAnswer *answer)
{
    const double degree = PB_PI / 180.0;
    double tx = pb_sin(a->right_deg * degree) / pb_cos(a->right_deg * degree);
    double ty = pb_sin(a->up_deg * degree) / pb_cos(a->up_deg * degree);
    double share = 1.0 / sqrt(tx * tx + ty * ty + 1.0);
    double x = a->x_m + answer->reach_m * tx * share, y = a->y_m + answer->reach_m * ty * share;
    int steep = fabs(a->right_deg) >= STEEP_DEG ? 1 : fabs(a->up_deg) >= STEEP_DEG ? 2 : 0;
    if (answer->layer_count > 1) {
        add_hollow(e, a->x_m, a->y_m, steep == 1 ? x : a->x_m, steep == 2 ? y : a->y_m);
        if (answer->feel == PB_FEEL_WOOD && steep == 1) {
            add_wood(e, (Wood){x, y, a->right_deg > 0.0 ? 1 : -1, 0});
        } else if (answer->feel == PB_FEEL_WOOD && steep == 2) {
            add_wood(e, (Wood){x, y, 0, a->up_deg > 0.0 ? 1 : -1});
        }
    } else if (answer->feel == PB_FEEL_WOOD) {
        add_wood(e, (Wood){x, y, 0, 0});
    }
}

void crew_evidence(const PbCrew *crew, Evidence *e)
{
    e->hollow_count = e->wood_count = 0;
    for (int n = 0; n < crew->done_count; n++) {
        const PbCrewAct *a = &crew->done[n].act;
        const PbCrewAnswer *answer = &crew->done[n].answer;
        if (a->kind == PB_CREW_PROBE) {
            read_probe(e, a, answer);
        } else if (a->kind == PB_CREW_DRILL && answer->feel == PB_FEEL_NOTHING) {
            add_hollow(e, a->x_m, a->y_m, a->x_m, a->y_m);
        } else if (a->kind == PB_CREW_DRILL && answer->feel == PB_FEEL_WOOD) {
            add_wood(e, (Wood){a->x_m, a->y_m, 0, 0});
        } else if (a->kind == PB_CREW_TUBE) {
            const PbCrewHole *h = &crew->holes[a->hole];
            double end = h->y_m + (a->is_up ? answer->reach_m : -answer->reach_m);
            add_hollow(e, h->x_m, h->y_m, h->x_m, end);
            if (answer->feel == PB_FEEL_WOOD) {
                add_wood(e, (Wood){h->x_m, end, 0, a->is_up ? 1 : -1});
            }
        }
    }
}
