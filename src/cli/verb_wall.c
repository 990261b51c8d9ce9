/*
 * wall: the bays of a framed wall. Nobody lists them: they are what its members leave, so the piece
 * over a window and the end behind a block are found too. Gives areas, what fill and bags it takes,
 * and any bay as an exercise of its own.
 */
#include "outputs.h"
#include "verbs.h"

#include "cli/data_files.h"
#include "core/bays.h"
#include "core/units.h"
#include "io/eras_file.h"
#include "io/exercise_file.h"
#include "io/framing_file.h"
#include "io/output_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct WallOptions {
    const char *wall, *exercise, *out;
    int bay, is_json, era, seed;
} WallOptions;

#define AT(member) .at = offsetof(WallOptions, member)
const CliOption wall_options[] = {
    {"--era", "YEAR", "draw a wall of about 1900, 1925, 1955 or 1978", cli_take_whole, AT(era),
     NULL, 1900, 1978},
    {"--seed", "N", "which one; the same seed draws the same wall", cli_take_whole, AT(seed), NULL,
     0, 2147483647},
    {"-o", "WALL.json", "write the drawn wall", cli_take_text, AT(out)},
    {"--bay", "N", "only this bay, counted from the left", cli_take_whole, AT(bay), NULL, 1, 9999},
    {"--exercise", "OUT.json", "write the bay of --bay as an exercise", cli_take_text,
     AT(exercise)},
    {"--json", NULL, "for programs", cli_take_flag, AT(is_json)},
    {.name = NULL},
};

static void print_bay(const PbFramedBay *b, int number, const PbExercise *like)
{
    const PbRect *r = &b->around;
    double kg = b->fill_m3 * like->target_kg_m3;
    printf("bay %-3d x %.3f to %.3f m, y %.3f to %.3f m, %.3f m2", number, r->x0_m, r->x1_m,
           r->y0_m, r->y1_m, b->area_m2);
    if (b->why != NULL) {
        printf(", leave it: %s\n", b->why);
        return;
    }
    printf(", %.2f kg (%.1f lb), between %s and %s%s%s%s\n", kg, kg / PB_KG_PER_LB, b->below,
           b->above, b->is_rectangle ? "" : ", not a rectangle",
           b->is_narrow ? ", narrower than the hole" : "",
           b->is_parted ? ", parted by a brace: a hole on each side" : "");
}

static void print_wall(const PbFraming *f, const PbBays *bays, int only)
{
    int count;
    const PbFramedBay *list = pb_bays_list(bays, &count);
    PbWallAreas a = pb_bays_areas(bays);
    for (int n = 0; n < count; n++) {
        if (only == 0 || only == n + 1) {
            print_bay(&list[n], n + 1, &f->like);
        }
    }
    if (only == 0) {
        printf("%s: %.2f x %.2f m, %.2f m2: lumber %.2f, windows and doors %.2f, %d bays %.2f\n",
               f->title, f->length_m, f->height_m, a.wall_m2, a.members_m2, a.cutouts_m2, count,
               a.bays_m2);
        printf("to fill: %.4f m3, at %.1f kg/m3 (%.2f lb/ft3) %.1f kg (%.1f lb), %.1f bags\n",
               a.fill_m3, f->like.target_kg_m3, f->like.target_kg_m3 / PB_KG_M3_PER_LB_FT3,
               a.fill_kg, a.fill_kg / PB_KG_PER_LB, a.fill_bags);
    }
}

static json_t *bay_json(const PbFramedBay *b, int number)
{
    return json_pack("{si sf sf sf sf sf sf sb sb sb ss ss ss?}", "bay", number, "x0_m",
                     b->around.x0_m, "y0_m", b->around.y0_m, "x1_m", b->around.x1_m, "y1_m",
                     b->around.y1_m, "area_m2", b->area_m2, "fill_m3", b->fill_m3, "is_rectangle",
                     b->is_rectangle, "is_narrow", b->is_narrow, "is_parted", b->is_parted, "below",
                     b->below, "above", b->above, "leave", b->why);
}

static PbStatus print_json(const PbFraming *f, const PbBays *bays, int only)
{
    int count;
    const PbFramedBay *list = pb_bays_list(bays, &count);
    PbWallAreas a = pb_bays_areas(bays);
    json_t *items = json_array();
    int failed = items == NULL;
    for (int n = 0; n < count && !failed; n++) {
        if (only == 0 || only == n + 1) {
            failed = json_array_append_new(items, bay_json(&list[n], n + 1)) != 0;
        }
    }
    json_t *json = json_pack("{ss ss sf sf sf sf sf sf sf so}", "format", "pullback bays 1", "id",
                             f->id, "wall_m2", a.wall_m2, "members_m2", a.members_m2, "cutouts_m2",
                             a.cutouts_m2, "bays_m2", a.bays_m2, "fill_m3", a.fill_m3, "fill_kg",
                             a.fill_kg, "fill_bags", a.fill_bags, "bays", items);
    PbStatus status = failed || json == NULL ? PB_ERR_MEMORY : PB_OK;
    if (status == PB_OK && (json_dumpf(json, stdout, JSON_COMPACT | JSON_REAL_PRECISION(15)) != 0 ||
                            putchar('\n') == EOF)) {
        status = PB_ERR_IO;
    }
    json_decref(json);
    return status;
}

