/* Events in their order, without a window: the same clicks and keys do the same whether they all
 * come between two pictures or one by one. */
#include "suite.h"
#include "ui/ui.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ID_NAME = 1, ID_PATH, ID_AREA, ID_SLIDER, ID_BUTTON, ID_BOX };

typedef struct Form {
    char name[40], path[40], area[12], box[60];
    double slider;
    int pressed, entered;
} Form;

static UiText *text;
static Ui ui;
static Form form;
static char clipboard[UI_TYPED_BYTES];

static const GfxRect name_at = {10, 10, 200, 30}, path_at = {10, 50, 200, 30},
                     area_at = {10, 90, 200, 30}, slider_at = {20, 130, 100, 30},
                     button_at = {10, 170, 100, 30}, box_at = {10, 210, 120, 90};

static void set_up(void)
{
    char why[300] = "";
    text = ui_text_create(PB_TEST_FONTS "/B612-Regular.otf", PB_TEST_FONTS "/B612-Bold.otf", why,
                          sizeof why);
    ck_assert_msg(text != NULL, "%s", why);
}

static void tear_down(void)
{
    ui_free(&ui);
    ui_text_destroy(text);
}

static void lay_out(void)
{
    ui_begin(&ui, 640, 400, 1.0f);
    ui_text_field(&ui, ID_NAME, name_at, form.name, sizeof form.name, "name");
    ui_text_field(&ui, ID_PATH, path_at, form.path, sizeof form.path, "path");
    ui_figure_field(&ui, ID_AREA, area_at, form.area, sizeof form.area);
    ui_slider(&ui, ID_SLIDER, slider_at, form.slider, 0.1, -1.0);
    ui_button(&ui, ID_BUTTON, button_at, "Go", 0, 0);
    ui_text_box(&ui, ID_BOX, box_at, form.box, sizeof form.box, "reason");
    ui_end(&ui);
    form.pressed += ui_answered(&ui, ID_BUTTON, NULL);
    (void)ui_answered(&ui, ID_SLIDER, &form.slider);
    for (int id = ID_NAME; id <= ID_AREA; id++) {
        double entered = 0.0;
        (void)ui_answered(&ui, id, &entered);
        form.entered += entered > 0.5;
    }
    if (ui.copied[0] != '\0') {
        snprintf(clipboard, sizeof clipboard, "%s", ui.copied);
        ui.copied[0] = '\0';
    }
}

/* `each` events between two pictures, as app_input_event takes them. */
static void play(const UiEvent *events, int count, int each)
{
    for (int i = 0; i < count; i++) {
        if (ui_must_lay_out(&ui, events[i].kind)) {
            lay_out();
        }
        ui_take(&ui, &events[i]);
        if ((i + 1) % each == 0 || i + 1 == count) {
            lay_out();
        }
    }
}

/* From the same start, one event a picture and then all in one; `form` is what both gave. */
static void play_both(const Form *start, const UiEvent *events, int count)
{
    Form slow;
    for (int all = 0; all < 2; all++) {
        ui_free(&ui);
        ui_init(&ui, text, ui_theme(0));
        form = *start;
        lay_out();
        play(events, count, all ? count : 1);
        if (!all) {
            slow = form;
        }
    }
    ck_assert_str_eq(form.name, slow.name);
    ck_assert_str_eq(form.path, slow.path);
    ck_assert_str_eq(form.area, slow.area);
    ck_assert_str_eq(form.box, slow.box);
    ck_assert_double_eq(form.slider, slow.slider);
    ck_assert_int_eq(form.pressed, slow.pressed);
    ck_assert_int_eq(form.entered, slow.entered);
}

#define PLAY(start, ...)                                                                           \
    do {                                                                                           \
        const UiEvent events_[] = {__VA_ARGS__};                                                   \
        play_both((start), events_, (int)(sizeof events_ / sizeof events_[0]));                    \
    } while (0)

