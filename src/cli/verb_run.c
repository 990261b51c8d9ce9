/*
 * run: pack one bay with scripted hands and print the result. All input is read and judged before
 * the run starts, and outputs appear only when it has ended well. Next: run_session.c.
 */
#include "outputs.h"
#include "range_run.h"
#include "verbs.h"

#include "cli/front.h"
#include "cli/run_session.h"
#include "core/units.h"
#include "io/act_words.h"
#include "io/clock.h"
#include "io/constants_file.h"
#include "io/doc.h"
#include "io/exercise_file.h"
#include "io/field_file.h"
#include "io/hands_file.h"
#include "io/machine_file.h"
#include "io/material_file.h"
#include "io/output_file.h"
#include "io/range_words.h"
#include "io/result_file.h"
#include "words/words.h"

#include <errno.h>
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

typedef struct RunOptions {
    const char *exercise, *hands, *density, *signals, *constants, *record, *machine, *material;
    double pace;
    uint64_t seed;
    int cells_across;
    int is_json, is_range;
} RunOptions;

/* What a run is made of. */
typedef struct Inputs {
    PbSessionConfig config;
    PbHands hands;
    PbProduct product;
    PbClimate climate; /* for the marks of a range */
    int has_climate;
} Inputs;

static int take_grid(const CliOption *row, const char *text, void *member)
{
    int *cells = member;
    (void)row;
    *cells = strcmp(text, "fine") == 0 ? PB_GRID_FINE : PB_GRID_DEFAULT;
    return *cells == PB_GRID_FINE || strcmp(text, "default") == 0 ? CLI_DONE : CLI_NOT_TAKEN;
}

#define AT(member) .at = offsetof(RunOptions, member)
const CliOption run_options[] = {
    {"--hands", "FILE", "scripted hands: key frames or a rule", cli_take_text, AT(hands)},
    {"--seed", "N", "chances of this run, default 1", cli_take_seed, AT(seed),
     .expected = "a whole number from 0"},
    {"--grid", "default|fine", "16 or 24 cells across the bay", take_grid, AT(cells_across),
     .expected = "default or fine"},
    {"--json", NULL, "the whole result, for programs", cli_take_flag, AT(is_json)},
    {"--density", "OUT.csv", "density of the bay at the end", cli_take_text, AT(density)},
    {"--signals", "OUT.csv", "what a crew can read, ten times a second", cli_take_text,
     AT(signals)},
    {"--record", "OUT.pbrun", "keep the run, for replay and grade", cli_take_text, AT(record)},
    {"--pace", "TIMES", "no faster than this many times real time", cli_take_number, AT(pace),
     "0.01 to 1000 times real time", 0.01, 1000.0},
    {"--machine", "NAME", "another machine, by name or file", cli_take_text, AT(machine)},
    {"--material", "NAME", "another material, by name or file", cli_take_text, AT(material)},
    {"--constants", "FILE", "other numbers of the model", cli_take_text, AT(constants)},
    {"--range", NULL, "how sure the answer is: 40 draws of what is not well known", cli_take_flag,
     AT(is_range)},
    {.name = NULL},
};

static int parse(const CliVerb *verb, int argc, char **argv, RunOptions *o)
{
    CliParsed parsed;
    *o = (RunOptions){.seed = 1, .cells_across = PB_GRID_DEFAULT};
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    if (code == CLI_DONE && (parsed.count == 0 || o->hands == NULL)) {
        return cli_expected(verb);
    }
    o->exercise = argv[1];
    return code;
}

static int check_paths(const RunOptions *o)
{
    const char *const in[] = {o->exercise, o->hands, o->constants, o->machine, o->material};
    const IoPlace out[] = {{o->density, IO_FIELD_BEGINS, 0},
                           {o->signals, IO_SIGNALS_FORMAT, 0},
                           {o->record, IO_BEGINS_NEW, 0}};
    return cli_check_outputs(out, 3, in, 5);
}

/* The machine and the material of the command line stand in for those of the exercise. */
static PbStatus read_named(const RunOptions *o, PbSessionConfig *config, PbProduct *product,
                           PbError *err)
{
    PbExercise *e = &config->exercise;
    char field[96];
    PbRig rig;
    if (o->machine != NULL) {
        PB_TRY(io_machine_find(o->machine, NULL, &rig, err));
        e->machine = rig.machine;
        e->feed_kg_s = rig.feed_kg_s;
    }
    if (o->material != NULL) {
        PB_TRY(io_material_find(o->material, NULL, product, err));
        e->bag_kg = product->bag_kg;
        e->damp_frac = product->damp_frac;
    } else if (e->material[0] != '\0') {
        PB_TRY(io_material_load(e->material, product, err));
    }
    config->constants = product->constants;
    return pb_exercise_check(e, field, sizeof field, err);
}

