/* The words of recipes: what the rows say of them is what they do, and the page is what the rows
 * say. */
#include "report/api.h"
#include "cell/state.h"
#include "cell/word.h"
#include "shipped.h"
#include "words/lib.h"
#include "words/bind.h"
#include "run/lib_recipe.h"
#include "run/bind_sheet.h"

#include <lauxlib.h>

static const lml_word *const libraries[] = {
    lml_lib_base,    lml_lib_value,  lml_bind_methods,   lml_bind_alloy, lml_bind_alloy_methods,
    lml_lib_recipe,  lml_lib_text,   lml_lib_table,      lml_bind_craft, lml_bind_physics,
    lml_bind_charge, lml_bind_sheet, lml_bind_sheet_page};
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
            snprintf(recipe, sizeof recipe,
                     "return recipe { title = 'x', version = '1', licence = 'CC0-1.0', level = 1, "
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

/* When it differs, the page as it should be lies in the build folder. */
Test(api, the_page_is_what_the_rows_say)
{
    lml_builder due = written(lml_api_guide);
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
