/* The runs of a fit on all cores: fit_run.h. */
#include "fit_run.h"

#include "core/spread.h"
#include "io/parallel.h"

#include <stdlib.h>
#include <string.h>

typedef struct Work {
    const CliFitAsk *ask;
    const PbFit *fit;
    PbFitAnswer point[PB_FIT_BOXES][PB_FIT_POINTS];
    double next[CLI_FIT_NEXT][PB_PRODUCT_DRAWS];
    PbError err; /* of any run that failed */
    PbStatus status;
} Work;

static void pack(Work *w, const PbFitBox *box, const PbFitPoint *point, PbFitAnswer *answer)
{
    PbConstants c = pb_fit_constants(point);
    PbError err = {0};
    PbStatus status = pb_fit_run_box(box, &w->ask->rig->machine, &c, answer, &err);
    if (status != PB_OK) {
        w->status = status;
        w->err = err;
    }
}

static void pack_point(void *context, int index)
{
    Work *w = context;
    int b = index / PB_FIT_POINTS, p = index % PB_FIT_POINTS;
    PbFitPoint point = pb_fit_point(p);
    pack(w, &w->ask->boxes->box[b], &point, &w->point[b][p]);
}

static void pack_next(void *context, int index)
{
    Work *w = context;
    int b = index / PB_PRODUCT_DRAWS, d = index % PB_PRODUCT_DRAWS, count;
    PbFitAnswer answer = {0};
    pack(w, &pb_fit_next(&count)[b].box, &w->fit->draw[d], &answer);
    w->next[b][d] = answer.kg_m3;
}

/* A machine that does not go into a box is found before 96 runs of each. */
static PbStatus judge_boxes(const CliFitAsk *ask, PbError *err)
{
    for (int i = 0; i < ask->boxes->count; i++) {
        PbExercise e;
        PbHands hands;
        PbError why = {0};
        char field[96];
        pb_fit_box_job(&ask->boxes->box[i], &ask->rig->machine, &e, &hands);
        if (pb_exercise_check(&e, field, sizeof field, &why) != PB_OK) {
            return io_boxes_complain(ask->boxes, i, err, "this box cannot be packed: %.300s",
                                     why.message);
        }
    }
    return PB_OK;
}

static PbStatus make_quadratics(const Work *w, CliFitDone *done, PbError *err)
{
    const IoBoxes *b = w->ask->boxes;
    for (int i = 0; i < b->count; i++) {
        double density[PB_FIT_POINTS], gauge[PB_FIT_POINTS];
        for (int p = 0; p < PB_FIT_POINTS; p++) {
            density[p] = w->point[i][p].kg_m3;
            gauge[p] = w->point[i][p].gauge_pa;
        }
        if (pb_fit_quadratic(density, &done->density[i]) != PB_OK) {
            return io_boxes_complain(b, i, err,
                                     "nothing gets into this box: its machine carries "
                                     "no fill at some of the ranges");
        }
        done->used[i] = b->box[i];
        if (b->box[i].gauge_pa > 0.0 && pb_fit_quadratic(gauge, &done->gauge[i]) != PB_OK) {
            done->used[i].gauge_pa = 0.0; /* a stall that does not always come says nothing */
            done->gauge_unused[i] = 1;
        }
    }
    return PB_OK;
}

static PbStatus sample(const CliFitAsk *ask, CliFitDone *done, PbError *err)
{
    const IoBoxes *b = ask->boxes;
    PbFitSetup setup = {done->used, done->density, done->gauge, b->count, ask->scatter, ask->seed};
    int first, second, worst;
    if (pb_fit_contradicts(&setup, &first, &second)) {
        return io_boxes_complain(b, second, err,
                                 "the same box was weighed at %.1f kg/m3 in line %d and %.1f here: "
                                 "they contradict each other",
                                 pb_fit_weighed(&b->box[first]), b->line[first],
                                 pb_fit_weighed(&b->box[second]));
    }
    PbStatus status = pb_fit_sample(&setup, &done->fit, &worst);
    if (status == PB_ERR_NO_RESULT) {
        return io_boxes_complain(b, worst, err,
                                 "the boxes contradict each other: this one was weighed at %.1f "
                                 "kg/m3, and what fits the others gives %.1f",
                                 pb_fit_weighed(&b->box[worst]), done->fit.box[worst].mid);
    }
    return status == PB_OK ? PB_OK : pb_fail(err, status, "out of memory");
}

static PbStatus teach(Work *w, CliFitDone *done, PbError *err)
{
    IoParallel crew = io_parallel_default();
    int count;
    (void)pb_fit_next(&count);
    io_parallel_for(&crew, count * PB_PRODUCT_DRAWS, pack_next, w);
    if (w->status != PB_OK) {
        *err = w->err;
        return w->status;
    }
    for (int i = 0; i < count; i++) {
        done->stays[i] = pb_fit_teaches(w->next[0], w->next[i], PB_PRODUCT_DRAWS, w->ask->scatter);
    }
    PbBand band = pb_spread_band(w->next[0], PB_PRODUCT_DRAWS);
    done->plain = (PbFitBand){band.p10, band.median, band.p90};
    return PB_OK;
}

PbStatus cli_fit(const CliFitAsk *ask, CliFitDone *done, PbError *err)
{
    IoParallel crew = io_parallel_default();
    PB_TRY(judge_boxes(ask, err));
    Work *w = calloc(1, sizeof *w);
    if (w == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    w->ask = ask;
    w->fit = &done->fit;
    io_parallel_for(&crew, ask->boxes->count * PB_FIT_POINTS, pack_point, w);
    PbStatus status = w->status;
    if (status != PB_OK) {
        *err = w->err;
    }
    status = status == PB_OK ? make_quadratics(w, done, err) : status;
    status = status == PB_OK ? sample(ask, done, err) : status;
    if (status == PB_OK && ask->asks_next) {
        status = teach(w, done, err);
    }
    free(w);
    return status;
}
