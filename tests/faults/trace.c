#define _GNU_SOURCE
#include "trace.h"
#include "tree.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#if defined(__linux__) && (defined(__x86_64__) || defined(__aarch64__))
#include <elf.h>
#include <stddef.h>
#include <sys/ptrace.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <sys/user.h>
#define CAN_TRACE 1
#else
#define CAN_TRACE 0
#endif

/* A guard against a command that never ends, not a measure: a run takes a tenth of a second. */
enum { GUARD_SECONDS = 300 };

static volatile sig_atomic_t rang;

static void ring(int number)
{
    (void)number;
    rang = 1;
}

static void guard(unsigned seconds)
{
    struct sigaction action = {.sa_handler = ring}; /* without SA_RESTART: waiting ends */
    rang = 0;
    sigaction(SIGALRM, &action, NULL);
    alarm(seconds);
}

static void redirect(const char *path, int descriptor, int flags)
{
    int file = open(path, flags, 0600);
    if (file < 0 || dup2(file, descriptor) < 0)
        _exit(126);
    close(file);
}

static _Noreturn void become(char *const *words, const char *folder, const char *out,
                             const char *err, const char *preload, const char *counts)
{
    const char *typed = getenv("FAULTS_TYPED"); /* what a person types: read anew by each run */
    redirect(typed ? typed : "/dev/null", 0, O_RDONLY);
    redirect(out, 1, O_WRONLY | O_CREAT | O_TRUNC);
    redirect(err, 2, O_WRONLY | O_CREAT | O_TRUNC);
    if (chdir(folder) != 0)
        _exit(126);
    if (preload) {
        setenv("LML_FAULT_COUNTS", counts, 1);
        setenv("LD_PRELOAD", preload, 1);
    }
#if CAN_TRACE
    if (!trace_missing()) {
        ptrace(PTRACE_TRACEME, 0, 0, 0);
        raise(SIGSTOP);
    }
#endif
    execv(words[0], words);
    _exit(126);
}

static bool is_crash(int number)
{
    return number == SIGSEGV || number == SIGBUS || number == SIGABRT || number == SIGFPE ||
           number == SIGILL || number == SIGSYS || number == SIGTRAP;
}

static void note_end(ended *e, bool command, int state)
{
    if (WIFSIGNALED(state) && is_crash(WTERMSIG(state)))
        e->crashed = WTERMSIG(state);
    if (!command)
        return;
    e->status = WIFEXITED(state) ? WEXITSTATUS(state) : -1;
    e->signal = WIFSIGNALED(state) ? WTERMSIG(state) : 0;
}

#if CAN_TRACE

typedef struct tracee {
    pid_t pid;
    bool counting, failing, started;
    unsigned long
        address; /* what brk was asked for; the registers keep it, whatever comes of the call */
} tracee;

typedef struct run {
    tracee process[FAULT_PROCESSES];
    const fault *f;
    ended e;
} run;

static const char *try_to_trace(void)
{
    int state;
    pid_t child = fork();
    if (child == 0) {
        if (ptrace(PTRACE_TRACEME, 0, 0, 0) != 0)
            _exit(1);
        raise(SIGSTOP);
        _exit(0);
    }
    if (child < 0 || waitpid(child, &state, 0) != child)
        return "no process could be had to trace";
    struct __ptrace_syscall_info info;
    bool stopped = WIFSTOPPED(state), options = false, told = false;
    if (stopped) {
        options =
            ptrace(PTRACE_SETOPTIONS, child, 0, PTRACE_O_TRACESYSGOOD | PTRACE_O_EXITKILL) == 0;
        told = ptrace(PTRACE_GET_SYSCALL_INFO, child, sizeof info, &info) > 0;
        kill(child, SIGKILL);
        waitpid(child, &state, 0);
    }
    if (!stopped || !options)
        return "this system does not let one process trace another (ptrace)";
    return told ? NULL : "this kernel does not tell a tracer which system call was made";
}

const char *trace_missing(void)
{
    static const char *why;
    static bool tried;
    if (!tried)
        why = try_to_trace();
    tried = true;
    return why;
}

static void set_result(pid_t pid, long result)
{
#ifdef __x86_64__
    ptrace(PTRACE_POKEUSER, pid, offsetof(struct user_regs_struct, rax), result);
#else
    struct user_regs_struct regs;
    struct iovec io = {&regs, sizeof regs};
    ptrace(PTRACE_GETREGSET, pid, NT_PRSTATUS, &io);
    regs.regs[0] = (unsigned long long)result;
    ptrace(PTRACE_SETREGSET, pid, NT_PRSTATUS, &io);
#endif
}

/* Have the call under way be none at all. brk says no error: it returns what there is, as for the
 * address 0. */
static void leave_out(pid_t pid, unsigned long number)
{
#ifdef __x86_64__
    if (number == SYS_brk) {
        ptrace(PTRACE_POKEUSER, pid, offsetof(struct user_regs_struct, rdi), 0L);
        return;
    }
#else
    if (number == SYS_brk) {
        set_result(pid, 0); /* the first argument stands where the result will */
        return;
    }
#endif
#ifdef __x86_64__
    ptrace(PTRACE_POKEUSER, pid, offsetof(struct user_regs_struct, orig_rax), -1L);
#else
    int none = -1;
    struct iovec io = {&none, sizeof none};
    ptrace(PTRACE_SETREGSET, pid, NT_ARM_SYSTEM_CALL, &io);
#endif
}

/* On arm64 the result stands in the place of the argument. */
static void give_back(pid_t pid, unsigned long address)
{
#ifdef __x86_64__
    ptrace(PTRACE_POKEUSER, pid, offsetof(struct user_regs_struct, rdi), address);
#else
    (void)pid;
    (void)address;
#endif
}

