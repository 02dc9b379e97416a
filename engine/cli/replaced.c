#include "cli/replaced.h"

#include "cli/ask.h"
#include "sheet/complain.h"
#include "studio/original.h"
#include "studio/find.h"

#include <string.h>

static const lml_json *entry_of(const lml_json *about, const char *part, lml_span name)
{
    const lml_json *list = lml_json_member(about, part);
    for (const lml_json *e = lml_json_first(list); e; e = lml_json_next(e))
        if (lml_span_equal(lml_json_text(lml_json_member(e, "name")), name))
            return e;
    return NULL;
}

static bool same_text(const lml_json *a, const lml_json *b, const char *member)
{
    return lml_span_equal(lml_json_text(lml_json_member(a, member)),
                          lml_json_text(lml_json_member(b, member)));
}

/* 'wax', 'sprues': names that share one complaint. */
static void add_name(lml_builder *names, lml_span name)
{
    if (names->length)
        lml_builder_add_text(names, ", ");
    lml_builder_add_format(names, "'%.*s'", (int)name.length, name.at);
}

/* Empties the names. */
static void complain(lml_builder *out, const lml_kit_text *text, const char *verb,
                     lml_builder *names, const char *own, const char *hint)
{
    lml_error said = {.status = LML_OK};
    if (names->length) {
        lml_fail(&said, LML_OK, "%s %s %.*s, which lemel's own %s %s", text->shown, verb,
                 (int)names->length, names->at, text->name, own);
        lml_error_hint(&said, "%s", hint);
        lml_complain_write(&said, out);
    }
    names->length = 0;
}

static void tell_kind(lml_builder *out, const lml_kit_text *text, const char *part, lml_span name,
                      const lml_json *is, const lml_json *was)
{
    if (same_text(is, was, "kind") && same_text(is, was, "of"))
        return;
    lml_span kind = lml_json_text(lml_json_member(is, "kind")),
             other = lml_json_text(lml_json_member(was, "kind")),
             of = lml_json_text(lml_json_member(is, "of")),
             other_of = lml_json_text(lml_json_member(was, "of"));
    lml_error said = {.status = LML_OK};
    lml_fail(&said, LML_OK,
             "%s: '%.*s' of its %s is a %.*s%s%.*s, and in lemel's own %s a %.*s%s%.*s",
             text->shown, (int)name.length, name.at, part, (int)kind.length, kind.at,
             of.length ? " of " : "", (int)of.length, of.at, text->name, (int)other.length,
             other.at, other_of.length ? " of " : "", (int)other_of.length, other_of.at);
    lml_error_hint(&said, "take another name for it: jobs and other recipes mean lemel's kind");
    lml_complain_write(&said, out);
}

/* A house rule at such a point would never be asked. */
static void compare_points(const lml_json *is, const lml_json *was, const lml_kit_text *text,
                           lml_builder *names, lml_builder *out)
{
    const lml_json *e;
    for (e = lml_json_first(lml_json_member(was, "uses")); e; e = lml_json_next(e)) {
        const lml_json *own = lml_json_first(lml_json_member(is, "uses"));
        while (own && !lml_span_equal(lml_json_text(own), lml_json_text(e)))
            own = lml_json_next(own);
        if (!own && lml_span_starts(lml_json_text(e), "rule_"))
            add_name(names, lml_json_text(e));
    }
    complain(out, text, "does not use", names, "uses",
             "a rule of the house is asked there no more: ask it as lemel's own does");
}

static void compare(const lml_json *is, const lml_json *was, const lml_kit_text *text,
                    lml_builder *names, lml_builder *out)
{
    const lml_json *e;
    for (e = lml_json_first(lml_json_member(was, "asks")); e; e = lml_json_next(e)) {
        lml_span name = lml_json_text(lml_json_member(e, "name"));
        const lml_json *own = entry_of(is, "asks", name);
        if (own)
            tell_kind(out, text, "asks", name, own, e);
        else if (!entry_of(is, "allowances", name))
            add_name(names, name);
    }
    complain(out, text, "does not ask", names, "asks",
             "a job or a recipe that says one is refused: ask it too, with optional = true");
    for (e = lml_json_first(lml_json_member(is, "asks")); e; e = lml_json_next(e)) {
        lml_span name = lml_json_text(lml_json_member(e, "name"));
        if (!lml_json_yes(lml_json_member(e, "optional")) && !lml_json_member(e, "default") &&
            !entry_of(was, "asks", name))
            add_name(names, name);
    }
    complain(out, text, "needs", names, "does not ask",
             "recipes that use it do not say it: give it a default, or optional = true");
    for (e = lml_json_first(lml_json_member(was, "gives")); e; e = lml_json_next(e)) {
        lml_span name = lml_json_text(lml_json_member(e, "name"));
        const lml_json *own = entry_of(is, "gives", name);
        if (own)
            tell_kind(out, text, "gives", name, own, e);
        else
            add_name(names, name);
    }
    complain(
        out, text, "does not give", names, "gives",
        "a recipe that reads one fails: give it too, with optional = true where it may be missing");
}

