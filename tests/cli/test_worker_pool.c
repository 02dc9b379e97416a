#define _DEFAULT_SOURCE /* MAP_ANONYMOUS */
/* Pools whose jobs answer, fail, hang, cheat and die: the first letter of a job says what its
 * worker does. */
#include <criterion/criterion.h>

#include "worker/jail.h"
#include "worker/worker_pool.h"

#include <signal.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

enum { JOBS = 1000, WORKERS_HANG = 2 };
static const long HOUR = 3600 * 1000L; /* far beyond what a test takes on a busy machine */

/* How many workers have come to hang, seen from all processes. */
static atomic_long *hung;

/* A clock that stands still until both workers hang, and is then an hour later. */
static long hours_of_hanging(void)
{
    return hung ? atomic_load(hung) / WORKERS_HANG * HOUR : 0;
}

static _Noreturn void hang(void)
{
    atomic_fetch_add(hung, 1);
    if (write(LML_JAIL_PIPE, "", 1) != 1) /* the pool looks at its clock */
        _exit(3);
    for (;;)
        pause();
}

typedef struct record {
    size_t delivered, ok, stopped;
    size_t started;
    lml_status status[JOBS];
    char message[JOBS][sizeof((lml_error *)0)->message];
    long process;
} record;

static void give(lml_text *out, lml_span text)
{
    out->text = malloc(text.length + 1);
    memcpy(out->text, text.at, text.length);
    out->length = text.length;
    out->size = text.length + 1;
}

static lml_status act(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_job *job = request;
    (void)engine;
    switch (job->text.at[0]) {
    case 's':
        give(out, job->text);
        return LML_STOPPED;
    case 'e':
        return lml_fail(err, LML_BAD_DATA, "%s is bad", job->shown);
    case 'h':
        hang();
    case 'd':
        __builtin_trap();
    case 'f': /* an answer that no frame is */
        if (write(LML_JAIL_PIPE, "nonsense", 8) != 8)
            _exit(3);
        return lml_fail(err, LML_BAD_DATA, "and one more");
    default:
        give(out, job->text);
        return LML_OK;
    }
}

static lml_status note(void *self, const lml_worker_pool_result *result, lml_error *err)
{
    record *r = self;
    char due[40];
    (void)err;
    cr_assert_eq(result->number, r->delivered, "out of order");
    snprintf(due, sizeof due, "job %zu", result->number);
    cr_expect_str_eq(result->shown, due);
    r->status[result->number] = result->status;
    r->delivered++;
    r->ok += result->status == LML_OK;
    r->stopped += result->status == LML_STOPPED;
    if (result->status == LML_OK || result->status == LML_STOPPED) {
        char *end;
        size_t number = strtoul(result->text.at + 1, &end, 10);
        cr_expect_eq(number, result->number, "the answer of another job");
    } else {
        strcpy(r->message[result->number], result->error->message);
    }
    return LML_OK;
}

static void started(void *self, long process)
{
    record *r = self;
    r->started++;
    r->process = process;
}

static record *new_record(void)
{
    return calloc(1, sizeof(record));
}

static lml_worker_pool *open_pool(record *r, size_t workers, const lml_kit *kit)
{
    static lml_alloc heap;
    heap = lml_alloc_heap();
    lml_worker_pool_orders orders = {
        .alloc = &heap,
        .task = {.kit = {kit}, .work = act, .limits = {.patience = HOUR}},
        .workers = workers,
        .deliver = note,
        .self = r,
        .started = started,
        .now = hours_of_hanging};
    lml_worker_pool *pool = NULL;
    cr_assert_eq(lml_worker_pool_new(&orders, &pool, NULL), LML_OK);
    return pool;
}

static void put(lml_worker_pool *pool, size_t number, char kind)
{
    char text[40], shown[40];
    snprintf(text, sizeof text, "%c%zu", kind, number);
    snprintf(shown, sizeof shown, "job %zu", number);
    lml_job job = {.text = lml_span_of(text), .shown = shown};
    cr_assert_eq(lml_worker_pool_put(pool, 0, &job, NULL), LML_OK);
}

/* Work JOBS jobs, each of the kind that the function says. */
static record *work(size_t workers, char (*kind)(size_t number))
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    record *r = new_record();
    lml_worker_pool *pool = open_pool(r, workers, &kit);
    for (size_t i = 0; i < JOBS; i++)
        put(pool, i, kind(i));
    cr_assert_eq(lml_worker_pool_finish(pool, NULL), LML_OK);
    lml_worker_pool_free(pool);
    cr_expect_eq(r->delivered, (size_t)JOBS);
    cr_expect_eq(waitpid(-1, NULL, WNOHANG), -1, "a worker is left");
    return r;
}

static char all_fine(size_t number)
{
    return number % 10 == 3 ? 's' : 'a';
}

Test(pool, keeps_the_order)
{
    for (size_t workers = 1; workers <= 4; workers++) {
        record *r = work(workers, all_fine);
        cr_expect_eq(r->ok, 900u);
        cr_expect_eq(r->stopped, 100u);
        cr_expect_leq(r->started, workers);
        free(r);
    }
}

