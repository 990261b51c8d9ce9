/*
 * The material law of settling: sorption, creep stress, fabric, and the closed forms that one step
 * uses and tests check. Numbers come from the constants; nothing here knows a bay.
 * Next: settle_sweep.c for what wall friction leaves of the load.
 */
#include "years/settle_private.h"

#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>

double pb_settle_moisture(const PbConstants *c, double rh_frac)
{
    double rh = pb_limit(rh_frac, 0.02, 0.95);
    return c->moisture_at_rh50 * pb_pow(rh / (1.0 - rh), c->sorption_exponent);
}

double pb_settle_fabric(const PbConstants *c, double laid_dry_kg_m3)
{
    double ratio = laid_dry_kg_m3 / (c->settle_laid_dry_kg_m3 * c->settle_material);
    return ratio >= 1.0 ? 1.0 : pb_pow(ratio, c->settle_fabric_exponent);
}

double settle_ln_reference(const PbConstants *c, double laid_dry_kg_m3, double past_dry_kg_m3)
{
    double ref = c->settle_ref_kg_m3 * c->settle_material * pb_settle_fabric(c, past_dry_kg_m3);
    double ln_laid = pb_log(laid_dry_kg_m3);
    /* Laid: exponent m; packed further by creep: exponent m'. Both agree at the laid density. */
    return ln_laid - c->settle_exponent / c->settle_hardening_exponent * (ln_laid - pb_log(ref));
}

SettleLaw settle_law(const PbSettleConfig *config, double tilt_deg)
{
    const PbConstants *c = &config->constants;
    double face = config->face == PB_FACE_FILM   ? c->face_film_factor
                  : config->face == PB_FACE_LATH ? c->face_lath_factor
                                                 : 1.0;
    int heavy = config->vibration == PB_VIBRATION_HEAVY;
    int shaken = config->vibration != PB_VIBRATION_QUIET;
    double shake_friction = heavy ? c->vibration_heavy_friction : c->vibration_light_friction;
    double shake_rate = heavy ? c->vibration_heavy_rate : c->vibration_light_rate;
    double tilt = tilt_deg * (PB_PI / 180.0);
    SettleLaw law = {
        .ln_rate50 = pb_log(c->settle_rate_pa),
        .exponent = c->settle_exponent,
        .hardening = c->settle_hardening_exponent,
        .damp = config->damp == PB_DAMP_DEEP ? c->settle_damp_deep : c->settle_damp,
        .power = c->settle_creep_power,
        .relaxation = c->settle_relaxation,
        .time_years = c->settle_time_years,
        .moisture_years = c->settle_moisture_years,
        .friction = c->wall_friction * face * (shaken ? shake_friction : 1.0),
        .ratio = c->lateral_ratio,
        .tan_phi = c->internal_friction,
        .rate_factor = shaken ? shake_rate : 1.0,
        /* A wall takes gravity whole: sin and cos of 90 degrees would leave 6e-17 on the face. */
        .along_m_s2 = tilt_deg >= 90.0 ? PB_GRAVITY_M_S2 : PB_GRAVITY_M_S2 * pb_sin(tilt),
        .across_m_s2 = tilt_deg >= 90.0 ? 0.0 : PB_GRAVITY_M_S2 * pb_cos(tilt),
    };
    return law;
}

SettleStep settle_step_numbers(const SettleLaw *law, double rh_frac, double dt_years)
{
    double m = law->exponent, hard = law->hardening, n = law->power;
    double relax_power = n * (1.0 + m * law->relaxation);
    SettleStep s = {
        .ln_rate = law->ln_rate50 - m * law->damp * (rh_frac - 0.5),
        .exponent = hard,
        .power = n,
        .creep_time = dt_years / law->time_years * (hard / m),
        .inv_creep = 1.0 / (hard * n),
        .relax_time = relax_power * dt_years / (law->relaxation * m * n * law->time_years),
        .relax_power = relax_power,
        .inv_relax = 1.0 / relax_power,
        .ln_ratio = pb_log(law->ratio),
    };
    return s;
}

/* The law of a bare material test: no bay, no vibration, shallow reading. */
static SettleLaw plain_law(const PbConstants *constants)
{
    PbSettleConfig config = pb_settle_default();
    config.constants = *constants;
    return settle_law(&config, 90.0);
}

double pb_settle_creep_stress_pa(const PbConstants *c, double dry_kg_m3, double laid_dry_kg_m3,
                                 double rh_frac)
{
    SettleLaw law = plain_law(c);
    SettleStep s = settle_step_numbers(&law, rh_frac, 0.0);
    double ln_ref = settle_ln_reference(c, laid_dry_kg_m3, laid_dry_kg_m3);
    return pb_exp(s.ln_rate + s.exponent * (pb_log(dry_kg_m3) - ln_ref));
}

double pb_settle_creep(const PbConstants *c, double dry_kg_m3, double laid_dry_kg_m3,
                       double stress_pa, double rh_frac, double years)
{
    SettleLaw law = plain_law(c);
    SettleStep s = settle_step_numbers(&law, rh_frac, years);
    double sr = pb_settle_creep_stress_pa(c, dry_kg_m3, laid_dry_kg_m3, rh_frac);
    double grown = 1.0 + pb_pow(stress_pa / sr, s.power) * s.creep_time;
    return dry_kg_m3 * pb_pow(grown, s.inv_creep);
}

double pb_settle_relax_pa(const PbConstants *c, double lateral_pa, double dry_kg_m3,
                          double laid_dry_kg_m3, double rh_frac, double years)
{
    SettleLaw law = plain_law(c);
    SettleStep s = settle_step_numbers(&law, rh_frac, years);
    double sr = pb_settle_creep_stress_pa(c, dry_kg_m3, laid_dry_kg_m3, rh_frac);
    double z = pb_pow(lateral_pa / (law.ratio * sr), s.relax_power);
    return lateral_pa * pb_pow(1.0 + s.relax_time * z, -s.inv_relax);
}
