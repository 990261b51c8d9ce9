/* Coupling of flow and energy: Newton on the stream function.
 *
 * With psi given, the energy equation is linear: factor it, solve for T. With T given, the flow is
 * a solve with factors made once per geometry. F(psi) = flow(T(psi)) - psi = 0 is solved by Newton;
 * a product with its Jacobian costs one solve with each of the two factors at hand, so the linear
 * systems are solved by GMRES (Saad and Schultz, SIAM J. Sci. Stat. Comput. 7 (1986) 856) without
 * any new matrix. Strong loops are reached by raising the buoyancy in levels.
 */
#include "heat/section.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

/* Loops whose first estimate is above this many times the diffusivity are ramped up. */
static const double ramp_from_peclet = 40.0;
static const double ramp_step = 8.0;
static const double ramp_step_smallest = 1.1;
static const double ramp_tolerance = 0.03;

/* Passes of temperatures_nearby, and how much of the tolerance they may leave. */
static const int nearby_passes = 4;
static const double nearby_tolerance = 1e-3;
/* Steps of psi this many times the diffusivity are tried with the factors at hand. */
static const double nearby_peclet = 1.0;

static double largest(const double *v, int n)
{
    double m = 0.0;
    for (int i = 0; i < n; i++) {
        double a = fabs(v[i]);
        m = a > m || !(a == a) ? a : m;
    }
    return m;
}

static double norm(const PbHeatSection *s, const double *v)
{
    return sqrt(s->kernels->dot(v, v, s->node_count));
}

/* T at the psi in s->corner by factors made there. */
static int temperatures(PbHeatSection *s, const double *psi)
{
    int is_still = !(largest(psi, s->node_count) > 0.0);
    if (!pb_heat_energy_factor(s, is_still ? NULL : s->corner)) {
        return 0;
    }
    pb_heat_energy_solve(s, s->source, s->t);
    memcpy(s->psi_base, psi, (size_t)s->node_count * sizeof(double));
    memcpy(s->t_base, s->t, (size_t)(s->nx * s->ny) * sizeof(double));
    s->is_base = 1;
    return 1;
}

/* T at the psi in s->corner by the factors made at psi_base. With A T = q there, (A + C) T' = q is
 * T' = T - A^-1 C T', iterated; C is the convection of the change of psi. Each pass leaves the heat
 * in balance, for C moves heat and makes none. @return 0 when it takes more than a few passes. */
static int temperatures_nearby(PbHeatSection *s, const double *psi)
{
    int n = s->nx * s->ny;
    double wanted = nearby_tolerance * s->setup.tolerance * largest(s->t_base, n);
    double change = s->turn_length * largest(s->t_turn, n);
    for (int i = 0; i < s->node_count; i++) {
        s->residual[i] = psi[i] - s->psi_base[i];
    }
    pb_heat_flow_to_corners(s, s->residual, s->corner2);
    memcpy(s->t, s->t_base, (size_t)n * sizeof(double));
    for (int c = 0; c < n && s->turn_length > 0.0; c++) {
        s->t[c] = s->t_now[c] + s->turn_length * s->t_turn[c];
    }
    for (int pass = 0; pass < nearby_passes; pass++) {
        pb_heat_energy_turn(s, s->corner2, s->t, s->energy_rhs);
        pb_heat_energy_solve(s, s->energy_rhs, s->t_delta);
        double before = change;
        change = 0.0;
        for (int c = 0; c < n; c++) {
            double t = s->t_base[c] + s->t_delta[c];
            change = pb_max(change, fabs(t - s->t[c]));
            s->t[c] = t;
        }
        /* The next pass would change T by change x rate. */
        double rate = before > 0.0 ? change / before : 1.0;
        if (change * rate <= wanted) {
            s->is_base = 0;
            s->nearby_rate = rate;
            return 1;
        }
        if (before > 0.0 && !(change * rate * rate * rate <= wanted)) {
            break;
        }
    }
    return 0;
}

/* F at psi: leaves T in s->t and the change wanted in s->residual. Near psi_base it may do without
 * new factors; then is_base is 0 and the Jacobian is not at hand. */
static int evaluate(PbHeatSection *s, const double *psi, int is_near)
{
    pb_heat_flow_to_corners(s, psi, s->corner);
    if (!(is_near && temperatures_nearby(s, psi)) && !temperatures(s, psi)) {
        return 0;
    }
    pb_heat_flow_buoyancy(s, s->t, s->rhs);
    if (s->setup.has_inertia) {
        pb_heat_flow_laplacian(s, s->corner, s->vorticity);
        pb_heat_flow_inertia(s, s->corner, s->vorticity, 1.0 / s->setup.viscosity_m2_s, s->rhs);
    }
    pb_heat_flow_solve(s, s->rhs, s->residual);
    for (int i = 0; i < s->node_count; i++) {
        s->residual[i] -= psi[i];
    }
    return 1;
}

