/* Widgets and text on the draw list, without a window: clicks, drags, Tab, wrapping, UTF-8. */
#include "suite.h"
#include "ui/ui.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static UiText *text;
static Ui ui;

static void set_up(void)
{
    char why[300] = "";
    text = ui_text_create(PB_TEST_FONTS "/B612-Regular.otf", PB_TEST_FONTS "/B612-Bold.otf", why,
                          sizeof why);
    ck_assert_msg(text != NULL, "%s", why);
    ui_init(&ui, text, ui_theme(0));
}

static void tear_down(void)
{
    ui_free(&ui);
    ui_text_destroy(text);
}

static const GfxRect box = {100.0f, 50.0f, 200.0f, 40.0f};

static void mouse(float x, float y, int down, int pressed, int released)
{
    ui.in.mouse_x = x;
    ui.in.mouse_y = y;
    ui.in.is_down = down;
    ui.in.pressed = pressed;
    ui.in.released = released;
}

static int button_frame(int disabled)
{
    ui_begin(&ui, 640, 400, 1.0f);
    ui_button(&ui, 7, box, "Go", 0, disabled);
    ui_end(&ui);
    return ui_answered(&ui, 7, NULL);
}

START_TEST(a_button_answers_a_press_and_release_on_it)
{
    mouse(150, 60, 1, 1, 0);
    ck_assert_int_eq(button_frame(0), 0);
    mouse(150, 60, 0, 0, 1);
    ck_assert_int_eq(button_frame(0), 1);
    ck_assert_int_eq(button_frame(0), 0);
    mouse(150, 60, 0, 1, 1); /* both in one frame, as on a slow machine */
    ck_assert_int_eq(button_frame(0), 1);
}
END_TEST

START_TEST(a_release_elsewhere_and_a_disabled_button_do_nothing)
{
    mouse(150, 60, 1, 1, 0);
    button_frame(0);
    mouse(500, 300, 0, 0, 1);
    ck_assert_int_eq(button_frame(0), 0);
    mouse(150, 60, 0, 1, 1);
    ck_assert_int_eq(button_frame(1), 0);
}
END_TEST

START_TEST(widgets_under_a_card_sleep)
{
    ui.modal = 1000;
    mouse(150, 60, 0, 1, 1);
    ck_assert_int_eq(button_frame(0), 0);
    ck_assert_int_eq(ui.order_count, 0);
}
END_TEST

START_TEST(a_slider_follows_the_mouse_and_the_arrows)
{
    double v = 0.0;
    mouse(200, 70, 1, 1, 0);
    ui_begin(&ui, 640, 400, 1.0f);
    ui_slider(&ui, 3, box, v, 0.1, -1.0);
    ui_end(&ui);
    ck_assert(ui_answered(&ui, 3, &v));
    ck_assert_double_eq_tol(v, 0.5, 1e-6);
    mouse(900, 70, 1, 0, 0); /* dragged far out: held at the end */
    ui_begin(&ui, 640, 400, 1.0f);
    ui_slider(&ui, 3, box, v, 0.1, -1.0);
    ui_end(&ui);
    ck_assert(ui_answered(&ui, 3, &v));
    ck_assert_double_eq(v, 1.0);
    mouse(10, 10, 0, 0, 1);
    ui.in.left = 1;
    ui_begin(&ui, 640, 400, 1.0f);
    ui_slider(&ui, 3, box, v, 0.1, -1.0);
    ui_end(&ui);
    ck_assert(ui_answered(&ui, 3, &v));
    ck_assert_double_eq_tol(v, 0.9, 1e-9);
}
END_TEST

START_TEST(tab_walks_in_drawing_order_and_comes_round)
{
    const char *labels[2] = {"a", "b"};
    const int expected[4] = {1, 2, 3, 1};
    for (int k = 0; k < 4; k++) {
        double v = 0.0;
        ui.in.next = 1;
        ui_begin(&ui, 640, 400, 1.0f);
        ui_button(&ui, 1, box, "x", 0, 0);
        ui_segments(&ui, 2, box, labels, 2, 0);
        ui_slider(&ui, 3, box, v, 0.1, -1.0);
        ui_end(&ui);
        ck_assert_int_eq(ui.focus, expected[k]);
    }
}
END_TEST

/* A list may hold more rows than Tab walks through: the field after them can be typed in still. */
START_TEST(a_field_behind_many_widgets_keeps_the_keyboard)
{
    char words[12] = "";
    ui.focus = 9;
    for (int frame = 0; frame < 2; frame++) {
        snprintf(ui.in.typed, sizeof ui.in.typed, "%s", frame == 0 ? "Le" : "arner");
        ui_begin(&ui, 640, 400, 1.0f);
        for (int i = 0; i < 2 * UI_MAX_FOCUS; i++) {
            ui_focusable(&ui, 1000 + i);
        }
        ui_text_field(&ui, 9, box, words, sizeof words, "name");
        ui_end(&ui);
    }
    ck_assert_str_eq(words, "Learner");
    ui_begin(&ui, 640, 400, 1.0f);
    ui_end(&ui);
    ck_assert_int_eq(ui.focus, 0); /* gone with its widget */
}
END_TEST

