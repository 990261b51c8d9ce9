/* House files, both ways. The core judges what was read (pb_house_check) and its complaint is shown
 * at the place of the value. */
#include "io/house_file.h"

#include "format_rows.h"

#include "io/climate_file.h"
#include "io/exercise_file.h"
#include "io/proof_file.h"
#include "io/wall_file.h"

#include <assert.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *const io_foam_words[3] = {"good", "typical", "poor"};
const char *const io_loose_words[PB_LOOSE_CASES] = {"fair", "careless"};
const char *const io_dense_words[PB_DENSE_CASES] = {"well-done", "hasty", "own"};

const char *const io_built_words[PB_BUILT_KINDS] = {"unknown", "before-1940", "1940-1969",
                                                    "1970-1989", "from-1990"};

static const char *const coat_words[PB_COATS] = {"unknown", "none", "latex", "oil", "tight"};
static const char *const seen_words[PB_SEENS] = {"unknown", "no", "yes"};
static const char *const seen_keys[4] = {"leaks", "water", "bath", "no_overhang"};

enum { FUEL_ROWS = 16 }; /* at least as many as there are; a test asks */

static const char *const cavity_words[PB_CAVITY_KINDS] = {"empty", "old-loose", "partly"};

typedef struct Folders {
    const char *const *at;
    int count;
} Folders;

static void read_climate(IoReader *r, IoValue *root, const Folders *f, PbClimate *climate)
{
    char name[sizeof climate->name] = "";
    PbError inner = {0};
    io_text(r, root, "climate", 1, name, sizeof name);
    if (r->status != PB_OK) {
        return;
    }
    if (!io_is_name(name) || io_climate_find(name, f->at, f->count, climate, &inner) != PB_OK ||
        strcmp(climate->name, name) != 0) {
        io_complain(r, io_child(r, root, "climate"), PB_ERR_RANGE,
                    "\"climate\": there is no climate \"%.40s\" in assets/climates", name);
    }
}

/* { "low": , "mid": , "high": }, or one number that is known for sure. */
static void read_range(IoReader *r, IoValue *root, const char *key, double low, double high,
                       const char *unit, PbHeatRange *out)
{
    IoValue *v = io_child(r, root, key);
    if (v != NULL && json_is_number(v->json)) {
        io_number(r, root, key, 1, low, high, unit, &out->mid);
        out->low = out->high = out->mid;
        return;
    }
    v = io_object(r, root, key, 1);
    if (v != NULL) {
        io_number(r, v, "low", 1, low, high, unit, &out->low);
        io_number(r, v, "mid", 1, low, high, unit, &out->mid);
        io_number(r, v, "high", 1, low, high, unit, &out->high);
    }
}

static void read_cavity(IoReader *r, IoValue *root, PbCavity *cavity)
{
    int now = PB_CAVITY_EMPTY;
    IoValue *v = io_object(r, root, "cavity", 0);
    if (v != NULL) {
        io_choice(r, v, "now", 1, cavity_words, PB_CAVITY_KINDS, &now);
        io_number(r, v, "share", now != PB_CAVITY_EMPTY, 0.05, 0.95, "of 1", &cavity->share);
        cavity->now = (PbCavityNow)now;
    }
}

/* The price stands with the fuel's unit in the bill, or as that of a kWh, and only once. */
static void read_bill(IoReader *r, IoValue *root, PbHouse *h)
{
    const char *ids[FUEL_ROWS];
    int count = pb_fuel_count(), fuel = 0;
    IoValue *v = io_object(r, root, "bill", 0);
    if (v == NULL) {
        read_range(r, root, "price_per_kwh", 0.0, 1000.0, "money per kWh", &h->price_per_kwh);
        return;
    }
    IoValue *typed = io_child(r, root, "price_per_kwh");
    if (typed != NULL) {
        io_complain(r, typed, PB_ERR_RANGE,
                    "\"price_per_kwh\": the bill has its price; expected only one of the two");
        return;
    }
    for (int n = 0; n < count && n < FUEL_ROWS; n++) {
        ids[n] = pb_fuel(n)->id;
    }
    io_choice(r, v, "fuel", 1, ids, count, &fuel);
    h->bill.fuel = fuel + 1;
    read_range(r, v, "price", 1e-4, 1e5, "money per unit of the bill", &h->bill.price);
    io_number(r, v, "last_year", 0, 0.0, 1e6, "units a year", &h->bill.last_year);
    if (io_child(r, v, "not_heating") != NULL) {
        read_range(r, v, "not_heating", 0.0, 0.9, "of 1", &h->bill.not_heating);
    }
    pb_house_price_by_bill(h);
}