#define CLICK_AT(px, py)                                                                           \
    {.kind = UI_MOVE, .x = (px), .y = (py)},                                                       \
        {.kind = UI_PRESS, .x = (px), .y = (py), .clicks = 1},                                     \
    {                                                                                              \
        .kind = UI_RELEASE, .x = (px), .y = (py), .clicks = 1                                      \
    }
#define CLICK(r) CLICK_AT((r).x + 0.5f * (r).w, (r).y + 0.5f * (r).h)
#define KEY(k)                                                                                     \
    {                                                                                              \
        .kind = UI_KEY, .key = (k)                                                                 \
    }
#define WITH_SHIFT(k)                                                                              \
    {                                                                                              \
        .kind = UI_KEY, .key = (k), .shift = 1                                                     \
    }
#define TYPE(t)                                                                                    \
    {                                                                                              \
        .kind = UI_TYPE, .text = (t)                                                               \
    }

START_TEST(twelve_backspaces_in_one_frame_remove_twelve)
{
    const Form start = {.name = "fifteen letters"};
    PLAY(&start, CLICK_AT(205, 25), KEY(UI_KEY_ERASE), KEY(UI_KEY_ERASE), KEY(UI_KEY_ERASE),
         KEY(UI_KEY_ERASE), KEY(UI_KEY_ERASE), KEY(UI_KEY_ERASE), KEY(UI_KEY_ERASE),
         KEY(UI_KEY_ERASE), KEY(UI_KEY_ERASE), KEY(UI_KEY_ERASE), KEY(UI_KEY_ERASE),
         KEY(UI_KEY_ERASE));
    ck_assert_str_eq(form.name, "fif");
}
END_TEST

START_TEST(text_typed_after_a_click_goes_to_the_field_clicked)
{
    const Form start = {.name = "a", .path = "b"};
    PLAY(&start, CLICK_AT(205, 25), TYPE("1"), CLICK_AT(205, 65), TYPE("2"), KEY(UI_KEY_TAB),
         TYPE("3"));
    ck_assert_str_eq(form.name, "a1");
    ck_assert_str_eq(form.path, "b2");
    ck_assert_str_eq(form.area, "3");
}
END_TEST

START_TEST(letters_and_erasing_keep_their_order)
{
    const Form start = {.name = "25"};
    PLAY(&start, CLICK_AT(205, 25), KEY(UI_KEY_ERASE), KEY(UI_KEY_ERASE), TYPE("1"), TYPE("8"),
         KEY(UI_KEY_HOME), TYPE("x"), KEY(UI_KEY_RIGHT), KEY(UI_KEY_ERASE_NEXT), TYPE("y"),
         KEY(UI_KEY_LEFT), TYPE("z"), KEY(UI_KEY_END), TYPE("!"), KEY(UI_KEY_ENTER));
    ck_assert_str_eq(form.name, "x1zy!");
    ck_assert_int_eq(form.entered, 1);
}
END_TEST

START_TEST(a_click_within_one_frame_moves_the_slider_and_presses_the_button)
{
    const Form start = {0};
    PLAY(&start, CLICK_AT(80, 145), CLICK(button_at), CLICK(button_at));
    ck_assert_double_eq_tol(form.slider, 0.6, 1e-6);
    ck_assert_int_eq(form.pressed, 2);
}
END_TEST

START_TEST(a_drag_within_one_frame_ends_where_it_was_let_go)
{
    const Form start = {0};
    PLAY(&start, {.kind = UI_PRESS, .x = 30, .y = 145}, {.kind = UI_MOVE, .x = 60, .y = 145},
         {.kind = UI_MOVE, .x = 90, .y = 145}, {.kind = UI_RELEASE, .x = 90, .y = 145},
         {.kind = UI_MOVE, .x = 110, .y = 145});
    ck_assert_double_eq_tol(form.slider, 0.7, 1e-6);
}
END_TEST

