/* How far the rattle band of a recording drops at a stall: FILE of float samples, SECONDS at which
 * it was. Prints levels; exit 0 when it loses 6 dB within two seconds. */
#include "rattle_band.h"

#include <stdio.h>
#include <stdlib.h>

enum { PER_S = 25, TICK = AUDIO_RATE_HZ / PER_S, MOST = 300 * PER_S };

static double power[MOST];

static double mean_db(int from, int count)
{
    double sum = 0.0;
    for (int i = from; i < from + count; i++) {
        sum += power[i];
    }
    return power_db(sum / count);
}

int main(int argc, char **argv)
{
    static float sound[TICK];
    RattleBand band = {0};
    FILE *f = argc == 3 ? fopen(argv[1], "rb") : NULL;
    int ticks = 0, stall = argc == 3 ? (int)(atof(argv[2]) * PER_S) : 0;
    if (f == NULL) {
        fprintf(stderr, "usage: stall_drop FILE SECONDS\n");
        return 2;
    }
    while (ticks < MOST && fread(sound, sizeof sound, 1, f) == 1) {
        double sum = 0.0;
        for (int i = 0; i < TICK; i++) {
            double y = rattle_band(&band, (double)sound[i]);
            sum += y * y;
        }
        power[ticks++] = sum / TICK;
    }
    fclose(f);
    if (stall < 4 * PER_S || ticks < stall + 2 * PER_S) {
        fprintf(stderr, "recorded %d s, the stall was at %s\n", ticks / PER_S, argv[2]);
        return 2;
    }
    double before = mean_db(stall - 3 * PER_S, PER_S), least = before;
    for (int t = stall; t + 6 <= stall + 2 * PER_S; t++) {
        double now = mean_db(t, 6);
        least = now < least ? now : least;
    }
    printf("rattle band %.1f -> %.1f dB\n", before, least);
    return before - least >= 6.0 ? 0 : 1;
}
