#define _GNU_SOURCE
/* The command where the system lets it down: a listing of a folder that breaks off, and a limit of
 * memory from outside. Each runs as a process of its own, in a studio of its own. */
#include <criterion/criterion.h>

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#ifdef __linux__
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <stddef.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#endif

enum { SAID = 4000, NOT_ALLOWED = 99 };

static void put(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    cr_assert(file && fputs(text, file) >= 0 && fclose(file) == 0, "%s", path);
}

static const char *const RING =
    "return recipe { title = \"Ring\", version = \"1\", licence = \"CC0-1.0\", level = 1,\n"
    "  gives = { n = give.number \"N\" }, work = function () return { n = 1 } end }\n";
/* Wants about 200 MiB, table by table. */
static const char *const HUNGRY =
    "return recipe { title = \"Hungry\", version = \"1\", licence = \"CC0-1.0\", level = 1,\n"
    "  gives = { n = give.number \"N\" }, work = function ()\n"
    "    local all = {} for i = 1, 40 do local t = {} for j = 1, 50000 do t[j] = { j } end all[i] "
    "= t "
    "end\n"
    "    return { n = #all } end }\n";

static void open_studio(void)
{
    char folder[] = "/tmp/lemel-system-XXXXXX";
    cr_assert(mkdtemp(folder) && chdir(folder) == 0 && mkdir("recipes", 0700) == 0 &&
              mkdir("jobs", 0700) == 0);
    put("house.json", "{ \"name\": \"Studio\" }");
    put("recipes/ring.lua", RING);
    put("recipes/hungry.lua", HUNGRY);
    put("jobs/ring.json", "{ \"recipe\": \"ring\" }");
    put("jobs/hungry.json", "{ \"recipe\": \"hungry\" }");
}

static void close_studio(void)
{
    char folder[500], command[600];
    cr_assert(getcwd(folder, sizeof folder));
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    cr_assert_eq(system(command), 0);
}

TestSuite(system, .init = open_studio, .fini = close_studio);

/* Runs the command after `weaken`, which is false where it is not allowed; what it printed goes to
 * the files out and err. */
static int run(bool (*weaken)(void), char *const *words)
{
    int status;
    pid_t child = fork();
    if (child == 0) {
        int out = open("out", O_WRONLY | O_CREAT | O_TRUNC, 0600);
        int err = open("err", O_WRONLY | O_CREAT | O_TRUNC, 0600);
        if (dup2(out, 1) < 0 || dup2(err, 2) < 0 || (weaken && !weaken()))
            _exit(NOT_ALLOWED);
        execv(words[0], words);
        _exit(NOT_ALLOWED);
    }
    cr_assert_eq(waitpid(child, &status, 0), child);
    cr_assert(WIFEXITED(status), "ended by %x", (unsigned)status);
    return WEXITSTATUS(status);
}

static const char *said(const char *file, char text[SAID])
{
    FILE *in = fopen(file, "r");
    cr_assert(in);
    text[fread(text, 1, SAID - 1, in)] = '\0';
    fclose(in);
    return text;
}

#define LEMEL LML_BINARY_DIR "/lemel"
#define WORDS(...) ((char *const[]){(char[]){LEMEL}, __VA_ARGS__, NULL})

#if defined __linux__ && defined SYS_getdents64

/* From now on no folder can be listed: EIO, as of a share that is away or a disk that fails. */
static bool no_listing(void)
{
    struct sock_filter rules[] = {
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, nr)),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_getdents64, 0, 1),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | EIO),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
    };
    struct sock_fprog program = {.len = sizeof rules / sizeof rules[0], .filter = rules};
    return prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
           prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}

Test(system, a_listing_that_fails_is_no_empty_folder)
{
    char text[SAID];
    char *const *const commands[] = {
        WORDS("run", "jobs/ring.json"), WORDS("run", "ring"), WORDS("check", "jobs/ring.json"),
        WORDS("batch", "jobs"),         WORDS("recipes"),     WORDS("prove", "ring"),
    };
    cr_assert_eq(run(NULL, commands[0]), 0, "%s", said("err", text));
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        int status = run(no_listing, commands[i]);
        if (status == NOT_ALLOWED)
            cr_skip_test("filters of system calls are not allowed here");
        cr_expect_eq(status, 66, "%s: status %d", commands[i][1], status);
        cr_expect_str_eq(said("out", text), "", "%s printed something", commands[i][1]);
        cr_expect(strstr(said("err", text), "the disk reports an error"), "%s: %s", commands[i][1],
                  text);
    }
}

#endif

#ifndef LML_SANITIZED /* they keep terabytes of address space */

/* ulimit -v: more than the command and a small job want. */
static bool little_memory(void)
{
    const struct rlimit limit = {150u << 20, 150u << 20};
    return setrlimit(RLIMIT_AS, &limit) == 0;
}

Test(system, a_limit_of_memory_from_outside_is_told_as_one)
{
    char text[SAID];
    char *const *hungry = WORDS("run", "jobs/hungry.json", "--memory", "1 GiB");
    cr_expect_eq(run(little_memory, WORDS("run", "jobs/ring.json")), 0, "%s", said("err", text));
    cr_expect_eq(run(little_memory, hungry), 79);
    cr_expect_str_eq(said("out", text), "");
    cr_expect(strstr(said("err", text), "the system refuses the worker more memory"), "%s", text);
    cr_expect(strstr(text, "ulimit -v"), "%s", text);
    cr_expect_eq(run(NULL, hungry), 0, "%s", said("err", text));
}

#endif