START_TEST(a_slider_takes_arrows_home_and_end)
{
    const Form start = {.slider = 0.5};
    PLAY(&start, CLICK_AT(70, 145), KEY(UI_KEY_RIGHT), KEY(UI_KEY_RIGHT));
    ck_assert_double_eq_tol(form.slider, 0.7, 1e-6);
    PLAY(&start, CLICK_AT(70, 145), KEY(UI_KEY_END));
    ck_assert_double_eq_tol(form.slider, 1.0, 1e-6);
    PLAY(&start, CLICK_AT(70, 145), KEY(UI_KEY_HOME), KEY(UI_KEY_RIGHT));
    ck_assert_double_eq_tol(form.slider, 0.1, 1e-6);
}
END_TEST

START_TEST(what_is_selected_is_replaced_copied_and_cut)
{
    const Form start = {.name = "one two"};
    PLAY(&start, CLICK_AT(205, 25), KEY(UI_KEY_ALL), TYPE("new"));
    ck_assert_str_eq(form.name, "new");
    PLAY(&start, CLICK_AT(205, 25), WITH_SHIFT(UI_KEY_LEFT), WITH_SHIFT(UI_KEY_LEFT),
         KEY(UI_KEY_ERASE));
    ck_assert_str_eq(form.name, "one t");
    PLAY(&start, CLICK_AT(205, 25), WITH_SHIFT(UI_KEY_HOME), KEY(UI_KEY_COPY), KEY(UI_KEY_LEFT),
         TYPE("<"));
    ck_assert_str_eq(clipboard, "one two");
    ck_assert_str_eq(form.name, "<one two");
    PLAY(&start, CLICK_AT(205, 25), KEY(UI_KEY_HOME), WITH_SHIFT(UI_KEY_RIGHT),
         WITH_SHIFT(UI_KEY_RIGHT), WITH_SHIFT(UI_KEY_RIGHT), KEY(UI_KEY_CUT));
    ck_assert_str_eq(clipboard, "one");
    ck_assert_str_eq(form.name, " two");
    PLAY(&start, CLICK_AT(205, 25), KEY(UI_KEY_HOME), WITH_SHIFT(UI_KEY_END),
         KEY(UI_KEY_ERASE_NEXT));
    ck_assert_str_eq(form.name, "");
}
END_TEST

START_TEST(a_double_click_selects_a_word_and_a_drag_what_it_passes)
{
    const Form start = {.name = "one two"};
    float x = 20.0f + ui_text_width(text, 14, UI_REGULAR, "one t", -1);
    PLAY(&start, CLICK_AT(x, 25), {.kind = UI_PRESS, .x = x, .y = 25, .clicks = 2},
         {.kind = UI_RELEASE, .x = x, .y = 25}, TYPE("six"));
    ck_assert_str_eq(form.name, "one six");
    PLAY(&start, {.kind = UI_PRESS, .x = x, .y = 25, .clicks = 1},
         {.kind = UI_MOVE, .x = 12, .y = 25}, {.kind = UI_RELEASE, .x = 12, .y = 25}, TYPE("f"));
    ck_assert_str_eq(form.name, "fwo");
}
END_TEST

START_TEST(a_figure_is_retyped_after_one_click_or_tab)
{
    const Form start = {.path = "p", .area = "127"};
    PLAY(&start, CLICK(area_at), TYPE("1"), TYPE("4"), TYPE("0"));
    ck_assert_str_eq(form.area, "140");
    PLAY(&start, CLICK_AT(205, 65), KEY(UI_KEY_TAB), TYPE("9"));
    ck_assert_str_eq(form.area, "9");
    PLAY(&start, CLICK(area_at), CLICK_AT(205, 105), TYPE("5")); /* a second click puts the caret */
    ck_assert_str_eq(form.area, "1275");
}
END_TEST

