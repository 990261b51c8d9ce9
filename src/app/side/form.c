/* What is typed on the house page, and the house that comes of it. A number that is not understood
 * or out of its range is refused with a sentence that says what was expected; nothing is clamped
 * and the house that is compared stays as it was. */
#include "side/form.h"

#include "core/units.h"
#include "io/saving_words.h"
#include "io/wall_words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What a number of the form stands for. */
typedef struct Number {
    int field;
    double low, high, us_factor; /* shown in US units = SI times this */
    int decimals;
} Number;

static const Number numbers[] = {
    {SIDE_AREA, 1.0, 5000.0, 10.763910416709722, 0}, /* square feet in a square metre */
    {SIDE_FRAMING, 5.0, 50.0, 1.0, 0},
    {SIDE_DEGREE_DAYS, 0.0, 20000.0, 1.8, 0},
    {SIDE_DEGREE_DAYS + 1, 0.0, 20000.0, 1.8, 0},
    {SIDE_DEGREE_DAYS + 2, 0.0, 20000.0, 1.8, 0},
    {SIDE_PRICE, 0.0, 1e5, 1.0, 4},
    {SIDE_PRICE + 1, 0.0, 1e5, 1.0, 4},
    {SIDE_PRICE + 2, 0.0, 1e5, 1.0, 4},
    {SIDE_EFFICIENCY, 1.0, 500.0, 1.0, 0},
    {SIDE_EFFICIENCY + 1, 1.0, 500.0, 1.0, 0},
    {SIDE_EFFICIENCY + 2, 1.0, 500.0, 1.0, 0},
    {SIDE_COOLING, 15.0, 35.0, 0.0, 1},
    {SIDE_COOLING + 1, 0.0, 1000.0, 1.0, 4},
    {SIDE_COOLING + 2, 50.0, 1000.0, 1.0, 0},
    {SIDE_SHARE, 5.0, 95.0, 1.0, 0},
    {SIDE_BAY, 50.0, 400.0, 1.0 / 25.4, 2},
    {SIDE_BAY + 1, 150.0, 750.0, 1.0 / 25.4, 2},
    {SIDE_BAY + 2, 500.0, 6000.0, 1.0 / 25.4, 2},
    {SIDE_FLOOR, 0.0, 2000.0, 10.763910416709722, 0},
    {SIDE_DOOR, 0.0, 50000.0, 0.5885777786915, 0}, /* cfm in a m3/h */
    {SIDE_LAST_YEAR, 0.0, 1e6, 1.0, 1},
    {SIDE_NOT_HEATING, 0.0, 90.0, 1.0, 0},
    {SIDE_NOT_HEATING + 1, 0.0, 90.0, 1.0, 0},
    {SIDE_NOT_HEATING + 2, 0.0, 90.0, 1.0, 0},
    {SIDE_JOB, 0.0, 1e7, 1.0, 0},
    {SIDE_JOB + 1, 0.0, 1e7, 1.0, 0},
    {SIDE_JOB + 2, 1.0, 100.0, 1.0, 0},
    {SIDE_TEMPERATURES, -20.0, 50.0, 0.0, 1}, /* factor 0: a temperature */
    {SIDE_TEMPERATURES + 1, -60.0, 45.0, 0.0, 1},
};
enum { NUMBERS = sizeof numbers / sizeof numbers[0] };

static double shown(const Number *n, double si, int is_us)
{
    return !is_us ? si : n->us_factor == 0.0 ? pb_f_from_c(si) : si * n->us_factor;
}

static double si_of(const Number *n, double value, int is_us)
{
    return !is_us ? value : n->us_factor == 0.0 ? pb_c_from_f(value) : value / n->us_factor;
}

