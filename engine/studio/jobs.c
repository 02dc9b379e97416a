#include "studio/jobs.h"
#include "file/store.h"
#include "studio/find.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_ROOM = 64 };

static lml_status add(lml_jobs *jobs, lml_span folder, const char *name, lml_error *err)
{
    if (jobs->count == jobs->room) {
        size_t room = jobs->room ? 2 * jobs->room : FIRST_ROOM;
        char **moved = lml_alloc_resize(jobs->alloc, jobs->path, jobs->room * sizeof *moved,
                                        room * sizeof *moved);
        if (!moved)
            return lml_fail(err, LML_NO_MEMORY, "out of memory for the list of jobs");
        jobs->path = moved;
        jobs->room = room;
    }
    size_t length = strlen(name);
    char *path = lml_alloc_get(jobs->alloc, folder.length + length + 1);
    if (!path)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the list of jobs");
    memcpy(path, folder.at, folder.length);
    memcpy(path + folder.length, name, length + 1);
    jobs->path[jobs->count++] = path;
    return LML_OK;
}

static int by_bytes(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static bool is_job(const char *name)
{
    size_t length = strlen(name);
    return name[0] != '.' && length > 5 && strcmp(name + length - 5, ".json") == 0;
}

/* Whether a text is a result, as --format json prints one: its first member is "lemel". */
static bool is_result(lml_span text)
{
    static const char *const start[] = {"{", "\"lemel\"", ":"};
    size_t at = 0;
    for (size_t i = 0; i < sizeof start / sizeof *start; i++) {
        size_t length = strlen(start[i]);
        while (at < text.length && strchr(" \t\r\n", text.at[at]))
            at++;
        if (text.length - at < length || memcmp(text.at + at, start[i], length) != 0)
            return false;
        at += length;
    }
    return true;
}

/* A list of a part of the jobs would look like all of them. */
static lml_status refuse_folder(const char *path, int code, lml_error *err)
{
    const char *words = lml_store_reason(code);
    lml_fail(err, LML_NO_FILE, "cannot list the folder %s: %s", path,
             words ? words : strerror(code));
    lml_error_hint(err, "none of its jobs were run");
    return LML_NO_FILE;
}

static lml_status add_folder(lml_jobs *jobs, DIR *dir, const char *path, lml_error *err)
{
    size_t start = jobs->count;
    lml_builder folder = lml_builder_on(jobs->alloc, 0);
    lml_builder_add_text(&folder, path);
    if (path[strlen(path) - 1] != '/')
        lml_builder_add_char(&folder, '/');
    lml_status status = lml_builder_status(&folder, err);
    while (status == LML_OK) {
        errno = 0;
        const struct dirent *entry = readdir(dir);
        if (!entry && errno != 0)
            status = refuse_folder(path, errno, err);
        if (!entry)
            break;
        if (is_job(entry->d_name))
            status = add(jobs, (lml_span){folder.at, folder.length}, entry->d_name, err);
    }
    lml_builder_free(&folder);
    if (status == LML_OK && jobs->count == start) {
        lml_fail(err, LML_NO_FILE, "the folder %s has no jobs", path);
        lml_error_hint(err, "a job is a file that ends in .json");
        return LML_NO_FILE;
    }
    if (status == LML_OK)
        qsort(jobs->path + start, jobs->count - start, sizeof *jobs->path, by_bytes);
    return status;
}

static lml_status add_path(lml_jobs *jobs, const char *path, lml_error *err)
{
    DIR *dir = path[0] ? opendir(path) : NULL;
    int code = path[0] ? errno : ENOENT;
    if (!dir && code != ENOTDIR && code != ENOENT)
        return refuse_folder(path, code, err);
    if (!dir) /* a file, or nothing: reading it will say so */
        return add(jobs, (lml_span){"", 0}, path, err);
    lml_status status = add_folder(jobs, dir, path, err);
    closedir(dir);
    return status;
}

lml_status lml_jobs_find(const lml_call *call, size_t first, lml_jobs *out, lml_error *err)
{
    *out = (lml_jobs){.alloc = &call->alloc};
    lml_status status = LML_OK;
    for (size_t i = first; i < call->arguments.words && status == LML_OK; i++)
        status = add_path(out, call->arguments.word[i], err);
    if (status != LML_OK)
        lml_jobs_free(out);
    return status;
}

lml_status lml_jobs_find_in(const lml_call *call, const char *path, lml_jobs *out, lml_error *err)
{
    *out = (lml_jobs){.alloc = &call->alloc};
    lml_status status = add_path(out, path, err);
    if (status != LML_OK)
        lml_jobs_free(out);
    return status;
}

void lml_jobs_free(lml_jobs *jobs)
{
    for (size_t i = 0; i < jobs->count; i++)
        lml_alloc_free(jobs->alloc, jobs->path[i], strlen(jobs->path[i]) + 1);
    lml_alloc_free(jobs->alloc, jobs->path, jobs->room * sizeof *jobs->path);
    *jobs = (lml_jobs){.alloc = jobs->alloc};
}

lml_status lml_jobs_read(const lml_call *call, const lml_jobs *jobs, size_t index,
                         lml_builder *text, lml_error *err)
{
    const char *path = jobs->path[index];
    text->length = 0;
    lml_status status = lml_store_read(path, LML_STORE_SIZE, text, err);
    if (status == LML_OK && is_result(lml_builder_span(text))) {
        lml_fail(err, LML_BAD_DATA, "%s is a result, and no job", path);
        lml_error_hint(err, "keep results in a folder of their own: lemel again runs them again");
        return LML_BAD_DATA;
    }
    if (status != LML_OK || lml_find_same_studio(call, jobs->path[0], path))
        return status;
    lml_fail(err, LML_BAD_DATA, "%s belongs to a different studio from %s", path, jobs->path[0]);
    lml_error_hint(err, "run it separately, or name the settings for all of them with --house");
    return LML_BAD_DATA;
}
