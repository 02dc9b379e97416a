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

static inline char *shipped_read(const char *path)
{
    enum { SIZE = 1 << 20 };
    char *text = (char *)malloc(SIZE);
    FILE *file = fopen(path, "rb");
    cr_assert(file, "%s cannot be opened", path);
    size_t length = fread(text, 1, SIZE, file);
    cr_assert(length < SIZE, "%s is too long", path);
    text[length] = '\0';
    fclose(file);
    return text;
}

static inline void shipped_put_file(lml_engine *engine, lml_put what, const char *name,
                                    const char *path)
{
    char *text = shipped_read(path);
    lml_error e;
    cr_assert_eq(lml_engine_put(engine, what, name, text, strlen(text), path, &e), LML_OK, "%s",
                 e.message);
    free(text);
}

static inline void shipped_put(lml_engine *engine, lml_put what, const char *folder)
{
    char path[600], name[200];
    snprintf(path, sizeof path, "%s/%s", LML_SOURCE_DIR, folder);
    DIR *dir = opendir(path);
    cr_assert(dir, "%s cannot be read", path);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        size_t length = strlen(entry->d_name);
        if (length < 5 || length >= sizeof name || strcmp(entry->d_name + length - 4, ".lua") != 0)
            continue;
        snprintf(name, sizeof name, "%.*s", (int)(length - 4), entry->d_name);
        snprintf(path, sizeof path, "%s/%s/%s", LML_SOURCE_DIR, folder, entry->d_name);
        shipped_put_file(engine, what, name, path);
    }
    closedir(dir);
}

static inline lml_engine *shipped_engine(void)
{
    lml_engine *engine = lml_engine_new(NULL);
    shipped_put(engine, LML_PUT_SCRIPT, "scripts");
    shipped_put(engine, LML_PUT_RECIPE, "recipes");
    return engine;
}

/* With the demo studio's settings and prices too. */
static inline void shipped_put_studio(lml_engine *engine)
{
    shipped_put(engine, LML_PUT_SCRIPT, "scripts");
    shipped_put(engine, LML_PUT_RECIPE, "recipes");
    shipped_put_file(engine, LML_PUT_HOUSE, NULL, LML_SOURCE_DIR "/examples/house.json");
    shipped_put_file(engine, LML_PUT_PRICES, NULL, LML_SOURCE_DIR "/examples/prices.json");
}

static inline lml_engine *shipped_studio(void)
{
    lml_engine *engine = lml_engine_new(NULL);
    shipped_put_studio(engine);
    return engine;
}

/* The job with what came of the demo's jobs that it lists. The text is taken over, and the caller
 * frees what is given instead. */
static inline char *shipped_gathered(lml_engine *engine, char *job)
{
    enum { MOST = 8 };
    cJSON *json = cJSON_Parse(job);
    const cJSON *one;
    lml_source listed[MOST];
    char shown[MOST][600], *text[MOST];
    size_t count = 0;
    lml_text after;
    lml_error e;
    cJSON_ArrayForEach(one, cJSON_GetObjectItemCaseSensitive(json, "jobs"))
    {
        snprintf(shown[count], sizeof shown[count], "%s/examples/jobs/%s", LML_SOURCE_DIR,
                 one->valuestring);
        text[count] = shipped_read(shown[count]);
        listed[count] = (lml_source){text[count], strlen(text[count]), shown[count]};
        count++;
    }
    cJSON_Delete(json);
    cr_assert_eq(lml_engine_gather(engine, job, strlen(job), "job", count ? listed : NULL, count,
                                   &after, &e),
                 LML_OK, "%s (%s)", e.message, e.hint);
    free(job);
    for (size_t i = 0; i < count; i++)
        free(text[i]);
    job = (char *)malloc(after.length + 1);
    memcpy(job, after.text, after.length + 1);
    lml_text_free(engine, &after);
    return job;
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
