#include "report/advice.h"

#include "report/advice_kinds.h"
#include "report/advice_names.h"
#include "report/proof.h"
#include "run/engine.h"
#include "run/lib_recipe.h"
#include "run/load.h"
#include "run/parts.h"
#include "shelf/slips.h"
#include "shelf/token.h"
#include "file/json_write.h"

#include <stdlib.h>
#include <string.h>

enum { CONSTANTS_MOST = 200, BLOCKS_MOST = 100, NOTES_MOST = 200 };

/* Where its texts begin among all. */
typedef struct note {
    int line;
    bool wrong;  /* the recipe is refused, or no run gets past it */
    bool unread; /* it cannot be read as a recipe */
    size_t text, advice;
} note;

typedef struct adviser {
    const lml_shelf *shelf;
    const lml_recipe *recipe;
    lml_span source;
    const char *name;
    bool declaring; /* what is noted is about the declaration */
    note notes[NOTES_MOST];
    size_t count;
    lml_builder texts;
} adviser;

static void keep(adviser *a, int line, bool wrong, const char *text, const char *advice)
{
    if (a->count == NOTES_MOST)
        return;
    for (size_t i = 0; i < a->count && wrong; i++)
        if (a->notes[i].line == line && strcmp(a->texts.at + a->notes[i].text, text) == 0)
            return; /* what a rule asks is read twice */
    a->notes[a->count++] =
        (note){line, wrong, a->declaring, a->texts.length, a->texts.length + strlen(text) + 1};
    lml_builder_add(&a->texts, text, strlen(text) + 1);
    lml_builder_add(&a->texts, advice, strlen(advice) + 1);
}

static void put(void *self, int line, const char *text, const char *advice)
{
    keep(self, line, false, text, advice);
}

static void put_wrong(void *self, int line, const char *text, const char *advice)
{
    keep(self, line, true, text, advice);
}

static int by_line(const void *a, const void *b)
{
    const note *one = a, *other = b;
    if (one->line != other->line)
        return one->line < other->line ? -1 : 1;
    return (one->text > other->text) - (one->text < other->text);
}

