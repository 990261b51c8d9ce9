/* Layers of a wall and R of a framed wall. Rows of R: assets/constants.json, group "layer". */
#include "core/wall.h"

#include <string.h>

/* Thickness is nominal, of the product that the row of the constants names. */
static const PbWallLayer inside_rows[] = {
    {"gypsum-3-8", "layer_gypsum_3_8_m2k_w", "vapor_gypsum", 0.0095},
    {"gypsum-1-2", "layer_gypsum_1_2_m2k_w", "vapor_gypsum", 0.0127},
    {"gypsum-5-8", "layer_gypsum_5_8_m2k_w", "vapor_gypsum", 0.0159},
    {"plaster-wood-lath", "layer_plaster_wood_lath_m2k_w", "vapor_plaster_wood_lath", 0.0254},
    {"plaster-metal-lath", "layer_plaster_metal_lath_m2k_w", "vapor_plaster_metal_lath", 0.0191},
    {"plaster-gypsum-lath", "layer_plaster_gypsum_lath_m2k_w", "vapor_plaster_gypsum_lath", 0.0222},
    {"paneling", "layer_paneling_m2k_w", "vapor_paneling", 0.0064},
};
static const PbWallLayer sheathing_rows[] = {
    {"none", NULL, NULL, 0.0},
    {"boards", "layer_boards_m2k_w", "vapor_boards", 0.0198},
    {"plywood-3-8", "layer_plywood_3_8_m2k_w", "vapor_plywood", 0.0095},
    {"plywood-1-2", "layer_plywood_1_2_m2k_w", "vapor_plywood", 0.0127},
    {"plywood-5-8", "layer_plywood_5_8_m2k_w", "vapor_plywood", 0.0159},
    {"osb", "layer_osb_m2k_w", "vapor_osb", 0.0111},
    {"fiberboard-1-2", "layer_fiberboard_1_2_m2k_w", "vapor_fiberboard", 0.0127},
    {"fiberboard-25-32", "layer_fiberboard_25_32_m2k_w", "vapor_fiberboard", 0.0198},
    {"gypsum-1-2", "layer_gypsum_1_2_m2k_w", "vapor_gypsum", 0.0127},
};
static const PbWallLayer paper_rows[] = {
    {"none", NULL, NULL, 0.0},
    {"felt", "layer_felt_m2k_w", "vapor_felt", 0.001},
};
static const PbWallLayer siding_rows[] = {
    {"none", NULL, NULL, 0.0},
    {"wood-lap", "layer_wood_lap_m2k_w", "vapor_wood_lap", 0.0159},
    {"wood-shingle", "layer_wood_shingle_m2k_w", "vapor_wood_shingle", 0.0191},
    {"shingle-backer", "layer_shingle_backer_m2k_w", "vapor_shingle_backer", 0.0270},
    {"hardboard", "layer_hardboard_m2k_w", "vapor_hardboard", 0.0111},
    {"stucco", "layer_stucco_m2k_w", "vapor_stucco", 0.0222},
    {"asbestos-cement", "layer_asbestos_cement_m2k_w", "vapor_asbestos_cement", 0.0064},
    {"composition", "layer_composition_m2k_w", "vapor_composition", 0.0064},
    {"fiber-cement", "layer_fiber_cement_m2k_w", "vapor_fiber_cement", 0.0087},
    {"hollow", "layer_hollow_m2k_w", "vapor_hollow", 0.0127},
    {"hollow-backed", "layer_hollow_backed_m2k_w", "vapor_hollow_backed", 0.0127},
    {"brick", "layer_brick_m2k_w", "vapor_brick", 0.1270},
    {"panel-siding", "layer_panel_siding_m2k_w", "vapor_panel_siding", 0.0159},
};

#define ROWS(table) table, (int)(sizeof(table) / sizeof((table)[0]))
static const struct {
    const char *word;
    const PbWallLayer *row;
    int count;
} places[PB_WALL_PLACES] = {
    {"inside", ROWS(inside_rows)}, {"sheathing", ROWS(sheathing_rows)},
    {"paper", ROWS(paper_rows)},   {"cladding", ROWS(siding_rows)},
    {"over", ROWS(siding_rows)},
};

int pb_wall_layer_count(PbWallPlace place)
{
    return places[place].count;
}

const PbWallLayer *pb_wall_layer(PbWallPlace place, int n)
{
    return &places[place].row[n];
}

int pb_wall_layer_find(PbWallPlace place, const char *id)
{
    for (int n = 0; n < places[place].count; n++) {
        if (strcmp(places[place].row[n].id, id) == 0) {
            return n;
        }
    }
    return -1;
}

const char *pb_wall_place_word(PbWallPlace place)
{
    return places[place].word;
}

static const PbWallLayer *chosen(const PbWall *wall, PbWallPlace place)
{
    return &places[place].row[wall->layer[place]];
}

static double row_r(const PbWallLayer *row, const PbConstants *constants)
{
    return row->constant != NULL ? pb_constant_value(constants, pb_constant_find(row->constant))
                                 : 0.0;
}

double pb_wall_layer_r(const PbWall *wall, PbWallPlace place, const PbConstants *c)
{
    if (wall->is_layered) {
        return row_r(chosen(wall, place), c);
    }
    return place == PB_WALL_INSIDE      ? c->gypsum_thickness_m / c->gypsum_k_w_mk
           : place == PB_WALL_SHEATHING ? c->sheathing_thickness_m / c->sheathing_k_w_mk
                                        : 0.0;
}

