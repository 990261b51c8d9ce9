/* The inner loops built for: base. See kernels.inc. */
#define KERNELS_SYMBOL pb_kernels_base
#define KERNELS_NAME   "base"
#define KERNELS_VL     2
#include "kernels.inc"