/* out = (I - dG) v at the state of the last evaluate; the change of T goes to t_delta. */
static void jacobian(PbHeatSection *s, const double *v, double *t_delta, double *out)
{
    pb_heat_flow_to_corners(s, v, s->corner2);
    pb_heat_energy_turn(s, s->corner2, s->t, s->energy_rhs);
    pb_heat_energy_solve(s, s->energy_rhs, t_delta);
    pb_heat_flow_buoyancy(s, t_delta, s->rhs);
    if (s->setup.has_inertia) {
        double f = 1.0 / s->setup.viscosity_m2_s;
        pb_heat_flow_laplacian(s, s->corner2, s->vorticity2);
        pb_heat_flow_inertia(s, s->corner2, s->vorticity, f, s->rhs);
        pb_heat_flow_inertia(s, s->corner, s->vorticity2, f, s->rhs);
    }
    pb_heat_flow_solve(s, s->rhs, out);
    for (int i = 0; i < s->node_count; i++) {
        out[i] = v[i] - out[i];
    }
}

/* Rotate column c of the Hessenberg matrix by the rotations so far and one more. */
static void rotate(double h[GMRES_MAX + 1], double *cs, double *sn, double *g, int c)
{
    for (int i = 0; i < c; i++) {
        double t = cs[i] * h[i] + sn[i] * h[i + 1];
        h[i + 1] = cs[i] * h[i + 1] - sn[i] * h[i];
        h[i] = t;
    }
    double r = sqrt(h[c] * h[c] + h[c + 1] * h[c + 1]);
    cs[c] = r > 0.0 ? h[c] / r : 1.0;
    sn[c] = r > 0.0 ? h[c + 1] / r : 0.0;
    h[c] = r;
    g[c + 1] = -sn[c] * g[c];
    g[c] = cs[c] * g[c];
}

/* direction = J^-1 residual to the given relative accuracy, and the change of T that goes with it.
 * @return 0 when that is not known, after many steps. */
static int gmres(PbHeatSection *s, double relative)
{
    double h[GMRES_MAX][GMRES_MAX + 1], cs[GMRES_MAX], sn[GMRES_MAX], g[GMRES_MAX + 1];
    int n = s->node_count, m = 0;
    size_t cells = (size_t)s->nx * (size_t)s->ny;
    double *basis = s->krylov;
    double beta = norm(s, s->residual);
    memset(s->direction, 0, (size_t)n * sizeof(double));
    memset(s->t_turn, 0, cells * sizeof(double));
    if (!(beta > 0.0)) {
        return 1;
    }
    for (int i = 0; i < n; i++) {
        basis[i] = s->residual[i] / beta;
    }
    g[0] = beta;
    while (m < GMRES_MAX) {
        double *w = basis + (size_t)(m + 1) * (size_t)n;
        double *t = m < TURNS_MAX ? s->t_basis + (size_t)m * cells : s->t_delta;
        jacobian(s, basis + (size_t)m * (size_t)n, t, w);
        s->result.inner_iterations++;
        for (int i = 0; i <= m; i++) {
            const double *q = basis + (size_t)i * (size_t)n;
            h[m][i] = s->kernels->dot(q, w, n);
            s->kernels->axpy(-h[m][i], q, w, n);
        }
        h[m][m + 1] = norm(s, w);
        double scale = h[m][m + 1] > 0.0 ? 1.0 / h[m][m + 1] : 0.0;
        for (int i = 0; i < n; i++) {
            w[i] *= scale;
        }
        rotate(h[m], cs, sn, g, m);
        m++;
        if (!(fabs(g[m]) > relative * beta) || scale == 0.0) {
            break;
        }
    }
    double y[GMRES_MAX];
    for (int i = m - 1; i >= 0; i--) {
        y[i] = g[i];
        for (int q = i + 1; q < m; q++) {
            y[i] -= h[q][i] * y[q];
        }
        y[i] = h[i][i] != 0.0 ? y[i] / h[i][i] : 0.0;
    }
    for (int i = 0; i < m; i++) {
        s->kernels->axpy(y[i], basis + (size_t)i * (size_t)n, s->direction, n);
    }
    for (int i = 0; i < m && m <= TURNS_MAX; i++) {
        s->kernels->axpy(y[i], s->t_basis + (size_t)i * cells, s->t_turn, (int)cells);
    }
    return m <= TURNS_MAX;
}

static double smallest_diffusivity(const PbHeatSection *s)
{
    double k = s->k[0];
    for (int c = 1; c < s->nx * s->ny; c++) {
        k = pb_min(k, s->k[c]);
    }
    return k / s->setup.heat_capacity_j_m3k;
}

/* Newton at one strength of buoyancy from s->psi, which has been evaluated. @return 1 when the
 * tolerance is met. */
