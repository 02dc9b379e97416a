#include "report/result_withheld.h"

#include "report/marks.h"
#include "run/part.h"
#include "words/bind.h"
#include "shelf/house_unit.h"
#include "shelf/shelf.h"
#include "shelf/token.h"
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/trace_own.h"
#include "cell/view.h"
#include "read/read.h"
#include "value/show.h"
#include "value/wanted.h"
#include "base/ascii.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { FILE_MOST = 200, DEPTH_MOST = 24, COST = 8 /* of a figure that is gathered */ };

/* ---- the figures of a give ---------------------------------------------------------------------
 */

/* Two figures of one kind that lie no further apart than this, of either, are one figure, whatever
 * their signs: a credit is printed with a minus. A zero cannot be distinguished from another zero,
 * so it is never looked for. Until figures know where they come from, that is how they are
 * distinguished. */
static const double APART = 1e-9;

/* Buckets of 1e-9 to 2e-9 of the amount, so that what lies within APART is in the same one or the
 * next. */
enum { BUCKETS = 1000000000 };

static bool has_amount(const lml_value *v)
{
    return v->kind <= LML_MONEY;
}

static double amount_of(const lml_value *v)
{
    return fabs(v->kind == LML_MONEY ? (double)v->exact : v->amount);
}

/* Push the key of the bucket that lies `beside` that of the amount, of a value's kind or, without
 * one, of plain numbers: behind a byte that no printed text has. */
static void push_bucket(lua_State *L, const lml_value *v, double amount, int beside)
{
    int exponent;
    int64_t bucket = (int64_t)floor(frexp(amount, &exponent) * BUCKETS) + beside;
    if (bucket < BUCKETS / 2) {
        bucket = BUCKETS - 1;
        exponent--;
    } else if (bucket >= BUCKETS) {
        bucket = BUCKETS / 2;
        exponent++;
    }
    lml_dimension none = {
        0}; /* it counts in some kinds only, and what it holds in the others is nobody's business */
    bool has_dimension = v && (v->kind == LML_QUANTITY || v->kind == LML_MONEY);
    const lml_dimension *dimension = has_dimension ? &v->dimension : &none;
    char key[3 + sizeof *dimension + sizeof bucket + sizeof exponent] = {
        '\0', v ? (char)v->kind : 'n', v ? (char)v->metal : 0};
    memcpy(key + 3, dimension, sizeof *dimension);
    memcpy(key + 3 + sizeof *dimension, &bucket, sizeof bucket);
    memcpy(key + 3 + sizeof *dimension + sizeof bucket, &exponent, sizeof exponent);
    lua_pushlstring(L, key, sizeof key);
}

/* The bounds of a bucket's amounts: [key] the least, [key .. ">"] the greatest. */
static void add_amount(lua_State *L, int set, const lml_value *v, double amount)
{
    push_bucket(L, v, amount, 0);
    lua_pushvalue(L, -1);
    bool first = lua_rawget(L, set) == LUA_TNIL;
    double least = first ? amount : lua_tonumber(L, -1);
    lua_pop(L, 1);
    lua_pushvalue(L, -1);
    lua_pushnumber(L, amount < least ? amount : least);
    lua_rawset(L, set);
    lua_pushliteral(L, ">");
    lua_concat(L, 2);
    lua_pushvalue(L, -1);
    double most = lua_rawget(L, set) == LUA_TNIL ? amount : lua_tonumber(L, -1);
    lua_pop(L, 1);
    lua_pushnumber(L, amount > most ? amount : most);
    lua_rawset(L, set);
}

static bool has_amount_in(lua_State *L, int set, const lml_value *v, double amount)
{
    bool found = false;
    for (int beside = -1; beside <= 1 && !found; beside++) {
        push_bucket(L, v, amount, beside);
        lua_pushvalue(L, -1);
        if (lua_rawget(L, set) == LUA_TNIL) {
            lua_pop(L, 2);
            continue;
        }
        double least = lua_tonumber(L, -1);
        lua_pop(L, 1);
        lua_pushliteral(L, ">");
        lua_concat(L, 2);
        lua_rawget(L, set);
        double most = lua_tonumber(L, -1);
        lua_pop(L, 1);
        found = amount >= least * (1 - APART) && amount <= most * (1 + APART);
    }
    return found;
}