static PbStatus read_inputs(const RunOptions *o, Inputs *in, PbError *err)
{
    PbSessionConfig *config = &in->config;
    in->product = pb_product_default();
    PB_TRY(io_exercise_load(o->exercise, &config->exercise, err));
    PB_TRY(read_named(o, config, &in->product, err));
    PB_TRY(io_hands_load_for(o->hands, &config->exercise, &in->hands, err));
    if (o->constants != NULL) {
        PB_TRY(io_constants_load(o->constants, &config->constants, err));
    }
    config->seed = o->seed;
    config->cells_across = o->cells_across;
    return PB_OK;
}

/* The same hands in a draw: a rule waits for the stalls of the draw, key frames keep their times.
 */
static PbStatus work_draw(void *context, int index, PbRangeDraw *draw, PbError *err)
{
    const Inputs *in = context;
    PbSessionConfig config = in->config;
    CliRunExtras extras = {0};
    CliRun run;
    config.constants = pb_range_drawn(&in->product, &in->config.constants, CLI_RANGE_SEED, index);
    PB_TRY(cli_run(&config, &in->hands, &extras, &run, err));
    run.watched.has_climate = in->has_climate;
    run.watched.climate = in->climate;
    PbStatus status = pb_watched_mark(&run.watched);
    if (status == PB_OK) {
        *draw = pb_range_of(&run.watched.score);
    }
    pb_watched_end(&run.watched);
    return status == PB_OK ? PB_OK : pb_fail(err, status, "draw %d cannot be worked", index);
}

/* Outputs of one run; both are complete before the first is put in its place. */
typedef struct RunOutputs {
    IoOutput density, signals;
} RunOutputs;

static PbStatus open_outputs(const RunOptions *o, RunOutputs *out, PbError *err)
{
    memset(out, 0, sizeof *out);
    if (o->density != NULL) {
        PB_TRY(io_output_open(o->density, IO_FIELD_BEGINS, &out->density, err));
    }
    if (o->signals != NULL) {
        PB_TRY(io_output_open(o->signals, IO_SIGNALS_FORMAT, &out->signals, err));
        io_signals_header(out->signals.file);
    }
    return PB_OK;
}

static PbStatus write_density(const PbSession *session, IoOutput *out, PbError *err)
{
    PbBayField field;
    PbStatus status = pb_session_field(session, &field);
    if (status != PB_OK) {
        return pb_fail(err, status, "the density cannot be copied out");
    }
    io_field_csv_print(out->file, &field);
    pb_bay_field_destroy(&field);
    return io_output_flush(out, err);
}

static PbStatus finish_outputs(const RunOptions *o, const PbSession *session, RunOutputs *out,
                               PbError *err)
{
    if (o->density != NULL) {
        PB_TRY(write_density(session, &out->density, err));
    }
    if (o->signals != NULL) {
        PB_TRY(io_output_flush(&out->signals, err));
    }
    if (o->density != NULL) {
        PB_TRY(io_output_commit(&out->density, err));
    }
    return o->signals != NULL ? io_output_commit(&out->signals, err) : PB_OK;
}

static void gather(const RunOptions *o, const PbSessionConfig *config, const PbHands *hands,
                   const CliRun *run, IoRunResult *result)
{
    const PbView *view = pb_session_view(run->watched.session);
    memset(result, 0, sizeof *result);
    result->exercise = &config->exercise;
    result->hands_name = hands->name;
    result->constants = o->constants;
    result->seed = config->seed;
    result->cells_across = config->cells_across;
    result->result = run->watched.result;
    result->lifts = view->lifts;
    result->lift_count = view->lift_count;
    result->events = run->watched.watch.events;
    result->event_count = run->watched.watch.event_count;
    result->realtime_factor = run->wall_s > 0.0 ? result->result.duration_s / run->wall_s : 0.0;
    if (pb_session_leak_test(run->watched.session, 75.0, &result->leak75_empty_m3_s_m2,
                             &result->leak75_packed_m3_s_m2) != PB_OK) {
        result->leak75_empty_m3_s_m2 = -1.0;
    }
}

