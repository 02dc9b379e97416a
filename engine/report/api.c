#include "report/api.h"

#include "words/bind_schedule.h"
#include "value/wanted.h"
#include "cell/word.h"
#include "words/lib.h"
#include "words/bind.h"
#include "run/lib_recipe.h"
#include "run/bind_sheet.h"

#include <string.h>

/* `prefix` is how a word is called; `class` is whose method it is for an editor, NULL for a plain
 * function. */
static const struct section {
    const char *title, *prefix, *class;
    const lml_word *words;
} sections[] = {
    {"Values", "", NULL, lml_lib_value},
    {"Methods of a value", "v:", "value", lml_bind_methods},
    {"What a value is (level 2)", "v:", "value", lml_bind_about},
    {"Alloys and assays", "", NULL, lml_bind_alloy},
    {"Methods of an alloy or an assay", "metal:", "alloy", lml_bind_alloy_methods},
    {"Texts", "text.", NULL, lml_lib_text},
    {"Lists", "table.", NULL, lml_lib_table},
    {"Plain Lua", "", NULL, lml_lib_base},
    {"Copies and lists (level 2)", "", NULL, lml_lib_more},
    {"Recipes", "", NULL, lml_lib_recipe},
    {"The sheet", "sheet:", "sheet", lml_bind_sheet},
    {"A page of it", "page:", "page", lml_bind_sheet_page},
    {"Metals and chance", "craft.", NULL, lml_bind_craft},
    {"Water, air, heat, plating, investment", "craft.", NULL, lml_bind_physics},
    {"The charge", "craft.", NULL, lml_bind_charge},
    {"The casting day", "craft.", NULL, lml_bind_schedule},
};
enum { SECTIONS = sizeof sections / sizeof sections[0] };

/* The next "name: type" of what a word takes, taken off the front. Types hold no commas. */
static bool take_parameter(lml_span *rest, lml_span *name, lml_span *type)
{
    if (rest->length == 0)
        return false;
    const char *end = rest->at + rest->length;
    const char *comma = memchr(rest->at, ',', rest->length), *stop = comma ? comma : end;
    const char *colon = memchr(rest->at, ':', (size_t)(stop - rest->at));
    *name = lml_span_trim(lml_span_between(rest->at, colon ? colon : stop));
    *type = lml_span_trim(lml_span_between(colon ? colon + 1 : stop, stop));
    *rest = lml_span_between(comma ? comma + 1 : end, end);
    return true;
}

static bool may_be_left_out(lml_span name)
{
    return name.length > 0 && name.at[name.length - 1] == '?';
}

/* "charge, text, gives": with `marked` a name that may be left out keeps its question mark. */
static void append_names(lml_builder *out, const lml_word *word, bool marked)
{
    lml_span rest = lml_span_of(word->takes), name, type;
    for (bool first = true; take_parameter(&rest, &name, &type); first = false) {
        lml_builder_add_text(out, first ? "" : ", ");
        if (may_be_left_out(name) && !marked)
            name.length--;
        lml_builder_add_span(out, name);
    }
}

/* ---- the page ---- */

/* A bar would end the cell. */
static void append_cell(lml_builder *out, const char *text)
{
    for (; *text; text++) {
        if (*text == '|')
            lml_builder_add_text(out, " or ");
        else
            lml_builder_add_char(out, *text);
    }
}

static void put_row(lml_builder *out, const struct section *section, const lml_word *word)
{
    lml_builder_add_format(out, "| `%s%s(", section->prefix, word->name);
    append_names(out, word, true);
    lml_builder_add_text(out, ")` | ");
    append_cell(out, word->gives);
    lml_builder_add_format(out, " | %s | `%s`", word->sentence, word->example);
    if (word->wanted)
        lml_builder_add_format(out, " gives `%s`", word->wanted);
    lml_builder_add_text(out, " |\n");
}

void lml_api_guide(lml_builder *out)
{
    lml_builder_add_text(
        out, "# Every word of a recipe\n\n"
             "Each function that a recipe can call, with what it gives and an example. The page is "
             "printed from "
             "the rows by which\nthe engine knows the functions, and a test runs every example. "
             "[recipes.md](recipes.md) says how they fit together.\n\n"
             "A name with a question mark may be left out. A function with one text or one table "
             "needs no "
             "brackets: `Q \"12.5 g\"`.\n");
    for (size_t i = 0; i < SECTIONS; i++) {
        lml_builder_add_format(
            out, "\n## %s\n\n| call | gives | what it is | example |\n|---|---|---|---|\n",
            sections[i].title);
        for (const lml_word *word = sections[i].words; word->name; word++)
            put_row(out, &sections[i], word);
    }
    lml_builder_add_text(
        out, "\n## Scripts\n\nWhat comes with lemel under `scripts/`, for `require`: a recipe "
             "begins with `local costs = require \"costs\"`. The functions are\ndescribed as "
             "they are in the files themselves, which also name the source of each figure. "
             "Those of one recipe alone may change\nwith it.\n");
}

/* ---- annotations ---- */

