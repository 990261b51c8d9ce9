/* The two seconds after the face has given way: its edge parts, fasteners come out, the board
 * leaves and fill follows. Then the sheet. Three drawings in 300 ms, then only the fill moves;
 * where the picture is to stand still, the last of them. What is off and how much came out is the
 * simulation's; how the pieces lie is drawn. */
#include "bay/bay.h"

#include <math.h>
#include <stdio.h>

static const double shown_s = 2.0, drawing_s = 0.1;
static const double still_at_s = 0.9; /* of the fall, in a picture that stands still */
enum { DRAWINGS = 3, EDGE = 9, MOST_TUFTS = 360 };

int broke_is_on(const App *app)
{
    const BayBreak *b = &app->bay->broke;
    return b->is_on && app->program.now_s < b->since_s + shown_s;
}

/* A creak that is remembered for the sentence. */
void broke_creak(App *app)
{
    app->bay->broke.creaks++;
}

void broke_begin(App *app)
{
    BayBreak *b = &app->bay->broke;
    b->is_on = 1;
    b->since_s = app->program.now_s;
    app->bay->is_view_set = 0; /* look there at once */
}

/* What is said of it: a break that was announced could have been heard. */
const char *broke_words(const App *app, char *out, size_t size)
{
    int n = app->bay->broke.creaks;
    if (n == 0) {
        return _("Machine off. The run has ended.");
    }
    snprintf(
        out, size,
        app_plural("Machine off. It had creaked once.", "Machine off. It had creaked %d times.", n),
        n);
    return out;
}

int broke_covers(const App *app, double y_m)
{
    return broke_is_on(app) && fabs(y_m - app->run.blow_out_y_m) < 0.5 * PB_FACE_PATCH_M;
}

static double since(const App *app)
{
    return app->taste.is_still ? still_at_s : app->program.now_s - app->bay->broke.since_s;
}

static int drawing(const App *app)
{
    int k = (int)(since(app) / drawing_s);
    return k < DRAWINGS ? k : DRAWINGS - 1;
}

/* A number of piece k, -1..1, the same in every frame. */
static float rag(uint32_t k)
{
    return 2.0f * ui_scatter(7919u + k * 13u) - 1.0f;
}

/* Tufts leave all over the opening, lose their push and sink; what has come down lies in a heap.
 * `out` is the way they leave, in metres a second. */
static void pour(const App *app, GfxRect opening, float floor_y, float out_m_s, double px_m)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double now = since(app);
    int count = (int)fmin(60.0 + 220.0 * app->run.view->ledger.fallen_kg, MOST_TUFTS);
    float m = (float)px_m;
    for (uint32_t k = 0; k < (uint32_t)count; k++) {
        double age = now - 1.2 * (double)ui_scatter(k * 3u) * (double)ui_scatter(k * 3u + 1u);
        if (age <= 0.0) {
            continue;
        }
        float push = out_m_s * (0.3f + 0.7f * ui_scatter(k * 5u)),
              slowed = 1.0f - expf(-4.0f * (float)age);
        float side = out_m_s > 0.0f ? 1.0f : rag(k);
        float x = opening.x + opening.w * ui_scatter(k * 5u + 1u) +
                  side * fabsf(push) * 0.25f * slowed * m;
        float fall = 1.4f * ((float)age - 0.25f * slowed) * m; /* a tuft sinks at 1.4 m/s */
        float y = opening.y + opening.h * ui_scatter(k * 5u + 2u) + fall;
        float heap = floor_y - 0.10f * m * ui_scatter(k * 5u + 3u) * ui_scatter(k * 5u + 4u);
        int lies = y > heap;
        float l = 4.0f + 5.0f * ui_scatter(k * 7u), turn = 3.14f * rag(k + 400u);
        y = lies ? heap : y;
        ui_speck(ui, x, y, l * cosf(turn), lies ? 0.3f * l * sinf(turn) : l * sinf(turn), 3.0f,
                 k % 3u ? t->wood_ink : t->ink2);
    }
}

