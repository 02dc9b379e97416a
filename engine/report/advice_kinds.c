#include "report/advice_kinds.h"

#include "base/error.h"
#include "base/exact.h"
#include "base/nearest.h"
#include "report/advice_look.h"
#include "report/advice_members.h"
#include "run/engine.h"
#include "words/bind.h"

#include <stdio.h>
#include <string.h>

enum { NONE = -1 };

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
static int start_of(const lml_advice_look *k, int i, bool joint)
{
    int depth = 0;
    for (int j = i; j > 0; j--) {
        lml_token t = k->token[j - 1];
        bool opens = lml_advice_look_is(k, j - 1, "(") || lml_advice_look_is(k, j - 1, "{") ||
                     lml_advice_look_is(k, j - 1, "[");
        if (opens && depth == 0)
            return j;
        if (depth == 0 && lml_token_is(t, "not"))
            return NONE;
        if (depth == 0 && (lml_meaning_is_border(t) || (joint && is_joint(t))))
            return j;
        depth -= opens;
        depth += lml_advice_look_is(k, j - 1, ")") || lml_advice_look_is(k, j - 1, "}") ||
                 lml_advice_look_is(k, j - 1, "]");
    }
    return NONE;
}

typedef struct operand {
    lml_meaning is;
    lml_span text;
} operand;

/* Both sides of the sign at i; false when one of them is not known. */
static bool read_operands(lml_advice_look *k, int i, operand *left, operand *right)
{
    bool joint = is_joint(k->token[i]);
    int from = start_of(k, i, joint);
    if (from == NONE || from >= i || i + 1 >= k->count)
        return false;
    lml_token (*read)(lml_meanings *, lml_scanner *, lml_token, lml_meaning *) =
        joint ? lml_meanings_product : lml_meanings_sum;
    lml_scanner s = lml_advice_look_behind(k, from);
    if (lml_advice_look_index(k, from, read(&k->meanings, &s, k->token[from], &left->is)) != i)
        return false;
    s = lml_advice_look_behind(k, i + 1);
    int behind =
        lml_advice_look_index(k, i + 1, read(&k->meanings, &s, k->token[i + 1], &right->is));
    if (behind <= i + 1)
        return false;
    left->text = lml_advice_look_text(k, from, i);
    right->text = lml_advice_look_text(k, i + 1, behind);
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
static void tell_never(lml_advice_look *k, lml_token sign, const operand *o, const char *than,
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

static void with_number(lml_advice_look *k, lml_token sign, const operand *value,
                        const operand *number)
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
    lml_advice_look_refuse(k, sign.line, &words);
}

/* A text as it is written beside something other than a text. */
static void with_text(lml_advice_look *k, lml_token sign, const operand *o, const operand *text)
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

static void with_option(lml_advice_look *k, lml_token sign, const operand *choice,
                        const operand *text)
{
    lml_span option = lml_advice_look_unquoted(text->text);
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
    lml_advice_look_tell(k, sign.line, &words);
}

static void words_with_number(lml_advice_look *k, lml_token sign, const operand *o,
                              const operand *number)
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
    lml_advice_look_refuse(k, sign.line, &words);
}

static void tell_apart(lml_advice_look *k, lml_token sign, const operand *a, const operand *b)
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
    lml_advice_look_refuse(k, sign.line, &words);
}

static void look_at_sign(lml_advice_look *k, int i)
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
static bool read_path(lml_advice_look *k, int i, bool before, operand *out)
{
    int from = before ? i - 1 : i, to = i;
    while (before && from >= 2 && lml_advice_look_is(k, from - 1, "."))
        from -= 2;
    if (from < 0 || from >= k->count || k->token[from].kind != LML_TOKEN_NAME)
        return false;
    lml_scanner s = lml_advice_look_behind(k, from);
    lml_path path;
    to = lml_advice_look_index(k, from, lml_path_read(&s, k->token[from], &path));
    static const char *const closer[] = {"*", "/", "//", "%", "^", "-", "#", ":", ".", "not"},
                             *const behind[] = {"^", "(", "[", "{", ":"};
    for (size_t n = 0; n < sizeof closer / sizeof *closer; n++)
        if (before && lml_advice_look_is(k, from - 1, closer[n]))
            return false;
    for (size_t n = 0; n < sizeof behind / sizeof *behind; n++)
        if (!before && lml_advice_look_is(k, to, behind[n]))
            return false;
    if ((before && to != i) || (!before && to < k->count && k->token[to].kind == LML_TOKEN_TEXT))
        return false;
    out->is = lml_meanings_path(&k->meanings, &path, path.count);
    out->text = lml_advice_look_text(k, from, to);
    return out->is.what == LML_MEANS_KIND;
}

