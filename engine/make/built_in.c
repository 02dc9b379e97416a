/* Writes the rows of shelf/built_in.h, when the engine is built:
 *
 *     built_in OUT.c scripts/gates.lua recipes/need.lua ...
 *
 * It is in the folder of the source tree: messages show the files as they are named here. */
#include "base/builder.h"
#include "face/engine.h"
#include "file/digest.h"
#include "run/engine.h"
#include "run/load.h"

#include <lauxlib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FILES_MOST = 1000, TEXT_MOST = 1 << 20, NAME = 100, WRITTEN_MOST = 20000 };

typedef struct source {
    const char *shown;
    char name[NAME];
    lml_put kind;
} source;

static _Noreturn void fail(const char *what, const char *which)
{
    fprintf(stderr, "built_in: %s %s\n", what, which);
    exit(1);
}

static source source_of(const char *shown)
{
    source s = {.shown = shown};
    bool is_script = strncmp(shown, "scripts/", 8) == 0;
    if (!is_script && strncmp(shown, "recipes/", 8) != 0)
        fail("neither a script nor a recipe:", shown);
    size_t length = strlen(shown + 8);
    if (length < 5 || length - 4 >= NAME || strcmp(shown + 8 + length - 4, ".lua") != 0)
        fail("no Lua file, or its name is too long:", shown);
    memcpy(s.name, shown + 8, length - 4);
    s.kind = is_script ? LML_PUT_SCRIPT : LML_PUT_RECIPE;
    return s;
}

static int in_order(const void *a, const void *b)
{
    const source *x = a, *y = b;
    return x->kind != y->kind ? (x->kind > y->kind) - (x->kind < y->kind)
                              : strcmp(x->name, y->name);
}

static lml_builder read_file(const lml_alloc *heap, const char *path)
{
    static char block[TEXT_MOST];
    lml_builder text = lml_builder_on(heap, 0);
    FILE *f = fopen(path, "rb");
    size_t length = f ? fread(block, 1, sizeof block, f) : 0;
    if (!f || ferror(f) || length == sizeof block)
        fail("cannot read", path);
    fclose(f);
    lml_builder_add(&text, block, length);
    if (lml_builder_status(&text, NULL))
        fail("out of memory for", path);
    return text;
}

static int add_piece(lua_State *L, const void *piece, size_t size, void *code)
{
    (void)L;
    lml_builder_add(code, piece, size);
    return 0;
}

static lml_builder compile(const lml_alloc *heap, const source *s, const lml_builder *text)
{
    lml_builder code = lml_builder_on(heap, 0);
    char chunk[NAME + 20];
    snprintf(chunk, sizeof chunk, "@%s", s->shown);
    lua_State *L = luaL_newstate();
    if (!L)
        fail("out of memory for", s->shown);
    if (luaL_loadbufferx(L, text->at, text->length, chunk, "t"))
        fail("not to be compiled:", lua_tostring(L, -1));
    lua_dump(L, add_piece, &code, 0);
    lua_close(L);
    if (lml_builder_status(&code, NULL))
        fail("out of memory for", s->shown);
    return code;
}

static void put_byte(FILE *out, unsigned char c)
{
    if (c < 0x20 || c >= 0x7f || c == '"' || c == '\\' || c == '?')
        fprintf(out, "\\%03o", c);
    else
        putc(c, out);
}

/* As the text of a C string, a line of the text a line. */
static void put_bytes(FILE *out, const char *kind, size_t number, const lml_builder *bytes)
{
    enum { WIDEST = 100 };
    fprintf(out, "static const char %s_%zu[] = \"", kind, number);
    for (size_t i = 0, column = 0; i < bytes->length; i++) {
        unsigned char c = (unsigned char)bytes->at[i];
        put_byte(out, c);
        if ((c == '\n' || ++column == WIDEST) && i + 1 < bytes->length) {
            fputs("\"\n\"", out);
            column = 0;
        }
    }
    fputs("\";\n", out);
}

