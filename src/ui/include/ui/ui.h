/**
 * @file ui.h
 * @brief Drawing and widgets, rebuilt from the caller's own state each time they are laid out.
 *
 * The caller gives its events to ui_take, calls ui_begin, draws and asks widgets, then ui_end.
 * Each event is answered by a layout of its own, however many come between two pictures: before
 * the next one is taken, the caller lays out again where ui_must_lay_out says so.
 * A widget is named by a number that stays the same from layout to layout. Nothing here knows what
 * the numbers mean. Pixels of the drawable; `scale` is the text scale times that of the display.
 */
#ifndef UI_UI_H
#define UI_UI_H

#include "gfxtypes/draw.h"
#include "gfxtypes/shapes.h"
#include "ui/text.h"
#include "ui/theme.h"

/** Widgets of one frame that Tab walks through; what comes after them has mouse and focus alone. */
#define UI_MAX_FOCUS 96

typedef GfxPoint UiPoint;

typedef enum UiAlign { UI_LEFT = GFX_LEFT, UI_CENTRE = GFX_CENTRE, UI_RIGHT = GFX_RIGHT } UiAlign;

typedef enum UiEventKind {
    UI_MOVE, /**< of the pointer */
    UI_PRESS,
    UI_RELEASE, /**< of the left button */
    UI_WHEEL,
    UI_KEY,
    UI_TYPE /**< text, typed or pasted */
} UiEventKind;

typedef enum UiKey {
    UI_KEY_TAB,
    UI_KEY_LEFT,
    UI_KEY_RIGHT,
    UI_KEY_UP,
    UI_KEY_DOWN,
    UI_KEY_ENTER,
    UI_KEY_SPACE,
    UI_KEY_ERASE,      /**< Backspace */
    UI_KEY_ERASE_NEXT, /**< Delete */
    UI_KEY_HOME,
    UI_KEY_END,
    UI_KEY_PAGE_UP,
    UI_KEY_PAGE_DOWN,
    UI_KEY_ALL, /**< select all */
    UI_KEY_COPY,
    UI_KEY_CUT
} UiKey;

/** One thing that a person did. */
typedef struct UiEvent {
    UiEventKind kind;
    float x, y;       /**< UI_MOVE, UI_PRESS, UI_RELEASE */
    int clicks;       /**< UI_PRESS: 2 = the second of a double click */
    float wheel;      /**< UI_WHEEL: notches, + away from the person */
    UiKey key;        /**< UI_KEY */
    int shift;        /**< UI_KEY, UI_PRESS: held */
    const char *text; /**< UI_TYPE: UTF-8 */
} UiEvent;

enum { UI_TYPED_BYTES = 1024 }; /* a path may be long */

/** What a layout answers. Counts and edges are gone after it; the pointer stays. */
typedef struct UiInput {
    float mouse_x, mouse_y;
    int is_down; /**< left button held */
    int pressed, released, clicks;
    float wheel;        /**< notches, + away from the person */
    int next, previous; /**< Tab, Shift+Tab */
    int left, right, up, down;
    int enter, space;
    int erase, erase_next, home, end; /**< Backspace, Delete, Home, End */
    int page_up, page_down;
    int shift;                  /**< held with this event: what moves selects */
    int all, copy, cut;         /**< Ctrl+A, Ctrl+C, Ctrl+X */
    char typed[UI_TYPED_BYTES]; /**< UTF-8 that was typed or pasted */
    int has_moved, has_more;    /**< no layout has seen it: the pointer alone; anything else */
} UiInput;

typedef struct UiLegible UiLegible;

