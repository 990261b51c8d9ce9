/* What is typed on the page of the day, and the proof that comes of it. A field that is left empty
 * was not measured; a group that is begun is whole. Nothing is clamped. */
#include "side/form.h"
#include "side/proof.h"

#include <string.h>

/* Limits of a row in SI, as core/proof.h has them, and the group that it belongs to. */
typedef enum Group { BAGS, CORES, BEFORE, AFTER, LEAK, GROUPS } Group;

static const struct {
    double low, high;
    Group group;
} rows[IO_PROOF_ROWS] = {
    [IO_PROOF_AREA] = {0.5, 5000.0, BAGS},          [IO_PROOF_BAG_COUNT] = {0.1, 5000.0, BAGS},
    [IO_PROOF_BAG_MASS] = {1.0, 50.0, BAGS},        [IO_PROOF_CORE_1] = {5.0, 200.0, CORES},
    [IO_PROOF_CORE_2] = {5.0, 200.0, CORES},        [IO_PROOF_CORE_3] = {5.0, 200.0, CORES},
    [IO_PROOF_STRIPE_BEFORE] = {0.0, 40.0, BEFORE}, [IO_PROOF_AIR_BEFORE] = {0.1, 80.0, BEFORE},
    [IO_PROOF_STRIPE_AFTER] = {0.0, 40.0, AFTER},   [IO_PROOF_AIR_AFTER] = {0.1, 80.0, AFTER},
    [IO_PROOF_LEAK_BEFORE] = {0.005, 20.0, LEAK},   [IO_PROOF_LEAK_AFTER] = {0.005, 20.0, LEAK},
};

static int is_empty(const char *text)
{
    return text[strspn(text, " ")] == '\0';
}

void side_proof_fill(SideProof *f, const PbProof *proof, IoReaderTaste reader)
{
    f->written = *proof;
    f->reader = reader;
    f->bad = -1;
    for (int i = 0; i < IO_PROOF_ROWS; i++) {
        io_proof_row_text(proof, (IoProofRow)i, reader, f->text[i], sizeof f->text[i]);
    }
}

static int refuse(SideProof *f, int row, const char *expected)
{
    f->bad = row;
    f->says_is_trouble = 1;
    SDL_snprintf(f->says, sizeof f->says, _("%s: %s."),
                 io_proof_row_name((IoProofRow)row, f->reader.language), expected);
    return 0;
}

static void limit(double si, double factor, IoReaderTaste reader, char *out, size_t size)
{
    SDL_snprintf(out, size, "%.4g", si / factor);
    io_decimal_mark(out, reader);
}

/* One field; it is known to hold something. */
static int take(SideProof *f, int row, PbProof *p)
{
    char same[SIDE_PROOF_TEXT + 1], low[32], high[32], expected[200];
    double value, factor, *at = io_proof_row_value(p, (IoProofRow)row, f->reader, &factor);
    const char *unit = io_proof_row_unit((IoProofRow)row, f->reader);
    limit(rows[row].low, factor, f->reader, low, sizeof low);
    limit(rows[row].high, factor, f->reader, high, sizeof high);
    if (!side_read_number(f->text[row], f->reader, &value)) {
        SDL_snprintf(expected, sizeof expected,
                     _("\"%.24s\" is not a number; expected one from %s to %s %.16s"), f->text[row],
                     low, high, unit);
        return refuse(f, row, expected);
    }
    io_proof_row_text(&f->written, (IoProofRow)row, f->reader, same, sizeof same);
    if (strcmp(same, f->text[row]) == 0) {
        return 1; /* not touched */
    }
    *at = value * factor;
    if (*at < rows[row].low || *at > rows[row].high) {
        SDL_snprintf(expected, sizeof expected, _("%.24s is out of range; expected %s to %s %.16s"),
                     f->text[row], low, high, unit);
        return refuse(f, row, expected);
    }
    return 1;
}

/* Is anything typed in the group of this row? */
static int is_begun(const SideProof *f, Group group)
{
    for (int i = 0; i < IO_PROOF_ROWS; i++) {
        if (rows[i].group == group && !is_empty(f->text[i])) {
            return 1;
        }
    }
    return 0;
}

/* Cores move up over empty fields. */
static void close_ranks(PbProof *p)
{
    p->core_count = 0;
    for (int i = 0; i < PB_PROOF_CORES; i++) {
        double kg_m3 = p->core_kg_m3[i];
        p->core_kg_m3[i] = 0.0;
        if (kg_m3 > 0.0) {
            p->core_kg_m3[p->core_count++] = kg_m3;
        }
    }
}

int side_proof_take(SideProof *f, PbProof *proof)
{
    PbProof p = f->written;
    for (int i = 0; i < IO_PROOF_ROWS; i++) {
        double factor;
        if (!is_empty(f->text[i])) {
            if (!take(f, i, &p)) {
                return 0;
            }
            continue;
        }
        if (rows[i].group != CORES && is_begun(f, rows[i].group)) {
            return refuse(f, i, _("is missing; it belongs with the figures beside it"));
        }
        *io_proof_row_value(&p, (IoProofRow)i, f->reader, &factor) = 0.0;
    }
    if (p.before.stripe_k > p.before.air_k) {
        return refuse(f, IO_PROOF_STRIPE_BEFORE, _("more than room and outdoors are apart"));
    }
    if (p.after.stripe_k > p.after.air_k) {
        return refuse(f, IO_PROOF_STRIPE_AFTER, _("more than room and outdoors are apart"));
    }
    close_ranks(&p);
    f->bad = -1;
    *proof = p;
    return 1;
}

int side_proof_differs(const PbProof *a, const PbProof *b)
{
    PbProof x = *a, y = *b;
    int differ = 0;
    for (int i = 0; i < IO_PROOF_ROWS; i++) {
        const IoReaderTaste any = {0, 0, 0};
        double factor;
        differ |= *io_proof_row_value(&x, (IoProofRow)i, any, &factor) !=
                  *io_proof_row_value(&y, (IoProofRow)i, any, &factor);
    }
    return differ;
}
