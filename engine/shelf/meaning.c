#include "shelf/meaning.h"

#include "read/read.h"

#include <string.h>

enum { DEPTH_MOST = 16 }; /* of brackets that are followed */

static const lml_meaning nothing = {.what = LML_MEANS_NOTHING};

static lml_meaning of_shape(const lml_shape *shape)
{
    return shape ? (lml_meaning){LML_MEANS_KIND, shape->wanted, shape} : nothing;
}

static lml_meaning of_kind(lml_wanted wanted)
{
    return (lml_meaning){LML_MEANS_KIND, wanted, NULL};
}

lml_meanings lml_meanings_of(lml_span source, const lml_recipe *recipe)
{
    return (lml_meanings){.source = source,
                          .recipe = recipe,
                          .job = lml_span_of("job"),
                          .house = lml_span_of("house"),
                          .sheet = lml_span_of("sheet")};
}

/* ---- paths -------------------------------------------------------------------------------------
 */

/* A second way to set a name makes it unknown, unless it is of the same kind. */
static void bind(lml_meanings *m, lml_span name, lml_meaning meaning)
{
    for (int i = 0; i < m->count; i++)
        if (lml_span_equal(m->locals[i].name, name)) {
            lml_meaning *was = &m->locals[i].meaning;
            bool same = was->what == LML_MEANS_KIND && meaning.what == LML_MEANS_KIND &&
                        was->wanted == meaning.wanted && lml_wanted_has_unit(meaning.wanted);
            *was = same ? of_kind(meaning.wanted) : nothing;
            return;
        }
    if (m->count < LML_MEANING_LOCALS) {
        m->locals[m->count].name = name;
        m->locals[m->count++].meaning = meaning;
    }
}

static void read_names(lml_meanings *m);

static lml_meaning of_name(lml_meanings *m, lml_span name)
{
    if (!m->known)
        read_names(m);
    for (int i = 0; i < m->count; i++)
        if (lml_span_equal(m->locals[i].name, name))
            return m->locals[i].meaning;
    if (lml_span_equal(name, m->job))
        return of_shape(&m->recipe->asks);
    if (lml_span_equal(name, m->house))
        return of_shape(&m->recipe->allowances);
    if (lml_span_equal(name, m->sheet))
        return (lml_meaning){.what = LML_MEANS_SHEET};
    return nothing;
}

lml_meaning lml_meanings_path(lml_meanings *m, const lml_path *path, int count)
{
    lml_meaning found = count > 0 ? of_name(m, path->part[0]) : nothing;
    for (int i = 1; i < count; i++) {
        bool record = found.what == LML_MEANS_KIND && found.wanted == LML_WANT_RECORD;
        if (found.what == LML_MEANS_SHEET)
            found = (lml_meaning){.what = LML_MEANS_PAGE};
        else
            found = record ? of_shape(lml_shape_field_named(found.shape, path->part[i])) : nothing;
    }
    return found;
}

lml_token lml_path_read(lml_scanner *s, lml_token first, lml_path *out)
{
    lml_token t = first;
    bool fits = true;
    out->count = 0;
    while (t.kind == LML_TOKEN_NAME) {
        if (out->count < LML_MEANING_PATH)
            out->part[out->count++] = t.text;
        else
            fits = false;
        t = lml_token_next(s);
        if (!lml_token_is(t, "."))
            break;
        t = lml_token_next(s);
    }
    if (!fits)
        out->count = 0;
    return t;
}

/* ---- sums --------------------------------------------------------------------------------------
 */

bool lml_meaning_is_kept_by(lml_token method)
{
    static const char *const keeping[] = {"up_to",   "down_to", "nearest", "as",
                                          "rounded", "from",    "zero"};
    for (size_t i = 0; i < sizeof keeping / sizeof *keeping; i++)
        if (lml_token_is(method, keeping[i]))
            return true;
    return false;
}

lml_token lml_meaning_skip_arguments(lml_scanner *s, lml_token first)
{
    int depth = 0;
    lml_token t = first;
    if (t.kind == LML_TOKEN_TEXT)
        return lml_token_next(s);
    do {
        depth += lml_token_is(t, "(") || lml_token_is(t, "{") || lml_token_is(t, "[");
        depth -= lml_token_is(t, ")") || lml_token_is(t, "}") || lml_token_is(t, "]");
        t = lml_token_next(s);
    } while (depth > 0 && t.kind != LML_TOKEN_END);
    return t;
}

