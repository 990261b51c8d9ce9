/* Results: every documented key is there, every key there is documented, and signals keep step. */
#include "io/result_file.h"

#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static IoRunResult sample(const PbExercise *e, const PbLift *lifts, const PbEvent *events)
{
    IoRunResult r;
    memset(&r, 0, sizeof r);
    r.exercise = e;
    r.hands_name = "by hand";
    r.seed = 18446744073709551615ull;
    r.cells_across = 16;
    r.result.mean_kg_m3 = 56.25;
    r.result.p5_patch_kg_m3 = (double)NAN;
    r.result.blow_out = 1;
    r.result.phase = PB_PHASE_BLOWN_OUT;
    r.result.state_hash = 0xabcull;
    r.lifts = lifts;
    r.lift_count = 2;
    r.events = events;
    r.event_count = 2;
    r.leak75_empty_m3_s_m2 = 0.01;
    r.leak75_packed_m3_s_m2 = 0.001;
    return r;
}

static const PbLift two_lifts[2] = {{0, 9, 2.1, 0, 8, 1.5, 50, 1, 0},
                                    {9, 19, 0.2, 0.3, -1, 0.2, 55, -1, 0}};
/* What is no stall is not listed. */
static const PbEvent one_stall[2] = {{PB_EVENT_CREAK, 100, 0.1, 1.0, 0.6},
                                     {PB_EVENT_STALL, 200, 0.1, 2.1, 0.018}};

START_TEST(writes_every_key_of_the_documentation)
{
    static const char *const keys[] = {
        "format",
        "run",
        "mass_in_bay_kg",
        "mass_fed_kg",
        "mass_lost_kg",
        "mass_balance_rel",
        "mean_kg_m3",
        "fillable_volume_m3",
        "p5_patch_kg_m3",
        "min_patch_kg_m3",
        "share_at_target",
        "share_below_48_kg_m3",
        "void_area_m2",
        "share_below_56_kg_m3",
        "peak_panel_pa",
        "peak_panel_over_strength",
        "blow_out",
        "plugs",
        "stalls",
        "lifts",
        "duration_s",
        "bags",
        "realtime_factor",
        "state_hash",
        "ledger",
        "leak_test",
        "acts",
    };
    const int count = (int)(sizeof keys / sizeof keys[0]);
    PbExercise e = pb_exercise_default();
    IoRunResult run = sample(&e, two_lifts, one_stall);
    json_t *json = io_result_to_json(&run);
    char *doc;
    size_t size;
    PbError err;
    ck_assert_ptr_nonnull(json);
    ck_assert_int_eq(
        io_read_file(PB_TEST_SOURCE_DIR "/docs/formats/result.md", 1u << 20, &doc, &size, &err),
        PB_OK);
    for (int i = 0; i < count; i++) {
        char row[64];
        ck_assert_msg(json_object_get(json, keys[i]) != NULL, "%s is missing", keys[i]);
        snprintf(row, sizeof row, "\n| `%s` |", keys[i]);
        ck_assert_msg(strstr(doc, row) != NULL, "%s is not documented", keys[i]);
    }
    ck_assert_uint_eq(json_object_size(json), (size_t)count);
    const json_t *stalls = json_object_get(json, "stalls");
    ck_assert_uint_eq(json_array_size(stalls), 1);
    ck_assert_double_eq(json_number_value(json_object_get(json_array_get(stalls, 0), "time_s")),
                        8.0);
    free(doc);
    json_decref(json);
}
END_TEST

START_TEST(closes_the_ledger)
{
    PbExercise e = pb_exercise_default();
    IoRunResult run = sample(&e, two_lifts, one_stall);
    /* a distinct power of two in each place: the sum tells which are written */
    PbLedger *l = &run.result.ledger;
    double *parts[] = {&l->in_bay_kg,       &l->in_hose_kg,    &l->airborne_kg,
                       &l->lost_hole_kg,    &l->lost_leaks_kg, &l->lost_openings_kg,
                       &l->lost_outside_kg, &l->cleared_kg,    &l->fallen_kg};
    const int count = (int)(sizeof parts / sizeof parts[0]);
    ck_assert_uint_eq(sizeof *l, sizeof(double) * (size_t)(count + 1));
    for (int i = 0; i < count; i++) {
        *parts[i] = (double)(1 << i);
        l->fed_kg += (double)(1 << i);
    }
    json_t *json = io_result_to_json(&run), *ledger = json_object_get(json, "ledger"), *v;
    const char *key;
    double sum = 0.0;
    json_object_foreach(ledger, key, v)
    {
        sum += json_real_value(v);
    }
    ck_assert_double_eq(sum, 2.0 * l->fed_kg);
    json_decref(json);
}
END_TEST

START_TEST(keeps_what_json_cannot_say)
{
    PbExercise e = pb_exercise_default();
    IoRunResult run = sample(&e, two_lifts, one_stall);
    json_t *json = io_result_to_json(&run);
    json_t *lifts = json_object_get(json, "lifts");
    ck_assert(json_is_null(json_object_get(json, "p5_patch_kg_m3")));
    ck_assert(json_is_true(json_object_get(json, "blow_out")));
    ck_assert_str_eq(json_string_value(json_object_get(json, "state_hash")), "0x0000000000000abc");
    ck_assert_str_eq(json_string_value(json_object_get(json_object_get(json, "run"), "seed")),
                     "18446744073709551615");
    ck_assert_str_eq(json_string_value(json_object_get(json_object_get(json, "run"), "phase")),
                     "blown-out");
    ck_assert_uint_eq(json_array_size(lifts), 2);
    ck_assert(json_is_null(json_object_get(json_array_get(lifts, 1), "stall_s")));
    ck_assert_str_eq(json_string_value(json_object_get(json_array_get(lifts, 1), "direction")),
                     "down");
    run.leak75_empty_m3_s_m2 = -1.0;
    json_t *without = io_result_to_json(&run);
    ck_assert(json_is_null(json_object_get(without, "leak_test")));
    json_decref(without);
    json_decref(json);
}
END_TEST

static int commas(const char *line)
{
    int n = 0;
    for (; *line != '\0'; line++) {
        n += *line == ',';
    }
    return n;
}

START_TEST(writes_as_many_signals_as_names)
{
    char *text = NULL, *line;
    size_t size;
    static PbView view;
    FILE *f = open_memstream(&text, &size);
    ck_assert_ptr_nonnull(f);
    view.time_s = 1.24;
    view.signals.flow_m3_s = 0.0183;
    view.ledger.in_bay_kg = 4.5;
    io_signals_header(f);
    io_signals_row(f, &view);
    fclose(f);
    line = strtok(text, "\n");
    ck_assert_str_eq(line, IO_SIGNALS_FORMAT);
    int names = commas(line = strtok(NULL, "\n"));
    ck_assert_int_eq(strncmp(line, "time_s,machine_on,", 18), 0);
    line = strtok(NULL, "\n");
    ck_assert_int_eq(commas(line), names);
    ck_assert_int_eq(strncmp(line, "1.24,0,", 7), 0);
    ck_assert_ptr_nonnull(strstr(line, ",0.0183,"));
    ck_assert_str_eq(strrchr(line, ','), ",4.5");
    free(text);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("result_file");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, writes_every_key_of_the_documentation);
    tcase_add_test(tc, closes_the_ledger);
    tcase_add_test(tc, keeps_what_json_cannot_say);
    tcase_add_test(tc, writes_as_many_signals_as_names);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
