/* Layers of a wall in words. */
#include "io/wall_words.h"

#include <stdio.h>
#include <string.h>

typedef struct Name {
    const char *id;
    const char *text[2]; /* by IoLanguage */
} Name;

static const Name layers[] = {
    {"none", {"none", "nada"}},
    {"gypsum-3-8", {"3/8 in. drywall", "tablero de yeso de 3/8"}},
    {"gypsum-1-2", {"1/2 in. drywall", "tablero de yeso de 1/2"}},
    {"gypsum-5-8", {"5/8 in. drywall", "tablero de yeso de 5/8"}},
    {"plaster-wood-lath", {"plaster on wood lath", "yeso sobre listones de madera"}},
    {"plaster-metal-lath", {"plaster on metal lath", "yeso sobre malla de metal"}},
    {"plaster-gypsum-lath", {"plaster on gypsum lath", "yeso sobre base de tablero"}},
    {"paneling", {"1/4 in. wood paneling", "panel de madera de 1/4"}},
    {"boards", {"3/4 in. boards", "tablas de 3/4"}},
    {"plywood-3-8", {"3/8 in. plywood", "triplay de 3/8"}},
    {"plywood-1-2", {"1/2 in. plywood", "triplay de 1/2"}},
    {"plywood-5-8", {"5/8 in. plywood", "triplay de 5/8"}},
    {"osb", {"7/16 in. OSB", "OSB de 7/16"}},
    {"fiberboard-1-2", {"1/2 in. fiberboard", "tablero de fibra de 1/2"}},
    {"fiberboard-25-32", {"25/32 in. fiberboard", "tablero de fibra de 25/32"}},
    {"felt", {"felt", "fieltro"}},
    {"wood-lap", {"lapped wood siding", "traslape de madera"}},
    {"wood-shingle", {"wood shingles", "tejamanil de madera"}},
    {"shingle-backer", {"wood shingles on a backer", "tejamanil sobre base aislante"}},
    {"hardboard", {"hardboard siding", "traslape de fibra prensada"}},
    {"stucco", {"stucco", "estuco"}},
    {"asbestos-cement", {"asbestos-cement shingles", "tejas de asbesto-cemento"}},
    {"composition", {"asphalt siding", "forro asfáltico"}},
    {"fiber-cement", {"fiber-cement siding", "traslape de fibrocemento"}},
    {"hollow", {"vinyl or metal siding", "forro de vinilo o metal"}},
    {"hollow-backed", {"vinyl or metal siding on a backer", "vinilo o metal con base aislante"}},
    {"brick", {"brick with an air space", "ladrillo con espacio de aire"}},
    {"panel-siding", {"plywood panel siding", "panel exterior de triplay"}},
};

static const char *name_of(const char *id, IoLanguage language)
{
    for (size_t i = 0; i < sizeof layers / sizeof layers[0]; i++) {
        if (strcmp(layers[i].id, id) == 0) {
            return layers[i].text[language];
        }
    }
    return id;
}

const char *io_layer_name(PbWallPlace place, int n, IoLanguage language)
{
    return name_of(pb_wall_layer(place, n)->id, language);
}

const char *io_layer_of_constant(const char *constant, IoLanguage language)
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

const char *io_wall_place_name(PbWallPlace place, IoLanguage language)
{
    static const char *const names[PB_WALL_PLACES][2] = {{"Inside face", "Cara interior"},
                                                         {"Sheathing", "Forro estructural"},
                                                         {"Paper", "Papel"},
                                                         {"Siding", "Forro exterior"},
                                                         {"Siding over it", "Forro encima"}};
    return names[place][language];
}

void io_wall_words(const PbWall *wall, IoLanguage language, char *out, size_t size)
{
    if (!wall->is_layered) {
        snprintf(out, size, "%s",
                 language == IO_SPANISH ? "pared simple: tablero de yeso y un panel, sin forro"
                                        : "simple wall: drywall and one panel, no siding");
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
