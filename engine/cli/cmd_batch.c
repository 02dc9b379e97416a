#include "cli/ask.h"
#include "cli/cmd.h"
#include "face/engine.h"
#include "face/pair.h"
#include "file/store.h"
#include "studio/find.h"
#include "studio/jobs.h"
#include "studio/keep.h"
#include "studio/unproved.h"
#include "worker/worker_pool.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { OUT_MOST = 1 << 16, BLOCK = 1 << 16, ANSWER_MOST = 6 << 20 };
static const char LINE[] =
    "line "; /* how messages name a line of standard input: with its number */

typedef struct batch {
    lml_call *call;
    lml_worker_pool *pool;
    const lml_kit *kit;
    lml_unproved unproved;
    lml_keep keep;
    bool lines; /* of standard input, not files */
    size_t worked, stopped, failed;
    size_t number;    /* of the line that is being read, counted from 1 */
    lml_builder line; /* its results */
} batch;

/* ---- in the worker ---- */

/* The result's line, and behind it what is kept of it, where the answer has room. */
static lml_status work_and_keep(lml_engine *engine, const void *request, lml_text *out,
                                lml_error *err)
{
    const lml_job *job = request;
    lml_text result;
    lml_builder kept = lml_builder_on(lml_engine_alloc(engine), 0), answer = kept;
    lml_status status = lml_pair_keep(engine, job->text, job->shown, &result, &kept, err);
    if (status == LML_OK) {
        lml_builder_add(&answer, result.text, result.length);
        lml_builder_add_char(&answer, '\n');
        if (result.length + kept.length < ANSWER_MOST)
            lml_builder_add(&answer, kept.at, kept.length);
        status = lml_builder_status(&answer, err);
        if (status == LML_OK)
            *out = (lml_text){answer.at, answer.length, answer.capacity, result.stopped};
        lml_text_free(engine, &result);
    }
    lml_builder_free(&kept);
    return status == LML_OK && out->stopped ? LML_STOPPED : status;
}

/* ---- results ---- */

static lml_status emit(void *self, lml_error *err)
{
    batch *b = self;
    return b->call->emit(b->call, err);
}