/* Mice turn by whole notches, touch pads by parts of one. */
START_TEST(the_wheel_moves_lists_by_whole_rows)
{
    const float turned[] = {0.0f, 1.0f, -1.0f, 3.0f, 0.3f, -0.2f};
    const int rows[] = {0, -1, 1, -3, -1, 1};
    for (int i = 0; i < 6; i++) {
        ui.in.wheel = turned[i];
        ck_assert_int_eq(ui_wheel_rows(&ui), rows[i]);
    }
}
END_TEST

static GfxRect bounds(void)
{
    const GfxVertex *v = ui.list.vertices;
    float x0 = v[0].x, x1 = v[0].x, y0 = v[0].y, y1 = v[0].y;
    for (uint32_t i = 1; i < ui.list.vertex_count; i++) {
        x0 = v[i].x < x0 ? v[i].x : x0;
        x1 = v[i].x > x1 ? v[i].x : x1;
        y0 = v[i].y < y0 ? v[i].y : y0;
        y1 = v[i].y > y1 ? v[i].y : y1;
    }
    return (GfxRect){x0, y0, x1 - x0, y1 - y0};
}

START_TEST(dashes_stay_between_their_ends_whichever_way_they_run)
{
    const GfxColor ink = {0, 0, 0, 255};
    const UiPoint end[4] = {{180, 100}, {20, 100}, {100, 180}, {100, 20}};
    for (int i = 0; i < 4; i++) {
        ui_begin(&ui, 640, 400, 1.0f);
        ui_dashes(&ui, 100, 100, end[i].x, end[i].y, 1.0f, 5.0f, ink);
        ui_end(&ui);
        GfxRect b = bounds();
        ck_assert(b.x >= 20.0f && b.y >= 20.0f);
        ck_assert(b.x + b.w <= 181.0f && b.y + b.h <= 181.0f);
        ck_assert(end[i].x < 100.0f ? b.x + b.w <= 101.0f : b.x >= 100.0f || end[i].x == 100.0f);
        ck_assert(b.w > 70.0f || b.h > 70.0f);
    }
}
END_TEST

/* A panel with no room left for it. */
START_TEST(a_shape_of_negative_size_draws_nothing)
{
    const GfxColor ink = {0, 0, 0, 255};
    ui_begin(&ui, 640, 400, 1.0f);
    ui_round(&ui, (GfxRect){100, 100, -5, 40}, 6.0f, ink);
    ui_round(&ui, (GfxRect){100, 100, 40, -5}, 6.0f, ink);
    ui_round_line(&ui, (GfxRect){100, 100, -5, 40}, 6.0f, 1.0f, ink);
    ui_round_line(&ui, (GfxRect){100, 100, 0, 0}, 6.0f, 2.0f, ink);
    ui_circle(&ui, 100, 100, -1.0f, ink);
    ui_end(&ui);
    ck_assert_uint_eq(ui.list.vertex_count, 0);
}
END_TEST

START_TEST(a_paragraph_wraps_and_keeps_every_glyph)
{
    const char *words = "uno dos tres cuatro cinco seis siete ocho";
    GfxColor ink = {0, 0, 0, 255};
    ui_begin(&ui, 640, 400, 1.0f);
    float one = ui_paragraph(&ui, 0, 20, 2000, 14, UI_REGULAR, ink, words);
    uint32_t flat = ui.list.quad_count;
    float many = ui_paragraph(&ui, 0, 60, 80, 14, UI_REGULAR, ink, words);
    uint32_t wrapped = ui.list.quad_count - flat;
    ui_end(&ui);
    ck_assert_uint_eq(flat, 34); /* letters: spaces have no ink */
    ck_assert_uint_eq(wrapped, flat);
    ck_assert(many >= one * 4.0f);
}
END_TEST

START_TEST(digits_share_one_width_and_broken_bytes_are_one_mark)
{
    float w = ui_text_width(text, 14, UI_REGULAR, "1111", -1);
    ck_assert(w == ui_text_width(text, 14, UI_REGULAR, "8888", -1));
    const char *bytes = "\xC3\xB1\xFFz";
    ck_assert_uint_eq(ui_text_next(&bytes), 0xF1);
    ck_assert_uint_eq(ui_text_next(&bytes), 0xFFFD);
    ck_assert_uint_eq(ui_text_next(&bytes), 'z');
    ck_assert_uint_eq(ui_text_next(&bytes), 0);
    const char *cut = "\xE2\x82"; /* must not run past the end */
    ck_assert_uint_eq(ui_text_next(&cut), 0xFFFD);
    ck_assert_uint_eq(ui_text_next(&cut), 0);
}
END_TEST

