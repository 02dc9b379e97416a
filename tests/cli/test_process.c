#define _DEFAULT_SOURCE /* MAP_ANONYMOUS */
/* Workers that answer, fail, hang, cheat and are killed. Each task runs in the worker itself. */
#include <criterion/criterion.h>

#include "cli/spin.h"
#include "worker/jail.h"
#include "worker/process.h"
#include "worker/protocol.h"

#include <errno.h>
#include <sched.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

typedef struct outcome {
    lml_status status;
    lml_error error;
    char text[4000];
    size_t length;
} outcome;

static outcome work(lml_task_work task, const void *request, lml_worker_limits limits)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    lml_builder out = lml_builder_on(&heap, 0);
    lml_task orders = {.kit = {&kit}, .work = task, .request = request, .limits = limits};
    outcome o = {.status = LML_OK};
    o.status = lml_process_run(&orders, &out, &o.error);
    o.length = out.length;
    if (out.at)
        snprintf(o.text, sizeof o.text, "%s", out.at);
    lml_builder_free(&out);
    lml_kit_free(&kit);
    return o;
}

/* More than a test takes on a busy machine. */
static const long LONG = 600 * 1000L;
#define USUAL ((lml_worker_limits){.patience = LONG})

static void give(lml_text *out, const char *text, size_t length)
{
    out->text = malloc(length + 1);
    memcpy(out->text, text, length);
    out->text[length] = '\0';
    out->length = length;
    out->size = length + 1;
}

static lml_status echo(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    (void)engine;
    (void)err;
    give(out, request, strlen(request));
    return LML_OK;
}

Test(worker, an_answer_comes_back)
{
    outcome o = work(echo, "58.0 g", USUAL);
    cr_expect_eq(o.status, LML_OK);
    cr_expect_str_eq(o.text, "58.0 g");
}

static lml_status large(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    (void)engine;
    (void)err;
    size_t length = *(const size_t *)request;
    out->text = malloc(length);
    memset(out->text, 'x', length);
    out->length = out->size = length;
    return LML_OK;
}

Test(worker, an_answer_may_be_large_but_has_a_bound)
{
    size_t length = 3 << 20;
    outcome o = work(large, &length, USUAL);
    cr_expect_eq(o.status, LML_OK);
    cr_expect_eq(o.length, length);
    o = work(large, &length, (lml_worker_limits){.patience = LONG, .answer = length - 1});
    cr_expect_eq(o.status, LML_FAULT);
    cr_expect_eq(o.length, 0);
}

static lml_status refuse(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    (void)engine;
    (void)request;
    (void)out;
    lml_fail(err, LML_BAD_DATA, "\"11,2 g\" has a comma");
    lml_error_label(err, "11,2 g", 6, 2, 1, "here");
    lml_error_hint(err, "write 11.2 g");
    return lml_error_context(err, LML_BAD_DATA, "in old_metal[2]");
}

Test(worker, an_error_comes_back_whole)
{
    outcome o = work(refuse, NULL, USUAL);
    cr_expect_eq(o.status, LML_BAD_DATA);
    cr_expect_str_eq(o.error.message, "\"11,2 g\" has a comma");
    cr_expect_str_eq(o.error.hint, "write 11.2 g");
    cr_expect_eq(o.error.labels, 1);
    cr_expect_str_eq(o.error.label[0].note, "here");
    cr_expect_eq(o.error.contexts, 1);
    cr_expect_str_eq(o.error.context[0], "in old_metal[2]");
}

static lml_status sleep_long(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    (void)engine;
    (void)request;
    (void)out;
    (void)err;
    for (;;)
        pause();
    return LML_OK;
}

Test(worker, one_that_hangs_is_ended)
{
    outcome o = work(sleep_long, NULL, (lml_worker_limits){.patience = 200});
    cr_expect_eq(o.status, LML_LIMIT);
    cr_expect(strstr(o.error.message, "time limit"), "%s", o.error.message);
    o = work(spin, NULL, (lml_worker_limits){.patience = LONG, .processor = 1});
    cr_expect_eq(o.status, LML_LIMIT);
    cr_expect(strstr(o.error.message, "processor time"), "%s", o.error.message);
}

