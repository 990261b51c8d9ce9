/* Which build of the loops this machine can run. All give the same bits. */
#include "years/settle_private.h"

const SettleKernels *settle_kernels(int vector_path)
{
#if defined(__x86_64__)
    int avx512 = __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                 __builtin_cpu_supports("avx512vl");
    int avx2 = __builtin_cpu_supports("avx2");
    if ((vector_path == 0 || vector_path == 3) && avx512) {
        return &settle_kernels_avx512;
    }
    if ((vector_path == 0 || vector_path == 2) && avx2) {
        return &settle_kernels_avx2;
    }
#endif
    return vector_path == 0 || vector_path == 1 ? &settle_kernels_base : NULL;
}
