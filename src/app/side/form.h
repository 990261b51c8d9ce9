/* Private to app: the rows of the house page. Read side_form.c first. */
#ifndef APP_SIDE_FORM_H
#define APP_SIDE_FORM_H

#include "side/side.h"

/* First field of each row; three in a row are lowest, usual, highest. */
enum {
    SIDE_CUSTOMER,
    SIDE_TOWN,
    SIDE_DEGREE_DAYS,
    SIDE_AREA = SIDE_DEGREE_DAYS + 3,
    SIDE_FRAMING,
    SIDE_LAST_YEAR,
    SIDE_CURRENCY,
    SIDE_PRICE,
    SIDE_EFFICIENCY = SIDE_PRICE + 3,
    SIDE_TEMPERATURES = SIDE_EFFICIENCY + 3,
    SIDE_NOT_HEATING = SIDE_TEMPERATURES + 2,
    SIDE_JOB = SIDE_NOT_HEATING + 3, /* price, rebate, years */
    SIDE_BAY = SIDE_JOB + 3,         /* depth, width, height */
    SIDE_SHARE = SIDE_BAY + 3,
    SIDE_COOLING, /* room, price of a kWh, efficiency */
    SIDE_FLOOR = SIDE_COOLING + 3,
    SIDE_DOOR
};
enum { SIDE_ROWS = 34, SIDE_TOWN_COUNT = 5 };

typedef enum SideRowKind {
    SIDE_A_TEXT,
    SIDE_A_NUMBER,
    SIDE_A_TOWN,
    SIDE_A_AIR,
    SIDE_A_LAYER,
    SIDE_A_FUEL,
    SIDE_A_CAVITY,
    SIDE_A_PICK,
    SIDE_A_BAY
} SideRowKind;

/* What is chosen from a short list. */
typedef enum SidePick {
    SIDE_STORIES,
    SIDE_BUILT,
    SIDE_INSIDE_COAT,
    SIDE_OUTSIDE_COAT,
    SIDE_LEAKS,
    SIDE_WATER,
    SIDE_BATH,
    SIDE_OVERHANG
} SidePick;

typedef struct SideRow {
    int field, fields; /* first one, -1 = none; how many */
    SideRowKind kind;
    const char *name, *help; /* N_ marked */
    int place;               /* of a layer: PbWallPlace; of a pick: SidePick */
} SideRow;

typedef struct SideTown {
    const char *name, *climate; /* row of io/climate_words.h */
    PbHeatRange degree_days_k_d;
} SideTown;

extern const SideRow side_rows[SIDE_ROWS];
extern const SideTown side_towns[SIDE_TOWN_COUNT];

/* The texts of a house. */
void side_form_fill(SideForm *f, const PbHouse *house, IoReaderTaste reader);
/* A town's degree-days and humidity into the form; -1 = own figures. */
void side_form_town(SideForm *f, int town);
/* The house that is typed, but for its climate. 0 = refused: f->bad and f->says tell why, and
 * `house` is as it was. */
int side_form_take(SideForm *f, PbHouse *house);
/* The same with the chosen climate, without a word to the form: for what the page says at once. */
int side_form_look(const SideForm *f, PbHouse *house);
/* Three fields that are three things, not lowest, usual and highest of one. */
int side_row_is_of_parts(const SideRow *row);
/* 1 = understood. A comma or a point, no words, no thousands marks. */
int side_read_number(const char *text, IoReaderTaste reader, double *value);
const char *side_form_unit(const SideForm *f, int field);
const SideRow *side_row_of(int field);
/* Another fuel, or 0 for a price of a kWh: the price follows by heat content. */
void side_form_fuel(SideForm *f, int fuel);
/* Another bay, with its size and what stands in it; the layers stay. */
void side_form_bay(SideForm *f, const PbExercise *bay);
/* What is in the cavity: a PbCavityNow, or SIDE_BATT for an old batt from the top plate down. */
enum { SIDE_BATT = PB_CAVITY_KINDS, SIDE_CAVITIES };
void side_form_cavity(SideForm *f, int chosen);
int side_form_cavity_now(const SideForm *f);
/* One step through the layers of a place; before the first inside face stands the simple wall. Any
 * other layer chosen makes a wall of layers out of it. */
void side_form_layer(SideForm *f, PbWallPlace place, int chosen);
/* Row of the form's bay among the shipped ones, -1 = none of them; and the chosen one, or the next
 * that way that may be filled, NULL = none. */
int side_bay_row(const App *app);
const PbExercise *side_bay_near(const App *app, int chosen);
/* How many there are, the chosen one and its words; side_form_pick chooses. */
int side_pick_count(SidePick pick);
int side_pick_chosen(const PbHouse *house, SidePick pick);
const char *side_pick_words(const PbHouse *house, SidePick pick, int language);
void side_form_pick(SideForm *f, SidePick pick, int chosen);
/* "lowest", "room"; "" where a row has one field. */
const char *side_part_of(const SideRow *row, int field);

#endif