static bool opens_arguments(lml_token t)
{
    return lml_token_is(t, "(") || lml_token_is(t, "{") || t.kind == LML_TOKEN_TEXT;
}

/* What Q reads of a text; a text that it refuses is refused when it is run. */
static lml_meaning of_text(lml_span quoted)
{
    lml_value v;
    if (quoted.length < 2 || quoted.at[0] == '[' || memchr(quoted.at, '\\', quoted.length) ||
        lml_read_value((lml_span){quoted.at + 1, quoted.length - 2}, LML_WANT_ANYTHING,
                       LML_NO_METAL, &v, NULL))
        return of_kind(LML_WANT_ANYTHING);
    for (int w = LML_WANT_MASS; w < LML_WANT_NUMBER; w++)
        if (!lml_wanted_check((lml_wanted)w, &v, NULL))
            return of_kind((lml_wanted)w);
    return of_kind(LML_WANT_ANYTHING);
}

/* Calls, entries and methods behind what was read. */
static lml_token read_behind(lml_scanner *s, lml_token t, lml_meaning *out)
{
    for (;;) {
        if (lml_token_is(t, ":")) {
            lml_token method = lml_token_next(s);
            if (!lml_meaning_is_kept_by(method))
                *out = nothing;
            t = lml_token_next(s);
            if (opens_arguments(t))
                t = lml_meaning_skip_arguments(s, t);
        } else if (opens_arguments(t) || lml_token_is(t, "[")) {
            *out = nothing;
            t = lml_meaning_skip_arguments(s, t);
        } else if (lml_token_is(t, ".")) {
            lml_span name = lml_token_next(s).text;
            bool record = out->shape && out->wanted == LML_WANT_RECORD;
            *out = record ? of_shape(lml_shape_field_named(out->shape, name)) : nothing;
            t = lml_token_next(s);
        } else {
            return t;
        }
    }
}

static lml_token read_sum(lml_meanings *m, lml_scanner *s, lml_token t, int depth,
                          lml_meaning *out);

static lml_token read_factor(lml_meanings *m, lml_scanner *s, lml_token t, int depth,
                             lml_meaning *out)
{
    *out = nothing;
    if (t.kind == LML_TOKEN_NUMBER) {
        out->what = LML_MEANS_NUMBER;
        return lml_token_next(s);
    }
    if (t.kind == LML_TOKEN_TEXT) {
        out->what = LML_MEANS_TEXT;
        return read_behind(s, lml_token_next(s), out);
    }
    if (lml_token_is(t, "-"))
        return read_factor(m, s, lml_token_next(s), depth, out);
    if (lml_token_is(t, "#") || lml_token_is(t, "not")) {
        t = read_factor(m, s, lml_token_next(s), depth, out);
        *out = nothing;
        return t;
    }
    if (lml_token_is(t, "(") && depth > 0) {
        t = read_sum(m, s, lml_token_next(s), depth - 1, out);
        if (!lml_token_is(t, ")")) { /* a comparison, or more: to its end */
            *out = nothing;
            for (int open = 1; t.kind != LML_TOKEN_END; t = lml_token_next(s)) {
                open += lml_token_is(t, "(") - lml_token_is(t, ")");
                if (open == 0)
                    break;
            }
        }
        return read_behind(s, lml_token_next(s), out);
    }
    if (lml_token_is(t, "{"))
        return read_behind(s, lml_meaning_skip_arguments(s, t), out);
    if (t.kind != LML_TOKEN_NAME || lml_token_is(t, "function"))
        return t;
    lml_path path;
    bool reads = lml_token_is(t, "Q");
    t = lml_path_read(s, t, &path);
    if (reads && path.count == 1 && t.kind == LML_TOKEN_TEXT) {
        *out = of_text(t.text);
        return read_behind(s, lml_token_next(s), out);
    }
    if (m->used && path.count == 2 && lml_span_is(path.part[0], "use") && opens_arguments(t)) {
        const lml_recipe *used = m->used(m->self, path.part[1]);
        *out = used ? of_shape(&used->gives) : nothing;
        return read_behind(s, lml_meaning_skip_arguments(s, t), out);
    }
    *out = lml_meanings_path(m, &path, path.count);
    return read_behind(s, t, out);
}

