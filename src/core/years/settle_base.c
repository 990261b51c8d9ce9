/* The creep loop of settle_kernels.inc, built for any machine. */
#define SETTLE_KERNEL settle_creep_base
#include "years/settle_kernels.inc"
