/* Glaser's method month by month. Method, source and limits: the header. */
#include "core/moisture.h"

#include "core/pb_math.h"
#include "core/units.h"

#include <assert.h>
#include <string.h>

enum { NODES = 96, EVENTS = 200 };

static const double air_kg_m_s_pa = 2e-10; /* vapor in still air: ISO 13788:2012, 5.3 */
static const double least_sd_m = 1e-4;
static const double part_m2k_w = 0.25;      /* thicker layers are cut: ISO 13788:2012, 6.4 */
static const double face_film_m2k_w = 0.25; /* at the room's face, for mold: ISO 13788:2012, 4.4 */
static const double s_per_day = 86400.0, g_per_kg = 1000.0, nothing_kg = 1e-9;

double pb_saturation_pa(double c)
{
    return c >= 0.0 ? 610.5 * pb_exp(17.269 * c / (237.3 + c))
                    : 610.5 * pb_exp(21.875 * c / (265.5 + c));
}

double pb_moist_sd_m(double permeance)
{
    return air_kg_m_s_pa / permeance;
}

/* Faces of the parts of all layers, from the room outwards. */
typedef struct Line {
    int count;
    double at_m[NODES]; /* sum of sd */
    double r[NODES];    /* sum of R, with the room's film */
    int layer[NODES];   /* that ends at or holds this face */
    double all_r;
} Line;

static void lay_out(const PbMoistWall *w, Line *line)
{
    int n = 0;
    line->at_m[0] = 0.0;
    line->r[0] = w->room_film_m2k_w;
    line->layer[0] = 0;
    for (int i = 0; i < w->count; i++) {
        const PbMoistLayer *l = &w->layer[i];
        int parts = 1 + (int)(l->r_m2k_w / part_m2k_w);
        parts = parts > 20 ? 20 : parts;
        for (int p = 0; p < parts && n + 1 < NODES; p++) {
            n++;
            line->at_m[n] = line->at_m[n - 1] + pb_max(l->sd_m, least_sd_m) / parts;
            line->r[n] = line->r[n - 1] + l->r_m2k_w / parts;
            line->layer[n] = i;
        }
    }
    line->count = n + 1;
    line->all_r = line->r[n] + w->out_film_m2k_w;
}

/* Pressures of a month: saturation at each face, and where they are held. */
typedef struct Month {
    double full[NODES];
    int is_held[NODES]; /* at saturation, or an end */
} Month;

static void begin(const Line *line, const PbMoistMonth *m, Month *out)
{
    for (int i = 0; i < line->count; i++) {
        double c = m->room_c + (m->outdoor_c - m->room_c) * line->r[i] / line->all_r;
        out->full[i] = pb_saturation_pa(c);
    }
    /* what condenses on the faces themselves is no part of the wall */
    int last = line->count - 1;
    out->full[0] = pb_min(out->full[0], m->room_pa);
    out->full[last] = pb_min(out->full[last], m->outdoor_pa);
}

/* Between two faces that are held the string hangs as low as saturation bends it: the lower hull.
 */
static void hang(const Line *line, Month *m, int a, int b)
{
    int hull[NODES], n = 0;
    for (int i = a; i <= b; i++) {
        while (n >= 2) {
            int p = hull[n - 2], q = hull[n - 1];
            double run = line->at_m[i] - line->at_m[p], part = line->at_m[q] - line->at_m[p];
            double chord = m->full[p] + (m->full[i] - m->full[p]) * part / run;
            if (m->full[q] < chord) {
                break;
            }
            n--;
        }
        hull[n++] = i;
    }
    for (int k = 0; k < n; k++) {
        m->is_held[hull[k]] = 1;
    }
}

/* What gathers at each held face, kg/(m2 s); ends gather nothing. */
static void flows(const Line *line, Month *m, const double *kg, double *rate)
{
    int last = line->count - 1, from = 0;
    for (int i = 0; i <= last; i++) {
        m->is_held[i] = i == 0 || i == last || kg[i] > 0.0;
        rate[i] = 0.0;
    }
    for (int i = 1; i <= last; i++) {
        if (i == last || kg[i] > 0.0) {
            hang(line, m, from, i);
            from = i;
        }
    }
    int before = 0;
    for (int i = 1; i < last; i++) {
        if (!m->is_held[i]) {
            continue;
        }
        int next = i + 1;
        while (!m->is_held[next]) {
            next++;
        }
        double in = (m->full[before] - m->full[i]) / (line->at_m[i] - line->at_m[before]);
        double out = (m->full[i] - m->full[next]) / (line->at_m[next] - line->at_m[i]);
        rate[i] = air_kg_m_s_pa * (in - out);
        before = i;
    }
}

