/* What the numbers of marks mean; core/marks.h. */
#include "core/marks.h"

int pb_mark_checks_skipped(double mark)
{
    int open = PB_CHECK_POINTS;
    double bits = mark - PB_MARK_CHECKLIST;
    if (!(bits >= 0.0 && bits < (double)(1 << PB_CHECK_POINTS))) {
        return 0;
    }
    for (unsigned left = (unsigned)bits; left != 0; left &= left - 1) {
        open--;
    }
    return open;
}

int pb_mark_is_power_on(double mark)
{
    return mark == PB_MARK_PLUG_POWER_ON;
}

int pb_mark_graded_sight(double mark)
{
    double sight = mark - PB_MARK_GRADED;
    return sight == 0.0 || sight == 1.0 || sight == 2.0 ? (int)sight : -1;
}

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
