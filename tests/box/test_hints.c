/* A hint shows what can be typed: the example that is printed for each ask and each allowance of
 * every recipe is put where it belongs, and is not refused there. */
#include "shipped.h"

static bool is_bare(const char *kind)
{
    static const char *const bare[] = {"number", "whole", "yes_no", "list", "record", "by_name"};
    for (size_t i = 0; i < sizeof bare / sizeof *bare; i++)
        if (strcmp(kind, bare[i]) == 0)
            return true;
    return false;
}

static cJSON *examples_of(const cJSON *fields)
{
    cJSON *record = cJSON_CreateObject();
    const cJSON *field;
    cJSON_ArrayForEach(field, fields)
    {
        const char *name = cJSON_GetObjectItem(field, "name")->valuestring;
        const char *example = cJSON_GetObjectItem(field, "example")->valuestring;
        cJSON *value = is_bare(cJSON_GetObjectItem(field, "kind")->valuestring)
                           ? cJSON_Parse(example)
                           : cJSON_CreateString(example);
        cr_expect(value, "%s: %s is not what can be typed", name, example);
        cr_expect(strlen(example) > 2 || !strchr("[{", *example), "%s: no room for its example",
                  name);
        cJSON_AddItemToObject(record, name, value);
    }
    return record;
}

/* Some recipes cannot have all of their examples in one job, and say so in their own words. */
static const char *words_of(const char *name)
{
    static const char *const refusals[][2] = {
        {"blank", "the thickness is given twice"},
        {"closing", "needs the lines of the signed quote"},
        {"enquiry", "set one, not both"},
        {"flask", "the trees are given twice"},
        {"learn", "no box of the sheets says wastage"},
        {"melt", "the house has no crucible called cuff links"},
        {"need", "the patterns are given twice"},
        {"plate", "the area of a piece is given twice"},
        {"stone", "cut round, it needs its length, width and depth"},
        {"vacuum", "the air is given twice"},
        {"wire", "the thickness is given twice"}};
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++)
        if (strcmp(name, refusals[i][0]) == 0)
            return refusals[i][1];
    return NULL;
}

/* One run takes all of them, or says where in the job it is that one is refused. What the recipe
 * then makes of such a job is its own affair. */
static void try_recipe(lml_engine *engine, const char *name)
{
    lml_text text;
    lml_error e = {0};
    cr_assert_eq(lml_engine_inspect(engine, name, &text, &e), LML_OK, "%s", e.message);
    cJSON *declared = cJSON_Parse(text.text), *job = cJSON_CreateObject();
    lml_text_free(engine, &text);
    cJSON_AddStringToObject(job, "recipe", name);
    cJSON_AddItemToObject(job, "given", examples_of(cJSON_GetObjectItem(declared, "asks")));
    cJSON_AddItemToObject(job, "house", examples_of(cJSON_GetObjectItem(declared, "allowances")));
    char *bytes = cJSON_PrintUnformatted(job);
    lml_status status = lml_engine_run(engine, bytes, strlen(bytes), "job", &text, &e);
    if (status == LML_OK || status == LML_STOPPED)
        lml_text_free(engine, &text);
    else if (status == LML_BAD_RECIPE)
        cr_expect(words_of(name) && strstr(e.message, words_of(name)), "%s: %s (%s)", name,
                  e.message, e.hint);
    else
        cr_expect_neq(strncmp(e.message, "job:", 4), 0, "%s: %s (%s)", name, e.message, e.hint);
    free(bytes);
    cJSON_Delete(job);
    cJSON_Delete(declared);
}

Test(hints, every_example_of_an_ask_is_taken)
{
    lml_engine *engine = shipped_engine();
    char path[600], name[200];
    snprintf(path, sizeof path, "%s/recipes", LML_SOURCE_DIR);
    DIR *dir = opendir(path);
    int count = 0;
    cr_assert(dir);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        size_t length = strlen(entry->d_name);
        if (length < 5 || strcmp(entry->d_name + length - 4, ".lua") != 0)
            continue;
        snprintf(name, sizeof name, "%.*s", (int)(length - 4), entry->d_name);
        try_recipe(engine, name);
        count++;
    }
    closedir(dir);
    cr_expect_gt(count, 10);
    lml_engine_free(engine);
}