/* Money is multiplied by a number, or a share. */
static void look_at_times(lml_advice_look *k, int i)
{
    operand a, b;
    if (!lml_advice_look_is(k, i, "*") || !read_path(k, i, true, &a) ||
        !read_path(k, i + 1, false, &b) || !is_apart(&a) || !is_apart(&b) ||
        a.is.wanted == LML_WANT_RATIO || b.is.wanted == LML_WANT_RATIO ||
        a.is.wanted == LML_WANT_FINENESS || b.is.wanted == LML_WANT_FINENESS ||
        (a.is.wanted != LML_WANT_MONEY && b.is.wanted != LML_WANT_MONEY))
        return;
    lml_error words;
    lml_fail(&words, LML_OK, "%.*s is %s and %.*s %s: they cannot be multiplied",
             (int)a.text.length, a.text.at, words_of(&a), (int)b.text.length, b.text.at,
             words_of(&b));
    lml_error_hint(&words, "a price is multiplied by what it is per, such as 68 USD/h by a time");
    lml_advice_look_refuse(k, k->token[i].line, &words);
}

static void look_at_join(lml_advice_look *k, int i)
{
    operand o;
    if (!lml_advice_look_is(k, i, "..") || !((read_path(k, i, true, &o) && is_value(&o)) ||
                                             (read_path(k, i + 1, false, &o) && is_value(&o))))
        return;
    lml_error words;
    lml_fail(&words, LML_OK, "%.*s is %s, and cannot be joined to a text with ..",
             (int)o.text.length, o.text.at, words_of(&o));
    lml_error_hint(&words, "write text.fill(\"{m} of metal\", { m = value }) or tostring(value)");
    lml_advice_look_refuse(k, k->token[i].line, &words);
}

/* min(a, b) of two kinds. */
static void look_at_least(lml_advice_look *k, int i)
{
    operand a, b;
    if ((!lml_advice_look_is(k, i, "min") && !lml_advice_look_is(k, i, "max")) ||
        lml_advice_look_is(k, i - 1, ".") || lml_advice_look_is(k, i - 1, ":") ||
        !lml_advice_look_is(k, i + 1, "(") || !read_path(k, i + 2, false, &a))
        return;
    lml_scanner s = lml_advice_look_behind(k, i + 2);
    lml_path path;
    int comma = lml_advice_look_index(k, i + 2, lml_path_read(&s, k->token[i + 2], &path));
    if (!lml_advice_look_is(k, comma, ",") || !read_path(k, comma + 1, false, &b) ||
        !is_apart(&a) || !is_apart(&b) || a.is.wanted == b.is.wanted)
        return;
    s = lml_advice_look_behind(k, comma + 1);
    int end = lml_advice_look_index(k, comma + 1, lml_path_read(&s, k->token[comma + 1], &path));
    if (lml_advice_look_is(k, end, ")") || lml_advice_look_is(k, end, ","))
        tell_apart(k, k->token[comma], &a, &b);
}

/* job.total:rounded "up": the rule is one of those that there are. */
static void look_at_rounding(lml_advice_look *k, int i)
{
    int rule = lml_advice_look_is(k, i + 2, "(") ? i + 3 : i + 2;
    if (!lml_advice_look_is(k, i, ":") || !lml_advice_look_is(k, i + 1, "rounded") ||
        rule >= k->count || k->token[rule].kind != LML_TOKEN_TEXT)
        return;
    lml_span name = lml_advice_look_unquoted(k->token[rule].text);
    lml_rounding how;
    lml_error words;
    char said[LML_ADVICE_LOOK_SHOWN];
    snprintf(said, sizeof said, "%.*s", (int)name.length, name.at);
    if (name.length > 0 && name.length < sizeof said && lml_rounding_named(said, &how, &words))
        lml_advice_look_refuse(k, k->token[rule].line, &words);
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
    lml_advice_look k = {.run = run,
                         .recipe = recipe,
                         .meanings = lml_meanings_of(source, recipe),
                         .source = source,
                         .count = read_tokens(source, NULL),
                         .tell = tell_it,
                         .tell_wrong = tell_wrong,
                         .self = self};
    k.meanings.used = lml_advice_members_used;
    k.meanings.self = &k;
    size_t size = ((size_t)k.count + 1) * sizeof *k.token;
    k.token = lml_alloc_get(&run->engine->alloc, size);
    if (!k.token)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the words of a recipe");
    read_tokens(source, k.token);
    for (int i = 0; i < k.count; i++) {
        lml_advice_members_path(&k, i);
        lml_advice_members_sentence(&k, i);
        look_at_sign(&k, i);
        look_at_times(&k, i);
        look_at_join(&k, i);
        look_at_least(&k, i);
        look_at_rounding(&k, i);
    }
    lml_alloc_free(&run->engine->alloc, k.token, size);
    return LML_OK;
}
