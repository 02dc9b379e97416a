#include "box/slips.h"

#include "box/take.h"

#include <ctype.h>
#include <string.h>

/* ---- words of Lua ------------------------------------------------------------------------------ */

typedef enum token_kind { END, NAME, NUMBER, TEXT, SIGN } token_kind;

typedef struct token {
    token_kind kind;
    lml_span text;
    int line;
} token;

typedef struct scanner {
    const char *at, *stop;
    int line;
} scanner;

static bool name_char(char c)
{
    return isalnum((unsigned char)c) || c == '_';
}

static char peek(const scanner *s, int ahead)
{
    return s->stop - s->at > ahead ? s->at[ahead] : '\0';
}

static void step(scanner *s)
{
    s->line += *s->at == '\n';
    s->at++;
}

/* At "[" or "[=": past the long bracket, if it is one. */
static bool skip_long(scanner *s)
{
    int level = 1;
    while (peek(s, level) == '=')
        level++;
    if (peek(s, 0) != '[' || peek(s, level) != '[')
        return false;
    s->at += level + 1;
    for (; s->at < s->stop; step(s)) {
        int n = 1;
        while (peek(s, n) == '=')
            n++;
        if (*s->at == ']' && n == level && peek(s, n) == ']') {
            s->at += n + 1;
            return true;
        }
    }
    return true;
}

static void skip_quoted(scanner *s)
{
    char quote = *s->at++;
    while (s->at < s->stop && *s->at != quote) {
        if (*s->at == '\\' && s->at + 1 < s->stop)
            step(s);
        step(s);
    }
    s->at += s->at < s->stop;
}

static void skip_blanks(scanner *s)
{
    while (s->at < s->stop) {
        if (peek(s, 0) == '-' && peek(s, 1) == '-') {
            s->at += 2;
            if (!skip_long(s))
                while (s->at < s->stop && *s->at != '\n')
                    s->at++;
        } else if (isspace((unsigned char)*s->at)) {
            step(s);
        } else {
            return;
        }
    }
}

static void skip_number(scanner *s)
{
    while (s->at < s->stop && (name_char(*s->at) || *s->at == '.')) {
        bool exponent = strchr("eEpP", *s->at) && strchr("+-", peek(s, 1)) && peek(s, 1);
        s->at += exponent ? 2 : 1;
    }
}

static token next(scanner *s)
{
    skip_blanks(s);
    token t = {.kind = END, .text = {s->at, 0}, .line = s->line};
    if (s->at == s->stop)
        return t;
    char c = *s->at;
    if (isdigit((unsigned char)c) || (c == '.' && isdigit((unsigned char)peek(s, 1)))) {
        t.kind = NUMBER;
        skip_number(s);
    } else if (name_char(c)) {
        t.kind = NAME;
        while (s->at < s->stop && name_char(*s->at))
            s->at++;
    } else if (c == '"' || c == '\'') {
        t.kind = TEXT;
        skip_quoted(s);
    } else if (c == '[' && skip_long(s)) {
        t.kind = TEXT;
    } else {
        static const char *const longer[] = {"...", "..", "==", "~=", "<=", ">=", "//", "::", "<<", ">>"};
        t.kind = SIGN;
        size_t length = 1;
        for (size_t i = sizeof longer / sizeof *longer; i-- > 0;)
            if (lml_span_starts(lml_span_between(s->at, s->stop), longer[i]))
                length = strlen(longer[i]);
        s->at += length;
    }
    t.text = lml_span_between(t.text.at, s->at);
    return t;
}

static bool is(token t, const char *text)
{
    return t.kind != TEXT && lml_span_is(t.text, text);
}

static bool is_arithmetic(token t)
{
    static const char *const signs[] = {"+", "-", "*", "/", "//", "%", "^", ".."};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (t.kind == SIGN && is(t, signs[i]))
            return true;
    return false;
}

/* ---- what a name stands for -------------------------------------------------------------------- */

enum { LOCALS_MOST = 64, PATH_MOST = 6 };

typedef struct local {
    lml_span name;
    const lml_shape *shape; /* NULL: set in more ways than one */
} local;

typedef struct names {
    const lml_recipe *recipe;
    lml_span job, house; /* as `work` calls them */
    local locals[LOCALS_MOST];
    int count;
} names;

typedef struct path {
    lml_span part[PATH_MOST];
    int count; /* 0: none, or one too long to follow */
} path;

