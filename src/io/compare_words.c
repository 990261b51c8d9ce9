/*
 * Sentences of a comparison. Templates carry figures in braces, so that a translator may put them
 * in any order: {x} heat against a full dense pack, {g} top gap, {h} its upper end, {s} shrinkage,
 * {w} widest gap of the foam, {d} density, {v} empty area inside, {o} the other fill, {p} "of the
 * other fill", {b} heat against it, {n} trials of both so far, {m} trials that it takes. Figures
 * get their unit in compare_figures_words.c; inputs are in compare_assumed_words.c.
 */
#include "io/compare_words.h"

#include "word_template.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct Words {
    const char *key;
    const char *text[2]; /* by IoLanguage */
} Words;

static const Words fills[PB_COMPARE_FILLS] = {
    {"empty", {"Empty bay", "Cavidad vacía"}},
    {"loose", {"Loose blow", "Soplado suelto"}},
    {"foam", {"Water-based foam", "Espuma a base de agua"}},
    {"dense", {"Dense pack", "Empacado denso"}},
};

/* As a part of a sentence: alone, and after "of", which Spanish runs into its article. */
static const char *const fills_inside[PB_COMPARE_FILLS][2] = {
    {"the empty bay", "la cavidad vacía"},
    {"the loose blow", "el soplado suelto"},
    {"the foam", "la espuma"},
    {"the dense pack", "el empacado denso"}};
static const char *const of_fills[PB_COMPARE_FILLS][2] = {
    {"of the empty bay", "de la cavidad vacía"},
    {"of the loose blow", "del soplado suelto"},
    {"of the foam", "de la espuma"},
    {"of the dense pack", "del empacado denso"}};

static const Words says[PB_SAYS_LIMIT] = {
    [PB_SAYS_NOTHING_YET] = {"nothing_yet", {"", ""}},
    [PB_SAYS_EMPTY] = {"empty", {"Nothing in the wall", "Nada en la pared"}},
    [PB_SAYS_LOOSE] = {"loose", {"Blown in loosely at {d}", "Soplado suelto a {d}"}},
    [PB_SAYS_FOAM] = {"foam",
                      {"Foam that shrinks as it dries and ages",
                       "Espuma que encoge al secarse y con los años"}},
    [PB_SAYS_DENSE] = {"dense", {"Packed to {d} on average", "Empacado a {d} en promedio"}},
    [PB_SAYS_EMPTY_LOOP] = {"empty_loop",
                            {"Nothing in the wall: air turns over inside it, and it lets through "
                             "{x} the heat of a wall packed full",
                             "Nada en la pared: el aire da vueltas dentro y deja pasar {x} el "
                             "calor de una pared bien llena"}},
    [PB_SAYS_EMPTY_STILL] = {"empty_still",
                             {"Nothing in the wall: it lets through {x} the heat of a wall packed "
                              "full",
                              "Nada en la pared: deja pasar {x} el calor de una pared bien llena"}},
    [PB_SAYS_LOOSE_FULL] = {"loose_full",
                            {"Blown in loosely at {d}: full to the top so far, and light enough "
                             "that it may sink",
                             "Soplado suelto a {d}: lleno hasta arriba por ahora, y tan ligero que "
                             "puede asentarse"}},
    [PB_SAYS_LOOSE_MAY] = {"loose_may",
                           {"Blown in loosely: by now it may have sunk and left up to {h} open at "
                            "the top",
                            "Soplado suelto: a estas alturas puede haberse asentado y dejado hasta "
                            "{h} abierto arriba"}},
    [PB_SAYS_LOOSE_GAP] = {"loose_gap",
                           {"Blown in loosely: under what is assumed it has sunk by now and left "
                            "{g} open at the top",
                            "Soplado suelto: con lo que se supone ya se ha asentado y deja {g} "
                            "abierto arriba"}},
    [PB_SAYS_LOOSE_HOLLOW] = {"loose_hollow",
                              {"Blown in loosely at {d}, hollow in places: {v} is empty inside, "
                               "and it is light enough that it may sink",
                               "Soplado suelto a {d}, con partes vacías: {v} sin nada dentro, y "
                               "tan ligero que puede asentarse"}},
    [PB_SAYS_FOAM_TIGHT] = {"foam_tight",
                            {"Foam, counted as dry, with no gap that counts so far: it fills the "
                             "wall as it was injected",
                             "Espuma, contada como seca, sin rendija que cuente por ahora: llena "
                             "la pared como se inyectó"}},
    [PB_SAYS_FOAM_GAPS] = {"foam_gaps",
                           {"If the foam has shrunk {s} by now, gaps are up to {w} wide, too "
                            "narrow for air to carry much heat",
                            "Si la espuma ha encogido {s} hasta ahora, las rendijas son de hasta "
                            "{w}, muy angostas para que el aire lleve mucho calor"}},
    [PB_SAYS_FOAM_LOOP] = {"foam_loop",
                           {"If the foam has shrunk {s} by now, gaps are up to {w} wide, and air "
                            "carries heat through them",
                            "Si la espuma ha encogido {s} hasta ahora, las rendijas son de hasta "
                            "{w}, y el aire lleva calor por ellas"}},
    [PB_SAYS_DENSE_FULL] = {"dense_full",
                            {"Packed to {d} on average: no gap at the top so far in any of the "
                             "ranges assumed",
                             "Empacado a {d} en promedio: sin espacio vacío arriba por ahora en "
                             "ninguno de los márgenes supuestos"}},
    [PB_SAYS_DENSE_MAY] = {"dense_may",
                           {"Packed to {d} on average: by now up to {h} may be open at the top",
                            "Empacado a {d} en promedio: a estas alturas puede haber hasta {h} "
                            "abierto arriba"}},
    [PB_SAYS_DENSE_GAP] = {"dense_gap",
                           {"Packed to {d} on average, too soft in places: under what is assumed "
                            "{g} is open at the top by now",
                            "Empacado a {d} en promedio, flojo en partes: con lo que se supone ya "
                            "hay {g} abierto arriba"}},
    [PB_SAYS_DENSE_BLOWN_OUT] = {"dense_blown_out",
                                 {"The wall blew out while it was packed: a fill like "
                                  "this does not stand",
                                  "La pared reventó al empacar: un relleno así no queda "
                                  "en pie"}},
    [PB_SAYS_NOW] = {"now", {"The wall with what is in it now", "La pared con lo que tiene ahora"}},
    [PB_SAYS_NOW_HEAT] = {"now_heat",
                          {"With what is in it now the wall lets through {x} the heat of one "
                           "packed full",
                           "Con lo que tiene ahora la pared deja pasar {x} el calor de una bien "
                           "llena"}},
    [PB_SAYS_DENSE_VOIDS] = {"dense_voids",
                             {"Packed with soft and empty places: {v} is empty inside and {g} open "
                              "at the top, and heat gets through there",
                              "Empacado con partes flojas y vacías: {v} vacíos dentro y {g} "
                              "abierto arriba, y por ahí pasa el calor"}},
};

