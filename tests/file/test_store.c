/* Files are read whole and written whole or not at all, whatever fails: a full disk, a read-only
 * one, every system call of the writer in turn, a kill at any moment. */
#define _GNU_SOURCE
#include "file/digest.h"
#include "file/store.h"
#include <criterion/criterion.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <grp.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sched.h>
#include <signal.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

static char folder[] = "/tmp/lemel-store-XXXXXX";

/* Every test works in an empty folder of its own. */
static void enter(void)
{
    cr_assert(mkdtemp(folder) && chdir(folder) == 0);
}

static void leave(void)
{
    DIR *d = opendir(".");
    for (struct dirent *e; d && (e = readdir(d));)
        unlink(e->d_name);
    closedir(d);
    rmdir("sub");
    cr_expect(chdir("/") == 0 && rmdir(folder) == 0, "%s is left behind", folder);
}

TestSuite(store, .init = enter, .fini = leave);

static lml_status write_text(const char *path, const char *text, bool replace, lml_error *err)
{
    return lml_store_write(path, lml_span_of(text), replace, err);
}

static void digest_file(const char *path, char out[LML_DIGEST_TEXT])
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    lml_error err = {0};
    cr_assert_eq(lml_store_read(path, 64 << 20, &b, &err), LML_OK, "%s", err.message);
    lml_digest_of((lml_span){b.at, b.length}, out);
    lml_builder_free(&b);
}

static void expect_content(const char *path, const char *text)
{
    char wanted[LML_DIGEST_TEXT], found[LML_DIGEST_TEXT];
    lml_digest_of(lml_span_of(text), wanted);
    digest_file(path, found);
    cr_expect_str_eq(found, wanted, "%s holds something else", path);
}

/* The folder holds as many entries as that: nothing temporary is left. */
static void expect_entries(const char *path, int wanted)
{
    int count = 0;
    DIR *d = opendir(path);
    cr_assert(d);
    for (struct dirent *e; (e = readdir(d));)
        count += strcmp(e->d_name, ".") != 0 && strcmp(e->d_name, "..") != 0;
    closedir(d);
    cr_expect_eq(count, wanted, "%d entries in %s", count, path);
}

/* ---- reading ---- */

Test(store, reads_a_whole_file)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    char *text = malloc(100001);
    memset(text, 'x', 100000);
    text[100000] = 0;
    cr_assert_eq(write_text("a", text, false, NULL), LML_OK);
    cr_expect_eq(lml_store_read("a", 100000, &b, NULL), LML_OK);
    cr_expect_eq(b.length, 100000u);
    cr_expect_str_eq(b.at, text);
    lml_builder_free(&b);
    b = lml_builder_on(&heap, 0);
    lml_error err;
    cr_expect_eq(lml_store_read("a", 99999, &b, &err), LML_LIMIT);
    cr_expect_str_eq(err.message, "a is longer than 99999 bytes");
    lml_builder_free(&b);
    b = lml_builder_on(&heap, 10);
    cr_expect_eq(lml_store_read("a", LML_STORE_SIZE, &b, NULL), LML_LIMIT,
                 "the builder's own bound");
    lml_builder_free(&b);
    free(text);
}

Test(store, reading_says_why_not)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    lml_error err;
    cr_expect_eq(lml_store_read("none.json", 10, &b, &err), LML_NO_FILE);
    cr_expect_str_eq(err.message, "cannot read none.json: no such file or folder");
    cr_expect_eq(lml_store_read(".", 10, &b, &err), LML_NO_FILE);
    cr_expect_str_eq(err.message, "cannot read .: it is a folder");
    cr_assert_eq(write_text("a", "x", false, NULL), LML_OK);
    cr_expect_eq(lml_store_read("a/b", 10, &b, &err), LML_NO_FILE);
    cr_expect_str_eq(err.message, "cannot read a/b: part of the path is not a folder");
    cr_assert_eq(symlink("loop", "loop"), 0);
    cr_expect_eq(lml_store_read("loop", 10, &b, &err), LML_NO_FILE);
    lml_builder_free(&b);
}

