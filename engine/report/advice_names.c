#include "report/advice_names.h"

#include "base/error.h"
#include "base/nearest.h"
#include "cell/names.h"
#include "shelf/token.h"
#include "words/bind.h"
#include "words/lib.h"

#include <stdio.h>
#include <string.h>

enum { DECLARED_MOST = 600, SEEN_MOST = 400 };

/* The words around the current one; `part` is where in recipe { ... } it is, as far as it matters
 * here. */
typedef struct looker {
    lua_State *L;
    const lml_recipe *recipe;
    lml_advice_tell *tell, *tell_wrong;
    void *self;
    lml_token t, before, two_before, next;
    bool one_name;                    /* the latest "=" is behind "local" and a single name */
    bool in_ask;                      /* in ask.price { ... } or the like, directly */
    lml_span declared[DECLARED_MOST]; /* as a local, a parameter or a function */
    int count;
} looker;

static void tell(looker *k, int line, const char *text, const char *advice)
{
    k->tell(k->self, line, text, advice);
}

/* ---- what is declared --------------------------------------------------------------------------
 */

static void declare(looker *k, lml_token t)
{
    if (t.kind == LML_TOKEN_NAME && k->count < DECLARED_MOST)
        k->declared[k->count++] = t.text;
}

static bool is_declared(const looker *k, lml_span name)
{
    for (int i = 0; i < k->count; i++)
        if (lml_span_equal(k->declared[i], name))
            return true;
    return k->count == DECLARED_MOST; /* more than are kept: all may be */
}

static void read_declared(looker *k, lml_span source)
{
    lml_scanner s = lml_scanner_on(source);
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) {
        if (lml_token_is(t, "function")) {
            bool parameters = false;
            for (t = lml_token_next(&s); t.kind != LML_TOKEN_END && !lml_token_is(t, ")");
                 t = lml_token_next(&s)) {
                parameters = parameters || lml_token_is(t, "(");
                if (t.kind == LML_TOKEN_NAME || parameters)
                    declare(k, t);
            }
        } else if (lml_token_is(t, "local")) {
            lml_scanner ahead = s;
            t = lml_token_next(&ahead);
            if (lml_token_is(t, "function"))
                continue;
            for (; t.kind == LML_TOKEN_NAME; t = lml_token_next(&ahead)) {
                declare(k, t);
                if (!lml_token_is(lml_token_next(&ahead), ","))
                    break;
            }
        } else if (lml_token_is(t, "for")) {
            for (t = lml_token_next(&s);
                 t.kind != LML_TOKEN_END && !lml_token_is(t, "in") && !lml_token_is(t, "=");
                 t = lml_token_next(&s))
                declare(k, t);
        }
    }
}

