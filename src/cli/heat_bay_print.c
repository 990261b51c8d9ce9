/* heat --bay: solve a bay on all cores and say what it means, in SI with R-values beside. */
#include "heat_print.h"

#include "cli/front.h"
#include "core/pb_math.h"
#include "core/units.h"
#include "io/clock.h"
#include "io/doc.h"
#include "io/parallel.h"

#include <jansson.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

void heat_json_text(FILE *out, const char *text)
{
    json_t *s = json_string(text);
    char *dump = s != NULL ? json_dumps(s, JSON_ENCODE_ANY) : NULL;
    fputs(dump != NULL ? dump : "\"\"", out);
    free(dump);
    json_decref(s);
}

typedef struct Answer {
    const char *path;
    const IoHeatBay *file;
    const PbHeatBay *bay;
    const PbHeatBayResult *r;
    PbHeatMoney money;
    double *picture;
    double ms;
} Answer;

static void print_range(FILE *out, const char *key, PbHeatRange v)
{
    fprintf(out, "\"%s\":[%.6g,%.6g,%.6g],", key, v.low, v.mid, v.high);
}

static void print_json_map(FILE *out, const Answer *a)
{
    const PbHeatBayResult *r = a->r;
    fprintf(out,
            "\"surface_map\":{\"nx\":%d,\"ny\":%d,\"x0_m\":%.6g,\"x1_m\":%.6g,\"y0_m\":0,"
            "\"y1_m\":%.6g,\"rows_from_bottom_c\":[",
            r->map_nx, r->map_ny, r->map_x0_m, r->map_x1_m, a->file->field.height_m);
    for (int j = 0; j < r->map_ny; j++) {
        fprintf(out, "%s[", j ? "," : "");
        for (int i = 0; i < r->map_nx; i++) {
            fprintf(out, "%s%.4f", i ? "," : "", a->picture[j * r->map_nx + i]);
        }
        fputc(']', out);
    }
    fprintf(out, "]}}\n");
}

static void print_json(FILE *out, const Answer *a)
{
    const PbHeatBayResult *r = a->r;
    fprintf(out, "{\"file\":");
    heat_json_text(out, a->path);
    fprintf(out, ",\"title\":");
    heat_json_text(out, a->file->title);
    fputc(',', out);
    heat_json_number(out, "r_m2k_w", r->r_m2k_w);
    heat_json_number(out, "u_w_m2k", r->u_w_m2k);
    heat_json_number(out, "r_upper_m2k_w", r->r_upper_m2k_w);
    heat_json_number(out, "r_lower_m2k_w", r->r_lower_m2k_w);
    heat_json_number(out, "u_cavity_w_m2k", r->u_cavity_w_m2k);
    heat_json_number(out, "u_stud_w_m2k", r->u_stud_w_m2k);
    heat_json_number(out, "u_perfect_cavity_w_m2k", r->u_perfect_cavity_w_m2k);
    heat_json_number(out, "r_perfect_m2k_w", r->r_perfect_m2k_w);
    print_range(out, "heat_ratio_cavity_low_mid_high", r->heat_ratio);
    print_range(out, "heat_ratio_wall_low_mid_high", r->wall_ratio);
    print_range(out, "season_heat_kwh_low_mid_high", a->money.heat_kwh);
    print_range(out, "season_cost_low_mid_high", a->money.cost);
    heat_json_number(out, "wall_area_m2", a->file->wall_area_m2);
    heat_json_number(out, "surface_room_min_c", r->surface_min_c);
    heat_json_number(out, "surface_room_max_c", r->surface_max_c);
    heat_json_number(out, "leak_50_pa_l_s", r->leak_50_l_s);
    heat_json_number(out, "leak_75_pa_l_s", r->leak_75_l_s);
    heat_json_number(out, "leak_perfect_75_pa_l_s", r->leak_perfect_75_l_s);
    fprintf(out, "\"strips\":[");
    for (int i = 0; i < r->strip_count; i++) {
        const PbHeatStrip *s = pb_heat_bay_strip(a->bay, i);
        fprintf(out,
                "%s{\"x_m\":[%.6g,%.6g],\"u_w_m2k\":%.6g,\"air_loop\":%s,"
                "\"upright_answer\":%s,"
                "\"psi_max_m2_s\":%.4g,\"iterations\":%d}",
                i ? "," : "", s->x0_m, s->x1_m, s->u_w_m2k, s->has_loop ? "true" : "false",
                s->is_upright_answer ? "true" : "false", s->psi_max_m2_s, s->iterations);
    }
    fprintf(out,
            "],\"balance_error\":%.3g,\"grid\":[%d,%d],\"peak_bytes\":%zu,"
            "\"time_ms\":%.3f,",
            r->balance, pb_heat_bay_strip(a->bay, 0)->nx, pb_heat_bay_strip(a->bay, 0)->ny,
            r->peak_bytes, a->ms);
    print_json_map(out, a);
}