/* A pipe that nobody writes to is not opened: the test would not end. */
Test(store, what_is_no_plain_file_is_refused_unopened)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    lml_error err;
    cr_expect_eq(lml_store_read("/dev/zero", 10, &b, &err), LML_NO_FILE);
    cr_expect_str_eq(err.message, "cannot read /dev/zero: it is a device, not a plain file");
    cr_expect_eq(lml_store_read_named("/dev/zero", 10, &b, &err), LML_NO_FILE,
                 "nor when a person named it");
    cr_assert_eq(mkfifo("pipe", 0600), 0);
    cr_expect_eq(lml_store_read("pipe", 10, &b, &err), LML_NO_FILE);
    cr_expect_str_eq(err.message, "cannot read pipe: it is a pipe, not a plain file");
    cr_assert_eq(symlink("pipe", "link"), 0);
    cr_expect_eq(lml_store_read("link", 10, &b, &err), LML_NO_FILE);
    lml_builder_free(&b);
}

Test(store, a_pipe_that_a_person_named_is_read)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    int ends[2];
    char path[40];
    cr_assert_eq(pipe(ends), 0);
    cr_assert_eq(write(ends[1], "text", 4), 4);
    close(ends[1]);
    snprintf(path, sizeof path, "/dev/fd/%d", ends[0]);
    cr_expect_eq(lml_store_read_named(path, 10, &b, NULL), LML_OK);
    cr_expect_str_eq(b.at, "text");
    close(ends[0]);
    lml_builder_free(&b);
}

Test(store, every_failed_allocation_is_reported)
{
    cr_assert_eq(write_text("a", "some text", false, NULL), LML_OK);
    lml_meter meter = {.under = lml_alloc_heap(), .fail_at = 1};
    lml_alloc alloc = lml_alloc_metered(&meter);
    lml_builder b = lml_builder_on(&alloc, 0);
    cr_expect_eq(lml_store_read("a", 100, &b, NULL), LML_NO_MEMORY);
    lml_builder_free(&b);
    cr_expect_eq(meter.used, 0u);
}

/* ---- writing ---- */

Test(store, writes_a_new_file_and_no_other)
{
    umask(027);
    cr_expect_eq(write_text("a", "one", false, NULL), LML_OK);
    expect_content("a", "one");
    struct stat found;
    stat("a", &found);
    cr_expect_eq(found.st_mode & 0777, 0640u, "the umask rules");
    cr_expect_eq(write_text("empty", "", false, NULL), LML_OK);
    expect_content("empty", "");
    char path[100];
    snprintf(path, sizeof path, "%s/absolute", folder);
    cr_expect_eq(write_text(path, "two", true, NULL), LML_OK);
    expect_content("absolute", "two");
    expect_entries(".", 3);
}

Test(store, replaces_only_when_told)
{
    lml_error err;
    cr_assert_eq(write_text("a", "one", false, NULL), LML_OK);
    cr_expect_eq(write_text("a", "two", false, &err), LML_NO_WRITE);
    cr_expect_str_eq(err.message, "cannot write a: it already exists");
    cr_expect(strstr(err.hint, "--replace"));
    expect_content("a", "one");
    cr_assert_eq(chmod("a", 0604), 0);
    cr_expect_eq(write_text("a", "two", true, NULL), LML_OK);
    expect_content("a", "two");
    struct stat found;
    stat("a", &found);
    cr_expect_eq(found.st_mode & 0777, 0604u, "the mode stays");
    expect_entries(".", 1);
}

Test(store, refuses_what_is_no_plain_file)
{
    lml_error err;
    cr_assert_eq(mkdir("sub", 0755), 0);
    cr_expect_eq(write_text("sub", "x", true, &err), LML_NO_WRITE);
    cr_expect_str_eq(err.message, "cannot write sub: it is a folder");
    cr_expect_eq(write_text("sub/", "x", false, &err), LML_NO_WRITE);
    cr_expect_eq(write_text("new/", "x", false, &err), LML_NO_WRITE);
    cr_expect_eq(write_text("", "x", false, &err), LML_NO_WRITE);
    cr_expect_eq(write_text("none/a", "x", false, &err), LML_NO_WRITE);
    cr_expect_str_eq(err.message, "cannot write none/a: no such file or folder");
    cr_assert_eq(mkfifo("pipe", 0600), 0);
    cr_expect_eq(write_text("pipe", "x", true, &err), LML_NO_WRITE);
    cr_expect_str_eq(err.message, "cannot write pipe: it is not a plain file");
    char long_name[400];
    memset(long_name, 'n', sizeof long_name - 1);
    long_name[sizeof long_name - 1] = 0;
    cr_expect_eq(write_text(long_name, "x", false, &err), LML_NO_WRITE);
    expect_entries(".", 2);
}