static void put_text(FILE *out, const char *text)
{
    if (!text) {
        fputs("NULL", out);
        return;
    }
    putc('"', out);
    for (; *text; text++)
        put_byte(out, (unsigned char)*text);
    putc('"', out);
}

/* What was written already, and as which: a declaration names many things more than once. */
typedef struct written {
    const void *at[WRITTEN_MOST];
    size_t count;
} written;

/* The number of what is there, and whether it is new. */
static size_t number_of(written *w, const void *at, bool *is_new)
{
    size_t i = 0;
    while (i < w->count && w->at[i] != at)
        i++;
    *is_new = i == w->count;
    if (*is_new && w->count == WRITTEN_MOST)
        fail("more declarations than", "there is room for");
    if (*is_new)
        w->at[w->count++] = at;
    return i;
}

static size_t put_names(FILE *out, written *w, const char *const *names)
{
    bool is_new;
    size_t number = number_of(w, names, &is_new);
    if (!is_new)
        return number;
    fprintf(out, "static const char *const names_%zu[] = {", number);
    for (; *names; names++) {
        put_text(out, *names);
        fputs(", ", out);
    }
    fputs("NULL};\n", out);
    return number;
}

static void put_shape(FILE *out, written *w, const lml_shape *s);

/* Write the shapes in a row, after what they point to. */
static size_t put_shapes(FILE *out, written *w, const lml_shape *shapes, size_t count)
{
    bool is_new;
    for (size_t i = 0; i < count; i++) {
        if (shapes[i].fields)
            put_shapes(out, w, shapes[i].fields, shapes[i].field_count);
        if (shapes[i].of)
            put_shapes(out, w, shapes[i].of, 1);
        if (shapes[i].choices)
            put_names(out, w, shapes[i].choices);
        if (shapes[i].check)
            fail("cannot be written: the check of", shapes[i].name);
    }
    size_t number = number_of(w, shapes, &is_new);
    if (!is_new)
        return number;
    fprintf(out, "static const lml_shape shapes_%zu[] = {\n", number);
    for (size_t i = 0; i < count; i++) {
        put_shape(out, w, &shapes[i]);
        fputs(",\n", out);
    }
    fputs(count ? "};\n" : "    {.name = NULL}};\n", out);
    return number;
}

static void put_member(FILE *out, const char *name, const char *text)
{
    if (!text)
        return;
    fprintf(out, ", .%s = ", name);
    put_text(out, text);
}

/* What it points to is written already. */
static void put_shape(FILE *out, written *w, const lml_shape *s)
{
    bool is_new;
    fprintf(
        out,
        "    {.wanted = %d, .optional = %d, .order = %u, .seldom = %d, .usual = %d, .promised = %d",
        (int)s->wanted, s->optional, s->order, s->seldom, s->usual, s->promised);
    fprintf(out, ", .metal = %d, .any_metal = %d", (int)s->metal, s->any_metal);
    put_member(out, "name", s->name);
    put_member(out, "title", s->title);
    put_member(out, "from", s->from);
    put_member(out, "to", s->to);
    put_member(out, "default_text", s->default_text);
    put_member(out, "source", s->source);
    put_member(out, "per", s->per);
    put_member(out, "example", s->example);
    put_member(out, "note", s->note);
    put_member(out, "heading", s->heading);
    put_member(out, "apart", s->apart);
    if (s->choices)
        fprintf(out, ", .choices = names_%zu", number_of(w, s->choices, &is_new));
    if (s->of)
        fprintf(out, ", .of = shapes_%zu", number_of(w, s->of, &is_new));
    if (s->fields)
        fprintf(out, ", .fields = shapes_%zu, .field_count = %zu", number_of(w, s->fields, &is_new),
                s->field_count);
    putc('}', out);
}

