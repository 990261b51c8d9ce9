/* Band kernels built for AVX2: four doubles a vector. Chosen at run time. */
#if defined(__AVX2__)
#define PB_VL      4
#define PB_KERNELS pb_band_kernels_avx2
#define PB_NAME    "avx2"
#include "heat/band_kernels.inc"
#else
#include "heat/band.h"
#endif
