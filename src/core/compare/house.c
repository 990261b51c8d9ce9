/* A customer's house: defaults and judgement. Reading files: io/house_file.c. */
#include "core/house.h"

#include "base/complaint.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static PbHeatRange row_range(const char *name)
{
    const PbConstantInfo *info = pb_constant_find(name);
    return (PbHeatRange){info->low, info->value, info->high};
}

PbHouse pb_house_default(void)
{
    PbHouse h;
    memset(&h, 0, sizeof h);
    snprintf(h.customer, sizeof h.customer, "House");
    h.wall_area_m2 = 100.0;
    h.framing_share = 0.25;
    h.climate = pb_climate_default();
    h.degree_days_k_d = row_range("degree_days_k_d");
    snprintf(h.fuel, sizeof h.fuel, "gas");
    snprintf(h.currency, sizeof h.currency, "USD");
    h.price_per_kwh = row_range("fuel_price_per_kwh");
    h.efficiency = row_range("heating_efficiency");
    h.cavity.share = 0.8;
    h.cooling = (PbCooling){24.0, {0.0, 0.0, 0.0}, {2.5, 3.0, 4.0}};
    h.job.life_years = 20.0;
    h.air.stories = 1;
    h.room_c = 20.0;
    h.outdoor_c = 0.0;
    h.bay = pb_exercise_default();
    h.foam = PB_FOAM_TYPICAL;
    h.loose = PB_LOOSE_FAIR;
    h.dense = PB_DENSE_WELL_DONE;
    h.seed = 7;
    return h;
}

int pb_house_has_air(const PbHouse *h)
{
    return h->air.door_m3_h > 0.0 || h->air.floor_area_m2 > 0.0;
}

void pb_house_price_by_bill(PbHouse *h)
{
    if (h->bill.fuel > 0) {
        PbConstants shipped = pb_constants_default();
        double kwh = pb_fuel_kwh(h->bill.fuel - 1, &shipped);
        const PbHeatRange *p = &h->bill.price;
        h->price_per_kwh = (PbHeatRange){p->low / kwh, p->mid / kwh, p->high / kwh};
    }
}

static PbStatus number(const PbComplaint *c, const char *path, double value, double low,
                       double high, const char *unit)
{
    return pb_complain_range(c, path, path, value, (const double[2]){low, high}, unit);
}

static PbStatus range(const PbComplaint *c, const char *path, const PbHeatRange *r, double low,
                      double high, const char *unit)
{
    const char *const key[] = {"low", "mid", "high"};
    const double value[] = {r->low, r->mid, r->high};
    char full[64];
    for (int i = 0; i < 3; i++) {
        snprintf(full, sizeof full, "%s/%s", path, key[i]);
        PB_TRY(number(c, full, value[i], low, high, unit));
        if (i > 0 && value[i] < value[i - 1]) {
            return pb_complain(
                c, full, "\"%s\": %g is below \"%s\", expected low, mid, high in rising order",
                full, value[i], key[i - 1]);
        }
    }
    return PB_OK;
}

static PbStatus label(const PbComplaint *c, const char *path, const char *text, size_t size,
                      int required)
{
    size_t n = strnlen(text, size);
    if (n == size || (required && n == 0)) {
        return pb_complain(c, path, "\"%s\": expected %s text of at most %zu bytes", path,
                           required ? "some" : "a", size - 1);
    }
    for (size_t i = 0; i < n; i++) {
        if ((unsigned char)text[i] < 0x20 || text[i] == 0x7f) {
            return pb_complain(
                c, path, "\"%s\": expected one line of text without control characters", path);
        }
    }
    return PB_OK;
}

static PbStatus check_bay(const PbComplaint *c, const PbHouse *h)
{
    PbError inner = {0};
    char where[96];
    if (pb_exercise_check(&h->bay, where, sizeof where, &inner) != PB_OK) {
        return pb_complain(c, "bay", "\"bay\": %s: %.300s", where, inner.message);
    }
    if (h->bay.must_not_fill[0] != '\0') {
        return pb_complain(
            c, "bay", "\"bay\": this bay must not be filled (%.160s); expected one that may be",
            h->bay.must_not_fill);
    }
    return PB_OK;
}

static PbStatus check_bill(const PbComplaint *c, const PbHouse *h)
{
    const PbBill *b = &h->bill;
    PB_TRY(number(c, "bill/fuel", (double)b->fuel, 0.0, (double)pb_fuel_count(), ""));
    if (b->fuel == 0) {
        return PB_OK;
    }
    PbConstants shipped = pb_constants_default();
    double most = PB_BILL_MOST_KWH / pb_fuel_kwh(b->fuel - 1, &shipped);
    PB_TRY(range(c, "bill/price", &b->price, 1e-4, 1e5, "money per unit of the bill"));
    PB_TRY(number(c, "bill/last_year", b->last_year, 0.0, most, "units a year"));
    return range(c, "bill/not_heating", &b->not_heating, 0.0, 0.9, "of 1");
}

static PbStatus check_cooling(const PbComplaint *c, const PbCooling *k)
{
    PB_TRY(number(c, "cooling/room_c", k->set_c, 15.0, 35.0, "deg C"));
    PB_TRY(range(c, "cooling/price_per_kwh", &k->price_kwh, 0.0, 1000.0, "money per kWh"));
    return range(c, "cooling/efficiency", &k->efficiency, 0.5, 10.0, "of 1");
}

