/* Band kernels built for AVX-512: eight doubles a vector. Chosen at run time. */
#if defined(__AVX512F__)
#define PB_VL      8
#define PB_KERNELS pb_band_kernels_avx512
#define PB_NAME    "avx512"
#include "heat/band_kernels.inc"
#else
#include "heat/band.h"
#endif