/* Takes the json. */
static PbStatus write_json(json_t *json, const char *path, PbError *err)
{
    IoOutput out;
    if (json == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PbStatus status = io_output_open(path, IO_BEGINS_NEW, &out, err);
    if (status == PB_OK) {
        (void)json_dumpf(json, out.file, JSON_INDENT(2) | JSON_REAL_PRECISION(15));
        (void)fputc('\n', out.file);
        status = io_output_commit(&out, err);
    }
    json_decref(json);
    return status;
}

static PbStatus write_files(const PbFraming *f, const PbBays *bays, const WallOptions *o,
                            PbError *err)
{
    PbExercise e;
    if (o->exercise != NULL) {
        PB_TRY(pb_bays_exercise(bays, o->bay - 1, &e, err));
        PB_TRY(write_json(io_exercise_to_json(&e), o->exercise, err));
    }
    return o->out != NULL ? write_json(io_framing_to_json(f), o->out, err) : PB_OK;
}

static int is_era(int year)
{
    int is = 0;
    for (int n = 0; n < PB_ERAS; n++) {
        is |= pb_era_years[n] == year;
    }
    return is;
}

/* The wall of a file, or one drawn by era and seed. */
static PbStatus get_wall(const WallOptions *o, PbFraming *f, PbError *err)
{
    const char *folders[CLI_DATA_FOLDERS];
    PbEra eras[PB_ERAS];
    int count = cli_data_folders(folders);
    if (o->era == 0) {
        return io_framing_load(o->wall, folders, count, f, err);
    }
    PB_TRY(io_eras_find(folders, count, eras, err));
    for (int n = 0; n < PB_ERAS; n++) {
        if (pb_era_years[n] == o->era) {
            pb_generate_wall(&eras[n], o->era, (uint64_t)o->seed, f);
        }
    }
    return PB_OK;
}

static int parse(const CliVerb *verb, int argc, char **argv, WallOptions *o)
{
    CliParsed parsed;
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    if (code != CLI_DONE || (parsed.count == 0) == (o->era == 0)) {
        return code != CLI_DONE ? code : cli_expected(verb);
    }
    if (o->era != 0 && !is_era(o->era)) {
        return cli_usage(verb->name, "--era %d: expected 1900, 1925, 1955 or 1978", o->era);
    }
    if (o->era == 0 && (o->seed != 0 || o->out != NULL)) {
        return cli_usage(verb->name, "%s goes with --era: it draws a wall",
                         o->out != NULL ? "-o" : "--seed");
    }
    if (o->exercise != NULL && o->bay == 0) {
        return cli_usage(verb->name, "--exercise needs --bay N: which bay it is");
    }
    o->wall = argv[1];
    const char *const in[] = {o->wall};
    const IoPlace out[] = {{o->exercise, IO_BEGINS_NEW, 0}, {o->out, IO_BEGINS_NEW, 0}};
    return cli_check_outputs(out, 2, in, o->era == 0);
}

static int answer(const PbFraming *f, const PbBays *bays, const WallOptions *o)
{
    PbError err = {0};
    int count;
    (void)pb_bays_list(bays, &count);
    if (o->bay > count) {
        return cli_usage("wall", "--bay %d: the wall has %d bays", o->bay, count);
    }
    PbStatus status = write_files(f, bays, o, &err);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    if (o->is_json) {
        return cli_printed(print_json(f, bays, o->bay));
    }
    print_wall(f, bays, o->bay);
    return CLI_DONE;
}

int verb_wall(const CliVerb *verb, int argc, char **argv)
{
    WallOptions o = {0};
    PbError err = {0};
    PbBays *bays = NULL;
    PbAllocator allocator = pb_allocator_default();
    int code = parse(verb, argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    PbFraming *f = calloc(1, sizeof *f);
    if (f == NULL) {
        (void)pb_fail(&err, PB_ERR_MEMORY, "out of memory");
        return cli_report(&err);
    }
    PbStatus status = get_wall(&o, f, &err);
    if (status == PB_OK) {
        status = pb_bays_create(f, &allocator, &bays);
    }
    if (status == PB_OK) {
        code = answer(f, bays, &o);
    } else {
        err.status = status;
        code = cli_report(&err);
    }
    pb_bays_destroy(bays);
    free(f);
    return code;
}
