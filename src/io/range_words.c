/* How sure a mark is, in words: see io/range_words.h. */
#include "io/range_words.h"

#include "io/score_words.h"

#include "json_maker.h"
#include "word_template.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

/* {a} to {b}; {n} of {m}. */
typedef struct Words {
    char a[48], b[48];
    int n, m;
} Words;

static void fill_in(char which, const void *user, IoReaderTaste taste, char *out, size_t size)
{
    const Words *w = user;
    (void)taste;
    if (which == 'a' || which == 'b') {
        snprintf(out, size, "%s", which == 'a' ? w->a : w->b);
    } else {
        snprintf(out, size, "%d", which == 'n' ? w->n : w->m);
    }
}

static void say(const char *text, const Words *w, IoReaderTaste taste, char out[IO_RANGE_BYTES])
{
    out[0] = '\0';
    (void)io_template_append(words_in(taste.language, text), NULL, fill_in, w, taste, out, 0,
                             IO_RANGE_BYTES);
    io_full_stop(out, IO_RANGE_BYTES);
}

/* The unit stands behind the second figure alone. */
static void put_densities(PbBand band, IoReaderTaste taste, Words *w)
{
    io_figure(io_unit_value(IO_UNIT_DENSITY, band.p10, taste), taste.is_us, "", taste, w->a,
              sizeof w->a);
    io_unit_figure(IO_UNIT_DENSITY, band.p90, taste, w->b, sizeof w->b);
}

void io_range_sentences(const PbMarkRange *r, IoReaderTaste taste,
                        char out[IO_RANGE_LINES][IO_RANGE_BYTES])
{
    assert(r != NULL && out != NULL);
    Words w = {.n = r->passes, .m = r->draws};
    put_densities(r->mean_kg_m3, taste, &w);
    say(N_("Mean density {a} to {b}"), &w, taste, out[0]);
    put_densities(r->weakest_kg_m3, taste, &w);
    say(N_("Weakest place {a} to {b}"), &w, taste, out[1]);
    snprintf(w.a, sizeof w.a, "%d", io_mark_shown(r->total.p10));
    snprintf(w.b, sizeof w.b, "%d", io_mark_shown(r->total.p90));
    say(N_("Score {a} to {b} of 100"), &w, taste, out[2]);
    say(r->passes == r->draws ? N_("Passes in all {m} draws")
        : r->passes == 0      ? N_("Passes in none of {m} draws")
                              : N_("Passes in {n} of {m} draws: open"),
        &w, taste, out[3]);
    w.n = PB_RANGE_CONSTANTS;
    say(N_("Each draw works the run again with {n} numbers of material and machine that are not "
           "well known; the hands wait for its stalls as they did for their own; 8 of 10 draws lie "
           "in these ranges"),
        &w, taste, out[4]);
}

const char *io_range_head(int language)
{
    return words_in(language, N_("How sure"));
}

static json_t *band_json(PbBand band)
{
    JsonMaker m = json_maker();
    json_put_number(&m, "p10", band.p10);
    json_put_number(&m, "median", band.median);
    json_put_number(&m, "p90", band.p90);
    return json_made(&m);
}

json_t *io_range_to_json(const PbMarkRange *r, uint64_t seed, IoReaderTaste taste)
{
    assert(r != NULL);
    char said[IO_RANGE_LINES][IO_RANGE_BYTES];
    json_t *names = json_array();
    JsonMaker m = json_maker();
    int failed = 0;
    io_range_sentences(r, taste, said);
    for (int i = 0; i < PB_RANGE_CONSTANTS; i++) {
        failed |= json_array_append_new(names, json_string(pb_range_constant(i)));
    }
    json_put(&m, "draws", json_integer(r->draws));
    json_put(&m, "seed", json_integer((json_int_t)seed));
    json_put(&m, "passes", json_integer(r->passes));
    json_put(&m, "is_open", json_boolean(r->passes > 0 && r->passes < r->draws));
    json_put(&m, "mean_kg_m3", band_json(r->mean_kg_m3));
    json_put(&m, "weakest_kg_m3", band_json(r->weakest_kg_m3));
    json_put(&m, "total", band_json(r->total));
    json_put(&m, "constants", names);
    json_put(&m, "text", json_string(said[3]));
    json_t *made = json_made(&m);
    if (failed) {
        json_decref(made);
        return NULL;
    }
    return made;
}
