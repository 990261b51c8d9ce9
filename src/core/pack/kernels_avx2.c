/* The inner loops built for: avx2. See kernels.inc. */
#if defined(__x86_64__)
#define KERNELS_SYMBOL pb_kernels_avx2
#define KERNELS_NAME   "avx2"
#define KERNELS_VL     4
#include "kernels.inc"
#endif
