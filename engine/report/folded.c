#include "report/folded.h"

#include "base/decimal.h"
#include "base/real.h"

static const double PI = 3.14159265358979323846; /* as heat.c has it */

enum { TOKENS_MOST = 60 /* of what is read as one: a choice of ours */ };

/* What is being read: constants alone. */
typedef struct reading {
    const lml_tokens *t;
    size_t at, end;         /* none is read from the end on */
    size_t names, constant; /* how many, without pi; where the last is defined */
    bool several;           /* more than a number that is written so */
} reading;

static lml_token token(const lml_tokens *t, size_t i)
{
    return i < t->count ? t->at[i] : (lml_token){.kind = LML_TOKEN_END, .text = {"", 0}};
}

static bool is(const reading *r, const char *text)
{
    return lml_token_is(token(r->t, r->at), text);
}

static bool read_number(lml_token one, double *out)
{
    lml_decimal d;
    if (one.kind != LML_TOKEN_NUMBER || lml_decimal_read(one.text, &d) != one.text.length)
        return false;
    *out = lml_decimal_scale(&d, (lml_rational){1, 1});
    return true;
}

/* The number of the one "local NAME = NUMBER" of the text; of a name that it sets anywhere else
 * nothing is known. */
static bool read_name(reading *r, lml_span name, double *out)
{
    const lml_tokens *t = r->t;
    size_t found = 0, set = 0;
    for (size_t k = lml_tokens_set(t, name);
         k < t->sets && lml_span_equal(t->set[k]->text, name) && set < 2; k++) {
        const size_t i = (size_t)(t->set[k] - t->at);
        const bool local = lml_token_is(t->at[i - 1], "local");
        const bool field = lml_token_is(t->at[i - 1], ".") || lml_token_is(t->at[i - 1], ":");
        const bool equals = lml_token_is(token(t, i + 1), "=");
        set += (local || equals) && !field;
        const lml_token behind = token(t, i + 3);
        if (local && equals && !lml_token_is_arithmetic(behind) && !lml_token_is(behind, ","))
            found = i + 2;
    }
    if (found == 0 || set != 1 || t->too_deep || !read_number(token(t, found), out))
        return false;
    r->names++;
    r->constant = found;
    return true;
}

static bool is_constant_name(lml_span name)
{
    for (size_t i = 0; i < name.length; i++)
        if ((name.at[i] < 'A' || name.at[i] > 'Z') && name.at[i] != '_' &&
            !(i > 0 && lml_span_digit_at(name, i)))
            return false;
    return name.length > 1;
}

static bool read_sum(reading *r, double *out);

/* A number, a constant, or a sum in brackets. */
static bool read_one(reading *r, double *out)
{
    const lml_token one = token(r->t, r->at);
    const lml_token next = token(r->t, r->at + 1);
    if (r->at >= r->end)
        return false;
    if (lml_token_is(next, ".") || lml_token_is(next, ":") || lml_token_is(next, "["))
        return false;
    if (one.kind == LML_TOKEN_NUMBER && read_number(one, out)) {
        r->at++;
        return true;
    }
    if (lml_token_is(one, "pi")) {
        *out = PI;
        r->several = true;
        r->at++;
        return !lml_token_is(next, "(");
    }
    if (one.kind == LML_TOKEN_NAME && is_constant_name(one.text) && !lml_token_is(next, "(") &&
        read_name(r, one.text, out)) {
        r->at++;
        return true;
    }
    if (!lml_token_is(one, "("))
        return false;
    r->at++;
    if (!read_sum(r, out) || !is(r, ")"))
        return false;
    r->at++;
    return true;
}

/* To a power it is left alone. */
static bool read_signed(reading *r, double *out)
{
    const bool minus = is(r, "-");
    r->at += minus;
    if (!read_one(r, out) || is(r, "^"))
        return false;
    *out = minus ? -*out : *out;
    return true;
}

static bool read_product(reading *r, double *out)
{
    bool good = read_signed(r, out);
    while (good && (is(r, "*") || is(r, "/"))) {
        const bool times = is(r, "*");
        double other;
        r->at++;
        good = read_signed(r, &other);
        r->several = true;
        if (good)
            *out = times ? *out * other : *out / other;
    }
    return good;
}

static bool read_sum(reading *r, double *out)
{
    bool good = read_product(r, out);
    while (good && (is(r, "+") || is(r, "-"))) {
        const bool plus = is(r, "+");
        double other;
        r->at++;
        good = read_product(r, &other);
        r->several = true;
        if (good)
            *out = plus ? *out + other : *out - other;
    }
    return good;
}

static bool take(const reading *r, size_t from, size_t to, lml_folded *out)
{
    const lml_span first = r->t->at[from].text, last = r->t->at[to - 1].text;
    *out = (lml_folded){.words = lml_span_between(first.at, last.at + last.length),
                        .constant = r->names == 1 ? r->constant : 0};
    return true;
}

/* What is in the bracket at i. */
static bool try_bracket(const lml_tokens *t, size_t i, double x, lml_folded *out)
{
    reading r = {.t = t, .at = i + 1, .end = i + TOKENS_MOST};
    double found;
    const lml_token before = i > 0 ? t->at[i - 1] : token(t, t->count);
    const bool call = before.kind == LML_TOKEN_NAME || before.kind == LML_TOKEN_TEXT ||
                      lml_token_is(before, ")") || lml_token_is(before, "]");
    return !call && read_sum(&r, &found) && lml_token_is(token(t, r.at), ")") && r.several &&
           found == x && take(&r, i + 1, r.at, out);
}

/* The front of the product that begins at i: Lua works it from the left. */
static bool try_front(const lml_tokens *t, size_t i, double x, lml_folded *out)
{
    static const char *const stronger[] = {"*", "/", "//", "%", "^", ".", ":"};
    reading r = {.t = t, .at = i, .end = i + TOKENS_MOST};
    double found;
    for (size_t k = 0; i > 0 && k < sizeof stronger / sizeof *stronger; k++)
        if (lml_token_is(t->at[i - 1], stronger[k]))
            return lml_token_is(t->at[i], "pi") && !lml_token_is(t->at[i - 1], ".") &&
                   !lml_token_is(t->at[i - 1], ":") && read_signed(&r, &found) && found == x &&
                   take(&r, i, r.at, out);
    bool good = read_signed(&r, &found);
    while (good && !(r.several && found == x) && (is(&r, "*") || is(&r, "/"))) {
        const bool times = is(&r, "*");
        double other;
        r.at++;
        good = read_signed(&r, &other);
        r.several = true;
        found = times ? found * other : found / other;
    }
    return good && r.several && found == x && take(&r, i, r.at, out);
}

bool lml_folded_find(const lml_tokens *t, unsigned line, double x, lml_folded *out)
{
    const size_t first = lml_tokens_line(t, line), end = lml_tokens_line(t, line + 1);
    for (size_t i = first; i < end && end - first <= LML_TOKENS_MOST; i++)
        if (lml_token_is(t->at[i], "(") ? try_bracket(t, i, x, out) : try_front(t, i, x, out))
            return true;
    return false;
}
