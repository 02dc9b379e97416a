#include "report/operand.h"

#include "base/decimal.h"

#include <math.h>
#include <string.h>

enum { CHAIN = 4 /* lines of a chain of methods that are looked at */ };

/* Whether an operand is the literal. */
typedef enum answer { UNKNOWN, NO, YES } answer;

static const lml_token nothing = {.kind = LML_TOKEN_END, .text = {"", 0}};

static lml_token at(const lml_tokens *t, size_t i)
{
    return i < t->count ? t->at[i] : nothing;
}

static bool is_name(const lml_tokens *t, size_t i)
{
    return lml_tokens_is_name(t, i);
}

/* Whether an operand may end here: a sign behind it takes two. */
static bool ends_operand(const lml_tokens *t, size_t i)
{
    lml_token_kind kind = at(t, i).kind;
    return kind == LML_TOKEN_NUMBER || kind == LML_TOKEN_TEXT || is_name(t, i) ||
           LML_TOKENS_IS_ANY(t, i, ")", "]", "}", "true", "false", "nil", "end");
}

/* How strongly a sign binds; 0: it is none. */
static int strength(const lml_tokens *t, size_t i)
{
    if (at(t, i).kind != LML_TOKEN_SIGN)
        return 0;
    return LML_TOKENS_IS_ANY(t, i, "^")                   ? 4
           : LML_TOKENS_IS_ANY(t, i, "*", "/", "//", "%") ? 3
           : LML_TOKENS_IS_ANY(t, i, "+", "-")            ? 2
           : LML_TOKENS_IS_ANY(t, i, "..")                ? 1
                                                          : 0;
}

bool lml_operand_is(lml_token token, bool negative, lml_span text)
{
    lml_decimal d;
    if (text.length == 0)
        return false;
    if (text.at[0] == '"')
        return token.kind == LML_TOKEN_TEXT && text.length == token.text.length &&
               memcmp(text.at + 1, token.text.at + 1, text.length - 2) == 0;
    const size_t sign = text.at[0] == '-';
    if (token.kind != LML_TOKEN_NUMBER || negative != (sign == 1) ||
        lml_decimal_read(token.text, &d) != token.text.length)
        return false;
    const double x = lml_decimal_scale(&d, (lml_rational){1, 1});
    const lml_span digits = {text.at + sign, text.length - sign};
    return lml_decimal_read(digits, &d) == digits.length &&
           lml_decimal_scale(&d, (lml_rational){1, 1}) == x;
}

/* ---- what a name is ---- */

/* The place of the name where the whole text binds it, once and as a local; false for any other. */
static bool find_definition(const lml_tokens *t, lml_span name, size_t *out)
{
    size_t count = 0;
    for (size_t i = lml_tokens_set(t, name);
         i < t->sets && lml_span_equal(t->set[i]->text, name) && count < 2; i++) {
        const size_t here = (size_t)(t->set[i] - t->at);
        if (!lml_tokens_is_bound(t, here))
            continue;
        count++;
        *out = here;
    }
    if (count != 1 || t->too_deep)
        return false;
    size_t first = *out;
    while (first > 1 && lml_tokens_is(t, first - 1, ",") && is_name(t, first - 2))
        first -= 2;
    return first > 0 && lml_tokens_is(t, first - 1, "local") && lml_tokens_is_assigned(t, *out);
}

/* Whether a value ends before the token. */
static bool ends_value(const lml_tokens *t, size_t i)
{
    lml_token_kind kind = at(t, i).kind;
    return kind == LML_TOKEN_END ||
           (kind == LML_TOKEN_NAME && !LML_TOKENS_IS_ANY(t, i, "and", "or")) ||
           LML_TOKENS_IS_ANY(t, i, ",", ";", "}", ")");
}

/* The literal that is all of the value which begins here. */
static answer look_literal(const lml_tokens *t, size_t i, lml_span text, size_t *out)
{
    bool negative = lml_tokens_is(t, i, "-");
    lml_token_kind kind = at(t, i + negative).kind;
    if ((kind != LML_TOKEN_NUMBER && kind != LML_TOKEN_TEXT) || !ends_value(t, i + negative + 1))
        return UNKNOWN;
    *out = i + negative;
    return lml_operand_is(at(t, *out), negative, text) ? YES : NO;
}

/* Of "local A, B = 1, 2" the value for the name at the place. Only literals may come before it. */
static answer look_value(const lml_tokens *t, size_t name, lml_span text, size_t *out)
{
    size_t behind = 0, i = name;
    while (i > 1 && lml_tokens_is(t, i - 1, ",")) {
        behind++;
        i -= 2;
    }
    while (!lml_tokens_is(t, i, "="))
        i++;
    for (i++; behind > 0; behind--) {
        i += lml_tokens_is(t, i, "-");
        if ((at(t, i).kind != LML_TOKEN_NUMBER && at(t, i).kind != LML_TOKEN_TEXT) ||
            !lml_tokens_is(t, i + 1, ","))
            return UNKNOWN;
        i += 2;
    }
    return look_literal(t, i, text, out);
}