START_TEST(a_box_wraps_takes_clicks_and_turns_line_ends_into_spaces)
{
    const Form start = {.box = ""};
    PLAY(&start, CLICK(box_at), TYPE("pulled\ntoo early, twice"), KEY(UI_KEY_HOME), TYPE("He "));
    ck_assert_str_eq(form.box, "He pulled too early, twice");
    const Form full = {.box = "pulled back too early, twice"};
    PLAY(&full, CLICK_AT(12, 250), TYPE("|")); /* the start of a later line */
    ck_assert_str_ne(form.box, "|pulled back too early, twice");
    ck_assert_str_ne(form.box, "pulled back too early, twice|");
    ck_assert_ptr_nonnull(strchr(form.box, '|'));
    ui.in.typed[0] = '\0';
    ui_take(&ui, &(UiEvent)TYPE("fifty more letters than this box has room for, all of them"));
    ui_begin(&ui, 640, 400, 1.0f);
    ui_text_box(&ui, ID_BOX, box_at, form.box, sizeof form.box, "reason");
    ck_assert(ui.has_left_out);
    ui_end(&ui);
    ck_assert_uint_eq(strlen(form.box), sizeof form.box - 1);
}
END_TEST

START_TEST(a_paste_longer_than_there_is_room_ends_at_a_whole_character)
{
    char much[UI_TYPED_BYTES + 20];
    for (size_t i = 0; i + 1 < sizeof much; i += 2) {
        memcpy(much + i, "\xc3\xa9", 3);
    }
    ui_init(&ui, text, ui_theme(0));
    ui_take(&ui, &(UiEvent)TYPE("a"));
    ui_take(&ui, &(UiEvent)TYPE(much));
    ck_assert_uint_eq(strlen(ui.in.typed), 1 + 2 * ((UI_TYPED_BYTES - 2) / 2));
}
END_TEST

START_TEST(hovering_needs_no_layout_of_its_own)
{
    ui_init(&ui, text, ui_theme(0));
    ui_take(&ui, &(UiEvent){.kind = UI_MOVE, .x = 5, .y = 5});
    ck_assert(!ui_must_lay_out(&ui, UI_MOVE));
    ck_assert(!ui_must_lay_out(&ui, UI_PRESS));
    ui_take(&ui, &(UiEvent){.kind = UI_PRESS, .x = 5, .y = 5});
    ck_assert(ui_must_lay_out(&ui, UI_MOVE));
    lay_out();
    ui_take(&ui, &(UiEvent){.kind = UI_MOVE, .x = 9, .y = 5});
    ck_assert(!ui_must_lay_out(&ui, UI_MOVE));
    ck_assert(ui_must_lay_out(&ui, UI_RELEASE));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("ui events");
    TCase *tc = tcase_create("normal");
    tcase_add_checked_fixture(tc, set_up, tear_down);
    tcase_add_test(tc, twelve_backspaces_in_one_frame_remove_twelve);
    tcase_add_test(tc, text_typed_after_a_click_goes_to_the_field_clicked);
    tcase_add_test(tc, letters_and_erasing_keep_their_order);
    tcase_add_test(tc, a_click_within_one_frame_moves_the_slider_and_presses_the_button);
    tcase_add_test(tc, a_drag_within_one_frame_ends_where_it_was_let_go);
    tcase_add_test(tc, a_slider_takes_arrows_home_and_end);
    tcase_add_test(tc, what_is_selected_is_replaced_copied_and_cut);
    tcase_add_test(tc, a_double_click_selects_a_word_and_a_drag_what_it_passes);
    tcase_add_test(tc, a_figure_is_retyped_after_one_click_or_tab);
    tcase_add_test(tc, a_box_wraps_takes_clicks_and_turns_line_ends_into_spaces);
    tcase_add_test(tc, a_paste_longer_than_there_is_room_ends_at_a_whole_character);
    tcase_add_test(tc, hovering_needs_no_layout_of_its_own);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