/* Push what tells a figure that has no amount: a moment, an hour or a weekday with its kind, a text
 * or an alloy as they are. Nothing, and false, for the rest: half of all figures are yes, and half
 * of them no. */
static bool push_key(lua_State *L, int index)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    if (v) {
        char key[2 + sizeof v->exact] = {'\0', (char)v->kind};
        memcpy(key + 2, &v->exact, sizeof v->exact);
        lua_pushlstring(L, key, sizeof key);
        return true;
    }
    if (lua_type(L, index) != LUA_TSTRING && !lml_class_test(L, index, LML_CLASS_ALLOY))
        return false;
    lua_pushvalue(L, index);
    return true;
}

/* Whether the figure at index has an amount, with it; `v` is NULL for a plain number. */
static bool take_amount(lua_State *L, int index, const lml_value **v, double *amount)
{
    *v = lml_class_test(L, index, LML_CLASS_VALUE);
    if (*v ? !has_amount(*v) : lua_type(L, index) != LUA_TNUMBER)
        return false;
    *amount = *v ? amount_of(*v) : fabs(lua_tonumber(L, index));
    return true;
}

/* A value as sentences have it, without its sign, behind a byte that no printed text has. */
static void push_words(lua_State *L, const lml_value *v)
{
    char text[2 + LML_VALUE_TEXT] = {'\0', 'w'};
    size_t length = lml_show_shown(v, text + 2);
    size_t sign = text[2] == '-';
    memmove(text + 2, text + 2 + sign, length - sign);
    lua_pushlstring(L, text, 2 + length - sign);
}

/* Add the figure at index, or for lists and records all that stand in it, to the set. */
static void gather(lua_State *L, int set, int index, int depth)
{
    lml_box_need_stack(L, 8);
    lml_box_charge(L, COST);
    index = lua_absindex(L, index);
    const lml_value *v;
    double amount;
    bool name = lua_type(L, index) == LUA_TSTRING;
    if ((depth > 0 || !name) && lml_marks_is_open(L, index))
        return; /* it is in a list beside what is withheld */
    if (take_amount(L, index, &v, &amount)) {
        if (amount > 0)
            add_amount(L, set, v, amount);
        if (amount > 0 && v) {
            lml_value said = lml_house_unit_said(lml_shelf_house_in(L), v);
            const lml_value *forms[] = {v, &said};
            for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
                push_words(L, forms[i]);
                lua_pushboolean(L, 1);
                lua_rawset(L, set);
            }
        }
    } else if (push_key(L, index)) {
        lua_pushboolean(L, 1);
        lua_rawset(L, set);
    } else if (depth < DEPTH_MOST && lml_view_test_content(L, index)) {
        for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1))
            gather(L, set, -1, depth + 1);
        lua_pop(L, 1);
    }
}

/* Push the figures of the give called `of`, or of all that the part withholds when it is NULL: a
 * set, gathered once. */
static void push_figures(lua_State *L, int part, const char *of)
{
    if (lua_getfield(L, part, "figures") == LUA_TNIL) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_setfield(L, part, "figures");
    }
    int figures = lua_gettop(L), set = figures + 1;
    if (lua_getfield(L, figures, of ? of : "") == LUA_TNIL) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_getfield(L, part, "withheld");
        if (lua_getfield(L, part, "results") == LUA_TNIL) {
            lua_newtable(L);
            lua_replace(L, -2);
        }
        int withheld = set + 1, results = set + 2;
        if (of) {
            lua_getfield(L, results, of);
            gather(L, set, -1, 0);
        } else {
            for (lua_pushnil(L); lua_next(L, withheld); lua_pop(L, 1)) {
                lua_pop(L, 1);
                lua_pushvalue(L, -1);
                lua_rawget(L, results);
                gather(L, set, -1, 0);
            }
        }
        lua_settop(L, set);
        lua_pushvalue(L, set);
        lua_setfield(L, figures, of ? of : "");
    }
    lua_remove(L, figures);
}

