/* Pictures of a run by their shapes: what the screen and the page both paint. */
#include "picture/strip.h"
#include "picture/travel.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Letters are as wide as 0.6 of their size; figures are bare. */
static float width(const void *user, const char *text, float size, int is_bold)
{
    (void)user;
    (void)is_bold;
    return 0.6f * size * (float)strlen(text);
}

static void figure(const void *user, PicFigure what, double value, char *out, size_t size)
{
    (void)user;
    snprintf(out, size, what == PIC_STOP ? "stop %.0f" : "%.0f", value);
}

static const PicGround ground = {1.0f, 1.0f, 1, NULL, width, figure};
static PbRubric rubric;
static GfxShapes list;

/* Two stops, 40 s and 10 s, the second one under target; a bay of 2 m on 400 px, 2 px a second. */
static const PbLift lifts[2] = {
    {.from_s = 10, .to_s = 50, .mouth_y_m = 1.5, .mass_kg = 1, .density_kg_m3 = 60},
    {.from_s = 52, .to_s = 62, .mouth_y_m = 1.2, .step_m = 0.3, .mass_kg = 1, .density_kg_m3 = 41}};

static PicTravel travel(void)
{
    rubric = pb_rubric_default();
    return (PicTravel){.area = {100, 0, 200, 400},
                       .bottom = 400.0,
                       .px_m = 200.0,
                       .span_s = 100.0,
                       .height_m = 2.0,
                       .target_kg_m3 = 56.0,
                       .lifts = lifts,
                       .lift_count = 2,
                       .rubric = &rubric,
                       .chosen = -1};
}

static int count_of(GfxShapeKind kind, GfxInk ink)
{
    int n = 0;
    for (int i = 0; i < list.count; i++) {
        n += list.shapes[i].kind == kind && list.shapes[i].ink == ink;
    }
    return n;
}

static const GfxShape *first(GfxShapeKind kind, GfxInk ink)
{
    for (int i = 0; i < list.count; i++) {
        if (list.shapes[i].kind == kind && list.shapes[i].ink == ink) {
            return &list.shapes[i];
        }
    }
    ck_abort_msg("no shape of kind %d in ink %d", (int)kind, (int)ink);
    return NULL;
}

static const GfxShape *text(const char *words)
{
    for (int i = 0; i < list.count; i++) {
        if (list.shapes[i].kind == GFX_TEXT && strcmp(list.shapes[i].text, words) == 0) {
            return &list.shapes[i];
        }
    }
    return NULL;
}

START_TEST(a_soft_stop_is_hatched_and_a_good_one_is_not)
{
    PicTravel t = travel();
    pic_travel_stops(&list, &ground, &t, PIC_FIGURES_INSIDE);
    const GfxShape *good = first(GFX_ROUND, GFX_WELL), *soft = first(GFX_ROUND, GFX_DANGER_WASH);
    ck_assert_double_eq((double)good->box.x, 120.0); /* 10 s in */
    ck_assert_double_eq((double)good->box.w, 80.0);
    ck_assert_double_eq((double)good->box.y, 70.0); /* 1.65 m: a hand's reach above the mouth */
    ck_assert_double_eq_tol((double)soft->box.y, 130.0, 1e-3); /* half its step above 1.2 m */
    ck_assert_double_eq_tol((double)soft->box.h, 60.0, 1e-3);
    ck_assert_int_eq(count_of(GFX_PATH, GFX_DANGER), 11); /* lines 7 px apart over 20 by 60 px */
    for (int i = 0; i < list.point_count; i++) {
        const GfxPoint *p = &list.points[i];
        ck_assert(p->x >= soft->box.x && p->x <= soft->box.x + soft->box.w + 1e-3f);
        ck_assert(p->y >= soft->box.y && p->y <= soft->box.y + soft->box.h + 1e-3f);
    }
    ck_assert_int_eq(count_of(GFX_ROUND_LINE, GFX_EDGE), 1);
    ck_assert_int_eq(count_of(GFX_ROUND_LINE, GFX_DANGER), 1);
    t.chosen = 1;
    pic_free(&list);
    pic_travel_stops(&list, &ground, &t, PIC_FIGURES_INSIDE);
    ck_assert_double_eq((double)first(GFX_ROUND_LINE, GFX_ACCENT)->width, 3.0);
}
END_TEST

START_TEST(a_density_stands_in_its_stop_or_beside_it)
{
    PicTravel t = travel();
    pic_travel_stops(&list, &ground, &t, PIC_FIGURES_INSIDE);
    ck_assert_ptr_nonnull(text("60"));
    ck_assert_ptr_null(text("41")); /* 16.8 px on 20 px, with 6 to spare: no room */
    ck_assert_int_eq(text("60")->align, GFX_CENTRE);
    pic_free(&list);
    pic_travel_stops(&list, &ground, &t, PIC_FIGURES_NUMBERED);
    ck_assert_ptr_nonnull(text("stop 1"));
    const GfxShape *beside = text("41");
    ck_assert_int_eq(beside->align, GFX_LEFT);
    ck_assert_int_eq(beside->ink, GFX_DANGER);
    ck_assert_double_eq_tol((double)beside->box.x, 100.0 + 2.0 * 62.0 + 4.0, 1e-3);
    ck_assert_double_eq((double)(text("stop 2")->box.y - beside->box.y), 15.0);
    pic_free(&list);
    t.span_s = 64.0; /* now the stop is near the right edge */
    pic_travel_stops(&list, &ground, &t, PIC_FIGURES_NUMBERED);
    beside = text("41");
    ck_assert_int_eq(beside->align, GFX_RIGHT);
    ck_assert_double_lt((double)beside->box.x, 100.0 + 200.0 * 52.0 / 64.0);
}
END_TEST

