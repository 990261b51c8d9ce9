/**
 * @file job_rule.h
 * @brief A whole job by rule: a crew without a person, that knows what its acts have told it.
 */
#ifndef CORE_JOB_RULE_H
#define CORE_JOB_RULE_H

#include "core/crew_find.h"
#include "core/job.h"

typedef struct PbJobRule {
    PbFindMethod find;
    int checks;  /**< looks, and walks through the house for reasons to leave a bay */
    int leaves;  /**< what the checks showed, with the reason, before a hole is made there */
    int seals;   /**< openings to other spaces that the checks showed */
    int tests;   /**< the machine */
    int tidies;  /**< protects, plugs, patches, cleans */
    int proves;  /**< estimates, feels and weighs a bay, camera, writes down */
    int hands;   /**< number of the hands */
    int by_hand; /**< so many bays by these hands, the rest as they were done; 0 = all by hands */
} PbJobRule;

/** Words of the file for PbFindMethod. */
extern const char *const pb_find_words[PB_FIND_METHODS];

/**
 * @brief Do a whole job. Fills are begun, not yet run.
 * @return PB_OK; PB_ERR_MEMORY; as pb_job_act for hands that there are not
 */
PB_NODISCARD PbStatus pb_job_rule(PbJob *job, const PbJobRule *rule, PbError *err);

#endif
