/* malloc and its kin, counted and made to fail. The real ones are glibc's own names for them, or
 * those of the address sanitizer, so that this works under it too and leaks are still found. */
#include "fail_alloc.h"

#include <errno.h>
#include <link.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#ifdef FAULTS_ASAN
#define REAL(name) __interceptor_##name
#else
#define REAL(name) __libc_##name
#endif
void *REAL(malloc)(size_t bytes);
void *REAL(calloc)(size_t count, size_t bytes);
void *REAL(realloc)(void *block, size_t bytes);
void *REAL(memalign)(size_t align, size_t bytes);
void REAL(free)(void *block);

/* These stand in for the C library's, whose headers declare them. */
void *malloc(size_t bytes);
void *calloc(size_t count, size_t bytes);
void *realloc(void *block, size_t bytes);
void *memalign(size_t align, size_t bytes);
void *aligned_alloc(size_t align, size_t bytes);
int posix_memalign(void **block, size_t align, size_t bytes);
void free(void *block);

static atomic_long calls, failed, live, fail_at;
static atomic_int is_lasting;

void fail_alloc_start(long n, int lasts)
{
    calls = failed = 0;
    is_lasting = lasts;
    fail_at = n;
}

long fail_alloc_stop(void)
{
    fail_at = 0;
    return failed;
}

long fail_alloc_live(void)
{
    return live;
}

/* Where the code of spared libraries lies. */
enum { MAX_SPARED = 16 };
static struct {
    uintptr_t from, to;
} spared[MAX_SPARED];
static int spared_count;

static int note(struct dl_phdr_info *info, size_t size, void *name)
{
    (void)size;
    for (int i = 0; i < info->dlpi_phnum && strstr(info->dlpi_name, name) != NULL; i++) {
        const ElfW(Phdr) *p = &info->dlpi_phdr[i];
        if (p->p_type == PT_LOAD && (p->p_flags & PF_X) && spared_count < MAX_SPARED) {
            uintptr_t from = info->dlpi_addr + p->p_vaddr;
            spared[spared_count].from = from;
            spared[spared_count++].to = from + p->p_memsz;
        }
    }
    return 0;
}

void fail_alloc_spare(const char *library)
{
    dl_iterate_phdr(note, (void *)(uintptr_t)library);
}

static int is_refused(const void *caller)
{
    long at = fail_at;
    if (at == 0) {
        return 0;
    }
    for (int i = 0; i < spared_count; i++) {
        if ((uintptr_t)caller >= spared[i].from && (uintptr_t)caller < spared[i].to) {
            return 0;
        }
    }
    long n = atomic_fetch_add(&calls, 1) + 1;
    if (is_lasting ? n < at : n != at) {
        return 0;
    }
    atomic_fetch_add(&failed, 1);
    errno = ENOMEM;
    return 1;
}

static void *counted(void *block)
{
    if (block != NULL) {
        atomic_fetch_add(&live, 1);
    }
    return block;
}

#define CALLER __builtin_return_address(0)

void *malloc(size_t bytes)
{
    return is_refused(CALLER) ? NULL : counted(REAL(malloc)(bytes));
}

void *calloc(size_t count, size_t bytes)
{
    return is_refused(CALLER) ? NULL : counted(REAL(calloc)(count, bytes));
}

void *realloc(void *block, size_t bytes)
{
    if (block != NULL && bytes == 0) {
        free(block);
        return NULL;
    }
    if (is_refused(CALLER)) {
        return NULL;
    }
    void *moved = REAL(realloc)(block, bytes);
    return block == NULL ? counted(moved) : moved;
}

static void *aligned(const void *caller, size_t align, size_t bytes)
{
    return is_refused(caller) ? NULL : counted(REAL(memalign)(align, bytes));
}

void *memalign(size_t align, size_t bytes)
{
    return aligned(CALLER, align, bytes);
}

void *aligned_alloc(size_t align, size_t bytes)
{
    return aligned(CALLER, align, bytes);
}

int posix_memalign(void **block, size_t align, size_t bytes)
{
    void *got = aligned(CALLER, align, bytes);
    if (got == NULL) {
        return ENOMEM;
    }
    *block = got;
    return 0;
}

void free(void *block)
{
    if (block != NULL) {
        atomic_fetch_sub(&live, 1);
    }
    REAL(free)(block);
}
