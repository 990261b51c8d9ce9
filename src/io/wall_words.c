/* Layers of a wall in words. */
#include "io/wall_words.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

typedef struct Name {
    const char *id;
    const char *text;
} Name;

static const Name layers[] = {
    {"none", N_("none")},
    {"gypsum-3-8", N_("3/8 in. drywall")},
    {"gypsum-1-2", N_("1/2 in. drywall")},
    {"gypsum-5-8", N_("5/8 in. drywall")},
    {"plaster-wood-lath", N_("plaster on wood lath")},
    {"plaster-metal-lath", N_("plaster on metal lath")},
    {"plaster-gypsum-lath", N_("plaster on gypsum lath")},
    {"paneling", N_("1/4 in. wood paneling")},
    {"boards", N_("3/4 in. boards")},
    {"plywood-3-8", N_("3/8 in. plywood")},
    {"plywood-1-2", N_("1/2 in. plywood")},
    {"plywood-5-8", N_("5/8 in. plywood")},
    {"osb", N_("7/16 in. OSB")},
    {"fiberboard-1-2", N_("1/2 in. fiberboard")},
    {"fiberboard-25-32", N_("25/32 in. fiberboard")},
    {"felt", N_("felt")},
    {"wood-lap", N_("lapped wood siding")},
    {"wood-shingle", N_("wood shingles")},
    {"shingle-backer", N_("wood shingles on a backer")},
    {"hardboard", N_("hardboard siding")},
    {"stucco", N_("stucco")},
    {"asbestos-cement", N_("asbestos-cement shingles")},
    {"composition", N_("asphalt siding")},
    {"fiber-cement", N_("fiber-cement siding")},
    {"hollow", N_("vinyl or metal siding")},
    {"hollow-backed", N_("vinyl or metal siding on a backer")},
    {"brick", N_("brick with an air space")},
    {"panel-siding", N_("plywood panel siding")},
};

static const char *name_of(const char *id, int language)
{
    for (size_t i = 0; i < sizeof layers / sizeof layers[0]; i++) {
        if (strcmp(layers[i].id, id) == 0) {
            return words_in(language, layers[i].text);
        }
    }
    return id;
}

const char *io_layer_name(PbWallPlace place, int n, int language)
{
    return name_of(pb_wall_layer(place, n)->id, language);
}

const char *io_layer_of_constant(const char *constant, int language)
{
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        for (int n = 0; n < pb_wall_layer_count((PbWallPlace)p); n++) {
            const PbWallLayer *row = pb_wall_layer((PbWallPlace)p, n);
            if (row->constant != NULL && strcmp(row->constant, constant) == 0) {
                return name_of(row->id, language);
            }
        }
    }
    return NULL;
}

const char *io_wall_place_name(PbWallPlace place, int language)
{
    static const char *const names[PB_WALL_PLACES] = {
        N_("Inside face"), N_("Sheathing"), N_("Paper"), N_("Siding"), N_("Siding over it")};
    return words_in(language, names[place]);
}

void io_wall_words(const PbWall *wall, int language, char *out, size_t size)
{
    assert(wall != NULL);
    assert(out != NULL && size > 0);
    if (!wall->is_layered) {
        snprintf(out, size, "%s",
                 words_in(language, "simple wall: drywall and one panel, no siding"));
        return;
    }
    size_t used = 0;
    out[0] = '\0';
    for (int p = 0; p < PB_WALL_PLACES && used < size; p++) {
        const PbWallLayer *row = pb_wall_layer((PbWallPlace)p, wall->layer[p]);
        if (row->constant != NULL) {
            int n = snprintf(out + used, size - used, "%s%s", used > 0 ? ", " : "",
                             name_of(row->id, language));
            used += n > 0 ? (size_t)n : 0;
        }
    }
}
