#include "report/advice_kinds.h"

#include "base/error.h"
#include "base/exact.h"
#include "base/nearest.h"
#include "run/bind_sheet.h"
#include "run/engine.h"
#include "run/load.h"
#include "run/part.h"
#include "shelf/meaning.h"
#include "words/bind.h"
#include "words/lib.h"

#include <stdio.h>
#include <string.h>

enum { SHOWN_MOST = 60, NONE = -1 };

typedef struct looker {
    lml_run *run;
    const lml_recipe *recipe;
    lml_meanings meanings;
    lml_span source;
    lml_token *token; /* of the whole source */
    int count;
    lml_advice_tell *tell, *tell_wrong;
    void *self;
} looker;

static void tell(looker *k, int line, const lml_error *words)
{
    k->tell(k->self, line, words->message, words->hint);
}

/* What no run gets past. */
static void refuse(looker *k, int line, const lml_error *words)
{
    k->tell_wrong(k->self, line, words->message, words->hint);
}

static bool is(const looker *k, int i, const char *text)
{
    return i >= 0 && i < k->count && lml_token_is(k->token[i], text);
}

static lml_scanner scanner_behind(const looker *k, int i)
{
    lml_token t = k->token[i];
    return (lml_scanner){t.text.at + t.text.length, k->source.at + k->source.length, t.line};
}

static int index_of(const looker *k, int from, lml_token t)
{
    int i = from;
    while (t.kind != LML_TOKEN_END && i < k->count && k->token[i].text.at < t.text.at)
        i++;
    return t.kind == LML_TOKEN_END ? k->count : i;
}

static lml_span text_of(const looker *k, int from, int to)
{
    lml_span last = k->token[to - 1].text;
    lml_span all = lml_span_between(k->token[from].text.at, last.at + last.length);
    bool fits = all.length <= SHOWN_MOST && !memchr(all.at, '\n', all.length);
    return fits ? all : lml_span_of("this");
}

/* ---- names -------------------------------------------------------------------------------------
 */

/* The text between plain quotes; an empty span for long brackets and texts with a backslash. */
static lml_span unquoted(lml_span text)
{
    if (text.length < 2 || text.at[0] == '[' || memchr(text.at, '\\', text.length))
        return (lml_span){text.at, 0};
    return (lml_span){text.at + 1, text.length - 2};
}

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

static void tell_no_member(looker *k, int line, lml_span whole, const lml_shape *record,
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
    refuse(k, line, &words);
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

static void look_at_page(looker *k, int line, lml_span sheet, lml_span name)
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
            refuse(k, line, &words);
            return;
        }
    lml_fail(&words, LML_OK, "a sheet has no '%.*s'", (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&words, "did you mean %.*s.%.*s?", length, sheet.at,
                       (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(&words, "its pages are bench piece client metal receipt consent card cost");
    refuse(k, line, &words);
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

static void tell_no_method(looker *k, int line, const methods *all, lml_span name)
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
    refuse(k, line, &words);
}

/* job.worked.up_to, sheet.client.line */
static void look_at_dot(looker *k, int line, lml_span whole, const lml_meaning *m, lml_span name)
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
        refuse(k, line, &words);
    }
}

/* The names behind the dots of the path at i. */
static void look_at_members(looker *k, int i, const lml_path *path)
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
static void look_at_withheld(looker *k, int i)
{
    int depth = 0, commas = 0;
    for (; i < k->count; i++) {
        bool opens = is(k, i, "(") || is(k, i, "{") || is(k, i, "[");
        bool closes = is(k, i, ")") || is(k, i, "}") || is(k, i, "]");
        depth += opens - closes;
        commas += depth == 1 && is(k, i, ",");
        if (depth == 0)
            return;
        if (k->token[i].kind != LML_TOKEN_TEXT || depth != 2 || commas != 2 ||
            !(is(k, i - 1, "{") || is(k, i - 1, ",")) || !(is(k, i + 1, "}") || is(k, i + 1, ",")))
            continue;
        lml_span name = unquoted(k->token[i].text);
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
        tell(k, k->token[i].line, &words);
    }
}

