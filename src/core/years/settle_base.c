/* The loops of settle_kernels.inc, built for any machine. */
#define SETTLE_KERNELS settle_kernels_base
#include "years/settle_kernels.inc"
