/* again: a saved result compared with a new run of its job. The report is made as JSON, and printed
 * from that. */
#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/held.h"
#include "file/store.h"
#include "papers/differ.h"
#include "studio/unproved.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

enum { RESULT_MOST = 16 << 20, NODES_MOST = 2000000 };

typedef struct again {
    lml_call *call;
    lml_json_document *was, *is;
} again;

static lml_span input(const lml_json *result, const char *what, const char *member)
{
    const lml_json *inputs = lml_json_member(result, "inputs");
    return lml_json_text(lml_json_member(lml_json_member(inputs, what), member));
}

static lml_status read_result(again *a, const char *path, lml_error *err)
{
    lml_builder text = lml_builder_on(&a->call->alloc, 0);
    lml_json_limits limits = {.size = RESULT_MOST, .nodes = NODES_MOST};
    lml_status status = lml_store_read_named(path, RESULT_MOST, &text, err);
    if (status == LML_OK)
        status = lml_json_read(&a->call->alloc, (lml_span){text.at, text.length}, &limits, path,
                               &a->was, err);
    lml_builder_free(&text);
    if (status != LML_OK && status != LML_BAD_DATA)
        return status;
    const lml_json *root = a->was ? lml_json_root(a->was) : NULL;
    if (lml_json_kind_of(lml_json_member(root, "results")) == LML_JSON_RECORD &&
        input(root, "job", "digest").length > 0 && input(root, "job", "file").length > 0)
        return LML_OK;
    /* If it is anything else, none of it is shown. */
    lml_fail(err, LML_BAD_DATA, "%s is not a result that can be run again", path);
    lml_error_hint(err, "save one with: lemel run JOB --format json -o result.json");
    return LML_BAD_DATA;
}

/* A file that the result names, and no person: a stranger's result may name any file of this
 * computer. It is a plain file, and one that is no JSON record is refused without a line of it. */
static lml_status check_file(const again *a, const char *path, const char *what, lml_error *err)
{
    lml_builder text = lml_builder_on(&a->call->alloc, 0);
    lml_json_document *doc = NULL;
    lml_status status = lml_store_read(path, LML_STORE_SIZE, &text, err);
    if (status == LML_OK)
        status =
            lml_json_read(&a->call->alloc, (lml_span){text.at, text.length}, NULL, path, &doc, err);
    bool record = doc && lml_json_kind_of(lml_json_root(doc)) == LML_JSON_RECORD;
    lml_json_free(doc);
    lml_builder_free(&text);
    if (record || (status != LML_OK && status != LML_BAD_DATA))
        return status;
    lml_fail(err, LML_BAD_DATA, "%s, which %s names as its %s, is not a JSON record", path,
             a->call->arguments.word[0], what);
    lml_error_hint(err, "a %s has to be one: was the result changed?", what);
    return LML_BAD_DATA;
}

/* Typed values without a job file: the result names the recipe. */
static lml_target find_job(const again *a, size_t *first_value)
{
    const lml_arguments *words = &a->call->arguments;
    *first_value = 1;
    if (words->words > 1 && !strchr(words->word[1], '=')) {
        *first_value = 2;
        return lml_find_target(words->word[1]);
    }
    const lml_json *was = lml_json_root(a->was);
    lml_span file = input(was, "job", "file");
    if (lml_span_is(file, LML_JOB_TYPED))
        return (lml_target){
            .kind = LML_TARGET_RECIPE,
            .recipe = lml_json_text(lml_json_member(lml_json_member(was, "job"), "recipe"))};
    return (lml_target){.kind = LML_TARGET_JOB, .path = file.at};
}

/* From here on the house and prices of the result, where they still are and nobody names others.
 * One that the system does not let us read still counts as there. */
static lml_status aim(const again *a, lml_error *err)
{
    lml_call *call = a->call;
    static const struct {
        lml_option option;
        const char *what;
    } settings[] = {{LML_OPTION_HOUSE, "house"}, {LML_OPTION_PRICES, "prices"}};
    lml_status status = LML_OK;
    for (size_t i = 0; i < 2 && status == LML_OK; i++) {
        lml_span file = input(lml_json_root(a->was), settings[i].what, "file");
        bool gone = file.length == 0 ||
                    (access(file.at, F_OK) != 0 && (errno == ENOENT || errno == ENOTDIR));
        if (call->arguments.given[settings[i].option] || gone)
            continue;
        call->arguments.given[settings[i].option] = true;
        call->arguments.value[settings[i].option] = file.at;
        status = check_file(a, file.at, settings[i].what, err);
    }
    return status;
}

