/* What the demo's jobs cost, in instructions of the processor, and what becomes of that when there
 * is a hundred or two of a thing: bench_counts SOURCE-FOLDER [ROW ...]
 *
 * callgrind counts, which tests/bench/counts.sh starts: it holds each row to
 * tests/bench/ceilings.txt. Without callgrind the jobs are worked and nothing is said. Each row
 * leaves one dump with its name; what goes before it (reading files, making an engine warm) is not
 * counted. */
#define _DEFAULT_SOURCE
#include "face/pair.h"
#include "face/tries.h"
#include "lemel.h"
#include "trial/sure.h"

#include <cjson/cJSON.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <valgrind/callgrind.h>

enum { PATH = 600, FILES = 400, FEW = 100, MANY = 200 };

typedef struct file {
    lml_put what;
    char name[80], shown[PATH];
    char *text;
    size_t length;
} file;

static struct studio {
    const char *source;
    file file[FILES];
    size_t count;
} studio;

static _Noreturn void fail(const char *what, const char *why)
{
    fprintf(stderr, "bench_counts: %s: %s\n", what, why);
    exit(1);
}

/* ---- files ---- */

static char *read_text(const char *path, size_t *length)
{
    FILE *in = fopen(path, "rb");
    char *text = malloc(1 << 20);
    if (!in || !text)
        fail(path, "cannot be read");
    *length = fread(text, 1, (1 << 20) - 1, in);
    text[*length] = '\0';
    fclose(in);
    return text;
}

static void take_file(lml_put what, const char *name, const char *shown)
{
    char path[2 * PATH];
    file *f = &studio.file[studio.count++];
    f->what = what;
    snprintf(f->name, sizeof f->name, "%s", name);
    snprintf(f->shown, sizeof f->shown, "%s", shown);
    snprintf(path, sizeof path, "%s/%s", studio.source, shown);
    f->text = read_text(path, &f->length);
}

static void take_folder(const char *folder, lml_put what)
{
    char path[PATH], name[80];
    snprintf(path, sizeof path, "%s/%s", studio.source, folder);
    struct dirent **entry;
    int count = scandir(path, &entry, NULL, alphasort);
    for (int i = 0; i < count; i++) {
        size_t length = strlen(entry[i]->d_name);
        if (length > 4 && strcmp(entry[i]->d_name + length - 4, ".lua") == 0) {
            snprintf(name, sizeof name, "%.*s", (int)(length - 4), entry[i]->d_name);
            snprintf(path, sizeof path, "%s/%s.lua", folder, name);
            take_file(what, name, path);
        }
        free(entry[i]);
    }
    free(entry);
    if (count < 0)
        fail(path, "cannot be listed");
}

/* ---- engines ---- */

static lml_engine *make_engine(void)
{
    lml_error e;
    lml_engine *engine = lml_engine_new(NULL);
    for (size_t i = 0; i < studio.count; i++) {
        const file *f = &studio.file[i];
        if (lml_engine_put(engine, f->what, f->name, f->text, f->length, f->shown, &e))
            fail(f->shown, e.message);
    }
    return engine;
}

static void work(lml_engine *engine, const char *job, lml_text *result)
{
    lml_error e;
    if (lml_engine_run(engine, job, strlen(job), "job.json", result, &e)) {
        fprintf(stderr, "%s\n", e.hint);
        fail("a job cannot be worked", e.message);
    }
}

static void work_once(lml_engine *engine, const char *job)
{
    lml_text result;
    work(engine, job, &result);
    lml_text_free(engine, &result);
}

/* An engine that has worked the job twice keeps what it loaded for it. */
static lml_engine *make_warm(const char *job)
{
    lml_engine *engine = make_engine();
    for (int i = 0; i < 3; i++)
        work_once(engine, job);
    return engine;
}

/* ---- jobs ---- */

static cJSON *read_job(const char *name)
{
    char path[PATH];
    size_t length;
    snprintf(path, sizeof path, "%s/examples/jobs/%s.json", studio.source, name);
    char *text = read_text(path, &length);
    cJSON *job = cJSON_Parse(text);
    free(text);
    if (!job)
        fail(path, "is no JSON");
    return job;
}

static char *print_job(cJSON *job)
{
    char *text = cJSON_PrintUnformatted(job);
    cJSON_Delete(job);
    return text;
}

static cJSON *given_of(cJSON *job)
{
    return cJSON_GetObjectItem(job, "given");
}