static bool is_plain(const lml_meaning *a)
{
    return a->what == LML_MEANS_NUMBER ||
           (a->what == LML_MEANS_KIND &&
            (a->wanted == LML_WANT_NUMBER || a->wanted == LML_WANT_WHOLE ||
             a->wanted == LML_WANT_RATIO));
}

static bool has_unit(const lml_meaning *a)
{
    return a->what == LML_MEANS_KIND && lml_wanted_has_unit(a->wanted);
}

static bool is_ratio(const lml_meaning *a)
{
    return a->what == LML_MEANS_KIND && a->wanted == LML_WANT_RATIO;
}

static bool is_price(const lml_meaning *a)
{
    return a->what == LML_MEANS_KIND && a->wanted == LML_WANT_PRICE;
}

static bool is_of_price(const lml_meaning *a)
{
    return a->what == LML_MEANS_KIND &&
           (a->wanted == LML_WANT_MASS || a->wanted == LML_WANT_FINE_MASS ||
            a->wanted == LML_WANT_TIME);
}

/* Kinds whose sums and differences are of the same kind: between two temperatures lies a
 * difference, and a time is added to a moment. */
static bool adds_up(lml_wanted w)
{
    return w == LML_WANT_MASS || w == LML_WANT_FINE_MASS || w == LML_WANT_LENGTH ||
           w == LML_WANT_AREA || w == LML_WANT_VOLUME || w == LML_WANT_ENERGY ||
           w == LML_WANT_POWER || w == LML_WANT_CURRENT || w == LML_WANT_MONEY ||
           w == LML_WANT_PRICE;
}

/* a * b and a / b */
static lml_meaning of_product(lml_meaning a, bool times, lml_meaning b)
{
    lml_meaning kept = a;
    if (a.what == LML_MEANS_NUMBER && b.what == LML_MEANS_NUMBER)
        return a;
    if (!times && a.what == LML_MEANS_KIND && b.what == LML_MEANS_KIND && a.wanted == b.wanted &&
        a.wanted != LML_WANT_PRICE && a.wanted != LML_WANT_MONEY &&
        (adds_up(a.wanted) || a.wanted == LML_WANT_TIME))
        return of_kind(LML_WANT_RATIO);
    if (is_plain(&a) && is_plain(&b))
        return is_ratio(&a) || is_ratio(&b) ? of_kind(LML_WANT_RATIO) : nothing;
    if (times && is_plain(&a))
        kept = b;
    else if (times && ((is_price(&a) && is_of_price(&b)) || (is_price(&b) && is_of_price(&a))))
        return of_kind(LML_WANT_MONEY);
    else if (!is_plain(&b))
        return nothing;
    return has_unit(&kept) ? of_kind(kept.wanted) : nothing;
}

static bool is_times(lml_token t)
{
    return lml_token_is(t, "*") || lml_token_is(t, "/");
}

static lml_token read_product(lml_meanings *m, lml_scanner *s, lml_token t, int depth,
                              lml_meaning *out)
{
    t = read_factor(m, s, t, depth, out);
    while (is_times(t) || lml_token_is(t, "%") || lml_token_is(t, "//") || lml_token_is(t, "^")) {
        lml_token sign = t;
        lml_meaning other;
        t = read_factor(m, s, lml_token_next(s), depth, &other);
        *out = is_times(sign) ? of_product(*out, lml_token_is(sign, "*"), other) : nothing;
    }
    return t;
}

static lml_meaning of_sum(lml_meaning a, lml_meaning b)
{
    if (a.what == LML_MEANS_NUMBER && b.what == LML_MEANS_NUMBER)
        return a;
    bool times = a.what == LML_MEANS_KIND && b.what == LML_MEANS_KIND &&
                 a.wanted == LML_WANT_TIME && b.wanted == LML_WANT_TIME;
    lml_meaning one = a.what == LML_MEANS_KIND ? a : b;
    bool keeps = one.what == LML_MEANS_KIND && (times || adds_up(one.wanted));
    return keeps ? of_kind(one.wanted) : nothing;
}