/* The methods that are called one after the other behind what ends at i. */
static void look_at_methods(looker *k, int i, lml_meaning m)
{
    while (is(k, i, ":") && i + 1 < k->count) {
        lml_token name = k->token[i + 1];
        methods all = methods_of(&m);
        bool remark = m.what == LML_MEANS_SHEET || m.what == LML_MEANS_PAGE;
        if (all.whose && !has_method(&all, name.text)) {
            tell_no_method(k, name.line, &all, name.text);
            return;
        }
        if (remark && is(k, i + 2, "(") &&
            (lml_token_is(name, "stop") || lml_token_is(name, "confirm")))
            look_at_withheld(k, i + 2);
        if (!all.whose || remark || !lml_meaning_is_kept_by(name) || i + 2 >= k->count)
            return;
        lml_scanner s = scanner_behind(k, i + 2);
        i = index_of(k, i + 2, lml_meaning_skip_arguments(&s, k->token[i + 2]));
    }
}

/* ---- other recipes -----------------------------------------------------------------------------
 */

/* A missing or faulty recipe is reported elsewhere. */
static const lml_recipe *used(void *self, lml_span name)
{
    looker *k = self;
    lml_item *item = lml_shelf_find(&k->run->engine->shelf, LML_PUT_RECIPE, name);
    if (!item || !lml_recipe_uses(k->recipe, name) || lml_load_describe_item(k->run, item, NULL))
        return NULL;
    return item->recipe;
}

/* use.NAME { wax = ... }: the brace is at i. */
static void look_at_given(looker *k, int i, const lml_recipe *r)
{
    if (is(k, i, "("))
        i++;
    if (!is(k, i, "{"))
        return;
    for (int depth = 0; i < k->count; i++) {
        bool opens = is(k, i, "(") || is(k, i, "{") || is(k, i, "[");
        bool closes = is(k, i, ")") || is(k, i, "}") || is(k, i, "]");
        depth += opens - closes;
        if (depth == 0)
            return;
        bool named = depth == 1 && k->token[i].kind == LML_TOKEN_NAME && is(k, i + 1, "=") &&
                     (is(k, i - 1, "{") || is(k, i - 1, ",") || is(k, i - 1, ";"));
        lml_span name = k->token[i].text;
        if (!named || lml_shape_field_named(&r->loose, name))
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
        refuse(k, k->token[i].line, &words);
    }
}

