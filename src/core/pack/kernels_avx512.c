/* The inner loops built for: avx512. See kernels.inc. */
#if defined(__x86_64__)
#define KERNELS_SYMBOL pb_kernels_avx512
#define KERNELS_NAME   "avx512"
#define KERNELS_VL     8
#include "kernels.inc"
#endif
