/* A loop over independent jobs on a few threads. Jobs are handed out one by one, longest first is
 * not known, so whoever is free takes the next; the core combines results in index order. */
#include "io/parallel.h"

#include "os/process.h"

#include <pthread.h>
#include <stdatomic.h>

enum { MAX_THREADS = 16 };

typedef struct Work {
    atomic_int next;
    int count;
    void (*body)(void *context, int index);
    void *context;
} Work;

IoParallel io_parallel_default(void)
{
    int cores = os_cores();
    IoParallel p = {cores > MAX_THREADS ? MAX_THREADS : cores};
    return p;
}

static void *run(void *argument)
{
    Work *w = argument;
    for (int i = atomic_fetch_add(&w->next, 1); i < w->count; i = atomic_fetch_add(&w->next, 1)) {
        w->body(w->context, i);
    }
    return NULL;
}

void io_parallel_for(void *user, int count, void (*body)(void *context, int index), void *context)
{
    const IoParallel *p = user;
    Work work = {.count = count, .body = body, .context = context};
    pthread_t thread[MAX_THREADS];
    int started = 0;
    atomic_init(&work.next, 0);
    for (int t = 1; t < p->threads && t < count && t < MAX_THREADS; t++) {
        if (pthread_create(&thread[started], NULL, run, &work) == 0) {
            started++;
        }
    }
    run(&work);
    for (int t = 0; t < started; t++) {
        pthread_join(thread[t], NULL);
    }
}