Test(store, a_link_stays_and_its_file_is_replaced)
{
    cr_assert_eq(mkdir("sub", 0755), 0);
    cr_assert_eq(write_text("sub/real", "one", false, NULL), LML_OK);
    cr_assert_eq(symlink("sub/real", "link"), 0);
    cr_expect_eq(write_text("link", "two", false, NULL), LML_NO_WRITE);
    cr_expect_eq(write_text("link", "two", true, NULL), LML_OK);
    expect_content("sub/real", "two");
    struct stat found;
    lstat("link", &found);
    cr_expect(S_ISLNK(found.st_mode));
    cr_assert_eq(unlink("sub/real"), 0);
    cr_expect_eq(write_text("link", "x", true, NULL), LML_NO_WRITE, "it leads nowhere");
    cr_expect_eq(write_text("link", "x", false, NULL), LML_NO_WRITE);
    expect_entries("sub", 0);
}

Test(store, one_of_many_racing_writers_wins)
{
    enum { WRITERS = 16 };
    pid_t child[WRITERS];
    int winners = 0, winner = -1;
    for (int i = 0; i < WRITERS; i++) {
        child[i] = fork();
        if (child[i] == 0) {
            char text[16];
            snprintf(text, sizeof text, "%d", i);
            _exit(write_text("a", text, false, NULL) == LML_OK ? 0 : 1);
        }
    }
    for (int i = 0; i < WRITERS; i++) {
        int status;
        waitpid(child[i], &status, 0);
        if (WIFEXITED(status) && WEXITSTATUS(status) == 0)
            winners++, winner = i;
    }
    cr_expect_eq(winners, 1);
    char text[16];
    snprintf(text, sizeof text, "%d", winner);
    expect_content("a", text);
    expect_entries(".", 1);
}

/* ---- what goes wrong outside ---- */

static char *much(size_t size, char letter)
{
    char *text = malloc(size);
    memset(text, letter, size);
    return text;
}

/* A file system of `options` over the folder, for this process alone. Needs to be root, or user
 * namespaces. */
static bool mount_here(const char *options)
{
    if (unshare(geteuid() == 0 ? CLONE_NEWNS : CLONE_NEWUSER | CLONE_NEWNS) < 0)
        return false;
    if (mount(NULL, "/", NULL, MS_REC | MS_PRIVATE, NULL) < 0)
        return false;
    return mount("tmpfs", folder, "tmpfs", 0, options) == 0 && chdir(folder) == 0;
}

static void unmount_here(void)
{
    cr_assert(chdir("/") == 0 && umount2(folder, MNT_DETACH) == 0 && chdir(folder) == 0);
}

static void try_to_fill(const char *old_digest, const char *reason)
{
    char now[LML_DIGEST_TEXT];
    char *text = much(2 << 20, 'b');
    for (int replace = 0; replace < 2; replace++) {
        lml_error err = {0};
        cr_expect_eq(
            lml_store_write(replace ? "old" : "new", (lml_span){text, 2 << 20}, replace, &err),
            LML_NO_WRITE);
        cr_expect(strstr(err.message, reason), "%s", err.message);
        digest_file("old", now);
        cr_expect_str_eq(now, old_digest);
        expect_entries(".", 1);
    }
    free(text);
}

Test(store, a_full_disk_leaves_the_old_file)
{
    char old[LML_DIGEST_TEXT];
    bool mounted = mount_here("size=1m");
    char *text = much(100000, 'a');
    cr_assert_eq(lml_store_write("old", (lml_span){text, 100000}, false, NULL), LML_OK);
    free(text);
    digest_file("old", old);
    if (!mounted) {
        cr_log_warn(
            "mounting is not allowed here: a limit on the size of files stands for the full disk");
        struct rlimit limit = {1 << 20, 1 << 20};
        signal(SIGXFSZ, SIG_IGN);
        cr_assert_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
    }
    try_to_fill(old, mounted ? "the disk is full" : "larger than the limit");
    if (mounted)
        unmount_here();
}