static void set_text(cJSON *record, const char *name, const char *format, double figure)
{
    char text[80];
    snprintf(text, sizeof text, format, figure);
    cJSON_DeleteItemFromObject(record, name);
    cJSON_AddStringToObject(record, name, text);
}

/* The list `name` with `count` copies of its item number `of`. */
static cJSON *multiply(cJSON *given, const char *name, int of, int count)
{
    cJSON *list = cJSON_GetObjectItem(given, name), *many = cJSON_CreateArray();
    for (int i = 0; i < count; i++) {
        cJSON *item = cJSON_Duplicate(cJSON_GetArrayItem(list, of), true);
        set_text(item, "name", "item %.0f", i + 1);
        cJSON_AddItemToArray(many, item);
    }
    cJSON_ReplaceItemInObject(given, name, many);
    return many;
}

/* The need, charge and quote of beside/small.py. */
static char *small_job(int unused)
{
    (void)unused;
    return print_job(read_job("../../tests/bench/beside/job"));
}

static char *main_job(int unused)
{
    (void)unused;
    return print_job(read_job("cuff-links"));
}

/* The old gold of the main job in so many pieces. */
static char *pieces(int count)
{
    cJSON *job = read_job("cuff-links"), *item;
    cJSON_ArrayForEach(item, multiply(given_of(job), "old_metal", 0, count))
    {
        set_text(item, "gross", "%.3f dwt", 16.67 / count);
        set_text(item, "stones", "%.4f g ± 0.001 g", 0.1 / count);
    }
    return print_job(job);
}

static char *returned(int count)
{
    cJSON *job = read_job("cuff-links");
    multiply(given_of(job), "old_metal", 2, count);
    return print_job(job);
}

static char *patterns(int count)
{
    cJSON *job = read_job("cuff-links"), *item;
    cJSON_ArrayForEach(item, multiply(given_of(job), "patterns", 0, count))
        set_text(item, "wax", "%.5f g", 0.796 / count);
    return print_job(job);
}

static char *lots(int count)
{
    cJSON *job = read_job("cuff-links"), *item;
    int i = 0;
    cJSON *list = multiply(given_of(job), "lots", 1, count);
    cJSON_ArrayForEach(item, list) set_text(item, "price", "%.2f USD/g", 59 + 0.01 * i++);
    item = cJSON_CreateObject();
    cJSON_AddStringToObject(item, "name", "fine gold");
    cJSON_AddStringToObject(item, "metal", "fine gold");
    cJSON_AddStringToObject(item, "price", "100.47 USD/g");
    cJSON_AddItemToArray(list, item);
    return print_job(job);
}

/* Lots that are all of another metal, for the solver to choose from. */
static char *metals(int count)
{
    cJSON *job = read_job("cuff-links"), *item;
    int i = 0;
    cJSON_ArrayForEach(item, multiply(given_of(job), "lots", 1, count))
    {
        double gold = 500 + 450.0 * i / count;
        set_text(item, "metal", "%.2f ‰", gold);
        set_text(item, "price", "%.2f USD/g", gold / 10 + i++ * 37 % 11);
    }
    return print_job(job);
}

static char *stones(int count)
{
    cJSON *job = read_job("cuff-links"), *item;
    cJSON *list = multiply(given_of(job), "stones", 0, count);
    cJSON_ArrayForEach(item, list)
    {
        cJSON_DeleteItemFromObject(item, "name");
        cJSON_SetNumberValue(cJSON_GetObjectItem(item, "count"), 1);
        set_text(item, "length", "%.1f mm", 1.0);
        set_text(item, "depth", "%.1f mm", 0.6);
        set_text(item, "cost", "%.2f USD", 2);
    }
    return print_job(job);
}

static char *rings(int count)
{
    cJSON *job = read_job("warden-rings");
    multiply(given_of(job), "rings", 1, count);
    set_text(given_of(job), "wish", "%.1f g", 9.0 * count + 20);
    return print_job(job);
}

/* A quote with so many lines of work. */
static char *hours(int count)
{
    char name[20];
    cJSON *job = read_job("cuff-links"), *many = cJSON_CreateObject();
    for (int i = 0; i < count; i++) {
        snprintf(name, sizeof name, "work %d", i + 1);
        cJSON_AddStringToObject(many, name, "3 min");
    }
    cJSON_ReplaceItemInObject(given_of(job), "hours", many);
    return print_job(job);
}