lml_status lml_replaced_tell(lml_call *call, const lml_kit *kit, const lml_kit_text *text,
                             lml_builder *out, lml_error *err)
{
    lml_kit shipped = lml_kit_on(&call->alloc);
    lml_builder names = lml_builder_on(&call->alloc, 0);
    lml_json_document *is = NULL, *was = NULL;
    lml_status status = lml_find_shipped(call, &shipped, err);
    if (status == LML_OK && lml_kit_find(&shipped, LML_PUT_RECIPE, lml_span_of(text->name))) {
        status = lml_ask_inspect(&shipped, text->name, &was, err);
        if (status == LML_OK)
            status = lml_ask_inspect(kit, text->name, &is, err);
        if (status == LML_OK)
            compare(lml_json_root(is), lml_json_root(was), text, &names, out);
        if (status == LML_OK)
            compare_points(lml_json_root(is), lml_json_root(was), text, &names, out);
    }
    if (status == LML_OK)
        status = lml_builder_status(&names, err);
    lml_builder_free(&names);
    lml_json_free(is);
    lml_json_free(was);
    lml_kit_free(&shipped);
    return status;
}

/* ---- before a run ------------------------------------------------------------------------------
 */

static bool replaces(const lml_kit_text *text)
{
    return text->what == LML_PUT_RECIPE && text->replaces && !lml_kit_rule_point(text->name);
}

/* The recipes of a job as they are met; each once. */
typedef struct used {
    lml_call *call;
    const lml_kit *kit;
    const lml_target *checked; /* the job that is checked; NULL: it is run */
    bool *met;                 /* by the places of the kit */
} used;

static lml_status follow(used *u, lml_span recipe, lml_error *err)
{
    const lml_kit_text *text = lml_kit_find(u->kit, LML_PUT_RECIPE, recipe);
    if (!text || u->met[text - u->kit->texts])
        return LML_OK;
    u->met[text - u->kit->texts] = true;
    lml_json_document *about = NULL;
    lml_error why = {.status = LML_OK};
    lml_status status = LML_OK;
    if (replaces(text))
        status = lml_replaced_tell(u->call, u->kit, text, &u->call->aside, &why);
    if (status == LML_OK && u->checked && text->replaces)
        status = lml_original_mention(u->call, u->checked, text, &u->call->aside, &why);
    if (status == LML_OK)
        status = lml_ask_inspect(u->kit, text->name, &about, &why);
    const lml_json *list = about ? lml_json_member(lml_json_root(about), "uses") : NULL;
    for (const lml_json *e = lml_json_first(list); e && status == LML_OK; e = lml_json_next(e))
        status = follow(u, lml_json_text(e), &why);
    lml_json_free(about);
    if (status == LML_NO_MEMORY && err)
        *err = why;
    return status == LML_NO_MEMORY ? status : LML_OK;
}

/* As lml_engine_run and lml_engine_close find it. */
static lml_span recipe_of(const lml_json *job, bool closing)
{
    const lml_json *named =
        lml_json_member(closing ? lml_json_member(job, "closing") : job, "recipe");
    return closing && !named ? lml_span_of("closing") : lml_json_text(named);
}

lml_status lml_replaced_tell_job(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                                 const lml_target *checked, lml_error *err)
{
    lml_span text = {job->text.at, job->text.length};
    size_t i = 0;
    while (i < kit->count && !(checked ? kit->texts[i].replaces : replaces(&kit->texts[i])))
        i++;
    lml_json_document *doc;
    if (i == kit->count || lml_json_read(&call->alloc, text, NULL, "job", &doc, NULL) != LML_OK)
        return LML_OK;
    used u = {call, kit, checked, lml_alloc_get(&call->alloc, kit->count * sizeof *u.met)};
    lml_status status = LML_NO_MEMORY;
    if (u.met) {
        memset(u.met, 0, kit->count * sizeof *u.met);
        status = follow(&u, recipe_of(lml_json_root(doc), job->closing), err);
        lml_alloc_free(&call->alloc, u.met, kit->count * sizeof *u.met);
    } else {
        lml_fail(err, LML_NO_MEMORY, "out of memory for the recipes of a job");
    }
    lml_json_free(doc);
    return status;
}