Test(store, a_limit_on_file_size_leaves_the_old_file)
{
    char old[LML_DIGEST_TEXT];
    struct rlimit limit = {1 << 20, 1 << 20};
    cr_assert_eq(write_text("old", "old", false, NULL), LML_OK);
    digest_file("old", old);
    signal(SIGXFSZ, SIG_IGN);
    cr_assert_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
    try_to_fill(old, "larger than the limit");
}

Test(store, a_read_only_disk_leaves_the_old_file)
{
    if (!mount_here("size=1m")) {
        cr_skip("mounting is not allowed here");
        return;
    }
    lml_error err;
    cr_assert_eq(write_text("old", "old", false, NULL), LML_OK);
    cr_assert_eq(mount(NULL, folder, NULL, MS_REMOUNT | MS_RDONLY, NULL), 0);
    cr_expect_eq(write_text("old", "new", true, &err), LML_NO_WRITE);
    cr_expect_str_eq(err.message, "cannot write old: the disk is read-only");
    cr_expect_eq(write_text("new", "new", false, &err), LML_NO_WRITE);
    expect_content("old", "old");
    expect_entries(".", 1);
    unmount_here();
}

/* From now on these system calls of this process fail with `code`. */
static bool forbid(const int *calls, size_t count, int code)
{
    struct sock_filter f[16];
    size_t n = 0;
    f[n++] =
        (struct sock_filter)BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, nr));
    for (size_t i = 0; i < count; i++) {
        f[n++] = (struct sock_filter)BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (unsigned)calls[i], 0, 1);
        f[n++] = (struct sock_filter)BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | (unsigned)code);
    }
    f[n++] = (struct sock_filter)BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW);
    struct sock_fprog program = {.len = (unsigned short)n, .filter = f};
    return prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
           prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}

/* Write in a child in which these calls fail; its status. */
static int write_without(const int *calls, size_t count, int code, const char *path, bool replace)
{
    pid_t child = fork();
    if (child == 0) {
        if (!forbid(calls, count, code))
            _exit(99);
        _exit((int)write_text(path, "new", replace, NULL));
    }
    int status;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

#ifdef SYS_renameat
#define RENAMES SYS_renameat, SYS_renameat2
#else
#define RENAMES SYS_renameat2, SYS_renameat2
#endif

Test(store, every_failing_system_call_leaves_the_old_file)
{
    static const int calls[][2] = {
        {SYS_write, SYS_write},   {SYS_fchmod, SYS_fchmod}, {SYS_fsync, SYS_fsync}, {RENAMES},
        {SYS_openat, SYS_openat},
    };
    cr_assert_eq(write_text("old", "old", false, NULL), LML_OK);
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        int status = write_without(calls[i], 2, EIO, "old", true);
        if (status == 99) {
            cr_skip("system-call filters are not allowed here");
            return;
        }
        cr_expect_eq(status, LML_NO_WRITE, "call %zu gives %d", i, status);
        expect_content("old", "old");
        expect_entries(".", 1);
    }
}

/* ---- a file that goes back where it was read ---- */

static lml_store_file read_old(void)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    lml_store_file seen = {0};
    cr_assert_eq(lml_store_read_as("old", 100, &b, &seen, NULL), LML_OK);
    lml_builder_free(&b);
    return seen;
}

static lml_status put_back(lml_store_file *seen, lml_error *err)
{
    return lml_store_replace("old", lml_span_of("new"), seen, err);
}

Test(store, a_file_that_nobody_touched_goes_back)
{
    cr_assert_eq(write_text("old", "old", false, NULL), LML_OK);
    lml_store_file seen = read_old();
    cr_expect_eq(put_back(&seen, NULL), LML_OK);
    cr_expect(seen.replaced);
    expect_content("old", "new");
    seen = read_old();
    struct timespec times[2] = {{.tv_nsec = UTIME_NOW}, {.tv_nsec = UTIME_OMIT}};
    cr_assert_eq(utimensat(AT_FDCWD, "old", times, 0), 0);
    cr_expect_eq(put_back(&seen, NULL), LML_OK, "it was only read meanwhile");
}