static bool is_among(lua_State *L, int part, const char *of, int index)
{
    push_figures(L, part, of);
    const lml_value *v;
    double amount;
    if (take_amount(L, index, &v, &amount))
        return amount > 0 && has_amount_in(L, lua_gettop(L), v, amount);
    return push_key(L, index) && lua_rawget(L, -2) != LUA_TNIL;
}

/* ---- what happens to a figure
 * ------------------------------------------------------------------ */

/* Of an answer that was kept only its stops are known: they may withhold anything. */
static bool withholds_anything(lua_State *L, int part)
{
    if (lua_getfield(L, part, "withheld") != LUA_TTABLE)
        return true;
    lua_pushnil(L);
    return lua_next(L, -2) != 0;
}

static bool gives_anything(lua_State *L, int part)
{
    return lua_getfield(L, part, "results") == LUA_TTABLE;
}

/* Whether the part, or one within it, withholds anything; if `mute` is set, one that gives no
 * results by which it could be told. */
static bool withholds_within(lua_State *L, int part, bool mute)
{
    lml_box_need_stack(L, 12);
    int top = lua_gettop(L);
    bool found = withholds_anything(L, part) && !(mute && gives_anything(L, part));
    lua_settop(L, top);
    lua_getfield(L, part, "within");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, top + 1) && !found; i++) {
        lua_rawgeti(L, top + 1, i);
        found = withholds_within(L, top + 2, mute);
        lua_settop(L, top + 1);
    }
    lua_settop(L, top);
    return found;
}

void lml_result_withheld_look(lua_State *L, int part)
{
    lml_run_of(L)->nothing_withheld = !withholds_within(L, part, false);
    if (!lml_run_of(L)->nothing_withheld)
        lml_marks_look(L, part);
}

static bool gives_nothing(lua_State *L, int part, const char *of)
{
    return lua_getfield(L, part, "results") != LUA_TTABLE || lua_getfield(L, -1, of) == LUA_TNIL;
}

/* Whether the part keeps back the give `of`. A line of its own that says so rests on it, whatever
 * figure it prints. To a recipe that uses the part the name decides only where it does give this
 * figure by it, or gives nothing, being stopped half-way. `known` says whether the name decided. */
static bool keeps_back(lua_State *L, int part, const char *of, int index, bool own, bool *known)
{
    lua_getfield(L, part, "withheld");
    bool kept_back = lua_getfield(L, -1, of) != LUA_TNIL;
    *known = kept_back && (own || !index || gives_nothing(L, part, of));
    if (!*known && index)
        *known = is_among(L, part, of, index);
    return kept_back;
}

/* Whether the part keeps back the figure at index, which a line says is the give `of` when that is
 * not NULL. Where the name decides, what else has the same figure does not, so that two gates that
 * both say GO are withheld apart. */
static bool part_withholds(lua_State *L, int part, const char *of, int index, bool own)
{
    lml_box_need_stack(L, 16);
    if (!withholds_anything(L, part)) /* most of the time */
        return false;
    lml_box_charge(L, COST);
    bool known = false;
    bool kept_back = of && keeps_back(L, part, of, index, own, &known);
    if (known)
        return kept_back;
    bool text = index && lua_type(L, index) == LUA_TSTRING;
    return index && (text || !lml_marks_is_apart(L, index)) && is_among(L, part, NULL, index);
}

/* Whether a part of these keeps back the give, or a figure that equals the one at index. */
static bool equals_withheld(lua_State *L, int part, const char *of, int index)
{
    bool found = false;
    int top = lua_gettop(L), here = top + 1;
    lua_pushvalue(L, part);
    for (bool own = true; !found && lua_istable(L, here); own = false) {
        found = part_withholds(L, here, of, index, own);
        lua_settop(L, here);
        lua_getfield(L, here, "outer");
        lua_replace(L, here);
    }
    lua_settop(L, top);
    return found;
}

