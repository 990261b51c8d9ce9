/* Checks of the heat solver on walls: ISO 10211, ISO 6946, gaps and voids of a stud bay. */
#include "core/heat_bay.h"
#include "core/pb_math.h"
#include "lab/verify_heat.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const VerifySource iso10211 = {
    VERIFY_CALCULATED, "ISO 10211:2007, Annex A (table from memory; the series solution "
                       "and a separate code give the same)"};
static const VerifySource finite_elements = {
    VERIFY_OWN_CODE,
    "separate finite-element solution of the same equations, two meshes agreeing to 1e-5"};

static const double height_m = 2.35, board_m = 0.0127, cavity_m = 0.089, sheathing_m = 0.012;
static const double room_c = 20.0;

void verify_heat_region(PbHeatCase *c, double x0, double x1, double y0, double y1,
                        PbHeatMaterialKind kind, double k)
{
    c->regions[c->region_count++] = (PbHeatRegion){x0, y0, x1, y1, {kind, k, 0.0}};
}

static void add_probe(PbHeatCase *c, double x, double y)
{
    c->probes[c->probe_count++] = (PbHeatProbe){.x_m = x, .y_m = y, .t_c = (double)NAN};
}

/* Half of a square column, top at 20 C, left and bottom at 0 C. */
static void iso_case1(const VerifySink *sink, PbHeatCase *c)
{
    static const double table[7][4] = {
        {9.7, 13.4, 14.7, 15.1}, {5.3, 8.6, 10.3, 10.8}, {3.2, 5.6, 7.0, 7.5}, {2.0, 3.6, 4.7, 5.0},
        {1.3, 2.3, 3.0, 3.2},    {0.7, 1.4, 1.8, 1.9},   {0.3, 0.6, 0.8, 0.9}};
    *c = pb_heat_case_default();
    c->height_m = 2.0;
    c->physics.flow = PB_HEAT_FLOW_NONE;
    c->physics.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FIXED, 0.0, 0.0};
    c->physics.side[PB_HEAT_BOTTOM] = (PbHeatSide){PB_HEAT_FIXED, 0.0, 0.0};
    c->physics.side[PB_HEAT_TOP] = (PbHeatSide){PB_HEAT_FIXED, 20.0, 0.0};
    for (int n = 0; n < 28; n++) {
        int column = n % 4, row = n / 4;
        add_probe(c, 0.25 * (column + 1), 2.0 - 0.25 * (row + 1));
    }
    (void)verify_heat_figures(c, 48, 96);
    for (int n = 0; n < 28; n++) {
        char id[64];
        snprintf(id, sizeof id, "heat.iso10211.case1.%d%d", n / 4 + 1, n % 4 + 1);
        verify_abs(sink, id, "temperature in a square column", "C", iso10211, table[n / 4][n % 4],
                   c->probes[n].t_c, 0.1);
    }
}