static local *find_local(names *n, lml_span name)
{
    for (int i = 0; i < n->count; i++)
        if (lml_span_equal(n->locals[i].name, name))
            return &n->locals[i];
    return NULL;
}

/* A second way to set a name makes it unknown. */
static void bind(names *n, lml_span name, const lml_shape *shape)
{
    local *known = find_local(n, name);
    if (known)
        known->shape = NULL;
    else if (n->count < LOCALS_MOST)
        n->locals[n->count++] = (local){name, shape};
}

static const lml_shape *shape_of(names *n, const path *p)
{
    const lml_shape *shape = NULL;
    int i = 1;
    if (p->count == 0)
        return NULL;
    const local *own = find_local(n, p->part[0]);
    if (own)
        shape = own->shape;
    else if (p->count > 1 && lml_span_equal(p->part[0], n->job))
        shape = lml_field_named(&n->recipe->asks, p->part[i++]);
    else if (p->count > 1 && lml_span_equal(p->part[0], n->house))
        shape = lml_field_named(&n->recipe->allowances, p->part[i++]);
    for (; shape && i < p->count; i++)
        shape = shape->wanted == LML_WANT_RECORD ? lml_field_named(shape, p->part[i]) : NULL;
    return shape;
}

/* The path a.b.c that starts here; *after is the token that ends it. */
static path read_path(scanner *s, token first, token *after)
{
    path p = {.count = 0};
    token t = first;
    bool fits = true;
    while (t.kind == NAME) {
        if (p.count < PATH_MOST)
            p.part[p.count++] = t.text;
        else
            fits = false;
        t = next(s);
        if (!is(t, "."))
            break;
        t = next(s);
    }
    *after = t;
    bool goes_on = is(t, ".") || is(t, ":") || is(t, "[") || is(t, "(") || is(t, "{") ||
                   t.kind == TEXT;
    if (!fits || goes_on)
        p.count = 0;
    return p;
}

/* ---- first pass: how names are set ------------------------------------------------------------- */

static void read_parameters(scanner *s, names *n, bool of_work)
{
    token t = next(s);
    while (t.kind == NAME || is(t, ".") || is(t, ":")) /* function a.b:c ( */
        t = next(s);
    for (int i = 0; t.kind != END && !is(t, ")"); t = next(s)) {
        if (t.kind != NAME)
            continue;
        if (of_work && i == 0)
            n->job = t.text;
        else if (of_work && i == 1)
            n->house = t.text;
        else if (!lml_span_equal(t.text, n->job) && !lml_span_equal(t.text, n->house))
            bind(n, t.text, NULL);
        i++;
    }
}

/* local NAME = a.b, or any other list of names. */
static void read_local(scanner *s, names *n)
{
    token first = next(s);
    if (is(first, "function")) {
        bind(n, next(s).text, NULL);
        read_parameters(s, n, false);
        return;
    }
    scanner ahead = *s;
    token sign = next(&ahead), start = next(&ahead), after = {.kind = END};
    if (is(sign, "=") && start.kind == NAME) {
        path p = read_path(&ahead, start, &after);
        bool whole = after.kind == NAME || after.kind == END || is(after, ";");
        bool logic = is(after, "and") || is(after, "or");
        bind(n, first.text, whole && !logic ? shape_of(n, &p) : NULL);
        return;
    }
    bind(n, first.text, NULL);
    for (ahead = *s; is(next(&ahead), ",");) {
        bind(n, next(&ahead).text, NULL);
        *s = ahead;
    }
}

static void read_names(lml_span source, names *n)
{
    scanner s = {source.at, source.at + source.length, 1};
    token before = {.kind = END}, two_before = before;
    for (token t = next(&s); t.kind != END; two_before = before, before = t, t = next(&s)) {
        if (is(t, "local")) {
            read_local(&s, n);
        } else if (is(t, "function")) {
            read_parameters(&s, n, is(before, "=") && is(two_before, "work"));
        } else if (is(t, "for")) {
            for (t = next(&s); t.kind != END && !is(t, "in") && !is(t, "="); t = next(&s))
                if (t.kind == NAME)
                    bind(n, t.text, NULL);
        } else if (is(t, "=") && before.kind == NAME && !is(two_before, ".") &&
                   !is(two_before, "{") && !is(two_before, ",")) {
            bind(n, before.text, NULL); /* set again; not the name of a field */
        }
    }
}

/* ---- second pass: comparisons ------------------------------------------------------------------ */

enum { BACK = 2 * PATH_MOST + 2 };

