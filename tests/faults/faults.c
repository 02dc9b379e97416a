/* Fails and kills one command at a time, at every system call and every request for memory that it
 * makes:
 *
 *     test_faults LEMEL PRELOAD STUDIO SCRATCH EVERY OFFSET COMMAND...
 *
 * STUDIO is copied to SCRATCH/studio before each fault; COMMAND is what follows `lemel`. Every
 * EVERYth fault is tried, from OFFSET on; with EVERY 1 each system call fails in each of the ways
 * in CODES. PRELOAD is the allocator that fails. After each fault this must hold:
 *
 *   - the command ended with a status that docs/commands.md lists, or was killed by us; nothing
 * crashed or hung
 *   - each file is as it was, or as the command leaves it when all goes well; no temporary file is
 * left, but where the command was killed or the call that removes it failed
 *   - what ends as when all goes well has printed and written all of it
 *   - what ends otherwise says why, has not printed its last line, and says so where a file is
 * changed already
 *   - what is decided, and not all done yet, any other command does: then all files are as they
 * should become; and of what is not decided nothing is left
 *   - the same command then does the whole of it: after a fault that changed nothing, as if there
 * had been none
 *
 * With FAULTS_REFUSED in the environment COMMAND is one that is refused: then each file is as it
 * was. */
#define _GNU_SOURCE
#include "trace.h"
#include "tree.h"

#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/syscall.h>
#include <unistd.h>

static const int CODES[] = {EIO, ENOSPC, ENOMEM, EINTR};
enum { CODE_COUNT = sizeof CODES / sizeof CODES[0], ROOM = 4096 };

typedef struct printed {
    char *text;
    size_t length;
} printed;

/* How a run without a fault ended. */
typedef struct outcome {
    int status;
    tree files;
    printed out, err;
} outcome;

typedef struct trial {
    char **words;
    const char *preload, *label;
    char studio[ROOM], out[ROOM], err[ROOM], count_file[ROOM];
    struct fault_counts *counts;
    tree before;
    outcome done, again; /* by the first run, and by one after it */
    long every, offset;
    long calls, requests, kills;        /* that there are */
    long tried, passed, failed, spared; /* spared: the fault's call was not made this time */
    fault f;
    bool told;
    bool refused; /* nothing comes of the command even when all goes well */
} trial;

/* ---- running ---- */

static outcome outcome_read(const trial *t, int status)
{
    outcome o = {.status = status, .files = tree_read(t->studio)};
    o.out.text = file_read(t->out, &o.out.length);
    o.err.text = file_read(t->err, &o.err.length);
    return o;
}

static void outcome_free(outcome *o)
{
    tree_free(&o->files);
    free(o->out.text);
    free(o->err.text);
}

static ended run(trial *t, const fault *f)
{
    bool alloc = f->kind == FAULT_ALLOC;
    *t->counts =
        (struct fault_counts){.fail_process = f->process, .fail_call = alloc ? f->call : 0};
    ended e =
        trace_run(t->words, t->studio, t->out, t->err, f, alloc ? t->preload : NULL, t->count_file);
    if (alloc)
        e.reached = t->counts->reached;
    return e;
}

/* One that nothing happens to; system calls are counted when `counted`, else requests for memory.
 */
static outcome run_well(trial *t, bool counted, ended *e)
{
    fault none = {.kind = counted ? FAULT_NONE : FAULT_ALLOC};
    *e = run(t, &none);
    if (e->signal || e->hung || e->crashed) {
        printf("%s: ends by signal %d without any fault\n", t->label, e->signal);
        exit(1);
    }
    return outcome_read(t, e->status);
}

/* ---- judging ---- */

static bool same_printed(printed a, printed b)
{
    return a.length == b.length && memcmp(a.text, b.text, a.length) == 0;
}

static __attribute__((format(printf, 2, 3))) void complain(trial *t, const char *format, ...)
{
    static const char *const kinds[] = {"nothing", "a failure", "a kill", "no memory"};
    va_list list;
    if (!t->told)
        printf("%s: after %s (error %d) at call %ld of process %d:\n", t->label, kinds[t->f.kind],
               t->f.kind == FAULT_FAIL ? t->f.code : 0, t->f.call, t->f.process);
    t->told = true;
    printf("    ");
    va_start(list, format);
    vprintf(format, list);
    va_end(list);
    putchar('\n');
}