/* Of "local T = { field = 1 }" the value of the field, which is there once, and is set nowhere. */
static answer look_field(const lml_tokens *t, size_t table, lml_span field, lml_span text,
                         size_t *out)
{
    answer found = UNKNOWN;
    size_t count = 0;
    if (!lml_tokens_is(t, table + 1, "=") || !lml_tokens_is(t, table + 2, "{"))
        return UNKNOWN;
    for (size_t i = lml_tokens_set(t, field);
         i < t->sets && lml_span_equal(t->set[i]->text, field) && count < 2; i++) {
        const size_t here = (size_t)(t->set[i] - t->at);
        if (lml_tokens_is(t, here - 1, "."))
            return UNKNOWN;
        if (t->inner[here] != table + 3 || !lml_tokens_is(t, here + 1, "=") ||
            !LML_TOKENS_IS_ANY(t, here - 1, "{", ",", ";"))
            continue;
        found = look_literal(t, here + 2, text, out);
        count++;
    }
    return count == 1 ? found : UNKNOWN;
}

/* The literal that is, or that is named by, the operand of the tokens from `from` to `to`. */
static answer look_in(const lml_tokens *t, size_t from, size_t to, lml_span text, size_t *out)
{
    size_t definition = 0;
    bool negative = lml_tokens_is(t, from, "-");
    lml_token_kind kind = at(t, from + negative).kind;
    if (to == from + negative + 1 && (kind == LML_TOKEN_NUMBER || kind == LML_TOKEN_TEXT)) {
        *out = to - 1;
        return lml_operand_is(at(t, to - 1), negative, text) ? YES : NO;
    }
    if (!is_name(t, from) || !find_definition(t, at(t, from).text, &definition))
        return UNKNOWN;
    if (to == from + 1)
        return look_value(t, definition, text, out);
    return to == from + 3 && lml_tokens_is(t, from + 1, ".")
               ? look_field(t, definition, at(t, from + 2).text, text, out)
               : UNKNOWN;
}

/* ---- the operation ---- */

/* A literal, a name or name.name that begins here ends before the result. */
static size_t skip_operand(const lml_tokens *t, size_t i)
{
    i += lml_tokens_is(t, i, "-");
    i++;
    if (lml_tokens_is(t, i, ".") && is_name(t, i + 1))
        i += 2;
    return i;
}

static size_t back_operand(const lml_tokens *t, size_t i)
{
    if (i > 1 && lml_tokens_is(t, i - 1, ".") && is_name(t, i - 2))
        i -= 2;
    if (i > 1 && at(t, i).kind == LML_TOKEN_NUMBER && lml_tokens_is(t, i - 1, "-") &&
        !ends_operand(t, i - 2))
        i--;
    return i;
}

/* Whether the operand goes on behind it: a call, a field, a sign that binds more strongly. */
static bool goes_on(const lml_tokens *t, size_t i, int binds)
{
    return at(t, i).kind == LML_TOKEN_TEXT || LML_TOKENS_IS_ANY(t, i, "(", "[", "{", ".", ":") ||
           strength(t, i) > binds;
}

static answer look_beside(const lml_tokens *t, size_t sign, uint32_t side, lml_span text,
                          size_t *out)
{
    const int binds = strength(t, sign);
    if (side == 1) {
        size_t to = skip_operand(t, sign + 1);
        return goes_on(t, to, binds) ? UNKNOWN : look_in(t, sign + 1, to, text, out);
    }
    size_t from = back_operand(t, sign - 1);
    bool longer = from > 0 &&
                  (strength(t, from - 1) >= binds || LML_TOKENS_IS_ANY(t, from - 1, ".", ":", "#"));
    return longer ? UNKNOWN : look_in(t, from, sign, text, out);
}

/* Whether a value of the call's own may begin behind the token: in its brackets, or in a table
 * there. */
static bool begins_value(const lml_tokens *t, size_t i)
{
    return LML_TOKENS_IS_ANY(t, i, "(", ",", "{", ";", "=");
}

/* A text may be what its own method takes: ("{mass} of wax"):fill { ... } */
static bool is_of_text(const lml_tokens *t, size_t name)
{
    return LML_TOKENS_IS_ANY(t, name, "fill", "find", "letters", "lower", "rep", "split", "starts",
                             "sub", "trim", "upper", "words");
}