typedef struct window {
    token token[BACK]; /* those before the one at hand, newest first */
} window;

static void push(window *w, token t)
{
    memmove(w->token + 1, w->token, (BACK - 1) * sizeof *w->token);
    w->token[0] = t;
}

/* The path that ends just before the sign. */
static path path_before(const window *w)
{
    path p = {.count = 0};
    int i = 0;
    while (w->token[i].kind == NAME && p.count < PATH_MOST) {
        memmove(p.part + 1, p.part, (size_t)p.count * sizeof *p.part);
        p.part[0] = w->token[i].text;
        p.count++;
        if (!is(w->token[i + 1], "."))
            break;
        i += 2;
    }
    if (p.count && (is(w->token[i + 1], ".") || is(w->token[i + 1], ":")))
        p.count = 0;
    return p;
}

static bool number_before(const window *w, lml_span *text)
{
    token before = w->token[1], further = w->token[2];
    bool negative = is(before, "-") && further.kind != NUMBER && !is(further, ")") &&
                    !is(further, "]") && (further.kind != NAME || is(further, "if") ||
                                          is(further, "and") || is(further, "or") ||
                                          is(further, "not") || is(further, "return"));
    *text = w->token[0].text;
    return w->token[0].kind == NUMBER && (negative || !is_arithmetic(before));
}

static bool number_after(scanner s, lml_span *text)
{
    token t = next(&s);
    if (is(t, "-"))
        t = next(&s);
    *text = t.text;
    return t.kind == NUMBER && !is_arithmetic(next(&s));
}

static lml_status refuse(const char *shown, int line, lml_span operand, const lml_shape *shape,
                         lml_span number, bool equal, lml_error *err)
{
    lml_fail(err, LML_BAD_RECIPE, "%s:%d: %.*s is %s, and is never equal to the bare number %.*s: the "
             "comparison is always %s", shown, line, (int)operand.length, operand.at,
             shape ? lml_wanted_words(shape->wanted) : "a value", (int)number.length, number.at,
             equal ? "false" : "true");
    if (err)
        lml_error_hint(err, "write %.*s:is_zero(), or compare it with a value: == Q \"%s\"",
                       (int)operand.length, operand.at,
                       shape ? lml_shape_example(shape) : "12.5 g");
    return LML_BAD_RECIPE;
}

/* The sign == or ~= was just read; `w` holds what stood before it. */
static lml_status check_sign(const scanner *s, const window *w, token sign, const char *shown,
                             names *n, lml_error *err)
{
    lml_span number, operand;
    const lml_shape *shape = NULL;
    bool value = false;
    if (number_after(*s, &number)) {
        path p = path_before(w);
        shape = shape_of(n, &p);
        value = w->token[0].kind == TEXT && is(w->token[1], "Q");
        operand = p.count ? lml_span_between(p.part[0].at,
                                             p.part[p.count - 1].at + p.part[p.count - 1].length)
                          : lml_span_between(w->token[1].text.at,
                                             w->token[0].text.at + w->token[0].text.length);
    } else if (number_before(w, &number)) {
        scanner ahead = *s;
        token first = next(&ahead), after;
        scanner from = ahead;
        path p = read_path(&ahead, first, &after);
        shape = shape_of(n, &p);
        if (p.count) {
            operand = lml_span_between(first.text.at,
                                       p.part[p.count - 1].at + p.part[p.count - 1].length);
        } else {
            token text = next(&from);
            value = is(first, "Q") && text.kind == TEXT && !is(next(&from), ":");
            operand = lml_span_between(first.text.at, text.text.at + text.text.length);
        }
    } else {
        return LML_OK;
    }
    if (!value && !(shape && lml_has_unit(shape->wanted)))
        return LML_OK;
    return refuse(shown, sign.line, operand, shape, number, is(sign, "=="), err);
}

lml_status lml_slips_check(lml_span source, const char *shown, const lml_recipe *recipe,
                           lml_error *err)
{
    names n = {.recipe = recipe, .job = lml_span_of("job"), .house = lml_span_of("house")};
    read_names(source, &n);
    scanner s = {source.at, source.at + source.length, 1};
    window w;
    memset(&w, 0, sizeof w);
    lml_status status = LML_OK;
    for (token t = next(&s); t.kind != END && !status; t = next(&s)) {
        if (is(t, "==") || is(t, "~="))
            status = check_sign(&s, &w, t, shown, &n, err);
        push(&w, t);
    }
    return status;
}
