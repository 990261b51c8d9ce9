/* What the tools do: at the cursor, or at once where they need no place. */
#include "wall/wall.h"

#include <math.h>

static void do_wall(App *app, PbCrewAct a)
{
    (void)wall_act(app, &(PbJobAct){.kind = PB_JOB_WALL, .wall = a});
}

static void plain(App *app, PbCrewActKind kind)
{
    const Wall *w = app->wall;
    do_wall(app, (PbCrewAct){.kind = kind,
                             .x_m = w->x_m,
                             .y_m = w->y_m,
                             .delta_k = w->delta_k,
                             .reason = w->reason});
}

static void tap(App *app)
{
    plain(app, PB_CREW_TAP);
}

static void sense(App *app)
{
    plain(app, PB_CREW_SENSE);
}

static void camera(App *app)
{
    plain(app, PB_CREW_CAMERA);
}

static void drill(App *app)
{
    plain(app, PB_CREW_DRILL);
}

static void leave(App *app)
{
    plain(app, PB_CREW_LEAVE);
}

static void probe(App *app)
{
    static const double right[WALL_SLANTS] = {0, -1, 1, 0, 0}, up[WALL_SLANTS] = {0, 0, 0, 1, -1};
    const Wall *w = app->wall;
    do_wall(app, (PbCrewAct){.kind = PB_CREW_PROBE,
                             .x_m = w->x_m,
                             .y_m = w->y_m,
                             .right_deg = right[w->slant] * PB_CREW_SLANT_MAX_DEG,
                             .up_deg = up[w->slant] * PB_CREW_SLANT_MAX_DEG});
}

/* The first time it is hung up, the second time it is read. */
static void tape(App *app)
{
    Wall *w = app->wall;
    w->refusal = REFUSED_NOT;
    if (!w->is_measuring) {
        w->is_measuring = 1;
        w->tape_x_m = w->x_m;
        w->tape_y_m = w->y_m;
        return;
    }
    w->is_measuring = 0;
    do_wall(app, (PbCrewAct){.kind = PB_CREW_MEASURE,
                             .x_m = w->tape_x_m,
                             .y_m = w->tape_y_m,
                             .x1_m = w->x_m,
                             .y1_m = w->y_m});
}

static void tube(App *app)
{
    int hole = wall_hole_near(app->wall);
    PbJobAct a = {.kind = PB_JOB_WALL, .wall = {.kind = PB_CREW_TUBE, .hole = hole, .is_up = 0}};
    if (wall_act(app, &a)) {
        a.wall.is_up = 1;
        (void)wall_act(app, &a);
    }
}

/* A stud of nominal lumber around the cursor, from plate to plate; where one is drawn, it goes. */
static void pencil(App *app)
{
    static const double stud_m = 0.038;
    const Wall *w = app->wall;
    for (int n = 0; n < w->crew->pencilled_count; n++) {
        const PbRect *r = &w->crew->pencilled[n].at;
        if (w->x_m > r->x0_m - 0.02 && w->x_m < r->x1_m + 0.02) {
            plain(app, PB_CREW_RUB_OUT);
            return;
        }
    }
    double x0 = fmin(fmax(w->x_m - 0.5 * stud_m, 0.0), w->crew->length_m - stud_m);
    do_wall(app, (PbCrewAct){.kind = PB_CREW_PENCIL,
                             .x_m = x0,
                             .x1_m = x0 + stud_m,
                             .y1_m = w->crew->height_m,
                             .member = PB_MEMBER_STUD});
}

/* An act of the job, at the cursor where it has a place. */
static void job(App *app, PbJobActKind kind)
{
    const Wall *w = app->wall;
    PbJobAct a = {.kind = kind};
    a.wall.x_m = w->x_m;
    a.wall.y_m = w->y_m;
    (void)wall_act(app, &a);
}

static void look(App *app)
{
    job(app, PB_JOB_LOOK);
}

static void check(App *app)
{
    job(app, PB_JOB_CHECK);
}

static void protect(App *app)
{
    job(app, PB_JOB_PROTECT);
}

static void seal(App *app)
{
    job(app, PB_JOB_SEAL);
}

static void test(App *app)
{
    job(app, PB_JOB_TEST);
}

static void plug(App *app)
{
    job(app, PB_JOB_PLUG);
}

static void patch(App *app)
{
    job(app, PB_JOB_PATCH);
}

static void clean(App *app)
{
    job(app, PB_JOB_CLEAN);
}

static void leak_test(App *app)
{
    job(app, PB_JOB_LEAK_TEST);
}

static void write_down(App *app)
{
    job(app, PB_JOB_WRITE);
}