static void read_cooling(IoReader *r, IoValue *root, PbCooling *k)
{
    IoValue *v = io_object(r, root, "cooling", 0);
    if (v != NULL) {
        io_number(r, v, "room_c", 0, 15.0, 35.0, "deg C", &k->set_c);
        read_range(r, v, "price_per_kwh", 0.0, 1000.0, "money per kWh", &k->price_kwh);
        if (io_child(r, v, "efficiency") != NULL) {
            read_range(r, v, "efficiency", 0.5, 10.0, "of 1", &k->efficiency);
        }
    }
}

static void read_job(IoReader *r, IoValue *root, PbJob *job)
{
    IoValue *v = io_object(r, root, "job", 0);
    if (v != NULL) {
        io_number(r, v, "price", 1, 0.0, 1e9, "money", &job->price);
        io_number(r, v, "rebate", 0, 0.0, 1e9, "money", &job->rebate);
        io_number(r, v, "life_years", 0, 1.0, 100.0, "years", &job->life_years);
    }
}

static void read_air(IoReader *r, IoValue *root, PbHouseAir *air)
{
    long long stories = air->stories;
    int built = PB_BUILT_UNKNOWN;
    IoValue *v = io_object(r, root, "air", 0);
    if (v != NULL) {
        io_number(r, v, "floor_area_m2", 0, 0.0, 2000.0, "m2", &air->floor_area_m2);
        io_integer(r, v, "stories", 0, 1, PB_STORIES_MOST, &stories);
        io_choice(r, v, "built", 0, io_built_words, PB_BUILT_KINDS, &built);
        io_number(r, v, "blower_door_m3_h", 0, 0.0, 50000.0, "m3/h at 50 Pa", &air->door_m3_h);
        air->stories = (int)stories;
        air->built = (PbBuilt)built;
    }
}

static void read_damp(IoReader *r, IoValue *root, PbHouseDamp *d)
{
    int inside = 0, outside = 0, seen[4] = {0};
    IoValue *v = io_object(r, root, "damp", 0);
    if (v == NULL) {
        return;
    }
    io_choice(r, v, "inside", 0, coat_words, PB_COATS, &inside);
    io_choice(r, v, "outside", 0, coat_words, PB_COATS, &outside);
    for (int i = 0; i < 4; i++) {
        io_choice(r, v, seen_keys[i], 0, seen_words, PB_SEENS, &seen[i]);
    }
    *d = (PbHouseDamp){(PbCoat)inside,  (PbCoat)outside, (PbSeen)seen[0],
                       (PbSeen)seen[1], (PbSeen)seen[2], (PbSeen)seen[3]};
}

static void read_numbers(IoReader *r, IoValue *root, PbHouse *h)
{
    long long seed = (long long)h->seed;
    io_number(r, root, "wall_area_m2", 1, 1.0, 5000.0, "m2", &h->wall_area_m2);
    io_number(r, root, "framing_share", 1, 0.05, 0.5, "of 1", &h->framing_share);
    read_range(r, root, "degree_days_k_d", 0.0, 20000.0, "K d", &h->degree_days_k_d);
    read_bill(r, root, h);
    read_cooling(r, root, &h->cooling);
    read_job(r, root, &h->job);
    read_air(r, root, &h->air);
    read_damp(r, root, &h->damp);
    read_cavity(r, root, &h->cavity);
    read_range(r, root, "efficiency", 0.01, 5.0, "of 1", &h->efficiency);
    io_number(r, root, "room_c", 0, -20.0, 50.0, "deg C", &h->room_c);
    io_number(r, root, "outdoor_c", 0, -60.0, 45.0, "deg C", &h->outdoor_c);
    io_integer(r, root, "seed", 0, 0, 1000000000LL, &seed);
    h->seed = (uint64_t)seed;
}

