/**
 * @file heat_air.h
 * @brief Published laws for air that turns over in a space: films of airspaces and of tall slots.
 *
 * Pure. docs/physics/heat.md says where they stand in for a solved flow.
 */
#ifndef CORE_HEAT_AIR_H
#define CORE_HEAT_AIR_H

/**
 * @brief Convection and conduction across an unventilated airspace, W/(m2 K), without radiation.
 * ISO 6946:2017, Annex D: level heat flow 1.25, up 1.95, down 0.12 d^-0.44 for a step of at most
 * 5 K; 0.73 dT^(1/3), 1.14 dT^(1/3), 0.09 dT^0.187 d^-0.44 above; at least conduction.
 * @param[in] thick_m along the heat flow, > 0
 * @param[in] dt_k across the airspace; the sign is dropped
 * @param[in] up component of the direction of heat flow against gravity: 1 up, 0 level, -1 down
 * @param[in] level_w_m2k film of level heat flow, 1.25 in the standard; all films go with it
 */
double pb_heat_airspace_convection(double air_k_w_mk, double thick_m, double dt_k, double up,
                                   double level_w_m2k);

/**
 * @brief Mean Nusselt number of a tall upright slot between plates at two temperatures, whether its
 * flow is steady or not. ISO 15099:2003, equations 49 to 52 (for air, aspect 5 to 110, Ra to 1e6).
 * @param[in] ra by the width of the slot
 * @param[in] aspect height over width
 */
double pb_heat_slot_nusselt(double ra, double aspect);

#endif