/* So many weighings in the record. */
static char *record(int count)
{
    cJSON *job = read_job("cuff-links"), *list = cJSON_AddArrayToObject(job, "record");
    for (int i = 0; i < count; i++) {
        cJSON *entry = cJSON_CreateObject();
        cJSON_AddStringToObject(entry, "at", "2026-11-26T14:20");
        cJSON_AddStringToObject(entry, "what", "wax of a test");
        set_text(entry, "mass", "%.2f g", 1 + i / 100.0);
        cJSON_AddItemToArray(list, entry);
    }
    return print_job(job);
}

static char *jars(int count)
{
    cJSON *job = read_job("cloak-pin-topup"), *item;
    cJSON *list = multiply(given_of(job), "jars", 0, count);
    int i = 0;
    cJSON_ArrayForEach(item, list) set_text(item, "mass", "%.2f g", 1 + i++ / 100.0);
    return print_job(job);
}

/* So many flasks in the kiln on one day. */
static char *flasks(int count)
{
    cJSON *job = cJSON_CreateObject();
    cJSON_AddStringToObject(job, "recipe", "day");
    cJSON_AddStringToObject(job, "date", "2026-11-24T10:00");
    cJSON *given = cJSON_AddObjectToObject(job, "given");
    cJSON_AddStringToObject(given, "pour", "2026-11-28T14:00");
    cJSON *load = cJSON_AddArrayToObject(given, "load");
    for (int i = 0; i < count; i++) {
        cJSON *flask = cJSON_CreateObject();
        set_text(flask, "name", "F%.0f", i + 1);
        set_text(flask, "diameter", "%.1f mm", 63.5);
        set_text(flask, "height", "%.1f mm", 63.5);
        cJSON_AddStringToObject(flask, "pattern", "wax");
        set_text(flask, "temperature", "%.0f °C", 560);
        cJSON_AddStringToObject(flask, "metal", "yellow 14K zinc-bearing");
        cJSON_AddItemToArray(load, flask);
    }
    return print_job(job);
}

/* So many jobs of a studio, one a line: each has weighings of its own, and a button that the next
 * one takes some of. */
static char *books(int count)
{
    size_t used = 0, room = (size_t)count * 16000;
    char *text = malloc(room);
    if (!text)
        fail("book", "no memory");
    for (int i = 0; i < count; i++) {
        char words[80];
        cJSON *job = read_job("cuff-links-closing"), *entry;
        cJSON_ArrayForEach(entry, cJSON_GetObjectItem(job, "record"))
        {
            snprintf(words, sizeof words, "%.50s %d",
                     cJSON_GetStringValue(cJSON_GetObjectItem(entry, "what")), i);
            cJSON_ReplaceItemInObject(entry, "what", cJSON_CreateString(words));
        }
        cJSON *taken = cJSON_CreateObject();
        cJSON_AddStringToObject(taken, "at", "2026-12-02T09:00");
        snprintf(words, sizeof words, "of the last button, %d", i);
        cJSON_AddStringToObject(taken, "what", words);
        cJSON_AddStringToObject(taken, "mass", "1.00 g");
        cJSON_AddStringToObject(taken, "fineness", "587 ‰");
        cJSON_AddStringToObject(taken, "owner", "client");
        cJSON_AddStringToObject(taken, "way", "added");
        snprintf(words, sizeof words, "job %d: button, as much of it as the studio put in %d",
                 i - 1, i - 1);
        if (i > 0)
            cJSON_AddStringToObject(taken, "from", words);
        cJSON_AddItemToArray(cJSON_GetObjectItem(job, "record"), taken);
        char *printed = cJSON_PrintUnformatted(job);
        used += (size_t)snprintf(text + used, room - used, "%s\n", printed);
        cJSON_free(printed);
        cJSON_Delete(job);
    }
    return text;
}

/* ---- rows ---- */

struct row {
    const char *name;
    void (*count)(const char *job, const struct row *row);
    char *(*job)(int count);
    int many;
};

