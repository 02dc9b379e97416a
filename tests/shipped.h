/* An engine with the scripts and recipes that ship on its shelf, and figures out of its results. */
#ifndef LML_TESTS_SHIPPED_H
#define LML_TESTS_SHIPPED_H

#include "lemel.h"

#include <cjson/cJSON.h>
#include <criterion/criterion.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static inline void shipped_put(lml_engine *engine, lml_put what, const char *folder)
{
    enum { SIZE = 1 << 19 };
    char path[600], name[200], *text = (char *)malloc(SIZE);
    snprintf(path, sizeof path, "%s/%s", LML_SOURCE_DIR, folder);
    DIR *dir = opendir(path);
    cr_assert(dir, "%s cannot be read", path);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        size_t length = strlen(entry->d_name);
        if (length < 5 || length >= sizeof name || strcmp(entry->d_name + length - 4, ".lua") != 0)
            continue;
        snprintf(name, sizeof name, "%.*s", (int)(length - 4), entry->d_name);
        snprintf(path, sizeof path, "%s/%s/%s", LML_SOURCE_DIR, folder, entry->d_name);
        FILE *file = fopen(path, "rb");
        cr_assert(file, "%s cannot be opened", path);
        length = fread(text, 1, SIZE, file);
        fclose(file);
        lml_error e;
        cr_assert_eq(lml_engine_put(engine, what, name, text, length, path, &e), LML_OK, "%s",
                     e.message);
    }
    closedir(dir);
    free(text);
}

static inline lml_engine *shipped_engine(void)
{
    lml_engine *engine = lml_engine_new(NULL);
    shipped_put(engine, LML_PUT_SCRIPT, "scripts");
    shipped_put(engine, LML_PUT_RECIPE, "recipes");
    return engine;
}

/* The whole result of a job; the caller deletes it. */
static inline cJSON *shipped_run(lml_engine *engine, const char *job)
{
    lml_text text;
    lml_error e;
    cr_assert_eq(lml_engine_run(engine, job, strlen(job), "job", &text, &e), LML_OK, "%s (%s)\n%s",
                 e.message, e.hint, job);
    cJSON *result = cJSON_Parse(text.text);
    lml_text_free(engine, &text);
    return result;
}

/* The value of results.NAME, or NULL when it is withheld or not there. */
static inline const cJSON *shipped_value(const cJSON *record, const char *name)
{
    return cJSON_GetObjectItemCaseSensitive(cJSON_GetObjectItemCaseSensitive(record, name),
                                            "value");
}

static inline const cJSON *shipped_give(const cJSON *result, const char *name)
{
    return shipped_value(cJSON_GetObjectItemCaseSensitive(result, "results"), name);
}

/* A member of an entry in a list of records. */
static inline const cJSON *shipped_member(const cJSON *entry, const char *name)
{
    return shipped_value(cJSON_GetObjectItemCaseSensitive(entry, "value"), name);
}

#endif
