/* The loops of settle_kernels.inc, built with AVX-512 where the processor has it. */
#if defined(__AVX512F__)
#define SETTLE_KERNELS settle_kernels_avx512
#include "years/settle_kernels.inc"
#else
typedef int settle_avx512_not_built; /* a file may not be empty */
#endif