static bool is_withheld(lua_State *L, int part, const char *of, int index)
{
    if (lml_run_of(L)->nothing_withheld)
        return false;
    index = index ? lua_absindex(L, index) : 0;
    if (index && lml_marks_push_code(L, index)) {
        lua_pop(L, 1);
        return true;
    }
    return equals_withheld(L, part, of, index);
}

bool lml_result_withheld_give(lua_State *L, int part, const char *of)
{
    return is_withheld(L, part, of, 0);
}

/* ---- why ------------------------------------------------------------------------------------- */

/* Push the code of what the part withholds of this; nil where it is not known, or several might be
 * meant. */
static void push_code(lua_State *L, int part, const char *of, int index)
{
    int top = lua_gettop(L);
    lua_getfield(L, part, "withheld");
    if (of && lua_getfield(L, top + 1, of) == LUA_TSTRING)
        return;
    lua_settop(L, top + 1);
    lua_pushnil(L); /* found */
    bool several = false;
    lua_Integer count = lml_key_push_sorted(L, top + 1);
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, top + 3)) {
        lua_rawgeti(L, top + 3, i);
        const char *give = lua_tostring(L, -1);
        if (index && lua_type(L, index) != LUA_TSTRING && !is_among(L, part, give, index))
            continue;
        lua_settop(L, top + 4);
        lua_rawget(L, top + 1);
        several = several || (!lua_isnil(L, top + 2) && !lua_rawequal(L, -1, top + 2));
        lua_replace(L, top + 2);
    }
    if (several) {
        lua_pushnil(L);
        lua_replace(L, top + 2);
    }
    lua_settop(L, top + 2);
}

void lml_result_withheld_put_by(lua_State *L, lml_json_writer *w, int part, const char *of,
                                int index)
{
    int top = lua_gettop(L), here = top + 1;
    lml_box_need_stack(L, 16);
    lua_pushvalue(L, part);
    if (index && lml_marks_push_code(L, index)) {
        lua_replace(L, here);
        here = 0;
    }
    for (bool own = true; here && lua_istable(L, here); own = false) {
        bool found = part_withholds(L, here, of, index, own);
        lua_settop(L, here);
        if (found || (index && lua_type(L, index) == LUA_TSTRING && withholds_anything(L, here))) {
            lua_settop(L, here);
            push_code(L, here, of, index);
            break;
        }
        lua_settop(L, here);
        lua_getfield(L, here, "outer");
        lua_replace(L, here);
    }
    size_t length = 0;
    const char *code = lua_type(L, -1) == LUA_TSTRING ? lua_tolstring(L, -1, &length) : NULL;
    static const char stopped[] = "/stopped"; /* it read what another recipe withholds */
    const size_t tail = sizeof stopped - 1;
    if (code && !(length > tail && memcmp(code + length - tail, stopped, tail) == 0)) {
        lml_json_write_name(w, lml_span_of("withheld_by"));
        lml_json_write_text(w, (lml_span){code, length});
    }
    lua_settop(L, top);
}

/* ---- failures ----------------------------------------------------------------------------------
 */

size_t lml_result_withheld_place(lua_State *L, int index)
{
    const lml_trace *t = lml_box_of(L)->trace;
    const char *at = lua_tostring(L, index), *colon = strstr(at, ".lua:");
    char file[FILE_MOST];
    if (!t || !t->text || !colon || (size_t)(colon - at) + sizeof ".lua" > sizeof file)
        return 0;
    colon += sizeof ".lua" - 1;
    snprintf(file, sizeof file, "%.*s", (int)(colon - at), at);
    lml_span text = t->text(t->text_self, file);
    unsigned long lines = 1, line = 0;
    for (size_t i = 0; i < text.length; i++)
        lines += text.at[i] == '\n';
    const char *end = colon + 1;
    for (; lml_ascii_is_digit(*end) && line <= lines; end++)
        line = 10 * line + (unsigned long)(*end - '0');
    return line > 0 && line <= lines && end[0] == ':' && end[1] == ' ' ? (size_t)(end + 2 - at) : 0;
}

