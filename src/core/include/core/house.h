/**
 * @file house.h
 * @brief A customer's house: wall, bay, weather, fuel and the cases to compare.
 *
 * Plain value type in SI; money is in whatever the user thinks in (currency is only a label). A
 * house is typed by a person, so every number is checked and none is ever clamped. Files:
 * docs/formats/house.md.
 */
#ifndef CORE_HOUSE_H
#define CORE_HOUSE_H

#include "core/climate.h"
#include "core/exercise.h"
#include "core/foam.h"
#include "core/heat_bay.h"
#include "core/home_air.h"
#include "core/home_heat.h"
#include "core/proof.h"

#include <stdint.h>

/** Customer of the shipped house that stands there before anybody has typed one. */
#define PB_HOUSE_DEMO "Demo house"

/** How the dense pack of a comparison came about. */
typedef enum PbDenseCase {
    PB_DENSE_WELL_DONE, /**< one-foot steps, each after the stall is heard */
    PB_DENSE_HASTY,     /**< steps by the clock, stall or not: pb_compare_hasty_hands */
    PB_DENSE_OWN,       /**< a bay handed in: a run of the trainee */
    PB_DENSE_CASES
} PbDenseCase;

/** How the loose blow of a comparison came about. */
typedef enum PbLooseCase {
    PB_LOOSE_FAIR,     /**< two holes, filled to the top: pb_compare_loose_bay */
    PB_LOOSE_CARELESS, /**< one hole, low, the gate wide open: pb_compare_loose_bay */
    PB_LOOSE_CASES
} PbLooseCase;

/** What is in the cavities before the work. An old batt is an obstacle of the bay. */
typedef enum PbCavityNow {
    PB_CAVITY_EMPTY,
    PB_CAVITY_LOOSE,  /**< old loose fill that still stands to `share` of the height */
    PB_CAVITY_PARTLY, /**< empty, but `share` of the wall area is packed already and stays so */
    PB_CAVITY_KINDS
} PbCavityNow;

typedef struct PbCavity {
    PbCavityNow now;
    double share; /**< 0.05..0.95; not looked at for an empty one */
} PbCavity;

/** More heat in a year than any dwelling takes: a slip of the unit or of a nought. */
#define PB_BILL_MOST_KWH 1e6

/** What heats the house and what was burnt, in the unit of the bill. */
typedef struct PbBill {
    int fuel;                /**< row of pb_fuel + 1; 0 = no bill: price_per_kwh was typed */
    PbHeatRange price;       /**< of a unit, 0.0001..100000 */
    double last_year;        /**< units of last year, all uses; 0 = not known */
    PbHeatRange not_heating; /**< share of it for hot water, cooking, drying: 0..0.9 */
} PbBill;

/** Cooling by electricity. */
typedef struct PbCooling {
    double set_c;           /**< room that the cooling keeps, 15..35 */
    PbHeatRange price_kwh;  /**< of electricity; mid 0 = the house is not cooled */
    PbHeatRange efficiency; /**< heat taken out over electricity, 0.5..10 */
} PbCooling;

/** What the work costs. */
typedef struct PbJob {
    double price, rebate; /**< of the whole job; 0 = not known, no rebate */
    double life_years;    /**< how long it is counted to last, 1..100 */
} PbJob;

/** When a house was built: its leakage, where nobody measured it. */
typedef enum PbBuilt {
    PB_BUILT_UNKNOWN,
    PB_BUILT_BEFORE_1940,
    PB_BUILT_1940, /**< to 1969 */
    PB_BUILT_1970, /**< to 1989 */
    PB_BUILT_1990, /**< and later */
    PB_BUILT_KINDS
} PbBuilt;

/** Fewer or more air changes an hour at 50 Pa no dwelling has: a slip of the unit or a nought. */
#define PB_ACH50_LEAST 0.3
#define PB_ACH50_MOST  100.0

/** Air that leaks through the whole house. Nothing of it is known where neither a blower door nor
 * a floor area is given; then no air is told. */
