/* Private to app: the room Side by side. Read scr_side.c first: it says who draws what. */
#ifndef APP_SIDE_H
#define APP_SIDE_H

#include "base/app.h"
#include "base/rail.h"
#include "io/climate_words.h"
#include "side/job.h"
#include "side/proof.h"

#include "core/house_moist.h"

enum {
    SIDE_MAX_DYING = 16,
    SIDE_KEPT = 4,    /* some 9 MB each */
    SIDE_FIELDS = 32, /* of the house page */
    SIDE_PICKS = 8,   /* of it, chosen from a short list */
    SIDE_TEXT = 96,
    SIDE_NAMES = 64
};

typedef enum SidePage {
    SIDE_WALL,
    SIDE_HOUSE,
    SIDE_ASSUMED,
    SIDE_HANDOUT,
    SIDE_PROOF,
    SIDE_AIR,
    SIDE_PAGES
} SidePage;

/* Lines of the company on the handout, besides its name; what is not typed comes from its file or
 * is an empty line. */
enum { SIDE_FIRM_WHO, SIDE_FIRM_NOTICE, SIDE_FIRM_SAVINGS, SIDE_FIRM, SIDE_FIRM_TEXT = 600 };

/* Widget numbers of this room. */
enum {
    ID_SIDE_PLAY = 500,
    ID_SIDE_RAIL, /* the next number: rail.h */
    ID_SIDE_BACK,
    ID_SIDE_TO_HOUSE,
    ID_SIDE_TO_ASSUMED,
    ID_SIDE_TO_HANDOUT,
    ID_SIDE_TO_AIR,
    ID_SIDE_FOAM,
    ID_SIDE_DENSE,
    ID_SIDE_STOP,
    ID_SIDE_LIST, /* what is assumed; answers with the pixel at its top */
    ID_SIDE_PICK, /* and three more: which bays are shown when there is no room for four */
    ID_SIDE_COMPANY = ID_SIDE_PICK + 4,
    ID_SIDE_WRITE,
    ID_SIDE_PAPER,
    ID_SIDE_USE = 520,
    ID_SIDE_DEMO,
    ID_SIDE_DELETE,
    ID_SIDE_TOWN,
    ID_SIDE_AIR,
    ID_SIDE_SAVED,
    ID_SIDE_FUEL,
    ID_SIDE_CAVITY,
    ID_SIDE_FIRST,        /* answered by the rows of the house: the one at their top */
    ID_SIDE_ROW,          /* and the one in focus */
    ID_SIDE_FIELD = 530,  /* and SIDE_FIELDS - 1 more */
    ID_SIDE_LAYER = 565,  /* and four more: one a place of the wall */
    ID_SIDE_PICKED = 570, /* and SIDE_PICKS - 1 more */
    ID_SIDE_BAY = 578,
    ID_SIDE_PROOF = 580, /* and IO_PROOF_ROWS - 1 more: what was measured */
    ID_SIDE_FIRM = 592,  /* and SIDE_FIRM - 1 more: lines of the company */
    ID_SIDE_PROOF_USE = 595,
    ID_SIDE_PROOF_SHEET,
    ID_SIDE_TO_PROOF,
    ID_SIDE_LOOSE
};

/* What is typed on the house page. It becomes the house when every number is understood. */
typedef struct SideForm {
    char text[SIDE_FIELDS][SIDE_TEXT + 1];
    PbHouse house; /* that the texts were written from: what is not touched keeps its last digit;
                      its wall and its fuel are as chosen */
    PbClimate airs[IO_CLIMATES]; /* of each choice, from its file; no humidity = not found */
    int town, air;               /* chosen town, -1 = own numbers; chosen humidity */
    int bad;                     /* field that was refused, -1 = none */
    IoReaderTaste reader;        /* units and decimal mark that the texts are in */
    char says[400];
    int says_is_trouble;
    int first, row; /* of the list: at its top, and last in focus */
} SideForm;