/* A fastener that has come out, with the way it flew. */
static void fastener(Ui *ui, float x, float y, float dx, float dy, float turn)
{
    const UiTheme *t = ui->theme;
    float l = 13.0f, c = l * cosf(turn), s = l * sinf(turn);
    ui_line(ui, x - 0.5f * c, y - 0.5f * s, x + 0.5f * c, y + 0.5f * s, 2.5f, t->ink);
    ui_line(ui, x + 0.5f * c - 0.3f * s, y + 0.5f * s + 0.3f * c, x + 0.5f * c + 0.3f * s,
            y + 0.5f * s - 0.3f * c, 2.5f, t->ink);
    for (int k = -1; k <= 1; k++) {
        float o = 5.0f * (float)k;
        ui_line(ui, x - 0.9f * dx - o * dy / 20.0f, y - 0.9f * dy + o * dx / 20.0f,
                x - 1.7f * dx - o * dy / 20.0f, y - 1.7f * dy + o * dx / 20.0f, 1.0f, t->ink2);
    }
}

static void crack(Ui *ui, UiPoint from, float dx, float dy, uint32_t seed)
{
    UiPoint p[5] = {from};
    for (uint32_t i = 1; i < 5; i++) {
        p[i] = (UiPoint){p[i - 1].x + dx + 0.5f * dy * rag(seed + i),
                         p[i - 1].y + dy - 0.5f * dx * rag(seed + i)};
    }
    ui_polyline(ui, p, 5, 1.5f, ui->theme->ink);
}

/* The board that has left, its long side turned by `turn` from upright; convex. */
static void board(Ui *ui, UiPoint mid, float wide, float tall, float turn)
{
    const UiTheme *t = ui->theme;
    float c = cosf(turn), s = sinf(turn);
    const float at[6][2] = {{-0.5f, -0.46f}, {0.1f, -0.5f}, {0.5f, -0.42f},
                            {0.46f, 0.44f},  {0.0f, 0.5f},  {-0.5f, 0.47f}};
    UiPoint p[7];
    for (int i = 0; i < 6; i++) {
        float x = at[i][0] * wide, y = at[i][1] * tall;
        p[i] = (UiPoint){mid.x + x * c - y * s, mid.y + x * s + y * c};
    }
    p[6] = p[0];
    ui_polygon(ui, p, 6, t->sheet);
    ui_polyline(ui, p, 7, 2.5f, t->ink);
    for (int i = -1; i <= 1; i += 2) {
        float y = 0.36f * tall * (float)i;
        ui_circle(ui, mid.x - y * s, mid.y + y * c, 3.5f, t->ink);
    }
}

/* Beside the bay, where the cut edge of the face stands at `edge_x`. */
void broke_draw(const App *app, const GlanceView *v, float edge_x, float stud_px)
{
    static const float out_m[DRAWINGS] = {0.02f, 0.07f, 0.13f},
                       turn[DRAWINGS] = {0.06f, 0.20f, 0.38f};
    if (!broke_is_on(app)) {
        return;
    }
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float m = (float)v->px_m, tall = (float)PB_FACE_PATCH_M * m;
    float mid = v->inner.y + v->inner.h - (float)(app->run.blow_out_y_m * v->px_m);
    float top = mid - 0.5f * tall, low = mid + 0.5f * tall;
    int k = drawing(app);
    float foot = fminf(v->inner.y + v->inner.h, v->r.y + v->r.h) - 4.0f;
    pour(app, (GfxRect){edge_x - stud_px - 24.0f, top, stud_px + 30.0f, tall}, foot, 1.2f, v->px_m);
    crack(ui, (UiPoint){edge_x, top}, 5.0f, -11.0f, 1u);
    crack(ui, (UiPoint){edge_x, top}, 12.0f, -5.0f, 9u);
    crack(ui, (UiPoint){edge_x, low}, 6.0f, 11.0f, 17u);
    board(ui, (UiPoint){edge_x + out_m[k] * m, mid + 0.03f * m * (float)k}, 0.10f * m, 0.94f * tall,
          turn[k]);
    for (int i = -1; i <= 1; i += 2) {
        float y = mid + 0.36f * tall * (float)i, far = (0.05f + 0.07f * (float)k) * m;
        ui_circle(ui, edge_x - 9.0f - 0.45f * stud_px, y, 6.0f, t->danger);
        ui_circle(ui, edge_x - 9.0f - 0.45f * stud_px, y, 3.0f, t->white);
        fastener(ui, edge_x + 0.10f * m + far, y - 0.02f * m * (float)i, 16.0f, 6.0f * (float)i,
                 0.5f + 0.8f * (float)i);
    }
}

