/**
 * @file house_moist.h
 * @brief Moisture in the wall of a house: a screening of each fill, and what to look at before any.
 *
 * The wall of the house, its climate and rooms through core/moisture.h, as it is and under draws
 * over the permeance of every layer. Needs no packing run: a fill counts as standing everywhere.
 * What the method leaves out is told beside every answer (io/moist_words.h).
 * docs/physics/moisture.md. Pure.
 */
#ifndef CORE_HOUSE_MOIST_H
#define CORE_HOUSE_MOIST_H

#include "core/compare.h"
#include "core/moisture.h"

typedef enum PbMoistVerdict {
    PB_MOIST_UNKNOWN,  /**< the layers of the wall are not known: nothing was screened */
    PB_MOIST_DRY,      /**< nothing condenses in nine trials of ten */
    PB_MOIST_DRIES,    /**< what condenses dries out within the year in nine trials of ten */
    PB_MOIST_MAY_STAY, /**< stays wet in more than one trial of ten */
    PB_MOIST_STAYS     /**< stays wet in most */
} PbMoistVerdict;

/** Where water gathers. */
typedef enum PbMoistPlace {
    PB_MOIST_AT_BACK, /**< at the back of the cavity or in the layers outside of it */
    PB_MOIST_AT_FRONT /**< behind the room's face: cooling in a humid summer */
} PbMoistPlace;

typedef struct PbHouseMoist {
    PbMoistVerdict verdict;
    PbMoistPlace
        place; /**< of the run with shipped values, or of the wettest draw where that is dry */
    int draws, wet, stays; /**< how many were made, in how many anything condenses, stays wet */
    PbHeatRange most_g_m2; /**< most that lies there at once; 10 and 90 % points */
    int most_month;        /**< 0 = January */
    int has_mold_risk;     /**< over 80 % at the room's face in some month: ISO 13788 */
    PbMoistYear mid;       /**< shipped values, month by month */
} PbHouseMoist;

/**
 * @brief Screen a fill. Some milliseconds.
 * @param[in] house judged
 * @param[in] draws 0..PB_COMPARE_MAX_DRAWS
 */
void pb_house_moist(const PbHouse *house, const PbConstants *constants, PbCompareFill fill,
                    int draws, PbHouseMoist *moist);
/** @brief The wall and the months that are screened, for tests and pages. Layers must be known. */
void pb_house_moist_wall(const PbHouse *house, const PbConstants *constants, PbCompareFill fill,
                         PbMoistWall *wall);
void pb_house_moist_months(const PbHouse *house, const PbConstants *constants,
                           PbMoistMonth months[PB_MOIST_MONTHS]);

/** What to tell before a fill; those of PB_DAMP_NO_FILL come first: no fill until it is cured. */
typedef enum PbDampWarning {
    PB_WARN_LEAKS,       /**< stains, leaks or peeling paint were seen */
    PB_WARN_WATER,       /**< water stands or runs at the wall or under it */
    PB_WARN_BATH,        /**< a bath or dryer blows into the house or the wall */
    PB_WARN_STAYS,       /**< the screening stays wet, or may, with dense pack */
    PB_WARN_DRINKS,      /**< brick or stucco without paper: no rain screen */
    PB_WARN_NO_OVERHANG, /**< in a wet climate, or over a wall that drinks */
    PB_WARN_WET_CLIMATE, /**< outdoor air over 75 % in the yearly mean */
    PB_WARN_TIGHT_FRONT, /**< vapor-tight face in the room, humid summers, cooled */
    PB_WARN_HUMID_ROOMS, /**< rooms over 40 % in months below freezing */
    PB_WARN_MOLD,        /**< over 80 % at the room's face as the wall is */
    PB_WARN_NOT_LOOKED,  /**< leaks, water or baths were not asked for */
    PB_WARNINGS
} PbDampWarning;
/** Warnings up to this one: no fill until it is cured, or looked at by a licensed person. */
#define PB_WARN_LAST_NO_FILL PB_WARN_STAYS

/** @brief Which hold. @param[in] dense, now screenings of the dense pack and of the wall as it is
 */
void pb_house_damp(const PbHouse *house, const PbConstants *constants, const PbHouseMoist *now,
                   const PbHouseMoist *dense, int holds[PB_WARNINGS]);

#endif