static const Words beside[] = {
    [PB_BESIDE_NONE] = {"none", {"", ""}},
    [PB_BESIDE_WAITS] = {"waits",
                         {"; not compared yet: {n} of {m} trials",
                          "; todavía sin comparar: {n} de {m} corridas"}},
    [PB_BESIDE_SAME] = {"same",
                        {"; about the same as {o}, {b} its heat",
                         "; más o menos como {o}, {b} su calor"}},
    [PB_BESIDE_UNCLEAR] = {"unclear",
                           {"; {b} the heat {p}, so either could come out better",
                            "; {b} el calor {p}: cualquiera puede salir mejor"}},
    [PB_BESIDE_MORE] = {"more",
                        {"; it lets more heat through than {o}, {b} as much",
                         "; deja pasar más calor que {o}: {b}"}},
    [PB_BESIDE_LESS] = {"less",
                        {"; it lets less heat through than {o}, {b} as much",
                         "; deja pasar menos calor que {o}: {b}"}},
};

static const char *const notes[IO_COMPARE_NOTES][2] = {
    {"Figures are what a model gives for the inputs listed, not measurements of this house and no "
     "promise. A real wall is proven by weighing, sampling and looking.",
     "Las cifras son lo que da un modelo con los datos indicados: no son medidas de esta casa ni "
     "una promesa. Una pared real se comprueba pesando, tomando muestras y mirando."},
    {"Ranges hold 8 of 10 results from trials over numbers that nobody knows well, price, winter "
     "and efficiency among them.",
     "Los márgenes abarcan 8 de cada 10 resultados de corridas sobre números que nadie conoce "
     "bien, entre ellos precio, invierno y eficiencia."},
    {"Saved is against the wall as it is, through the wall area alone, without air leaks. "
     "Measured savings are often lower than computed ones.",
     "El ahorro es frente a la pared como está, solo por la superficie de pared, sin fugas de "
     "aire. "
     "El ahorro medido suele ser menor que el calculado."},
    {"Loose and dense are one simulated packing of one bay; another hand or day packs otherwise.",
     "Suelto y denso son un solo empacado simulado de una cavidad; otra mano u otro día empaca de "
     "otro modo."},
    {"Foam cases are ranges of published shrinkage, not products. The figure at year 0 is for foam "
     "that has dried.",
     "Los casos de espuma son márgenes de encogimiento publicado, no productos. La cifra del año 0 "
     "es de espuma ya seca."},
    {"Two fills are held against each other trial by trial, under the same assumptions: their own "
     "ranges may overlap and one still come out better in each trial.",
     "Dos rellenos se comparan corrida por corrida, con los mismos supuestos: sus márgenes pueden "
     "cruzarse y aun así uno salir mejor en cada corrida."},
    {"Where a seller's fact sheet gives other values, those govern.",
     "Donde la ficha del vendedor dé otros valores, valen esos."},
};