static void put_function(lml_builder *out, const struct section *section, const lml_word *word)
{
    lml_builder_add_format(out, "--- %s\n---\n---     %s", word->sentence, word->example);
    if (word->wanted)
        lml_builder_add_format(out, "   -- %s", word->wanted);
    lml_builder_add_char(out, '\n');
    lml_span rest = lml_span_of(word->takes), name, type;
    while (take_parameter(&rest, &name, &type))
        lml_builder_add_format(out, "---@param %.*s %.*s\n", (int)name.length, name.at,
                               (int)type.length, type.at);
    if (word->gives[0])
        lml_builder_add_format(out, "---@return %s\n", word->gives);
    if (section->class)
        lml_builder_add_format(out, "function %s_methods:%s(", section->class, word->name);
    else
        lml_builder_add_format(out, "function %s%s(", section->prefix, word->name);
    append_names(out, word, false);
    lml_builder_add_text(out, ") end\n\n");
}

static void put_kinds(lml_builder *out)
{
    lml_builder_add_text(out, "---@class kinds\n");
    for (int w = 0; w < LML_WANTED_COUNT; w++)
        lml_builder_add_format(out, "---@field %s fun(about: string|table): table\n",
                               lml_wanted_name((lml_wanted)w));
    lml_builder_add_text(out, "---@type kinds\nask = nil\n---@type kinds\ngive = nil\n\n");
}

void lml_api_annotations(lml_builder *out)
{
    static const char *const operators[] = {"add",  "sub", "mul", "div",
                                            "idiv", "mod", "pow", "unm"};
    lml_builder_add_text(
        out, "---@meta\n"
             "-- The words of recipes, for editors. Written by lemel, which does not read it.\n\n"
             "---@class value\n---@field metal string\n");
    for (size_t i = 0; i < sizeof operators / sizeof operators[0]; i++)
        lml_builder_add_format(out,
                               strcmp(operators[i], "unm") == 0 ? "---@operator %s: value\n"
                                                                : "---@operator %s(any): value\n",
                               operators[i]);
    lml_builder_add_text(
        out,
        "local value_methods = {}\n\n"
        "---@class alloy\n---@field name string\n---@field density value\n---@field liquid_density "
        "value?\n"
        "---@field solidus value?\n---@field liquidus value?\n---@field pour value?\n"
        "---@field flask value?\n---@field quench value?\n---@field superheat value?\n"
        "---@field composition table\n"
        "---@field unnamed value\n---@field source string\nlocal alloy_methods = {}\n\n"
        "---@class page\nlocal page_methods = {}\n\n"
        "---@class sheet\n---@field bench page\n---@field client page\n---@field metal page\n"
        "---@field receipt page\n---@field consent page\n---@field card page\n---@field cost page\n"
        "local sheet_methods = {}\n\n"
        "---@class recipe_members\n---@field title string\n---@field version string\n"
        "---@field licence string\n---@field level integer\n---@field about? string\n"
        "---@field heads? string\n---@field uses? string[]\n---@field asks? table\n"
        "---@field allowances? table\n---@field gives? table\n"
        "---@field work fun(job: table, house: table, sheet: sheet): table\n"
        "---@field proofs? table[]\n\n"
        "---@class rule_members\n---@field title? string\n---@field version string\n"
        "---@field licence? string\n---@field about? string\n---@field uses? string[]\n"
        "---@field asks? table\n---@field allowances? table\n"
        "---@field work fun(job: table, house: table, sheet: sheet): table\n"
        "---@field proofs? table[]\n\n"
        "text = {}\ncraft = {}\npi = 3.141592653589793\n"
        "---@class use what the recipes in `uses` give\n---@type use\nuse = nil\n\n");
    put_kinds(out);
    for (size_t i = 0; i < SECTIONS; i++)
        for (const lml_word *word = sections[i].words; word->name; word++)
            put_function(out, &sections[i], word);
}

/* ---- luacheck ---- */

/* The words of all sections with this prefix, as `NAME = { fields = { ... } }`. */
static void put_table_of(lml_builder *out, const char *name, const char *prefix)
{
    lml_builder_add_format(out, "  %s = { fields = {", name);
    for (size_t i = 0; i < SECTIONS; i++)
        if (strcmp(sections[i].prefix, prefix) == 0)
            for (const lml_word *word = sections[i].words; word->name; word++)
                lml_builder_add_format(out, " \"%s\",", word->name);
    lml_builder_add_text(out, " } },\n");
}

static void put_kinds_of(lml_builder *out, const char *name)
{
    lml_builder_add_format(out, "  %s = { fields = {", name);
    for (int w = 0; w < LML_WANTED_COUNT; w++)
        lml_builder_add_format(out, " \"%s\",", lml_wanted_name((lml_wanted)w));
    lml_builder_add_text(out, " } },\n");
}

void lml_api_luacheck(lml_builder *out)
{
    lml_builder_add_text(
        out,
        "-- The words of recipes, for luacheck. Written by lemel new annotations.\n"
        "std = \"none\"\n"
        "self = false\n"
        "max_line_length = false\n"
        "unused_args = false -- work is given job, house and sheet, whether it needs them or not\n"
        "ignore = { \"42.\", \"43.\", \"581\" } -- a name may be used again further in; not (a == "
        "b)\n"
        "read_globals = {\n");
    put_table_of(out, "text", "text.");
    put_table_of(out, "table", "table.");
    put_table_of(out, "craft", "craft.");
    put_kinds_of(out, "ask");
    put_kinds_of(out, "give");
    lml_builder_add_text(out, "  use = { other_fields = true },\n  \"pi\",\n ");
    for (size_t i = 0; i < SECTIONS; i++)
        if (!sections[i].class && !*sections[i].prefix)
            for (const lml_word *word = sections[i].words; word->name; word++)
                if (!strchr(word->name, '.'))
                    lml_builder_add_format(out, " \"%s\",", word->name);
    lml_builder_add_text(out, "\n}\n");
}