/* Each of the ways in which an editor saves: in place, longer, by a rename, or of the same size. */
Test(store, an_edit_meanwhile_is_kept)
{
    lml_error err;
    for (int way = 0; way < 4; way++) {
        unlink("old");
        cr_assert_eq(write_text("old", "old", false, NULL), LML_OK);
        lml_store_file seen = read_old();
        struct timespec times[2] = {{seen.seconds, seen.nanoseconds},
                                    {seen.seconds, seen.nanoseconds}};
        FILE *f = way < 2 ? fopen("old", way == 0 ? "r+" : "a") : NULL;
        cr_assert(way >= 2 || (f && fputs("his", f) >= 0 && fclose(f) == 0));
        if (way == 0) /* a second later: as two saves are at the least on a coarse clock */
            times[1].tv_sec++;
        if (way == 2)
            cr_assert(write_text("old.new", "his", false, NULL) == LML_OK &&
                      rename("old.new", "old") == 0);
        if (way == 3)
            cr_assert_eq(unlink("old"), 0);
        else
            cr_assert_eq(utimensat(AT_FDCWD, "old", times, 0), 0);
        cr_expect_eq(put_back(&seen, &err), LML_NO_WRITE, "way %d", way);
        cr_expect(strstr(err.message, "in the meantime"), "%s", err.message);
        cr_expect_not(seen.replaced);
        if (way < 3)
            expect_content("old", way == 1 ? "oldhis" : "his");
        expect_entries(".", way < 3);
    }
}

/* A link that leads elsewhere by now is an edit like any other. */
Test(store, a_link_that_was_moved_meanwhile_is_kept)
{
    cr_assert_eq(write_text("one", "old", false, NULL), LML_OK);
    cr_assert_eq(write_text("two", "his", false, NULL), LML_OK);
    cr_assert_eq(symlink("one", "old"), 0);
    lml_store_file seen = read_old();
    cr_assert(unlink("old") == 0 && symlink("two", "old") == 0);
    cr_expect_eq(put_back(&seen, NULL), LML_NO_WRITE);
    expect_content("one", "old");
    expect_content("two", "his");
}

Test(store, owner_group_and_mode_stay)
{
    struct stat found;
    cr_assert_eq(write_text("old", "old", false, NULL), LML_OK);
    if (geteuid() != 0) {
        cr_skip("only the administrator gives files away");
        return;
    }
    cr_assert(chown("old", 12345, 23456) == 0 && chmod("old", 0664) == 0);
    lml_store_file seen = read_old();
    cr_assert_eq(put_back(&seen, NULL), LML_OK);
    cr_assert_eq(stat("old", &found), 0);
    cr_expect(found.st_uid == 12345 && found.st_gid == 23456 && (found.st_mode & 0777) == 0664);
    expect_content("old", "new");

    /* Another user who may write in the folder cannot give it back to them: nothing is written. */
    cr_assert_eq(chmod(".", 0777), 0);
    pid_t child = fork();
    if (child == 0) {
        lml_error err;
        if (setgroups(0, NULL) != 0 || setgid(23456) != 0 || setuid(54321) != 0)
            _exit(99);
        _exit(write_text("old", "his", true, &err) == LML_NO_WRITE &&
                      strstr(err.message, "same user")
                  ? 0
                  : 1);
    }
    int status;
    waitpid(child, &status, 0);
    cr_expect(WIFEXITED(status) && WEXITSTATUS(status) == 0, "ends with %d", status);
    expect_content("old", "new");
    expect_entries(".", 1);
}

/* From now on fsync fails for this file descriptor. */
static bool forbid_flush_of(int file)
{
    struct sock_filter f[] = {
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, nr)),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_fsync, 0, 3),
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS,
                 offsetof(struct seccomp_data,
                          args[0])), /* the lower half, where bytes are little-endian */
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (unsigned)file, 0, 1),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | EIO),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
    };
    struct sock_fprog program = {.len = sizeof f / sizeof *f, .filter = f};
    return prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
           prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}

/* The last step is done, and the folder not flushed: it is told as written, so that nobody writes
 * it twice. */