static void read_house(IoReader *r, IoValue *root, const Folders *f, PbHouse *house)
{
    PbHouse h = pb_house_default();
    int foam = PB_FOAM_TYPICAL, loose = PB_LOOSE_FAIR, dense = PB_DENSE_WELL_DONE;
    char path[96];
    PbError check = {0};
    memset(h.town, 0, sizeof h.town);
    io_format(r, root, IO_HOUSE_FORMAT);
    io_text(r, root, "customer", 1, h.customer, sizeof h.customer);
    io_text(r, root, "town", 0, h.town, sizeof h.town);
    io_text(r, root, "fuel", 1, h.fuel, sizeof h.fuel);
    io_text(r, root, "currency", 1, h.currency, sizeof h.currency);
    read_numbers(r, root, &h);
    read_climate(r, root, f, &h.climate);
    io_exercise_named(r, root, f->at, f->count, &h.bay);
    h.wall = h.bay.wall; /* where the house has none of its own */
    io_wall_read(r, root, &h.wall);
    io_proof_read(r, root, &h.proof);
    io_choice(r, root, "foam", 0, io_foam_words, 3, &foam);
    io_choice(r, root, "loose", 0, io_loose_words, PB_LOOSE_CASES, &loose);
    io_choice(r, root, "dense", 0, io_dense_words, PB_DENSE_OWN, &dense);
    h.foam = (PbFoamClass)foam;
    h.loose = (PbLooseCase)loose;
    h.dense = (PbDenseCase)dense;
    if (r->status == PB_OK) {
        io_end_deep(r, root);
    }
    if (r->status == PB_OK && pb_house_check(&h, path, sizeof path, &check) != PB_OK) {
        io_complain_check(r, root, path, &check);
    }
    if (r->status == PB_OK) {
        *house = h;
    }
}

static PbStatus read_doc(IoDoc *doc, const char *const *folders, int count, PbHouse *house,
                         PbError *err)
{
    IoReader r = io_reader(doc, err);
    Folders f = {folders, count};
    read_house(&r, doc->root, &f, house);
    io_doc_free(doc);
    return r.status;
}

PbStatus io_house_load(const char *path, const char *const *folders, int count, PbHouse *house,
                       PbError *err)
{
    assert(path != NULL && house != NULL);
    assert(count == 0 || folders != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, folders, count, house, err);
}

PbStatus io_house_parse(const char *name, const char *text, size_t size, const char *const *folders,
                        int count, PbHouse *house, PbError *err)
{
    assert(name != NULL && text != NULL && house != NULL);
    assert(count == 0 || folders != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, folders, count, house, err);
}

static int put_range(json_t *object, const char *key, const PbHeatRange *r)
{
    json_t *v = json_object();
    int failed = json_object_set_new(v, "low", json_real(r->low));
    failed |= json_object_set_new(v, "mid", json_real(r->mid));
    failed |= json_object_set_new(v, "high", json_real(r->high));
    return failed | json_object_set_new(object, key, v); /* `v` is gone when it fails: last */
}

static int put_cavity(json_t *o, const PbCavity *cavity)
{
    if (cavity->now == PB_CAVITY_EMPTY) {
        return 0; /* as in older files */
    }
    json_t *v = json_object();
    int failed = json_object_set_new(v, "now", json_string(cavity_words[cavity->now]));
    failed |= json_object_set_new(v, "share", json_real(cavity->share));
    return failed | json_object_set_new(o, "cavity", v);
}

static int put_bill(json_t *o, const PbHouse *h)
{
    if (h->bill.fuel == 0) {
        return put_range(o, "price_per_kwh", &h->price_per_kwh);
    }
    json_t *v = json_object();
    int failed = json_object_set_new(v, "fuel", json_string(pb_fuel(h->bill.fuel - 1)->id));
    failed |= put_range(v, "price", &h->bill.price);
    failed |= json_object_set_new(v, "last_year", json_real(h->bill.last_year));
    failed |= put_range(v, "not_heating", &h->bill.not_heating);
    return failed | json_object_set_new(o, "bill", v);
}

static int put_cooling(json_t *o, const PbCooling *k)
{
    if (k->price_kwh.mid <= 0.0) {
        return 0;
    }
    json_t *v = json_object();
    int failed = json_object_set_new(v, "room_c", json_real(k->set_c));
    failed |= put_range(v, "price_per_kwh", &k->price_kwh);
    failed |= put_range(v, "efficiency", &k->efficiency);
    return failed | json_object_set_new(o, "cooling", v);
}

static int put_job(json_t *o, const PbJob *job)
{
    if (job->price <= 0.0) {
        return 0;
    }
    json_t *v = json_object();
    int failed = json_object_set_new(v, "price", json_real(job->price));
    failed |= json_object_set_new(v, "rebate", json_real(job->rebate));
    failed |= json_object_set_new(v, "life_years", json_real(job->life_years));
    return failed | json_object_set_new(o, "job", v);
}

static int put_air(json_t *o, const PbHouse *h)
{
    if (!pb_house_has_air(h) && h->air.built == PB_BUILT_UNKNOWN && h->air.stories == 1) {
        return 0; /* as in older files */
    }
    json_t *v = json_object();
    int failed = json_object_set_new(v, "floor_area_m2", json_real(h->air.floor_area_m2));
    failed |= json_object_set_new(v, "stories", json_integer(h->air.stories));
    failed |= json_object_set_new(v, "built", json_string(io_built_words[h->air.built]));
    failed |= json_object_set_new(v, "blower_door_m3_h", json_real(h->air.door_m3_h));
    return failed | json_object_set_new(o, "air", v);
}

