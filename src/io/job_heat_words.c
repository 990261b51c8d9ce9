/* Heat of a whole wall in words. Next: core/job/job_heat.c, which works it out. */
#include "io/job_heat_words.h"

#include "core/units.h"
#include "io/compare_words.h"

#include <stdio.h>

const char *io_job_heat_name(PbJobHeatCase which, int language)
{
    static const char *const names[PB_JOB_HEAT_CASES] = {N_("Before the job"),
                                                         N_("As it is packed"), N_("Done well")};
    return words_in(language, names[which]);
}

void io_heat_flow_figure(double w, IoReaderTaste taste, char *out, size_t size)
{
    io_figure(taste.is_us ? w / PB_W_PER_BTU_H : w, 0, taste.is_us ? "Btu/h" : "W", taste, out,
              size);
}

void io_temperature_figure(double c, int decimals, IoReaderTaste taste, char *out, size_t size)
{
    io_figure(taste.is_us ? pb_f_from_c(c) : c, decimals, taste.is_us ? "°F" : "°C", taste, out,
              size);
}

void io_job_heat_sentence(const PbJobHeat *heat, IoReaderTaste taste, char *out, size_t size)
{
    char r[PB_JOB_HEAT_CASES][32], w[PB_JOB_HEAT_CASES][32], room[32], outdoors[32];
    for (int c = 0; c < PB_JOB_HEAT_CASES; c++) {
        io_compare_figure(IO_FIGURE_R, heat[c].r_m2k_w, NULL, taste, r[c], sizeof r[c]);
        io_heat_flow_figure(heat[c].heat_w, taste, w[c], sizeof w[c]);
    }
    io_temperature_figure(heat->room_c, 0, taste, room, sizeof room);
    io_temperature_figure(heat->outdoor_c, 0, taste, outdoors, sizeof outdoors);
    snprintf(
        out, size,
        words_in(taste.language,
                 N_("R of the whole wall with its wood: %s before, %s as it is packed, %s done "
                    "well. Heat through it with %s in the room and %s outdoors: %s, %s and "
                    "%s.")),
        r[PB_JOB_HEAT_BEFORE], r[PB_JOB_HEAT_NOW], r[PB_JOB_HEAT_WELL], room, outdoors,
        w[PB_JOB_HEAT_BEFORE], w[PB_JOB_HEAT_NOW], w[PB_JOB_HEAT_WELL]);
}