/* A month goes by; a face that dries within it is dry for the rest of it. */
static void pass(const Line *line, const PbMoistMonth *at, double *kg)
{
    Month m;
    double rate[NODES], left_s = PB_DAYS_PER_YEAR / PB_MOIST_MONTHS * s_per_day;
    begin(line, at, &m);
    for (int n = 0; n < EVENTS && left_s > 0.0; n++) {
        double step = left_s;
        flows(line, &m, kg, rate);
        for (int i = 0; i < line->count; i++) {
            if (rate[i] < 0.0 && kg[i] > 0.0) {
                step = pb_min(step, kg[i] / -rate[i]);
            }
        }
        for (int i = 0; i < line->count; i++) {
            kg[i] = pb_max(kg[i] + rate[i] * step, 0.0);
            kg[i] = kg[i] < nothing_kg ? 0.0 : kg[i];
        }
        left_s -= step;
    }
}

static double sum_of(const Line *line, const double *kg)
{
    double sum = 0.0;
    for (int i = 0; i < line->count; i++) {
        sum += kg[i];
    }
    return sum;
}

static int wets(const Line *line, const PbMoistMonth *at)
{
    double kg[NODES] = {0.0};
    pass(line, at, kg);
    return sum_of(line, kg) > 0.0;
}

/* The first wet month after a dry one; -1: none is wet. January when all are. */
static int first_wet(const Line *line, const PbMoistMonth *months)
{
    int wet[PB_MOIST_MONTHS], count = 0;
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        wet[m] = wets(line, &months[m]);
        count += wet[m];
    }
    for (int m = 0; m < PB_MOIST_MONTHS && count < PB_MOIST_MONTHS; m++) {
        if (wet[m] && !wet[(m + PB_MOIST_MONTHS - 1) % PB_MOIST_MONTHS]) {
            return m;
        }
    }
    return count > 0 ? 0 : -1;
}

static double face_rh(const Line *line, const PbMoistWall *w, const PbMoistMonth *months)
{
    double most = 0.0, r = line->all_r - w->room_film_m2k_w + face_film_m2k_w;
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        const PbMoistMonth *at = &months[m];
        double c = at->room_c + (at->outdoor_c - at->room_c) * face_film_m2k_w / r;
        most = pb_max(most, at->room_pa / pb_saturation_pa(c));
    }
    return most;
}

void pb_moist_year(const PbMoistWall *w, const PbMoistMonth months[PB_MOIST_MONTHS],
                   PbMoistYear *year)
{
    assert(w != NULL && months != NULL && year != NULL);
    assert(w->count >= 1 && w->count <= PB_MOIST_LAYERS);
    Line line;
    double kg[NODES] = {0.0};
    memset(year, 0, sizeof *year);
    lay_out(w, &line);
    year->face_rh = face_rh(&line, w, months);
    year->dry_month = -1;
    int first = first_wet(&line, months);
    if (first < 0) {
        return;
    }
    year->is_wet = 1;
    for (int n = 0; n < PB_MOIST_MONTHS; n++) {
        int m = (first + n) % PB_MOIST_MONTHS;
        pass(&line, &months[m], kg);
        for (int i = 0; i < line.count; i++) {
            if (g_per_kg * kg[i] > year->most_g_m2) {
                year->most_g_m2 = g_per_kg * kg[i];
                year->most_month = m;
                year->layer = line.layer[i];
            }
        }
        year->sum_g_m2[m] = g_per_kg * sum_of(&line, kg);
        if (year->sum_g_m2[m] > 0.0) {
            year->dry_month = -1;
        } else if (year->dry_month < 0) {
            year->dry_month = m;
        }
    }
    year->left_g_m2 = g_per_kg * sum_of(&line, kg);
}