static void print_lifts(const IoRunResult *run)
{
    printf("\n  stop  mouth up the bay       from      stall     to         packed      density\n");
    for (int i = 0; i < run->lift_count; i++) {
        const PbLift *l = &run->lifts[i];
        char stall[24] = "     -";
        if (l->stall_s >= 0.0) {
            snprintf(stall, sizeof stall, "%6.1f", l->stall_s);
        }
        printf("  %3d   %s %5.2f m (%5.1f in)  %6.1f s  %s s  %6.1f s  %6.3f kg  %5.1f kg/m3\n",
               i + 1, l->direction > 0 ? "up  " : "down", l->mouth_y_m, l->mouth_y_m / PB_M_PER_IN,
               l->from_s, stall, l->to_s, l->mass_kg, l->density_kg_m3);
    }
}

static void print_density(const IoRunResult *run)
{
    const PbResult *r = &run->result;
    const double lb = PB_KG_M3_PER_LB_FT3;
    double target = run->exercise->target_kg_m3;
    double ft3 = PB_M_PER_FT * PB_M_PER_FT * PB_M_PER_FT;
    printf("packed     %.2f kg in %.4f m3 (%.2f lb in %.2f ft3)\n", r->mass_in_bay_kg,
           r->fillable_volume_m3, r->mass_in_bay_kg / PB_KG_PER_LB, r->fillable_volume_m3 / ft3);
    printf("mean       %.1f kg/m3 (%.2f lb/ft3), target %.1f (%.2f)\n", r->mean_kg_m3,
           r->mean_kg_m3 / lb, target, target / lb);
    printf("softest    twentieth %.1f, least %.1f kg/m3 (%.2f, %.2f lb/ft3)\n", r->p5_patch_kg_m3,
           r->min_patch_kg_m3, r->p5_patch_kg_m3 / lb, r->min_patch_kg_m3 / lb);
    printf("shares     %.1f %% at target, %.1f %% under 56 kg/m3 (3.5 lb/ft3), %.1f %% under 48 "
           "(3.0); empty %.4f m2\n",
           100.0 * r->share_at_target, 100.0 * r->share_below_56_kg_m3,
           100.0 * r->share_below_48_kg_m3, r->void_area_m2);
}

/* What was done besides packing, on one line; nothing when nothing was. */
static void print_acts(const IoRunResult *run)
{
    const PbActs *a = &run->result.acts;
    int sealed = 0;
    for (int o = 0; o < run->exercise->opening_count; o++) {
        sealed += a->is_sealed[o] != 0;
    }
    if (a->minutes <= 0.0 && a->hole == 0) {
        return;
    }
    printf("acts       tube in hole %d, %d openings sealed", a->hole + 1, sealed);
    if (a->tested_pa > 0.0) {
        printf(", static test %.0f Pa (%.0f in w.c.)", a->tested_pa,
               a->tested_pa / PB_PA_PER_IN_WC);
    }
    if (a->left != PB_LEAVE_NONE) {
        printf(", left: %s", io_leave_words(a->left, WORDS_ENGLISH));
    }
    printf("; %.0f min on a job\n", a->minutes);
}

static void print_rest(const IoRunResult *run)
{
    const PbResult *r = &run->result;
    const PbExercise *e = run->exercise;
    printf("panel      %.0f Pa at most (%.1f in w.c.), at most %.2f of its strength%s\n",
           r->peak_panel_pa, r->peak_panel_pa / PB_PA_PER_IN_WC, r->peak_panel_over_strength,
           r->blow_out ? "; BLOWN OUT" : "");
    printf("hose       %d stalls, %d plugs\n", r->stall_count, r->plugs);
    printf("bags       %.2f used; the target needs %.2f (bags of %.2f kg, %.1f lb)\n", r->bags,
           e->target_kg_m3 * r->fillable_volume_m3 / e->bag_kg, e->bag_kg,
           e->bag_kg / PB_KG_PER_LB);
    if (run->leak75_empty_m3_s_m2 >= 0.0) {
        printf("leakage    %.2f l/s per m2 at 75 Pa empty, %.2f packed (%.2f, %.2f cfm/ft2)\n",
               1e3 * run->leak75_empty_m3_s_m2, 1e3 * run->leak75_packed_m3_s_m2,
               run->leak75_empty_m3_s_m2 / PB_M3_S_PER_CFM * PB_M_PER_FT * PB_M_PER_FT,
               run->leak75_packed_m3_s_m2 / PB_M3_S_PER_CFM * PB_M_PER_FT * PB_M_PER_FT);
    }
    printf("ledger     fed %.4f kg, lost %.4f kg, balance %.1e\n", r->mass_fed_kg, r->mass_lost_kg,
           r->mass_balance_rel);
    print_acts(run);
    printf("time       %.1f s, %.0f times real time; state 0x%016" PRIx64 "\n", r->duration_s,
           run->realtime_factor, r->state_hash);
}