/* The value that a house has there, in the form's SI: per cent where the form has per cent. */
static double *place(PbHouse *h, int field, double *factor)
{
    *factor = 1.0;
    switch (field) {
    case SIDE_AREA:
        return &h->wall_area_m2;
    case SIDE_FRAMING:
        *factor = 0.01;
        return &h->framing_share;
    case SIDE_TEMPERATURES:
        return &h->room_c;
    case SIDE_TEMPERATURES + 1:
        return &h->outdoor_c;
    case SIDE_COOLING:
        return &h->cooling.set_c;
    case SIDE_COOLING + 1:
        return &h->cooling.price_kwh.mid;
    case SIDE_COOLING + 2:
        *factor = 0.01;
        return &h->cooling.efficiency.mid;
    case SIDE_SHARE:
        *factor = 0.01;
        return &h->cavity.share;
    case SIDE_BAY:
        *factor = 0.001;
        return &h->bay.depth_m;
    case SIDE_BAY + 1:
        *factor = 0.001;
        return &h->bay.width_m;
    case SIDE_BAY + 2:
        *factor = 0.001;
        return &h->bay.height_m;
    case SIDE_LAST_YEAR:
        return &h->bill.last_year;
    case SIDE_FLOOR:
        return &h->air.floor_area_m2;
    case SIDE_DOOR:
        return &h->air.door_m3_h;
    case SIDE_JOB:
        return &h->job.price;
    case SIDE_JOB + 1:
        return &h->job.rebate;
    case SIDE_JOB + 2:
        return &h->job.life_years;
    default:
        break;
    }
    const struct {
        int first;
        double factor;
        PbHeatRange *range;
    } ranges[] = {{SIDE_EFFICIENCY, 0.01, &h->efficiency},
                  {SIDE_PRICE, 1.0, h->bill.fuel > 0 ? &h->bill.price : &h->price_per_kwh},
                  {SIDE_NOT_HEATING, 0.01, &h->bill.not_heating},
                  {SIDE_DEGREE_DAYS, 1.0, &h->degree_days_k_d}};
    int k = 0, count = (int)(sizeof ranges / sizeof ranges[0]);
    while (k + 1 < count && !(field >= ranges[k].first && field < ranges[k].first + 3)) {
        k++;
    }
    *factor = ranges[k].factor;
    PbHeatRange *r = ranges[k].range;
    return field == ranges[k].first ? &r->low : field == ranges[k].first + 1 ? &r->mid : &r->high;
}

/* As short as it can be written without losing more than a person would type. */
static void write_number(char *out, size_t size, double value, int decimals, IoReaderTaste reader)
{
    SDL_snprintf(out, size, "%.*f", decimals, value);
    char *mark = strchr(out, '.');
    if (mark != NULL) {
        char *end = out + strlen(out) - 1;
        while (end > mark && *end == '0') {
            *end-- = '\0';
        }
        if (end == mark) {
            *end = '\0';
        } else {
            io_decimal_mark(out, reader);
        }
    }
}

/* The text that a value is written as. */
static void written(const Number *n, PbHouse *h, IoReaderTaste reader, char *out, size_t size)
{
    double factor, *at = place(h, n->field, &factor);
    int decimals = n->decimals + (reader.is_us && n->us_factor == 0.0 ? 1 : 0);
    write_number(out, size, shown(n, *at / factor, reader.is_us), decimals, reader);
}

static int batt_of(const PbExercise *bay)
{
    int i = bay->obstacle_count - 1;
    while (i >= 0 && !pb_obstacle_traits(bay->obstacles[i].kind)->is_batt) {
        i--;
    }
    return i;
}

/* A batt of this page lies across the bay and ends at the top plate; that of a file may not. */
static int is_page_batt(const PbExercise *bay, int i)
{
    const PbObstacle *o = &bay->obstacles[i];
    return fabs(o->x0_m) < 1e-6 && fabs(o->x1_m - bay->width_m) < 1e-6 &&
           fabs(o->y1_m - bay->height_m) < 1e-6;
}

