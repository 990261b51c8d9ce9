/* The loops of settle_kernels.inc, built with AVX2 where the processor has it. */
#if defined(__AVX2__)
#define SETTLE_KERNELS settle_kernels_avx2
#include "years/settle_kernels.inc"
#else
typedef int settle_avx2_not_built; /* a file may not be empty */
#endif
