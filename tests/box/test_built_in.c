/* What is built in is what ships, and is used only where the bytes are the same: a run with it and
 * one without give the same. */
#include "shipped.h"

#include "cell/state.h"
#include "file/digest.h"
#include "run/engine.h"

#include <lauxlib.h>

static const char *const folders[] = {"recipes", "scripts"};

typedef struct text {
    char at[1 << 19];
    size_t length;
} text;

static void read_shipped(lml_put kind, const char *name, text *out)
{
    char path[600];
    snprintf(path, sizeof path, "%s/%s/%s.lua", LML_SOURCE_DIR, folders[kind], name);
    FILE *file = fopen(path, "rb");
    cr_assert(file, "%s cannot be opened", path);
    out->length = fread(out->at, 1, sizeof out->at, file);
    fclose(file);
}

/* Whether the build has any: it may be told to do without. */
static bool any_built_in(void)
{
    return lml_built_in_count > 0;
}

static size_t shipped_count(lml_put kind)
{
    lml_engine *engine = lml_engine_new(NULL);
    shipped_put(engine, kind, folders[kind]);
    size_t count = engine->shelf.count;
    lml_engine_free(engine);
    return count;
}

static int add_piece(lua_State *L, const void *piece, size_t size, void *to)
{
    (void)L;
    text *code = to;
    cr_assert_leq(code->length + size, sizeof code->at);
    memcpy(code->at + code->length, piece, size);
    code->length += size;
    return 0;
}

Test(built_in, every_row_is_the_file_and_what_comes_of_it)
{
    static text file, code;
    for (size_t i = 0; i < lml_built_in_count; i++) {
        const lml_built_in *b = &lml_built_in_rows[i];
        char digest[LML_DIGEST_TEXT], chunk[200];
        read_shipped(b->kind, b->name, &file);
        cr_assert(b->length == file.length && memcmp(b->text, file.at, file.length) == 0, "%s",
                  b->shown);
        lml_digest_of((lml_span){file.at, file.length}, digest);
        cr_expect_str_eq(b->digest, digest, "%s", b->shown);
        lua_State *L = luaL_newstate();
        snprintf(chunk, sizeof chunk, "@%s", b->shown);
        cr_assert_eq(luaL_loadbufferx(L, file.at, file.length, chunk, "t"), LUA_OK);
        code.length = 0;
        lua_dump(L, add_piece, &code, 0);
        lua_close(L);
        cr_expect(b->code_length == code.length && memcmp(b->code, code.at, code.length) == 0,
                  "the code of %s", b->shown);
    }
    if (any_built_in())
        cr_expect_eq(lml_built_in_count,
                     shipped_count(LML_PUT_RECIPE) + shipped_count(LML_PUT_SCRIPT));
}

Test(built_in, only_the_same_bytes_are_taken_for_it)
{
    static text file;
    if (!any_built_in())
        return;
    read_shipped(LML_PUT_SCRIPT, "gates", &file);
    const lml_span whole = {file.at, file.length};
    cr_expect(lml_built_in_find(LML_PUT_SCRIPT, "gates", whole));
    cr_expect_null(lml_built_in_find(LML_PUT_RECIPE, "gates", whole));
    cr_expect_null(lml_built_in_find(LML_PUT_SCRIPT, "gate", whole));
    cr_expect_null(lml_built_in_find(LML_PUT_SCRIPT, "gates", (lml_span){file.at, 0}));
    cr_expect_null(
        lml_built_in_find(LML_PUT_SCRIPT, "gates", (lml_span){file.at, file.length - 1}));
    size_t places[] = {0, file.length / 2, file.length - 1};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        file.at[places[i]] ^= 1;
        cr_expect_null(lml_built_in_find(LML_PUT_SCRIPT, "gates", whole), "changed at %zu",
                       places[i]);
        file.at[places[i]] ^= 1;
    }
}

/* Put what ships, each text with an end that makes it none of those built in or as it is; messages
 * call them as the build does, or otherwise. */