static void print_text(FILE *out, const Answer *a)
{
    const PbHeatBayResult *r = a->r;
    int loops = 0, upright = 0;
    for (int i = 0; i < r->strip_count; i++) {
        loops += pb_heat_bay_strip(a->bay, i)->has_loop;
        upright += pb_heat_bay_strip(a->bay, i)->is_upright_answer;
    }
    if (a->file->title[0] != '\0') {
        fprintf(out, "%s\n", a->file->title);
    }
    fprintf(
        out, "Wall with stud: R %.3f m2 K/W (R-%.1f), U %.4f W/(m2 K); limits R %.3f and %.3f\n",
        r->r_m2k_w, r->r_m2k_w / PB_M2K_W_PER_R, r->u_w_m2k, r->r_lower_m2k_w, r->r_upper_m2k_w);
    fprintf(out, "Perfect fill: R %.3f m2 K/W (R-%.1f)\n", r->r_perfect_m2k_w,
            r->r_perfect_m2k_w / PB_M2K_W_PER_R);
    fprintf(out,
            "Heat against perfect fill: %.2f (%.2f to %.2f) in the bay, %.2f (%.2f to %.2f) "
            "with the stud\n",
            r->heat_ratio.mid, r->heat_ratio.low, r->heat_ratio.high, r->wall_ratio.mid,
            r->wall_ratio.low, r->wall_ratio.high);
    fprintf(out, "Air loops in %d of %d strips\n", loops, r->strip_count);
    if (upright > 0) {
        fprintf(out, "%d strips had no steady loop at this slope: solved as if upright\n", upright);
    }
    fprintf(out, "Room-side surface %.2f to %.2f C\n", r->surface_min_c, r->surface_max_c);
    fprintf(out,
            "Air end to end: %.2f l/s at 50 Pa, %.2f l/s at 75 Pa (perfect fill %.2f); not part "
            "of R\n",
            r->leak_50_l_s, r->leak_75_l_s, r->leak_perfect_75_l_s);
    fprintf(out, "A season through %.2f m2: %.0f kWh (%.0f to %.0f), cost %.2f (%.2f to %.2f)\n",
            a->file->wall_area_m2, a->money.heat_kwh.mid, a->money.heat_kwh.low,
            a->money.heat_kwh.high, a->money.cost.mid, a->money.cost.low, a->money.cost.high);
    fprintf(out, "Model results for comparison, not a measurement or a promise. %.1f ms\n", a->ms);
}

static void write_map(FILE *out, const void *what)
{
    const Answer *a = what;
    const PbHeatBayResult *r = a->r;
    double dx = (r->map_x1_m - r->map_x0_m) / r->map_nx, dy = a->file->field.height_m / r->map_ny;
    fprintf(out, HEAT_MAP_BEGINS "\n");
    for (int j = 0; j < r->map_ny; j++) {
        for (int i = 0; i < r->map_nx; i++) {
            fprintf(out, "%.6g,%.6g,%.6g\n", r->map_x0_m + (i + 0.5) * dx, (j + 0.5) * dy,
                    a->picture[j * r->map_nx + i]);
        }
    }
}

static PbStatus work_out(const PbConstants *constants, Answer *a)
{
    const PbHeatBayResult *r = a->r;
    PbHeatRange u = {r->u_w_m2k * r->wall_ratio.low / r->wall_ratio.mid, r->u_w_m2k,
                     r->u_w_m2k * r->wall_ratio.high / r->wall_ratio.mid};
    PbHeatSeason season = pb_heat_season_default(constants, a->file->wall_area_m2, u);
    season.degree_days_k_d = a->file->degree_days_k_d;
    season.price_per_kwh = a->file->price_per_kwh;
    season.efficiency = a->file->efficiency;
    PB_TRY(pb_heat_season_cost(&season, &a->money));
    a->picture = malloc((size_t)r->map_nx * (size_t)r->map_ny * sizeof(double));
    if (a->picture == NULL) {
        return PB_ERR_MEMORY;
    }
    return pb_heat_camera_picture(a->bay, &a->file->camera, constants, a->picture);
}

static int show(const Answer *a, int json, const char *field)
{
    int code = CLI_DONE;
    if (field != NULL) {
        code = heat_write_file(field, HEAT_MAP_BEGINS, write_map, a);
    }
    if (code == CLI_DONE) {
        (void)io_json_short();
        (json ? print_json : print_text)(stdout, a);
        code = io_json_short() ? cli_printed(PB_ERR_MEMORY) : CLI_DONE; /* a name is missing */
    }
    return code;
}

int heat_run_bay(const char *file, int json, const char *field, const int grid[2])
{
    PbError err = {0};
    PbConstants constants = pb_constants_default();
    PbAllocator allocator = pb_allocator_default();
    IoParallel threads = io_parallel_default();
    IoHeatBay input;
    PbHeatBay *bay = NULL;
    if (io_heat_bay_load(file, &constants, &input, &err) != PB_OK) {
        return cli_report(&err);
    }
    input.setup.nx = grid[0] > 0 ? grid[0] : input.setup.nx;
    input.setup.ny = grid[1] > 0 ? grid[1] : input.setup.ny;
    input.setup.parallel = io_parallel_for;
    input.setup.parallel_user = &threads;
    double from = io_clock_s();
    PbStatus status = pb_heat_bay_solve(&input.setup, &constants, &allocator, &bay, &err);
    int code;
    if (status == PB_OK) {
        Answer a = {.path = file, .file = &input, .bay = bay, .r = pb_heat_bay_result(bay)};
        a.ms = 1e3 * (io_clock_s() - from);
        status = work_out(&constants, &a);
        code = status == PB_OK ? show(&a, json, field) : cli_printed(status);
        free(a.picture);
    } else {
        snprintf(err.file, sizeof err.file, "%.255s", file);
        code = status == PB_ERR_NO_RESULT ? CLI_NO : 0;
        if (code == CLI_NO) {
            fprintf(stderr, "pullback-cli: %s: %s\n", file, err.message);
        } else {
            code = cli_report(&err);
        }
    }
    pb_heat_bay_destroy(bay);
    io_heat_bay_free(&input);
    return code;
}