static void put_failure(lml_json_writer *w, const lml_error *error)
{
    lml_json_write_name(w, lml_span_of("error"));
    lml_json_write_open_record(w);
    lml_json_write_member(w, "status", lml_status_name(error->status));
    lml_json_write_member(w, "message", error->message);
    if (error->hint[0])
        lml_json_write_member(w, "hint", error->hint);
    if (error->contexts > 0) {
        lml_json_write_name(w, lml_span_of("context"));
        lml_json_write_open_list(w);
        for (int i = 0; i < error->contexts; i++)
            lml_json_write_text(w, lml_span_of(error->context[i]));
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static lml_status put_error(batch *b, const char *shown, const lml_error *error, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(&b->call->out, false);
    lml_json_write_open_record(&w);
    put_failure(&w, error);
    if (b->lines) {
        lml_json_write_name(&w, lml_span_of("line"));
        lml_json_write_raw(&w, lml_span_of(shown + strlen(LINE)));
    } else {
        lml_json_write_member(&w, "job", shown);
    }
    lml_json_write_close(&w);
    b->failed++;
    return lml_call_end_json(&w, err);
}

/* A worker is not trusted: whatever it says must not look like two answers. */
static bool is_one_line(lml_span text)
{
    return text.length > 1 && text.at[0] == '{' && text.at[text.length - 1] == '}' &&
           !memchr(text.at, '\n', text.length);
}

/* What is saved of a result follows its line. */
static lml_span cut_kept(const batch *b, lml_span *answer)
{
    const char *end = answer->at + answer->length,
               *feed = b->keep.folder ? memchr(answer->at, '\n', answer->length) : NULL;
    if (!feed)
        return (lml_span){"", 0};
    *answer = lml_span_between(answer->at, feed);
    return lml_span_between(feed + 1, end);
}

static lml_status deliver(void *self, const lml_worker_pool_result *result, lml_error *err)
{
    batch *b = self;
    lml_span text = result->text, kept = cut_kept(b, &text);
    lml_status status = LML_OK;
    lml_error foul;
    if (result->status != LML_OK && result->status != LML_STOPPED) {
        status = put_error(b, result->shown, result->error, err);
    } else if (!is_one_line(text)) {
        lml_fail(&foul, LML_FAULT, "the worker's answer cannot be understood");
        status = put_error(b, result->shown, &foul, err);
    } else {
        lml_keep_write(&b->keep, &(lml_job){.text = result->job, .shown = result->shown}, kept);
        lml_builder_add_span(&b->call->out, text);
        lml_builder_add_char(&b->call->out, '\n');
        *(result->status == LML_OK ? &b->worked : &b->stopped) += 1;
        status = lml_unproved_see(&b->unproved, b->kit, text, err);
    }
    if (status == LML_OK)
        status = lml_builder_status(&b->call->out, err);
    if (status == LML_OK && b->call->out.length > OUT_MOST)
        status = emit(b, err);
    return status;
}

/* ---- jobs ---- */

/* Adds the results of the listed jobs to the text. */
static lml_status gather(const batch *b, const char *shown, lml_builder *text, lml_error *err)
{
    lml_job_text job = {.text = *text, .shown = shown};
    lml_status status = lml_ask_gather(b->kit, &job, err);
    *text = job.text;
    return status;
}

static lml_status put_files(batch *b, const lml_jobs *jobs, lml_error *err)
{
    lml_builder text = lml_builder_on(&b->call->alloc, 0);
    lml_status status = LML_OK;
    for (size_t i = 0; i < jobs->count && status == LML_OK; i++) {
        lml_error error;
        lml_job job = {.shown = jobs->path[i]};
        lml_status read = lml_jobs_read(b->call, jobs, i, &text, &error);
        if (read == LML_OK)
            read = gather(b, job.shown, &text, &error);
        if (read == LML_OK) {
            job.text = lml_builder_span(&text);
            status = lml_worker_pool_put(b->pool, 0, &job, err);
        } else if (read == LML_NO_MEMORY) {
            /* A failure of the command itself, not of the job. */
            status = lml_fail(err, read, "%s", error.message);
        } else {
            status = lml_worker_pool_put_error(b->pool, 0, job.shown, &error, err);
        }
    }
    lml_builder_free(&text);
    return status;
}

/* The line is complete. A blank line is not a job. */
static lml_status put_line(batch *b, lml_error *err)
{
    char shown[sizeof LINE + 20];
    snprintf(shown, sizeof shown, "%s%zu", LINE, b->number);
    lml_error error;
    lml_status status = LML_OK,
               gathered = b->line.status == LML_OK ? gather(b, shown, &b->line, &error) : LML_OK;
    lml_job job = {.text = lml_span_trim(lml_builder_span(&b->line)), .shown = shown};
    if (gathered != LML_OK) {
        status = lml_worker_pool_put_error(b->pool, 0, shown, &error, err);
    } else if (b->line.status == LML_LIMIT) {
        lml_fail(&error, LML_LIMIT, "%s: the job is longer than %d bytes", shown,
                 (int)LML_STORE_SIZE);
        status = lml_worker_pool_put_error(b->pool, 0, shown, &error, err);
    } else if (b->line.status != LML_OK) {
        status = lml_builder_status(&b->line, err);
    } else if (job.text.length > 0) {
        status = lml_worker_pool_put(b->pool, 0, &job, err);
    }
    b->line.status = LML_OK;
    b->line.length = 0;
    b->number++;
    return status;
}

static lml_status put_block(batch *b, const char *at, const char *end, lml_error *err)
{
    lml_status status = LML_OK;
    while (at < end && status == LML_OK) {
        const char *feed = memchr(at, '\n', (size_t)(end - at));
        lml_builder_add_span(&b->line, lml_span_between(at, feed ? feed : end));
        at = feed ? feed + 1 : end;
        if (feed)
            status = put_line(b, err);
    }
    return status;
}

static lml_status put_lines(batch *b, lml_error *err)
{
    char block[BLOCK];
    lml_status status = LML_OK;
    b->number = 1;
    b->line = lml_builder_on(&b->call->alloc, LML_STORE_SIZE);
    while (status == LML_OK) {
        status = lml_worker_pool_await(b->pool, STDIN_FILENO, err);
        if (status != LML_OK)
            break;
        ssize_t got = read(STDIN_FILENO, block, sizeof block);
        if (got < 0 && (errno == EINTR || errno == EAGAIN))
            continue;
        if (got < 0)
            status = lml_fail(err, LML_NO_FILE, "cannot read standard input");
        else if (got == 0)
            break;
        else
            status = put_block(b, block, block + got, err);
    }
    if (status == LML_OK)
        status = put_line(b, err); /* a last line may lack its line feed */
    lml_builder_free(&b->line);
    return status;
}

/* ---- the command ---- */

static lml_status work(batch *b, const lml_jobs *jobs, lml_error *err)
{
    lml_worker_pool_orders orders = {.alloc = &b->call->alloc,
                                     .task = {.kit = {b->kit},
                                              .work = b->keep.folder ? work_and_keep : lml_ask_job,
                                              .limits = b->kit->limits},
                                     .deliver = deliver,
                                     .idle = emit,
                                     .self = b};
    lml_status status = lml_worker_pool_workers(&b->call->arguments, &orders.workers, err);
    if (status == LML_OK)
        status = lml_worker_pool_new(&orders, &b->pool, err);
    if (status == LML_OK)
        status = b->lines ? put_lines(b, err) : put_files(b, jobs, err);
    if (status == LML_OK)
        status = lml_worker_pool_finish(b->pool, err);
    lml_worker_pool_free(b->pool);
    return status;
}

static lml_status sum_up(const batch *b)
{
    if (!lml_call_quiet(b->call))
        lml_builder_add_format(
            &b->call->aside, "%zu jobs: %zu done, %zu stopped or with an open point, %zu failed\n",
            b->worked + b->stopped + b->failed, b->worked, b->stopped, b->failed);
    return b->failed > 0 ? LML_BAD_DATA : b->stopped > 0 ? LML_STOPPED : LML_OK;
}

static lml_status refuse_words(const lml_arguments *a, lml_error *err)
{
    const char *format = a->value[LML_OPTION_FORMAT];
    if (a->words == 0) {
        lml_fail(err, LML_USAGE, "lemel batch needs job files, folders of them, or -");
        lml_error_hint(err, "lemel batch jobs, or: ... | lemel batch -");
        return LML_USAGE;
    }
    for (size_t i = 0; i < a->words && a->words > 1; i++)
        if (strcmp(a->word[i], "-") == 0)
            return lml_fail(
                err, LML_USAGE,
                "- reads the jobs from standard input, but %s is named too: leave one out",
                a->word[i == 0]);
    if (format && strcmp(format, "text") == 0) {
        lml_fail(err, LML_USAGE, "lemel batch prints JSON lines only");
        lml_error_hint(err, "lemel run JOB prints the sheets of one job");
        return LML_USAGE;
    }
    return LML_OK;
}

lml_status lml_cmd_batch(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    lml_jobs jobs = {.alloc = &call->alloc};
    lml_kit kit = lml_kit_on(&call->alloc);
    batch b = {.call = call, .kit = &kit};
    char studio[LML_PATH];
    lml_status status = refuse_words(a, err);
    if (status != LML_OK)
        return status;
    b.lines = strcmp(a->word[0], "-") == 0;
    if (!b.lines)
        status = lml_jobs_find(call, 0, &jobs, err);
    lml_target first = {.kind = b.lines ? LML_TARGET_INPUT : LML_TARGET_JOB,
                        .path = jobs.count > 0 ? jobs.path[0] : NULL};
    if (status == LML_OK)
        status = lml_find_kit(call, &first, &kit, err);
    if (status == LML_OK)
        status = lml_keep_open(&b.keep, call, &kit, true, err);
    lml_find_studio(call, &first, studio);
    lml_unproved_open(&b.unproved, call, studio);
    if (status == LML_OK)
        status = work(&b, &jobs, err);
    if (status == LML_OK)
        status = sum_up(&b);
    lml_unproved_close(&b.unproved);
    lml_kit_free(&kit);
    lml_jobs_free(&jobs);
    return status;
}