static lml_token read_sum(lml_meanings *m, lml_scanner *s, lml_token t, int depth, lml_meaning *out)
{
    t = read_product(m, s, t, depth, out);
    while (lml_token_is(t, "+") || lml_token_is(t, "-") || lml_token_is(t, "..")) {
        bool joins = lml_token_is(t, "..");
        lml_meaning other;
        t = read_product(m, s, lml_token_next(s), depth, &other);
        *out = joins ? nothing : of_sum(*out, other);
    }
    return t;
}

lml_token lml_meanings_product(lml_meanings *m, lml_scanner *s, lml_token first, lml_meaning *out)
{
    return read_product(m, s, first, DEPTH_MOST, out);
}

lml_token lml_meanings_sum(lml_meanings *m, lml_scanner *s, lml_token first, lml_meaning *out)
{
    return read_sum(m, s, first, DEPTH_MOST, out);
}

bool lml_meaning_is_over(lml_token t)
{
    return t.kind == LML_TOKEN_END || lml_token_is(t, ";") ||
           (t.kind == LML_TOKEN_NAME && !lml_token_is(t, "and") && !lml_token_is(t, "or"));
}

bool lml_meaning_is_border(lml_token t)
{
    static const char *const words[] = {
        "and", "or",   "if", "elseif", "while", "until", "return", "=", ",", ";",  "then",
        "do",  "else", "in", "end",    "local", "==",    "~=",     "<", ">", "<=", ">="};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (lml_token_is(t, words[i]))
            return true;
    return false;
}

/* ---- how names are set -------------------------------------------------------------------------
 */

static void read_parameters(lml_scanner *s, lml_meanings *m, bool of_work)
{
    lml_token t = lml_token_next(s);
    while (t.kind == LML_TOKEN_NAME || lml_token_is(t, ".") ||
           lml_token_is(t, ":")) /* function a.b:c ( */
        t = lml_token_next(s);
    for (int i = 0; t.kind != LML_TOKEN_END && !lml_token_is(t, ")"); t = lml_token_next(s)) {
        if (t.kind != LML_TOKEN_NAME)
            continue;
        lml_span *own[] = {&m->job, &m->house, &m->sheet};
        if (of_work && i < 3)
            *own[i] = t.text;
        else if (!lml_span_equal(t.text, m->job) && !lml_span_equal(t.text, m->house) &&
                 !lml_span_equal(t.text, m->sheet))
            bind(m, t.text, nothing);
        i++;
    }
}

/* local NAME, ... = a sum, ...: each name with its own, as far as they are read. */
static void read_local(lml_scanner *s, lml_meanings *m)
{
    enum { NAMES_MOST = 8 };
    lml_token t = lml_token_next(s);
    if (lml_token_is(t, "function")) {
        bind(m, lml_token_next(s).text, nothing);
        read_parameters(s, m, false);
        return;
    }
    lml_span name[NAMES_MOST];
    lml_meaning meaning[NAMES_MOST];
    int count = 0;
    lml_scanner ahead = *s;
    for (; t.kind == LML_TOKEN_NAME; t = lml_token_next(&ahead)) {
        if (count < NAMES_MOST)
            name[count++] = t.text;
        else
            bind(m, t.text, nothing);
        *s = ahead;
        if (!lml_token_is(lml_token_next(&ahead), ","))
            break;
    }
    ahead = *s;
    bool more = lml_token_is(lml_token_next(&ahead), "=");
    for (int i = 0; i < count; i++) {
        meaning[i] = nothing;
        if (!more)
            continue;
        t = lml_meanings_sum(m, &ahead, lml_token_next(&ahead), &meaning[i]);
        more = lml_token_is(t, ",");
        if ((!more && !lml_meaning_is_over(t)) || meaning[i].what == LML_MEANS_TEXT ||
            meaning[i].what == LML_MEANS_NUMBER)
            meaning[i] = nothing;
    }
    for (int i = 0; i < count; i++)
        bind(m, name[i], meaning[i]);
}

