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

enum { FILES_MOST = 1000, TEXT_MOST = 1 << 20, NAME = 100 };
enum { WORDS_MOST = 1 << 16, NAMES_MOST = 1 << 16, SHAPES_MOST = 20000 };

typedef struct source {
    const char *shown;
    char name[NAME];
    lml_put kind;
    char digest[LML_DIGEST_TEXT];
    size_t length, code_length;
    lml_builder code; /* until it is written */
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
static void put_string(FILE *out, lml_span bytes)
{
    enum { WIDEST = 100 };
    putc('"', out);
    for (size_t i = 0, column = 0; i < bytes.length; i++) {
        unsigned char c = (unsigned char)bytes.at[i];
        put_byte(out, c);
        if ((c == '\n' || ++column == WIDEST) && i + 1 < bytes.length) {
            fputs("\"\n\"", out);
            column = 0;
        }
    }
    putc('"', out);
}

static void put_bytes(FILE *out, const char *kind, size_t number, const lml_builder *bytes)
{
    fprintf(out, "static const char %s_%zu[] = ", kind, number);
    put_string(out, (lml_span){bytes->at, bytes->length});
    fputs(";\n", out);
}

/* ---- declarations ---- */

/* All that declarations are made of, as it is written at the end: see lml_built_in_shape. Each word
 * is there once. A list of shapes or names that two declarations share is, too. */
typedef struct packed {
    lml_builder words;
    uint32_t place[WORDS_MOST], names[NAMES_MOST];
    lml_built_in_shape shape[SHAPES_MOST];
    lml_built_in_recipe recipe[FILES_MOST];
    const void *list[SHAPES_MOST];
    uint32_t first[SHAPES_MOST];
    size_t name_count, shape_count, list_count;
} packed;

static size_t row_of(const char *text)
{
    size_t row = 0;
    for (; *text; text++)
        row = row * 31 + (unsigned char)*text;
    return row % WORDS_MOST;
}

static uint32_t pack_word(packed *p, const char *text)
{
    if (!text)
        return 0;
    size_t row = row_of(text), looks = 0;
    while (p->place[row] && strcmp(p->words.at + p->place[row], text) != 0) {
        row = (row + 1) % WORDS_MOST;
        if (++looks == WORDS_MOST / 2)
            fail("more words than", "there is room for");
    }
    if (!p->place[row]) {
        p->place[row] = (uint32_t)p->words.length;
        lml_builder_add(&p->words, text, strlen(text) + 1);
        if (lml_builder_status(&p->words, NULL))
            fail("out of memory for", text);
    }
    return p->place[row];
}

/* Where the list is written already; 0. */
static uint32_t known(const packed *p, const void *list)
{
    for (size_t i = 0; i < p->list_count; i++)
        if (p->list[i] == list)
            return p->first[i];
    return 0;
}

static uint32_t note(packed *p, const void *list, size_t first)
{
    if (p->list_count == SHAPES_MOST)
        fail("more declarations than", "there is room for");
    p->list[p->list_count] = list;
    p->first[p->list_count++] = (uint32_t)first;
    return (uint32_t)first;
}

static uint32_t pack_names(packed *p, const char *const *names)
{
    uint32_t first = known(p, names);
    if (first)
        return first;
    first = note(p, names, p->name_count);
    for (size_t i = 0; i == 0 || names[i - 1]; i++) {
        if (p->name_count == NAMES_MOST)
            fail("more names than", "there is room for");
        p->names[p->name_count++] = pack_word(p, names[i]);
    }
    return first;
}

static uint32_t pack_shapes(packed *p, const lml_shape *shapes, size_t count);

static lml_built_in_shape pack_shape(packed *p, const lml_shape *s)
{
    if (s->check)
        fail("cannot be written: the check of", s->name);
    return (lml_built_in_shape){.name = pack_word(p, s->name),
                                .title = pack_word(p, s->title),
                                .from = pack_word(p, s->from),
                                .to = pack_word(p, s->to),
                                .default_text = pack_word(p, s->default_text),
                                .source = pack_word(p, s->source),
                                .per = pack_word(p, s->per),
                                .example = pack_word(p, s->example),
                                .note = pack_word(p, s->note),
                                .heading = pack_word(p, s->heading),
                                .apart = pack_word(p, s->apart),
                                .unless = pack_word(p, s->unless),
                                .when = pack_word(p, s->when),
                                .order = s->order,
                                .fields = s->fields ? pack_shapes(p, s->fields, s->field_count) : 0,
                                .field_count = (uint32_t)s->field_count,
                                .of = s->of ? pack_shapes(p, s->of, 1) : 0,
                                .choices = s->choices ? pack_names(p, s->choices) : 0,
                                .wanted = (uint8_t)s->wanted,
                                .metal = (uint8_t)s->metal,
                                .optional = s->optional,
                                .promised = s->promised,
                                .seldom = s->seldom,
                                .usual = s->usual,
                                .any_metal = s->any_metal};
}

/* The shapes in a row; what is in them comes after them. */
static uint32_t pack_shapes(packed *p, const lml_shape *shapes, size_t count)
{
    uint32_t first = known(p, shapes);
    if (first)
        return first;
    if (p->shape_count + count + 1 > SHAPES_MOST)
        fail("more declarations than", "there is room for");
    first = note(p, shapes, p->shape_count);
    p->shape_count += count ? count : 1;
    for (size_t i = 0; i < count; i++)
        p->shape[first + i] = pack_shape(p, &shapes[i]);
    return first;
}

/* As the recipe says it, read by an engine that has all the others on its shelf. */
static void pack_declaration(packed *p, lml_engine *engine, const source *s, size_t number)
{
    lml_run run;
    lml_error e;
    if (lml_run_open(&run, engine, &e) || lml_load_describe(&run, s->name, &e))
        fail(s->shown, e.message);
    const lml_recipe *r = lml_shelf_find(&engine->shelf, s->kind, lml_span_of(s->name))->recipe;
    p->recipe[number] = (lml_built_in_recipe){.name = pack_word(p, r->name),
                                              .title = pack_word(p, r->title),
                                              .version = pack_word(p, r->version),
                                              .licence = pack_word(p, r->licence),
                                              .about = pack_word(p, r->about),
                                              .heads = pack_word(p, r->heads),
                                              .rule = pack_word(p, r->rule),
                                              .uses = pack_names(p, r->uses),
                                              .use_count = (uint32_t)r->use_count,
                                              .level = (uint32_t)r->level,
                                              .asks = pack_shape(p, &r->asks),
                                              .allowances = pack_shape(p, &r->allowances),
                                              .gives = pack_shape(p, &r->gives),
                                              .own = pack_shape(p, &r->own),
                                              .loose = pack_shape(p, &r->loose)};
    lml_run_close(&run);
}

static void put_shape(FILE *out, const lml_built_in_shape *s)
{
    fprintf(out, "{%u, %u, %u, %u, %u, %u, %u, %u, %u, %u, %u, %u, %u, ", s->name, s->title,
            s->from, s->to, s->default_text, s->source, s->per, s->example, s->note, s->heading,
            s->apart, s->unless, s->when);
    fprintf(out, "%u, %u, %u, %u, %u, %u, %u, %d, %d, %d, %d, %d}", s->order, s->fields,
            s->field_count, s->of, s->choices, s->wanted, s->metal, s->optional, s->promised,
            s->seldom, s->usual, s->any_metal);
}

static void put_recipe(FILE *out, const lml_built_in_recipe *r, size_t number)
{
    const lml_built_in_shape *const records[] = {&r->asks, &r->allowances, &r->gives, &r->own,
                                                 &r->loose};
    fprintf(out, "static const lml_built_in_recipe recipe_%zu = {%u, %u, %u, %u, %u, %u, ", number,
            r->name, r->title, r->version, r->licence, r->about, r->heads);
    fprintf(out, "%u, %u, %u, %u", r->rule, r->uses, r->use_count, r->level);
    for (size_t i = 0; i < sizeof records / sizeof *records; i++) {
        fputs(",\n    ", out);
        put_shape(out, records[i]);
    }
    fputs("};\n", out);
}

static void put_packed(FILE *out, const packed *p)
{
    fputs("const char lml_built_in_words[] =\n", out);
    put_string(out, (lml_span){p->words.at, p->words.length});
    fputs(";\nconst uint32_t lml_built_in_names[] = {\n", out);
    for (size_t i = 0; i < p->name_count; i++)
        fprintf(out, "%u,%c", p->names[i], i % 16 == 15 ? '\n' : ' ');
    fputs("};\nconst lml_built_in_shape lml_built_in_shapes[] = {\n", out);
    for (size_t i = 0; i < p->shape_count; i++) {
        put_shape(out, &p->shape[i]);
        fputs(",\n", out);
    }
    fputs("};\n", out);
}

/* Its text; and onto the engine's shelf. */
static void put_source(FILE *out, const lml_alloc *heap, lml_engine *engine, source *s,
                       size_t number)
{
    lml_error e;
    lml_builder text = read_file(heap, s->shown);
    s->code = compile(heap, s, &text);
    lml_digest_of((lml_span){text.at, text.length}, s->digest);
    s->length = text.length;
    if (lml_engine_put(engine, s->kind, s->name, text.at, text.length, s->shown, &e))
        fail(s->shown, e.message);
    put_bytes(out, "text", number, &text);
    lml_builder_free(&text);
}

/* All code is apart from all texts: who runs a chunk has no use for what lies around its text. */
static void put_code(FILE *out, source *s, size_t number)
{
    put_bytes(out, "code", number, &s->code);
    s->code_length = s->code.length;
    lml_builder_free(&s->code);
}

static void put_rows(FILE *out, const source *sources, size_t count)
{
    size_t scripts = 0;
    fputs("\nconst lml_built_in lml_built_in_rows[] = {\n", out);
    for (size_t i = 0; i < count; i++) {
        const source *s = &sources[i];
        fprintf(out, "    {%d, \"%s\", \"%s\", text_%zu, %zu, \"%s\", code_%zu, %zu, ",
                (int)s->kind, s->name, s->shown, i, s->length, s->digest, i, s->code_length);
        if (s->kind == LML_PUT_RECIPE)
            fprintf(out, "&recipe_%zu},\n", i);
        else
            fputs("NULL},\n", out);
        scripts += s->kind == LML_PUT_SCRIPT;
    }
    fprintf(out, "};\nconst size_t lml_built_in_count = %zu, lml_built_in_scripts = %zu;\n", count,
            scripts);
    fprintf(out, "const char *const lml_built_in_lua =\n    \"%s\";\n", lua_ident);
}

int main(int argc, char **argv)
{
    static packed declared = {.name_count = 1, .shape_count = 1}; /* 0 stands for none */
    static source sources[FILES_MOST];
    lml_alloc heap = lml_alloc_heap();
    size_t count = (size_t)argc - 2;
    declared.words = lml_builder_on(&heap, 0);
    lml_builder_add_char(&declared.words, '\0');
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
    for (size_t i = 0; i < count; i++)
        put_source(out, &heap, engine, &sources[i], i);
    for (size_t i = 0; i < count; i++)
        put_code(out, &sources[i], i);
    for (size_t i = 0; i < count; i++) /* all others are on the shelf */
        if (sources[i].kind == LML_PUT_RECIPE)
            pack_declaration(&declared, engine, &sources[i], i);
    put_packed(out, &declared);
    for (size_t i = 0; i < count; i++)
        if (sources[i].kind == LML_PUT_RECIPE)
            put_recipe(out, &declared.recipe[i], i);
    put_rows(out, sources, count);
    lml_builder_free(&declared.words);
    lml_engine_free(engine);
    if (ferror(out) | fclose(out))
        fail("cannot write", argv[1]);
    return 0;
}
