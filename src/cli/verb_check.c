/*
 * check: is an exercise file well made? Refuses what the reader refuses, and for the rest says what
 * the bay needs and what a trainer may not have meant. Notes are advice, not refusals: a bad idea
 * can be the point of an exercise.
 */
#include "job_run.h"
#include "verbs.h"

#include "cli/data_files.h"
#include "cli/options.h"
#include "core/units.h"
#include "io/exercise_file.h"
#include "io/hands_file.h"
#include "io/house_file.h"
#include "io/machine_file.h"
#include "io/material_file.h"

#include <stdio.h>
#include <string.h>

static void note(int *count, const char *text)
{
    printf("  note: %s\n", text);
    (*count)++;
}

static double blocked_m2(const PbExercise *e)
{
    double sum = 0.0;
    for (int i = 0; i < e->obstacle_count; i++) {
        const PbObstacle *o = &e->obstacles[i];
        if (o->size_m == 0.0) {
            sum += (o->x1_m - o->x0_m) * (o->y1_m - o->y0_m) * o->depth_frac;
        }
    }
    return sum;
}

static int notes(const PbExercise *e)
{
    int count = 0;
    const PbMachine *m = &e->machine;
    const PbFinishTraits *finish = pb_finish_traits(e->finish);
    double up = e->height_m - e->holes[0].y_m;
    double reach = up > e->holes[0].y_m ? up : e->holes[0].y_m;
    if (m->static_pa < 80.0 * PB_PA_PER_IN_WC * 0.998) {
        note(&count, "the blower is under 80 in w.c. static, the least for dense pack "
                     "(Standard Work Specifications 4.1101.5)");
    }
    if (finish->is_weak) {
        note(&count, "this finish is weaker than the 1/2 in board that dense packing asks for");
    }
    if (finish->width_max_m > 0.0 && e->width_m > finish->width_max_m) {
        note(&count, "1/2 in board on studs 24 in apart: 5/8 in is the usual least");
    }
    if (m->tube_length_m < reach) {
        note(&count, "the tube is shorter than the longer part of the bay");
    }
    if (e->holes[0].bore_m < m->tube_outer_m * 1.15) {
        note(&count, "hardly any air gets out round the tube");
    }
    if (e->leak75_m3_s_m2 < 1.5e-3) {
        note(&count, "a bay this tight may overload its panel");
    }
    if (e->feed_kg_s == 0.0) {
        note(&count, "the feed gate starts shut");
    }
    if (e->tilt_deg == 90.0 && e->target_kg_m3 < 50.0) {
        note(&count, "fill in a wall under about 3 lb/ft3 can settle");
    }
    if (e->caution_count == 0) {
        note(&count, "no cautions are given");
    }
    return count;
}

static int check_one(const char *path)
{
    PbExercise e;
    PbError err = {0};
    if (io_is_job(path)) {
        return cli_job_check(path);
    }
    PbStatus status = io_exercise_load(path, &e, &err);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    double volume = (e.width_m * e.height_m - blocked_m2(&e)) * e.depth_m;
    double mass = volume * e.target_kg_m3;
    printf("%s: ok\n", path);
    printf("  %s: %s\n", e.id, e.title);
    printf("  bay %.3f x %.3f x %.3f m (%.1f x %.1f x %.1f in), about %.4f m3 to fill\n", e.width_m,
           e.height_m, e.depth_m, e.width_m / PB_M_PER_IN, e.height_m / PB_M_PER_IN,
           e.depth_m / PB_M_PER_IN, volume);
    printf("  %.1f kg/m3 (%.2f lb/ft3) takes %.2f kg (%.1f lb), %.2f bags\n", e.target_kg_m3,
           e.target_kg_m3 / PB_KG_M3_PER_LB_FT3, mass, mass / PB_KG_PER_LB, mass / e.bag_kg);
    printf("  %d obstacles, %d openings, %d notes\n", e.obstacle_count, e.opening_count, notes(&e));
    return CLI_DONE;
}

