/**
 * @file home_heat.h
 * @brief Heat that a whole house takes over a winter: degree days to its own balance point, and
 * fuels by the unit that they are billed in.
 *
 * Degree days by monthly means whose days scatter after a logistic law: Erbs, Klein and Beckman,
 * ASHRAE Journal 25(6), 1983, as in Duffie and Beckman, Solar Engineering of Thermal Processes.
 * Heat by the variable-base degree-day method of the ASHRAE Handbook, Fundamentals, 2009, chapter
 * 19: the heating runs below t_bal = t_room - gains / loss; sun on walls and roof is one warmer
 * outdoor air for all of them. Left out: hours of a set-back, mass, latent heat, ducts, and that a
 * family may keep a tighter house warmer. docs/physics/home.md. Pure.
 */
#ifndef CORE_HOME_HEAT_H
#define CORE_HOME_HEAT_H

#include "core/climate.h"
#include "core/constants.h"

/** @brief Heating degree days of a year, K d. @param[in] outdoor monthly means by their sine */
double pb_degree_days_k_d(const PbSeason *outdoor, double base_c);
/** @brief The same swing about the mean that has so many degree days. @param[in] k_d > 0 */
PbSeason pb_season_of_degree_days(const PbSeason *outdoor, double base_c, double k_d);

/** What a house's heat hangs on besides its loss. */
typedef struct PbHome {
    PbSeason outdoor;
    double room_c;
    double gains_w; /**< people, lights, appliances, sun through windows */
    double sun_k;   /**< sun on walls and roof, as a warmer outdoor air */
} PbHome;

/** @brief Outdoor temperature below which the heating runs. @param[in] loss_w_k > 0 */
double pb_home_balance_c(const PbHome *home, double loss_w_k);
/** @brief Heat into the rooms over a year, kWh. @param[in] loss_w_k of the whole house, > 0 */
double pb_home_heat_kwh(const PbHome *home, double loss_w_k);
/**
 * @brief Heat that has to be taken out of the rooms over a year, kWh, sensible, by the same method
 * above t_set - sun - gains / loss. A lower loss keeps gains in: it may cool less or more.
 */
double pb_home_cooling_kwh(const PbHome *home, double set_c, double loss_w_k);
/** @brief The loss, W/K, of a house that takes this heat. @param[in] heat_kwh > 0 */
double pb_home_loss_w_k(const PbHome *home, double heat_kwh);

/** A fuel in the unit of its bill. */
typedef struct PbFuel {
    const char *id;       /**< as in files: "gas-therm" */
    const char *constant; /**< row of the constants that has kWh of a unit */
} PbFuel;

int pb_fuel_count(void);
/** @param[in] n 0 .. count - 1 */
const PbFuel *pb_fuel(int n);
/** @brief Row by its id; negative = there is none such. */
int pb_fuel_find(const char *id);
/** @brief Heat content of a unit, kWh. */
double pb_fuel_kwh(int n, const PbConstants *constants);

#endif