/* In the order of their lines. */
static lml_status write_notes(adviser *a, lml_builder *b, lml_error *err)
{
    lml_status status = lml_builder_status(&a->texts, err);
    if (status)
        return status;
    lml_json_writer w = lml_json_writer_on(b, false);
    qsort(a->notes, a->count, sizeof *a->notes, by_line);
    lml_json_write_open_list(&w);
    for (size_t i = 0; i < a->count; i++) {
        const note *n = &a->notes[i];
        lml_json_write_open_record(&w);
        lml_json_write_name(&w, lml_span_of("line"));
        lml_json_write_whole(&w, n->line);
        lml_json_write_member(&w, "text", a->texts.at + n->text);
        lml_json_write_member(&w, "advice", a->texts.at + n->advice);
        if (n->wrong) {
            lml_json_write_name(&w, lml_span_of("wrong"));
            lml_json_write_yes_no(&w, true);
        }
        if (n->unread) {
            lml_json_write_name(&w, lml_span_of("unread"));
            lml_json_write_yes_no(&w, true);
        }
        lml_json_write_close(&w);
    }
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

/* Advice about a name: "%s" in both texts. */
static void put_about(adviser *a, int line, const char *text, const char *advice, lml_span name)
{
    lml_error words; /* room for two formatted texts */
    lml_fail(&words, LML_OK, text, (int)name.length, name.at);
    lml_error_hint(&words, advice, (int)name.length, name.at);
    put(a, line, words.message, words.hint);
}

/* ---- which part of the file a word is in ---- */

typedef enum part { CODE, ASKS, ALLOWANCES, GIVES, PROOFS } part;

typedef struct walker {
    lml_scanner scanner;
    lml_token before, two_before; /* the token at hand comes after these */
    int depth, part_depth;        /* of brackets */
    part in;
    int blocks; /* that are open in proofs = function ...; 0 outside of it */
} walker;

static walker walk(lml_span source)
{
    return (walker){.scanner = lml_scanner_on(source)};
}

/* asks = {, and the like, directly in recipe { */
static part part_named(const walker *w)
{
    static const char *const names[] = {NULL, "asks", "allowances", "gives", "proofs"};
    if (w->depth == 1 && lml_token_is(w->before, "="))
        for (int p = ASKS; p <= PROOFS; p++)
            if (lml_token_is(w->two_before, names[p]))
                return (part)p;
    return CODE;
}

static bool opens_block(lml_token t)
{
    return lml_token_is(t, "function") || lml_token_is(t, "if") || lml_token_is(t, "do") ||
           lml_token_is(t, "repeat");
}

static bool ends_block(lml_token t)
{
    return lml_token_is(t, "end") || lml_token_is(t, "until");
}

static lml_token step(walker *w)
{
    lml_token t = lml_token_next(&w->scanner);
    if (w->blocks) {
        w->blocks += opens_block(t) - ends_block(t);
        w->depth += lml_token_is(t, "{") - lml_token_is(t, "}");
        if (!w->blocks)
            w->in = CODE;
    } else if (lml_token_is(t, "function") && w->in == CODE && part_named(w) == PROOFS) {
        w->in = PROOFS;
        w->blocks = 1;
    } else if (lml_token_is(t, "{")) {
        if (w->in == CODE && (w->in = part_named(w)) != CODE)
            w->part_depth = w->depth;
        w->depth++;
    } else if (lml_token_is(t, "}")) {
        w->depth--;
        if (w->in != CODE && w->depth == w->part_depth)
            w->in = CODE;
    }
    w->two_before = w->before;
    w->before = t;
    return t;
}

/* ---- words ---- */

static bool is_word(char c)
{
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_';
}

static bool holds_word(lml_span text, lml_span word)
{
    for (size_t i = 0; i + word.length <= text.length; i++) {
        bool starts = i == 0 || !is_word(text.at[i - 1]);
        bool ends = i + word.length == text.length || !is_word(text.at[i + word.length]);
        if (starts && ends && memcmp(text.at + i, word.at, word.length) == 0)
            return true;
    }
    return false;
}

/* NULL: any script. */
static bool script_holds(const adviser *a, const char *script, lml_span word)
{
    for (size_t i = 0; i < a->shelf->count; i++) {
        const lml_item *item = a->shelf->items[i];
        if (item->kind == LML_PUT_SCRIPT && (!script || strcmp(item->name, script) == 0) &&
            holds_word((lml_span){item->text, item->length}, word))
            return true;
    }
    return false;
}

static bool code_holds(const adviser *a, lml_span word)
{
    walker w = walk(a->source);
    for (lml_token t = step(&w); t.kind != LML_TOKEN_END; t = step(&w)) {
        bool here =
            t.kind == LML_TOKEN_TEXT ? holds_word(t.text, word) : lml_span_equal(t.text, word);
        if (here && w.in == CODE)
            return true;
    }
    return false;
}

/* Whether `job` or `house` is handed on as a whole, so that its names are read elsewhere. */
static bool hands_on(const adviser *a, const char *whole)
{
    walker w = walk(a->source);
    bool parameters = false; /* of a function */
    for (lml_token t = step(&w); t.kind != LML_TOKEN_END;) {
        parameters = lml_token_is(t, "function") || (parameters && !lml_token_is(t, ")"));
        bool here = w.in == CODE && !parameters && lml_token_is(t, whole) &&
                    !lml_token_is(w.two_before, ".");
        t = step(&w);
        if (here && !lml_token_is(t, ".") && !lml_token_is(t, "="))
            return true;
    }
    return false;
}

/* 0 when it does not stand there: what a script declares for several recipes, not each of them
 * reads. */
static int line_of(const adviser *a, part in, const char *name)
{
    walker w = walk(a->source);
    for (lml_token t = step(&w); t.kind != LML_TOKEN_END; t = step(&w))
        if (w.in == in && lml_token_is(t, name))
            return t.line;
    return 0;
}

static void look_at_read(adviser *a, const lml_shape *record, part in, const char *whole)
{
    bool handed_on = hands_on(a, whole);
    for (size_t i = 0; i < record->field_count; i++) {
        lml_span name = lml_span_of(record->fields[i].name);
        int line = line_of(a, in, name.at);
        if (line == 0 || code_holds(a, name) || script_holds(a, "gates", name) ||
            (handed_on && script_holds(a, NULL, name)))
            continue;
        put_about(a, line,
                  in == ASKS ? "'%.*s' is asked for, but nothing reads it"
                             : "'%.*s' is allowed, but nothing reads it",
                  in == ASKS ? "read it as job.%.*s, or leave it out: every job has to give it"
                             : "read it as house.%.*s, or leave it out",
                  name);
    }
}

static void look_at_given(adviser *a)
{
    bool elsewhere = code_holds(a, lml_span_of("require"));
    bool by_name = code_holds(a, lml_span_of("pairs")) || code_holds(a, lml_span_of("use"));
    const lml_shape *gives = &a->recipe->gives;
    for (size_t i = 0; i < gives->field_count && !by_name; i++) {
        lml_span name = lml_span_of(gives->fields[i].name);
        int line = line_of(a, GIVES, name.at);
        if (line > 0 && !code_holds(a, name) && !(elsewhere && script_holds(a, NULL, name)))
            put_about(a, line, "'%.*s' is a give, but nothing sets it",
                      "put %.*s = ... into the table that work returns", name);
    }
}

/* ---- figures without a source ---- */

static lml_span line_at(lml_span source, const char *at)
{
    const char *start = at, *end = at, *stop = source.at + source.length;
    while (start > source.at && start[-1] != '\n')
        start--;
    while (end < stop && *end != '\n')
        end++;
    return lml_span_between(start, end);
}

/* By a comment behind it, or on the line before it. */
static bool is_explained(lml_span source, const char *at)
{
    lml_span own = line_at(source, at);
    for (size_t i = 0; i + 1 < own.length; i++)
        if (own.at[i] == '-' && own.at[i + 1] == '-')
            return true;
    return own.at > source.at && lml_span_starts(lml_span_trim(line_at(source, own.at - 1)), "--");
}

/* Nothing at all, such as Q "0 g", has no source. */
static bool is_nothing(lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        if (text.at[i] >= '1' && text.at[i] <= '9')
            return false;
    return true;
}

/* local NAME = 0.5, or = Q "0.5 g", before the recipe. */
static void look_at_constants(adviser *a)
{
    walker w = walk(a->source);
    for (lml_token t = step(&w);
         t.kind != LML_TOKEN_END && !lml_token_is(t, "return") && !lml_token_is(t, "function");
         t = step(&w)) {
        if (!lml_token_is(t, "local") || w.depth != 0)
            continue;
        lml_token name = step(&w);
        if (lml_token_is(name, "function"))
            return;
        lml_token sign = step(&w), value = step(&w);
        bool figure = value.kind == LML_TOKEN_NUMBER;
        if (lml_token_is(value, "Q")) {
            value = step(&w);
            figure = value.kind == LML_TOKEN_TEXT;
        }
        if (lml_token_is(sign, "=") && figure && !is_nothing(value.text) &&
            !is_explained(a->source, name.text.at))
            put_about(a, name.line, "%.*s is a figure without a source",
                      "write after -- where %.*s is from, or: common practice, no source",
                      name.text);
    }
}

/* ---- too many figures in one function ---- */

static void look_at_functions(adviser *a)
{
    struct {
        bool function;
        int line, constants;
    } block[BLOCKS_MOST];
    int depth = 0;
    walker w = walk(a->source);
    for (lml_token t = step(&w); t.kind != LML_TOKEN_END && depth < BLOCKS_MOST; t = step(&w)) {
        bool function = lml_token_is(t, "function");
        if (w.blocks)
            continue;
        if (opens_block(t)) {
            block[depth].function = function;
            block[depth].line = t.line;
            block[depth++].constants = 0;
        } else if (t.kind == LML_TOKEN_NUMBER || t.kind == LML_TOKEN_TEXT) {
            for (int i = depth - 1; i >= 0; i--)
                if (block[i].function) {
                    block[i].constants++;
                    break;
                }
        } else if (ends_block(t) && depth > 0 && block[--depth].function &&
                   block[depth].constants > CONSTANTS_MOST) {
            put(a, block[depth].line, "this function has more than 200 figures and texts in it",
                "put the table of figures at the top of the file, or into a script");
        }
    }
}

/* ---- proofs ---- */

/* Arguments: the adviser. Gives back how many proofs there are. */
static int look_at_proofs(lua_State *L)
{
    adviser *a = lua_touserdata(L, 1);
    lua_Integer count = lml_proof_push_all(L, a->recipe->name);
    int list = lua_gettop(L);
    lml_box_of(L)->proof = true; /* as proofs are run: without the house */
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, list)) {
        lua_rawgeti(L, list, i);
        lml_proof_review(L, lua_gettop(L), a->recipe, i, put_wrong, a);
    }
    lml_box_of(L)->proof = false;
    lua_pushinteger(L, count);
    return 1;
}

