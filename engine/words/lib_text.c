/* The text functions of a recipe, also the methods of every text. No patterns: what a recipe needs
 * of text is to fill in a sentence and to take a code apart, and patterns can be made to run for
 * ever. */
#include "cell/class.h"
#include "cell/raise.h"
#include "cell/word.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "shelf/house_unit.h"
#include "shelf/shelf.h"
#include "value/show.h"
#include "words/lib.h"

#include <string.h>

enum { TEXT_MOST = 64 * 1024 };

static lml_span text_at(lua_State *L, int index)
{
    lml_span text = lml_what_need_text(L, index, "a text");
    lml_box_charge(L, 1 + text.length / 16);
    return text;
}

static int too_long(lua_State *L)
{
    return lml_raise_text(L, LML_LIMIT, "a text of more than %d bytes exceeds the limit",
                          TEXT_MOST);
}

/* Add the member on top of the stack, and pop it: as a sheet shows it, in the house's unit, for
 * people read a text, and do not need seventeen digits. Returns its length. */
static size_t add_shown(lua_State *L, luaL_Buffer *b)
{
    char room[LML_VALUE_TEXT];
    lml_span text = {room, 0};
    const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
    if (v) {
        lml_what_charge_written(L, v);
        lml_what_charge_written(L, v); /* once as it is, once as it is shown */
        lml_value said = lml_house_unit_said(lml_shelf_house_in(L), v);
        text.length = lml_show_shown(&said, room);
    } else if (lua_type(L, -1) == LUA_TSTRING) {
        text.at = lua_tolstring(L, -1, &text.length); /* which the table holds */
    } else {
        lml_what_push_text(L, -1);
        lua_replace(L, -2);
        text.length = (size_t)lua_rawlen(L, -1);
        luaL_addvalue(b);
        return text.length;
    }
    lua_pop(L, 1);
    luaL_addlstring(b, text.at, text.length);
    return text.length;
}

enum { FILLED = 10 /* a name looked up and a value written */ };

/* Fill "{name}" from a table: text.fill("{charge} of {metal}", { charge = c, metal = m }). "{{" is
 * "{". */
static int text_fill(lua_State *L)
{
    lml_span rest = text_at(L, 1);
    lml_view_push_content(L, 2, "text.fill");
    int content = lua_gettop(L);
    luaL_Buffer b;
    luaL_buffinit(L, &b);
    lml_box_charge(L, rest.length / 8); /* byte by byte */
    size_t made = rest.length;
    if (made > TEXT_MOST)
        return too_long(L);
    for (const char *brace; (brace = memchr(rest.at, '{', rest.length));) {
        const char *end = rest.at + rest.length;
        bool doubled = brace + 1 < end && brace[1] == '{';
        luaL_addlstring(&b, rest.at, (size_t)(brace - rest.at) + doubled);
        rest = lml_span_between(brace + 1 + doubled, end);
        if (doubled)
            continue;
        const char *close = memchr(rest.at, '}', rest.length);
        if (!close)
            return lml_raise_hint(L, LML_BAD_RECIPE, "close it, or write {{ for a brace",
                                  "a { in the text is not closed by a }");
        lua_pushlstring(L, rest.at, (size_t)(close - rest.at));
        if (!lml_view_get_named(L, content))
            return lml_raise_hint(L, LML_BAD_RECIPE, "give it in the table: { name = value }",
                                  "the text names {%s}, but no such value was given",
                                  lua_pushlstring(L, rest.at, (size_t)(close - rest.at)));
        size_t length = add_shown(L, &b);
        if ((made += length) > TEXT_MOST)
            return too_long(L);
        lml_box_charge(L, FILLED + length / 16);
        rest = lml_span_between(close + 1, end);
    }
    luaL_addlstring(&b, rest.at, rest.length);
    luaL_pushresult(&b);
    return 1;
}