static PbStatus check_job(const PbComplaint *c, const PbJob *j)
{
    PB_TRY(number(c, "job/price", j->price, 0.0, 1e9, "money"));
    PB_TRY(number(c, "job/rebate", j->rebate, 0.0, j->price, "money, at most the price"));
    return number(c, "job/life_years", j->life_years, 1.0, 100.0, "years");
}

static PbStatus check_air(const PbComplaint *c, const PbHouseAir *a)
{
    PB_TRY(number(c, "air/stories", (double)a->stories, 1.0, PB_STORIES_MOST, "stories"));
    PB_TRY(number(c, "air/built", (double)a->built, 0.0, PB_BUILT_KINDS - 1, ""));
    if (a->floor_area_m2 != 0.0) {
        PB_TRY(number(c, "air/floor_area_m2", a->floor_area_m2, 20.0, 2000.0, "m2, or 0"));
    }
    if (a->door_m3_h != 0.0) {
        double volume = pb_constants_default().house_ceiling_m * a->floor_area_m2;
        double low = 50.0, high = 50000.0;
        if (volume > 0.0) { /* one cannot be where the other is */
            low = ceil(PB_ACH50_LEAST * volume);
            high = floor(PB_ACH50_MOST * volume);
        }
        PB_TRY(number(c, "air/blower_door_m3_h", a->door_m3_h, low, high,
                      volume > 0.0 ? "m3/h at 50 Pa for this floor area, or 0" : "m3/h, or 0"));
    }
    return PB_OK;
}

static PbStatus check_damp(const PbComplaint *c, const PbHouseDamp *d)
{
    const struct {
        const char *path;
        int value, kinds;
    } rows[] = {{"damp/inside", (int)d->inside, PB_COATS},
                {"damp/outside", (int)d->outside, PB_COATS},
                {"damp/leaks", (int)d->leaks, PB_SEENS},
                {"damp/water", (int)d->water, PB_SEENS},
                {"damp/bath", (int)d->bath, PB_SEENS},
                {"damp/no_overhang", (int)d->no_overhang, PB_SEENS}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        PB_TRY(number(c, rows[i].path, rows[i].value, 0.0, rows[i].kinds - 1, ""));
    }
    return PB_OK;
}

PbStatus pb_house_check(const PbHouse *h, char *field, size_t size, PbError *err)
{
    PbComplaint c = {field, size, err};
    PB_TRY(label(&c, "customer", h->customer, sizeof h->customer, 1));
    PB_TRY(label(&c, "town", h->town, sizeof h->town, 0));
    PB_TRY(label(&c, "fuel", h->fuel, sizeof h->fuel, 0));
    PB_TRY(label(&c, "currency", h->currency, sizeof h->currency, 0));
    PB_TRY(number(&c, "wall_area_m2", h->wall_area_m2, 1.0, 5000.0, "m2"));
    PB_TRY(number(&c, "framing_share", h->framing_share, 0.05, 0.5, "of 1"));
    PB_TRY(range(&c, "degree_days_k_d", &h->degree_days_k_d, 0.0, 20000.0, "K d"));
    PB_TRY(range(&c, "price_per_kwh", &h->price_per_kwh, 0.0, 1000.0, "money per kWh"));
    PB_TRY(range(&c, "efficiency", &h->efficiency, 0.01, 5.0, "of 1"));
    PB_TRY(number(&c, "cavity/now", (double)h->cavity.now, 0.0, PB_CAVITY_KINDS - 1, ""));
    if (h->cavity.now != PB_CAVITY_EMPTY) {
        PB_TRY(number(&c, "cavity/share", h->cavity.share, 0.05, 0.95, "of 1"));
    }
    PB_TRY(check_bill(&c, h));
    PB_TRY(check_cooling(&c, &h->cooling));
    PB_TRY(check_job(&c, &h->job));
    PB_TRY(check_air(&c, &h->air));
    PB_TRY(check_damp(&c, &h->damp));
    PB_TRY(number(&c, "room_c", h->room_c, -20.0, 50.0, "deg C"));
    PB_TRY(number(&c, "outdoor_c", h->outdoor_c, -60.0, 45.0, "deg C"));
    PB_TRY(number(&c, "outdoor_c", h->outdoor_c, -60.0, h->room_c - 5.0,
                  "deg C: a heating season, at least 5 K below the room"));
    PbError inner = {0};
    PbWallPlace place = PB_WALL_INSIDE;
    if (pb_wall_check(&h->wall, &place, &inner) != PB_OK) {
        snprintf(field, size, "wall/%s", pb_wall_place_word(place));
        return pb_fail(err, PB_ERR_RANGE, "\"wall\": %.300s", inner.message);
    }
    if (pb_climate_check(&h->climate, &inner) != PB_OK) {
        snprintf(field, size, "climate");
        return pb_fail(err, PB_ERR_RANGE, "\"climate\": %.300s", inner.message);
    }
    PB_TRY(pb_proof_check(&h->proof, field, size, err));
    PB_TRY(number(&c, "foam", (double)h->foam, 0.0, PB_FOAM_POOR, ""));
    PB_TRY(number(&c, "loose", (double)h->loose, 0.0, PB_LOOSE_CASES - 1, ""));
    PB_TRY(number(&c, "dense", (double)h->dense, 0.0, PB_DENSE_CASES - 1, ""));
    return check_bay(&c, h);
}