START_TEST(a_full_atlas_starts_again)
{
    for (int size = 20; size < 160; size += 2) {
        for (uint32_t c = 'A'; c <= 'z'; c++) {
            ui_text_glyph(text, size, UI_BOLD, c);
        }
    }
    ck_assert_int_ge(ui_text_resets(text), 1);
    ck_assert_ptr_nonnull(ui_text_glyph(text, 14, UI_REGULAR, 'A'));
}
END_TEST

START_TEST(the_ramp_darkens_all_the_way_and_steps_at_the_target)
{
    int last = 2560000;
    for (int rho = 20; rho <= 80; rho++) {
        GfxColor c = ui_density_color(rho, 56.0);
        int light = 2126 * c.r + 7152 * c.g + 722 * c.b;
        ck_assert_int_lt(light, last);
        last = light;
    }
    GfxColor under = ui_density_color(55.99, 56.0), at = ui_density_color(56.0, 56.0);
    ck_assert_int_ge(under.g - at.g, 15);
}
END_TEST

static int field_frame(char *words, const char *typed)
{
    snprintf(ui.in.typed, sizeof ui.in.typed, "%s", typed);
    ui_begin(&ui, 640, 400, 1.0f);
    ui_text_field(&ui, 9, box, words, 12, "name");
    ui_end(&ui);
    double entered = 0.0;
    (void)ui_answered(&ui, 9, &entered);
    return entered > 0.5;
}

START_TEST(a_field_takes_whole_characters_at_its_caret)
{
    char words[12] = "";
    field_frame(words, "unseen"); /* it has no focus yet */
    ck_assert_str_eq(words, "");
    ui.focus = 9;
    field_frame(words, "Jos\xc3\xa9\tX"); /* a tab is no letter */
    ck_assert_str_eq(words, "Jos\xc3\xa9X");
    ui.in.erase = 1;
    field_frame(words, "");
    ui.in.erase = 1;
    field_frame(words, "");
    ck_assert_str_eq(words, "Jos"); /* both bytes of the letter went */
    ui.in.home = 1;
    field_frame(words, "");
    field_frame(words, "\xc3\x91");
    ck_assert_str_eq(words, "\xc3\x91Jos");
    ui.in.left = 1;
    field_frame(words, "");
    ui.in.erase_next = 1;
    field_frame(words, "");
    ck_assert_str_eq(words, "Jos");
    ui.in.end = 1;
    field_frame(words, "");
    field_frame(words, "efa Mar\xc3\xad"); /* the last letter would not fit whole */
    ck_assert_str_eq(words, "Josefa Mar");
    ui.in.enter = 1;
    ck_assert_int_eq(field_frame(words, ""), 1);
}
END_TEST

START_TEST(a_cut_label_stays_in_its_room)
{
    ui_begin(&ui, 640, 400, 1.0f);
    const char *words = "A nailer across most of the bay";
    float whole = ui_width(&ui, 14, UI_BOLD, words);
    GfxColor c = {0, 0, 0, 255};
    ck_assert(ui_label_cut(&ui, 0, 20, whole, 14, UI_BOLD, c, words) <= whole);
    for (float room = 40.0f; room < whole; room += 7.0f) {
        ck_assert(ui_label_cut(&ui, 0, 20, room, 14, UI_BOLD, c, words) <= room);
    }
    ui_end(&ui);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("ui");
    TCase *tc = tcase_create("normal");
    tcase_add_checked_fixture(tc, set_up, tear_down);
    tcase_add_test(tc, a_button_answers_a_press_and_release_on_it);
    tcase_add_test(tc, a_release_elsewhere_and_a_disabled_button_do_nothing);
    tcase_add_test(tc, widgets_under_a_card_sleep);
    tcase_add_test(tc, a_slider_follows_the_mouse_and_the_arrows);
    tcase_add_test(tc, tab_walks_in_drawing_order_and_comes_round);
    tcase_add_test(tc, a_field_takes_whole_characters_at_its_caret);
    tcase_add_test(tc, a_cut_label_stays_in_its_room);
    tcase_add_test(tc, a_field_behind_many_widgets_keeps_the_keyboard);
    tcase_add_test(tc, the_wheel_moves_lists_by_whole_rows);
    tcase_add_test(tc, dashes_stay_between_their_ends_whichever_way_they_run);
    tcase_add_test(tc, a_shape_of_negative_size_draws_nothing);
    tcase_add_test(tc, a_paragraph_wraps_and_keeps_every_glyph);
    tcase_add_test(tc, digits_share_one_width_and_broken_bytes_are_one_mark);
    tcase_add_test(tc, a_full_atlas_starts_again);
    tcase_add_test(tc, the_ramp_darkens_all_the_way_and_steps_at_the_target);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