static bool is_status(int status)
{
    static const int listed[] = {0, 1, 64, 65, 66, 70, 74, 79};
    for (size_t i = 0; i < sizeof listed / sizeof listed[0]; i++)
        if (status == listed[i])
            return true;
    return false;
}

/* The batch's file: a job that a fault fell upon has a line that says so, every other its result.
 */
static bool is_batch_of(const char *line, const char *want)
{
    while (*line && *want) {
        size_t length = strcspn(line, "\n"), due = strcspn(want, "\n");
        bool same = length == due && memcmp(line, want, due) == 0;
        if (!same && strncmp(line, "{\"error\":{\"status\":", 19) != 0)
            return false;
        if (line[length] != '\n' || line[length - 1] != '}')
            return false;
        line += length + 1;
        want += due + 1;
    }
    return !*line && !*want;
}

static bool is_whole(const trial *t, const leaf *is, const leaf *was, const leaf *done)
{
    if (leaf_same(is, was) || leaf_same(is, done))
        return true;
    return is && done && strcmp(t->words[1], "batch") == 0 && is_batch_of(is->bytes, done->bytes);
}

/* Every file that stands in one of the two, once. */
static bool each_file(trial *t, const tree *a, const tree *b,
                      bool (*holds)(trial *t, const tree *is, const char *path), const tree *is)
{
    bool all = true;
    for (size_t i = 0; i < a->count; i++)
        all = (leaf_is_temporary(&a->leaf[i]) || holds(t, is, a->leaf[i].path)) && all;
    for (size_t i = 0; i < b->count; i++)
        if (!tree_find(a, b->leaf[i].path))
            all = (leaf_is_temporary(&b->leaf[i]) || holds(t, is, b->leaf[i].path)) && all;
    return all;
}

static bool whole(trial *t, const tree *is, const char *path)
{
    if (is_whole(t, tree_find(is, path), tree_find(&t->before, path),
                 tree_find(&t->done.files, path)))
        return true;
    complain(t, "%s is neither as before nor as it should become", path);
    return false;
}

static bool unchanged(trial *t, const tree *is, const char *path)
{
    return leaf_same(tree_find(is, path), tree_find(&t->before, path));
}

static bool done(trial *t, const tree *is, const char *path)
{
    return leaf_same(tree_find(is, path), tree_find(&t->done.files, path));
}

static bool done_again(trial *t, const tree *is, const char *path)
{
    return leaf_same(tree_find(is, path), tree_find(&t->again.files, path));
}

static bool is_unlink(long number)
{
#ifdef SYS_unlink
    if (number == SYS_unlink)
        return true;
#endif
    return number == SYS_unlinkat;
}

/* All of a change stands in a folder, and the rest is moving files. */
static bool is_decided(const tree *is)
{
    return tree_find(is, ".adopting/list") != NULL;
}

static void judge_files(trial *t, const ended *e, const tree *is)
{
    bool may_be_left = t->f.kind == FAULT_KILL || (t->f.kind == FAULT_FAIL && is_unlink(e->number));
    for (size_t i = 0; i < is->count; i++)
        if (leaf_is_temporary(&is->leaf[i]) && !may_be_left && !is_decided(is))
            complain(t, "%s was left", is->leaf[i].path);
    each_file(t, is, &t->done.files, whole, is);
    each_file(t, &t->before, is, whole, is);
}

/* The last line is the one that says that all is done. */
static bool says_done(const trial *t, printed out)
{
    printed want = t->done.out;
    if (want.length < 2 || t->refused)
        return false;
    size_t start = want.length - 1;
    while (start > 0 && want.text[start - 1] != '\n')
        start--;
    return strstr(out.text, want.text + start) != NULL;
}

/* As each command says that its file is changed. */
static bool says_changed(const char *text)
{
    static const char *const ways[] = {"is written", "is in ", "all the same", "wrote "};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++)
        if (strstr(text, ways[i]))
            return true;
    return false;
}

