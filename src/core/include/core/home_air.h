/**
 * @file home_air.h
 * @brief Air that leaks through a whole house in natural conditions, from its leakage at 50 Pa.
 *
 * Enhanced model of the ASHRAE Handbook, Fundamentals, 2009, chapter 16 (Walker and Wilson, Field
 * validation of algebraic equations for stack and wind driven air infiltration calculations, HVAC&R
 * Research 4(2), 1998), houses on a slab or a basement, no flue; coefficients from memory, held
 * against the rule Q = Q50 / N, N 10 to 30 (Sherman, Energy and Buildings 10, 1987). Monthly means
 * stand for their hours. Left out: fans, open windows, ducts, the wind of a single day.
 * docs/physics/air.md. Pure.
 */
#ifndef CORE_HOME_AIR_H
#define CORE_HOME_AIR_H

#include "core/climate.h"

#define PB_STORIES_MOST 3

typedef struct PbHomeAir {
    double at_50_m3_s; /**< leakage of the house, at 50 Pa */
    double power;      /**< of the pressure, 0.5 .. 1 */
    int stories;       /**< 1 .. PB_STORIES_MOST */
    double wind_m_s;   /**< at a weather station */
    double shelter;    /**< 1 open .. 0.3 much sheltered */
} PbHomeAir;

/** @brief Air through the house, m3/s. @param[in] warmer_k room over outdoors, either sign */
double pb_home_air_m3_s(const PbHomeAir *air, double warmer_k);
/**
 * @brief The same over a heating season: mean of the months that are colder than the room, each
 * weighed by how much, so that it times the mean difference is the heat that goes with it.
 * 0 where no month is colder.
 */
double pb_home_air_winter_m3_s(const PbHomeAir *air, const PbSeason *outdoor, double room_c);

#endif