int pb_wall_uses(const PbWall *wall, const char *constant)
{
    static const char *const simple[] = {"gypsum_thickness_m", "gypsum_k_w_mk",
                                         "sheathing_thickness_m", "sheathing_k_w_mk"};
    if (strcmp(constant, "room_film_m2k_w") == 0 || strcmp(constant, "outdoor_film_m2k_w") == 0) {
        return 1;
    }
    for (size_t i = 0; i < sizeof simple / sizeof simple[0]; i++) {
        if (strcmp(constant, simple[i]) == 0) {
            return !wall->is_layered;
        }
    }
    for (int p = 0; wall->is_layered && p < PB_WALL_PLACES; p++) {
        const PbWallLayer *row = chosen(wall, (PbWallPlace)p);
        if (row->constant != NULL &&
            (strcmp(row->constant, constant) == 0 || strcmp(row->vapor, constant) == 0)) {
            return 1;
        }
    }
    return 0;
}

PbWall pb_wall_usual(void)
{
    PbWall w = {.is_layered = 1};
    w.layer[PB_WALL_INSIDE] = pb_wall_layer_find(PB_WALL_INSIDE, "gypsum-1-2");
    w.layer[PB_WALL_SHEATHING] = pb_wall_layer_find(PB_WALL_SHEATHING, "plywood-1-2");
    w.layer[PB_WALL_PAPER] = pb_wall_layer_find(PB_WALL_PAPER, "felt");
    w.layer[PB_WALL_CLADDING] = pb_wall_layer_find(PB_WALL_CLADDING, "wood-lap");
    return w;
}

static PbStatus complain(PbWallPlace at, PbWallPlace *place, PbError *err, const char *what)
{
    if (place != NULL) {
        *place = at;
    }
    return pb_fail(err, PB_ERR_RANGE, "\"%s\": %s", places[at].word, what);
}

PbStatus pb_wall_check(const PbWall *wall, PbWallPlace *place, PbError *err)
{
    if (!wall->is_layered) {
        return PB_OK;
    }
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        if (wall->layer[p] < 0 || wall->layer[p] >= places[p].count) {
            return complain((PbWallPlace)p, place, err, "expected one of its layers");
        }
    }
    int has_cladding = wall->layer[PB_WALL_CLADDING] != 0;
    if (!has_cladding && wall->layer[PB_WALL_OVER] != 0) {
        return complain(PB_WALL_OVER, place, err,
                        "new siding over none; expected it as the cladding");
    }
    if (!has_cladding && wall->layer[PB_WALL_SHEATHING] == 0) {
        return complain(PB_WALL_CLADDING, place, err,
                        "nothing outside of the studs; expected sheathing or cladding");
    }
    return PB_OK;
}

PbWallSkin pb_wall_skin(const PbWall *wall, const PbConstants *c)
{
    PbWallSkin s = {c->room_film_m2k_w,       c->gypsum_thickness_m, c->gypsum_k_w_mk,
                    c->sheathing_thickness_m, c->sheathing_k_w_mk,   c->outdoor_film_m2k_w};
    if (!wall->is_layered) {
        return s;
    }
    PbWallPlace touches =
        wall->layer[PB_WALL_SHEATHING] != 0 ? PB_WALL_SHEATHING : PB_WALL_CLADDING;
    s.inside_m = chosen(wall, PB_WALL_INSIDE)->thickness_m;
    s.inside_k_w_mk = s.inside_m / pb_wall_layer_r(wall, PB_WALL_INSIDE, c);
    s.outside_m = chosen(wall, touches)->thickness_m;
    s.outside_k_w_mk = s.outside_m / pb_wall_layer_r(wall, touches, c);
    for (int p = PB_WALL_SHEATHING; p < PB_WALL_PLACES; p++) {
        s.beyond_m2k_w += p != (int)touches ? pb_wall_layer_r(wall, (PbWallPlace)p, c) : 0.0;
    }
    return s;
}

double pb_wall_skin_r(const PbWallSkin *s)
{
    return s->room_film_m2k_w + s->inside_m / s->inside_k_w_mk + s->outside_m / s->outside_k_w_mk +
           s->beyond_m2k_w;
}

PbWallLimits pb_wall_limits(const PbWallPaths *p)
{
    double wood = p->framing_share, open = 1.0 - wood;
    PbWallLimits l;
    l.upper_m2k_w = 1.0 / (wood / (p->skin_m2k_w + p->stud_m2k_w) + open * p->cavity_u_w_m2k);
    l.lower_m2k_w = p->skin_m2k_w + 1.0 / (wood / p->stud_m2k_w + open * p->layer_w_m2k);
    return l;
}

double pb_wall_r(const PbWallPaths *paths)
{
    PbWallLimits l = pb_wall_limits(paths);
    return 0.5 * (l.upper_m2k_w + l.lower_m2k_w);
}

PbWallPaths pb_wall_paths(const PbWallSkin *skin, double stud_m2k_w, double framing_share,
                          double cavity_m2k_w)
{
    double r = pb_wall_skin_r(skin);
    PbWallPaths p = {r, stud_m2k_w, framing_share, 1.0 / (r + cavity_m2k_w), 1.0 / cavity_m2k_w};
    return p;
}
