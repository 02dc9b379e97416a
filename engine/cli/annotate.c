#include "cli/annotate.h"

#include "cli/ask.h"
#include "report/api_script.h"
#include "value/wanted.h"

#include <string.h>

/* A stranger's title stays on its line. */
static void append_line(lml_builder *out, lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        lml_builder_add_char(out, (unsigned char)text.at[i] < ' ' ? ' ' : text.at[i]);
}

/* ---- what a shape is in Lua ---- */

static void append_type(lml_builder *out, const lml_json *shape, lml_span kind);

static void append_options(lml_builder *out, const lml_json *options)
{
    for (const lml_json *o = lml_json_first(options); o; o = lml_json_next(o)) {
        lml_builder_add_text(out, o == lml_json_first(options) ? "\"" : "|\"");
        append_line(out, lml_json_text(o));
        lml_builder_add_char(out, '"');
    }
}

static bool may_be_nil(const lml_json *shape)
{
    return lml_json_yes(lml_json_member(shape, "optional")) && !lml_json_member(shape, "default");
}

static void append_fields(lml_builder *out, const lml_json *fields)
{
    lml_builder_add_text(out, "{ ");
    for (const lml_json *f = lml_json_first(fields); f; f = lml_json_next(f)) {
        lml_builder_add_text(out, f == lml_json_first(fields) ? "" : ", ");
        lml_builder_add_span(out, lml_json_text(lml_json_member(f, "name")));
        lml_builder_add_text(out, may_be_nil(f) ? "?: " : ": ");
        append_type(out, f, lml_json_text(lml_json_member(f, "kind")));
    }
    lml_builder_add_text(out, " }");
}

/* The kind of the entries of a list or of named entries is in its `of`; lists within lists are not
 * described further. */
static void append_entries(lml_builder *out, const lml_json *shape)
{
    const lml_json *of = lml_json_member(shape, "of");
    lml_span kind = of ? lml_json_text(of) : lml_span_of("anything");
    lml_wanted wanted = lml_wanted_by_name(kind);
    if (wanted == LML_WANT_LIST || wanted == LML_WANT_BY_NAME)
        lml_builder_add_text(out, "table");
    else
        append_type(out, shape, kind);
}

static void append_type(lml_builder *out, const lml_json *shape, lml_span kind)
{
    const lml_json *fields = lml_json_member(shape, "fields");
    switch (lml_wanted_by_name(kind)) {
    case LML_WANT_CHOICE:
        if (lml_json_member(shape, "options")) {
            append_options(out, lml_json_member(shape, "options"));
            break;
        }
        lml_builder_add_text(out, "string");
        break;
    case LML_WANT_TEXT:
    case LML_WANT_OWNER:
        lml_builder_add_text(out, "string");
        break;
    case LML_WANT_NUMBER:
    case LML_WANT_WHOLE:
        lml_builder_add_text(out, "number");
        break;
    case LML_WANT_YES_NO:
        lml_builder_add_text(out, "boolean");
        break;
    case LML_WANT_ALLOY:
    case LML_WANT_ASSAY:
        lml_builder_add_text(out, "alloy");
        break;
    case LML_WANT_RING_SIZE:
        lml_builder_add_text(out, "{ system: string, size: number, text: string }");
        break;
    case LML_WANT_ANYTHING:
        lml_builder_add_text(out, "any");
        break;
    case LML_WANT_RECORD:
        if (fields)
            append_fields(out, fields);
        else
            lml_builder_add_text(out, "table");
        break;
    case LML_WANT_LIST:
        append_entries(out, shape);
        lml_builder_add_text(out, "[]");
        break;
    case LML_WANT_BY_NAME:
        lml_builder_add_text(out, "table<string, ");
        append_entries(out, shape);
        lml_builder_add_char(out, '>');
        break;
    default:
        lml_builder_add_text(out, "value");
        break;
    }
}

/* ---- a recipe ---- */

/* `job` of a recipe holds what is asked, with its defaults; what a caller gives may leave them out.
 */