static void iso_case2(const VerifySink *sink, PbHeatCase *c)
{
    static const double at[9][2] = {{0, 0.0475},     {0.5, 0.0475}, {0, 0.0415},
                                    {0.015, 0.0415}, {0.5, 0.0415}, {0, 0.0365},
                                    {0.015, 0.0365}, {0, 0},        {0.5, 0}};
    static const double table[9] = {7.1, 0.8, 7.9, 6.3, 0.8, 16.4, 16.3, 16.8, 18.3};
    *c = pb_heat_case_default();
    c->width_m = 0.5;
    c->height_m = 0.0475;
    c->background.k_w_mk = 0.029;
    c->physics.flow = PB_HEAT_FLOW_NONE;
    verify_heat_region(c, 0, 0.5, 0.0415, 0.0475, PB_HEAT_SOLID, 1.15);
    verify_heat_region(c, 0, 0.015, 0.0365, 0.0415, PB_HEAT_SOLID, 0.12);
    verify_heat_region(c, 0, 0.015, 0.035, 0.0365, PB_HEAT_SOLID, 230);
    verify_heat_region(c, 0, 0.0015, 0.0015, 0.035, PB_HEAT_SOLID, 230);
    verify_heat_region(c, 0, 0.5, 0, 0.0015, PB_HEAT_SOLID, 230);
    c->physics.side[PB_HEAT_TOP] = (PbHeatSide){PB_HEAT_FILM, 0.0, 0.06};
    c->physics.side[PB_HEAT_BOTTOM] = (PbHeatSide){PB_HEAT_FILM, 20.0, 0.11};
    for (int n = 0; n < 9; n++) {
        add_probe(c, at[n][0], at[n][1]);
    }
    VerifyHeatFigures f = verify_heat_figures(c, 96, 96);
    for (int n = 0; n < 9; n++) {
        char id[64];
        snprintf(id, sizeof id, "heat.iso10211.case2.%c", 'A' + n);
        verify_abs(sink, id, "temperature in wood, metal and insulation", "C", iso10211, table[n],
                   c->probes[n].t_c, 0.1);
    }
    verify_abs(sink, "heat.iso10211.case2.q", "heat flow in wood, metal and insulation", "W/m",
               iso10211, 9.5, f.heat_w_m[PB_HEAT_BOTTOM], 0.1);
}

static void wall(PbHeatCase *c, double k, double permeability)
{
    double back = board_m + cavity_m;
    *c = pb_heat_case_default();
    c->width_m = back + sheathing_m;
    c->height_m = height_m;
    c->background = (PbHeatMaterial){PB_HEAT_POROUS, k, permeability};
    verify_heat_region(c, 0.0, board_m, 0.0, height_m, PB_HEAT_SOLID, 0.16);
    verify_heat_region(c, back, c->width_m, 0.0, height_m, PB_HEAT_SOLID, 0.13);
    c->physics.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FILM, room_c, 0.13};
    c->physics.side[PB_HEAT_RIGHT] = (PbHeatSide){PB_HEAT_FILM, 0.0, 0.04};
    c->physics.radiation_w_m2k = 4.2;
}

static double wall_u(PbHeatCase *c, int nx, int ny)
{
    return verify_heat_figures(c, nx, ny).heat_w_m[PB_HEAT_LEFT] / (height_m * room_c);
}

static void gaps(PbHeatCase *c, double b, double end)
{
    double x0 = board_m, x1 = board_m + cavity_m;
    wall(c, 0.035, 1e-10);
    verify_heat_region(c, x0, x0 + b, 0.0, height_m, PB_HEAT_AIR, 0.0249);
    verify_heat_region(c, x1 - b, x1, 0.0, height_m, PB_HEAT_AIR, 0.0249);
    verify_heat_region(c, x0 + b, x1 - b, 0.0, end, PB_HEAT_AIR, 0.0249);
    verify_heat_region(c, x0 + b, x1 - b, height_m - end, height_m, PB_HEAT_AIR, 0.0249);
}

static void top_void(PbHeatCase *c, double high, double film)
{
    wall(c, 0.040, 1.8e-9);
    verify_heat_region(c, board_m, board_m + cavity_m, height_m - high, height_m, PB_HEAT_AIR,
                       0.0249);
    c->void_convection_w_m2k = film;
}

/* A converged value at both grids: 1 % on the slider's, 0.5 % on the final one. */
static void both_within(const VerifySink *sink, PbHeatCase *c, const char *id, const char *what,
                        double u, double final_limit)
{
    char name[80], text[128];
    for (int n = 0; n < 2; n++) {
        snprintf(name, sizeof name, "heat.bay.%s.%s", id, n ? "final" : "slider");
        snprintf(text, sizeof text, "U of a bay section 2.35 m high, 20 to 0 C: %s, 32x%d", what,
                 n ? 256 : 128);
        verify_rel(sink, name, text, "W/(m2 K)", finite_elements, u, wall_u(c, 32, n ? 256 : 128),
                   n ? final_limit : 0.01);
    }
}