typedef struct Side {
    PbHouse house;  /* as it is compared, or will be once a start that is due was made */
    PbExercise bay; /* of the house file; house.bay is the run's while its dense pack is shown */
    PbBayField own; /* the trainee's run */
    PbExercise own_bay;
    int has_own;
    SideJob *job;   /* at work or done */
    SideJob *shown; /* drawn now: job, or the one before until job has caught up */
    SideJob *dying[SIDE_MAX_DYING];
    SideJob
        *kept[SIDE_KEPT]; /* over: houses before, the newest first; what they have is used again */
    PbHouse job_house, shown_house; /* of job, of shown */
    int is_due;                     /* a start waits for room among the dying */
    int is_stopped;
    YearRail rail;
    SidePage page;
    AppScreen back;
    PbCompareFigures now[PB_COMPARE_FILLS]; /* at the rail's year */
    PbCompareSaving saving[PB_COMPARE_FILLS];
    PbCompareAir air[PB_COMPARE_FILLS];
    PbHouseMoist moist[PB_COMPARE_FILLS]; /* of the shown house: they do not go with the year */
    int warns[PB_WARNINGS];
    int pair[2]; /* shown bays in a narrow window, the older first */
    int draws;   /* that the ranges of all bays have */
    int nx, ny;  /* of the packed pictures: loose and dense */
    int at[PB_COMPARE_FILLS], wide[PB_COMPARE_FILLS], tall[PB_COMPARE_FILLS];
    uint64_t picture; /* number of the one in density and marks */
    float *density;
    uint8_t *marks;
    double blended_years;
    int blended_pieces;
    const SideJob *blended_of;
    double opened_s, first_picture_s, all_s; /* clock of the machine, for the dump */
    float list_scroll_px;
    SideForm form;
    SideProof proof;
    char company[SIDE_TEXT + 1];
    char firm[SIDE_FIRM][SIDE_FIRM_TEXT + 1];
    char handout[700], handout_says[900]; /* where it went; what to say of it */
    int handout_is_trouble, handout_count;
    char names[SIDE_NAMES][SIDE_TEXT + 1]; /* saved houses */
    int name_count, name_row;
} Side;

/* scr_side.c: compare `house` from now on */
void side_compare(App *app, const PbHouse *house);
void side_go(App *app, SidePage page);
/* Is what is shown of this fill of another house or case than the chosen one? */
int side_is_stale(const Side *s, PbCompareFill fill);
/* side_state.c: pictures and figures of the rail's year */
void side_blend(App *app, Side *s);
GfxFieldData side_field(App *app);
/* side_bay.c */
void side_bay_draw(const App *app, PbCompareFill fill, GfxRect inner, double px_m, float stud);
void side_legend_draw(const App *app, GfxRect r);
/* side_column.c */
void side_columns_draw(const App *app, GfxRect r);
void side_columns_answer(App *app, Side *s);
/* side_words.c: figures and sentences in the chosen language and units */
typedef enum SideFigure {
    SIDE_SAYS_RATIO,
    SIDE_SAYS_R,
    SIDE_SAYS_FUEL,  /* saved a year; empty bay: what the walls take */
    SIDE_SAYS_MONEY, /* saved a year; empty bay: their share of the house's heat */
    SIDE_SAYS_FACT   /* top gap or shrinkage */
} SideFigure;
const char *side_name(const App *app, PbCompareFill fill);
void side_figure(const App *app, PbCompareFill fill, SideFigure which, char *out, size_t size);
/* What the fill is like at the rail's year, and how it stands beside the one it is held against. */
void side_sentence(const App *app, PbCompareFill fill, char *out, size_t size);
/* side_house.c */
void side_house_open(App *app);
void side_house_update(App *app, Side *s); /* the texts follow units and language */
void side_house_draw(const App *app, GfxRect r);
void side_house_answer(App *app, Side *s);
/* side_section.c: the wall as it is chosen, from the room outwards */
void side_section_draw(const App *app, GfxRect r);
void side_section_strip(const App *app,
                        GfxRect r); /* the cut alone, where there is no room for more */
void side_house_say(Side *s, const char *text, int is_trouble);
/* side_store.c: 0 = not done, and the page or a notice has said why */
PbStatus side_house_option(App *app); /* is the file of --house one? stderr says why not */
void side_house_first(App *app, Side *s);
int side_store_demo(App *app, PbHouse *house);
void side_store_names(App *app);
int side_store_keep(App *app, const PbHouse *house);
int side_store_load(App *app, const char *name, PbHouse *house);
void side_store_delete(App *app, const char *name);
void side_store_company(App *app); /* of the handout, for the next one */
/* side_air.c: air and moisture of each fill, and what to look at before one */
void side_air_draw(const App *app, GfxRect r);
/* side_assumed.c, side_handout.c */
/* A list of `high` px: scrolled by what was done last, its bar and its ring. */
void side_list_end(const App *app, GfxRect list, float high, int has_focus);
void side_assumed_draw(const App *app, GfxRect r);
void side_assumed_answer(App *app, Side *s);
void side_handout_draw(const App *app, GfxRect r);
void side_handout_answer(App *app, Side *s);
/* Where a printed page of this kind goes: beside the database, named after the customer. 0 = the
 * path is too long. */
int side_page_path(const App *app, const char *kind, char *out, size_t size);
/* side_proof.c: what was measured on the day */
void side_proof_open(App *app);
void side_proof_update(App *app, Side *s); /* the texts follow units and language */
void side_proof_draw(const App *app, GfxRect r);
void side_proof_answer(App *app, Side *s);
void side_proof_forget(Side *s); /* the thread at work, if any; waits for its piece */

#endif
