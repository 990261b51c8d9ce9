/* Jobs in the verbs job, replay, grade and check. */
#ifndef CLI_JOB_RUN_H
#define CLI_JOB_RUN_H

#include "cli/front.h"
#include "io/job_file.h"
#include "io/taste.h"

/* Print a job that was done. CLI_DONE, or the exit code of what went wrong. */
int cli_job_print(const IoJob *in, const PbJob *job, const PbJobMarks *marks, IoReaderTaste taste,
                  int is_json);
/* Do the job of a file again and compare fill by fill. CLI_NO when they part. */
int cli_job_replay(const char *path);
/* Do it again and mark it. CLI_NO when it does not pass. */
int cli_job_grade(const char *path, IoReaderTaste taste, int is_json);
/* Say what is in a job file, or what is wrong with it. */
int cli_job_check(const char *path);
/* The same of a file of acts. */
int cli_acts_check(const char *path);

#endif