void side_form_fill(SideForm *f, const PbHouse *house, IoReaderTaste reader)
{
    PbHouse h = *house;
    int batt = batt_of(&h.bay);
    if (batt >= 0 && is_page_batt(&h.bay, batt)) {
        h.cavity.share = 1.0 - h.bay.obstacles[batt].y0_m / h.bay.height_m;
    }
    f->house = h;
    f->reader = reader;
    f->bad = -1;
    SDL_strlcpy(f->text[SIDE_CUSTOMER], h.customer, sizeof f->text[0]);
    SDL_strlcpy(f->text[SIDE_TOWN], h.town, sizeof f->text[0]);
    SDL_strlcpy(f->text[SIDE_CURRENCY], h.currency, sizeof f->text[0]);
    for (int i = 0; i < NUMBERS; i++) {
        written(&numbers[i], &h, reader, f->text[numbers[i].field], sizeof f->text[0]);
    }
    f->town = -1;
    for (int t = 0; t < SIDE_TOWN_COUNT; t++) {
        const PbHeatRange *d = &side_towns[t].degree_days_k_d;
        if (strcmp(side_towns[t].name, h.town) == 0 &&
            fabs(d->mid - h.degree_days_k_d.mid) + fabs(d->low - h.degree_days_k_d.low) +
                    fabs(d->high - h.degree_days_k_d.high) <
                3.0) {
            f->town = t;
        }
    }
    int air = io_climate_row_of(h.climate.name);
    f->air = air < 0 ? 0 : air;
}

void side_form_town(SideForm *f, int town)
{
    f->town = town;
    if (town < 0) {
        return;
    }
    const SideTown *t = &side_towns[town];
    const double days[3] = {t->degree_days_k_d.low, t->degree_days_k_d.mid,
                            t->degree_days_k_d.high};
    SDL_strlcpy(f->text[SIDE_TOWN], t->name, sizeof f->text[0]);
    for (int i = 0; i < 3; i++) {
        write_number(f->text[SIDE_DEGREE_DAYS + i], sizeof f->text[0],
                     days[i] * (f->reader.is_us ? 1.8 : 1.0), 0, f->reader);
    }
    f->air = io_climate_row_of(t->climate);
}

/* The texts of three fields from the house. */
static void write_three(SideForm *f, int first)
{
    for (int i = 0; i < NUMBERS; i++) {
        int field = numbers[i].field;
        if (field >= first && field < first + 3) {
            written(&numbers[i], &f->house, f->reader, f->text[field], sizeof f->text[0]);
        }
    }
}

void side_form_bay(SideForm *f, const PbExercise *bay)
{
    f->house.bay = *bay;
    write_three(f, SIDE_BAY);
}

void side_form_fuel(SideForm *f, int fuel)
{
    PbHouse *h = &f->house;
    PbConstants shipped = pb_constants_default();
    double was = h->bill.fuel > 0 ? pb_fuel_kwh(h->bill.fuel - 1, &shipped) : 1.0;
    double is = fuel > 0 ? pb_fuel_kwh(fuel - 1, &shipped) : 1.0;
    PbHeatRange p = h->bill.fuel > 0 ? h->bill.price : h->price_per_kwh;
    p = (PbHeatRange){p.low / was * is, p.mid / was * is, p.high / was * is};
    h->bill.fuel = fuel;
    *(fuel > 0 ? &h->bill.price : &h->price_per_kwh) = p;
    write_three(f, SIDE_PRICE); /* in the unit that is now chosen */
}

void side_form_layer(SideForm *f, PbWallPlace place, int chosen)
{
    PbWall *w = &f->house.wall;
    f->says[0] = '\0'; /* what was refused may be another wall now */
    if (place == PB_WALL_INSIDE && chosen == 0) {
        memset(w, 0, sizeof *w);
        return;
    }
    if (!w->is_layered) {
        *w = pb_wall_usual();
    }
    w->layer[place] = place == PB_WALL_INSIDE ? chosen - 1 : chosen;
}

