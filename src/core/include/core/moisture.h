/**
 * @file moisture.h
 * @brief Yearly condensation inside a wall by monthly means: the screening of ISO 13788:2012.
 *
 * Vapor goes by diffusion alone through layers side by side; where its pressure would pass
 * saturation it is bent onto it (Glaser), and what arrives more than leaves stays there until it
 * has dried. Left out, as the standard says: air that carries vapor, sorption, capillary flow,
 * rain, built-in water, changing properties. So a screen, no proof. docs/physics/moisture.md. Pure.
 */
#ifndef CORE_MOISTURE_H
#define CORE_MOISTURE_H

#define PB_MOIST_MONTHS 12
#define PB_MOIST_LAYERS 16

/** From the room outwards. */
typedef struct PbMoistLayer {
    double r_m2k_w;
    double sd_m; /**< still air that lets as much vapor through; 0 counts as 0.1 mm */
} PbMoistLayer;

typedef struct PbMoistMonth {
    double room_c, room_pa, outdoor_c, outdoor_pa;
} PbMoistMonth;

typedef struct PbMoistWall {
    PbMoistLayer layer[PB_MOIST_LAYERS];
    int count;                              /**< 1 .. PB_MOIST_LAYERS */
    double room_film_m2k_w, out_film_m2k_w; /**< films have no resistance to vapor */
} PbMoistWall;

typedef struct PbMoistYear {
    int is_wet;       /**< anything condensed in any month */
    int layer;        /**< the wettest place lies at its outer face, or inside of it */
    double most_g_m2; /**< most that ever lies at that place */
    int most_month;   /**< at whose end, 0 = January */
    double
        left_g_m2; /**< in the whole wall at the end of twelve months, from the first wet one on */
    int dry_month; /**< in which the wall is dry again; negative: never, or never wet */
    double sum_g_m2[PB_MOIST_MONTHS]; /**< in the whole wall at the end of each month */
    double face_rh; /**< highest monthly humidity at the room's face, 0..1 and above */
} PbMoistYear;

/** @brief Saturation pressure of vapor, Pa: ISO 13788:2012, equations E.7 and E.8. */
double pb_saturation_pa(double c);
/** @brief sd of a layer of that permeance, kg/(m2 s Pa) > 0: 2e-10 kg/(m s Pa) over it. */
double pb_moist_sd_m(double permeance);
/** @brief One year of a wall that is dry before its first wet month. Allocates nothing. */
void pb_moist_year(const PbMoistWall *wall, const PbMoistMonth months[PB_MOIST_MONTHS],
                   PbMoistYear *year);

#endif
