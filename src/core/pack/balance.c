/*
 * What must hold of every state: no number of it is lost, and the material adds up.
 * Lost numbers are looked for in each tick, before the stages read the state: limiters make finite
 * speeds of a pressure that is none, and what is worked out anew (pressures between two solves,
 * resistivity) hides one that was lost, so the balance of material alone would never tell.
 */
#include "sim.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

static const double LEDGER_REL = 1e-9; /* of what was fed, of a kilogram at least */

/* The numbers of a row of the state, if it is of numbers that a step hands to the next. */
static const double *numbers_of(const PbSim *s, const PbStateRow *row, size_t *count)
{
    const void *at = (const unsigned char *)s + row->offset;
    const double *pointed = NULL;
    *count = 0;
    switch (row->kind) {
    case PB_STATE_DOUBLES:
        *count = row->size / sizeof(double);
        return at;
    case PB_STATE_CELLS:
        *count = (size_t)s->cells;
        break;
    case PB_STATE_UNKNOWNS:
        *count = (size_t)(s->nx * s->ny);
        break;
    case PB_STATE_TUFTS:
        *count = (size_t)s->tufts.count;
        break;
    default:
        return NULL;
    }
    memcpy(&pointed, at, sizeof pointed);
    return pointed;
}

int pb_balance_is_finite(const PbSim *s)
{
    size_t rows;
    const PbStateRow *row = pb_state_rows(&rows);
    for (size_t r = 0; r < rows; r++) {
        size_t count;
        const double *numbers = numbers_of(s, &row[r], &count);
        if (s->kernels->is_any_lost(numbers, count)) {
            return 0;
        }
    }
    return 1;
}

int pb_balance_closes(const PbSim *s)
{
    const PbLedger *l = &s->ledger;
    double airborne = s->tufts.owed_kg;
    for (int n = 0; n < s->tufts.count; n++) {
        airborne += s->tufts.kg[n];
    }
    double known = pb_sim_mass_kg(s) + airborne + s->hose.load_kg + l->lost_hole_kg +
                   l->lost_openings_kg + l->lost_leaks_kg + l->lost_outside_kg + l->cleared_kg +
                   l->fallen_kg;
    return fabs(known - l->fed_kg) <= LEDGER_REL * pb_max(l->fed_kg, 1.0);
}