/* The one value of the call that is the literal; at `call` is its bracket or its only text. */
static answer look_in_call(const lml_tokens *t, size_t call, lml_span text, size_t *out)
{
    size_t count = 0, found = 0;
    bool unknown = is_of_text(t, call - 1);
    int depth = 0, other = 0; /* brackets of the call and its tables; others within them */
    if (at(t, call).kind == LML_TOKEN_TEXT) {
        *out = call;
        return lml_operand_is(at(t, call), false, text) ? YES : unknown ? UNKNOWN : NO;
    }
    for (size_t i = call; i < t->count; i++) {
        if (i - call > LML_TOKENS_MOST)
            return UNKNOWN;
        bool opens = LML_TOKENS_IS_ANY(t, i, "(", "{", "[", "function", "if", "do");
        if (opens &&
            (i == call || (lml_tokens_is(t, i, "{") && other == 0 && begins_value(t, i - 1))))
            depth++;
        else if (opens)
            other++;
        else if (LML_TOKENS_IS_ANY(t, i, ")", "}", "]", "end"))
            *(other > 0 ? &other : &depth) -= 1;
        if (depth == 0)
            break;
        if (other > 0 || !begins_value(t, i) || lml_tokens_is(t, i + 1, "{"))
            continue;
        if (is_name(t, i + 1) && lml_tokens_is(t, i + 2, "=") && !lml_tokens_is(t, i, "="))
            continue; /* a key */
        size_t to = skip_operand(t, i + 1);
        bool simple = ends_value(t, to) && at(t, to).kind != LML_TOKEN_NAME;
        answer one = simple ? look_in(t, i + 1, to, text, &found) : UNKNOWN;
        unknown = unknown || one == UNKNOWN;
        count += one == YES;
        *out = one == YES ? found : *out;
    }
    return count == 1 ? YES : count == 0 && !unknown ? NO : UNKNOWN;
}

static bool is_called(const lml_tokens *t, size_t i, const char *name)
{
    return lml_tokens_is(t, i, name) && at(t, i).kind == LML_TOKEN_NAME &&
           (at(t, i + 1).kind == LML_TOKEN_TEXT || LML_TOKENS_IS_ANY(t, i + 1, "(", "{"));
}

bool lml_operand_find(const lml_tokens *t, const lml_operation *o, lml_span text, size_t *out)
{
    const char *dot = o->how ? strrchr(o->how, '.') : NULL, *name = dot ? dot + 1 : o->how;
    unsigned line = o->line;
    bool known = name != NULL, found = false;
    const size_t first = lml_tokens_line(t, line);
    for (size_t i = first; i < t->count && known; i++) {
        const unsigned here = (unsigned)t->at[i].line;
        /* A call has the line in which its chain of methods begins. */
        bool chain = here == line + 1 && line - o->line < CHAIN && lml_tokens_is(t, i, ":");
        answer one = NO;
        size_t literal = 0;
        if (here != line && !chain)
            break;
        line = here;
        if (i - first > LML_TOKENS_MOST)
            return false;
        if (lml_ascii_is_name(name[0]) && is_called(t, i, name))
            one = look_in_call(t, i + 1, text, &literal);
        else if (!lml_ascii_is_name(name[0]) && lml_tokens_is(t, i, name) && i > 0 &&
                 ends_operand(t, i - 1))
            one = look_beside(t, i, o->side, text, &literal);
        known = one != UNKNOWN && (one == NO || !found || literal == *out);
        *out = one == YES ? literal : *out;
        found = found || one == YES;
    }
    return known && found;
}

/* ---- its name ---- */

lml_span lml_operand_name(const lml_tokens *t, size_t literal)
{
    const lml_span none = {"", 0};
    size_t from = literal, to = literal + 1, behind = 0;
    if (from > 0 && lml_tokens_is(t, from - 1, "-"))
        from--;
    if (from > 1 && lml_tokens_is(t, from - 1, "(") && lml_tokens_is(t, from - 2, "Q") &&
        lml_tokens_is(t, to, ")"))
        to++;
    if (!ends_value(t, to))
        return none;
    while (from > 0 && !lml_tokens_is(t, from - 1, "=") &&
           (at(t, from - 1).kind == LML_TOKEN_NUMBER || at(t, from - 1).kind == LML_TOKEN_TEXT ||
            LML_TOKENS_IS_ANY(t, from - 1, ",", "-", "Q", "(", ")"))) {
        behind += lml_tokens_is(t, from - 1, ",");
        if (literal - --from > LML_TOKENS_MOST)
            return none;
    }
    if (from < 2 || !lml_tokens_is(t, from - 1, "="))
        return none;
    size_t first = from - 2;
    while (first > 1 && lml_tokens_is(t, first - 1, ",") && is_name(t, first - 2))
        first -= 2;
    const size_t name = first + 2 * behind;
    return first > 0 && lml_tokens_is(t, first - 1, "local") && name < from - 1 ? at(t, name).text
                                                                                : none;
}