static const char *const cautions[IO_COMPARE_CAUTIONS][2] = {
    {"Before filling: old wiring, recessed lights, flues, water, lead paint, asbestos and "
     "vermiculite are looked at by licensed trades.",
     "Antes de rellenar: cables viejos, luces empotradas, chimeneas, agua, pintura con plomo, "
     "asbesto y vermiculita los miran oficios con licencia."},
    {"A tighter house can pull flue gases back inside: appliances that burn fuel are tested after "
     "the work, and a CO alarm works.",
     "Una casa más sellada puede aspirar gases de combustión: los aparatos se prueban al terminar "
     "y hay una alarma de CO que funciona."},
    {"Foams of this family may release formaldehyde and are restricted in places: local codes "
     "decide.",
     "Las espumas de esta familia pueden soltar formaldehído y en algunos sitios se restringen: "
     "deciden las normas locales."},
    {"Dust: eye protection and a respirator while filling. A wall can burst: nobody on the other "
     "side.",
     "Polvo: lentes de seguridad y respirador al rellenar. Una pared puede reventar: nadie al otro "
     "lado."},
    {"Local codes and licensed trades decide real work.",
     "En la obra deciden las normas locales y los oficios con licencia."},
};

const char *io_fill_name(PbCompareFill fill, IoLanguage language)
{
    return (int)fill < PB_COMPARE_FILLS ? fills[fill].text[language] : "";
}

const char *io_fill_title(const PbHouse *house, PbCompareFill fill, IoLanguage language)
{
    int has_content = house->cavity.now == PB_CAVITY_LOOSE;
    for (int i = 0; i < house->bay.obstacle_count; i++) {
        has_content |= pb_obstacle_traits(house->bay.obstacles[i].kind)->is_batt;
    }
    if (fill == PB_COMPARE_EMPTY && has_content) {
        return language == IO_SPANISH ? "Como está ahora" : "As it is now";
    }
    return io_fill_name(fill, language);
}

const char *io_fill_key(PbCompareFill fill)
{
    return (int)fill < PB_COMPARE_FILLS ? fills[fill].key : "";
}

const char *io_says_key(PbCompareSays s)
{
    return (int)s < PB_SAYS_LIMIT ? says[s].key : "";
}

const char *io_beside_key(PbCompareBeside b)
{
    return (int)b <= PB_BESIDE_LESS ? beside[b].key : "";
}

const char *io_compare_note(int n, IoLanguage language)
{
    return notes[n][language];
}

const char *io_compare_caution(int n, IoLanguage language)
{
    return cautions[n][language];
}

static PbHeatRange against(const PbCompareFigures *f)
{
    return (PbHeatRange){exp(f->against_log.low), exp(f->against_log.mid),
                         exp(f->against_log.high)};
}

static void fill_in(char which, const void *saying, IoReaderTaste taste, char *out, size_t size)
{
    const PbCompareSaying *s = saying;
    const PbCompareFigures *f = &s->figures;
    double widest = fmax(f->stud_gap_m, fmax(f->face_gap_m, f->top_gap_m.mid));
    out[0] = '\0';
    switch (which) {
    case 'x':
        io_compare_range(IO_FIGURE_RATIO, f->heat_ratio, NULL, taste, out, size);
        break;
    case 'g':
        io_compare_range(IO_FIGURE_LENGTH, f->top_gap_m, NULL, taste, out, size);
        break;
    case 'h':
        io_compare_figure(IO_FIGURE_LENGTH, f->top_gap_m.high, NULL, taste, out, size);
        break;
    case 's':
        io_compare_range(IO_FIGURE_SHARE, f->shrink_frac, NULL, taste, out, size);
        break;
    case 'w':
        io_compare_figure(IO_FIGURE_LENGTH, widest, NULL, taste, out, size);
        break;
    case 'd':
        io_compare_figure(IO_FIGURE_DENSITY, f->mean_kg_m3, NULL, taste, out, size);
        break;
    case 'v':
        io_compare_figure(IO_FIGURE_AREA, f->inner_void_area_m2, NULL, taste, out, size);
        break;
    case 'o':
        snprintf(out, size, "%s", fills_inside[s->other][taste.language]);
        break;
    case 'p':
        snprintf(out, size, "%s", of_fills[s->other][taste.language]);
        break;
    case 'b':
        io_compare_range(IO_FIGURE_RATIO, against(f), NULL, taste, out, size);
        break;
    case 'n':
        snprintf(out, size, "%d", f->pairs);
        break;
    case 'm':
        snprintf(out, size, "%d", PB_COMPARE_ENOUGH_DRAWS);
        break;
    default:
        break;
    }
}

void io_compare_sentence(const PbCompareSaying *s, IoReaderTaste taste, char *out, size_t size)
{
    out[0] = '\0';
    if (s->says == PB_SAYS_NOTHING_YET || (int)s->says >= PB_SAYS_LIMIT) {
        return;
    }
    size_t used = io_template_append(says[s->says].text[taste.language], NULL, fill_in, s, taste,
                                     out, 0, size);
    used = io_template_append(beside[s->beside].text[taste.language], NULL, fill_in, s, taste, out,
                              used, size);
    (void)used;
    io_full_stop(out, size);
}