/* The jobs of a text, one a line, added up. */
static void book(const char *jobs, const struct row *row)
{
    static lml_source source[MANY];
    static char name[MANY][20];
    lml_error e;
    lml_text out;
    size_t count = 0;
    for (const char *end; (end = strchr(jobs, '\n')); jobs = end + 1, count++) {
        snprintf(name[count], sizeof name[count], "job %zu", count);
        source[count] = (lml_source){jobs, (size_t)(end - jobs), name[count]};
    }
    lml_engine *engine = make_engine();
    CALLGRIND_START_INSTRUMENTATION;
    if (lml_engine_book(engine, source, count, NULL, &out, &e))
        fail(row->name, e.message);
    CALLGRIND_STOP_INSTRUMENTATION;
    CALLGRIND_DUMP_STATS_AT(row->name);
    if (out.stopped)
        fail(row->name, "the book is not sound");
    lml_text_free(engine, &out);
    lml_engine_free(engine);
}

static void cold(const char *job, const struct row *row)
{
    lml_error e;
    lml_text result, sheets, unseen;
    CALLGRIND_START_INSTRUMENTATION;
    lml_engine *engine = make_engine();
    work(engine, job, &result);
    if (lml_engine_draw(engine, &result, &(lml_look){.page = NULL}, &sheets, &unseen, &e))
        fail(row->name, e.message);
    lml_text_free(engine, &unseen);
    lml_text_free(engine, &sheets);
    lml_text_free(engine, &result);
    lml_engine_free(engine);
    CALLGRIND_STOP_INSTRUMENTATION;
    CALLGRIND_DUMP_STATS_AT(row->name);
}

/* Worked by an engine that has worked the same job with a few of the thing: three times as much to
 * work, none of it counted, would be most of the time that this program takes. */
static void warm(const char *job, const struct row *row)
{
    char *few = row->job(row->many ? 3 : 0);
    lml_engine *engine = make_warm(few);
    free(few);
    CALLGRIND_START_INSTRUMENTATION;
    work_once(engine, job);
    CALLGRIND_STOP_INSTRUMENTATION;
    CALLGRIND_DUMP_STATS_AT(row->name);
    lml_engine_free(engine);
}

/* One draw of `sure`: the job's text with other figures in it, worked, and what came of it counted.
 */
static void draw(const char *job, const struct row *row)
{
    lml_error e;
    lml_text as_it_stands, drawn;
    lml_json_document *result;
    lml_sure *sure;
    lml_engine *engine = make_warm(job);
    lml_alloc heap = lml_alloc_heap();
    work(engine, job, &as_it_stands);
    if (lml_json_read(&heap, (lml_span){as_it_stands.text, as_it_stands.length}, NULL, "result",
                      &result, &e) ||
        lml_sure_open(&sure,
                      &(lml_sure_orders){.alloc = &heap,
                                         .job = {job, strlen(job)},
                                         .shown = "job.json",
                                         .result = lml_json_root(result)},
                      &e))
        fail(row->name, e.message);
    lml_json_free(result);
    lml_text_free(engine, &as_it_stands);
    if (lml_tries_open(engine, lml_sure_about(sure), &e))
        fail(row->name, e.message);
    while (lml_sure_draws(sure) < 3) {
        lml_builder text = lml_builder_on(&heap, 0);
        if (lml_sure_draws(sure) == 2)
            CALLGRIND_START_INSTRUMENTATION;
        if (lml_sure_next(sure, &text, &e) ||
            lml_tries_draw(engine, (lml_span){text.at, text.length}, "job.json", &drawn, &e) ||
            lml_sure_take(sure, (lml_span){drawn.text, drawn.length}, NULL, &e))
            fail(row->name, e.message);
        lml_text_free(engine, &drawn);
        lml_builder_free(&text);
    }
    CALLGRIND_STOP_INSTRUMENTATION;
    CALLGRIND_DUMP_STATS_AT(row->name);
    lml_tries_close(engine);
    lml_sure_free(sure);
    lml_engine_free(engine);
}