/* Whether they are written as proofs are; what they come to is for lemel prove to say. */
static lml_status read_proofs(lml_run *run, adviser *a, lml_error *err)
{
    lua_State *L = run->box.L;
    lua_pushcfunction(L, look_at_proofs);
    lua_pushlightuserdata(L, a);
    lml_status status = lml_box_call(&run->box, 1, 1, err);
    if (status)
        return status;
    if (lua_tointeger(L, -1) == 0)
        put(a, line_of(a, CODE, a->recipe->rule ? "rule" : "recipe"),
            "no proof shows that its results are right",
            "write one: proofs = { { \"name\", given = { ... }, expect = { ... }, source = \"...\" "
            "} }");
    lua_pop(L, 1);
    return LML_OK;
}

/* ---- kinds that there are not ---- */

/* ask.weight, give.hours: all of them, where the recipe could not be read for the first. */
static void look_at_wrong_kinds(adviser *a)
{
    walker w = walk(a->source);
    lml_token before = {.kind = LML_TOKEN_END}, two_before = before;
    for (lml_token t = step(&w); t.kind != LML_TOKEN_END;
         two_before = before, before = t, t = step(&w)) {
        lml_error words;
        bool kind = t.kind == LML_TOKEN_NAME && lml_token_is(before, ".") &&
                    (lml_token_is(two_before, "ask") || lml_token_is(two_before, "give"));
        if (!kind || lml_wanted_by_name(t.text) != LML_WANTED_COUNT)
            continue;
        lml_lib_recipe_no_kind(t.text, &words);
        put_wrong(a, t.line, words.message, words.hint);
    }
}

