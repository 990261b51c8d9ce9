/**
 * @file units.h
 * @brief The only home of inch, pound, degree Fahrenheit and R-value.
 * Factors: NIST SP 811 (2008), Appendix B; those marked exact are exact by definition.
 */
#ifndef CORE_UNITS_H
#define CORE_UNITS_H

#define PB_M_PER_IN         0.0254              /* exact */
#define PB_M_PER_FT         0.3048              /* exact */
#define PB_KG_PER_LB        0.45359237          /* exact */
#define PB_KG_M3_PER_LB_FT3 16.018463373960142  /* lb / ft^3 */
#define PB_PA_PER_IN_WC     249.08891           /* inch of water, conventional */
#define PB_PA_PER_PSI       6894.757293168361   /* lbf / in^2 */
#define PB_M2K_W_PER_R      0.17611018368230583 /* h ft^2 F / Btu(IT) */
#define PB_W_PER_BTU_H      0.29307107017222    /* Btu(IT) per hour */
#define PB_J_PER_BTU        1055.05585262       /* Btu(IT) */
#define PB_M3_S_PER_CFM     4.719474432e-4      /* ft^3 / min, exact */
#define PB_S_PER_YEAR       31557600.0          /* 365.25 days */
#define PB_S_PER_DAY        86400.0
#define PB_DAYS_PER_YEAR    365.25
#define PB_GRAVITY_M_S2     9.80665 /* standard gravity, exact */

static inline double pb_f_from_c(double c)
{
    return c * 1.8 + 32.0;
}
static inline double pb_c_from_f(double f)
{
    return (f - 32.0) / 1.8;
}

#endif