static void append_class(lml_builder *out, const char *class, const char *recipe,
                         const lml_json *shapes, bool of_a_caller)
{
    lml_builder_add_format(out, "---@class %s_%s\n", class, recipe);
    for (const lml_json *s = lml_json_first(shapes); s; s = lml_json_next(s)) {
        bool optional = may_be_nil(s) || (of_a_caller && lml_json_member(s, "default"));
        lml_builder_add_text(out, "---@field ");
        lml_builder_add_span(out, lml_json_text(lml_json_member(s, "name")));
        lml_builder_add_text(out, optional ? "? " : " ");
        append_type(out, s, lml_json_text(lml_json_member(s, "kind")));
        lml_builder_add_char(out, ' ');
        append_line(out, lml_json_text(lml_json_member(s, "title")));
        lml_builder_add_char(out, '\n');
    }
    lml_builder_add_char(out, '\n');
}

/* Two declarations of `rule`, distinguished by the point, are one function for an editor. */
static void append_rule(lml_builder *out, const char *recipe, const char *point)
{
    lml_builder_add_format(out,
                           "---@class rule_members_%s : rule_members\n---@field work work_%s\n\n"
                           "---@param point \"%s\"\n---@return fun(all: rule_members_%s): table\n"
                           "function rule(point) end\n\n",
                           point, recipe, point, point);
}

static void append_recipe(lml_builder *out, const char *recipe, const lml_json *about)
{
    append_class(out, "job", recipe, lml_json_member(about, "asks"), false);
    append_class(out, "house", recipe, lml_json_member(about, "allowances"), false);
    append_class(out, "gives", recipe, lml_json_member(about, "gives"), true);
    append_class(out, "given", recipe, lml_json_member(about, "asks"), true);
    lml_builder_add_format(
        out,
        "---@alias work_%s fun(job: job_%s, house: house_%s, sheet: sheet): gives_%s\n\n"
        "---@class use\n---@field %s fun(given: given_%s): gives_%s\n\n",
        recipe, recipe, recipe, recipe, recipe, recipe, recipe);
    const char *point = lml_kit_rule_point(recipe);
    if (point)
        append_rule(out, recipe, point);
}

/* What a script gives back, by the comments in it. */
static void append_script(lml_builder *out, const char *script, lml_span text)
{
    lml_script_function f;
    lml_builder_add_format(out, "---@class script_%s\n", script);
    for (size_t at = 0; lml_api_script_next(text, &at, &f);) {
        lml_builder_add_text(out, "---@field ");
        lml_builder_add_span(out, f.name);
        lml_builder_add_text(out, f.takes.length ? " fun" : " any");
        lml_builder_add_span(out, f.takes);
        lml_builder_add_text(out, f.takes.length ? ": any " : "");
        lml_api_script_sentence(f.comment, out);
        lml_builder_add_char(out, '\n');
    }
    lml_builder_add_format(out,
                           "\n---@param script \"%s\"\n---@return script_%s\n"
                           "function require(script) end\n\n",
                           script, script);
}

/* A name with a hyphen can be no member that is read with a dot. */
static bool has_a_class(const lml_kit_text *text)
{
    return !strchr(text->name, '-');
}

static lml_status annotate_recipe(const lml_kit *kit, const char *recipe, lml_builder *out,
                                  lml_error *err)
{
    lml_json_document *about = NULL;
    lml_status status = lml_ask_inspect(kit, recipe, &about, err);
    if (status == LML_OK)
        append_recipe(out, recipe, lml_json_root(about));
    lml_json_free(about);
    return status == LML_NO_MEMORY ? status : LML_OK;
}

lml_status lml_annotate_recipes(const lml_kit *kit, lml_builder *out, lml_error *err)
{
    lml_status status = LML_OK;
    for (size_t i = 0; i < kit->count && status == LML_OK; i++) {
        const lml_kit_text *text = &kit->texts[i];
        if (!has_a_class(text))
            continue;
        if (text->what == LML_PUT_RECIPE)
            status = annotate_recipe(kit, text->name, out, err);
        else if (text->what == LML_PUT_SCRIPT)
            append_script(out, text->name, text->text);
    }
    return status == LML_OK ? lml_builder_status(out, err) : status;
}
