/* What os/signal.h promises. */
#include "os/signal.h"

#include <signal.h>
#include <stddef.h>

static struct sigaction before_interrupt;

static void take(int number, OsHandler *handler, int flags, struct sigaction *was)
{
    struct sigaction act = {.sa_handler = handler, .sa_flags = flags};
    sigemptyset(&act.sa_mask);
    sigaction(number, &act, was);
}

static void take_free(int number, OsHandler *handler, int flags)
{
    struct sigaction now;
    if (sigaction(number, NULL, &now) == 0 && now.sa_handler == SIG_DFL) {
        take(number, handler, flags, NULL);
    }
}

void os_on_ending(OsHandler *handler)
{
    take_free(SIGHUP, handler, (int)SA_RESETHAND);
    take_free(SIGINT, handler, (int)SA_RESETHAND);
    take_free(SIGTERM, handler, (int)SA_RESETHAND);
}

void os_end_as(int number)
{
    raise(number); /* the handler is gone by now */
}

void os_on_hangup(OsHandler *handler)
{
    take_free(SIGHUP, handler, 0);
}

void os_on_question(OsHandler *handler)
{
    take(SIGUSR1, handler, 0, NULL);
}

void os_interrupt_begin(OsHandler *handler)
{
    take(SIGINT, handler, 0, &before_interrupt);
}

void os_interrupt_end(int was_asked)
{
    if (was_asked) {
        signal(SIGINT, SIG_IGN);
    } else {
        sigaction(SIGINT, &before_interrupt, NULL);
    }
}
