#define _DEFAULT_SOURCE /* syscall numbers, MAP_ANONYMOUS */
#include "worker/filter.h"

#if defined(LML_SECCOMP) && defined(__linux__) && !defined(LML_SANITIZED) &&                       \
    (defined(__x86_64__) || defined(__aarch64__))

#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <stddef.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/syscall.h>

#if defined(__x86_64__)
#define MACHINE AUDIT_ARCH_X86_64
#else
#define MACHINE AUDIT_ARCH_AARCH64
#endif

/* The low half of an argument: both machines are little-endian, and the flags that matter are low.
 */
#define ARGUMENT(n) (offsetof(struct seccomp_data, args) + (n) * sizeof(__u64))

#define LOAD(offset) BPF_STMT(BPF_LD | BPF_W | BPF_ABS, (offset))
#define ANSWER(what) BPF_STMT(BPF_RET | BPF_K, (what))
#define REFUSE ANSWER(SECCOMP_RET_ERRNO | (EPERM_NUMBER & SECCOMP_RET_DATA))
/* If the call is `number`, allow it. */
#define ALLOW(number) BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (number), 0, 1), ANSWER(SECCOMP_RET_ALLOW)
/* Skip the next `steps` unless the call is `number`. */
#define UNLESS(number, steps) BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (number), 0, (steps))
/* Refuse when the loaded word has any of `bits`, or none of them. */
#define REFUSE_ANY(bits) BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, (bits), 0, 1), REFUSE
#define REFUSE_NONE(bits) BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, (bits), 1, 0), REFUSE

enum { EPERM_NUMBER = 1 };

bool lml_filter_there(void)
{
    return prctl(PR_GET_SECCOMP, 0, 0, 0, 0) >= 0;
}

bool lml_filter_set(void)
{
    static const struct sock_filter rules[] = {
        LOAD(offsetof(struct seccomp_data, arch)),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, MACHINE, 1, 0),
        ANSWER(SECCOMP_RET_KILL_PROCESS),
        LOAD(offsetof(struct seccomp_data, nr)),
        /* The pipe: the one descriptor that is left. */
        ALLOW(__NR_read),
        ALLOW(__NR_write),
        ALLOW(__NR_close),
        /* Leaving, and coming back from a signal. */
        ALLOW(__NR_exit_group),
        ALLOW(__NR_exit),
        ALLOW(__NR_rt_sigreturn),
        ALLOW(__NR_restart_syscall),
        /* Memory, as the C library asks for it. */
        ALLOW(__NR_brk),
        ALLOW(__NR_munmap),
        ALLOW(__NR_mremap),
        ALLOW(__NR_madvise),
        ALLOW(__NR_futex),
        ALLOW(__NR_getrandom),
        /* The clock, where it is no plain memory. */
        ALLOW(__NR_clock_gettime),
        /* Memory that can be executed, or that is a file, is refused. */
        UNLESS(__NR_mmap, 7),
        LOAD(ARGUMENT(2)),
        REFUSE_ANY(PROT_EXEC),
        LOAD(ARGUMENT(3)),
        REFUSE_NONE(MAP_ANONYMOUS),
        ANSWER(SECCOMP_RET_ALLOW),
        UNLESS(__NR_mprotect, 4),
        LOAD(ARGUMENT(2)),
        REFUSE_ANY(PROT_EXEC),
        ANSWER(SECCOMP_RET_ALLOW),
        REFUSE,
    };
    if (!lml_filter_there())
        return true;
    struct sock_fprog program = {.len = sizeof rules / sizeof rules[0],
                                 .filter = (struct sock_filter *)rules};
    return prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program, 0, 0) == 0;
}

#else

bool lml_filter_there(void)
{
    return false;
}

bool lml_filter_set(void)
{
    return true;
}

#endif
