/* Private to fit: the terms of a quadratic once for all boxes of a point. */
#ifndef FIT_PRIVATE_H
#define FIT_PRIVATE_H

#include "core/fit.h"

/* The rows of the carriers, looked up once. */
typedef struct PbFitScale {
    const PbConstantInfo *info[PB_CARRIERS];
    double log_low[PB_CARRIERS], log_span[PB_CARRIERS];
} PbFitScale;

PbFitScale pb_fit_scale(void);
/* The carrier itself at a point. */
double pb_fit_value(const PbFitScale *scale, int k, double z);
void pb_fit_terms(const PbFitScale *scale, const PbFitPoint *point, double t[PB_FIT_TERMS]);
/* Logarithm of the quadratic's value. */
double pb_fit_log(const PbFitQuadratic *q, const double t[PB_FIT_TERMS]);

#endif