static void judge_words(trial *t, const ended *e, const outcome *is)
{
    bool silenced = t->f.kind == FAULT_FAIL && e->number == SYS_write && e->descriptor == 2;
    if (is->status == t->done.status) {
        if (!each_file(t, &is->files, &t->done.files, done, &is->files))
            complain(t, "it ends with %d and left a file undone", is->status);
        if (!same_printed(is->out, t->done.out))
            complain(t, "it ends with %d and printed otherwise", is->status);
        if (!silenced && !same_printed(is->err, t->done.err))
            complain(t, "it ends with %d and said otherwise:\n%s", is->status, is->err.text);
        return;
    }
    if (says_done(t, is->out))
        complain(t, "it ends with %d and printed all of its result", is->status);
    if (silenced)
        return;
    if (is->err.length == 0)
        complain(t, "it ends with %d and does not say why", is->status);
    if (t->f.kind != FAULT_KILL && strstr(is->err.text, "worker died"))
        complain(t, "a worker crashed: %s", is->err.text);
    if (!each_file(t, &is->files, &t->before, unchanged, &is->files) && !says_changed(is->err.text))
        complain(t, "it ends with %d and does not say that a file is changed:\n%s", is->status,
                 is->err.text);
}

static bool same_files(const tree *a, const tree *b)
{
    bool same = a->count == b->count;
    for (size_t i = 0; i < a->count && same; i++)
        same = strcmp(a->leaf[i].path, b->leaf[i].path) == 0 && leaf_same(&a->leaf[i], &b->leaf[i]);
    return same;
}

/* The same command once more, without a fault. From a studio that is as before, or as it should
 * become, down to the last byte, that has been tried already. */
static void judge_retry(trial *t, const outcome *first)
{
    ended e;
    if (same_files(&first->files, &t->before) || same_files(&first->files, &t->done.files))
        return;
    bool fresh = each_file(t, &first->files, &t->before, unchanged, &first->files);
    bool all = !fresh && each_file(t, &first->files, &t->done.files, done, &first->files);
    bool batch = strcmp(t->words[1], "batch") == 0;
    outcome o = run_well(t, true, &e);
    const outcome *want = fresh ? &t->done : all || batch ? &t->again : &t->done;
    if (o.status != want->status)
        complain(t, "once more, it ends with %d:\n%s", o.status, o.err.text);
    if (fresh && !same_printed(o.out, want->out))
        complain(t, "once more, it prints otherwise");
    if (!batch && !each_file(t, &o.files, &want->files, all ? done_again : done, &o.files))
        complain(t, "once more, it leaves other files");
    outcome_free(&o);
}

/* What was cut short is finished, or cleared away, by a command that only reads. True when there
 * was something. */
static bool judge_finish(trial *t, const outcome *first)
{
    char *words[] = {t->words[0], "inspect", "wire", NULL};
    char **own = t->words;
    bool staged = false, decided = is_decided(&first->files);
    for (size_t i = 0; i < first->files.count; i++)
        staged = staged || strncmp(first->files.leaf[i].path, ".adopting", 9) == 0;
    if (!staged)
        return false;
    ended e;
    t->words = words;
    outcome o = run_well(t, true, &e);
    t->words = own;
    if (o.status != 0)
        complain(t, "what was cut short cannot be finished: %d\n%s", o.status, o.err.text);
    if (!same_files(&o.files, decided ? &t->done.files : &t->before))
        complain(t, "what was cut short is not finished whole");
    outcome_free(&o);
    return true;
}

static void try_fault(trial *t, fault f)
{
    t->f = f;
    t->told = false;
    t->tried++;
    tree_restore(t->studio, &t->before);
    ended e = run(t, &f);
    outcome o = outcome_read(t, e.status);
    t->spared += !e.reached;
    bool killed = f.kind == FAULT_KILL && f.process == 0 && e.reached;
    if (e.hung)
        complain(t, "it did not end");
    if (e.crashed)
        complain(t, "signal %d", e.crashed);
    if (killed ? e.signal != 9 : e.signal || !is_status(e.status))
        complain(t, "it ended with status %d, signal %d", e.status, e.signal);
    judge_files(t, &e, &o.files);
    if (!killed)
        judge_words(t, &e, &o);
    if (!judge_finish(t, &o))
        judge_retry(t, &o);
    if (t->told)
        printf("    it was system call %ld (%ld ...); it said:\n%s\n", e.number, e.descriptor,
               o.err.text);
    *(t->told ? &t->failed : &t->passed) += 1;
    outcome_free(&o);
}