/* for _, lot in ipairs(job.lots): the second name is an entry. */
static void read_loop(lml_scanner *s, lml_meanings *m)
{
    lml_span name[2];
    int count = 0;
    lml_token t = lml_token_next(s);
    for (; t.kind != LML_TOKEN_END && !lml_token_is(t, "in") && !lml_token_is(t, "=");
         t = lml_token_next(s))
        if (t.kind == LML_TOKEN_NAME && count++ < 2)
            name[count - 1] = t.text;
    lml_scanner ahead = *s;
    lml_token walk = lml_token_next(&ahead);
    lml_path path = {.count = 0};
    bool walks = lml_token_is(t, "in") && count == 2 &&
                 (lml_token_is(walk, "ipairs") || lml_token_is(walk, "pairs")) &&
                 lml_token_is(lml_token_next(&ahead), "(");
    if (walks)
        walks = lml_token_is(lml_path_read(&ahead, lml_token_next(&ahead), &path), ")");
    lml_meaning all = walks ? lml_meanings_path(m, &path, path.count) : nothing;
    bool entries = all.shape && (all.wanted == LML_WANT_LIST || all.wanted == LML_WANT_BY_NAME);
    for (int i = 0; i < count && i < 2; i++)
        bind(m, name[i], i == 1 && entries ? of_shape(all.shape->of) : nothing);
}

/* What is open: brackets, and blocks that end with end or until. A name before = is set only where
 * a block is innermost; in braces it is that of an entry. */
typedef struct opened {
    bool block[LML_MEANING_OPEN];
    int depth;
} opened;

static void follow_open(opened *o, lml_token t)
{
    bool block = lml_token_is(t, "function") || lml_token_is(t, "if") || lml_token_is(t, "do") ||
                 lml_token_is(t, "repeat");
    bool opens = block || lml_token_is(t, "(") || lml_token_is(t, "{") || lml_token_is(t, "[");
    bool closes = lml_token_is(t, "end") || lml_token_is(t, "until") || lml_token_is(t, ")") ||
                  lml_token_is(t, "}") || lml_token_is(t, "]");
    if (opens && o->depth < LML_MEANING_OPEN)
        o->block[o->depth] = block;
    o->depth += opens;
    o->depth -= closes && o->depth > 0;
}

static bool sets_names(const opened *o)
{
    return o->depth == 0 || o->depth > LML_MEANING_OPEN || o->block[o->depth - 1];
}

static void read_names(lml_meanings *m)
{
    enum { LIST_MOST = 8 };
    m->known = true;
    opened open = {.depth = 0};
    lml_span list[LIST_MOST]; /* a, b, c: names with commas between, up to here */
    int count = 0;
    lml_scanner s = lml_scanner_on(m->source);
    lml_token before = {.kind = LML_TOKEN_END}, two_before = before;
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END;
         two_before = before, before = t, t = lml_token_next(&s)) {
        lml_scanner ahead = s;
        follow_open(&open, t);
        if (lml_token_is(t, "local")) {
            if (lml_token_is(lml_token_next(&ahead), "function"))
                follow_open(&open, (lml_token){LML_TOKEN_NAME, lml_span_of("function"), 0});
            read_local(&s, m);
        } else if (lml_token_is(t, "function")) {
            read_parameters(&s, m, lml_token_is(before, "=") && lml_token_is(two_before, "work"));
        } else if (lml_token_is(t, "for")) {
            read_loop(&s, m);
        }
        if (lml_token_is(t, "=") && sets_names(&open)) {
            lml_meaning one = nothing;
            lml_scanner behind = s;
            lml_token first = lml_token_next(&behind);
            if (count == 1 && !lml_meaning_is_over(lml_meanings_sum(m, &behind, first, &one)))
                one = nothing;
            for (int i = 0; i < count; i++)
                bind(m, list[i], one);
        }
        bool member = lml_token_is(before, ".") || lml_token_is(before, ":");
        if (t.kind == LML_TOKEN_NAME && !member) {
            count = lml_token_is(before, ",") ? count : 0;
            if (count < LIST_MOST)
                list[count++] = t.text;
        } else if (!lml_token_is(t, ",")) {
            count = 0;
        }
    }
}
