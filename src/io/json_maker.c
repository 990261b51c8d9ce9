/* JSON objects filled key by key: json_maker.h. */
#include "json_maker.h"

#include <math.h>

JsonMaker json_maker(void)
{
    return (JsonMaker){json_object(), 0};
}

void json_put(JsonMaker *m, const char *key, json_t *value)
{
    m->failed |= json_object_set_new(m->object, key, value) != 0;
}

void json_put_number(JsonMaker *m, const char *key, double value)
{
    json_put(m, key, isfinite(value) ? json_real(value) : json_null());
}

void json_put_whole(JsonMaker *m, const char *key, long long value)
{
    json_put(m, key, json_integer(value));
}

void json_put_item(json_t *list, JsonMaker *m, int *failed)
{
    *failed |= m->failed | (json_array_append_new(list, m->object) != 0);
}

json_t *json_made(JsonMaker *m)
{
    if (m->failed) {
        json_decref(m->object);
        return NULL;
    }
    return m->object;
}

JsonMaker json_lift(const PbLift *l)
{
    JsonMaker m = json_maker();
    json_put_number(&m, "from_s", l->from_s);
    json_put_number(&m, "to_s", l->to_s);
    json_put(&m, "direction", json_string(l->direction > 0 ? "up" : "down"));
    json_put_number(&m, "mouth_y_m", l->mouth_y_m);
    json_put_number(&m, "step_m", l->step_m);
    json_put_number(&m, "stall_s", l->stall_s >= 0.0 ? l->stall_s : (double)NAN);
    json_put_number(&m, "mass_kg", l->mass_kg);
    json_put_number(&m, "density_kg_m3", l->density_kg_m3);
    return m;
}