static void both_grids(const VerifySink *sink, PbHeatCase *c, const char *id, const char *what,
                       double u)
{
    both_within(sink, c, id, what, u, 0.005);
}

static void bay_gaps(const VerifySink *sink, PbHeatCase *c)
{
    wall(c, 0.040, 1.8e-9);
    both_grids(sink, c, "full", "full fill, K 1.8e-9 m2", 0.38961);
    static const double end[2] = {0.010, 0.005};
    static const double open[2] = {0.44099, 0.43551}, still[2] = {0.37181, 0.36460};
    static const double dark[2] = {0.40978, 0.40739};
    for (int n = 0; n < 2; n++) {
        char id[48], what[96];
        gaps(c, 0.005, end[n]);
        snprintf(id, sizeof id, "gaps.ends%g", end[n] * 1e3);
        snprintf(what, sizeof what, "foam, 5 mm gaps both faces, ends open %g mm", end[n] * 1e3);
        both_grids(sink, c, id, what, open[n]);
        c->physics.flow = PB_HEAT_FLOW_NONE;
        strcat(id, ".still");
        strcat(what, ", no flow");
        both_grids(sink, c, id, what, still[n]);
        gaps(c, 0.005, end[n]);
        c->physics.radiation_w_m2k = 0.0;
        snprintf(id, sizeof id, "gaps.ends%g.dark", end[n] * 1e3);
        snprintf(what, sizeof what, "same with ends %g mm, no radiation", end[n] * 1e3);
        both_grids(sink, c, id, what, dark[n]);
    }
}

static void bay_voids(const VerifySink *sink, PbHeatCase *c)
{
    static const double high[3] = {0.1, 0.2, 0.3};
    static const double moving[3] = {0.46377, 0.53141, 0.59791};
    static const double still[3] = {0.45112, 0.50987, 0.56862};
    double film = pb_constants_default().void_convection_w_m2k;
    for (int n = 0; n < 3; n++) {
        char id[48], what[96];
        snprintf(id, sizeof id, "void%g", high[n]);
        snprintf(what, sizeof what, "top void %g m, wide-void model", high[n]);
        top_void(c, high[n], film);
        both_within(sink, c, id, what, moving[n], 0.01); /* a film, no solution */
        top_void(c, high[n], 0.0);
        strcat(id, ".flow");
        snprintf(what, sizeof what, "top void %g m, its flow solved", high[n]);
        both_grids(sink, c, id, what, moving[n]);
        c->physics.flow = PB_HEAT_FLOW_NONE;
        snprintf(id, sizeof id, "void%g.still", high[n]);
        snprintf(what, sizeof what, "top void %g m, no flow", high[n]);
        both_grids(sink, c, id, what, still[n]);
    }
}

/* Wide-void model against the solved flow, over heights and two temperature differences. The film
 * is that of the standard: nothing in it was fitted to these. */
static void void_model(const VerifySink *sink, PbHeatCase *c)
{
    static const double high[5] = {0.05, 0.1, 0.2, 0.3, 0.5};
    double film = pb_constants_default().void_convection_w_m2k;
    for (int cold = 0; cold < 2; cold++) {
        for (int n = 0; n < 5; n++) {
            char id[64];
            VerifyHeatFigures f[2];
            for (int q = 0; q < 2; q++) {
                top_void(c, high[n], q ? film : 0.0);
                c->physics.side[PB_HEAT_RIGHT].temperature_c = cold ? -20.0 : 0.0;
                f[q] = verify_heat_figures(c, 32, 128);
            }
            snprintf(id, sizeof id, "heat.void_model.%g.%dK", high[n], cold ? 40 : 20);
            verify_rel(sink, id, "heat with the wide-void model against its flow solved", "W/m",
                       VERIFY_SOURCE(OWN_CODE, "the same solver with the flow of the void solved"),
                       f[0].heat_w_m[0], f[1].heat_w_m[0], 0.015);
        }
    }
}

