/* What the marks in a record say of the run; core/run_record.h. */
#include "core/run_record.h"

#include "core/marks.h"

int pb_run_graded_sight(const PbRunFile *run)
{
    for (int i = 0; i < run->command_count; i++) {
        const PbCommand *c = &run->commands[i].command;
        int sight = c->kind == PB_COMMAND_MARK ? pb_mark_graded_sight(c->value) : -1;
        if (sight >= 0) {
            return sight;
        }
    }
    return -1;
}

static int count_marks(const PbRunFile *run, double mark)
{
    int n = 0;
    for (int i = 0; i < run->command_count; i++) {
        const PbCommand *c = &run->commands[i].command;
        n += c->kind == PB_COMMAND_MARK && c->value == mark;
    }
    return n;
}

int pb_run_is_scripted(const PbRunFile *run)
{
    return count_marks(run, PB_MARK_SCRIPTED) > 0;
}

int pb_run_breaks(const PbRunFile *run)
{
    return count_marks(run, PB_MARK_GONE_ON);
}

int pb_run_is_worked(const PbRunFile *run)
{
    for (int i = 0; i < run->command_count; i++) {
        if (run->commands[i].command.kind != PB_COMMAND_MARK) {
            return 1;
        }
    }
    return 0;
}
