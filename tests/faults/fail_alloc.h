/* Memory that runs out on purpose. Linked into a test, fail_alloc.c takes the place of the C
 * library's malloc for the whole process, libraries included; as a shared object it does so for a
 * program that is started with it (see fault_shim.c). */
#ifndef FAULTS_FAIL_ALLOC_H
#define FAULTS_FAIL_ALLOC_H

/* From now on count calls; the n-th fails, and all after it too when `lasts`. */
void fail_alloc_start(long n, int lasts);
/* Calls out of the code of this library neither count nor fail. */
void fail_alloc_spare(const char *library);
/* Count no more. Returns how many calls failed. */
long fail_alloc_stop(void);
/* Blocks taken and not given back since the program began. */
long fail_alloc_live(void);

#endif