static lml_engine *engine_of(const char *end, const char *before)
{
    static text file;
    lml_engine *engine = lml_engine_new(NULL), *list = shipped_engine();
    for (size_t i = 0; i < list->shelf.count; i++) {
        const lml_item *item = list->shelf.items[i];
        char shown[200];
        lml_error e;
        read_shipped(item->kind, item->name, &file);
        memcpy(file.at + file.length, end, strlen(end));
        snprintf(shown, sizeof shown, "%s%s/%s.lua", before, folders[item->kind], item->name);
        cr_assert_eq(lml_engine_put(engine, item->kind, item->name, file.at,
                                    file.length + strlen(end), shown, &e),
                     LML_OK, "%s", e.message);
    }
    lml_engine_free(list);
    return engine;
}

static char *report_of(lml_engine *engine, const char *recipe)
{
    lml_text report;
    lml_error e;
    cr_assert_eq(lml_engine_prove(engine, recipe, &report, &e), LML_OK, "%s", e.message);
    char *copy = strdup(report.text);
    lml_text_free(engine, &report);
    return copy;
}

static bool same_text(const char *a, const char *b)
{
    return a == b || (a && b && strcmp(a, b) == 0);
}

static bool same_names(const char *const *a, const char *const *b)
{
    for (; a && b && *a && *b && strcmp(*a, *b) == 0; a++, b++)
        ;
    return a == b || (a && b && !*a && !*b);
}

static bool same_shape(const lml_shape *a, const lml_shape *b)
{
    bool same = a->wanted == b->wanted && a->optional == b->optional && a->order == b->order &&
                a->seldom == b->seldom && a->usual == b->usual && a->promised == b->promised &&
                a->metal == b->metal && a->any_metal == b->any_metal &&
                a->field_count == b->field_count && a->check == b->check && !a->of == !b->of &&
                same_text(a->name, b->name) && same_text(a->title, b->title) &&
                same_text(a->from, b->from) && same_text(a->to, b->to) &&
                same_text(a->default_text, b->default_text) && same_text(a->source, b->source) &&
                same_text(a->per, b->per) && same_text(a->example, b->example) &&
                same_text(a->note, b->note) && same_text(a->heading, b->heading) &&
                same_text(a->unless, b->unless) && same_text(a->when, b->when) &&
                same_text(a->apart, b->apart) && same_text(a->per, b->per) &&
                same_names(a->choices, b->choices) && (!a->of || same_shape(a->of, b->of));
    for (size_t i = 0; same && i < a->field_count; i++)
        same = same_shape(&a->fields[i], &b->fields[i]);
    return same;
}

/* Without its memory. */
static bool same_declaration(const lml_recipe *a, const lml_recipe *b)
{
    bool same = a->level == b->level && a->use_count == b->use_count &&
                same_text(a->name, b->name) && same_text(a->title, b->title) &&
                same_text(a->version, b->version) && same_text(a->licence, b->licence) &&
                same_text(a->about, b->about) && same_text(a->heads, b->heads) &&
                same_text(a->rule, b->rule) && same_shape(&a->asks, &b->asks) &&
                same_shape(&a->allowances, &b->allowances) && same_shape(&a->gives, &b->gives) &&
                same_shape(&a->own, &b->own) && same_shape(&a->loose, &b->loose);
    return same && same_names(a->uses, b->uses);
}

/* A new member of these must be written by the build and compared above: then this is mended. The
 * line is that of a recipe that advice is given on, and 0 in what is built in. */
Test(built_in, all_of_a_declaration_is_known)
{
    cr_expect_eq(sizeof(lml_shape), 2 * sizeof(int) + 2 * sizeof(int) + 2 * sizeof(int) +
                                        2 * sizeof(int) + 2 * sizeof(int) + 18 * sizeof(char *));
}

