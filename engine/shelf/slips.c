#include "shelf/slips.h"

#include "shelf/token.h"
#include "value/wanted.h"

#include <string.h>

/* ---- what a name stands for --------------------------------------------------------------------
 */

enum { LOCALS_MOST = 64, PATH_MOST = 6 };

typedef struct local {
    lml_span name;
    const lml_shape *shape; /* NULL: set in more ways than one */
} local;

typedef struct names {
    lml_span source;
    const lml_recipe *recipe;
    bool known;          /* whether the source was read for them: not until one is asked for */
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

static void read_names(names *n);

static const lml_shape *shape_of(names *n, const path *p)
{
    const lml_shape *shape = NULL;
    int i = 1;
    if (p->count == 0)
        return NULL;
    if (!n->known)
        read_names(n);
    const local *own = find_local(n, p->part[0]);
    if (own)
        shape = own->shape;
    else if (p->count > 1 && lml_span_equal(p->part[0], n->job))
        shape = lml_shape_field_named(&n->recipe->asks, p->part[i++]);
    else if (p->count > 1 && lml_span_equal(p->part[0], n->house))
        shape = lml_shape_field_named(&n->recipe->allowances, p->part[i++]);
    for (; shape && i < p->count; i++)
        shape = shape->wanted == LML_WANT_RECORD ? lml_shape_field_named(shape, p->part[i]) : NULL;
    return shape;
}

/* The path a.b.c that starts here; *after is the token that ends it. */
static path read_path(lml_scanner *s, lml_token first, lml_token *after)
{
    path p = {.count = 0};
    lml_token t = first;
    bool fits = true;
    while (t.kind == LML_TOKEN_NAME) {
        if (p.count < PATH_MOST)
            p.part[p.count++] = t.text;
        else
            fits = false;
        t = lml_token_next(s);
        if (!lml_token_is(t, "."))
            break;
        t = lml_token_next(s);
    }
    *after = t;
    bool goes_on = lml_token_is(t, ".") || lml_token_is(t, ":") || lml_token_is(t, "[") ||
                   lml_token_is(t, "(") || lml_token_is(t, "{") || t.kind == LML_TOKEN_TEXT;
    if (!fits || goes_on)
        p.count = 0;
    return p;
}

/* ---- how names are set -------------------------------------------------------------------------
 */

static void read_parameters(lml_scanner *s, names *n, bool of_work)
{
    lml_token t = lml_token_next(s);
    while (t.kind == LML_TOKEN_NAME || lml_token_is(t, ".") ||
           lml_token_is(t, ":")) /* function a.b:c ( */
        t = lml_token_next(s);
    for (int i = 0; t.kind != LML_TOKEN_END && !lml_token_is(t, ")"); t = lml_token_next(s)) {
        if (t.kind != LML_TOKEN_NAME)
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

/* local NAME = a.b:up_to "1 g": the kind of a.b, where nothing else follows. NULL otherwise. */
static const lml_shape *shape_through_method(names *n, lml_scanner s, lml_token start)
{
    static const char *const keeping[] = {"up_to", "down_to", "nearest", "as", "rounded", "from"};
    path p = {.count = 0};
    lml_token t = lml_token_next(&s);
    while (t.text.at != start.text.at && t.kind != LML_TOKEN_END)
        t = lml_token_next(&s);
    for (; t.kind == LML_TOKEN_NAME && p.count < PATH_MOST; t = lml_token_next(&s)) {
        p.part[p.count++] = t.text;
        t = lml_token_next(&s);
        if (!lml_token_is(t, "."))
            break;
    }
    while (lml_token_is(t, ":")) {
        bool keeps = false;
        t = lml_token_next(&s);
        for (size_t i = 0; i < sizeof keeping / sizeof *keeping; i++)
            keeps = keeps || lml_token_is(t, keeping[i]);
        t = lml_token_next(&s);
        if (!keeps)
            return NULL;
        if (lml_token_is(t, "(")) {
            int depth = 0;
            do {
                depth += lml_token_is(t, "(") - lml_token_is(t, ")");
                t = lml_token_next(&s);
            } while (depth > 0 && t.kind != LML_TOKEN_END);
        } else {
            t = lml_token_next(&s);
        }
    }
    bool whole = t.kind == LML_TOKEN_NAME || t.kind == LML_TOKEN_END || lml_token_is(t, ";");
    bool logic = lml_token_is(t, "and") || lml_token_is(t, "or");
    return whole && !logic ? shape_of(n, &p) : NULL;
}

/* local NAME = a.b, or any other list of names. */
static void read_local(lml_scanner *s, names *n)
{
    lml_token first = lml_token_next(s);
    if (lml_token_is(first, "function")) {
        bind(n, lml_token_next(s).text, NULL);
        read_parameters(s, n, false);
        return;
    }
    lml_scanner ahead = *s;
    lml_token sign = lml_token_next(&ahead), start = lml_token_next(&ahead),
              after = {.kind = LML_TOKEN_END};
    if (lml_token_is(sign, "=") && start.kind == LML_TOKEN_NAME) {
        path p = read_path(&ahead, start, &after);
        bool whole =
            after.kind == LML_TOKEN_NAME || after.kind == LML_TOKEN_END || lml_token_is(after, ";");
        bool logic = lml_token_is(after, "and") || lml_token_is(after, "or");
        bind(n, first.text, whole && !logic ? shape_of(n, &p) : shape_through_method(n, *s, start));
        return;
    }
    bind(n, first.text, NULL);
    for (ahead = *s; lml_token_is(lml_token_next(&ahead), ",");) {
        bind(n, lml_token_next(&ahead).text, NULL);
        *s = ahead;
    }
}

static void read_names(names *n)
{
    n->known = true;
    lml_scanner s = lml_scanner_on(n->source);
    lml_token before = {.kind = LML_TOKEN_END}, two_before = before;
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END;
         two_before = before, before = t, t = lml_token_next(&s)) {
        if (lml_token_is(t, "local")) {
            read_local(&s, n);
        } else if (lml_token_is(t, "function")) {
            read_parameters(&s, n, lml_token_is(before, "=") && lml_token_is(two_before, "work"));
        } else if (lml_token_is(t, "for")) {
            for (t = lml_token_next(&s);
                 t.kind != LML_TOKEN_END && !lml_token_is(t, "in") && !lml_token_is(t, "=");
                 t = lml_token_next(&s))
                if (t.kind == LML_TOKEN_NAME)
                    bind(n, t.text, NULL);
        } else if (lml_token_is(t, "=") && before.kind == LML_TOKEN_NAME &&
                   !lml_token_is(two_before, ".") && !lml_token_is(two_before, "{") &&
                   !lml_token_is(two_before, ",")) {
            bind(n, before.text, NULL); /* set again; not the name of a field */
        }
    }
}

/* ---- comparisons -------------------------------------------------------------------------------
 */

enum { BACK = 16 };
_Static_assert(BACK >= 2 * PATH_MOST + 2, "a whole path and what stands before it");

typedef struct window {
    lml_token token[BACK]; /* those before the one at hand, around the end */
    unsigned count;        /* of all that were ever pushed */
} window;

static void push(window *w, lml_token t)
{
    w->token[w->count++ % BACK] = t;
}

/* The newest is 0. */
static lml_token back(const window *w, unsigned places)
{
    return w->token[(w->count - 1 - places) % BACK];
}

/* The path that ends just before the sign. */
static path path_before(const window *w)
{
    path p = {.count = 0};
    unsigned i = 0;
    while (back(w, i).kind == LML_TOKEN_NAME && p.count < PATH_MOST) {
        memmove(p.part + 1, p.part, (size_t)p.count * sizeof *p.part);
        p.part[0] = back(w, i).text;
        p.count++;
        if (!lml_token_is(back(w, i + 1), "."))
            break;
        i += 2;
    }
    if (p.count && (lml_token_is(back(w, i + 1), ".") || lml_token_is(back(w, i + 1), ":")))
        p.count = 0;
    return p;
}

static bool number_before(const window *w, lml_span *text)
{
    lml_token before = back(w, 1), further = back(w, 2);
    bool negative = lml_token_is(before, "-") && further.kind != LML_TOKEN_NUMBER &&
                    !lml_token_is(further, ")") && !lml_token_is(further, "]") &&
                    (further.kind != LML_TOKEN_NAME || lml_token_is(further, "if") ||
                     lml_token_is(further, "and") || lml_token_is(further, "or") ||
                     lml_token_is(further, "not") || lml_token_is(further, "return"));
    *text = back(w, 0).text;
    return back(w, 0).kind == LML_TOKEN_NUMBER && (negative || !lml_token_is_arithmetic(before));
}

static bool number_after(lml_scanner s, lml_span *text)
{
    lml_token t = lml_token_next(&s);
    if (lml_token_is(t, "-"))
        t = lml_token_next(&s);
    *text = t.text;
    return t.kind == LML_TOKEN_NUMBER && !lml_token_is_arithmetic(lml_token_next(&s));
}

static bool is_equality(lml_token t)
{
    return lml_token_is(t, "==") || lml_token_is(t, "~=");
}

static bool is_order(lml_token t)
{
    return lml_token_is(t, "<") || lml_token_is(t, ">") || lml_token_is(t, "<=") ||
           lml_token_is(t, ">=");
}

/* The sign was just read; `w` holds what came before it. False when the comparison is sound, or
 * not known. */
static bool is_slip(const lml_scanner *s, const window *w, names *n, lml_slip *out)
{
    bool value = false;
    out->shape = NULL;
    if (number_after(*s, &out->number)) {
        path p = path_before(w);
        out->shape = shape_of(n, &p);
        value = back(w, 0).kind == LML_TOKEN_TEXT && lml_token_is(back(w, 1), "Q");
        lml_span first = p.count ? p.part[0] : back(w, 1).text;
        lml_span last = p.count ? p.part[p.count - 1] : back(w, 0).text;
        out->operand = lml_span_between(first.at, last.at + last.length);
    } else if (number_before(w, &out->number)) {
        lml_scanner ahead = *s;
        lml_token first = lml_token_next(&ahead), after;
        lml_scanner from = ahead;
        path p = read_path(&ahead, first, &after);
        out->shape = shape_of(n, &p);
        lml_token text = lml_token_next(&from);
        value = !p.count && lml_token_is(first, "Q") && text.kind == LML_TOKEN_TEXT &&
                !lml_token_is(lml_token_next(&from), ":");
        lml_span last = p.count ? p.part[p.count - 1] : text.text;
        out->operand = lml_span_between(first.text.at, last.at + last.length);
    }
    return value || (out->shape && lml_wanted_has_unit(out->shape->wanted));
}

void lml_slips_find(lml_span source, const lml_recipe *recipe, lml_slips_by by,
                    bool (*tell)(void *self, const lml_slip *slip), void *self)
{
    names n = {.source = source,
               .recipe = recipe,
               .job = lml_span_of("job"),
               .house = lml_span_of("house")};
    lml_scanner s = lml_scanner_on(source);
    window w;
    memset(&w, 0, sizeof w);
    bool more = true;
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END && more;
         t = lml_token_next(&s)) {
        lml_slip slip = {.line = t.line, .sign = t.text};
        bool asked = is_equality(t) || (by == LML_SLIPS_BY_ALL && is_order(t));
        if (asked && is_slip(&s, &w, &n, &slip))
            more = tell(self, &slip);
        push(&w, t);
    }
}

/* ---- at loading --------------------------------------------------------------------------------
 */

typedef struct refusal {
    const char *shown;
    lml_error *err;
    lml_status status;
} refusal;

static bool refuse(void *self, const lml_slip *slip)
{
    refusal *r = self;
    bool equal = lml_span_is(slip->sign, "==");
    r->status = lml_fail(r->err, LML_BAD_RECIPE,
                         "%s:%d: %.*s is %s, which is never equal to the bare number %.*s: the "
                         "comparison is always %s",
                         r->shown, slip->line, (int)slip->operand.length, slip->operand.at,
                         slip->shape ? lml_wanted_words(slip->shape->wanted) : "a value",
                         (int)slip->number.length, slip->number.at, equal ? "false" : "true");
    if (r->err)
        lml_error_hint(r->err, "write %.*s:is_zero(), or compare it with a value: == Q \"%s\"",
                       (int)slip->operand.length, slip->operand.at,
                       slip->shape ? lml_shape_example(slip->shape) : "12.5 g");
    return false;
}

lml_status lml_slips_check(lml_span source, const char *shown, const lml_recipe *recipe,
                           lml_error *err)
{
    refusal r = {shown, err, LML_OK};
    /* By < and the like the comparison raises when it is made, and says so then. */
    lml_slips_find(source, recipe, LML_SLIPS_BY_EQUALITY, refuse, &r);
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
