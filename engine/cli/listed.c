#include "cli/listed.h"

#include "base/shell.h"
#include "file/json.h"
#include "file/store.h"

#include <string.h>

static bool is_json_record(const lml_alloc *alloc, const lml_builder *text)
{
    lml_json_document *doc = NULL;
    lml_error ignored;
    bool record =
        lml_json_read(alloc, lml_builder_span(text), NULL, "", &doc, &ignored) == LML_OK &&
        lml_json_kind_of(lml_json_root(doc)) == LML_JSON_RECORD;
    lml_json_free(doc);
    return record;
}

/* "jobs/friday.json" and "red-ring.json" are "jobs/red-ring.json". */
static char *path_of(const lml_alloc *alloc, const char *job, lml_span file)
{
    const char *slash = strrchr(job, '/');
    bool beside = slash && !lml_span_starts(file, "/");
    size_t folder = beside ? (size_t)(slash - job) + 1 : 0;
    char *path = lml_alloc_get(alloc, folder + file.length + 1);
    if (path) {
        memcpy(path, job, folder);
        memcpy(path + folder, file.at, file.length);
        path[folder + file.length] = '\0';
    }
    return path;
}

static lml_status read_one(const lml_alloc *alloc, const lml_json *node, const char *job,
                           lml_source *out, lml_error *err)
{
    char word[LML_SHELL_WORD];
    lml_builder text = lml_builder_on(alloc, 0);
    char *path = path_of(alloc, job, lml_json_text(node));
    if (!path)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the listed jobs");
    out->shown = path;
    lml_status status = lml_store_read(path, LML_STORE_SIZE, &text, err);
    if (status == LML_NO_FILE)
        lml_json_place(node, status, err);
    if (status == LML_OK && !is_json_record(alloc, &text)) {
        status = lml_json_fail(node, err, LML_BAD_DATA, "%s cannot be read as a job", path);
        lml_error_hint(err, "lemel check %s says what is wrong in it",
                       lml_shell_word(lml_span_of(path), word));
    }
    if (status == LML_OK) {
        out->length = text.length;
        out->text = lml_span_copy(alloc, (lml_span){text.at, text.length});
        if (!out->text)
            status = lml_fail(err, LML_NO_MEMORY, "out of memory for the listed jobs");
    }
    lml_builder_free(&text);
    return status;
}

static lml_status read_all(const lml_json *list, const char *job, lml_listed *out, lml_error *err)
{
    lml_status status = LML_OK;
    size_t count = lml_json_count(list), size = count * sizeof *out->jobs;
    out->lists = list != NULL;
    if (count == 0)
        return LML_OK;
    out->jobs = lml_alloc_get(out->alloc, size);
    if (!out->jobs)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the listed jobs");
    memset(out->jobs, 0, size);
    out->count = count;
    const lml_json *node = lml_json_first(list);
    for (size_t i = 0; i < count && status == LML_OK; i++, node = lml_json_next(node))
        status = read_one(out->alloc, node, job, &out->jobs[i], err);
    return status;
}

static bool is_list_of_texts(const lml_json *list)
{
    bool all = lml_json_kind_of(list) == LML_JSON_LIST;
    for (const lml_json *n = lml_json_first(list); n && all; n = lml_json_next(n))
        all = lml_json_text(n).length > 0;
    return all;
}

lml_status lml_listed_read(const lml_alloc *alloc, const lml_job_text *job, lml_listed *out,
                           lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_error ignored;
    *out = (lml_listed){.alloc = alloc};
    lml_span text = lml_builder_span(&job->text);
    if (lml_json_read(alloc, text, NULL, job->shown, &doc, &ignored) != LML_OK)
        return LML_OK;
    const lml_json *list = lml_json_member(lml_json_root(doc), "jobs");
    lml_status status = is_list_of_texts(list) ? read_all(list, job->shown, out, err) : LML_OK;
    lml_json_free(doc);
    if (status != LML_OK)
        lml_listed_free(out);
    return status;
}

void lml_listed_free(lml_listed *listed)
{
    for (size_t i = 0; i < listed->count; i++) {
        lml_source *job = &listed->jobs[i];
        if (job->shown)
            lml_alloc_free(listed->alloc, (void *)(uintptr_t)job->shown, strlen(job->shown) + 1);
        if (job->text)
            lml_alloc_free(listed->alloc, (void *)(uintptr_t)job->text, job->length + 1);
    }
    lml_alloc_free(listed->alloc, listed->jobs, listed->count * sizeof *listed->jobs);
    *listed = (lml_listed){.alloc = listed->alloc};
}