/* Paid for as far as it is looked. */
static const char *find_in(lua_State *L, lml_span text, lml_span part, size_t from)
{
    enum { AT_ONCE = 64, COMPARED = 16 /* bytes a step */ };
    while (from + part.length <= text.length) {
        if (from % AT_ONCE == 0)
            lml_box_charge(L, AT_ONCE * (part.length + 1) / COMPARED);
        size_t stretch = AT_ONCE - from % AT_ONCE, left = text.length - part.length - from + 1;
        const char *at = text.at + from;
        if (part.length > 0)
            at = memchr(at, part.at[0], stretch < left ? stretch : left);
        if (at && memcmp(at, part.at, part.length) == 0)
            return at;
        from = at ? (size_t)(at - text.at) + 1 : from + stretch;
    }
    return NULL;
}

/* Where a part is in a text, from 1, or nil. */
static int text_find(lua_State *L)
{
    lml_span text = text_at(L, 1), part = text_at(L, 2);
    lua_Integer from = luaL_optinteger(L, 3, 1);
    const char *at = from >= 1 && (size_t)from <= text.length + 1
                         ? find_in(L, text, part, (size_t)from - 1)
                         : NULL;
    if (at)
        lua_pushinteger(L, at - text.at + 1);
    else
        lua_pushnil(L);
    return 1;
}

static int text_starts(lua_State *L)
{
    lml_span text = text_at(L, 1), part = text_at(L, 2);
    lua_pushboolean(L, part.length <= text.length && memcmp(text.at, part.at, part.length) == 0);
    return 1;
}

/* The parts of a text between separators, as a list. */
static int text_split(lua_State *L)
{
    lml_span text = text_at(L, 1), separator = text_at(L, 2);
    if (separator.length == 0)
        return lml_raise_text(L, LML_BAD_RECIPE, "text.split needs a separator");
    lua_newtable(L);
    lua_Integer count = 0;
    size_t from = 0;
    for (const char *at; (at = find_in(L, text, separator, from));
         from = (size_t)(at - text.at) + separator.length) {
        lml_box_charge(L, 4);
        lua_pushlstring(L, text.at + from, (size_t)(at - text.at) - from);
        lua_rawseti(L, -2, ++count);
    }
    lua_pushlstring(L, text.at + from, text.length - from);
    lua_rawseti(L, -2, ++count);
    return 1;
}

static int text_trim(lua_State *L)
{
    lml_span t = lml_span_trim(text_at(L, 1));
    lua_pushlstring(L, t.at, t.length);
    return 1;
}

/* ASCII letters only: what a code or a unit is made of, alike in every locale. */
static int in_case(lua_State *L, bool upper)
{
    lml_span text = text_at(L, 1);
    if (text.length > TEXT_MOST)
        return too_long(L);
    luaL_Buffer b;
    char *out = luaL_buffinitsize(L, &b, text.length);
    for (size_t i = 0; i < text.length; i++) {
        char c = text.at[i];
        if (upper && c >= 'a' && c <= 'z')
            c = (char)(c - 'a' + 'A');
        else if (!upper && c >= 'A' && c <= 'Z')
            c = (char)(c - 'A' + 'a');
        out[i] = c;
    }
    luaL_pushresultsize(&b, text.length);
    return 1;
}

static int text_upper(lua_State *L)
{
    return in_case(L, true);
}

static int text_lower(lua_State *L)
{
    return in_case(L, false);
}

/* "Löwe" has four letters and five bytes; what joins another letter counts with it no more than it
 * does there. */
static int text_letters(lua_State *L)
{
    lml_span text = text_at(L, 1);
    lua_Integer letters = 0;
    for (size_t i = 0; i < text.length; i++)
        letters += ((unsigned char)text.at[i] & 0xC0) != 0x80;
    lua_pushinteger(L, letters);
    return 1;
}

typedef enum sort_of_byte { BETWEEN, FIGURE, LETTER } sort_of_byte;

static sort_of_byte sort_of(char c)
{
    bool letter = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (unsigned char)c >= 0x80;
    return letter ? LETTER : c >= '0' && c <= '9' ? FIGURE : BETWEEN;
}