static void camera_after(App *app)
{
    Wall *w = app->wall;
    if (w->delta_k < PB_CREW_CAMERA_K) {
        w->refusal = REFUSED_WARM;
        return;
    }
    job(app, PB_JOB_CAMERA_AFTER);
}

/* By the parts that were found and are not left: area x depth x target over the bag (16 CFR
 * 460.12).
 */
static void estimate(App *app)
{
    const Wall *w = app->wall;
    const PbExercise *like = &pb_job_framing(w->job)->like;
    PbJobAct a = {.kind = PB_JOB_ESTIMATE};
    int count;
    const PbFramedBay *bays = pb_bays_list(w->parts, &count);
    for (int n = 0; n < count; n++) {
        if (w->number[n] > 0 && w->known[n].left == PB_LEAVE_NONE && !bays[n].is_narrow) {
            a.bags += bays[n].fill_m3 * like->target_kg_m3 / like->bag_kg;
        }
    }
    (void)wall_act(app, &a);
}

/* At a packed part, as the crew knows it. */
static void feel(App *app, PbJobActKind kind)
{
    Wall *w = app->wall;
    int part = pb_bays_at(w->parts, w->x_m, w->y_m);
    if (part < 0 || w->bags[part] < 0.0) {
        w->refusal = REFUSED_EMPTY;
        return;
    }
    if (kind == PB_JOB_FINGER && wall_hole_near(w) < 0) {
        w->refusal = REFUSED_HOLE;
        return;
    }
    job(app, kind);
}

static void finger(App *app)
{
    feel(app, PB_JOB_FINGER);
}

static void core(App *app)
{
    feel(app, PB_JOB_CORE);
}

static const WallToolRow rows[WALL_TOOLS] = {
    [TOOL_LOOK] = {LEAF_FIND, N_("Look"), "E", 1, look},
    [TOOL_CHECK] = {LEAF_FIND, N_("Check house"), "H", 1, check},
    [TOOL_TAP] = {LEAF_FIND, N_("Tap"), "T", 0, tap},
    [TOOL_PROBE] = {LEAF_FIND, N_("Probe"), "O", 0, probe},
    [TOOL_TAPE] = {LEAF_FIND, N_("Tape"), "M", 0, tape},
    [TOOL_SENSE] = {LEAF_FIND, N_("Wire test"), "J", 0, sense},
    [TOOL_CAMERA] = {LEAF_FIND, N_("Camera"), "I", 0, camera},
    [TOOL_PENCIL] = {LEAF_FIND, N_("Pencil"), "K", 0, pencil},
    [TOOL_LEAVE] = {LEAF_FIND, N_("Leave it"), "L", 0, leave},
    [TOOL_PROTECT] = {LEAF_OPEN, N_("Protect room"), "Z", 1, protect},
    [TOOL_ESTIMATE] = {LEAF_OPEN, N_("Estimate bags"), "Q", 1, estimate},
    [TOOL_DRILL] = {LEAF_OPEN, N_("Drill"), "D", 0, drill},
    [TOOL_TUBE] = {LEAF_OPEN, N_("Tube"), "U", 0, tube},
    [TOOL_SEAL] = {LEAF_OPEN, N_("Seal"), "S", 0, seal},
    [TOOL_TEST] = {LEAF_FILL, N_("Test machine"), "Y", 1, test},
    [TOOL_FILL] = {LEAF_FILL, N_("Fill it"), "F", 0, wall_fill_by_hand},
    [TOOL_CREW] = {LEAF_FILL, N_("Crew goes on"), "C", 1, wall_crew_turn},
    [TOOL_WATCH] = {LEAF_FILL, N_("Watch one"), "W", 1, wall_crew_watch},
    [TOOL_PLUG] = {LEAF_CLOSE, N_("Plug holes"), "1", 1, plug},
    [TOOL_PATCH] = {LEAF_CLOSE, N_("Patch holes"), "2", 1, patch},
    [TOOL_CLEAN] = {LEAF_CLOSE, N_("Clean"), "3", 1, clean},
    [TOOL_FINGER] = {LEAF_PROVE, N_("Feel fill"), "4", 0, finger},
    [TOOL_CORE] = {LEAF_PROVE, N_("Core"), "5", 0, core},
    [TOOL_CAMERA_AFTER] = {LEAF_PROVE, N_("Camera after"), "6", 1, camera_after},
    [TOOL_LEAK_TEST] = {LEAF_PROVE, N_("Leak test"), "7", 1, leak_test},
    [TOOL_WRITE] = {LEAF_PROVE, N_("Write down"), "8", 1, write_down},
};

const WallToolRow *wall_tool(WallTool tool)
{
    return &rows[tool];
}

void wall_use(App *app)
{
    if (app->wall->phase == WALL_CLOSED) {
        rows[app->wall->tool].use(app);
    }
}