/* ---- sentences ---------------------------------------------------------------------------------
 */

enum { WORDS_MOST = 4 /* of a figure: "1 h 30 min" */, READING = 20 /* what a reading costs */ };

static bool is_any_withheld(lua_State *L, int part)
{
    bool any = false;
    if (lml_run_of(L)->nothing_withheld)
        return false;
    int top = lua_gettop(L);
    lua_pushvalue(L, part);
    while (!any && lua_istable(L, top + 1)) {
        any = withholds_anything(L, top + 1);
        lua_settop(L, top + 1);
        lua_getfield(L, top + 1, "outer");
        lua_replace(L, top + 1);
    }
    lua_settop(L, top);
    return any;
}

/* The text without the commas that part thousands; its length. */
static size_t without_commas(lml_span text, char *out)
{
    size_t n = 0;
    for (size_t i = 0; i < text.length; i++)
        if (text.at[i] != ',')
            out[n++] = text.at[i];
    return n;
}

/* Whether these words are a figure that is withheld: by its amount, in whatever unit, or as it is
 * printed where digits are cut off. A plain number is no figure. */
static bool is_withheld_words(lua_State *L, int part, lml_span words)
{
    char text[LML_VALUE_TEXT];
    if (words.length >= sizeof text)
        return false;
    size_t length = without_commas(words, text);
    lml_value v;
    lml_box_charge(L, READING);
    if (lml_read_value((lml_span){text, length}, LML_WANT_ANYTHING, LML_NO_METAL, &v, NULL) ||
        v.kind == LML_NUMBER)
        return false;
    lua_pushliteral(L, "\0w");
    lua_pushlstring(L, words.at, words.length);
    lua_concat(L, 2);
    bool found = equals_withheld(L, part, NULL, lua_gettop(L));
    lua_pop(L, 1);
    if (!found) {
        lml_figure_push(L, &v);
        found = equals_withheld(L, part, NULL, lua_gettop(L));
        lua_pop(L, 1);
    }
    return found;
}

static bool is_word_end(lml_span text, size_t at)
{
    return at == text.length || text.at[at] == ' ';
}

/* Whether an amount of money is at the start of the text, the currency first ("USD 120.50"), that
 * is withheld; its length. */
static size_t withheld_money(lua_State *L, int part, lml_span text)
{
    enum { CODE = 3 };
    char turned[LML_VALUE_TEXT];
    for (size_t i = 0; i < CODE; i++)
        if (i >= text.length || text.at[i] < 'A' || text.at[i] > 'Z')
            return 0;
    size_t from = CODE, end;
    while (from < text.length && text.at[from] == ' ')
        from++;
    for (end = from; end < text.length && (lml_ascii_is_digit(text.at[end]) ||
                                           text.at[end] == '.' || text.at[end] == ',');)
        end++;
    while (end > from && !lml_ascii_is_digit(text.at[end - 1]))
        end--;
    if (end == from || end - from + CODE + 2 > sizeof turned)
        return 0;
    memcpy(turned, text.at + from, end - from);
    turned[end - from] = ' ';
    memcpy(turned + (end - from) + 1, text.at, CODE);
    return is_withheld_words(L, part, (lml_span){turned, end - from + 1 + CODE}) ? end : 0;
}