static int newton_level(PbHeatSection *s, double tolerance, double scale_floor)
{
    int n = s->node_count;
    double size = norm(s, s->residual), before = size;
    for (int step = 0; step < s->setup.max_iterations; step++) {
        s->result.iterations++;
        double wanted = tolerance * pb_max(largest(s->psi, n), scale_floor);
        double now = largest(s->residual, n);
        if (now <= wanted) {
            return 1;
        }
        /* As exact as the next step can use: quadratic near the end, coarse far away. */
        double gain = size / before;
        double relative = pb_limit(0.5 * gain * gain, pb_max(0.3 * wanted / now, 1e-8), 0.02);
        before = size;
        /* Factors made nearby give a direction that is off by their rate. */
        int serves = s->is_base || s->nearby_rate * now <= 0.3 * wanted;
        if (!serves && !evaluate(s, s->psi, 0)) {
            return 0;
        }
        memcpy(s->t_now, s->t, (size_t)(s->nx * s->ny) * sizeof(double));
        int has_turn = gmres(s, relative);
        int is_near = largest(s->direction, n) < nearby_peclet * scale_floor;
        double length = 1.0, tried = HUGE_VAL;
        for (int cut = 0; cut < 7; cut++, length *= 0.5) {
            for (int i = 0; i < n; i++) {
                s->psi_trial[i] = s->psi[i] + length * s->direction[i];
            }
            s->turn_length = has_turn ? length : 0.0;
            if (!evaluate(s, s->psi_trial, is_near)) {
                return 0;
            }
            tried = norm(s, s->residual);
            if (tried < (1.0 - 1e-3 * length) * size) {
                break;
            }
        }
        if (!(tried < size)) {
            return 0;
        }
        memcpy(s->psi, s->psi_trial, (size_t)n * sizeof(double));
        size = tried;
    }
    return 0;
}

static double full_buoyancy(const PbHeatSection *s)
{
    return s->setup.gravity_m_s2 * s->setup.expansion_1_k / s->setup.viscosity_m2_s;
}

static void set_ramp(PbHeatSection *s, double ramp)
{
    s->ramp = ramp;
    s->buoyancy = ramp * full_buoyancy(s);
    s->result.ramp_levels++;
}

/* Raise the buoyancy from `ramp` to 1, shrinking the steps where Newton fails. */
static int climb(PbHeatSection *s, double ramp, double floor)
{
    int n = s->node_count;
    double step = ramp_step, reached = 0.0, power = 0.5;
    double *kept = s->krylov + (size_t)(GMRES_MAX + 1) * (size_t)n;
    for (;;) {
        set_ramp(s, ramp);
        int is_near = largest(s->psi, n) < nearby_peclet * floor;
        s->turn_length = 0.0;
        if (evaluate(s, s->psi, is_near) &&
            newton_level(s, ramp < 1.0 ? ramp_tolerance : s->setup.tolerance, floor)) {
            if (ramp >= 1.0) {
                return 1;
            }
            memcpy(kept, s->psi, (size_t)n * sizeof(double));
            reached = ramp;
        } else {
            step = sqrt(step);
            if (!(reached > 0.0)) {
                ramp /= 16.0;
                for (int i = 0; i < n; i++) {
                    s->psi[i] = 0.0;
                }
                if (ramp < 1e-12) {
                    return 0;
                }
                continue;
            }
            if (step < ramp_step_smallest) {
                return 0;
            }
            memcpy(s->psi, kept, (size_t)n * sizeof(double));
        }
        ramp = pb_min(1.0, reached * step);
        double grow = pb_pow(ramp / reached, power);
        for (int i = 0; i < n; i++) {
            s->psi[i] *= grow;
        }
    }
}

PbStatus pb_heat_newton(PbHeatSection *s)
{
    int n = s->node_count;
    double diffusivity = smallest_diffusivity(s);
    double floor = diffusivity; /* slower air than this carries less than conduction */
    if (!s->stream_ready && !pb_heat_flow_factor(s)) {
        return PB_ERR_DIVERGED;
    }
    if (s->solved) { /* the last answer is a good start */
        set_ramp(s, 1.0);
        if (evaluate(s, s->psi, 0) && newton_level(s, s->setup.tolerance, floor)) {
            return PB_OK;
        }
    }
    set_ramp(s, 1.0);
    memset(s->psi, 0, (size_t)n * sizeof(double));
    if (!evaluate(s, s->psi, 0)) {
        return PB_ERR_DIVERGED;
    }
    s->result.still_w_m = pb_heat_left(s);
    double peclet = largest(s->residual, n) / diffusivity;
    double ramp = peclet > ramp_from_peclet ? ramp_from_peclet / peclet : 1.0;
    for (int i = 0; i < n; i++) {
        s->psi[i] = ramp * s->residual[i];
    }
    return climb(s, ramp, floor) ? PB_OK : PB_ERR_NO_RESULT;
}