static void loop_flow(const VerifySink *sink, PbHeatCase *c)
{
    double b = 0.005, dt = 0.0;
    gaps(c, b, 0.010);
    for (int n = 0; n < 40; n++) {
        double y = height_m * (n + 0.5) / 40.0;
        add_probe(c, board_m + 0.5 * b, y);
        add_probe(c, board_m + cavity_m - 0.5 * b, y);
    }
    VerifyHeatFigures f = verify_heat_figures(c, 32, 256);
    for (int n = 0; n < 40; n++) {
        dt += (c->probes[2 * n].t_c - c->probes[2 * n + 1].t_c) / 40.0;
    }
    const PbHeatSetup *p = &c->physics;
    double exact = p->gravity_m_s2 * p->expansion_1_k * dt * b * b * b / (24.0 * p->viscosity_m2_s);
    verify_rel(
        sink, "heat.loop.flow", "air round two 5 mm gaps, ends open 10 mm", "m2/s",
        VERIFY_SOURCE(EXACT, "long slots: g beta dT b^3/(24 nu), dT between the gaps as solved"),
        exact, f.psi_max, 0.05);
    verify_abs(sink, "heat.loop.balance", "heat in less heat out over heat", "-",
               VERIFY_SOURCE(EXACT, "energy is conserved"), 0.0, f.balance, 1e-6);
}

/* Turned inside out, a wall of mirrored layers loses the same. */
static void mirror(const VerifySink *sink, PbHeatCase *c)
{
    gaps(c, 0.005, 0.010);
    c->regions[2].x1_m -= 0.002; /* unequal gaps, so that the mirror is not the wall itself */
    c->regions[4].x0_m -= 0.002;
    c->regions[5].x0_m -= 0.002;
    double one = verify_heat_figures(c, 32, 128).heat_w_m[PB_HEAT_LEFT];
    for (int n = 0; n < c->region_count; n++) {
        double x0 = c->regions[n].x0_m;
        c->regions[n].x0_m = c->width_m - c->regions[n].x1_m;
        c->regions[n].x1_m = c->width_m - x0;
    }
    PbHeatSide left = c->physics.side[PB_HEAT_LEFT];
    c->physics.side[PB_HEAT_LEFT] = c->physics.side[PB_HEAT_RIGHT];
    c->physics.side[PB_HEAT_RIGHT] = left;
    double other = verify_heat_figures(c, 32, 128).heat_w_m[PB_HEAT_RIGHT];
    verify_rel(sink, "heat.mirror", "heat of the mirrored wall", "W/m",
               VERIFY_SOURCE(EXACT, "mirror symmetry"), one, other, 1e-6);
}