/* Find the first figure of the text, from `from` on, that is withheld. */
static bool find_withheld(lua_State *L, int part, int index, lml_span text, size_t from,
                          lml_span *found)
{
    if (lml_marks_is_sentence_apart(L, index))
        return false;
    for (size_t i = from; i < text.length; i++) {
        char before = i > 0 ? text.at[i - 1] : ' ';
        size_t money = lml_ascii_is_name(before)
                           ? 0
                           : withheld_money(L, part, (lml_span){text.at + i, text.length - i});
        if (money > 0) {
            *found = (lml_span){text.at + i, money};
            return true;
        }
        if (!lml_ascii_is_digit(text.at[i]) || lml_ascii_is_name(before) || strchr(".,:", before))
            continue;
        size_t ends[WORDS_MOST], count = 0, k = i + 1;
        for (; k <= text.length && count < WORDS_MOST; k++)
            if (is_word_end(text, k))
                ends[count++] = k;
        lml_box_charge(L, 1 + WORDS_MOST * (k - i) / 64); /* each end is looked back from, too */
        while (count-- > 0) {
            size_t end = ends[count];
            while (end > i + 1 && strchr(".,;:)]!?\"'", text.at[end - 1]))
                end--;
            *found = (lml_span){text.at + i, end - i};
            if (is_withheld_words(L, part, *found) && !lml_marks_are_words_apart(L, index, *found))
                return true;
        }
    }
    return false;
}

bool lml_result_withheld_figure(lua_State *L, int part, const char *of, int index)
{
    if (is_withheld(L, part, of, index))
        return true;
    return lua_type(L, index) == LUA_TSTRING && lml_result_withheld_text(L, part, of, index);
}

bool lml_result_withheld_text(lua_State *L, int part, const char *of, int index)
{
    const int top = lua_gettop(L);
    bool marked = lml_marks_push_code(L, index);
    lua_settop(L, top);
    if (marked || !is_any_withheld(L, part))
        return marked;
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    lml_span found;
    return (of && is_withheld(L, part, of, 0)) ||
           find_withheld(L, part, index, (lml_span){at, length}, 0, &found);
}

/* Whether the part or one that uses it withholds what it does not give. */
static bool is_mute(lua_State *L, int part)
{
    bool mute = withholds_within(L, part, true);
    int top = lua_gettop(L);
    lua_pushvalue(L, part);
    while (!mute && lua_getfield(L, top + 1, "outer") == LUA_TTABLE) {
        lua_replace(L, top + 1);
        mute = withholds_anything(L, top + 1);
        lua_settop(L, top + 1);
        mute = mute && !gives_anything(L, top + 1);
        lua_settop(L, top + 1);
    }
    lua_settop(L, top);
    return mute;
}

/* Whether the message at index is written so, behind its line, in a recipe or a script. */
static bool is_written_message(lua_State *L, int index)
{
    const size_t place = lml_result_withheld_place(L, index);
    lua_pushstring(L, lua_tostring(L, index) + place);
    bool written = lml_marks_are_there(L) && lml_trace_is_innocent(L, 0, -1);
    lua_pop(L, 1);
    return written;
}

bool lml_result_withheld_failure(lua_State *L, int part, int index)
{
    const int top = lua_gettop(L);
    if (lml_run_of(L)->nothing_withheld)
        return false;
    bool written = is_written_message(L, index);
    bool marked = !lml_marks_are_there(L) || lml_marks_push_code(L, index);
    lua_settop(L, top);
    return !written && (marked || is_mute(L, part));
}

bool lml_result_withheld_end(lua_State *L, int part, int index, uint32_t step)
{
    if (!lml_marks_are_there(L))
        return true;
    if (is_written_message(L, index) || (step && lml_trace_own_is(L, step)))
        return false;
    bool marked = step ? lml_marks_has(L, step) : lml_marks_are_any(L);
    return marked || (is_mute(L, part) && !(step && lml_marks_only_shows(L, step)));
}

void lml_result_withheld_push(lua_State *L, int part, int index)
{
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    lml_span text = {at, length}, found;
    if (lml_marks_push_masked(L, index))
        return;
    if (!is_any_withheld(L, part)) {
        lua_pushvalue(L, index);
        return;
    }
    lua_pushliteral(L, "");
    size_t from = 0;
    while (find_withheld(L, part, index, text, from, &found)) {
        lua_pushlstring(L, at + from, (size_t)(found.at - at) - from);
        lua_pushliteral(L, "\xE2\x80\xA6"); /* an ellipsis */
        lua_concat(L, 3);
        from = (size_t)(found.at - at) + found.length;
    }
    lua_pushlstring(L, at + from, length - from);
    lua_concat(L, 2);
}
