/* The words of recipes: what the rows say of them is what they do, and the page is what the rows
 * say. */
#include "report/api.h"
#include "report/api_script.h"
#include "words/bind_schedule.h"
#include "cell/state.h"
#include "cell/word.h"
#include "shipped.h"
#include "words/lib.h"
#include "words/bind.h"
#include "run/lib_recipe.h"
#include "run/bind_sheet.h"

#include <lauxlib.h>

static const lml_word *const libraries[] = {
    lml_lib_base,    lml_lib_value,     lml_lib_more,           lml_bind_methods,
    lml_bind_about,  lml_bind_alloy,    lml_bind_alloy_methods, lml_lib_recipe,
    lml_lib_text,    lml_lib_table,     lml_bind_craft,         lml_bind_physics,
    lml_bind_charge, lml_bind_schedule, lml_bind_sheet,         lml_bind_sheet_page};
enum { LIBRARIES = sizeof libraries / sizeof libraries[0] };

static lml_alloc heap;

static lml_builder written(void (*write)(lml_builder *))
{
    heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    write(&b);
    cr_assert_eq(lml_builder_status(&b, NULL), LML_OK);
    return b;
}

/* Every example in a recipe of its own: an expression must come to the text in its row, a statement
 * must be taken. */
Test(api, every_example_runs)
{
    static const char job[] = "{ \"recipe\": \"example\" }";
    lml_engine *engine = shipped_engine();
    int count = 0;
    for (int l = 0; l < LIBRARIES; l++) {
        for (const lml_word *word = libraries[l]; word->name; word++, count++) {
            char recipe[1500];
            lml_error e;
            lml_text text;
            snprintf(
                recipe, sizeof recipe,
                "return recipe { title = 'x', version = '1.0.0', licence = 'CC0-1.0', level = 1, "
                "gives = { out = "
                "give.text 'Out' },\nwork = function(job, house, sheet)\n%s%s%s\nreturn { out "
                "= told } end }",
                word->wanted ? "local told = tostring(" : "local told = ''\n", word->example,
                word->wanted ? ")" : "");
            cr_assert_eq(lml_engine_put(engine, LML_PUT_RECIPE, "example", recipe, strlen(recipe),
                                        "example.lua", &e),
                         LML_OK);
            if (lml_engine_run(engine, job, strlen(job), "job", &text, &e) != LML_OK) {
                cr_expect(false, "%s: %s", word->example, e.message);
                continue;
            }
            cJSON *result = cJSON_Parse(text.text);
            const cJSON *out = shipped_give(result, "out");
            if (word->wanted)
                cr_expect(out && strcmp(out->valuestring, word->wanted) == 0,
                          "%s comes to %s, not %s", word->example,
                          out ? out->valuestring : "nothing", word->wanted);
            else
                cr_expect(cJSON_GetArraySize(cJSON_GetObjectItemCaseSensitive(result, "remarks")) >
                                  0 ||
                              strstr(text.text, "\"is\":"),
                          "%s leaves nothing on the sheet", word->example);
            cJSON_Delete(result);
            lml_text_free(engine, &text);
        }
    }
    cr_expect_gt(count, 100, "only %d words", count);
    lml_engine_free(engine);
}

Test(api, every_row_is_whole)
{
    for (int l = 0; l < LIBRARIES; l++) {
        for (const lml_word *word = libraries[l]; word->name; word++) {
            size_t length = strlen(word->sentence);
            cr_expect(length > 5 && word->sentence[length - 1] == '.', "%s: no sentence",
                      word->name);
            cr_expect(strstr(word->example, word->name), "%s: the example does not have it: %s",
                      word->name, word->example);
        }
    }
}

/* ---- scripts ---- */

typedef void script_user(const char *name, lml_span text, void *data);

static int by_name(const struct dirent **a, const struct dirent **b)
{
    return strcmp((*a)->d_name, (*b)->d_name);
}

static void each_script(script_user *use, void *data)
{
    struct dirent **entries;
    int count = scandir(LML_SOURCE_DIR "/scripts", &entries, NULL, by_name);
    cr_assert_gt(count, 30);
    for (int i = 0; i < count; i++) {
        char path[600], name[100];
        const char *dot = strstr(entries[i]->d_name, ".lua");
        if (dot) {
            snprintf(path, sizeof path, LML_SOURCE_DIR "/scripts/%s", entries[i]->d_name);
            snprintf(name, sizeof name, "%.*s", (int)(dot - entries[i]->d_name),
                     entries[i]->d_name);
            FILE *file = fopen(path, "rb");
            cr_assert(file, "%s", path);
            char *text = (char *)calloc(1, 1 << 20);
            size_t length = fread(text, 1, 1 << 20, file);
            fclose(file);
            use(name, (lml_span){text, length}, data);
            free(text);
        }
        free(entries[i]);
    }
    free(entries);
}

static void put_script(const char *name, lml_span text, void *data)
{
    lml_api_script_guide(data, name, text);
}

typedef struct counts {
    lml_engine *engine;
    int functions, examples;
} counts;

/* What the example comes to in a recipe that requires the script; NULL when it does not run. */
static const char *worked(lml_engine *engine, const char *script, lml_span example, char *out,
                          size_t size)
{
    static const char job[] = "{ \"recipe\": \"example\" }";
    char recipe[1500];
    lml_error e;
    lml_text text;
    snprintf(recipe, sizeof recipe,
             "local %s = require '%s'\nreturn recipe { title = 'x', version = '1.0.0', "
             "licence = 'CC0-1.0', level = 2, gives = { out = give.text 'Out' },\n"
             "work = function(job, house, sheet)\nlocal told = tostring(%.*s)\n"
             "return { out = told } end }",
             script, script, (int)example.length, example.at);
    cr_assert_eq(lml_engine_put(engine, LML_PUT_RECIPE, "example", recipe, strlen(recipe),
                                "example.lua", &e),
                 LML_OK);
    if (lml_engine_run(engine, job, strlen(job), "job", &text, &e) != LML_OK) {
        snprintf(out, size, "an error: %.200s", e.message);
        return out;
    }
    cJSON *result = cJSON_Parse(text.text);
    snprintf(out, size, "%s", shipped_give(result, "out")->valuestring);
    cJSON_Delete(result);
    lml_text_free(engine, &text);
    return out;
}