const char *side_form_unit(const SideForm *f, int field)
{
    switch (field) {
    case SIDE_DOOR:
        return f->reader.is_us ? "cfm50" : "m³/h";
    case SIDE_FLOOR:
    case SIDE_AREA:
        return io_unit_name(IO_UNIT_AREA, f->reader);
    case SIDE_FRAMING:
        return "%";
    case SIDE_DEGREE_DAYS:
        return f->reader.is_us ? "°F·d" : "K·d";
    case SIDE_PRICE:
    case SIDE_JOB:
    case SIDE_JOB + 1:
    case SIDE_COOLING + 1:
        return f->text[SIDE_CURRENCY];
    case SIDE_LAST_YEAR:
        return f->house.bill.fuel > 0 ? io_fuel_unit(&f->house, f->reader.language) : "";
    case SIDE_BAY:
    case SIDE_BAY + 1:
    case SIDE_BAY + 2:
        return io_unit_name(IO_UNIT_SMALL, f->reader);
    case SIDE_COOLING + 2:
    case SIDE_SHARE:
    case SIDE_NOT_HEATING:
        return "%";
    case SIDE_EFFICIENCY:
        return "%";
    case SIDE_COOLING:
    case SIDE_TEMPERATURES:
        return f->reader.is_us ? "°F" : "°C";
    default:
        return "";
    }
}

/* "3,000", or "3.000" where the comma is the decimal mark: the other mark is as good as one's
 * own, but between a figure and just three digits it is more likely meant to part thousands. */
static int parts_thousands(const char *plain, IoReaderTaste reader)
{
    const char *mark = strchr(plain, reader.is_comma ? '.' : ',');
    return mark != NULL && fabs(strtod(plain, NULL)) >= 1.0 &&
           strspn(mark + 1, "0123456789") == 3 && mark[4] == '\0';
}

int side_read_number(const char *text, IoReaderTaste reader, double *value)
{
    char plain[SIDE_TEXT + 1], *end = NULL;
    size_t n = strspn(text, " ");
    SDL_strlcpy(plain, text + n, sizeof plain);
    n = strlen(plain);
    while (n > 0 && plain[n - 1] == ' ') {
        plain[--n] = '\0';
    }
    if (parts_thousands(plain, reader)) {
        return 0;
    }
    for (char *p = plain; *p; p++) {
        *p = *p == ',' ? '.' : *p;
    }
    if (n == 0 || plain[strspn(plain, "0123456789.+-")] != '\0') {
        return 0;
    }
    *value = strtod(plain, &end);
    return *end == '\0' && isfinite(*value);
}

static int refuse(SideForm *f, int field, const char *what, const char *expected)
{
    f->bad = field;
    f->says_is_trouble = 1;
    SDL_snprintf(f->says, sizeof f->says, _("%s: %s."), what, expected);
    return 0;
}

/* What the house takes there: of a price and of last year's units it hangs on the fuel. */
static void limits(const Number *n, const PbHouse *h, double *low, double *high)
{
    int is_price = n->field >= SIDE_PRICE && n->field < SIDE_PRICE + 3, fuel = h->bill.fuel;
    PbConstants shipped = pb_constants_default();
    *low = is_price && fuel > 0 ? 1e-4 : n->low;
    *high = is_price && fuel == 0 ? 1000.0 : n->high;
    if (n->field == SIDE_LAST_YEAR && fuel > 0) {
        *high = floor(PB_BILL_MOST_KWH / pb_fuel_kwh(fuel - 1, &shipped));
    }
}

