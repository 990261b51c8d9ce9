/**
 * @file proof.h
 * @brief What was measured at a house on the day of the work: bags, cores, camera, leak test.
 *
 * Plain value type in SI; all zero where nothing was measured. What it shows and how surely:
 * core/proof_reading.h.
 */
#ifndef CORE_PROOF_H
#define CORE_PROOF_H

#include "core/status.h"

#include <stddef.h>

enum { PB_PROOF_CORES = 3 };

/** A camera picture: how much colder the coldest stripe between the studs is than the face beside
 * it, and how far apart the airs of room and outdoors were. */
typedef struct PbProofPicture {
    double stripe_k; /**< 0..40 */
    double air_k;    /**< 0..80; 0 = no picture was taken */
} PbProofPicture;

typedef struct PbProof {
    double area_m2; /**< wall that was filled, without windows and doors, studs included; 0.5..5000;
                       0 = bags were not counted */
    double bags;    /**< that went through the machine, parts of a bag too, 0.1..5000 */
    double bag_kg;  /**< net mass of a bag, 1..50 */
    double core_kg_m3[PB_PROOF_CORES]; /**< density of each core, 5..200 */
    int core_count;                    /**< 0..PB_PROOF_CORES */
    PbProofPicture before, after;
    double leak_before_m3_s, leak_after_m3_s; /**< of the house at 50 Pa, 0.005..20; 0 = no test */
} PbProof;

/** @brief Judge a proof. As pb_house_check; `path` is below "proof/". */
PB_NODISCARD PbStatus pb_proof_check(const PbProof *proof, char *path, size_t size, PbError *err);
/** @brief Nonzero when anything was measured. */
int pb_proof_has_any(const PbProof *proof);

#endif
