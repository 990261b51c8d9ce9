/* Where grid lines go. A wished cell size is given at every break (an edge of a region); between
 * breaks it may grow. The number of cells asked for is shared out by the integral of 1/size, so
 * thin spans get their cells and wide ones are graded towards their ends.
 */
#include "heat/grid.h"

#include "core/pb_math.h"

#include <math.h>

enum { SAMPLES = 400 };

/* Wished size at distance s from the start of span q. */
static double size_at(const PbGridSpan *span, const double *edge, int q, double s)
{
    double from_start = edge[q] + span[q].growth * s;
    double from_end = edge[q + 1] + span[q].growth * (span[q].length_m - s);
    return pb_min(from_start, from_end);
}

/* Integral of 1 / size over span q up to sample m. */
static double amount(const PbGridSpan *span, const double *edge, int q, double *running)
{
    double step = span[q].length_m / SAMPLES, sum = 0.0;
    for (int m = 0; m < SAMPLES; m++) {
        running[m] = sum;
        sum += step / size_at(span, edge, q, ((double)m + 0.5) * step);
    }
    running[SAMPLES] = sum;
    return sum;
}

/* Counts that add up to n, in proportion to `share`, none below its fewest. */
static int share_out(const PbGridSpan *span, const double *share, int count, int n, int *cells)
{
    double total = 0.0;
    int used = 0;
    for (int q = 0; q < count; q++) {
        total += share[q];
    }
    for (int q = 0; q < count; q++) {
        cells[q] = (int)floor(share[q] / total * n);
        cells[q] = cells[q] < span[q].fewest ? span[q].fewest : cells[q];
        used += cells[q];
    }
    while (used != n) {
        int best = -1, way = used < n ? 1 : -1;
        double best_load = 0.0;
        for (int q = 0; q < count; q++) {
            double load = share[q] / (way > 0 ? cells[q] : cells[q] - 1);
            if (way < 0 && cells[q] <= span[q].fewest) {
                continue;
            }
            if (best < 0 || (way > 0 ? load > best_load : load < best_load)) {
                best = q;
                best_load = load;
            }
        }
        if (best < 0) {
            return 0;
        }
        cells[best] += way;
        used += way;
    }
    return 1;
}

int pb_grid_lines(const PbGridSpan *span, int count, double start, int n, double *line)
{
    double edge[PB_GRID_MAX_BREAKS + 1], share[PB_GRID_MAX_BREAKS], running[SAMPLES + 1];
    int cells[PB_GRID_MAX_BREAKS];
    if (count < 1 || count > PB_GRID_MAX_BREAKS) {
        return 0;
    }
    edge[0] = span[0].size_m;
    edge[count] = span[count - 1].size_m;
    for (int q = 1; q < count; q++) {
        edge[q] = pb_min(span[q - 1].size_m, span[q].size_m);
    }
    for (int q = 0; q < count; q++) {
        share[q] = amount(span, edge, q, running);
    }
    if (!share_out(span, share, count, n, cells)) {
        return 0;
    }
    double at = start;
    int next = 0;
    line[next++] = start;
    for (int q = 0; q < count; q++) {
        double whole = amount(span, edge, q, running);
        int m = 0;
        for (int c = 1; c < cells[q]; c++) {
            double wanted = whole * c / cells[q];
            while (running[m + 1] < wanted) {
                m++;
            }
            double part = (wanted - running[m]) / (running[m + 1] - running[m]);
            line[next++] = at + span[q].length_m * ((double)m + part) / SAMPLES;
        }
        at += span[q].length_m;
        line[next++] = at;
    }
    return 1;
}

int pb_grid_sort(double *at, int count, double closest)
{
    for (int i = 1; i < count; i++) {
        double v = at[i];
        int q = i;
        for (; q > 0 && at[q - 1] > v; q--) {
            at[q] = at[q - 1];
        }
        at[q] = v;
    }
    int kept = 0;
    for (int i = 0; i < count; i++) {
        if (kept == 0 || at[i] - at[kept - 1] > closest) {
            at[kept++] = at[i];
        }
    }
    return kept;
}