static int take_numbers(SideForm *f, PbHouse *h)
{
    char what[120], expected[200], low[32], high[32], same[32];
    for (int i = 0; i < NUMBERS; i++) {
        const Number *n = &numbers[i];
        const SideRow *row = side_row_of(n->field);
        const char *part = side_part_of(row, n->field);
        double value, least, most, factor, *at = place(h, n->field, &factor);
        const char *unit = side_form_unit(f, side_row_is_of_parts(row) ? n->field : row->field);
        limits(n, h, &least, &most);
        SDL_snprintf(what, sizeof what, "%s%s%s", _(row->name), part[0] ? ", " : "", part);
        write_number(low, sizeof low, shown(n, least, f->reader.is_us),
                     least < 1.0 ? n->decimals : 0, f->reader);
        write_number(high, sizeof high, shown(n, most, f->reader.is_us), 0, f->reader);
        if (!side_read_number(f->text[n->field], f->reader, &value)) {
            SDL_snprintf(expected, sizeof expected,
                         _("\"%.24s\" is not a number; expected one from %s to %s %.16s"),
                         f->text[n->field], low, high, unit);
            return refuse(f, n->field, what, expected);
        }
        value = si_of(n, value, f->reader.is_us);
        if (value < least || value > most) {
            SDL_snprintf(expected, sizeof expected,
                         _("%.24s is out of range; expected %s to %s %.16s"), f->text[n->field],
                         low, high, unit);
            return refuse(f, n->field, what, expected);
        }
        written(n, h, f->reader, same, sizeof same);
        if (strcmp(same, f->text[n->field]) != 0) { /* what was not touched keeps its last digit */
            *at = value * factor;
        }
        int rank = n->field - row->field;
        if (row->fields == 3 && rank > 0 && !side_row_is_of_parts(row)) {
            double unused, before = *place(h, n->field - 1, &unused);
            if (*at < before) {
                return refuse(f, n->field, what,
                              _("expected lowest, usual and highest in rising order"));
            }
        }
    }
    if (h->room_c - h->outdoor_c < 5.0) {
        return refuse(f, SIDE_TEMPERATURES + 1, _("Room and outdoors"),
                      f->reader.is_us ? _("outdoors must be at least 9 °F colder than the room")
                                      : _("outdoors must be at least 5 °C colder than the room"));
    }
    return 1;
}

/* No house has such air: the two fields against each other. */
static int take_air(SideForm *f, const PbHouse *h)
{
    char expected[200], low[32], high[32];
    const PbHouseAir *a = &h->air;
    double volume = a->floor_area_m2 * pb_constants_default().house_ceiling_m;
    double least = volume > 0.0 ? PB_ACH50_LEAST * volume : 50.0;
    double most = volume > 0.0 ? PB_ACH50_MOST * volume : 50000.0;
    double factor = f->reader.is_us ? 0.5885777786915 : 1.0;
    if (a->floor_area_m2 > 0.0 && a->floor_area_m2 < 20.0) {
        write_number(low, sizeof low, f->reader.is_us ? 20.0 * 10.763910416709722 : 20.0, 0,
                     f->reader);
        SDL_snprintf(expected, sizeof expected, _("expected at least %s %s, or 0"), low,
                     side_form_unit(f, SIDE_FLOOR));
        return refuse(f, SIDE_FLOOR, _("Floor area"), expected);
    }
    if (a->door_m3_h > 0.0 && (a->door_m3_h < ceil(least) || a->door_m3_h > floor(most))) {
        write_number(low, sizeof low, ceil(ceil(least) * factor), 0, f->reader);
        write_number(high, sizeof high, floor(floor(most) * factor), 0, f->reader);
        SDL_snprintf(expected, sizeof expected,
                     _("no house of this size leaks %.24s; expected %s to %s %s, or 0"),
                     f->text[SIDE_DOOR], low, high, side_form_unit(f, SIDE_DOOR));
        return refuse(f, SIDE_DOOR, _("Blower door"), expected);
    }
    return 1;
}

/* A range of which one field shows the middle: its ends go with it in proportion. */
static void follow_middle(PbHeatRange *r, const PbHeatRange *was)
{
    double share = was->mid > 0.0 ? r->mid / was->mid : 0.0;
    r->low = share > 0.0 ? was->low * share : r->mid;
    r->high = share > 0.0 ? was->high * share : r->mid;
}

/* The batt of this page follows the bay and its share of the height. */
static void lay_batt(PbHouse *h, const PbHouse *was)
{
    int i = batt_of(&h->bay);
    if (i >= 0 && is_page_batt(&was->bay, i)) {
        PbObstacle *o = &h->bay.obstacles[i];
        o->x1_m = h->bay.width_m;
        o->y1_m = h->bay.height_m;
        o->y0_m = h->bay.height_m * (1.0 - h->cavity.share);
    }
}

int side_form_cavity_now(const SideForm *f)
{
    return batt_of(&f->house.bay) >= 0 ? SIDE_BATT : (int)f->house.cavity.now;
}