/* ---- all of them ---- */

/* One of `every`, counted over all faults of this run. */
static bool is_due(trial *t)
{
    return t->offset++ % t->every == 0;
}

static void try_calls(trial *t, const ended *e)
{
    for (int p = 0; p < e->processes; p++)
        for (long call = 1; call <= e->calls[p]; call++) {
            t->calls++;
            for (int c = 0; c < (t->every == 1 ? CODE_COUNT : 1); c++)
                if (is_due(t))
                    try_fault(t, (fault){FAULT_FAIL, p, call, CODES[(call + c) % CODE_COUNT]});
        }
    for (int p = 0; p < e->processes; p++)
        for (long call = 1; call <= e->calls[p]; call++) {
            t->kills++;
            if (is_due(t))
                try_fault(t, (fault){FAULT_KILL, p, call, 0});
        }
}

static void try_requests(trial *t, const struct fault_counts *counts)
{
    for (int p = 0; p < counts->processes && p < FAULT_PROCESSES; p++)
        for (long call = 1; call <= counts->calls[p]; call++) {
            t->requests++;
            if (is_due(t))
                try_fault(t, (fault){FAULT_ALLOC, p, call, 0});
        }
}

static struct fault_counts *map_counts(const char *path)
{
    int file = open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (file < 0 || ftruncate(file, sizeof(struct fault_counts)) != 0)
        give_up("cannot write", path);
    void *at = mmap(NULL, sizeof(struct fault_counts), PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
    if (at == MAP_FAILED)
        give_up("cannot map", path);
    close(file);
    return at;
}

int main(int count, char **words)
{
    if (count < 8) {
        fprintf(stderr, "faults: LEMEL PRELOAD STUDIO SCRATCH EVERY OFFSET COMMAND...\n");
        return 64;
    }
    trial t = {
        .preload = words[2], .label = words[7], .every = atol(words[5]), .offset = atol(words[6])};
    const char *scratch = words[4];
    snprintf(t.studio, ROOM, "%s/studio", scratch);
    snprintf(t.out, ROOM, "%s/out", scratch);
    snprintf(t.err, ROOM, "%s/err", scratch);
    snprintf(t.count_file, ROOM, "%s/counts", scratch);
    t.counts = map_counts(t.count_file);
    t.words = words + 6; /* lemel and its words */
    t.words[0] = words[1];
    t.before = tree_read(words[3]);
    tree_restore(t.studio, &t.before);

    ended calls, unused;
    const char *missing = trace_missing();
    if (missing) {
        printf("%s: skipped, %s\n", t.label, missing);
        return 0;
    }
    t.done = run_well(&t, true, &calls);
    t.refused = getenv("FAULTS_REFUSED") != NULL;
    if (t.refused ? t.done.status == 0 || !same_files(&t.done.files, &t.before)
                  : t.done.status > 1) {
        printf("%s: ends with %d without any fault:\n%s0 passed, 1 failed\n", t.label,
               t.done.status, t.done.err.text);
        return 1;
    }
    t.again = run_well(&t, true, &unused);
    tree_restore(t.studio, &t.before);
    outcome counted = run_well(&t, false, &unused);
    struct fault_counts requests = *t.counts;
    outcome_free(&counted);
    if (requests.calls[0] == 0)
        give_up("no request for memory was counted with", t.preload);
    try_calls(&t, &calls);
    try_requests(&t, &requests);
    long all = t.calls * (t.every == 1 ? CODE_COUNT : 1) + t.kills + t.requests;
    printf("%s: %ld system calls, %ld kills, %ld requests for memory; %ld of %ld faults tried, %ld "
           "of them met no "
           "call: %ld passed, %ld failed\n",
           t.label, t.calls, t.kills, t.requests, t.tried, all, t.spared, t.passed, t.failed);
    return t.failed > 0;
}
