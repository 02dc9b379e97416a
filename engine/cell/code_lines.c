#include "cell/code_lines.h"

#include <lua.h>

/* As Lua 5.4 writes it (ldump.c): a head, and functions within functions. */
typedef struct dump {
    const unsigned char *at, *end;
    bool fits;
    bool *line;
    size_t count;
} dump;

enum { DEPTH_MOST = 250, ABSOLUTE = -128 }; /* Lua's limit of nested functions */

static const unsigned char *take(dump *d, size_t length)
{
    const unsigned char *at = d->at;
    if (!d->fits || length > (size_t)(d->end - d->at)) {
        d->fits = false;
        return (const unsigned char *)"\0\0";
    }
    d->at += length;
    return at;
}

/* Seven bits a byte, the highest first; the last has its eighth bit set. */
static size_t take_size(dump *d)
{
    size_t n = 0;
    for (int bytes = 0; bytes < 10; bytes++) {
        unsigned byte = *take(d, 1);
        n = (n << 7) | (byte & 0x7f);
        if ((byte & 0x80) || !d->fits)
            return n;
    }
    d->fits = false;
    return 0;
}

static void skip_text(dump *d)
{
    size_t size = take_size(d); /* with one for the NUL; 0 for none */
    if (size > 1)
        take(d, size - 1);
}

static void skip_constants(dump *d)
{
    enum { FLOAT = 0x13, WHOLE = 0x03, SHORT_TEXT = 0x04, LONG_TEXT = 0x14 };
    for (size_t n = take_size(d); n > 0 && d->fits; n--) {
        unsigned kind = *take(d, 1);
        if (kind == FLOAT)
            take(d, sizeof(lua_Number));
        else if (kind == WHOLE)
            take(d, sizeof(lua_Integer));
        else if (kind == SHORT_TEXT || kind == LONG_TEXT)
            skip_text(d);
    }
}

/* The lines of instructions: each relative to the one before, or given in the list that follows.
 * The first of a vararg function is not the author's. */
static void mark(dump *d, bool counts, bool takes_more, size_t first)
{
    size_t count = take_size(d);
    const signed char *step = (const signed char *)take(d, count);
    size_t absolute = take_size(d), line = first;
    for (size_t i = 0; i < count && d->fits; i++) {
        if (step[i] == ABSOLUTE) {
            take_size(d); /* which instruction */
            line = take_size(d);
            absolute--;
        } else {
            line += (size_t)(ptrdiff_t)step[i];
        }
        if (counts && i + 1 < count && i >= takes_more && line < d->count)
            d->line[line] = true;
    }
    d->fits = d->fits && absolute == 0;
}

static void read_function(dump *d, int depth)
{
    enum { INSTRUCTION = 4, UPVALUE = 3, COUNTS = 3 };
    skip_text(d); /* source */
    size_t first = take_size(d);
    take_size(d);                                    /* last line */
    const bool takes_more = take(d, COUNTS)[1] != 0; /* function (...) */
    take(d, take_size(d) * INSTRUCTION);
    skip_constants(d);
    take(d, take_size(d) * UPVALUE);
    for (size_t n = take_size(d); n > 0 && d->fits && depth < DEPTH_MOST; n--)
        read_function(d, depth + 1);
    d->fits = d->fits && depth < DEPTH_MOST;
    mark(d, depth > 0, takes_more, first);
    for (size_t n = take_size(d); n > 0 && d->fits; n--) { /* local variables */
        skip_text(d);
        take_size(d);
        take_size(d);
    }
    for (size_t n = take_size(d); n > 0 && d->fits; n--) /* names of upvalues */
        skip_text(d);
}

bool lml_code_lines(lml_span code, bool *line, size_t count)
{
    static const char head[] = "\x1bLua\x54\x00\x19\x93\r\n\x1a\n";
    enum { SIZES = 3, UPVALUES = 1 };
    dump d = {.at = (const unsigned char *)code.at, .line = line, .count = count, .fits = true};
    d.end = d.at + code.length;
    if (memcmp(take(&d, sizeof head - 1), head, d.fits ? sizeof head - 1 : 0) != 0)
        return false;
    take(&d, SIZES + sizeof(lua_Integer) + sizeof(lua_Number) + UPVALUES);
    if (d.fits)
        read_function(&d, 0);
    return d.fits && d.at == d.end;
}