/* ---- the declaration ---- */

static void put_fault(void *self, int line, const lml_error *fault)
{
    adviser *a = self;
    size_t name = strlen(a->name);
    const char *text = fault->message;
    if (strncmp(text, a->name, name) == 0 && strncmp(text + name, ": ", 2) == 0)
        text += name + 2; /* the file is said before it */
    put_wrong(a, line ? line : lml_slips_line(a->source, fault), text, fault->hint);
}

/* Everything that is wrong with it, and with what its work does with it, as far as it can be read.
 * How much that is: nothing, where the file does not get as far as a declaration. */
static size_t look_at_declaration(lml_run *run, adviser *a, lml_item *item)
{
    lml_recipe *read;
    bool whole;
    lml_error ended;
    run->engine->advised = item;
    a->declaring = true;
    lml_status status = lml_load_gather(run, item, put_fault, a, &read, &whole, &ended);
    run->engine->advised = NULL;
    if (status)
        return 0;
    look_at_wrong_kinds(a);
    a->declaring = false;
    a->recipe = read;
    if (whole && lml_advice_kinds(run, a->source, read, put, put_wrong, a, &ended) == LML_OK)
        lml_advice_names(run->box.L, a->source, read, put, put_wrong, a);
    a->recipe = NULL;
    lml_recipe_free(read);
    return a->count;
}

/* ---- the whole ---- */

/* Arguments: the name. That all recipes it uses are there, and none uses it in turn. */
static int gather_parts(lua_State *L)
{
    lml_parts parts;
    lml_parts_gather(L, lua_touserdata(L, 1), &parts);
    return 0;
}

static lml_status look_at_all(lml_run *run, adviser *a, lml_error *err)
{
    lml_status status = lml_advice_kinds(run, a->source, a->recipe, put, put_wrong, a, err);
    if (status)
        return status;
    lml_advice_names(run->box.L, a->source, a->recipe, put, put_wrong, a);
    look_at_read(a, &a->recipe->asks, ASKS, "job");
    look_at_read(a, &a->recipe->allowances, ALLOWANCES, "house");
    look_at_given(a);
    look_at_constants(a);
    look_at_functions(a);
    if (!lml_text_is_version(a->recipe->version))
        put(a, line_of(a, CODE, "version"), "the version is not three numbers",
            "write version = \"1.0.0\", and raise it whenever a figure may come out different");
    status = read_proofs(run, a, err);
    if (!status)
        status = lml_run_call(run, gather_parts, a->recipe->name, 0, err);
    return status;
}

lml_status lml_advice_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err)
{
    const lml_shelf *shelf = &run->engine->shelf;
    lml_item *item = lml_shelf_find(shelf, LML_PUT_RECIPE, lml_span_of(recipe));
    run->engine->advised = item; /* its slips are reported here, all of them */
    lml_status status = lml_load_describe(run, recipe, err);
    run->engine->advised = NULL;
    if (status && (status != LML_BAD_RECIPE || !item))
        return status;
    adviser *a = lml_alloc_get(&run->engine->alloc, sizeof *a);
    if (!a)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for advice");
    *a = (adviser){.shelf = shelf,
                   .recipe = item->recipe,
                   .source = {item->text, item->length},
                   .name = item->name,
                   .texts = lml_builder_on(&run->engine->alloc, 0)};
    if (!status)
        status = look_at_all(run, a, err);
    else if (look_at_declaration(run, a, item) > 0)
        status = LML_OK; /* the error told of the first of them */
    if (!status)
        status = write_notes(a, b, err);
    if (item->recipe && lml_slips_check(a->source, item->shown, item->recipe, NULL)) {
        lml_recipe_free((lml_recipe *)(uintptr_t)item->recipe); /* as if it had not been read */
        item->recipe = NULL;
    }
    lml_builder_free(&a->texts);
    lml_alloc_free(&run->engine->alloc, a, sizeof *a);
    return status;
}
