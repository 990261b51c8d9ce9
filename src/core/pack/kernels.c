/* Which build of the inner loops to run. */
#include "kernels.h"

const PbKernels *pb_kernels_pick(int path)
{
#if defined(__x86_64__)
    int has2 = __builtin_cpu_supports("avx2") != 0;
    int has512 = __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                 __builtin_cpu_supports("avx512vl");
    switch (path) {
    case 0:
        return has512 ? &pb_kernels_avx512 : (has2 ? &pb_kernels_avx2 : &pb_kernels_base);
    case 1:
        return &pb_kernels_base;
    case 2:
        return has2 ? &pb_kernels_avx2 : (const PbKernels *)0;
    case 3:
        return has512 ? &pb_kernels_avx512 : (const PbKernels *)0;
    default:
        return (const PbKernels *)0;
    }
#else
    return path <= 1 ? &pb_kernels_base : (const PbKernels *)0;
#endif
}