static char one_bad(size_t number)
{
    return number == 500 ? 'e' : 'a';
}

Test(pool, one_bad_job_in_a_thousand_is_one_error)
{
    record *r = work(2, one_bad);
    cr_expect_eq(r->ok, 999u);
    cr_expect_eq(r->status[500], LML_BAD_DATA);
    cr_expect_str_eq(r->message[500], "job 500 is bad");
    cr_expect_leq(r->started, 2u, "a worker that says no is no worse for it");
    free(r);
}

static char some_die(size_t number)
{
    return number % 100 == 7 ? 'd' : number % 100 == 57 ? 'f' : 'a';
}

Test(pool, a_worker_that_dies_or_cheats_costs_its_own_job)
{
    record *r = work(2, some_die);
    cr_expect_eq(r->ok, 980u);
    cr_expect_eq(r->status[7], LML_FAULT);
    cr_expect(strstr(r->message[7], "the worker died"), "%s", r->message[7]);
    cr_expect_eq(r->status[57], LML_FAULT);
    cr_expect(strstr(r->message[57], "cannot be understood"), "%s", r->message[57]);
    cr_expect_geq(r->started, 20u);
    free(r);
}

static char some_hang(size_t number)
{
    return number / 2 == 5 || number / 2 == 495 ? 'h' : 'a';
}

Test(pool, a_worker_that_hangs_is_ended_and_costs_its_own_job)
{
    hung = mmap(NULL, sizeof *hung, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    cr_assert_neq(hung, MAP_FAILED);
    record *r = work(WORKERS_HANG, some_hang);
    cr_expect_eq(r->ok, 996u);
    cr_expect_eq(r->status[10], LML_LIMIT);
    cr_expect_eq(r->status[11], LML_LIMIT);
    cr_expect(strstr(r->message[990], "time limit"), "%s", r->message[990]);
    free(r);
}

Test(pool, workers_killed_from_outside_cost_nothing)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    record *r = new_record();
    lml_worker_pool *pool = open_pool(r, 1, &kit);
    for (size_t i = 0; i < JOBS; i++) {
        put(pool, i, 'a');
        if (i % 100 == 50)
            kill((pid_t)r->process, SIGKILL); /* it has answered: its job is worked once more */
    }
    cr_assert_eq(lml_worker_pool_finish(pool, NULL), LML_OK);
    lml_worker_pool_free(pool);
    cr_expect_eq(r->ok, (size_t)JOBS);
    cr_expect_geq(r->started, 10u);
    free(r);
}

Test(pool, what_could_not_be_read_has_its_turn)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    record *r = new_record();
    lml_worker_pool *pool = open_pool(r, 2, &kit);
    lml_error error;
    lml_fail(&error, LML_NO_FILE, "job 1 is not there");
    put(pool, 0, 'a');
    cr_assert_eq(lml_worker_pool_put_error(pool, 0, "job 1", &error, NULL), LML_OK);
    put(pool, 2, 'a');
    cr_assert_eq(lml_worker_pool_finish(pool, NULL), LML_OK);
    lml_worker_pool_free(pool);
    cr_expect_eq(r->status[0], LML_OK);
    cr_expect_eq(r->status[1], LML_NO_FILE);
    cr_expect_str_eq(r->message[1], "job 1 is not there");
    cr_expect_eq(r->status[2], LML_OK);
    free(r);
}

Test(pool, a_job_for_a_kit_that_cannot_be_is_not_worked)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    record *r = new_record();
    lml_worker_pool *pool = open_pool(r, 1, &kit);
    lml_job job = {.text = lml_span_of("a0"), .shown = "job 0"};
    cr_assert_eq(lml_worker_pool_put(pool, LML_TASK_KITS, &job, NULL), LML_OK);
    put(pool, 1, 'a');
    cr_assert_eq(lml_worker_pool_finish(pool, NULL), LML_OK);
    lml_worker_pool_free(pool);
    cr_expect_eq(r->status[0], LML_FAULT);
    cr_expect(strstr(r->message[0], "ended without an answer"), "%s", r->message[0]);
    cr_expect_eq(r->status[1], LML_OK);
    free(r);
}

Test(pool, a_large_job_goes_to_a_worker_and_back)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    record *r = new_record();
    lml_worker_pool *pool = open_pool(r, 2, &kit);
    size_t length = 3 << 20;
    char *text = malloc(length);
    memset(text, ' ', length);
    for (size_t i = 0; i < 8; i++) {
        char shown[40];
        snprintf(shown, sizeof shown, "job %zu", i);
        memcpy(text, "a0", 2);
        text[1] = (char)('0' + i);
        lml_job job = {.text = {text, length}, .shown = shown};
        cr_assert_eq(lml_worker_pool_put(pool, 0, &job, NULL), LML_OK);
    }
    cr_assert_eq(lml_worker_pool_finish(pool, NULL), LML_OK);
    lml_worker_pool_free(pool);
    cr_expect_eq(r->ok, 8u);
    free(text);
    free(r);
}