/** What a layout answers to what was taken: a widget was chosen, or changed to this value. */
typedef struct UiAnswer {
    int id;
    double value;
} UiAnswer;
enum { UI_MAX_ANSWERS = 8 };

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
    int is_focus_there; /**< the widget in focus was asked for this frame */
    int modal;          /**< widgets with a number below this one sleep */
    int space_used;     /**< a widget took the space bar this frame */
    int caret_id;       /**< text field that the caret is in */
    int caret, anchor;  /**< before which byte it stands; the other end of what is selected */
    int slide;          /**< first byte that a line longer than its field shows */
    int is_selecting;   /**< the pointer draws the selection on */
    int is_wheel_used;  /**< a widget or a list took it, in this layout */
    GfxRect ring;       /**< what has the focus, in this layout; zero = not drawn */
    int has_left_out;   /**< not all that was typed or pasted had room, in this layout */
    UiAnswer answers[UI_MAX_ANSWERS];
    int answer_count;
    char answer_text[UI_TYPED_BYTES]; /**< what the last field that was edited holds now */
    char copied[UI_TYPED_BYTES]; /**< for the clipboard, to be taken by the caller; "" = none */
    UiLegible *legible;          /**< tests: notes of what is drawn where; NULL = none are taken */
} Ui;

/** @brief Zeroed but for fonts and colours. */
void ui_init(Ui *ui, UiText *text, const UiTheme *theme);
/** @brief Free the draw list. */
void ui_free(Ui *ui);
/** @brief One event for the next layout. `text` is copied; what does not fit is left out whole. */
void ui_take(Ui *ui, const UiEvent *event);
/** @brief Nonzero when what was taken has to be laid out before an event of this kind is looked at.
 * Moves of the pointer add up to the last, unless something is held and dragged. */
int ui_must_lay_out(const Ui *ui, UiEventKind next);
/** @brief Start a layout: empties the list, opens the first layer. */
void ui_begin(Ui *ui, float width, float height, float scale);
/** @brief End a layout: moves the focus where Tab asked, forgets what it has answered. */
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
/** @brief A whole picture, in the colours of the theme. */
void ui_paint(Ui *ui, const GfxShapes *shapes);
/** @brief A triangle in pixels without a fringe: the cheapest mark there is. */
void ui_speck(Ui *ui, float x, float y, float dx, float dy, float width, GfxColor c);

/** @brief End of the first line of `text` when it is wrapped at spaces to `width`. */
const char *ui_line_end(Ui *ui, float width, double size, UiWeight weight, const char *text);

/* Text. `size` is px at 100 %, multiplied by the scale; y is the base line. */
float ui_label(Ui *ui, float x, float y, double size, UiWeight weight, GfxColor c, UiAlign align,
               const char *text);
float ui_width(Ui *ui, double size, UiWeight weight, const char *text);
/** @brief Wrapped at spaces to `width`, first base line at y. c.a == 0 only measures. @return
 * height */
float ui_paragraph(Ui *ui, float x, float y, float width, double size, UiWeight weight, GfxColor c,
                   const char *text);

/* Widgets. What a person did with one is also an answer of the layout (value: 1 for a button or an
 * area that was chosen, the segment, the slider's place, 1 for Enter in a field and 0 for an edit),
 * so that a room can be laid out from a state that stays as it is and take the answers afterwards.
 */
/** @brief Nonzero when the last layout answered for this widget. @param[out] value may be NULL */
int ui_answered(const Ui *ui, int id, double *value);
/** @brief The answer of a place that the caller draws and judges itself; in the place of the one
 * that was recorded for this number. */
void ui_answer(Ui *ui, int id, double value);
void ui_button(Ui *ui, int id, GfxRect r, const char *label, int is_primary, int is_disabled);
/** @brief Height that segments of this width need: one row, or two where a word does not fit. */
float ui_segments_high(Ui *ui, float width, const char *const *labels, int count);
/** @brief Segments of equal width, in two rows when `r` is as high. */
void ui_segments(Ui *ui, int id, GfxRect r, const char *const *labels, int count, int current);
/**
 * @brief Track with thumb and ticks; drag, click, wheel, or arrows, Home and End when focused.
 * @param[in] r     the track's row; `value` in [0, 1]
 * @param[in] step  of one arrow press or wheel notch, share of the whole
 * @param[in] wax   where a mark of the person's stands under the track, 0..1; negative = none
 */
