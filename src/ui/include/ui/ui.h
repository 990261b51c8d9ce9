/**
 * @file ui.h
 * @brief Drawing and widgets of one frame, rebuilt every frame from the caller's own state.
 *
 * The caller fills `in` from its events, calls ui_begin, draws and asks widgets, then ui_end.
 * A widget is named by a number that stays the same from frame to frame. Nothing here knows what
 * the numbers mean. Pixels of the drawable; `scale` is the text scale times that of the display.
 */
#ifndef UI_UI_H
#define UI_UI_H

#include "gfxtypes/draw.h"
#include "ui/text.h"
#include "ui/theme.h"

/** Widgets of one frame that Tab walks through; what comes after them has mouse and focus alone. */
#define UI_MAX_FOCUS 96

typedef struct UiPoint {
    float x, y;
} UiPoint;

typedef enum UiAlign { UI_LEFT, UI_CENTRE, UI_RIGHT } UiAlign;

/** One frame of input; counts and edges are of this frame only. */
typedef struct UiInput {
    float mouse_x, mouse_y;
    int is_down; /**< left button held */
    int pressed, released;
    float wheel;        /**< notches, + away from the person */
    int next, previous; /**< Tab, Shift+Tab */
    int left, right, up, down;
    int enter, space;
    int erase, erase_next, home, end; /**< Backspace, Delete, Home, End */
    int page_up, page_down;
    char typed[1024]; /**< UTF-8 that was typed or pasted: a path may be long */
} UiInput;

typedef struct Ui {
    GfxDrawList list;
    UiText *text;
    const UiTheme *theme;
    float scale;
    float width, height;
    UiInput in;
    int focus, active, hot;
    int is_ring_shown; /**< the last move was by keyboard */
    int order[UI_MAX_FOCUS];
    int order_count;
    int is_focus_there;  /**< the widget in focus was asked for this frame */
    int modal;           /**< widgets with a number below this one sleep */
    int space_used;      /**< a widget took the space bar this frame */
    int caret_id, caret; /**< text field that the caret is in, and before which byte */
} Ui;

/** @brief Zeroed but for fonts and colours. */
void ui_init(Ui *ui, UiText *text, const UiTheme *theme);
/** @brief Free the draw list. */
void ui_free(Ui *ui);
/** @brief Start a frame: empties the list, opens the first layer. */
void ui_begin(Ui *ui, float width, float height, float scale);
/** @brief End a frame: moves the focus where Tab asked, forgets this frame's input edges. */
void ui_end(Ui *ui);
/** @brief What follows is drawn over everything so far; clip NULL = the whole window. */
void ui_layer(Ui *ui, const GfxRect *clip);
/** @brief `px` at 100 % in pixels now, rounded. */
float ui_px(const Ui *ui, double px);

/* Shapes. Widths in pixels; edges are softened by a one-pixel fringe unless they are axis-aligned.
 */
void ui_rect(Ui *ui, float x, float y, float w, float h, GfxColor c);
void ui_frame(Ui *ui, GfxRect r, float width, GfxColor c);
void ui_round(Ui *ui, GfxRect r, float radius, GfxColor c);
void ui_round_line(Ui *ui, GfxRect r, float radius, float width, GfxColor c);
void ui_line(Ui *ui, float x0, float y0, float x1, float y1, float width, GfxColor c);
void ui_polyline(Ui *ui, const UiPoint *points, int count, float width, GfxColor c);
void ui_polygon(Ui *ui, const UiPoint *points, int count, GfxColor c); /**< convex */
void ui_circle(Ui *ui, float x, float y, float radius, GfxColor c);
void ui_arc(Ui *ui, float x, float y, float radius, double from, double to, float width,
            GfxColor c);
void ui_dashes(Ui *ui, float x0, float y0, float x1, float y1, float width, float dash, GfxColor c);
void ui_field(Ui *ui, GfxField field);
/** @brief A triangle in pixels without a fringe: the cheapest mark there is. */
void ui_speck(Ui *ui, float x, float y, float dx, float dy, float width, GfxColor c);

/* Text. `size` is px at 100 %, multiplied by the scale; y is the base line. */
float ui_label(Ui *ui, float x, float y, double size, UiWeight weight, GfxColor c, UiAlign align,
               const char *text);
float ui_width(Ui *ui, double size, UiWeight weight, const char *text);
/** @brief Wrapped at spaces to `width`, first base line at y. c.a == 0 only measures. @return
 * height */
float ui_paragraph(Ui *ui, float x, float y, float width, double size, UiWeight weight, GfxColor c,
                   const char *text);

/* Widgets. */
int ui_button(Ui *ui, int id, GfxRect r, const char *label, int is_primary, int is_disabled);
/** @brief Segments of equal width. @return the chosen one, `current` when nothing changed */
int ui_segments(Ui *ui, int id, GfxRect r, const char *const *labels, int count, int current);
/**
 * @brief Track with thumb and ticks; drag, click, wheel, or arrows when focused.
 * @param[in] r     the track's row; `value` in [0, 1]
 * @param[in] step  of one arrow press or wheel notch, share of the whole
 * @param[in] wax   where a mark of the person's stands under the track, 0..1; negative = none
 * @return nonzero when the person changed *value
 */
int ui_slider(Ui *ui, int id, GfxRect r, double *value, double step, double wax);
/**
 * @brief One line of text to type in. Starts with the caret at the end; a long text slides.
 * @param[in,out] text UTF-8 in `size` bytes; what does not fit whole is not taken
 * @param[in]     hint shown while it is empty
 * @return 1 when Enter was pressed in it
 */
int ui_text_field(Ui *ui, int id, GfxRect r, char *text, int size, const char *hint);
/**
 * @brief What any place shares with a button: hover, press, focus; it draws nothing.
 * @param[in] in_order in the Tab order, and chosen by Enter and Space as well
 * @return UI_AREA_ values, or-ed
 */
int ui_area(Ui *ui, int id, GfxRect hit, int in_order);
enum { UI_AREA_HOT = 1, UI_AREA_CHOSEN = 2, UI_AREA_FOCUS = 4, UI_AREA_HELD = 8 };
/** @brief As ui_label, but cut with dots where it would pass `width`. @return width drawn */
float ui_label_cut(Ui *ui, float x, float y, float width, double size, UiWeight weight, GfxColor c,
                   const char *text);
/** @brief Key cap with its letter. @return width */
float ui_key(Ui *ui, float x, float y, const char *text);
/** @brief Mouse over it; who holds the mouse, or whether a card lies over it, is not asked. */
int ui_over(const Ui *ui, GfxRect r);
/** @brief Rows that a list moves by the wheel, + down: whole notches, and one for less than one. */
int ui_wheel_rows(const Ui *ui);
/**
 * @brief Put a widget in the Tab order, which is the order of calls. One that is not asked for in a
 * frame loses the focus.
 * @return nonzero when it has the focus
 */
int ui_focusable(Ui *ui, int id);
/** @brief The ring round what has the focus, 5 px outside of `r`; only while keys lead. */
void ui_focus_ring(Ui *ui, GfxRect r, float radius);
/** @brief Left and top edge belong to `r`, right and bottom do not. */
int ui_inside(GfxRect r, float x, float y);

#endif
