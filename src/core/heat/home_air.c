/* Stack and wind through the leaks of a house. Method and source: the header. */
#include "core/home_air.h"

#include "core/pb_math.h"

#include <assert.h>
#include <math.h>

enum { MONTHS = 12 };

/* One, two and three stories. */
static const double stack_of[PB_STORIES_MOST] = {0.054, 0.078, 0.098}; /* (Pa/K)^n */
static const double wind_of[PB_STORIES_MOST] = {0.156, 0.170, 0.170};  /* (Pa s2/m2)^n */
static const double eaves_of[PB_STORIES_MOST] = {0.48, 0.59, 0.67};    /* of the station's wind */

double pb_home_air_m3_s(const PbHomeAir *a, double warmer_k)
{
    assert(a != NULL && a->stories >= 1 && a->stories <= PB_STORIES_MOST);
    int s = a->stories - 1;
    double flow = a->at_50_m3_s / pb_pow(50.0, a->power); /* at 1 Pa */
    double stack = flow * stack_of[s] * pb_pow(pb_max(fabs(warmer_k), 1e-9), a->power);
    double wind =
        flow * wind_of[s] * pb_pow(a->shelter * eaves_of[s] * a->wind_m_s, 2.0 * a->power);
    return sqrt(stack * stack + wind * wind);
}

double pb_home_air_winter_m3_s(const PbHomeAir *a, const PbSeason *outdoor, double room_c)
{
    assert(a != NULL && outdoor != NULL);
    double sum = 0.0, weight = 0.0;
    for (int m = 0; m < MONTHS; m++) {
        double month = outdoor->mean - outdoor->swing * pb_cos(2.0 * PB_PI * (m + 0.5) / MONTHS);
        double warmer = pb_max(room_c - month, 0.0);
        sum += warmer * pb_home_air_m3_s(a, warmer);
        weight += warmer;
    }
    return weight > 0.0 ? sum / weight : 0.0;
}