/* As the recipe says it, read by an engine that has all the others on its shelf. */
static void put_declaration(FILE *out, written *w, lml_engine *engine, const source *s,
                            size_t number)
{
    lml_run run;
    lml_error e;
    if (lml_run_open(&run, engine, &e) || lml_load_describe(&run, s->name, &e))
        fail(s->shown, e.message);
    const lml_recipe *r = lml_shelf_find(&engine->shelf, s->kind, lml_span_of(s->name))->recipe;
    const lml_shape *const records[] = {&r->asks, &r->allowances, &r->gives, &r->own, &r->loose};
    const char *const names[] = {"asks", "allowances", "gives", "own", "loose"};
    size_t uses = put_names(out, w, r->uses);
    for (size_t i = 0; i < sizeof records / sizeof *records; i++)
        if (records[i]->fields)
            put_shapes(out, w, records[i]->fields, records[i]->field_count);
    fprintf(out, "static const lml_recipe recipe_%zu = {.level = %d, .uses = names_%zu", number,
            r->level, uses);
    fprintf(out, ", .use_count = %zu", r->use_count);
    put_member(out, "name", r->name);
    put_member(out, "title", r->title);
    put_member(out, "version", r->version);
    put_member(out, "licence", r->licence);
    put_member(out, "about", r->about);
    put_member(out, "heads", r->heads);
    put_member(out, "rule", r->rule);
    for (size_t i = 0; i < sizeof records / sizeof *records; i++) {
        fprintf(out, ",\n    .%s = ", names[i]);
        put_shape(out, w, records[i]);
    }
    fputs("};\n", out);
    lml_run_close(&run);
}

int main(int argc, char **argv)
{
    static written declared;
    static source sources[FILES_MOST];
    static char digest[FILES_MOST][LML_DIGEST_TEXT];
    static size_t length[FILES_MOST], code_length[FILES_MOST];
    lml_alloc heap = lml_alloc_heap();
    size_t count = (size_t)argc - 2;
    if (argc < 3 || count > FILES_MOST)
        fail("wants a file to write and files to read, at most", "1000");
    for (size_t i = 0; i < count; i++)
        sources[i] = source_of(argv[i + 2]);
    qsort(sources, count, sizeof *sources, in_order);
    lml_engine *engine = lml_engine_new(NULL);
    FILE *out = fopen(argv[1], "wb");
    if (!out || !engine)
        fail("cannot write", argv[1]);
    fputs("/* Written by the build: see shelf/built_in.h. */\n#include \"shelf/built_in.h\"\n\n",
          out);
    for (size_t i = 0; i < count; i++) {
        lml_builder text = read_file(&heap, sources[i].shown);
        lml_builder code = compile(&heap, &sources[i], &text);
        lml_digest_of((lml_span){text.at, text.length}, digest[i]);
        length[i] = text.length;
        code_length[i] = code.length;
        lml_error e;
        if (lml_engine_put(engine, sources[i].kind, sources[i].name, text.at, text.length,
                           sources[i].shown, &e))
            fail(sources[i].shown, e.message);
        put_bytes(out, "text", i, &text);
        put_bytes(out, "code", i, &code);
        lml_builder_free(&code);
        lml_builder_free(&text);
    }
    size_t scripts = 0;
    for (size_t i = 0; i < count; i++) {
        if (sources[i].kind == LML_PUT_RECIPE)
            put_declaration(out, &declared, engine, &sources[i], i);
        else
            scripts++;
    }
    fputs("\nconst lml_built_in lml_built_in_rows[] = {\n", out);
    for (size_t i = 0; i < count; i++) {
        fprintf(out, "    {%d, \"%s\", \"%s\", text_%zu, %zu, \"%s\", code_%zu, %zu, ",
                (int)sources[i].kind, sources[i].name, sources[i].shown, i, length[i], digest[i], i,
                code_length[i]);
        if (sources[i].kind == LML_PUT_RECIPE)
            fprintf(out, "&recipe_%zu},\n", i);
        else
            fputs("NULL},\n", out);
    }
    fprintf(out, "};\nconst size_t lml_built_in_count = %zu, lml_built_in_scripts = %zu;\n", count,
            scripts);
    fprintf(out, "const char *const lml_built_in_lua =\n    \"%s\";\n", lua_ident);
    lml_engine_free(engine);
    if (ferror(out) | fclose(out))
        fail("cannot write", argv[1]);
    return 0;
}
