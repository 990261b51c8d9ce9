/**
 * @file report.h
 * @brief The printed report of one run: PDF, Letter or A4, English or Spanish, SI or US units.
 *
 * First page: who, when, exercise, points by part (computed and the trainer's), the density map
 * with hatch under target beside the time line on the same height scale, the three dearest moments.
 * After it: the trainer's words, what the numbers assume, cautions. The same data give the same
 * bytes: the file carries no date but the one passed in.
 */
#ifndef REPORT_REPORT_H
#define REPORT_REPORT_H

#include "core/watched.h"
#include "io/debrief_words.h"
#include "io/score_words.h"

#define REPORT_MOMENTS 3
#define REPORT_CAUTION 400 /**< bytes; app.words holds the translations to it */
#define REPORT_EVENTS  PB_SCORE_MAX_EVENTS

/** Letter for readers of US units and A4 for all others, unless somebody asks for one. */
typedef enum ReportPaper { REPORT_PAPER_OF_READER, REPORT_A4, REPORT_LETTER } ReportPaper;

typedef struct ReportPart {
    char name[64];
    double points, max;
    double trainer;     /**< negative = none */
    double trainer_max; /**< that those points are out of; 0 = as max */
    char reason[2001];  /**< the trainer's, may be "" */
} ReportPart;

typedef struct ReportEvent {
    double time_s, y_m;
    int is_stall;  /**< drawn as a dot on the mouth's way, without a word */
    char word[48]; /**< of the others */
} ReportEvent;

/** A loss worth showing: numbered on map, time line and list. */
typedef struct ReportMoment {
    double points; /**< whole, as they are shown */
    double time_s, y_m;
    char sentence[320];
} ReportMoment;

/** All that is printed. Plain values; the arrays belong to the maker, report_free gives them back.
 */
typedef struct ReportRun {
    IoReaderTaste taste;
    char learner[96], trainer[96];
    char exercise_id[48], exercise_title[96];
    char when[24]; /**< end of the run, UTC, "2026-03-04T09:30:00Z"; "" = not known */
    char climate[32];
    char rubric[64];
    uint64_t seed;
    int physics_version, cells_across;
    int is_ended;       /**< 0: the recording stops before the run's end */
    int is_graded;      /**< it was begun as a run that counts: no hints, sight fixed */
    int is_resimulated; /**< recorded by another physics version or with other constants */
    double parted_s;    /**< the replay is not the recorded run from here on; 0 = it followed */
    int is_blown_out;
    double duration_s, usual_s; /**< usual: of a crew on this bay, core/score.h */

    ReportPart parts[PB_SCORE_PARTS];
    int part_count;
    double total, pass_score;
    int is_pass;
    PbVerdict verdict;
    char sum[48];         /**< what the parts add up to, where that is not the mark; "" else */
    double trainer_total; /**< negative = none */
    char comment[2001];   /**< the trainer's on the whole run */

    double width_m, height_m, hole_x_m, hole_y_m;
    double target_kg_m3, mean_kg_m3, p5_kg_m3, min_kg_m3, share_at_target;
    double mass_kg, bags, panel_over_strength;
    double years; /**< horizon of the years part; 0 = not predicted */
    double top_gap_m, void_m2;

    int nx, ny;
    double *density_kg_m3; /**< [ny][nx] */
    double *free_frac;     /**< [ny][nx] */
    double *batt_frac;     /**< [ny][nx] share of the depth that an old batt takes */
    PbPatch *patches;
    int patch_count;
    PbSample *samples;
    int sample_count;
    PbLift *lifts;
    int lift_count;
    PbRubric marked_by; /**< says which of them are stops */
    ReportEvent events[REPORT_EVENTS];
    int event_count;
    ReportMoment moments[REPORT_MOMENTS];
    int moment_count;
    /** best thing, worst thing, next thing to try */
    char in_short[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    char last_time[IO_DEBRIEF_BYTES]; /**< told before the next thing; "" = no earlier run */
    char cautions[PB_MAX_CAUTIONS][REPORT_CAUTION]; /**< of the exercise */
    int caution_count;
} ReportRun;

/**
 * @brief Gather what the report shows. The trainer's marks, names and last_time are left for the
 * caller to fill in.
 * @param[in]  watched its replay, marked and standing at its end; nothing is played again
 * @param[in]  taste   language and units of sentences and words
 * @param[out] report  caller gives it back with report_free; untouched unless PB_OK
 * @return PB_OK; PB_ERR_STATE for a replay elsewhere; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus report_gather(const PbRunFile *run, const PbWatched *watched,
                                    IoReaderTaste taste, ReportRun **report, PbError *err);
/** @brief Give a gathered report back. NULL allowed. */
void report_free(ReportRun *report);

/**
 * @brief Write the PDF: whole at its place, or not at all.
 * @param[in] fonts   folder with B612-Regular.otf and B612-Bold.otf
 * @param[in] created date of the file, "2026-03-04T09:30:00Z"
 * @return PB_OK; PB_ERR_IO (font missing, cannot write); PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus report_run_pdf(const ReportRun *report, const char *path, ReportPaper paper,
                                     const char *fonts, const char *created, PbError *err);

#endif