/* Runs of digits and runs of letters, without what is between them. Every byte beyond ASCII counts
 * as part of a letter. */
static int text_words(lua_State *L)
{
    lml_span text = text_at(L, 1);
    if (text.length > TEXT_MOST)
        return too_long(L);
    lml_box_charge(L, text.length / 8);
    luaL_Buffer b;
    char *out = luaL_buffinitsize(L, &b, 2 * text.length);
    size_t length = 0;
    sort_of_byte last = BETWEEN;
    for (size_t i = 0; i < text.length; i++) {
        char c = text.at[i];
        sort_of_byte sort = sort_of(c);
        if (sort != BETWEEN && sort != last && length > 0)
            out[length++] = ' ';
        if (sort != BETWEEN)
            out[length++] = c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
        last = sort;
    }
    luaL_pushresultsize(&b, length);
    return 1;
}

static int text_rep(lua_State *L)
{
    lml_span text = text_at(L, 1);
    lua_Integer times = luaL_checkinteger(L, 2);
    if (times > TEXT_MOST || (times > 0 && text.length > (size_t)(TEXT_MOST / times)))
        return too_long(L);
    luaL_Buffer b;
    luaL_buffinit(L, &b);
    for (lua_Integer i = 0; i < times; i++) {
        lml_box_charge(L, 1);
        luaL_addlstring(&b, text.at, text.length);
    }
    luaL_pushresult(&b);
    return 1;
}

/* Bytes from..to, counted from 1, negative from the end, as Lua's own sub. */
static int text_sub(lua_State *L)
{
    lml_span text = text_at(L, 1);
    lua_Integer length = (lua_Integer)text.length;
    lua_Integer from = luaL_checkinteger(L, 2), to = luaL_optinteger(L, 3, -1);
    from = from > 0 ? from : from == 0 || from < -length ? 1 : length + from + 1;
    to = to > length ? length : to >= 0 ? to : to < -length ? 0 : length + to + 1;
    if (from > to)
        lua_pushliteral(L, "");
    else
        lua_pushlstring(L, text.at + from - 1, (size_t)(to - from + 1));
    return 1;
}

const lml_word lml_lib_text[] = {
    {"fill", text_fill, "text: string, values: table", "string",
     "The text with each {name} filled from the table; what was rounded in g, mm or °C is in the "
     "house's unit.",
     "text.fill(\"{charge} of {metal}\", { charge = Q \"12.5 g\", metal = \"gold\" })",
     "12.5 g of gold"},
    {"find", text_find, "text: string, part: string, from?: number", "number?",
     "The position of a part, from 1, or nil; no patterns.", "(\"Au585 yellow\"):find \"585\"",
     "3"},
    {"letters", text_letters, "text: string", "number",
     "How many characters it has, including spaces and signs (level 2).", "(\"Löwe\"):letters()",
     "4"},
    {"lower", text_lower, "text: string", "string", "In small letters, of A to Z.",
     "(\"AU\"):lower()", "au"},
    {"rep", text_rep, "text: string, n: number", "string", "The text n times.", "(\"ab\"):rep(3)",
     "ababab"},
    {"split", text_split, "text: string, at: string", "string[]",
     "The parts between the separators, as a list.", "#(\"a, b, c\"):split \", \"", "3"},
    {"starts", text_starts, "text: string, part: string", "boolean",
     "Whether it starts with the part.", "(\"Au585 yellow\"):starts \"Au\"", "true"},
    {"sub", text_sub, "text: string, from: number, to?: number", "string",
     "From one byte to another, counted from 1, or from the end when negative.",
     "(\"Au585\"):sub(3)", "585"},
    {"trim", text_trim, "text: string", "string", "Without spaces at both ends.",
     "(\"  Au \"):trim()", "Au"},
    {"upper", text_upper, "text: string", "string", "In capitals, of a to z.", "(\"au\"):upper()",
     "AU"},
    {"words", text_words, "text: string", "string",
     "Its words in capitals and its figures, a space between (level 2).",
     "(\"14kt, Gold!\"):words()", "14 KT GOLD"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};
