/* The compiled form of a file, kept as a Lua dump, and run in an environment of its own. */
#include "run/load.h"

#include "cell/chunk.h"
#include "cell/names.h"
#include "cell/raise.h"
#include "run/engine.h"
#include "shelf/mend.h"

#include <stdio.h>

/* Registry keys: the chunks that are not at work, and the function that holds an environment. */
static const char CHUNKS, MAKER;

static int keep_code(lua_State *L, const void *piece, size_t size, void *self)
{
    (void)L;
    lml_builder *b = self;
    lml_builder_add(b, piece, size);
    return b->status != LML_OK;
}

typedef struct span_reader {
    lml_span left;
} span_reader;

static const char *next_piece(lua_State *L, void *self, size_t *size)
{
    (void)L;
    span_reader *r = self;
    const char *at = r->left.at;
    *size = r->left.length;
    r->left.length = 0;
    return *size ? at : NULL;
}

/* Compile the item's text and keep our own dump of it. Raises. */
static void compile(lua_State *L, lml_item *item)
{
    lml_box *box = lml_box_of(L);
    const lml_alloc *alloc = &lml_run_of(L)->engine->alloc;
    uint64_t price = box->price;
    lml_error e;
    if (lml_chunk_load(box, (lml_span){item->text, item->length}, item->shown, &e)) {
        if (e.status == LML_BAD_RECIPE)
            lml_mend_syntax((lml_span){item->text, item->length}, item->shown, &e);
        lml_raise_as_is(L, &e);
    }
    lml_builder b = lml_builder_on(alloc, 0);
    lua_dump(L, keep_code, &b, 0);
    if (lml_builder_status(&b, &e) == LML_OK &&
        !(item->code = lml_alloc_resize(alloc, b.at, b.capacity, b.length)))
        lml_fail(&e, LML_NO_MEMORY, "out of memory for %s", item->shown);
    if (!item->code) {
        lml_builder_free(&b);
        lml_raise_as_is(L, &e);
    }
    item->code_length = b.length;
    lml_box_set_price(box,
                      price); /* texts that only the compiler made are out of everybody's reach */
    lua_pop(L, 1);
}

/* Push what is kept for `key` in the registry table, and take it out; false, and nothing, when
 * nothing is. */
static bool take_out(lua_State *L, const char *table, const void *key)
{
    lml_run_push_registry(L, table);
    bool found = lua_rawgetp(L, -1, key) != LUA_TNIL;
    if (found) {
        lua_pushnil(L);
        lua_rawsetp(L, -3, key);
    } else {
        lua_pop(L, 1);
    }
    lua_remove(L, -1 - found);
    return found;
}

static void keep_for(lua_State *L, const char *table, const void *key)
{
    lml_run_push_registry(L, table);
    lua_insert(L, -2);
    lua_rawsetp(L, -2, key);
    lua_pop(L, 1);
}

static void load_code(lua_State *L, const char *mode, lml_span code, const char *chunk)
{
    span_reader r = {code};
    if (lua_load(L, next_piece, &r, chunk, mode))
        lua_error(L);
}

/* Push the item's chunk: always from the dump, so that the run that compiles is like those after
 * it; from there once a state. */
static void push_chunk(lua_State *L, lml_item *item)
{
    char chunk[200];
    if (take_out(L, &CHUNKS, item))
        return;
    if (!item->code && !lml_item_take_code(item))
        compile(L, item);
    snprintf(chunk, sizeof chunk, "@%s", item->shown);
    load_code(L, "b", (lml_span){item->code, item->code_length}, chunk);
}

/* Give the chunk on top of the stack an environment of its own: what it makes from now on has this
 * one, what it made before keeps the former. For that the environment must be the upvalue of some
 * function of Lua. */
static void give_environment(lua_State *L)
{
    static const char maker[] = "local own = ... return function() return own end";
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &MAKER) == LUA_TNIL) {
        lua_pop(L, 1);
        load_code(L, "t", lml_span_of(maker), "=environment");
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &MAKER);
    }
    lml_names_environment(L);
    lua_call(L, 1, 1);
    lua_upvaluejoin(L, -2, 1, -1, 1);
    lua_pop(L, 1);
}

/* One that is at work is not there for another instance of it. A recipe has one instance. */
int lml_load_work_chunk(lua_State *L)
{
    lml_item *item = lua_touserdata(L, 1);
    push_chunk(L, item);
    give_environment(L);
    lua_pushvalue(L, -1);
    lua_call(L, 0, 1);
    lua_insert(L, -2);
    if (item->kind == LML_PUT_SCRIPT)
        keep_for(L, &CHUNKS, item);
    else
        lua_pop(L, 1);
    return 1;
}