static void print_text(const IoRunResult *run)
{
    printf("exercise   %s: %s\n", run->exercise->id, run->exercise->title);
    printf("hands      %s; seed %" PRIu64 ", %d cells across\n", run->hands_name, run->seed,
           run->cells_across);
    print_density(run);
    print_rest(run);
    print_lifts(run);
    printf(
        "\nA model for training: densities of a real wall are proven by weighing and sampling.\n");
}

/* range: NULL = not asked for */
static PbStatus print_json(const IoRunResult *run, const PbMarkRange *range, PbError *err)
{
    (void)io_json_short();
    json_t *json = io_result_to_json(run);
    if (json == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    int failed =
        range != NULL && json_object_set_new(json, "range",
                                             io_range_to_json(range, CLI_RANGE_SEED,
                                                              io_taste_here(WORDS_ENGLISH))) != 0;
    failed |= json_dumpf(json, stdout, JSON_COMPACT | JSON_REAL_PRECISION(15)) != 0;
    json_decref(json);
    putchar('\n');
    if (io_json_short()) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory: the result is not whole");
    }
    if (failed || fflush(stdout) != 0) {
        return pb_fail(err, PB_ERR_IO, "cannot write the result: %s", strerror(errno));
    }
    return PB_OK;
}

/* The recording's end and grade; a disk that refused it does not take the result away. */
static PbStatus end_recording(const RunOptions *o, const PbSessionConfig *config, PbWatched *run,
                              IoRecorder *recorder, PbError *err)
{
    PbError ignored;
    if (o->record == NULL) {
        return PB_OK;
    }
    run->has_climate = cli_climate_of(&config->exercise, &run->climate, &ignored) == PB_OK;
    PbStatus graded = pb_watched_mark(run);
    io_recorder_ended(recorder, io_now());
    PbStatus status = io_recorder_finish(recorder, run->session,
                                         graded == PB_OK ? &run->score : NULL, &run->rubric, err);
    if (status == PB_ERR_IO) { /* in memory it is kept only while the program goes on */
        return pb_fail(err, status,
                       "cannot write: %s; the file holds the run as far as the disk took it",
                       strerror(io_recorder_trouble(recorder)));
    }
    return status;
}

static PbStatus print_result(const RunOptions *o, Inputs *in, const CliRun *run, PbError *err)
{
    IoRunResult result;
    PbMarkRange range = {0};
    PbError ignored;
    gather(o, &in->config, &in->hands, run, &result);
    if (o->is_range) {
        in->has_climate = cli_climate_of(&in->config.exercise, &in->climate, &ignored) == PB_OK;
        PB_TRY(cli_range(work_draw, in, &range, err));
    }
    if (o->is_json) {
        return print_json(&result, o->is_range ? &range : NULL, err);
    }
    print_text(&result);
    if (o->is_range) {
        cli_range_print(&range, io_taste_here(WORDS_ENGLISH));
    }
    return PB_OK;
}

static PbStatus run_and_print(const RunOptions *o, Inputs *in, PbError *err)
{
    const PbSessionConfig *config = &in->config;
    const PbHands *hands = &in->hands;
    RunOutputs out;
    CliRun run = {0};
    IoRecorder *recorder = NULL;
    PbStatus status = open_outputs(o, &out, err);
    if (status == PB_OK && o->record != NULL) {
        status = io_recorder_open(o->record, config, hands->name, io_now(), &recorder, err);
    }
    if (status == PB_OK) {
        CliRunExtras extras = {.signals = out.signals.file, .recorder = recorder, .pace = o->pace};
        status = cli_run(config, hands, &extras, &run, err);
    }
    if (status == PB_OK) {
        status = finish_outputs(o, run.watched.session, &out, err);
    }
    if (status == PB_OK) {
        PbStatus recorded = end_recording(o, config, &run.watched, recorder, err);
        PbError kept = *err;
        status = print_result(o, in, &run, err);
        if (status == PB_OK && recorded != PB_OK) {
            *err = kept;
            status = recorded;
        }
    }
    io_recorder_close(recorder);
    io_output_abandon(&out.density);
    io_output_abandon(&out.signals);
    pb_watched_end(&run.watched);
    return status;
}

int verb_run(const CliVerb *verb, int argc, char **argv)
{
    RunOptions o;
    Inputs in = {.config = pb_session_default()};
    PbError err = {0};
    int code = parse(verb, argc, argv, &o);
    if (code == CLI_DONE) {
        code = check_paths(&o);
    }
    if (code != CLI_DONE) {
        return code;
    }
    PbStatus status = read_inputs(&o, &in, &err);
    if (status == PB_OK) {
        status = run_and_print(&o, &in, &err);
    }
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    return CLI_DONE;
}
