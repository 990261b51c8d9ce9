/**
 * @file climate.h
 * @brief The air that a bay stands in for years: humidity inside it, temperatures at both faces.
 *
 * Model: one sine over the year about a mean. Humidity is one number for the whole bay, as fill in
 * a vented wall sees it; temperatures serve heat and the drying of foam. Made, not measured: the
 * shipped climates are named after what they are like, not after a place.
 */
#ifndef CORE_CLIMATE_H
#define CORE_CLIMATE_H

#include "core/status.h"

/** Mean over the year and amplitude of the sine: the value runs from mean - swing to mean + swing.
 */
typedef struct PbSeason {
    double mean;
    double swing;
} PbSeason;

typedef struct PbClimate {
    char name[32];
    char title[96];
    PbSeason bay_rh; /**< relative humidity in the fill, 0..1; largest a quarter year after t = 0 */
    PbSeason indoor_c;   /**< air temperature in the room, deg C */
    PbSeason indoor_rh;  /**< 0..1 */
    PbSeason outdoor_c;  /**< deg C */
    PbSeason outdoor_rh; /**< 0..1 */
    double foam_ageing;  /**< ageing of water-based foam against a temperate wall, 1..50 */
} PbClimate;

/** @brief Normal humidity: 30 to 60 % over the year, temperate. */
PbClimate pb_climate_default(void);
/** @brief Same humidity in the fill all year, else as the default. @param[in] rh_frac 0..1 */
PbClimate pb_climate_steady(double rh_frac);
/** @brief Judge every number; humidity stays in 0..1 all year. err may be NULL. */
PB_NODISCARD PbStatus pb_climate_check(const PbClimate *climate, PbError *err);
/** @brief Value of a season `years` after filling. */
double pb_season_at(const PbSeason *season, double years);

#endif