/* The ring round a mouth that blows no more, in eight pieces. */
void broke_ring_draw(const App *app, float x, float y)
{
    Ui *ui = app->ui;
    float r = ui_px(ui, 28);
    for (int i = 0; i < 8 && broke_is_on(app); i++) {
        double from = 0.7853982 * i + 0.12;
        ui_arc(ui, x, y, r, from, from + 0.55, ui_px(ui, 7), ui->theme->white);
        ui_arc(ui, x, y, r, from, from + 0.55, ui_px(ui, 5), ui->theme->danger);
    }
}

/* On the painted face: an opening as wide as the bay, the board below it, fill on the floor. */
void broke_face_draw(const App *app, GfxRect bay, float floor_y, double px_m)
{
    if (!broke_is_on(app)) {
        return;
    }
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float m = (float)px_m, tall = (float)PB_FACE_PATCH_M * m;
    float mid = bay.y + bay.h - (float)(app->run.blow_out_y_m * px_m), top = mid - 0.5f * tall;
    int k = drawing(app);
    UiPoint up[EDGE], down[EDGE];
    for (uint32_t i = 0; i < EDGE; i++) {
        float x = bay.x + bay.w * (float)i / (EDGE - 1);
        up[i] = (UiPoint){x, top + 0.03f * m * rag(i)};
        down[i] = (UiPoint){x, top + tall + 0.03f * m * rag(i + 50u)};
        if (i > 0) {
            ui_polygon(ui, (UiPoint[4]){up[i - 1], up[i], down[i], down[i - 1]}, 4, t->board);
        }
    }
    ui_polyline(ui, up, EDGE, 2.5f, t->ink);
    ui_polyline(ui, down, EDGE, 2.5f, t->ink);
    ui_line(ui, up[0].x, up[0].y, down[0].x, down[0].y, 2.5f, t->ink);
    ui_line(ui, up[EDGE - 1].x, up[EDGE - 1].y, down[EDGE - 1].x, down[EDGE - 1].y, 2.5f, t->ink);
    crack(ui, up[0], -9.0f, -7.0f, 3u);
    crack(ui, up[EDGE - 1], 10.0f, -8.0f, 23u);
    crack(ui, down[EDGE - 1], 9.0f, 8.0f, 31u);
    pour(app, (GfxRect){bay.x, top + 0.3f * tall, bay.w, 0.7f * tall}, floor_y, -0.8f, px_m);
    float rest = fminf(mid + 0.25f * tall * (float)(k * k), floor_y - 0.4f * tall);
    board(ui, (UiPoint){bay.x + bay.w * 0.5f, rest}, 0.9f * bay.w, 0.8f * tall,
          0.05f + 0.12f * (float)k);
    for (int i = -1; i <= 1; i += 2) {
        fastener(ui, bay.x + bay.w * 0.5f + (0.7f * bay.w + 14.0f * (float)k) * (float)i,
                 mid + 10.0f * (float)k, 16.0f * (float)i, 4.0f, 0.6f);
    }
}