static void stud_wall(const VerifySink *sink, PbHeatCase *c)
{
    double studs = 0.406, half = 0.019, deep = board_m + cavity_m + sheathing_m;
    *c = pb_heat_case_default(); /* x through the wall, y along it, half a bay and half a stud */
    c->width_m = deep;
    c->height_m = 0.5 * studs;
    c->background.k_w_mk = 0.040;
    c->physics.flow = PB_HEAT_FLOW_NONE;
    verify_heat_region(c, 0.0, board_m, 0.0, c->height_m, PB_HEAT_SOLID, 0.16);
    verify_heat_region(c, board_m + cavity_m, deep, 0.0, c->height_m, PB_HEAT_SOLID, 0.13);
    verify_heat_region(c, board_m, board_m + cavity_m, 0.0, half, PB_HEAT_SOLID, 0.12);
    c->physics.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FILM, room_c, 0.13};
    c->physics.side[PB_HEAT_RIGHT] = (PbHeatSide){PB_HEAT_FILM, 0.0, 0.04};
    double q = verify_heat_figures(c, 64, 64).heat_w_m[PB_HEAT_LEFT];
    verify_rel(sink, "heat.stud.2d", "R of a 2x4 wall at 406 mm by conduction in two dimensions",
               "m2 K/W", VERIFY_SOURCE(OWN_CODE, "separate solution converged to four digits"),
               2.2533, c->height_m * room_c / q, 0.002);
    PbConstants k = pb_constants_default();
    PbAllocator allocator = pb_allocator_default();
    PbBayField f;
    PbHeatBay *bay = NULL;
    if (pb_bay_field_create(4, 8, studs - 2.0 * half, height_m, cavity_m, &f) != PB_OK) {
        return;
    }
    pb_bay_field_fill(&f, 50.0);
    PbHeatBaySetup setup = pb_heat_bay_default(&f);
    setup.fill = (PbHeatFill){1, 0.040, 1e-10};
    double mean = (double)NAN, upper = (double)NAN, lower = (double)NAN;
    if (pb_heat_bay_solve(&setup, &k, &allocator, &bay, NULL) == PB_OK) {
        mean = pb_heat_bay_result(bay)->r_m2k_w;
        upper = pb_heat_bay_result(bay)->r_upper_m2k_w;
        lower = pb_heat_bay_result(bay)->r_lower_m2k_w;
    }
    VerifySource iso = {VERIFY_CALCULATED,
                        "ISO 6946, by hand for these layers: paths 2.5667 and 1.0833 m2 K/W"};
    verify_rel(sink, "heat.stud.upper", "upper limit of R", "m2 K/W", iso, 2.2751, upper, 1e-3);
    verify_rel(sink, "heat.stud.lower", "lower limit of R", "m2 K/W", iso, 2.2158, lower, 1e-3);
    verify_rel(sink, "heat.stud.mean", "R of the wall", "m2 K/W", iso, 2.2455, mean, 1e-3);
    verify_rel(sink, "heat.stud.mean_2d", "R of the wall by strips and stud", "m2 K/W",
               VERIFY_SOURCE(OWN_CODE, "separate two-dimensional solution"), 2.2533, mean, 0.005);
    pb_heat_bay_destroy(bay);
    pb_bay_field_destroy(&f);
}

/* Still layers of ISO 6946: radiation 4.21 and conduction side by side, table to two decimals. */
static void air_layers(const VerifySink *sink, PbHeatCase *c)
{
    static const double thick[4] = {0.005, 0.007, 0.010, 0.015};
    static const double table[4] = {0.11, 0.13, 0.15, 0.17};
    for (int n = 0; n < 4; n++) {
        double skin = 0.01, k = 0.025, r = 0.0;
        char id[64];
        *c = pb_heat_case_default();
        c->width_m = 2.0 * skin + thick[n];
        c->height_m = 0.1;
        c->background = (PbHeatMaterial){PB_HEAT_AIR, k, 0.0};
        verify_heat_region(c, 0.0, skin, 0.0, 0.1, PB_HEAT_SOLID, 1.0);
        verify_heat_region(c, skin + thick[n], c->width_m, 0.0, 0.1, PB_HEAT_SOLID, 1.0);
        c->physics.flow = PB_HEAT_FLOW_NONE;
        c->physics.radiation_w_m2k = 4.21;
        c->physics.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FIXED, 20.0, 0.0};
        c->physics.side[PB_HEAT_RIGHT] = (PbHeatSide){PB_HEAT_FIXED, 0.0, 0.0};
        r = 0.1 * 20.0 / verify_heat_figures(c, 32, 8).heat_w_m[PB_HEAT_LEFT] - 2.0 * skin / 1.0;
        snprintf(id, sizeof id, "heat.iso6946.layer%gmm", thick[n] * 1e3);
        verify_abs(sink, id, "R of an upright air layer", "m2 K/W",
                   VERIFY_SOURCE(CALCULATED, "ISO 6946, Table 2 (from memory), given to 0.01"),
                   table[n], r, 0.005);
    }
}