typedef struct PbHouseAir {
    double floor_area_m2; /**< of all heated stories, 20..2000; 0 = not known */
    int stories;          /**< 1..3 */
    PbBuilt built;
    double door_m3_h; /**< what a blower door reads at 50 Pa, 50..50000; 0 = not measured. With a
                         floor area: 0.3 to 100 air changes an hour of it */
} PbHouseAir;

/** Paint or paper on a face. */
typedef enum PbCoat {
    PB_COAT_UNKNOWN,
    PB_COAT_NONE,
    PB_COAT_LATEX,
    PB_COAT_OIL,   /**< many coats of old oil paint; outside they have closed the laps */
    PB_COAT_TIGHT, /**< foil, plastic, vinyl wallpaper */
    PB_COATS
} PbCoat;

/** What was looked for at the house. */
typedef enum PbSeen { PB_SEEN_UNKNOWN, PB_SEEN_NO, PB_SEEN_YES, PB_SEENS } PbSeen;

/** What the moisture of a wall hangs on besides its layers. */
typedef struct PbHouseDamp {
    PbCoat inside, outside;
    PbSeen leaks;       /**< stains, leaks, peeling paint */
    PbSeen water;       /**< that stands or runs at the wall or under it */
    PbSeen bath;        /**< a bath or dryer that blows into the house or the wall */
    PbSeen no_overhang; /**< of the roof */
} PbHouseDamp;

typedef struct PbHouse {
    char customer[81];           /**< as long as a name in the store may be */
    char town[96];               /**< a label; may be empty */
    double wall_area_m2;         /**< outside wall without windows and doors, 1..5000 */
    PbWall wall;                 /**< layers; all zero = the simple wall of older files */
    PbCavity cavity;             /**< what the saving is held against */
    double framing_share;        /**< of that area that is wood through the wall, 0.05..0.5 */
    PbClimate climate;           /**< humidity and foam ageing; its name is a climate file */
    PbHeatRange degree_days_k_d; /**< of a heating season, 0..20000 */
    char fuel[48];               /**< a label */
    char currency[16];           /**< a label: "USD", "EUR" */
    PbBill bill;
    PbCooling cooling;
    PbJob job;
    PbHouseAir air;
    PbHouseDamp damp;
    PbHeatRange price_per_kwh; /**< of heat content of the fuel, 0..1000; with a bill: its price
                                  over the shipped heat content (pb_house_price_by_bill) */
    PbHeatRange efficiency;    /**< heat into rooms over heat content, 0.01..5 */
    double room_c, outdoor_c;  /**< of the camera picture and the loops, steady; 5 K apart */
    PbExercise bay;            /**< the bay that stands for the wall; its climate is not used */
    PbFoamClass foam;
    PbLooseCase loose;
    PbDenseCase dense; /**< PB_DENSE_OWN only where a field is handed in; never in a file */
    PbProof proof;     /**< measured on the day of the work; all zero before it */
    uint64_t seed;     /**< of the packing, of where foam cracks, and of the draws */
} PbHouse;

/** @brief Plain bay, the simple wall, default climate, money and efficiency of the constants, 100
 * m2, a quarter framing, no bill, no cooling, no price of the job, air not known, 20 years of life,
 * 20 C against 0 C, typical foam, well-done dense pack, seed 7. */
PbHouse pb_house_default(void);
/** @brief price_per_kwh from the bill's price; nothing without a bill. */
void pb_house_price_by_bill(PbHouse *house);
/** @brief Nonzero when enough is given to tell of the house's air. */
int pb_house_has_air(const PbHouse *house);
/**
 * @brief Judge a house.
 * @param[out] field caller's array of `size` chars: path of the offending value as in the file
 *                   ("price_per_kwh/low")
 * @param[out] err   says what was expected; may be NULL
 * @return PB_OK or PB_ERR_RANGE. Allocates nothing.
 */
PB_NODISCARD PbStatus pb_house_check(const PbHouse *house, char *field, size_t size, PbError *err);

#endif