/* The same job with another policy in the place of its own, and the two results compared. */
static void compare_pair(const char *job, const struct row *row, bool keeps)
{
    static const char changed[] = "quote_own_metal";
    lml_error e;
    lml_text report;
    lml_pair_side side[2];
    lml_engine *engine[2] = {make_warm(job), make_engine()};
    const file *f = studio.file;
    while (strcmp(f->name, "quote_doubled") != 0)
        f++;
    if (lml_engine_put(engine[1], LML_PUT_RECIPE, changed, f->text, f->length, f->shown, &e))
        fail(row->name, e.message);
    for (int i = 0; i < 3; i++)
        work_once(engine[1], job);
    lml_alloc heap = lml_alloc_heap();
    lml_builder bytes = lml_builder_on(&heap, 0);
    lml_text result;
    if (keeps &&
        lml_pair_keep(engine[0], (lml_span){job, strlen(job)}, "job.json", &result, &bytes, &e))
        fail(row->name, e.message);
    if (keeps)
        lml_text_free(engine[0], &result);
    lml_span kept = {bytes.at, bytes.length};
    CALLGRIND_START_INSTRUMENTATION;
    lml_pair_work(engine, changed, (lml_span){job, strlen(job)}, "job.json", kept, side);
    if (side[0].status || side[1].status || side[1].same)
        fail(row->name, "no two results to compare");
    if (lml_engine_compare(engine[0], &side[0].result, &side[1].result, NULL, &report, &e))
        fail(row->name, e.message);
    CALLGRIND_STOP_INSTRUMENTATION;
    CALLGRIND_DUMP_STATS_AT(row->name);
    lml_text_free(engine[0], &report);
    lml_pair_free(engine, side);
    lml_builder_free(&bytes);
    lml_engine_free(engine[0]);
    lml_engine_free(engine[1]);
}

static void compared(const char *job, const struct row *row)
{
    compare_pair(job, row, false);
}

static void compared_with_kept(const char *job, const struct row *row)
{
    compare_pair(job, row, true);
}

/* A result held against itself. */
static void again(const char *job, const struct row *row)
{
    lml_error e;
    lml_text result, report;
    lml_engine *engine = make_engine();
    work(engine, job, &result);
    CALLGRIND_START_INSTRUMENTATION;
    if (lml_engine_again(engine, &result, &result, "result.json", &report, &e))
        fail(row->name, e.message);
    CALLGRIND_STOP_INSTRUMENTATION;
    CALLGRIND_DUMP_STATS_AT(row->name);
    lml_text_free(engine, &report);
    lml_text_free(engine, &result);
    lml_engine_free(engine);
}

/* So many KB of comment: what begins like a block that has not ended yet, line after line. */
static char *comment(int count)
{
    static const char line[] =
        "-- [==[ a line of no use ]=] \"that looks like more -- than it is\n";
    const file *f = &studio.file[studio.count - 1];
    while (strcmp(f->name, "small") != 0)
        f--;
    size_t lines = (size_t)count * 1000 / (sizeof line - 1), length = sizeof line - 1;
    char *text = malloc(lines * length + f->length + 1);
    if (!text)
        fail("comment", "no memory");
    for (size_t i = 0; i < lines; i++)
        memcpy(text + i * length, line, length);
    memcpy(text + lines * length, f->text, f->length + 1);
    return text;
}

/* A recipe read, worked and looked through for slips. */
static void read_recipe(const char *text, const struct row *row)
{
    lml_error e;
    lml_text advice;
    char *job = small_job(0);
    lml_engine *engine = make_engine();
    CALLGRIND_START_INSTRUMENTATION;
    if (lml_engine_put(engine, LML_PUT_OWN_RECIPE, "small", text, strlen(text), "small.lua", &e))
        fail(row->name, e.message);
    work_once(engine, job);
    if (lml_engine_advise(engine, "small", &advice, &e))
        fail(row->name, e.message);
    CALLGRIND_STOP_INSTRUMENTATION;
    CALLGRIND_DUMP_STATS_AT(row->name);
    lml_text_free(engine, &advice);
    lml_engine_free(engine);
    free(job);
}

/* A recipe with twenty lines of work for each, whose constants stand in the line, have names, are
 * fields, or are calculated. */
static char *constants(int count)
{
    enum { LINES = 20, LINE = 60 };
    static const char *const line[] = {
        "x = x + job.a * 1.%d\n", "x = x + job.a * FEW\n", "x = x + job.a * (1.%d + job.n)\n",
        "x = x + job.a * (1 + FEW)\n", "x = x + job.a * MANY.few * 1.%d\n"};
    const size_t room = (size_t)count * LINES * LINE + 1000, kinds = sizeof line / sizeof *line;
    char *text = malloc(room);
    if (!text)
        fail("constants", "no memory");
    size_t used =
        (size_t)sprintf(text, "local FEW = 1.62 -- a source\nlocal MANY = { few = 1.7 }\n"
                              "return recipe { title = \"Many\", version = \"1.0.0\", "
                              "licence = \"CC0-1.0\", level = 1, uses = {},\n"
                              "asks = { a = ask.mass { \"A\" }, n = ask.number { \"N\" } },\n"
                              "allowances = {}, gives = { x = give.mass \"X\" },\n"
                              "work = function (job, house, sheet)\nlocal x = job.a\n");
    for (int i = 0; i < count * LINES; i++)
        used += (size_t)snprintf(text + used, LINE, line[(size_t)i % kinds], i);
    sprintf(text + used, "return { x = x }\nend, proofs = {} }\n");
    return text;
}

