#include "report/advice_members.h"

#include "base/error.h"
#include "base/nearest.h"
#include "run/bind_sheet.h"
#include "run/engine.h"
#include "run/load.h"
#include "run/part.h"
#include "words/bind.h"
#include "words/lib.h"

#include <stdio.h>
#include <string.h>

/* ---- names -------------------------------------------------------------------------------------
 */

static void hint_fields(lml_error *words, const lml_shape *record)
{
    char list[200];
    size_t n = 0;
    for (size_t i = 0; i < record->field_count && n < sizeof list - 60; i++)
        n += (size_t)snprintf(list + n, sizeof list - n, "%s%s", i ? ", " : "",
                              record->fields[i].name);
    lml_error_hint(words, record->field_count ? "it has %s" : "it has no names%s",
                   record->field_count ? list : "");
}

static void tell_no_member(lml_advice_look *k, int line, lml_span whole, const lml_shape *record,
                           lml_span name)
{
    lml_nearest nearest = lml_nearest_to(name);
    for (size_t i = 0; i < record->field_count; i++)
        lml_nearest_offer(&nearest, lml_span_of(record->fields[i].name));
    lml_error words;
    lml_fail(&words, LML_OK, "%.*s has no '%.*s'", (int)whole.length, whole.at, (int)name.length,
             name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&words, "did you mean %.*s.%.*s?", (int)whole.length, whole.at,
                       (int)nearest.best.length, nearest.best.at);
    else if (record == &k->recipe->asks || record == &k->recipe->allowances)
        lml_error_hint(&words, "declare it under %s: %.*s = ask.mass { \"...\" }, or its kind",
                       record == &k->recipe->asks ? "asks" : "allowances", (int)name.length,
                       name.at);
    else
        hint_fields(&words, record);
    lml_advice_look_refuse(k, line, &words);
}

static bool is_one_of(lml_span name, const lml_word *words)
{
    for (; words && words->name; words++)
        if (lml_span_is(name, words->name))
            return true;
    return false;
}

static bool is_page(lml_span name, lml_nearest *nearest)
{
    for (size_t i = 0; i < lml_part_pages(); i++) {
        if (lml_span_is(name, lml_part_page(i)))
            return true;
        lml_nearest_offer(nearest, lml_span_of(lml_part_page(i)));
    }
    return false;
}