static void look_at_path(looker *k, int i)
{
    if (k->token[i].kind != LML_TOKEN_NAME || is(k, i - 1, ".") || is(k, i - 1, ":") ||
        is(k, i - 1, "function"))
        return;
    lml_scanner s = scanner_behind(k, i);
    lml_path path;
    int behind = index_of(k, i, lml_path_read(&s, k->token[i], &path));
    if (path.count == 2 && lml_span_is(path.part[0], "use")) {
        const lml_recipe *r = used(k, path.part[1]);
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
static void look_at_sentence(looker *k, int i)
{
    bool fills = is(k, i, "text") && is(k, i + 1, ".") && is(k, i + 2, "fill") &&
                 is(k, i + 3, "(") && is(k, i + 5, ",") && is(k, i + 6, "{");
    lml_span sentence = fills ? unquoted(k->token[i + 4].text) : (lml_span){"", 0};
    if (sentence.length == 0 || k->token[i + 4].kind != LML_TOKEN_TEXT)
        return;
    int depth = 0;
    for (i += 6; i < k->count; i++) {
        bool opens = is(k, i, "(") || is(k, i, "{") || is(k, i, "[");
        bool closes = is(k, i, ")") || is(k, i, "}") || is(k, i, "]");
        depth += opens - closes;
        if (depth == 0)
            return;
        bool named = depth == 1 && k->token[i].kind == LML_TOKEN_NAME && is(k, i + 1, "=") &&
                     (is(k, i - 1, "{") || is(k, i - 1, ","));
        lml_span name = k->token[i].text;
        if (!named || holds_place(sentence, name))
            continue;
        lml_error words;
        lml_fail(&words, LML_OK, "'%.*s' is given to a sentence that has no place for it",
                 (int)name.length, name.at);
        lml_error_hint(&words, "write {%.*s} in the sentence, or remove it", (int)name.length,
                       name.at);
        tell(k, k->token[i].line, &words);
    }
}

/* ---- operands ----------------------------------------------------------------------------------
 */

static bool is_equality(lml_token t)
{
    return lml_token_is(t, "==") || lml_token_is(t, "~=");
}

static bool is_order(lml_token t)
{
    return lml_token_is(t, "<") || lml_token_is(t, ">") || lml_token_is(t, "<=") ||
           lml_token_is(t, ">=");
}

static bool is_joint(lml_token t)
{
    return lml_token_is(t, "+") || lml_token_is(t, "-");
}

/* Where the operand before the sign at i begins; NONE where it is not known. */
static int start_of(const looker *k, int i, bool joint)
{
    int depth = 0;
    for (int j = i; j > 0; j--) {
        lml_token t = k->token[j - 1];
        bool opens = is(k, j - 1, "(") || is(k, j - 1, "{") || is(k, j - 1, "[");
        if (opens && depth == 0)
            return j;
        if (depth == 0 && lml_token_is(t, "not"))
            return NONE;
        if (depth == 0 && (lml_meaning_is_border(t) || (joint && is_joint(t))))
            return j;
        depth -= opens;
        depth += is(k, j - 1, ")") || is(k, j - 1, "}") || is(k, j - 1, "]");
    }
    return NONE;
}

typedef struct operand {
    lml_meaning is;
    lml_span text;
} operand;

/* Both sides of the sign at i; false when one of them is not known. */
static bool read_operands(looker *k, int i, operand *left, operand *right)
{
    bool joint = is_joint(k->token[i]);
    int from = start_of(k, i, joint);
    if (from == NONE || from >= i || i + 1 >= k->count)
        return false;
    lml_token (*read)(lml_meanings *, lml_scanner *, lml_token, lml_meaning *) =
        joint ? lml_meanings_product : lml_meanings_sum;
    lml_scanner s = scanner_behind(k, from);
    if (index_of(k, from, read(&k->meanings, &s, k->token[from], &left->is)) != i)
        return false;
    s = scanner_behind(k, i + 1);
    int behind = index_of(k, i + 1, read(&k->meanings, &s, k->token[i + 1], &right->is));
    if (behind <= i + 1)
        return false;
    left->text = text_of(k, from, i);
    right->text = text_of(k, i + 1, behind);
    return left->is.what != LML_MEANS_NOTHING && right->is.what != LML_MEANS_NOTHING;
}

/* ---- kinds that do not go together -------------------------------------------------------------
 */

static bool is_number(const operand *o)
{
    return o->is.what == LML_MEANS_NUMBER ||
           (o->is.what == LML_MEANS_KIND &&
            (o->is.wanted == LML_WANT_NUMBER || o->is.wanted == LML_WANT_WHOLE));
}

static bool is_value(const operand *o)
{
    return o->is.what == LML_MEANS_KIND && lml_wanted_has_unit(o->is.wanted);
}

static bool is_words(const operand *o)
{
    return o->is.what == LML_MEANS_TEXT ||
           (o->is.what == LML_MEANS_KIND &&
            (o->is.wanted == LML_WANT_TEXT || o->is.wanted == LML_WANT_CHOICE ||
             o->is.wanted == LML_WANT_OWNER));
}

/* A kind that nothing of another kind is added to or compared with. */
static bool is_apart(const operand *o)
{
    static const lml_wanted kinds[] = {
        LML_WANT_MASS,  LML_WANT_FINE_MASS, LML_WANT_LENGTH, LML_WANT_AREA,    LML_WANT_VOLUME,
        LML_WANT_TIME,  LML_WANT_DENSITY,   LML_WANT_ENERGY, LML_WANT_POWER,   LML_WANT_CURRENT,
        LML_WANT_MONEY, LML_WANT_PRICE,     LML_WANT_RATIO,  LML_WANT_FINENESS};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (o->is.what == LML_MEANS_KIND && o->is.wanted == kinds[i])
            return true;
    return false;
}

static const char *words_of(const operand *o)
{
    if (o->is.what == LML_MEANS_KIND)
        return lml_wanted_words(o->is.wanted);
    return o->is.what == LML_MEANS_NUMBER ? "a bare number" : "a text";
}

static const char *example_of(const operand *o)
{
    return o->is.shape ? lml_shape_example(o->is.shape) : lml_wanted_example(o->is.wanted);
}

/* "wax is a mass, which is never equal to ...: the comparison is always false" */
static void tell_never(looker *k, lml_token sign, const operand *o, const char *than,
                       const operand *other, const char *hint)
{
    lml_error words;
    lml_fail(&words, LML_OK,
             "%.*s is %s, which is never equal to %s%.*s: the comparison is always %s",
             (int)o->text.length, o->text.at, words_of(o), than, (int)other->text.length,
             other->text.at, lml_token_is(sign, "==") ? "false" : "true");
    lml_error_hint(&words, "%s", hint);
    bool refused = is_value(o) && other->is.what == LML_MEANS_NUMBER;
    (refused ? k->tell_wrong : k->tell)(k->self, sign.line, words.message, words.hint);
}

static void with_number(looker *k, lml_token sign, const operand *value, const operand *number)
{
    lml_error words;
    char hint[200];
    bool sum = memchr(value->text.at, ' ', value->text.length) != NULL;
    snprintf(hint, sizeof hint, "write %s%.*s%s:is_zero(), or compare it with a value: == Q \"%s\"",
             sum ? "(" : "", (int)value->text.length, value->text.at, sum ? ")" : "",
             example_of(value));
    if (is_equality(sign)) {
        tell_never(k, sign, value, "the bare number ", number, hint);
        return;
    }
    lml_fail(&words, LML_OK, "%.*s is %s, but is compared with the bare number %.*s",
             (int)value->text.length, value->text.at, words_of(value), (int)number->text.length,
             number->text.at);
    lml_error_hint(&words, "write the number with its unit: %.*s Q \"%s\"", (int)sign.text.length,
                   sign.text.at, example_of(value));
    refuse(k, sign.line, &words);
}

/* A text as it is written beside something other than a text. */
static void with_text(looker *k, lml_token sign, const operand *o, const operand *text)
{
    char hint[200];
    if (is_value(o))
        snprintf(hint, sizeof hint, "write %.*s Q %.*s", (int)sign.text.length, sign.text.at,
                 (int)text->text.length, text->text.at);
    else if (o->is.wanted == LML_WANT_YES_NO)
        snprintf(hint, sizeof hint, "it is true or false: write if %.*s, or if not %.*s",
                 (int)o->text.length, o->text.at, (int)o->text.length, o->text.at);
    else if (is_number(o))
        snprintf(hint, sizeof hint, "write the number without quotes");
    else
        snprintf(hint, sizeof hint, "compare one of its members, such as its name or its text");
    tell_never(k, sign, o, "the text ", text, hint);
}

static void with_option(looker *k, lml_token sign, const operand *choice, const operand *text)
{
    lml_span option = unquoted(text->text);
    lml_nearest nearest = lml_nearest_to(option);
    for (const char *const *c = choice->is.shape->choices; *c; c++) {
        if (option.length == 0 || lml_span_is(option, *c))
            return;
        lml_nearest_offer(&nearest, lml_span_of(*c));
    }
    lml_error words;
    lml_fail(&words, LML_OK, "%.*s is a choice, and \"%.*s\" is not one of its options",
             (int)choice->text.length, choice->text.at, (int)option.length, option.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&words, "did you mean \"%.*s\"?", (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(&words, "its first option is \"%s\"; lemel inspect lists them all",
                       choice->is.shape->choices[0]);
    tell(k, sign.line, &words);
}

static void words_with_number(looker *k, lml_token sign, const operand *o, const operand *number)
{
    char hint[200];
    lml_error words;
    if (o->is.wanted == LML_WANT_CHOICE && o->is.shape && o->is.shape->choices)
        snprintf(hint, sizeof hint, "write one of its options, in quotes, such as \"%s\"",
                 o->is.shape->choices[0]);
    else
        snprintf(hint, sizeof hint, "write the text in quotes: \"%.*s\"", (int)number->text.length,
                 number->text.at);
    if (is_equality(sign)) {
        tell_never(k, sign, o, "the number ", number, hint);
        return;
    }
    lml_fail(&words, LML_OK, "%.*s is %s, and cannot be compared with the number %.*s",
             (int)o->text.length, o->text.at, words_of(o), (int)number->text.length,
             number->text.at);
    lml_error_hint(&words, "%s", hint);
    refuse(k, sign.line, &words);
}

static void tell_apart(looker *k, lml_token sign, const operand *a, const operand *b)
{
    lml_error words;
    const char *verb =
        is_joint(sign) ? lml_token_is(sign, "+") ? "added" : "subtracted" : "compared";
    lml_fail(&words, LML_OK, "%.*s is %s and %.*s %s: they cannot be %s", (int)a->text.length,
             a->text.at, words_of(a), (int)b->text.length, b->text.at, words_of(b), verb);
    bool price = (a->is.wanted == LML_WANT_PRICE) != (b->is.wanted == LML_WANT_PRICE);
    bool fine = a->is.wanted == LML_WANT_FINE_MASS || b->is.wanted == LML_WANT_FINE_MASS;
    if (is_number(a) || is_number(b))
        lml_error_hint(&words, "write the number with its unit: Q \"%s\"",
                       example_of(is_number(a) ? b : a));
    else if (price)
        lml_error_hint(&words, "a price becomes money when it is multiplied by what it is per");
    else if (fine)
        lml_error_hint(&words, "a mass becomes a fine mass when it is multiplied by its fineness");
    else
        lml_error_hint(&words, "both sides have to be of one kind");
    refuse(k, sign.line, &words);
}

static void look_at_sign(looker *k, int i)
{
    lml_token sign = k->token[i];
    operand a, b;
    bool equality = is_equality(sign), joint = is_joint(sign);
    if ((!equality && !joint && !is_order(sign)) || !read_operands(k, i, &a, &b))
        return;
    if (is_number(&a) || (a.is.what == LML_MEANS_TEXT && b.is.what != LML_MEANS_TEXT)) {
        operand first = a; /* what is known more of stands first */
        a = b;
        b = first;
    }
    bool kind = a.is.what == LML_MEANS_KIND && a.is.wanted != LML_WANT_ANYTHING;
    bool ratio = a.is.wanted == LML_WANT_RATIO || b.is.wanted == LML_WANT_RATIO;
    if (!kind)
        return;
    if (joint) {
        if (is_apart(&a) && ((is_apart(&b) && a.is.wanted != b.is.wanted && !ratio) ||
                             (is_number(&b) && !ratio && a.is.wanted != LML_WANT_FINENESS)))
            tell_apart(k, sign, &a, &b);
    } else if (is_value(&a) && is_number(&b)) {
        if (equality || !ratio) /* 5 % is more than 0.04, and never equal to it */
            with_number(k, sign, &a, &b);
    } else if (b.is.what == LML_MEANS_TEXT && a.is.wanted == LML_WANT_CHOICE && a.is.shape) {
        if (equality)
            with_option(k, sign, &a, &b);
    } else if (b.is.what == LML_MEANS_TEXT && !is_words(&a)) {
        if (equality)
            with_text(k, sign, &a, &b);
    } else if (b.is.what == LML_MEANS_NUMBER && is_words(&a)) {
        words_with_number(k, sign, &a, &b);
    } else if (is_order(sign) &&
               ((is_words(&a) && is_value(&b)) || (is_value(&a) && is_words(&b)))) {
        tell_apart(k, sign, &a, &b);
    } else if (is_apart(&a) && is_apart(&b) && a.is.wanted != b.is.wanted) {
        tell_apart(k, sign, &a, &b);
    }
}

/* ---- beside a sign of a product, or in a call --------------------------------------------------
 */

/* A name with its members that ends before, or begins at, i, and is an operand by itself. */
static bool read_path(looker *k, int i, bool before, operand *out)
{
    int from = before ? i - 1 : i, to = i;
    while (before && from >= 2 && is(k, from - 1, "."))
        from -= 2;
    if (from < 0 || from >= k->count || k->token[from].kind != LML_TOKEN_NAME)
        return false;
    lml_scanner s = scanner_behind(k, from);
    lml_path path;
    to = index_of(k, from, lml_path_read(&s, k->token[from], &path));
    static const char *const closer[] = {"*", "/", "//", "%", "^", "-", "#", ":", ".", "not"},
                             *const behind[] = {"^", "(", "[", "{", ":"};
    for (size_t n = 0; n < sizeof closer / sizeof *closer; n++)
        if (before && is(k, from - 1, closer[n]))
            return false;
    for (size_t n = 0; n < sizeof behind / sizeof *behind; n++)
        if (!before && is(k, to, behind[n]))
            return false;
    if ((before && to != i) || (!before && to < k->count && k->token[to].kind == LML_TOKEN_TEXT))
        return false;
    out->is = lml_meanings_path(&k->meanings, &path, path.count);
    out->text = text_of(k, from, to);
    return out->is.what == LML_MEANS_KIND;
}

/* Money is multiplied by a number, or a share. */
static void look_at_times(looker *k, int i)
{
    operand a, b;
    if (!is(k, i, "*") || !read_path(k, i, true, &a) || !read_path(k, i + 1, false, &b) ||
        !is_apart(&a) || !is_apart(&b) || a.is.wanted == LML_WANT_RATIO ||
        b.is.wanted == LML_WANT_RATIO || a.is.wanted == LML_WANT_FINENESS ||
        b.is.wanted == LML_WANT_FINENESS ||
        (a.is.wanted != LML_WANT_MONEY && b.is.wanted != LML_WANT_MONEY))
        return;
    lml_error words;
    lml_fail(&words, LML_OK, "%.*s is %s and %.*s %s: they cannot be multiplied",
             (int)a.text.length, a.text.at, words_of(&a), (int)b.text.length, b.text.at,
             words_of(&b));
    lml_error_hint(&words, "a price is multiplied by what it is per, such as 68 USD/h by a time");
    refuse(k, k->token[i].line, &words);
}

static void look_at_join(looker *k, int i)
{
    operand o;
    if (!is(k, i, "..") || !((read_path(k, i, true, &o) && is_value(&o)) ||
                             (read_path(k, i + 1, false, &o) && is_value(&o))))
        return;
    lml_error words;
    lml_fail(&words, LML_OK, "%.*s is %s, and cannot be joined to a text with ..",
             (int)o.text.length, o.text.at, words_of(&o));
    lml_error_hint(&words, "write text.fill(\"{m} of metal\", { m = value }) or tostring(value)");
    refuse(k, k->token[i].line, &words);
}

/* min(a, b) of two kinds. */
static void look_at_least(looker *k, int i)
{
    operand a, b;
    if ((!is(k, i, "min") && !is(k, i, "max")) || is(k, i - 1, ".") || is(k, i - 1, ":") ||
        !is(k, i + 1, "(") || !read_path(k, i + 2, false, &a))
        return;
    lml_scanner s = scanner_behind(k, i + 2);
    lml_path path;
    int comma = index_of(k, i + 2, lml_path_read(&s, k->token[i + 2], &path));
    if (!is(k, comma, ",") || !read_path(k, comma + 1, false, &b) || !is_apart(&a) ||
        !is_apart(&b) || a.is.wanted == b.is.wanted)
        return;
    s = scanner_behind(k, comma + 1);
    int end = index_of(k, comma + 1, lml_path_read(&s, k->token[comma + 1], &path));
    if (is(k, end, ")") || is(k, end, ","))
        tell_apart(k, k->token[comma], &a, &b);
}

/* job.total:rounded "up": the rule is one of those that there are. */
static void look_at_rounding(looker *k, int i)
{
    int rule = is(k, i + 2, "(") ? i + 3 : i + 2;
    if (!is(k, i, ":") || !is(k, i + 1, "rounded") || rule >= k->count ||
        k->token[rule].kind != LML_TOKEN_TEXT)
        return;
    lml_span name = unquoted(k->token[rule].text);
    lml_rounding how;
    lml_error words;
    char said[SHOWN_MOST];
    snprintf(said, sizeof said, "%.*s", (int)name.length, name.at);
    if (name.length > 0 && name.length < sizeof said && lml_rounding_named(said, &how, &words))
        refuse(k, k->token[rule].line, &words);
}

/* ---- the whole ---------------------------------------------------------------------------------
 */

static int read_tokens(lml_span source, lml_token *out)
{
    int count = 0;
    lml_scanner s = lml_scanner_on(source);
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) {
        if (out)
            out[count] = t;
        count++;
    }
    return count;
}

lml_status lml_advice_kinds(lml_run *run, lml_span source, const lml_recipe *recipe,
                            lml_advice_tell *tell_it, lml_advice_tell *tell_wrong, void *self,
                            lml_error *err)
{
    looker k = {.run = run,
                .recipe = recipe,
                .meanings = lml_meanings_of(source, recipe),
                .source = source,
                .count = read_tokens(source, NULL),
                .tell = tell_it,
                .tell_wrong = tell_wrong,
                .self = self};
    k.meanings.used = used;
    k.meanings.self = &k;
    size_t size = ((size_t)k.count + 1) * sizeof *k.token;
    k.token = lml_alloc_get(&run->engine->alloc, size);
    if (!k.token)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the words of a recipe");
    read_tokens(source, k.token);
    for (int i = 0; i < k.count; i++) {
        look_at_path(&k, i);
        look_at_sentence(&k, i);
        look_at_sign(&k, i);
        look_at_times(&k, i);
        look_at_join(&k, i);
        look_at_least(&k, i);
        look_at_rounding(&k, i);
    }
    lml_alloc_free(&run->engine->alloc, k.token, size);
    return LML_OK;
}