/* Where all that is from. */
static void told(const char *text, const struct row *row)
{
    static const char job[] = "{\"recipe\":\"small\",\"title\":\"t\",\"date\":\"2026-11-24\","
                              "\"given\":{\"a\":\"2 g\",\"n\":3}}";
    lml_error e;
    lml_text why;
    lml_engine *engine = make_engine();
    if (lml_engine_put(engine, LML_PUT_OWN_RECIPE, "small", text, strlen(text), "small.lua", &e))
        fail(row->name, e.message);
    CALLGRIND_START_INSTRUMENTATION;
    if (lml_engine_why(engine, job, strlen(job), "job.json", &(lml_asked_why){.figure = "x"}, &why,
                       &e))
        fail(row->name, e.message);
    CALLGRIND_STOP_INSTRUMENTATION;
    CALLGRIND_DUMP_STATS_AT(row->name);
    lml_text_free(engine, &why);
    lml_engine_free(engine);
}

static const struct row rows[] = {
    {"cold main job", cold, main_job, 0},
    {"cold small job", cold, small_job, 0},
    {"warm small job", warm, small_job, 0},
    {"warm main job", warm, main_job, 0},
    {"a draw of the main job", draw, main_job, 0},
    {"a pair compared", compared, main_job, 0},
    {"a pair, one side kept", compared_with_kept, main_job, 0},
    {"100 old pieces", warm, pieces, FEW},
    {"200 old pieces", warm, pieces, MANY},
    {"100 pieces returned", warm, returned, FEW},
    {"200 pieces returned", warm, returned, MANY},
    {"100 patterns", warm, patterns, FEW},
    {"200 patterns", warm, patterns, MANY},
    {"100 lots", warm, lots, FEW},
    {"200 lots", warm, lots, MANY},
    {"100 metals", warm, metals, FEW},
    {"200 metals", warm, metals, MANY},
    {"100 stones", warm, stones, FEW},
    {"200 stones", warm, stones, MANY},
    {"100 rings", warm, rings, FEW},
    {"200 rings", warm, rings, MANY},
    {"100 lines of work", warm, hours, FEW},
    {"200 lines of work", warm, hours, MANY},
    {"100 weighings", warm, record, FEW},
    {"200 weighings", warm, record, MANY},
    {"100 jars", warm, jars, FEW},
    {"200 jars", warm, jars, MANY},
    {"100 jobs in a book", book, books, FEW},
    {"200 jobs in a book", book, books, MANY},
    {"100 KB of comment", read_recipe, comment, FEW},
    {"200 KB of comment", read_recipe, comment, MANY},
    {"100 constants told", told, constants, FEW},
    {"200 constants told", told, constants, MANY},
    {"100 pieces again", again, pieces, FEW},
    {"200 pieces again", again, pieces, MANY},
    {"100 flasks", warm, flasks, FEW},
    {"200 flasks", warm, flasks, MANY},
};

static bool is_wanted(const char *row, char **words, int count)
{
    bool wanted = count == 0;
    for (int i = 0; i < count; i++)
        wanted = wanted || strcmp(row, words[i]) == 0;
    return wanted;
}

int main(int argc, char **argv)
{
    if (argc < 2)
        fail("usage", "bench_counts SOURCE-FOLDER [ROW ...]");
    studio.source = argv[1];
    take_folder("recipes", LML_PUT_RECIPE);
    take_folder("scripts", LML_PUT_SCRIPT);
    take_file(LML_PUT_RECIPE, "small", "tests/bench/beside/recipes/small.lua");
    take_file(LML_PUT_HOUSE, "", "examples/house.json");
    take_file(LML_PUT_PRICES, "", "examples/prices.json");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        if (!is_wanted(rows[i].name, argv + 2, argc - 2))
            continue;
        char *job = rows[i].job(rows[i].many);
        rows[i].count(job, &rows[i]);
        free(job);
    }
    for (size_t i = 0; i < studio.count; i++)
        free(studio.file[i].text);
    return 0;
}