static void hold_script(const char *name, lml_span text, void *data)
{
    counts *c = data;
    lml_script_function f;
    lml_span about = lml_api_script_about(text);
    cr_expect_gt(about.length, 20u, "%s: the file does not begin with what it is", name);
    for (size_t at = 0; lml_api_script_next(text, &at, &f);) {
        if (f.takes.length == 0)
            continue;
        c->functions++;
        lml_builder sentence = lml_builder_on(&heap, 0);
        lml_api_script_sentence(f.comment, &sentence);
        cr_expect(sentence.length > 10, "%s.%.*s: no comment above it", name, (int)f.name.length,
                  f.name.at);
        lml_builder_free(&sentence);
        lml_span example, wanted;
        for (size_t k = 0; lml_api_script_example(f.comment, &k, &example, &wanted);) {
            char out[300], due[300];
            snprintf(due, sizeof due, "%.*s", (int)wanted.length, wanted.at);
            worked(c->engine, name, example, out, sizeof out);
            cr_expect_str_eq(out, due, "%s: %.*s comes to %s", name, (int)example.length,
                             example.at, out);
            c->examples++;
        }
    }
}

/* Every function that a shipped script gives back says what it does, and its examples run. */
Test(api, scripts_say_what_their_functions_do)
{
    heap = lml_alloc_heap();
    counts c = {.engine = shipped_engine()};
    each_script(hold_script, &c);
    cr_expect_gt(c.functions, 300, "only %d functions", c.functions);
    cr_expect_gt(c.examples, 25, "only %d examples", c.examples);
    lml_engine_free(c.engine);
}

Test(api, reads_what_a_script_gives_back)
{
    static const char text[] =
        "-- What it is,\n-- in two lines.\n\nlocal ODD = 3\n-- ---- a part ----\n"
        "-- One of them,\n--     s.first(1)   -- 2\n-- explained.\n"
        "local function first(a, b) return a end\nlocal function other() end\n\n"
        "return { first = first, odd = ODD, made = other(), -- not (a, function)\n"
        "  text = \"a, } b\", list = { 1, 2 }, last = other }\n";
    static const char *const names[] = {"first", "odd", "made", "text", "list", "last"};
    heap = lml_alloc_heap();
    lml_span whole = lml_span_of(text), example, wanted;
    lml_script_function f;
    size_t at = 0, i = 0, k = 0;
    while (lml_api_script_next(whole, &at, &f)) {
        cr_assert_lt(i, 6u);
        cr_expect(lml_span_is(f.name, names[i]), "%s", names[i]);
        cr_expect_eq(f.takes.length > 0, i == 0 || i == 5, "%s", names[i]);
        if (i++ != 0)
            continue;
        lml_builder b = lml_builder_on(&heap, 0);
        lml_api_script_sentence(f.comment, &b);
        cr_expect_str_eq(b.at, "One of them, explained.");
        lml_builder_free(&b);
        cr_expect(lml_span_is(f.takes, "(a, b)"));
        cr_assert(lml_api_script_example(f.comment, &k, &example, &wanted));
        cr_expect(lml_span_is(example, "s.first(1)"));
        cr_expect(lml_span_is(wanted, "2"));
        cr_expect_not(lml_api_script_example(f.comment, &k, &example, &wanted));
    }
    cr_expect_eq(i, 6u);
    at = 0;
    cr_expect_not(lml_api_script_next(lml_span_of("return 3"), &at, &f));
}

/* When it differs, the page as it should be lies in the build folder. */
Test(api, the_page_is_what_the_rows_say)
{
    lml_builder due = written(lml_api_guide);
    each_script(put_script, &due);
    cr_assert_eq(lml_builder_status(&due, NULL), LML_OK);
    FILE *file = fopen(LML_SOURCE_DIR "/docs/api.md", "rb");
    char *there = (char *)calloc(1, due.length + 2);
    size_t length = file ? fread(there, 1, due.length + 1, file) : 0;
    if (file)
        fclose(file);
    bool same = length == due.length && memcmp(there, due.at, length) == 0;
    if (!same && (file = fopen(LML_BINARY_DIR "/api.md", "wb"))) {
        fwrite(due.at, 1, due.length, file);
        fclose(file);
    }
    cr_expect(same,
              "docs/api.md is not what the words say; copy " LML_BINARY_DIR "/api.md over it");
    free(there);
    lml_builder_free(&due);
}

Test(api, annotations_are_lua_and_name_every_word)
{
    lml_builder text = written(lml_api_annotations);
    lua_State *L = luaL_newstate();
    cr_expect_eq(luaL_loadbuffer(L, text.at, text.length, "annotations"), LUA_OK, "%s",
                 lua_tostring(L, -1));
    lua_close(L);
    for (int l = 0; l < LIBRARIES; l++) {
        for (const lml_word *word = libraries[l]; word->name; word++) {
            char call[100];
            snprintf(call, sizeof call, "%s(", word->name);
            cr_expect(strstr(text.at, call), "nothing about %s", word->name);
        }
    }
    lml_builder_free(&text);
}