static int check_hands(const char *path)
{
    PbHands hands;
    PbError err = {0};
    PbStatus status = io_hands_load(path, &hands, &err);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    printf("%s: ok\n  hands: %s, %d commands in key frames\n", path, hands.name, hands.frame_count);
    return CLI_DONE;
}

static int check_house(const char *path)
{
    const char *folders[CLI_DATA_FOLDERS];
    int count = cli_data_folders(folders);
    PbHouse h;
    PbError err = {0};
    PbStatus status = io_house_load(path, folders, count, &h, &err);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    printf("%s: ok\n  house: %s, %.0f m2 of wall, %s, bay %s\n", path, h.customer, h.wall_area_m2,
           h.climate.title, h.bay.id);
    return CLI_DONE;
}

static int check_machine(const char *path)
{
    PbRig rig;
    PbError err = {0};
    PbStatus status = io_machine_load(path, &rig, &err);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    const PbMachine *m = &rig.machine;
    printf("%s: ok\n  machine %s: %s\n", path, rig.id, rig.title);
    printf("  curve %.0f Pa (%.1f in w.c.) shut, %.4f m3/s (%.0f cfm) open, exponent %.2f\n",
           m->static_pa, m->static_pa / PB_PA_PER_IN_WC, m->open_flow_m3_s,
           m->open_flow_m3_s / PB_M3_S_PER_CFM, m->curve_exponent);
    printf("  gate %.4f kg/s (%.1f lb/min) open, %.4f kg/s at the start\n", m->feed_max_kg_s,
           60.0 * m->feed_max_kg_s / PB_KG_PER_LB, rig.feed_kg_s);
    if (m->static_pa < 80.0 * PB_PA_PER_IN_WC * 0.998) {
        printf("  note: under 80 in w.c. static, the least for dense pack (Standard Work "
               "Specifications 4.1101.5)\n");
    }
    return CLI_DONE;
}

static int check_material(const char *path)
{
    PbProduct p;
    PbError err = {0};
    PbStatus status = io_material_load(path, &p, &err);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    printf("%s: ok\n  material %s: %s\n  bags of %.2f kg (%.1f lb)%s, %d constants of its own, ",
           path, p.id, p.title, p.bag_kg, p.bag_kg / PB_KG_PER_LB,
           p.damp_frac > 0.0 ? ", damp" : "", p.own_count);
    printf(p.draw_count > 0 ? "fitted: %d draws\n" : "not fitted\n", p.draw_count);
    return CLI_DONE;
}

typedef struct Checked {
    int files, worst;
} Checked;

static int take_file(Checked *c, int code)
{
    c->files++;
    c->worst = code > c->worst ? code : c->worst;
    return CLI_DONE;
}

static int take_hands(const CliOption *row, const char *text, void *member)
{
    (void)row;
    return take_file(member, check_hands(text));
}

static int take_house(const CliOption *row, const char *text, void *member)
{
    (void)row;
    return take_file(member, check_house(text));
}

static int take_machine(const CliOption *row, const char *text, void *member)
{
    (void)row;
    return take_file(member, check_machine(text));
}

static int take_material(const CliOption *row, const char *text, void *member)
{
    (void)row;
    return take_file(member, check_material(text));
}

static int take_acts(const CliOption *row, const char *text, void *member)
{
    (void)row;
    return take_file(member, cli_acts_check(text));
}

const CliOption check_options[] = {
    {"--hands", "FILE", "a hands file to check too", take_hands, .at = 0},
    {"--house", "FILE", "a house file to check too", take_house, .at = 0},
    {"--machine", "FILE", "a machine file to check too", take_machine, .at = 0},
    {"--material", "FILE", "a material file to check too", take_material, .at = 0},
    {"--acts", "FILE", "acts of a crew to check too", take_acts, .at = 0},
    {.name = NULL},
};

int verb_check(const CliVerb *verb, int argc, char **argv)
{
    Checked c = {0, CLI_DONE};
    CliParsed parsed;
    int code = cli_parse(verb, argc, argv, &c, argc, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    for (int i = 1; i <= parsed.count; i++) {
        (void)take_file(&c, check_one(argv[i]));
    }
    return c.files == 0 ? cli_expected(verb) : c.worst;
}