Test(store, what_fails_after_the_last_step_is_told_as_written)
{
    cr_assert_eq(write_text("old", "old", false, NULL), LML_OK);
    pid_t child = fork();
    if (child == 0) {
        lml_error err;
        lml_store_file seen = read_old();
        int next = dup(0); /* the number that the folder will get */
        close(next);
        if (!forbid_flush_of(next))
            _exit(99);
        _exit(put_back(&seen, &err) == LML_NO_WRITE && seen.replaced &&
                      strstr(err.message, "is written")
                  ? 0
                  : 1);
    }
    int status;
    waitpid(child, &status, 0);
    if (WIFEXITED(status) && WEXITSTATUS(status) == 99) {
        cr_skip("system-call filters are not allowed here");
        return;
    }
    cr_expect(WIFEXITED(status) && WEXITSTATUS(status) == 0, "ends with %d", status);
    expect_content("old", "new");
}

/* A writer that dies as it writes leaves its temporary file to be looked at. */
Test(store, what_was_private_is_never_open_to_others)
{
    struct stat found;
    umask(0);
    cr_assert_eq(write_text("old", "old", false, NULL), LML_OK);
    cr_assert_eq(chmod("old", 0600), 0);
    pid_t child = fork();
    if (child == 0) {
        struct rlimit none = {0, 0};
        signal(SIGXFSZ, SIG_DFL);
        setrlimit(RLIMIT_CORE, &none);
        setrlimit(RLIMIT_FSIZE, &none);
        _exit((int)write_text("old", "new", true, NULL));
    }
    int status;
    char temporary[60];
    waitpid(child, &status, 0);
    cr_assert(WIFSIGNALED(status) && WTERMSIG(status) == SIGXFSZ);
    snprintf(temporary, sizeof temporary, ".old.%ld.0.tmp", (long)child);
    cr_assert_eq(stat(temporary, &found), 0, "no %s", temporary);
    cr_expect_eq(found.st_mode & 0077, 0u, "others may read it: %o", found.st_mode & 0777);
    cr_assert_eq(write_text("old", "new", true, NULL), LML_OK);
    cr_assert_eq(stat("old", &found), 0);
    cr_expect_eq(found.st_mode & 0777, 0600u);
}

Test(store, works_where_there_are_no_hard_links)
{
    static const int link_call[] = {SYS_linkat}, both[] = {SYS_linkat, RENAMES};
    int status = write_without(link_call, 1, EPERM, "a", false);
    if (status == 99) {
        cr_skip("system-call filters are not allowed here");
        return;
    }
    cr_expect_eq(status, LML_OK);
    expect_content("a", "new");
    cr_assert_eq(write_text("b", "old", false, NULL), LML_OK);
    cr_expect_eq(write_without(link_call, 1, EPERM, "b", false), LML_NO_WRITE);
    expect_content("b", "old");
    cr_expect_eq(write_without(both, 3, EIO, "c", false), LML_NO_WRITE);
    expect_entries(".", 2);
}

Test(store, a_killed_writer_leaves_a_whole_file)
{
    enum { SIZE = 300000, ROUNDS = 80 };
    char *text[2] = {much(SIZE, 'a'), much(SIZE, 'b')};
    char digest[2][LML_DIGEST_TEXT], found[LML_DIGEST_TEXT];
    uint32_t random = 2026;
    int seen[2] = {0, 0};
    for (int i = 0; i < 2; i++)
        lml_digest_of((lml_span){text[i], SIZE}, digest[i]);
    cr_assert_eq(lml_store_write("file", (lml_span){text[0], SIZE}, false, NULL), LML_OK);
    for (int round = 0; round < ROUNDS || (round < 10 * ROUNDS && !(seen[0] && seen[1])); round++) {
        pid_t child = fork();
        if (child == 0)
            for (int i = round % 2;;
                 i = !i) /* on a busy machine the first may be all there is time for */
                lml_store_write("file", (lml_span){text[i], SIZE}, true, NULL);
        random = random * 1664525u + 1013904223u;
        usleep((random >> 12) % 5000 *
               (unsigned)(1 + round / ROUNDS)); /* longer where none has come to its end */
        kill(child, SIGKILL);
        waitpid(child, NULL, 0);
        digest_file("file", found);
        bool is[2] = {strcmp(found, digest[0]) == 0, strcmp(found, digest[1]) == 0};
        cr_assert(is[0] || is[1], "round %d: the file is neither the one nor the other", round);
        seen[is[1]]++;
    }
    cr_expect(seen[0] && seen[1], "the kills fall at different moments (%d, %d)", seen[0], seen[1]);
    free(text[0]);
    free(text[1]);
}