void side_form_cavity(SideForm *f, int chosen)
{
    PbExercise *bay = &f->house.bay;
    for (int i = batt_of(bay); i >= 0; i = batt_of(bay)) {
        for (int k = i; k + 1 < bay->obstacle_count; k++) {
            bay->obstacles[k] = bay->obstacles[k + 1];
        }
        bay->obstacle_count--;
    }
    f->house.cavity.now = chosen == SIDE_BATT ? PB_CAVITY_EMPTY : (PbCavityNow)chosen;
    if (chosen == SIDE_BATT && bay->obstacle_count < PB_MAX_OBSTACLES) {
        double from_m = bay->height_m * (1.0 - f->house.cavity.share);
        bay->obstacles[bay->obstacle_count++] = (PbObstacle){.kind = PB_OBSTACLE_BATT,
                                                             .y0_m = from_m,
                                                             .x1_m = bay->width_m,
                                                             .y1_m = bay->height_m,
                                                             .depth_frac = 0.55};
    }
}

int side_form_take(SideForm *f, PbHouse *house)
{
    PbHouse h = f->house;
    char field[96] = "";
    PbError err = {0};
    if (f->text[SIDE_CUSTOMER][strspn(f->text[SIDE_CUSTOMER], " ")] == '\0') {
        return refuse(f, SIDE_CUSTOMER, _("Customer"), _("expected a name"));
    }
    if (!take_numbers(f, &h) || !take_air(f, &h)) {
        return 0;
    }
    struct {
        char *to;
        size_t size;
        int field;
    } labels[] = {{h.customer, sizeof h.customer, SIDE_CUSTOMER},
                  {h.town, sizeof h.town, SIDE_TOWN},
                  {h.currency, sizeof h.currency, SIDE_CURRENCY}};
    for (size_t i = 0; i < sizeof labels / sizeof labels[0]; i++) {
        if (strlen(f->text[labels[i].field]) >= labels[i].size) {
            return refuse(f, labels[i].field, _(side_row_of(labels[i].field)->name),
                          _("this text is too long"));
        }
        SDL_strlcpy(labels[i].to, f->text[labels[i].field], labels[i].size);
    }
    h.bay.holes[0].x_m *=
        h.bay.width_m / f->house.bay.width_m; /* the hole stays where it was across */
    h.bay.holes[0].y_m *= h.bay.height_m / f->house.bay.height_m; /* and along it */
    lay_batt(&h, &f->house);
    PbWallPlace place = PB_WALL_INSIDE;
    if (pb_wall_check(&h.wall, &place, NULL) != PB_OK) {
        return refuse(f, -1, io_wall_place_name(place, f->reader.language),
                      place == PB_WALL_OVER
                          ? _("new siding needs an old one under it")
                          : _("nothing stands outside of the studs; expected sheathing or siding"));
    }
    follow_middle(&h.cooling.price_kwh, &f->house.cooling.price_kwh);
    follow_middle(&h.cooling.efficiency, &f->house.cooling.efficiency);
    if (h.bill.fuel == 0 && h.bill.last_year > 0.0) {
        return refuse(f, SIDE_LAST_YEAR, _("Last year's bill"),
                      _("expected the fuel in the unit of the bill first, or 0"));
    }
    if (h.job.rebate > h.job.price) {
        return refuse(f, SIDE_JOB + 1, _("The job"), _("expected a rebate of at most the price"));
    }
    if (h.bill.fuel > 0) {
        pb_house_price_by_bill(&h);
        SDL_strlcpy(h.fuel, io_fuel_name(h.bill.fuel - 1, WORDS_ENGLISH), sizeof h.fuel);
    }
    if (pb_house_check(&h, field, sizeof field, &err) != PB_OK) {
        return refuse(f, -1, _("This house"), err.message);
    }
    f->bad = -1;
    *house = h;
    return 1;
}

int side_form_look(const SideForm *form, PbHouse *house)
{
    SideForm look = *form;
    if (!side_form_take(&look, house) || !(form->airs[form->air].bay_rh.mean > 0.0)) {
        return 0;
    }
    house->climate = form->airs[form->air];
    return 1;
}