static lml_status reckon(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    return lml_engine_reckon(engine, request, NULL, 0, out, err);
}

Test(worker, one_that_runs_out_of_memory_says_so_and_ends)
{
    outcome o =
        work(reckon, "Q\"1 g\" + Q\"2 g\"", (lml_worker_limits){.patience = LONG, .memory = 20000});
    cr_expect_eq(o.status, LML_LIMIT);
    cr_expect(strstr(o.error.message, "memory"), "%s", o.error.message);
    o = work(reckon, "Q\"1 g\" + Q\"2 g\"", USUAL);
    cr_expect_eq(o.status, LML_OK, "%s", o.error.message);
    cr_expect_str_eq(o.text, "3 g");
}

#ifndef LML_SANITIZED /* their allocator ends the process */
/* More than the system gives. */
static lml_status want_much(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    (void)engine;
    (void)request;
    (void)out;
    void *volatile much = malloc((size_t)8 << 30);
    return much ? LML_OK : lml_fail(err, LML_NO_MEMORY, "no memory");
}

Test(worker, want_of_the_systems_memory_is_told_as_that)
{
    outcome o = work(want_much, NULL, USUAL);
    cr_expect_eq(o.status, LML_LIMIT);
    cr_expect(strstr(o.error.message, "the system refuses the worker more memory"), "%s",
              o.error.message);
    cr_expect(strstr(o.error.hint, "ulimit -v"), "%s", o.error.hint);
}
#endif

static lml_status die(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    (void)engine;
    (void)request;
    (void)out;
    (void)err;
    __builtin_trap();
}

Test(worker, one_that_dies_is_reported)
{
    outcome o = work(die, NULL, USUAL);
    cr_expect_eq(o.status, LML_FAULT);
    cr_expect(strstr(o.error.message, "the worker died"), "%s", o.error.message);
}

/* What the answer is worth when the worker was taken over: raw bytes on its pipe. */
typedef struct raw {
    const void *bytes;
    size_t length;
    bool then_hang;
} raw;

static lml_status write_raw(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    (void)engine;
    (void)out;
    (void)err;
    const raw *r = request;
    if (write(LML_JAIL_PIPE, r->bytes, r->length) < 0)
        _exit(2);
    close(LML_JAIL_PIPE);
    if (r->then_hang)
        for (;;)
            pause();
    _exit(0);
}

static void expect_fault(const void *bytes, size_t length)
{
    raw r = {bytes, length, false};
    outcome o = work(write_raw, &r, USUAL);
    cr_expect_eq(o.status, LML_FAULT);
    cr_expect_eq(o.length, 0, "nothing of a foul answer is kept");
}

Test(worker, a_foul_answer_is_refused)
{
    lml_frame unknown = {77, 0}, huge = {LML_FRAME_TEXT, 0xffffffffu}, cut = {LML_FRAME_TEXT, 100};
    lml_frame early = {LML_FRAME_DONE, 5}, small = {LML_FRAME_ERROR, 3};
    expect_fault(&unknown, sizeof unknown);
    expect_fault(&huge, sizeof huge);
    expect_fault(&cut, sizeof cut);
    expect_fault(&early, sizeof early);
    expect_fault(&small, sizeof small);
    expect_fault("", 0);
}

typedef struct error_frame {
    lml_frame frame;
    lml_error error;
} error_frame;

Test(worker, a_foul_error_cannot_be_read_past_its_end)
{
    error_frame f = {.frame = {LML_FRAME_ERROR, sizeof f.error}};
    memset(&f.error, 'x', sizeof f.error);
    f.error.status = LML_BAD_DATA;
    f.error.labels = LML_ERROR_LABELS;
    f.error.contexts = LML_ERROR_CONTEXTS;
    raw r = {&f, sizeof f, false};
    outcome o = work(write_raw, &r, USUAL);
    cr_expect_eq(o.status, LML_BAD_DATA);
    cr_expect_eq(strlen(o.error.message), sizeof o.error.message - 1);
    cr_expect_eq(strlen(o.error.context[LML_ERROR_CONTEXTS - 1]), sizeof o.error.context[0] - 1);
    f.error.labels = 1000;
    expect_fault(&f, sizeof f);
    f.error.labels = 0;
    f.error.contexts = -1;
    expect_fault(&f, sizeof f);
    f.error.contexts = 0;
    f.error.status = LML_OK;
    expect_fault(&f, sizeof f);
}