void ui_slider(Ui *ui, int id, GfxRect r, double value, double step, double wax);
/**
 * @brief One line of text to type in. A long text slides. Shift with arrows, Home and End selects,
 * so does the pointer, Ctrl+A and a double click (a word); what is typed takes its place.
 * @param[in,out] text UTF-8 in `size` bytes; what does not fit whole is not taken
 * @param[in]     hint shown while it is empty
 */
void ui_text_field(Ui *ui, int id, GfxRect r, char *text, int size, const char *hint);
/** @brief As ui_text_field, for a figure: coming to it selects it whole, so that it is retyped. */
void ui_figure_field(Ui *ui, int id, GfxRect r, char *text, int size);
/** @brief As ui_text_field, over several wrapped lines of one text; line ends become spaces. */
void ui_text_box(Ui *ui, int id, GfxRect r, char *text, int size, const char *hint);
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
/** @brief One line in the middle of a height, as large as it fits, else two where there is height
 * for them; cut with dots where even that is too little. @return width drawn */
float ui_words(Ui *ui, GfxRect r, double size, UiWeight weight, GfxColor c, UiAlign align,
               const char *text);
/** Smallest letters, px at 100 %: what does not fit with them wraps, or gets more room. */
#define UI_LEAST_PX 11.0
/** @brief The largest size from `size` down to UI_LEAST_PX at which the text is no wider than
 * `width`. */
double ui_fit(Ui *ui, float width, double size, UiWeight weight, const char *text);
/** @brief Key cap with its letter. @return width */
float ui_key(Ui *ui, float x, float y, const char *text);
/** @brief Mouse over it; who holds the mouse, or whether a card lies over it, is not asked. */
int ui_over(const Ui *ui, GfxRect r);
/** @brief Rows that a list moves by the wheel, + down: whole notches, and one for less than one. */
int ui_wheel_rows(Ui *ui);
/** @brief The wheel, in notches, for the one who asks: the page under it stays where it is. */
float ui_wheel(Ui *ui);
/** A place in the list of what is drawn. */
typedef struct UiMark {
    uint32_t vertices, quads;
    int fields, layers;
} UiMark;
/** @brief Begins a layer that scrolls as one with what follows it. */
UiMark ui_mark(Ui *ui);
/** @brief Everything laid out since the mark, moved up by this many pixels: a page that is
 * scrolled, of the height that `ui` has. */
void ui_shift_up(Ui *ui, const UiMark *from, float px);
/**
 * @brief Put a widget in the Tab order, which is the order of calls. One that is not asked for in a
 * frame loses the focus.
 * @return nonzero when it has the focus
 */
int ui_focusable(Ui *ui, int id);
/** @brief The ring round what has the focus, 5 px outside of `r`; only while keys lead. */
void ui_focus_ring(Ui *ui, GfxRect r, float radius);
/** @brief The pointer takes hold of it, or holds it and drags it. */
int ui_is_dragged(const Ui *ui, int id);
/** @brief From the next layout on notes are taken of what is drawn where, for ui_legible_faults.
 * Letters of fewer pixels than `least_px` are a fault. */
void ui_legible_start(Ui *ui, float least_px);
void ui_legible_stop(Ui *ui);
/**
 * @brief Texts of the last layout that cannot be read whole: two on one spot, under a plate, across
 * the edge of a control, cut with dots, too small, out of the window.
 * @param[out] out a line each
 * @return how many
 */
int ui_legible_faults(const Ui *ui, char *out, size_t size);
/**
 * @brief Texts of the last layout in the order of drawing, each of at most 63 bytes.
 * @param[out] out a line each: left edge, base line (about), in pixels, and the words
 */
void ui_legible_words(const Ui *ui, char *out, size_t size);
/** @brief Left and top edge belong to `r`, right and bottom do not. */
int ui_inside(GfxRect r, float x, float y);

#endif
