/* What was measured on the day, there and back: see io/proof_file.h. */
#include "io/proof_file.h"

#include <assert.h>
#include <string.h>

static void read_picture(IoReader *r, IoValue *camera, const char *key, PbProofPicture *p)
{
    IoValue *v = io_object(r, camera, key, 0);
    if (v != NULL) {
        io_number(r, v, "air_k", 1, 0.1, 80.0, "K", &p->air_k);
        io_number(r, v, "stripe_k", 1, 0.0, 40.0, "K", &p->stripe_k);
    }
}

static void read_cores(IoReader *r, IoValue *proof, PbProof *p)
{
    IoValue *list = io_array(r, proof, "cores_kg_m3", 0, 0, PB_PROOF_CORES);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        io_value_number(r, &list->child[i], 5.0, 200.0, "kg/m3", &p->core_kg_m3[i]);
        p->core_count++;
    }
}

void io_proof_read(IoReader *r, IoValue *object, PbProof *proof)
{
    assert(r != NULL && object != NULL && proof != NULL);
    memset(proof, 0, sizeof *proof);
    IoValue *v = io_object(r, object, "proof", 0);
    if (v == NULL) {
        return;
    }
    IoValue *bags = io_object(r, v, "bags", 0);
    if (bags != NULL) {
        io_number(r, bags, "area_m2", 1, 0.5, 5000.0, "m2", &proof->area_m2);
        io_number(r, bags, "count", 1, 0.1, 5000.0, "bags", &proof->bags);
        io_number(r, bags, "bag_kg", 1, 1.0, 50.0, "kg", &proof->bag_kg);
    }
    read_cores(r, v, proof);
    IoValue *camera = io_object(r, v, "camera", 0);
    if (camera != NULL) {
        read_picture(r, camera, "before", &proof->before);
        read_picture(r, camera, "after", &proof->after);
    }
    IoValue *leak = io_object(r, v, "leak_m3_s", 0);
    if (leak != NULL) {
        io_number(r, leak, "before", 1, 0.005, 20.0, "m3/s at 50 Pa", &proof->leak_before_m3_s);
        io_number(r, leak, "after", 1, 0.005, 20.0, "m3/s at 50 Pa", &proof->leak_after_m3_s);
    }
}

/* Puts `v` in and gives it back when it cannot be. */
static int put(json_t *object, const char *key, json_t *v)
{
    return v == NULL || json_object_set_new(object, key, v) != 0;
}

static int put_picture(json_t *camera, const char *key, const PbProofPicture *p)
{
    return p->air_k > 0.0 &&
           put(camera, key, json_pack("{s:f, s:f}", "stripe_k", p->stripe_k, "air_k", p->air_k));
}

static int put_camera(json_t *o, const PbProof *p)
{
    if (!(p->before.air_k > 0.0) && !(p->after.air_k > 0.0)) {
        return 0;
    }
    json_t *camera = json_object();
    int failed = put_picture(camera, "before", &p->before);
    failed |= put_picture(camera, "after", &p->after);
    return failed | put(o, "camera", camera);
}

static int put_cores(json_t *o, const PbProof *p)
{
    if (p->core_count == 0) {
        return 0;
    }
    json_t *list = json_array();
    int failed = 0;
    for (int i = 0; i < p->core_count; i++) {
        failed |= json_array_append_new(list, json_real(p->core_kg_m3[i]));
    }
    return failed | put(o, "cores_kg_m3", list);
}

int io_proof_put(json_t *object, const PbProof *p)
{
    assert(p != NULL);
    if (p->bags <= 0.0 && p->core_count == 0 && p->before.air_k <= 0.0 && p->after.air_k <= 0.0 &&
        p->leak_before_m3_s <= 0.0) {
        return 0; /* as in older files */
    }
    json_t *o = json_object();
    int failed = 0;
    if (p->bags > 0.0) {
        failed |= put(o, "bags",
                      json_pack("{s:f, s:f, s:f}", "area_m2", p->area_m2, "count", p->bags,
                                "bag_kg", p->bag_kg));
    }
    failed |= put_cores(o, p);
    failed |= put_camera(o, p);
    if (p->leak_before_m3_s > 0.0) {
        failed |= put(
            o, "leak_m3_s",
            json_pack("{s:f, s:f}", "before", p->leak_before_m3_s, "after", p->leak_after_m3_s));
    }
    return put(object, "proof", o) | failed; /* NULL takes none, and gives it back */
}
