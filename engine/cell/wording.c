#include "cell/wording.h"

#include "base/ascii.h"
#include "base/letter.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"

#include <lauxlib.h>
#include <string.h>

/* How a line of lemel's own begins. */
static const char *const BEGINNINGS[] = {"sha256:",
                                         "Worked by",
                                         "Assumed:",
                                         "Stops:",
                                         "Open points:",
                                         "Changed by a recipe:",
                                         "The cost sheet lists",
                                         "recipe language",
                                         "proofs:"};
/* Tags and banners, in capitals. */
static const char *const CAPITALS[] = {"STOPPED", "STOP",      "CAUTION",   "CONFIRMED",
                                       "AGREED",  "ASK",       "NOTE",      "FAILED",
                                       "DO NOT",  "TO DECIDE", "NOT FINAL", "RUN WITHOUT GATES"};
enum {
    BEGINNING_COUNT = sizeof BEGINNINGS / sizeof *BEGINNINGS,
    CAPITAL_COUNT = sizeof CAPITALS / sizeof *CAPITALS
};

/* The letter at the start as a Latin one, and its bytes; 0 at the end of the text. */
static uint32_t latin(lml_span text, size_t *bytes)
{
    uint32_t code;
    *bytes = lml_utf8_next(text, &code);
    return *bytes ? lml_letter_latin(code) : 0;
}

static bool is_letter(uint32_t code)
{
    return (code >= 'A' && code <= 'Z') || (code >= 'a' && code <= 'z');
}

/* The bytes of the text at its start that read as `words`; 0 when they do not, or go on as a longer
 * word. */
static size_t reads_as(lml_span text, const char *words)
{
    size_t at = 0, bytes;
    for (; *words; words++, at += bytes) {
        uint32_t code = latin((lml_span){text.at + at, text.length - at}, &bytes);
        if (code == 0xa0)
            code = ' ';
        if (code != (unsigned char)*words)
            return 0;
    }
    uint32_t next = latin((lml_span){text.at + at, text.length - at}, &bytes);
    return is_letter((unsigned char)words[-1]) && is_letter(next) ? 0 : at;
}

static size_t capitals_at(lml_span text, const char **which)
{
    for (size_t i = 0; i < CAPITAL_COUNT; i++) {
        size_t length = reads_as(text, CAPITALS[i]);
        if (length) {
            *which = CAPITALS[i];
            return length;
        }
    }
    return 0;
}

static const char *beginning_of(lml_span text)
{
    while (text.length > 0 && text.at[0] == ' ')
        text = (lml_span){text.at + 1, text.length - 1};
    unsigned char first = text.length > 0 ? (unsigned char)text.at[0] : 0;
    for (size_t i = 0; i < BEGINNING_COUNT; i++) {
        bool may = first >= 0x80 || first == (unsigned char)BEGINNINGS[i][0];
        if (may && reads_as(text, BEGINNINGS[i]))
            return BEGINNINGS[i];
    }
    return NULL;
}

/* Bytes at the start without control characters, capitals beside each other, or letters beyond
 * ASCII. Eight are looked at together, and the last of them once more with the next. */
static size_t plain_run(lml_span text)
{
    const uint64_t ones = 0x0101010101010101, tops = 0x8080808080808080;
    uint64_t eight;
    size_t at = 0;
    for (; at + sizeof eight <= text.length; at += sizeof eight - 1) {
        memcpy(&eight, text.at + at, sizeof eight);
        if ((eight | (eight - ones * 0x20) | (eight + ones)) & tops)
            break;
        /* Without top bits, adding sets that of a byte from a letter on, and reaches no other. */
        uint64_t capitals = (eight + ones * (0x80 - 'A')) & ~(eight + ones * (0x7f - 'Z')) & tops;
        if (capitals & (capitals << 8))
            break;
    }
    return at;
}

/* Offset of the next of lemel's words in capitals; the length of the text if there is none. */
static size_t find_capitals(lml_span text, size_t from, size_t *length, const char **which)
{
    bool inside = false;
    for (size_t at = from, bytes; at < text.length; at += bytes) {
        size_t plain = plain_run((lml_span){text.at + at, text.length - at});
        at += plain;
        if (plain)
            inside = is_letter((unsigned char)text.at[at - 1]);
        lml_span rest = {text.at + at, text.length - at};
        uint32_t code = latin(rest, &bytes);
        bytes = bytes ? bytes : 1;
        if (!inside && code >= 'A' && code <= 'Z' && (*length = capitals_at(rest, which)))
            return at;
        inside = is_letter(code);
    }
    return text.length;
}

/* "3 passed", "12 failed", "2 stops": a number, and a word that counts. */
static bool counts(lml_span text)
{
    size_t n = 0;
    while (n < text.length && lml_ascii_is_digit(text.at[n]))
        n++;
    lml_span rest = {text.at + n, text.length - n};
    return n > 0 && (lml_span_starts(rest, " passed") || lml_span_starts(rest, " failed") ||
                     lml_span_starts(rest, " proof") || lml_span_starts(rest, " stop") ||
                     lml_span_starts(rest, " open point"));
}

/* Most texts: no control character, no two capitals together, no letter beyond ASCII, no beginning
 * of lemel's. */
static bool is_plain(lml_span text)
{
    bool capital = false;
    for (size_t i = plain_run(text); i < text.length; i++) {
        unsigned char c = (unsigned char)text.at[i];
        bool is = c >= 'A' && c <= 'Z';
        if (c < 0x20 || c >= 0x7f || (is && capital))
            return false;
        capital = is;
    }
    return !beginning_of(text);
}

const char *lml_wording_fault(lml_span text)
{
    const char *which;
    size_t length;
    if (is_plain(text))
        return counts(text) ? "a count" : NULL;
    if (text.length && memchr(text.at, '\n', text.length))
        return "a line feed";
    if ((which = beginning_of(text)))
        return which;
    if (find_capitals(text, 0, &length, &which) < text.length)
        return which;
    return counts(text) ? "a count" : NULL;
}

static void push(lua_State *L, int index, const char *what, size_t most, char line_feed)
{
    lml_span text = lml_what_need_text(L, index, what);
    if (text.length <= most && is_plain(text)) { /* and clean, which is charged as it is below */
        lml_box_charge(L, text.length / 16);
        lml_box_charge(L, text.length / 8);
        lua_pushvalue(L, index);
        return;
    }
    lml_view_push_clean(L, index, what, most);
    text = lml_what_need_text(L, -1, what);
    lml_box_charge(L, text.length / 8);
    if (is_plain(text))
        return;
    luaL_Buffer b;
    luaL_buffinit(L, &b);
    if (beginning_of(text))
        luaL_addstring(&b, "- ");
    for (size_t at = 0; at < text.length;) {
        size_t length = 0;
        const char *which = NULL;
        size_t found = find_capitals(text, at, &length, &which);
        for (; at < found; at++)
            luaL_addchar(&b, text.at[at] == '\n' ? line_feed : text.at[at]);
        for (const char *c = which; found < text.length && *c; c++)
            luaL_addchar(&b, (char)(*c == ' ' ? ' ' : *c - 'A' + 'a'));
        at = found + length;
    }
    luaL_pushresult(&b);
    lua_remove(L, -2);
}

void lml_wording_push(lua_State *L, int index, const char *what, size_t most)
{
    push(L, index, what, most, ' ');
}

void lml_wording_push_paragraph(lua_State *L, int index, const char *what, size_t most)
{
    push(L, index, what, most, '\n');
}