static bool is_reserved(lml_span word)
{
    static const char *const words[] = {"and",   "break", "do",       "else", "elseif", "end",
                                        "false", "for",   "function", "goto", "if",     "in",
                                        "local", "nil",   "not",      "or",   "repeat", "return",
                                        "then",  "true",  "until",    "while"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (lml_span_is(word, words[i]))
            return true;
    return false;
}

/* ---- names -------------------------------------------------------------------------------------
 */

/* Whether it is one of the words of recipes; where it is not, the nearest of them. */
static bool is_word(lua_State *L, lml_span name, lml_nearest *nearest)
{
    bool found = false;
    lml_box_need_stack(L, 6);
    int top = lua_gettop(L);
    lml_names_push(L);
    for (lua_pushnil(L); !found && lua_next(L, top + 1); lua_pop(L, 1)) {
        size_t length;
        const char *word = lua_type(L, -2) == LUA_TSTRING ? lua_tolstring(L, -2, &length) : NULL;
        if (!word)
            continue;
        found = lml_span_equal((lml_span){word, length}, name);
        lml_nearest_offer(nearest, (lml_span){word, length});
    }
    lua_settop(L, top);
    return found;
}

/* What Lua has elsewhere and a recipe does another way. */
static const char *instead_of(lml_span name)
{
    static const char *const rows[][2] = {
        {"math",
         "floor(x), ceil(x), abs(x), min(a, b), max(a, b) and root(x) are written without math."},
        {"string",
         "write text.fill(\"{n} pieces\", { n = n }); texts have find, split, sub, upper, lower"},
        {"print", "what is printed goes on a page: sheet.bench:line(\"label\", value)"},
        {"os", "a recipe has no clock: ask for the date, date = ask.moment { \"Date\", optional = "
               "true }"},
        {"io", "a recipe reads no files: ask for what it needs"},
        {"null", "write nil for nothing"},
        {"None", "write nil for nothing"},
        {"undefined", "write nil for nothing"},
        {"True", "write true"},
        {"TRUE", "write true"},
        {"False", "write false"},
        {"FALSE", "write false"},
        {"this", "what the job says is job.NAME, what the house sets house.NAME"},
        {"self", "what the job says is job.NAME, what the house sets house.NAME"},
        {"len", "write #list for how many entries it has, text:letters() for a text"},
        {"next", "write for name, value in pairs(t) do ... end, or #list == 0 for an empty list"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (lml_span_is(name, rows[i][0]))
            return rows[i][1];
    return NULL;
}

/* A name that is neither a local nor a word, read or set. */
static void look_at_name(looker *k)
{
    if (k->t.kind != LML_TOKEN_NAME || is_reserved(k->t.text) || lml_token_is(k->before, ".") ||
        lml_token_is(k->before, ":") || lml_token_is(k->before, "::") ||
        lml_token_is(k->before, "goto") || is_declared(k, k->t.text))
        return;
    bool set = lml_token_is(k->next, "=");
    if (set && (lml_token_is(k->before, "{") || lml_token_is(k->before, ",") ||
                lml_token_is(k->before, ";")))
        return; /* the name of a member */
    lml_nearest nearest = lml_nearest_to(k->t.text);
    for (int i = 0; i < k->count; i++)
        lml_nearest_offer(&nearest, k->declared[i]);
    if (is_word(k->L, k->t.text, &nearest))
        return;
    lml_error words;
    const char *instead = instead_of(k->t.text);
    int length = (int)k->t.text.length;
    if (set) {
        lml_fail(&words, LML_OK, "'%.*s' is set as a global, but recipes have no globals", length,
                 k->t.text.at);
        lml_error_hint(&words, "write local %.*s = ...", length, k->t.text.at);
    } else {
        lml_fail(&words, LML_OK, "'%.*s' is not known here: neither a local nor a word of recipes",
                 length, k->t.text.at);
        if (instead)
            lml_error_hint(&words, "%s", instead);
        else if (lml_nearest_found(&nearest))
            lml_error_hint(&words, "did you mean %.*s?", (int)nearest.best.length, nearest.best.at);
        else
            lml_error_hint(&words, "write local %.*s = ... before it, or job.%.*s if it is an ask",
                           length, k->t.text.at, length, k->t.text.at);
    }
    k->tell_wrong(k->self, k->t.line, words.message, words.hint);
}

static void look_at_use(looker *k)
{
    if (!lml_token_is(k->before, ".") || !lml_token_is(k->two_before, "use") ||
        k->t.kind != LML_TOKEN_NAME || lml_recipe_uses(k->recipe, k->t.text))
        return;
    lml_error words;
    lml_fail(&words, LML_OK, "use.%.*s is called, but uses does not name it", (int)k->t.text.length,
             k->t.text.at);
    lml_error_hint(&words, "write uses = { \"%.*s\" }", (int)k->t.text.length, k->t.text.at);
    k->tell_wrong(k->self, k->t.line, words.message, words.hint);
}

static bool is_one_of(lml_span name, const lml_word *words)
{
    for (; words->name; words++)
        if (lml_span_is(name, words->name))
            return true;
    return false;
}

/* A word that is newer than the level that the recipe says: an older lemel would begin it and end
 * in the middle. */
static void look_at_level(looker *k, lml_scanner ahead)
{
    if (k->recipe->level >= 2 || k->t.kind != LML_TOKEN_NAME || lml_token_is(k->before, "."))
        return;
    bool newer;
    bool member = lml_token_is(k->next, "=") &&
                  (lml_token_is(k->before, "{") || lml_token_is(k->before, ","));
    if (lml_token_is(k->before, ":"))
        newer = is_one_of(k->t.text, lml_bind_about) || lml_span_is(k->t.text, "letters") ||
                lml_span_is(k->t.text, "words");
    else if (member && k->in_ask)
        newer = lml_span_is(k->t.text, "per") ||
                (lml_span_is(k->t.text, "default") && lml_token_is(lml_token_next(&ahead), "{"));
    else
        newer = (is_one_of(k->t.text, lml_lib_more) || lml_span_is(k->t.text, "quietly") ||
                 lml_span_is(k->t.text, "member")) &&
                !is_declared(k, k->t.text) && !lml_token_is(k->next, "=");
    if (!newer)
        return;
    lml_error words;
    lml_fail(&words, LML_OK, "%.*s%s is a word of level 2, and the recipe says level = 1",
             (int)k->t.text.length, k->t.text.at,
             lml_span_is(k->t.text, "default") ? " with a table" : "");
    lml_error_hint(&words, "write level = 2: it then needs lemel 0.2 or later, and an older one "
                           "says so");
    tell(k, k->t.line, words.message, words.hint);
}

/* ---- values ------------------------------------------------------------------------------------
 */

static bool ends_operand(lml_token t)
{
    return (t.kind == LML_TOKEN_NAME && !is_reserved(t.text)) || lml_token_is(t, ")") ||
           lml_token_is(t, "]");
}

static bool is_order(lml_token t)
{
    return lml_token_is(t, "<") || lml_token_is(t, ">") || lml_token_is(t, "<=") ||
           lml_token_is(t, ">=");
}

static bool is_sum(lml_token t)
{
    return lml_token_is_arithmetic(t) && !lml_token_is(t, "..");
}

/* A text where a value is meant. Q "5 min" is a call, and its text comes after a name. */
static void look_at_text(looker *k)
{
    if (k->t.kind != LML_TOKEN_TEXT || ends_operand(k->before))
        return;
    bool reckoned = is_sum(k->next) || is_sum(k->before);
    bool compared = is_order(k->next) || is_order(k->before);
    if (!reckoned && !compared)
        return;
    lml_error words;
    lml_fail(&words, LML_OK, "the text %.*s is %s, but a text is not a value",
             (int)k->t.text.length, k->t.text.at,
             reckoned ? "used in a calculation" : "compared with a value");
    lml_error_hint(&words, "write Q %.*s", (int)k->t.text.length, k->t.text.at);
    tell(k, k->t.line, words.message, words.hint);
}

/* labour * 1,5: the comma is at hand. */
static void look_at_comma(looker *k)
{
    const char *at = k->t.text.at;
    bool set = lml_token_is(k->two_before, "=") && k->one_name; /* local x = 1,5 */
    if (!lml_token_is(k->t, ",") || k->before.kind != LML_TOKEN_NUMBER ||
        k->next.kind != LML_TOKEN_NUMBER || !(is_sum(k->two_before) || set) ||
        k->before.text.at + k->before.text.length != at || at + 1 != k->next.text.at)
        return;
    lml_error words;
    lml_fail(&words, LML_OK, "%.*s,%.*s is two numbers, and the second is lost",
             (int)k->before.text.length, k->before.text.at, (int)k->next.text.length,
             k->next.text.at);
    if (k->next.text.length == 3 || memchr(k->next.text.at, '.', k->next.text.length))
        lml_error_hint(&words, "a number has no comma: write %.*s%.*s", (int)k->before.text.length,
                       k->before.text.at, (int)k->next.text.length, k->next.text.at);
    else
        lml_error_hint(&words, "write %.*s.%.*s", (int)k->before.text.length, k->before.text.at,
                       (int)k->next.text.length, k->next.text.at);
    tell(k, k->t.line, words.message, words.hint);
}

/* ---- the same name twice -----------------------------------------------------------------------
 */

typedef struct seen {
    lml_span name[SEEN_MOST];
    int depth[SEEN_MOST], table[SEEN_MOST], count; /* by the table that it is in */
} seen;

/* A name that is asked, allowed or given twice; `ahead` is behind the next word. */
static void look_at_twice(looker *k, seen *s, lml_scanner ahead, int depth, int table)
{
    lml_token value = lml_token_next(&ahead);
    if ((!lml_token_is(value, "ask") && !lml_token_is(value, "give")) ||
        k->t.kind != LML_TOKEN_NAME || !lml_token_is(k->next, "=") ||
        (!lml_token_is(k->before, "{") && !lml_token_is(k->before, ",") &&
         !lml_token_is(k->before, ";")))
        return;
    for (int i = 0; i < s->count; i++)
        if (s->depth[i] == depth && s->table[i] == table && lml_span_equal(s->name[i], k->t.text)) {
            lml_error words;
            lml_fail(&words, LML_OK, "'%.*s' is given twice: only the later one counts",
                     (int)k->t.text.length, k->t.text.at);
            lml_error_hint(&words, "remove one of them, or rename it");
            tell(k, k->t.line, words.message, words.hint);
            return;
        }
    if (s->count < SEEN_MOST) {
        s->name[s->count] = k->t.text;
        s->depth[s->count] = depth;
        s->table[s->count++] = table;
    }
}

/* ---- the whole ---------------------------------------------------------------------------------
 */

static void advance(looker *k, lml_scanner *s)
{
    k->two_before = k->before;
    k->before = k->t;
    k->t = k->next;
    k->next = lml_token_next(s);
}

void lml_advice_names(lua_State *L, lml_span source, const lml_recipe *recipe,
                      lml_advice_tell *tell_it, lml_advice_tell *tell_wrong, void *self)
{
    enum { DEPTH_MOST = 64 };
    looker k = {.L = L, .recipe = recipe, .tell = tell_it, .tell_wrong = tell_wrong, .self = self};
    seen twice = {.count = 0};
    int tables[DEPTH_MOST] = {0}, depth = 0, table = 0;
    bool asks[DEPTH_MOST] = {false}; /* whether it is that of an ask, an allowance or a give */
    read_declared(&k, source);
    lml_scanner s = lml_scanner_on(source);
    k.next = lml_token_next(&s);
    for (advance(&k, &s); k.t.kind != LML_TOKEN_END; advance(&k, &s)) {
        if (lml_token_is(k.t, "="))
            k.one_name = k.before.kind == LML_TOKEN_NAME && lml_token_is(k.two_before, "local");
        look_at_name(&k);
        look_at_use(&k);
        look_at_level(&k, s);
        look_at_text(&k);
        look_at_comma(&k);
        if (lml_token_is(k.t, "{") && depth < DEPTH_MOST - 1) {
            tables[++depth] = ++table;
            asks[depth] = lml_token_is(k.two_before, ".") &&
                          lml_wanted_by_name(k.before.text) != LML_WANTED_COUNT;
        } else if (lml_token_is(k.t, "}") && depth > 0) {
            depth--;
        }
        k.in_ask = asks[depth];
        look_at_twice(&k, &twice, s, depth, tables[depth]);
        while (twice.count && twice.depth[twice.count - 1] > depth)
            twice.count--; /* tables that are over */
    }
}