/* What ISO 6946:2017, Annex D gives for an airspace between plain faces, written anew: emissivity
 * 0.9, 5.1 W/(m2 K) of black radiation at 10 C, air of 0.025 W/(m K). way: 1 up, 0 level, -1 down
 */
static double iso_airspace_m2k_w(double thick_m, double dt_k, int way)
{
    double glow = 5.1 / (2.0 / 0.9 - 1.0);
    double slim = pb_pow(thick_m, -0.44), cube = pb_pow(dt_k, 1.0 / 3.0);
    double film = way > 0   ? (dt_k > 5.0 ? 1.14 * cube : 1.95)
                  : way < 0 ? (dt_k > 5.0 ? 0.09 * pb_pow(dt_k, 0.187) * slim : 0.12 * slim)
                            : (dt_k > 5.0 ? 0.73 * cube : 1.25);
    return 1.0 / (glow + pb_max(film, 0.025 / thick_m));
}

/* R of an unfilled cavity 2.4 m long, one face `dt_k` warmer than the other. */
static double cavity_m2k_w(PbHeatCase *c, double thick_m, double dt_k, int way)
{
    double skin = 0.002, k = 10.0; /* plates that hardly resist */
    PbConstants shipped = pb_constants_default();
    *c = pb_heat_case_default();
    c->width_m = 2.0 * skin + thick_m;
    c->height_m = 2.4;
    c->background = (PbHeatMaterial){PB_HEAT_AIR, shipped.heat_air_k_w_mk, 0.0};
    verify_heat_region(c, 0.0, skin, 0.0, 2.4, PB_HEAT_SOLID, k);
    verify_heat_region(c, skin + thick_m, c->width_m, 0.0, 2.4, PB_HEAT_SOLID, k);
    c->physics.radiation_w_m2k = shipped.gap_radiation_w_m2k;
    c->void_convection_w_m2k = shipped.void_convection_w_m2k;
    c->physics.up_x = way == 0 ? 0.0 : way;
    c->physics.up_y = way == 0 ? 1.0 : 0.0;
    c->physics.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FIXED, 10.0 + 0.5 * dt_k, 0.0};
    c->physics.side[PB_HEAT_RIGHT] = (PbHeatSide){PB_HEAT_FIXED, 10.0 - 0.5 * dt_k, 0.0};
    VerifyHeatFigures f = verify_heat_figures(c, 20, 40);
    return 2.4 * dt_k / f.heat_w_m[PB_HEAT_LEFT] - 2.0 * skin / k;
}

static void airspaces(const VerifySink *sink, PbHeatCase *c)
{
    static const double thick_mm[] = {5, 10, 12.5, 15, 20, 50, 100, 300};
    static const char *const flow[] = {"down", "level", "up"};
    for (int way = -1; way <= 1; way++) {
        for (int n = 0; n < 8; n++) {
            for (int big = 0; big < 2; big++) {
                double thick_m = 1e-3 * thick_mm[n], dt_k = big ? 10.0 : 5.0;
                char id[64], what[96];
                snprintf(id, sizeof id, "heat.airspace.%s.%gmm.%gK", flow[way + 1], thick_mm[n],
                         dt_k);
                snprintf(what, sizeof what, "R of an unfilled cavity, heat flow %s", flow[way + 1]);
                verify_rel(sink, id, what, "m2 K/W",
                           VERIFY_SOURCE(CALCULATED, "ISO 6946:2017, Annex D (airspaces)"),
                           iso_airspace_m2k_w(thick_m, dt_k, way),
                           cavity_m2k_w(c, thick_m, dt_k, way), 0.02);
            }
        }
    }
}

void verify_heat_walls(const VerifySink *sink, PbHeatCase *c)
{
    iso_case1(sink, c);
    iso_case2(sink, c);
    stud_wall(sink, c);
    air_layers(sink, c);
    airspaces(sink, c);
    bay_gaps(sink, c);
    bay_voids(sink, c);
    void_model(sink, c);
    loop_flow(sink, c);
    mirror(sink, c);
}