static lml_status work(again *a, lml_error *err)
{
    size_t first_value;
    bool stopped;
    char studio[LML_PATH];
    lml_target target = find_job(a, &first_value);
    lml_kit kit = lml_kit_on(&a->call->alloc);
    lml_job_text job = {.text = lml_builder_on(&a->call->alloc, 0)};
    lml_builder answer = lml_builder_on(&a->call->alloc, 0);
    lml_status status = aim(a, err);
    if (status == LML_OK)
        status = lml_find_kit(a->call, &target, &kit, err);
    bool in_reach = status == LML_OK;
    if (status == LML_OK && target.kind == LML_TARGET_JOB && !target.named)
        status = check_file(a, target.path, "job", err);
    if (status == LML_OK)
        status = lml_job_text_read(a->call, &target, &job, err);
    job.closing = lml_json_yes(lml_json_member(lml_json_root(a->was), "closing"));
    if (in_reach && status == LML_NO_FILE && first_value == 1 && target.kind == LML_TARGET_JOB)
        lml_error_hint(err, "name the job: lemel again %s JOB", a->call->arguments.word[0]);
    if (status == LML_OK)
        status = lml_held_put(a->call, first_value, &job, err);
    if (status == LML_OK)
        status = lml_ask_run(&kit, &job, &answer, &stopped, err);
    if (status != LML_OK)
        lml_job_text_blame(a->call, first_value, &job, err);
    if (status != LML_OK && target.kind == LML_TARGET_RECIPE && a->call->arguments.words == 1)
        lml_error_context(err, status,
                          "the values of %s were typed in: type them again after its name",
                          a->call->arguments.word[0]);
    if (status == LML_OK)
        status = lml_ask_parse(a->call, &answer, &a->is, err);
    lml_find_studio(a->call, &target, studio);
    if (status == LML_OK)
        status =
            lml_unproved_tell(a->call, studio, &kit, (lml_span){answer.at, answer.length}, err);
    lml_builder_free(&answer);
    lml_builder_free(&job.text);
    lml_kit_free(&kit);
    return status;
}

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words == 0) {
        lml_fail(err, LML_USAGE, "lemel again needs a saved result");
        lml_error_hint(err, "save one with: lemel run JOB --format json -o result.json");
        return LML_USAGE;
    }
    for (size_t i = 2; i < a->words; i++)
        if (!strchr(a->word[i], '='))
            return lml_fail(err, LML_USAGE,
                            "\"%s\" has no value: write NAME=VALUE, such as wax=\"2.85 g\"",
                            a->word[i]);
    return LML_OK;
}

static lml_status report(again *a, lml_error *err)
{
    lml_builder text = lml_builder_on(&a->call->alloc, 0);
    lml_json_document *doc = NULL;
    lml_json_writer w = lml_json_writer_on(&text, true);
    lml_differ_write(&w, a->call->arguments.word[0], lml_json_root(a->was), lml_json_root(a->is));
    lml_status status = lml_call_end_json(&w, err);
    lml_json_limits limits = {.size = text.length + 1, .nodes = NODES_MOST};
    if (status == LML_OK)
        status = lml_json_read(&a->call->alloc, (lml_span){text.at, text.length}, &limits,
                               "the report", &doc, err);
    bool same = doc && lml_json_yes(lml_json_member(lml_json_root(doc), "same"));
    if (status == LML_OK && lml_call_wants_json(a->call)) {
        lml_builder_add_span(&a->call->out, (lml_span){text.at, text.length});
    } else if (status == LML_OK && !(same && lml_call_quiet(a->call))) {
        lml_layout layout = {.out = &a->call->out, .width = a->call->width, .bold = a->call->bold};
        lml_differ_draw(&layout, lml_json_root(doc));
    }
    lml_json_free(doc);
    lml_builder_free(&text);
    if (status != LML_OK)
        return status;
    return same ? LML_OK : LML_STOPPED;
}

lml_status lml_cmd_again(lml_call *call, lml_error *err)
{
    again a = {.call = call};
    lml_status status = check_words(&call->arguments, err);
    if (status == LML_OK)
        status = read_result(&a, call->arguments.word[0], err);
    if (status == LML_OK)
        status = work(&a, err);
    if (status == LML_OK)
        status = report(&a, err);
    lml_json_free(a.is);
    lml_json_free(a.was);
    return status;
}
