/* Layers of a wall in files. */
#include "io/wall_file.h"

#include <assert.h>
#include <string.h>

enum { WALL_ROWS = 16 }; /* at least as many as a place has; a test asks */

void io_wall_read(IoReader *r, IoValue *object, PbWall *wall)
{
    assert(r != NULL && wall != NULL);
    static const char *const simple[] = {"simple"};
    IoValue *v = io_child(r, object, "wall");
    int unused;
    if (v == NULL) {
        return;
    }
    memset(wall, 0, sizeof *wall);
    if (json_is_string(v->json)) {
        io_choice(r, object, "wall", 1, simple, 1, &unused);
        return;
    }
    v = io_object(r, object, "wall", 1);
    for (int p = 0; v != NULL && p < PB_WALL_PLACES; p++) {
        const char *ids[WALL_ROWS];
        int count = pb_wall_layer_count((PbWallPlace)p);
        for (int n = 0; n < count && n < WALL_ROWS; n++) {
            ids[n] = pb_wall_layer((PbWallPlace)p, n)->id;
        }
        io_choice(r, v, pb_wall_place_word((PbWallPlace)p), p == PB_WALL_INSIDE, ids, count,
                  &wall->layer[p]);
    }
    wall->is_layered = 1;
}

int io_wall_put(json_t *object, const PbWall *wall, int name_simple)
{
    assert(wall != NULL);
    if (!wall->is_layered) {
        return name_simple ? json_object_set_new(object, "wall", json_string("simple")) : 0;
    }
    json_t *v = json_object();
    int failed = 0;
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        const char *id = pb_wall_layer((PbWallPlace)p, wall->layer[p])->id;
        failed |= json_object_set_new(v, pb_wall_place_word((PbWallPlace)p), json_string(id));
    }
    return failed | json_object_set_new(object, "wall", v);
}