START_TEST(what_is_no_stop_or_lies_before_the_chart_is_not_drawn)
{
    PicTravel t = travel();
    rubric.stop_min_kg = 1.1;
    pic_travel_stops(&list, &ground, &t, PIC_FIGURES_BESIDE);
    ck_assert_int_eq(list.count, 0);
    rubric.stop_min_kg = 0.02;
    t.from_s = 51.0;
    pic_travel_stops(&list, &ground, &t, PIC_FIGURES_BESIDE);
    ck_assert_int_eq(count_of(GFX_ROUND, GFX_WELL), 0);
    ck_assert_int_eq(count_of(GFX_ROUND, GFX_DANGER_WASH), 1);
}
END_TEST

START_TEST(the_way_keeps_the_ends_of_level_stretches_alone)
{
    PbSample samples[401];
    PicTravel t = travel();
    for (int i = 0; i < 401; i++) { /* up to 1.5 m in 10 s, there to the end */
        float s = 0.2f * (float)i;
        samples[i] = (PbSample){.time_s = s, .mouth_y_m = s < 10.0f ? 0.15f * s : 1.5f};
    }
    t.samples = samples;
    t.sample_count = 401;
    pic_travel_trace(&list, &ground, &t, &(GfxPoint){290, 50});
    const GfxShape *way = first(GFX_PATH, GFX_INK);
    const GfxPoint *p = list.points + way->first;
    ck_assert_int_lt(way->count, 60);
    ck_assert_double_eq((double)p[0].x, 100.0);
    ck_assert_double_eq((double)p[0].y, 400.0);
    ck_assert_double_eq_tol((double)p[way->count - 2].x, 260.0, 1e-2); /* 80 s */
    ck_assert_double_eq_tol((double)p[way->count - 2].y, 100.0, 1e-2); /* 1.5 m */
    ck_assert_double_eq((double)p[way->count - 1].x, 290.0);           /* now */
    pic_travel_rules(&list, &ground, &t, 0);
    ck_assert_int_eq(count_of(GFX_BOX, GFX_RULE), 4); /* 0, 0.5, 1 and 1.5 m */
}
END_TEST

START_TEST(a_strip_shows_its_signal_from_nothing_to_the_top)
{
    const PbSample samples[3] = {{0, 0, 0, 0.01f, 0.1f}, {50, 0, 5e3f, 0, 0}, {100, 0, 1e4f, 0, 0}};
    PicStrip s = {{0, 0, 100, 54}, 100.0, 1e4, PIC_PRESSURE, samples, 3};
    pic_strip_ground(&list, &ground, &s);
    pic_strip_curve(&list, &ground, &s, 0);
    const GfxPoint *p = list.points + first(GFX_PATH, GFX_INK)->first;
    ck_assert_double_eq((double)p[0].y, 52.0); /* two px inside the frame */
    ck_assert_double_eq((double)p[1].x, 50.0);
    ck_assert_double_eq((double)p[1].y, 27.0);
    ck_assert_double_eq((double)p[2].y, 2.0);
    ck_assert_double_eq(pic_signal(&samples[0], PIC_FLOW), (double)0.01f);
    ck_assert_double_eq(pic_signal(&samples[0], PIC_FEED), (double)0.1f);
    ck_assert_int_eq(list.is_short, 0);
}
END_TEST

START_TEST(rules_stand_half_a_meter_or_two_feet_apart)
{
    PicTravel t = travel();
    ck_assert_double_eq(pic_travel_rule_m(0), 0.5);
    ck_assert_double_eq_tol(pic_travel_rule_m(1), 0.6096, 1e-12);
    pic_travel_rules(&list, &ground, &t, 0);
    ck_assert_int_eq(count_of(GFX_BOX, GFX_RULE), 4); /* 0 to 1.5 m of a bay of 2 m */
    ck_assert_double_eq((double)list.shapes[1].box.y, 300.0);
    pic_free(&list);
    pic_travel_rules(&list, &ground, &t, 1);
    ck_assert_int_eq(count_of(GFX_BOX, GFX_RULE), 4); /* 0, 2, 4 and 6 ft */
    ck_assert_double_eq((double)list.shapes[1].box.y, 278.0);
}
END_TEST

static void give_back(void)
{
    pic_free(&list);
}

int main(void)
{
    Suite *suite = suite_create("picture");
    TCase *normal = tcase_create("normal");
    tcase_add_checked_fixture(normal, NULL, give_back);
    tcase_add_test(normal, a_soft_stop_is_hatched_and_a_good_one_is_not);
    tcase_add_test(normal, a_density_stands_in_its_stop_or_beside_it);
    tcase_add_test(normal, what_is_no_stop_or_lies_before_the_chart_is_not_drawn);
    tcase_add_test(normal, the_way_keeps_the_ends_of_level_stretches_alone);
    tcase_add_test(normal, a_strip_shows_its_signal_from_nothing_to_the_top);
    tcase_add_test(normal, rules_stand_half_a_meter_or_two_feet_apart);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
