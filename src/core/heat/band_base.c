/* Band kernels for any machine: two doubles a vector. */
#define PB_VL      2
#define PB_KERNELS pb_band_kernels_base
#define PB_NAME    "base"
#include "heat/band_kernels.inc"
