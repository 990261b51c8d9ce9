/* What os/signal.h promises, by the events of a console. Windows calls a handler in a thread of its
 * own, and ends the program when it comes back from a closing. */
#include "os/signal.h"

#include "wide.h"

#include <stdatomic.h>

/* What ends with Ctrl-C, closing or logging off; STATUS_CONTROL_C_EXIT. */
enum { GRACE_MS = 4000 }; /* Windows itself waits five seconds */
static const UINT ended_by_person = 0xC000013Au;

static OsHandler *_Atomic on_ending, *_Atomic on_hangup, *_Atomic on_interrupt;
static atomic_int is_ignored;

static BOOL WINAPI hear(DWORD event)
{
    int is_break = event == CTRL_C_EVENT || event == CTRL_BREAK_EVENT;
    OsHandler *handler = atomic_load(&on_interrupt);
    if (is_break && atomic_load(&is_ignored)) {
        return TRUE;
    }
    if (is_break && handler != NULL) {
        handler(SIGINT);
        return TRUE;
    }
    handler = is_break ? NULL : atomic_load(&on_hangup);
    if (handler != NULL) {
        handler(SIGTERM);
        Sleep(GRACE_MS); /* the program ends by itself meanwhile */
        return TRUE;
    }
    handler = atomic_exchange(&on_ending, NULL);
    if (handler != NULL) {
        handler(is_break ? SIGINT : SIGTERM);
    }
    return FALSE;
}

static void begin(OsHandler *_Atomic *place, OsHandler *handler)
{
    static atomic_flag is_heard = ATOMIC_FLAG_INIT;
    atomic_store(place, handler);
    if (!atomic_flag_test_and_set(&is_heard)) {
        (void)SetConsoleCtrlHandler(hear, TRUE);
    }
}

void os_on_ending(OsHandler *handler)
{
    begin(&on_ending, handler);
}

void os_end_as(int number)
{
    (void)number;
    ExitProcess(ended_by_person);
}

void os_on_hangup(OsHandler *handler)
{
    begin(&on_hangup, handler);
}

/* Nobody asks so on Windows. */
void os_on_question(OsHandler *handler)
{
    (void)handler;
}

void os_interrupt_begin(OsHandler *handler)
{
    begin(&on_interrupt, handler);
}

void os_interrupt_end(int was_asked)
{
    atomic_store(&is_ignored, was_asked);
    atomic_store(&on_interrupt, NULL);
}
