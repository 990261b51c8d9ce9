/* What a camera shows of a solved bay, and gaps of a shrunken foam block. */
#include "heat/bay.h"

#include "core/pb_math.h"
#include "core/rng.h"

#include <math.h>
#include <string.h>

static const double kelvin = 273.15;

PbHeatCamera pb_heat_camera_plain(void)
{
    PbHeatCamera c = {.held_h = -1.0, .start_c = 10.0, .emissivity = 1.0, .reflected_c = 20.0};
    return c;
}

static double fourth_power(double c)
{
    double k = c + kelvin;
    return (k * k) * (k * k);
}

/* 1-2-1 along one axis, ends repeated. */
static void blur_line(double *v, int count, int step)
{
    double before = v[0];
    for (int i = 0; i < count; i++) {
        double here = v[i * step], next = v[(i + 1 < count ? i + 1 : i) * step];
        v[i * step] = 0.25 * before + 0.5 * here + 0.25 * next;
        before = here;
    }
}

PbStatus pb_heat_camera_picture(const PbHeatBay *bay, const PbHeatCamera *camera,
                                const PbConstants *constants, double *out)
{
    int nx = bay->result.map_nx, ny = bay->result.map_ny;
    if (bay->map == NULL) {
        return PB_ERR_STATE;
    }
    if (!(camera->emissivity > 0.0 && camera->emissivity <= 1.0) ||
        !(camera->noise_k >= 0.0 && camera->noise_k <= 100.0) || camera->blur_px < 0 ||
        camera->blur_px > 64 || isnan(camera->held_h) || !(fabs(camera->start_c) <= 200.0) ||
        !(fabs(camera->reflected_c) <= 200.0)) {
        return PB_ERR_RANGE;
    }
    double mirrored = (1.0 - camera->emissivity) * fourth_power(camera->reflected_c);
    for (int n = 0; n < nx * ny; n++) {
        double t = bay->map[n];
        if (camera->held_h >= 0.0) {
            double tau =
                constants->warm_up_solid_h +
                (constants->warm_up_void_h - constants->warm_up_solid_h) * bay->map_void[n];
            t = camera->start_c + (t - camera->start_c) * (1.0 - pb_exp(-camera->held_h / tau));
        }
        if (camera->emissivity < 1.0) {
            t = sqrt(sqrt(camera->emissivity * fourth_power(t) + mirrored)) - kelvin;
        }
        out[n] = t;
    }
    for (int pass = 0; pass < camera->blur_px; pass++) {
        for (int j = 0; j < ny; j++) {
            blur_line(out + j * nx, nx, 1);
        }
        for (int i = 0; i < nx; i++) {
            blur_line(out + i, ny, nx);
        }
    }
    if (camera->noise_k > 0.0) {
        PbRng rng = pb_rng_make(camera->seed, 0x43414d45u);
        for (int n = 0; n < nx * ny; n++) {
            out[n] += camera->noise_k * pb_rng_normal(&rng);
        }
    }
    return PB_OK;
}

int pb_heat_shrink_gaps(const PbBayField *f, double share, PbHeatShrink kind,
                        const PbConstants *constants, PbHeatGap *gaps)
{
    double face = 0.5 * share * f->depth_m, side = 0.5 * share * f->width_m;
    double w = f->width_m, h = f->height_m, d = f->depth_m;
    double end = constants->shrink_end_gap_m, top = pb_max(share * h - end, end);
    int n = 0;
    gaps[n++] = (PbHeatGap){0.0, w, 0.0, h, 0.0, face};
    gaps[n++] = (PbHeatGap){0.0, w, 0.0, h, d - face, d};
    gaps[n++] = (PbHeatGap){0.0, side, 0.0, h, face, d - face};
    gaps[n++] = (PbHeatGap){w - side, w, 0.0, h, face, d - face};
    if (kind != PB_HEAT_SHRINK_TIGHT) {
        gaps[n++] = (PbHeatGap){0.0, w, 0.0, end, face, d - face};
        gaps[n++] =
            (PbHeatGap){0.0, w, h - (kind == PB_HEAT_SHRINK_TOP ? top : end), h, face, d - face};
    }
    return n;
}
