#include "shelf/slips.h"

#include "shelf/meaning.h"
#include "value/wanted.h"

#include <string.h>

/* ---- comparisons -------------------------------------------------------------------------------
 */

typedef struct slip {
    int line;
    lml_span operand, sign, number; /* as written */
    lml_meaning is;                 /* what the operand is */
} slip;

/* Where the operand at hand begins, in each of the open brackets. */
typedef struct starts {
    struct {
        lml_token first;
        lml_scanner behind;
        bool known;
    } at[32];
    int depth;
    bool fresh; /* the next token begins one */
} starts;

static void follow(starts *o, lml_token t, const lml_scanner *s)
{
    enum { MOST = sizeof o->at / sizeof *o->at };
    bool opens = lml_token_is(t, "(") || lml_token_is(t, "{") || lml_token_is(t, "[");
    bool closes = lml_token_is(t, ")") || lml_token_is(t, "}") || lml_token_is(t, "]");
    if (o->fresh && o->depth < MOST) {
        o->at[o->depth].first = t;
        o->at[o->depth].behind = *s;
        o->at[o->depth].known = !lml_token_is(t, "not");
    }
    o->fresh = opens || lml_meaning_is_border(t);
    o->depth += opens;
    o->depth -= closes && o->depth > 0;
}

static lml_span text_between(lml_token first, lml_token behind)
{
    const char *end = behind.text.at;
    return lml_span_trim(lml_span_between(first.text.at, end));
}

static bool is_value(const lml_meaning *m)
{
    return m->what == LML_MEANS_KIND && lml_wanted_has_unit(m->wanted);
}

/* Whether a number comes next, with or without its sign. */
static bool is_number(lml_scanner s)
{
    lml_token t = lml_token_next(&s);
    return t.kind == LML_TOKEN_NUMBER ||
           (lml_token_is(t, "-") && lml_token_next(&s).kind == LML_TOKEN_NUMBER);
}

/* At an equality sign, before which `o` is; `s` is behind it. False when the comparison is sound,
 * or not known. */
static bool is_slip(const starts *o, lml_scanner s, lml_token sign, lml_meanings *m, slip *out)
{
    enum { MOST = sizeof o->at / sizeof *o->at };
    lml_meaning left, right;
    if (o->fresh || o->depth >= MOST || !o->at[o->depth].known)
        return false;
    lml_scanner before = o->at[o->depth].behind;
    lml_token first = o->at[o->depth].first;
    if (lml_meanings_sum(m, &before, first, &left).text.at != sign.text.at)
        return false;
    lml_token second = lml_token_next(&s), end = lml_meanings_sum(m, &s, second, &right);
    bool number_last = right.what == LML_MEANS_NUMBER;
    lml_span a = text_between(first, sign), b = {second.text.at, 0};
    b = end.kind == LML_TOKEN_END ? second.text : text_between(second, end);
    out->is = number_last ? left : right;
    out->operand = number_last ? a : b;
    out->number = number_last ? b : a;
    return is_value(&out->is) && (number_last || left.what == LML_MEANS_NUMBER);
}

/* ---- at loading --------------------------------------------------------------------------------
 */

typedef struct refusal {
    const char *shown;
    lml_error *err;
    lml_status status;
} refusal;

static void refuse(refusal *r, const slip *found)
{
    bool equal = lml_span_is(found->sign, "==");
    bool sum = found->operand.length && memchr(found->operand.at, ' ', found->operand.length);
    r->status = lml_fail(r->err, LML_BAD_RECIPE,
                         "%s:%d: %.*s is %s, which is never equal to the bare number %.*s: the "
                         "comparison is always %s",
                         r->shown, found->line, (int)found->operand.length, found->operand.at,
                         lml_wanted_words(found->is.wanted), (int)found->number.length,
                         found->number.at, equal ? "false" : "true");
    if (r->err)
        lml_error_hint(r->err, "write %s%.*s%s:is_zero(), or compare it with a value: == Q \"%s\"",
                       sum ? "(" : "", (int)found->operand.length, found->operand.at,
                       sum ? ")" : "",
                       found->is.shape ? lml_shape_example(found->is.shape)
                                       : lml_wanted_example(found->is.wanted));
}

lml_status lml_slips_check(lml_span source, const char *shown, const lml_recipe *recipe,
                           lml_error *err)
{
    refusal r = {shown, err, LML_OK};
    lml_meanings m = lml_meanings_of(source, recipe);
    lml_scanner s = lml_scanner_on(source);
    starts o = {.fresh = true};
    lml_token before = {.kind = LML_TOKEN_END};
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END && !r.status;
         before = t, t = lml_token_next(&s)) {
        bool equality = lml_token_is(t, "==") || lml_token_is(t, "~=");
        slip found = {.line = t.line, .sign = t.text};
        if (equality && (before.kind == LML_TOKEN_NUMBER || is_number(s)) &&
            is_slip(&o, s, t, &m, &found))
            refuse(&r, &found);
        follow(&o, t, &s);
    }
    return r.status;
}

/* ---- where a member is declared ----------------------------------------------------------------
 */

/* The last line where `name = ask` or `give` is: a name that is there twice was said again;
 * else the first where `name =` does. */
static int line_of_member(lml_span source, lml_span name)
{
    lml_scanner s = lml_scanner_on(source);
    lml_token before = {.kind = LML_TOKEN_END};
    int declared = 0, other = 0;
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END;
         before = t, t = lml_token_next(&s)) {
        if (!lml_token_is(t, "=") || before.kind != LML_TOKEN_NAME ||
            !lml_span_equal(before.text, name))
            continue;
        lml_scanner ahead = s;
        lml_token value = lml_token_next(&ahead);
        if (lml_token_is(value, "ask") || lml_token_is(value, "give"))
            declared = before.line;
        other = other ? other : before.line;
    }
    return declared ? declared : other;
}

int lml_slips_line(lml_span source, const lml_error *err)
{
    const char *quote = strchr(err->message, '\'');
    for (; quote; quote = strchr(quote + 1, '\'')) {
        const char *end = strchr(quote + 1, '\'');
        int line = end ? line_of_member(source, lml_span_between(quote + 1, end)) : 0;
        if (line)
            return line;
    }
    for (int i = 0; i < err->contexts; i++)
        if (strncmp(err->context[i], "in ", 3) == 0) {
            int line = line_of_member(source, lml_span_of(err->context[i] + 3));
            if (line)
                return line;
        }
    lml_scanner s = lml_scanner_on(source);
    lml_token before = {.kind = LML_TOKEN_END};
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END;
         before = t, t = lml_token_next(&s))
        if (lml_token_is(before, "return") &&
            (lml_token_is(t, "recipe") || lml_token_is(t, "rule")))
            return t.line;
    return 0;
}