/* These do not come back, so they cannot fail. */
static bool cannot_fail(unsigned long number)
{
    return number == SYS_exit_group || number == SYS_exit || number == SYS_rt_sigreturn ||
           number == SYS_execve;
}

static void enter_call(run *r, int p, const struct __ptrace_syscall_info *info)
{
    tracee *t = &r->process[p];
    unsigned long number = info->entry.nr;
    if (!t->counting && number == SYS_fcntl && info->entry.args[0] == 0 &&
        info->entry.args[1] == F_GETFD)
        t->counting = true;
    if (!t->counting || cannot_fail(number))
        return;
    long call = ++r->e.calls[p];
    if (p != r->f->process || call != r->f->call)
        return;
    r->e.reached = true;
    r->e.number = (long)number;
    r->e.descriptor = (long)info->entry.args[0];
    if (r->f->kind == FAULT_KILL)
        kill(t->pid, SIGKILL);
    if (r->f->kind != FAULT_FAIL)
        return;
    /* On Linux a close that says an error has closed all the same. */
    if (number != SYS_close)
        leave_out(t->pid, number);
    t->failing = true;
    t->address = number == SYS_brk ? info->entry.args[0] : 0;
}

static void see_call(run *r, int p)
{
    struct __ptrace_syscall_info info;
    tracee *t = &r->process[p];
    if (ptrace(PTRACE_GET_SYSCALL_INFO, t->pid, sizeof info, &info) <= 0)
        return;
    if (info.op == PTRACE_SYSCALL_INFO_ENTRY) {
        enter_call(r, p, &info);
    } else if (info.op == PTRACE_SYSCALL_INFO_EXIT && t->failing) {
        if (t->address)
            give_back(t->pid, t->address);
        else if (r->e.number != SYS_brk)
            set_result(t->pid, -(long)r->f->code);
        t->failing = false;
    }
}

/* The number of a process; one that is new gets the next. */
static int number_of(run *r, pid_t pid)
{
    for (int p = 0; p < r->e.processes; p++)
        if (r->process[p].pid == pid)
            return p;
    if (r->e.processes == FAULT_PROCESSES)
        give_up("too many processes of", "one command");
    r->process[r->e.processes] = (tracee){.pid = pid, .counting = true};
    return r->e.processes++;
}

/* The signal that it is to get when it goes on. */
static int see_stop(run *r, int p, int state)
{
    int number = WSTOPSIG(state);
    unsigned long child;
    tracee *t = &r->process[p];
    if (number == (SIGTRAP | 0x80)) {
        see_call(r, p);
        return 0;
    }
    if (state >> 16) { /* a fork, or the command's own beginning */
        if (state >> 16 != PTRACE_EVENT_EXEC && ptrace(PTRACE_GETEVENTMSG, t->pid, 0, &child) == 0)
            number_of(r, (pid_t)child);
        return 0;
    }
    if (number == SIGSTOP && !t->started) {
        t->started = true;
        return 0;
    }
    return number;
}

static void kill_all(const run *r)
{
    for (int p = 0; p < r->e.processes; p++)
        if (r->process[p].pid)
            kill(r->process[p].pid, SIGKILL);
}

static void follow(run *r)
{
    bool calls = r->f->kind != FAULT_ALLOC;
    for (;;) {
        int state;
        pid_t pid = waitpid(-1, &state, __WALL);
        if (pid < 0 && errno == EINTR && rang) {
            r->e.hung = true;
            kill_all(r);
            guard(GUARD_SECONDS);
            continue;
        }
        if (pid < 0)
            return;
        int p = number_of(r, pid);
        if (!WIFSTOPPED(state)) {
            note_end(&r->e, p == 0, state);
            r->process[p].pid = 0;
            continue;
        }
        int number = see_stop(r, p, state);
        ptrace(calls ? PTRACE_SYSCALL : PTRACE_CONT, pid, 0, (long)number);
    }
}

static ended follow_from_start(pid_t child, const fault *f)
{
    int state;
    run r = {.f = f, .process = {{.pid = child, .started = true}}, .e = {.processes = 1}};
    if (waitpid(child, &state, 0) != child || !WIFSTOPPED(state))
        give_up("cannot trace", "the command");
    ptrace(PTRACE_SETOPTIONS, child, 0,
           PTRACE_O_TRACESYSGOOD | PTRACE_O_TRACEFORK | PTRACE_O_TRACEVFORK | PTRACE_O_TRACECLONE |
               PTRACE_O_TRACEEXEC | PTRACE_O_EXITKILL);
    ptrace(f->kind == FAULT_ALLOC ? PTRACE_CONT : PTRACE_SYSCALL, child, 0, 0);
    follow(&r);
    return r.e;
}

#else

const char *trace_missing(void)
{
    return "system calls are traced on Linux only (x86-64, arm64)";
}

static ended follow_from_start(pid_t child, const fault *f)
{
    (void)child;
    (void)f;
    give_up("cannot trace", "here");
}

#endif

static ended wait_for(pid_t child)
{
    ended e = {.processes = 1};
    int state;
    while (waitpid(child, &state, 0) < 0)
        if (errno == EINTR && rang) {
            e.hung = true;
            kill(child, SIGKILL);
        }
    note_end(&e, true, state);
    return e;
}

ended trace_run(char *const *words, const char *folder, const char *out, const char *err,
                const fault *f, const char *preload, const char *counts)
{
    bool traced = !trace_missing();
    fflush(stdout);
    pid_t child = fork();
    if (child < 0)
        give_up("no process for", words[0]);
    if (child == 0)
        become(words, folder, out, err, preload, counts);
    guard(GUARD_SECONDS);
    ended e = traced ? follow_from_start(child, f) : wait_for(child);
    alarm(0);
    return e;
}