static void look_at_page(lml_advice_look *k, int line, lml_span sheet, lml_span name)
{
    static const char *const remarks[] = {"note", "caution", "stop", "confirm"};
    lml_nearest nearest = lml_nearest_to(name);
    if (is_page(name, &nearest))
        return;
    lml_error words;
    int length = (int)sheet.length;
    for (size_t i = 0; i < sizeof remarks / sizeof *remarks; i++)
        if (lml_span_is(name, remarks[i])) {
            lml_fail(&words, LML_OK, "%.*s.%s is called with a dot", length, sheet.at, remarks[i]);
            lml_error_hint(&words, "write %.*s:%s(\"code\", \"What to say\")", length, sheet.at,
                           remarks[i]);
            lml_advice_look_refuse(k, line, &words);
            return;
        }
    lml_fail(&words, LML_OK, "a sheet has no '%.*s'", (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&words, "did you mean %.*s.%.*s?", length, sheet.at,
                       (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(&words, "its pages are bench piece client metal receipt consent card cost");
    lml_advice_look_refuse(k, line, &words);
}

/* What has methods, and which; two lists of them at most. */
typedef struct methods {
    const char *whose;
    const lml_word *words, *more;
} methods;

static methods methods_of(const lml_meaning *m)
{
    if (m->what == LML_MEANS_SHEET)
        return (methods){"a sheet", lml_bind_sheet, NULL};
    if (m->what == LML_MEANS_PAGE)
        return (methods){"a page", lml_bind_sheet_page, NULL};
    if (m->what != LML_MEANS_KIND)
        return (methods){NULL, NULL, NULL};
    if (lml_wanted_has_unit(m->wanted))
        return (methods){lml_wanted_words(m->wanted), lml_bind_methods, lml_bind_about};
    if (m->wanted == LML_WANT_ALLOY || m->wanted == LML_WANT_ASSAY)
        return (methods){lml_wanted_words(m->wanted), lml_bind_alloy_methods, NULL};
    return (methods){NULL, NULL, NULL};
}

static bool has_method(const methods *all, lml_span name)
{
    return is_one_of(name, all->words) || is_one_of(name, all->more);
}

static void tell_no_method(lml_advice_look *k, int line, const methods *all, lml_span name)
{
    lml_nearest nearest = lml_nearest_to(name);
    char list[300] = "";
    size_t n = 0;
    for (const lml_word *w = all->words; w->name; w++) {
        lml_nearest_offer(&nearest, lml_span_of(w->name));
        if (n < sizeof list - 40)
            n += (size_t)snprintf(list + n, sizeof list - n, "%s%s", n ? " " : "", w->name);
    }
    for (const lml_word *w = all->more; w && w->name; w++)
        lml_nearest_offer(&nearest, lml_span_of(w->name));
    lml_error words;
    lml_fail(&words, LML_OK, "%s has no '%.*s'", all->whose, (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&words, "did you mean :%.*s?", (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(&words, "%s", list);
    lml_advice_look_refuse(k, line, &words);
}

/* job.worked.up_to, sheet.client.line */
static void look_at_dot(lml_advice_look *k, int line, lml_span whole, const lml_meaning *m,
                        lml_span name)
{
    methods all = methods_of(m);
    lml_error words;
    if (m->what == LML_MEANS_SHEET) {
        look_at_page(k, line, whole, name);
    } else if (all.whose && has_method(&all, name)) {
        lml_fail(&words, LML_OK, "%.*s.%.*s is called with a dot", (int)whole.length, whole.at,
                 (int)name.length, name.at);
        lml_error_hint(&words, "write %.*s:%.*s", (int)whole.length, whole.at, (int)name.length,
                       name.at);
        lml_advice_look_refuse(k, line, &words);
    }
}

/* The names behind the dots of the path at i. */
static void look_at_members(lml_advice_look *k, int i, const lml_path *path)
{
    for (int p = 1; p < path->count; p++) {
        lml_meaning whole = lml_meanings_path(&k->meanings, path, p);
        lml_span name = path->part[p], first = path->part[0], last = path->part[p - 1];
        lml_span shown = lml_span_between(first.at, last.at + last.length);
        int line = k->token[i + 2 * p].line;
        bool record = whole.what == LML_MEANS_KIND && whole.wanted == LML_WANT_RECORD;
        if (!record) {
            look_at_dot(k, line, shown, &whole, name);
        } else if (!lml_shape_field_named(whole.shape, name) && !whole.shape->of) {
            tell_no_member(k, line, shown, whole.shape, name);
            return;
        }
    }
}

/* { "charge", "lemel" } behind the second comma of sheet:stop( ... ). */
static void look_at_withheld(lml_advice_look *k, int i)
{
    int depth = 0, commas = 0;
    for (; i < k->count; i++) {
        bool opens = lml_advice_look_is(k, i, "(") || lml_advice_look_is(k, i, "{") ||
                     lml_advice_look_is(k, i, "[");
        bool closes = lml_advice_look_is(k, i, ")") || lml_advice_look_is(k, i, "}") ||
                      lml_advice_look_is(k, i, "]");
        depth += opens - closes;
        commas += depth == 1 && lml_advice_look_is(k, i, ",");
        if (depth == 0)
            return;
        if (k->token[i].kind != LML_TOKEN_TEXT || depth != 2 || commas != 2 ||
            !(lml_advice_look_is(k, i - 1, "{") || lml_advice_look_is(k, i - 1, ",")) ||
            !(lml_advice_look_is(k, i + 1, "}") || lml_advice_look_is(k, i + 1, ",")))
            continue;
        lml_span name = lml_advice_look_unquoted(k->token[i].text);
        if (name.length == 0 || lml_shape_field_named(&k->recipe->gives, name))
            continue;
        lml_nearest nearest = lml_nearest_to(name);
        for (size_t g = 0; g < k->recipe->gives.field_count; g++)
            lml_nearest_offer(&nearest, lml_span_of(k->recipe->gives.fields[g].name));
        lml_error words;
        lml_fail(&words, LML_OK, "'%.*s' is withheld, but the recipe does not give it",
                 (int)name.length, name.at);
        if (lml_nearest_found(&nearest))
            lml_error_hint(&words, "did you mean \"%.*s\"?", (int)nearest.best.length,
                           nearest.best.at);
        else
            lml_error_hint(&words, "name one of its gives, in quotes");
        lml_advice_look_tell(k, k->token[i].line, &words);
    }
}

/* The methods that are called one after the other behind what ends at i. */
static void look_at_methods(lml_advice_look *k, int i, lml_meaning m)
{
    while (lml_advice_look_is(k, i, ":") && i + 1 < k->count) {
        lml_token name = k->token[i + 1];
        methods all = methods_of(&m);
        bool remark = m.what == LML_MEANS_SHEET || m.what == LML_MEANS_PAGE;
        if (all.whose && !has_method(&all, name.text)) {
            tell_no_method(k, name.line, &all, name.text);
            return;
        }
        if (remark && lml_advice_look_is(k, i + 2, "(") &&
            (lml_token_is(name, "stop") || lml_token_is(name, "confirm")))
            look_at_withheld(k, i + 2);
        if (!all.whose || remark || !lml_meaning_is_kept_by(name) || i + 2 >= k->count)
            return;
        lml_scanner s = lml_advice_look_behind(k, i + 2);
        i = lml_advice_look_index(k, i + 2, lml_meaning_skip_arguments(&s, k->token[i + 2]));
    }
}

/* ---- other recipes -----------------------------------------------------------------------------
 */

/* A missing or faulty recipe is reported elsewhere. */
const lml_recipe *lml_advice_members_used(void *self, lml_span name)
{
    lml_advice_look *k = self;
    lml_item *item = lml_shelf_find(&k->run->engine->shelf, LML_PUT_RECIPE, name);
    if (!item || !lml_recipe_uses(k->recipe, name) || lml_load_describe_item(k->run, item, NULL))
        return NULL;
    return item->recipe;
}

/* From the brace at i on: the index of the next key of the table that opens there, as in
 * { wax = ... }; *depth is 0 at first. -1: there are no more. */
static int next_key(const lml_advice_look *k, int i, int *depth)
{
    static const char *const opening[] = {"(", "{", "["}, *const closing[] = {")", "}", "]"};
    for (; i < k->count; i++) {
        for (int b = 0; b < 3; b++)
            *depth += lml_advice_look_is(k, i, opening[b]) - lml_advice_look_is(k, i, closing[b]);
        if (*depth == 0)
            return -1;
        if (*depth == 1 && k->token[i].kind == LML_TOKEN_NAME &&
            lml_advice_look_is(k, i + 1, "=") &&
            (lml_advice_look_is(k, i - 1, "{") || lml_advice_look_is(k, i - 1, ",") ||
             lml_advice_look_is(k, i - 1, ";")))
            return i;
    }
    return -1;
}

/* use.NAME { wax = ... }: the brace is at i. */
static void look_at_given(lml_advice_look *k, int i, const lml_recipe *r)
{
    if (lml_advice_look_is(k, i, "("))
        i++;
    if (!lml_advice_look_is(k, i, "{"))
        return;
    int depth = 0;
    for (; (i = next_key(k, i, &depth)) >= 0; i++) {
        lml_span name = k->token[i].text;
        if (lml_shape_field_named(&r->loose, name))
            continue;
        lml_nearest nearest = lml_nearest_to(name);
        for (size_t f = 0; f < r->loose.field_count; f++)
            lml_nearest_offer(&nearest, lml_span_of(r->loose.fields[f].name));
        lml_error words;
        lml_fail(&words, LML_OK, "%s does not ask for '%.*s'", r->name, (int)name.length, name.at);
        if (lml_nearest_found(&nearest))
            lml_error_hint(&words, "did you mean '%.*s'?", (int)nearest.best.length,
                           nearest.best.at);
        else
            lml_error_hint(&words, "lemel inspect %s lists what it asks and allows", r->name);
        lml_advice_look_refuse(k, k->token[i].line, &words);
    }
}

void lml_advice_members_path(lml_advice_look *k, int i)
{
    if (k->token[i].kind != LML_TOKEN_NAME || lml_advice_look_is(k, i - 1, ".") ||
        lml_advice_look_is(k, i - 1, ":") || lml_advice_look_is(k, i - 1, "function"))
        return;
    lml_scanner s = lml_advice_look_behind(k, i);
    lml_path path;
    int behind = lml_advice_look_index(k, i, lml_path_read(&s, k->token[i], &path));
    if (path.count == 2 && lml_span_is(path.part[0], "use")) {
        const lml_recipe *r = lml_advice_members_used(k, path.part[1]);
        if (r)
            look_at_given(k, behind, r);
    } else if (path.count > 0) {
        look_at_members(k, i, &path);
        look_at_methods(k, behind, lml_meanings_path(&k->meanings, &path, path.count));
    }
}

/* ---- sentences ---------------------------------------------------------------------------------
 */

static bool holds_place(lml_span sentence, lml_span name)
{
    for (size_t i = 0; i + name.length + 2 <= sentence.length; i++)
        if (sentence.at[i] == '{' && memcmp(sentence.at + i + 1, name.at, name.length) == 0 &&
            sentence.at[i + 1 + name.length] == '}')
            return true;
    return false;
}

/* text.fill("{a}", { a = ..., b = ... }): what the sentence has no place for is not printed. */
void lml_advice_members_sentence(lml_advice_look *k, int i)
{
    bool fills = lml_advice_look_is(k, i, "text") && lml_advice_look_is(k, i + 1, ".") &&
                 lml_advice_look_is(k, i + 2, "fill") && lml_advice_look_is(k, i + 3, "(") &&
                 lml_advice_look_is(k, i + 5, ",") && lml_advice_look_is(k, i + 6, "{");
    lml_span sentence = fills ? lml_advice_look_unquoted(k->token[i + 4].text) : (lml_span){"", 0};
    if (sentence.length == 0 || k->token[i + 4].kind != LML_TOKEN_TEXT)
        return;
    int depth = 0;
    for (i += 6; (i = next_key(k, i, &depth)) >= 0; i++) {
        lml_span name = k->token[i].text;
        if (holds_place(sentence, name))
            continue;
        lml_error words;
        lml_fail(&words, LML_OK, "'%.*s' is given to a sentence that has no place for it",
                 (int)name.length, name.at);
        lml_error_hint(&words, "write {%.*s} in the sentence, or remove it", (int)name.length,
                       name.at);
        lml_advice_look_tell(k, k->token[i].line, &words);
    }
}
