/* Moisture in words. Rounding is that of io/compare_words.h. */
#include "io/moist_words.h"

#include "io/compare_words.h"

#include <assert.h>
#include <stdio.h>

static const double oz_100ft2 = 0.32771; /* ounces on 100 ft2 in a gram on a m2 */

const char *io_moist_key(PbMoistVerdict verdict)
{
    static const char *const keys[] = {"unknown", "dry", "dries", "may_stay", "stays"};
    return keys[verdict];
}

const char *io_moist_verdict(PbMoistVerdict verdict, int language)
{
    static const char *const words[] = {N_("not screened"), N_("stays dry"),
                                        N_("dries out each year"), N_("may stay wet"),
                                        N_("stays wet")};
    return words_in(language, words[verdict]);
}

const char *io_coat_name(PbCoat coat, int language)
{
    static const char *const names[PB_COATS] = {
        N_("not known"), N_("bare or stained"), N_("latex paint"),
        N_("many coats of old oil paint"), N_("vapor-tight: foil, plastic, vinyl")};
    return words_in(language, names[coat]);
}

const char *io_seen_name(PbSeen seen, int language)
{
    static const char *const names[] = {N_("not looked at"), N_("no"), N_("yes")};
    return words_in(language, names[seen]);
}

const char *io_damp_key(PbDampWarning warning)
{
    static const char *const keys[PB_WARNINGS] = {
        "leaks",       "water",       "bath",        "stays_wet", "drinks",    "no_overhang",
        "wet_climate", "tight_front", "humid_rooms", "mold",      "not_looked"};
    return keys[warning];
}

const char *io_damp_warning(PbDampWarning warning, int language)
{
    static const char *const words[PB_WARNINGS] = {
        N_("Stains, leaks or peeling paint were seen: no fill until the cause is found and cured."),
        N_("Water stands or runs at the wall or under the house: no fill until it is led away."),
        N_("A bath or dryer blows into the house or the wall: no fill until it is vented "
           "outdoors."),
        N_("By the screening the packed wall may stay wet: no fill before a licensed person has "
           "looked."),
        N_("Brick or stucco without paper behind it drinks rain, and fill against it may stay wet: "
           "have it looked at before it is filled."),
        N_("No roof overhang: rain runs down this wall. Look at sills, joints and flashing first."),
        N_("A wet climate: walls dry slowly. Rain must be kept out before the wall is filled."),
        N_("A vapor-tight face in the room holds summer damp in the wall of a cooled house."),
        N_("Rooms over 40 percent humidity in freezing months push damp into the wall: vent or dry "
           "them."),
        N_("Over 80 percent humidity at the room's face of the wall as it is in some month: mold "
           "can grow "
           "there."),
        N_("Not all looked at yet: leaks or stains, water at the wall, baths and dryers without a "
           "vent. "
           "Look before it is filled.")};
    return words_in(language, words[warning]);
}

const char *io_moist_note(int language)
{
    return words_in(
        language, "Moisture is a screening by monthly means (ISO 13788), vapor by diffusion alone. "
                  "Air that carries damp, rain, leaks and what wood and fill soak up are left out: "
                  "it can warn of a wall, not clear it.");
}

static const char *month_name(int month, int language)
{
    static const char *const names[PB_MOIST_MONTHS] = {
        N_("January"),   N_("February"), N_("March"),    N_("April"),
        N_("May"),       N_("June"),     N_("July"),     N_("August"),
        N_("September"), N_("October"),  N_("November"), N_("December")};
    return words_in(language, names[month]);
}

static void amount(const PbHouseMoist *m, IoReaderTaste taste, char *out, size_t size)
{
    const char *unit =
        words_in(taste.language, taste.is_us ? NC_("unit", "oz per 100 ft²") : NC_("unit", "g/m²"));
    double most = (m->draws >= PB_COMPARE_ENOUGH_DRAWS ? m->most_g_m2.high : m->most_g_m2.mid) *
                  (taste.is_us ? oz_100ft2 : 1.0);
    if (most < 10.0) { /* a gram more or less is not meant */
        snprintf(out, size, "%d\xC2\xA0%s", most < 1.0 ? 1 : (int)(most + 0.5), unit);
    } else {
        io_compare_figure(IO_FIGURE_MONEY, most, unit, taste, out, size);
    }
}

void io_moist_sentence(PbCompareFill fill, const PbHouseMoist *m, IoReaderTaste taste, char *out,
                       size_t size)
{
    assert(m != NULL);
    assert(out != NULL && size > 0);
    char most[64];
    const int language = taste.language;
    const char *month = month_name(m->most_month, language);
    const char *place = m->place == PB_MOIST_AT_FRONT
                            ? words_in(language, "behind the room's face")
                            : words_in(language, "at the back of the cavity");
    amount(m, taste, most, sizeof most);
    out[0] = '\0';
    switch (m->verdict) {
    case PB_MOIST_UNKNOWN:
        if (fill == PB_COMPARE_EMPTY) {
            snprintf(out, size, "%s",
                     words_in(language,
                              "Moisture was not screened: the layers of this wall are not "
                              "known."));
        }
        break;
    case PB_MOIST_DRY:
        snprintf(out, size, "%s",
                 words_in(language, "By the yearly screening nothing condenses in the wall."));
        break;
    case PB_MOIST_DRIES:
        snprintf(out, size,
                 words_in(language,
                          "By the yearly screening up to %s of water gathers %s by %s and "
                          "dries out each year."),
                 most, place, month);
        break;
    case PB_MOIST_MAY_STAY:
        snprintf(out, size,
                 words_in(language,
                          "By the yearly screening up to %s of water gathers %s by %s; in "
                          "%d of %d trials the wall stays wet: do not fill before a "
                          "licensed person has looked."),
                 most, place, month, m->stays, m->draws);
        break;
    case PB_MOIST_STAYS:
        snprintf(out, size,
                 words_in(language,
                          "By the yearly screening up to %s of water gathers %s by %s and "
                          "the wall stays wet: do not fill before a licensed person has "
                          "looked."),
                 most, place, month);
        break;
    }
}