Test(worker, one_that_hangs_up_and_lives_on_is_ended_at_once)
{
    raw r = {"", 0, true};
    outcome o = work(write_raw, &r,
                     (lml_worker_limits){.patience = 3600 * 1000L}); /* else: ended by its time */
    cr_expect_eq(o.status, LML_FAULT);
}

/* ---- killed from outside ---- */

/* Memory that the processes share: whether a worker has come to its place, or never will. */
enum { UNDER_WAY, ARRIVED, GONE };
static atomic_int *worker_is;

/* Where a worker waits to be killed: when it has asked its interrupt so often, or has written so
 * many bytes of its answer. */
typedef struct place {
    int asked;
    size_t written;
} place;

static _Noreturn void arrive(void)
{
    atomic_store(worker_is, ARRIVED);
    for (;;)
        pause();
}

static bool count_down(void *self)
{
    int *left = self;
    if (--*left == 0)
        arrive();
    return false;
}

/* A sum of many steps, in an engine that counts them, and a first part of the answer. */
static lml_status work_up_to(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    static const char busy[] =
        "(function() local s = Q\"0 g\" for i = 1, 20000 do s = s + Q\"1 g\" end return s end)()";
    static const struct {
        lml_frame text;
        char twenty_kilos[8];
        lml_frame done;
    } answer = {{LML_FRAME_TEXT, 8}, "20000 g ", {LML_FRAME_DONE, 0}};
    const place *p = request;
    int left = p->asked;
    lml_engine_options options = {.interrupt = count_down, .interrupt_self = &left};
    (void)engine;
    engine = lml_engine_new(&options);
    if (!engine)
        return lml_fail(err, LML_NO_MEMORY, "no memory");
    lml_status status = lml_engine_reckon(engine, busy, NULL, 0, out, err);
    if (status != LML_OK)
        return status;
    if (p->asked > 0)
        return lml_fail(err, LML_FAULT, "it asked less than %d times", p->asked);
    if (write(LML_JAIL_PIPE, &answer, p->written) != (ssize_t)p->written)
        _exit(3);
    arrive();
}

/* From a process of its own, as the command waits for the worker. */
static void strike(void *self, long process)
{
    (void)self;
    if (fork() == 0) {
        int is;
        while ((is = atomic_load(worker_is)) == UNDER_WAY)
            sched_yield();
        if (is == ARRIVED)
            kill((pid_t)process, SIGKILL);
        _exit(0);
    }
}

static void kill_at(place p)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    lml_builder out = lml_builder_on(&heap, 0);
    lml_error error = {.message = ""};
    lml_task orders = {
        .kit = {&kit}, .work = work_up_to, .request = &p, .limits = USUAL, .started = strike};
    atomic_store(worker_is, UNDER_WAY);
    cr_expect_eq(lml_process_run(&orders, &out, &error), LML_FAULT, "%d, %zu: %s", p.asked,
                 p.written, error.message);
    atomic_store(worker_is, GONE);
    while (waitpid(-1, NULL, 0) > 0 || errno == EINTR)
        continue;
    cr_expect(strstr(error.message, "ended the worker (signal 9)"), "%s", error.message);
    cr_expect_eq(out.length, 0, "half an answer is kept");
    lml_builder_free(&out);
    outcome next = work(reckon, "1 ozt", USUAL);
    cr_expect_eq(next.status, LML_OK, "after %d, %zu: %s", p.asked, p.written, next.error.message);
    cr_expect_str_eq(next.text, "1 ozt");
}

Test(worker, killed_anywhere_costs_its_own_job_only)
{
    size_t whole = 2 * sizeof(lml_frame) + 8;
    worker_is =
        mmap(NULL, sizeof *worker_is, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    cr_assert_neq(worker_is, MAP_FAILED);
    for (int asked = 1; asked <= 64; asked *= 2)
        kill_at((place){asked, 0});
    for (size_t written = 0; written < whole; written++)
        kill_at((place){0, written});
}