static int put_damp(json_t *o, const PbHouseDamp *d)
{
    const PbSeen seen[4] = {d->leaks, d->water, d->bath, d->no_overhang};
    int is_known = d->inside != PB_COAT_UNKNOWN || d->outside != PB_COAT_UNKNOWN;
    for (int i = 0; i < 4; i++) {
        is_known |= seen[i] != PB_SEEN_UNKNOWN;
    }
    if (!is_known) {
        return 0; /* as in older files */
    }
    json_t *v = json_object();
    int failed = json_object_set_new(v, "inside", json_string(coat_words[d->inside]));
    failed |= json_object_set_new(v, "outside", json_string(coat_words[d->outside]));
    for (int i = 0; i < 4; i++) {
        failed |= json_object_set_new(v, seen_keys[i], json_string(seen_words[seen[i]]));
    }
    return failed | json_object_set_new(o, "damp", v);
}

/* The name of the bay where that says all of it, else the bay itself. */
static json_t *bay_json(const PbHouse *h, const Folders *f)
{
    PbExercise ours;
    memset(&ours, 0, sizeof ours);
    json_t *own = io_exercise_to_json(&h->bay);
    if (own != NULL && io_is_name(h->bay.id) &&
        io_exercise_find(h->bay.id, f->at, f->count, &ours, NULL)) {
        json_t *shipped = io_exercise_to_json(&ours);
        int is_same = shipped != NULL && json_equal(shipped, own);
        json_decref(shipped);
        if (is_same) {
            json_decref(own);
            return json_string(h->bay.id);
        }
    }
    return own;
}

json_t *io_house_to_json(const PbHouse *h, const char *const *folders, int count)
{
    assert(h != NULL);
    assert(count == 0 || folders != NULL);
    Folders f = {folders, count};
    json_t *o = json_object();
    PbDenseCase dense = h->dense == PB_DENSE_OWN ? PB_DENSE_WELL_DONE : h->dense;
    int failed = json_object_set_new(o, "format", json_string(IO_HOUSE_FORMAT));
    failed |= json_object_set_new(o, "customer", json_string(h->customer));
    failed |= json_object_set_new(o, "town", json_string(h->town));
    failed |= json_object_set_new(o, "wall_area_m2", json_real(h->wall_area_m2));
    failed |= json_object_set_new(o, "framing_share", json_real(h->framing_share));
    failed |= io_wall_put(o, &h->wall, h->bay.wall.is_layered);
    failed |= json_object_set_new(o, "climate", json_string(h->climate.name));
    failed |= put_range(o, "degree_days_k_d", &h->degree_days_k_d);
    failed |= json_object_set_new(o, "fuel", json_string(h->fuel));
    failed |= json_object_set_new(o, "currency", json_string(h->currency));
    failed |= put_cavity(o, &h->cavity);
    failed |= put_bill(o, h);
    failed |= put_range(o, "efficiency", &h->efficiency);
    failed |= put_cooling(o, &h->cooling);
    failed |= put_job(o, &h->job);
    failed |= put_air(o, h);
    failed |= put_damp(o, &h->damp);
    failed |= json_object_set_new(o, "room_c", json_real(h->room_c));
    failed |= json_object_set_new(o, "outdoor_c", json_real(h->outdoor_c));
    failed |= json_object_set_new(o, "bay", bay_json(h, &f));
    failed |= json_object_set_new(o, "foam", json_string(io_foam_words[h->foam]));
    failed |= json_object_set_new(o, "loose", json_string(io_loose_words[h->loose]));
    failed |= json_object_set_new(o, "dense", json_string(io_dense_words[dense]));
    failed |= io_proof_put(o, &h->proof);
    failed |= json_object_set_new(o, "seed", json_integer((json_int_t)h->seed));
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

char *io_house_to_text(const PbHouse *house, const char *const *folders, int count)
{
    assert(house != NULL);
    assert(count == 0 || folders != NULL);
    (void)io_json_short();
    json_t *json = io_house_to_json(house, folders, count);
    char *text = json != NULL ? json_dumps(json, JSON_INDENT(2) | JSON_REAL_PRECISION(17)) : NULL;
    json_decref(json);
    if (io_json_short()) { /* something in it may be missing, and the store would keep it so */
        free(text);
        return NULL;
    }
    return text;
}