/* The spared steps leave nothing behind: what they look for is not in what ships. */
Test(built_in, what_ships_passes_all_that_is_spared)
{
    lml_engine *changed = engine_of("\n", "");
    for (size_t i = 0; i < changed->shelf.count; i++) {
        const lml_item *item = changed->shelf.items[i];
        lml_text out;
        lml_error e;
        cr_expect_null(item->built_in, "%s", item->shown);
        if (item->kind != LML_PUT_RECIPE)
            continue;
        cr_assert_eq(lml_engine_inspect(changed, item->name, &out, &e), LML_OK, "%s: %s",
                     item->shown, e.message);
        lml_text_free(changed, &out);
        for (size_t k = 0; k < lml_built_in_count; k++) {
            const lml_built_in *b = &lml_built_in_rows[k];
            if (b->kind != item->kind || strcmp(b->name, item->name) != 0)
                continue;
            lml_alloc heap = lml_alloc_heap();
            lml_recipe *declared = lml_built_in_declaration(b, &heap);
            cr_assert(declared);
            cr_expect(same_declaration(declared, item->recipe), "%s", item->shown);
            lml_recipe_free(declared);
        }
    }
    lml_engine_free(changed);
}

/* Under another name in messages the texts are compiled here. */
Test(built_in, the_code_is_what_is_compiled_here)
{
    static const char *const recipes[] = {"need", "quote", "day", "mark"};
    lml_engine *with = engine_of("", ""), *without = engine_of("", "./");
    for (size_t i = 0; i < sizeof recipes / sizeof *recipes; i++) {
        char *a = report_of(with, recipes[i]), *b = report_of(without, recipes[i]);
        for (char *at; (at = strstr(b, "\"./"));)
            memmove(at + 1, at + 3, strlen(at + 3) + 1);
        cr_expect_str_eq(a, b, "%s", recipes[i]);
        free(a);
        free(b);
    }
    const lml_item *item = lml_shelf_find(&with->shelf, LML_PUT_RECIPE, lml_span_of("need"));
    if (any_built_in())
        cr_expect_eq(item->code, item->built_in->code);
    item = lml_shelf_find(&without->shelf, LML_PUT_RECIPE, lml_span_of("need"));
    if (any_built_in())
        cr_expect_neq(item->code, item->built_in->code);
    lml_engine_free(with);
    lml_engine_free(without);
}

/* What is known of what ships is known only while all scripts are those that ship: a recipe may
 * declare what one of them holds. */
Test(built_in, another_script_leaves_nothing_known)
{
    lml_engine *engine = engine_of("", "");
    lml_item *need = lml_shelf_find(&engine->shelf, LML_PUT_RECIPE, lml_span_of("need"));
    lml_error e;
    cr_expect_eq(lml_shelf_is_as_built(&engine->shelf, need), any_built_in());
    cr_expect_eq(lml_shelf_declared(&engine->shelf, need) != NULL, any_built_in());
    lml_engine_put(engine, LML_PUT_SCRIPT, "more", "return {}", 9, "scripts/more.lua", &e);
    cr_expect_eq(lml_shelf_is_as_built(&engine->shelf, need), any_built_in());
    lml_engine_put(engine, LML_PUT_SCRIPT, "gates", "return {}", 9, "scripts/gates.lua", &e);
    cr_expect_not(lml_shelf_is_as_built(&engine->shelf, need));
    cr_expect_null(lml_shelf_declared(&engine->shelf, need));
    lml_engine_free(engine);
}

/* A text that is put in place of one that is built in is what is worked from then on. */
Test(built_in, a_changed_text_is_worked_as_it_is)
{
    static const char job[] = "{ \"recipe\": \"wire\", \"given\": {} }";
    static text file;
    lml_engine *engine = engine_of("", "");
    lml_text out;
    lml_error e;
    lml_engine_run(engine, job, strlen(job), "job", &out, &e);
    read_shipped(LML_PUT_RECIPE, "wire", &file);
    const char broken[] = "\nerror \"changed\"\n";
    memmove(file.at + sizeof broken - 1, file.at, file.length);
    memcpy(file.at, broken, sizeof broken - 1);
    cr_assert_eq(lml_engine_put(engine, LML_PUT_RECIPE, "wire", file.at,
                                file.length + sizeof broken - 1, "recipes/wire.lua", &e),
                 LML_OK);
    cr_expect_eq(lml_engine_run(engine, job, strlen(job), "job", &out, &e), LML_BAD_RECIPE);
    cr_expect(strstr(e.message, "changed"), "%s", e.message);
    lml_engine_free(engine);
}
