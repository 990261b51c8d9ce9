/* Runs a command as a container without privileges does: no mounts, no name spaces of its own, no
 * tracing of other programs, whoever it runs as.
 *   no_privileges COMMAND [ARGUMENT...]
 * A system-call filter refuses with EPERM what makes or joins name spaces, mounts, or traces.
 * clone3 has its flags in memory that a filter cannot read, so it is said not to exist, and the C
 * library takes clone. x86-64 and AArch64, as the kernel's audit numbers go; elsewhere it refuses
 * to start. */
#include <errno.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/sched.h>
#include <linux/seccomp.h>
#include <stddef.h>
#include <stdio.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#if defined(__x86_64__)
#define MACHINE AUDIT_ARCH_X86_64
#elif defined(__aarch64__)
#define MACHINE AUDIT_ARCH_AARCH64
#else
#error "no audit number for this machine"
#endif

#define NAME_SPACES                                                                                \
    (CLONE_NEWNS | CLONE_NEWUSER | CLONE_NEWPID | CLONE_NEWNET | CLONE_NEWIPC | CLONE_NEWUTS |     \
     CLONE_NEWCGROUP)
#define LOAD(field)  BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, field))
#define ANSWER(with) BPF_STMT(BPF_RET | BPF_K, (with))
#define REFUSED(call, code)                                                                        \
    BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (call), 0, 1), ANSWER(SECCOMP_RET_ERRNO | (code))

static struct sock_filter filter[] = {
    LOAD(arch),
    BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, MACHINE, 1, 0),
    ANSWER(SECCOMP_RET_KILL_PROCESS),
    LOAD(nr),
    REFUSED(SYS_mount, EPERM),
    REFUSED(SYS_umount2, EPERM),
    REFUSED(SYS_pivot_root, EPERM),
    REFUSED(SYS_unshare, EPERM),
    REFUSED(SYS_setns, EPERM),
    REFUSED(SYS_ptrace, EPERM),
    REFUSED(SYS_process_vm_readv, EPERM),
    REFUSED(SYS_clone3, ENOSYS),
    BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_clone, 0, 3),
    LOAD(args[0]), /* the flags: low half of the first argument */
    BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, NAME_SPACES, 0, 1),
    ANSWER(SECCOMP_RET_ERRNO | EPERM),
    ANSWER(SECCOMP_RET_ALLOW),
};

int main(int argc, char **argv)
{
    struct sock_fprog program = {sizeof filter / sizeof filter[0], filter};
    if (argc < 2) {
        fprintf(stderr, "usage: no_privileges COMMAND [ARGUMENT...]\n");
        return 2;
    }
    if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0 ||
        prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) != 0) {
        perror("no_privileges");
        return 126;
    }
    execvp(argv[1], argv + 1);
    perror(argv[1]);
    return 127;
}
