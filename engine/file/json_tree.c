/* The tree of a text that the scan found sound, of cJSON's items. They are in one block of the
 * document's, and texts and names in another, to which they point: so cJSON_Delete is not for them.
 *
 * cJSON's own parser writes a global error pointer each time, so that two threads that read would
 * race.
 */
#include "file/json_tree.h"

#include <cjson/cJSON.h>
#include <string.h>

/* The four hexadecimal digits at `at`; the scan saw that they are. */
static uint32_t hex4(const char *at)
{
    uint32_t code = 0;
    for (int i = 0; i < 4; i++) {
        uint32_t c = (unsigned char)at[i];
        code = code * 16 + (c <= '9' ? c - '0' : (c | 0x20u) - 'a' + 10);
    }
    return code;
}

static size_t put_utf8(uint32_t code, char *out)
{
    if (code < 0x80) {
        out[0] = (char)code;
        return 1;
    }
    size_t length = code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
    static const unsigned char first[] = {0, 0, 0xC0, 0xE0, 0xF0};
    for (size_t i = length - 1; i > 0; i--, code >>= 6)
        out[i] = (char)(0x80 | (code & 0x3F));
    out[0] = (char)(first[length] | code);
    return length;
}

/* What follows a backslash, the character of a \u or the two of a pair; *at goes past it. */
static size_t decode_escape(const char **at, char *out)
{
    static const char names[] = "bfnrt", marks[] = "\b\f\n\r\t";
    char c = *(*at)++;
    if (c == 'u') {
        uint32_t code = hex4(*at);
        *at += 4;
        if (code >= 0xD800 && code <= 0xDBFF) {
            code = 0x10000 + ((code - 0xD800) << 10) + (hex4(*at + 2) - 0xDC00);
            *at += 6;
        }
        return put_utf8(code, out);
    }
    const char *name = strchr(names, c);
    *out = name ? marks[name - names] : c;
    return 1;
}

/* Decode what is written between two quotes, in the copy of the text: it gets no longer, and its
 * NUL replaces a quote at the latest. */
static char *decode(lml_span written, char *copy, bool escapes)
{
    const char *at = written.at, *end = written.at + written.length;
    char *out = escapes ? copy : copy + written.length;
    while (escapes && at < end) {
        const char *escape = memchr(at, '\\', (size_t)(end - at));
        size_t plain = (size_t)((escape ? escape : end) - at);
        memcpy(out, at, plain);
        out += plain;
        at += plain;
        if (escape) {
            at++;
            out += decode_escape(&at, out);
        }
    }
    *out = '\0';
    return copy;
}

/* What the item of a node of that kind is. */
static int type_of(lml_json_kind kind, char first)
{
    switch (kind) {
    case LML_JSON_RECORD:
        return cJSON_Object;
    case LML_JSON_LIST:
        return cJSON_Array;
    case LML_JSON_TEXT:
        return cJSON_String | cJSON_IsReference;
    case LML_JSON_NUMBER:
        return cJSON_Number;
    case LML_JSON_YES_NO:
        return first == 't' ? cJSON_True : cJSON_False;
    case LML_JSON_NULL:
    case LML_JSON_ABSENT:
        break;
    }
    return cJSON_NULL;
}

/* After the last of the record or list where it is. The first item's `prev` is the last. */
static void hang(cJSON *parent, cJSON *item)
{
    cJSON *first = parent->child;
    if (!first) {
        parent->child = item->prev = item;
        return;
    }
    item->prev = first->prev;
    first->prev->next = item;
    first->prev = item;
}

static void grow(lml_json_document *d)
{
    for (size_t i = 0; i < d->count; i++) {
        lml_json *node = &d->node[i];
        const char *written = d->text + node->offset;
        cJSON *item = &d->items[i];
        node->item = item;
        *item = (cJSON){.type = type_of((lml_json_kind)node->kind, written[0]),
                        .valuedouble = node->number};
        if (node->kind == LML_JSON_TEXT)
            item->valuestring = decode((lml_span){written + 1, (size_t)node->length - 2},
                                       d->decoded + node->offset + 1, node->escapes);
        if (i == 0)
            continue;
        if (d->node[node->parent].kind == LML_JSON_RECORD) {
            item->string = decode((lml_span){d->text + node->name_offset, node->name_length},
                                  d->decoded + node->name_offset, node->name_escapes);
            item->type |= cJSON_StringIsConst;
        }
        hang(d->node[node->parent].item, item);
    }
}

lml_status lml_json_tree(lml_json_document *d, lml_error *err)
{
    d->decoded = lml_alloc_get(&d->alloc, d->length + 1);
    d->items = lml_alloc_get(&d->alloc, d->count * sizeof *d->items);
    if (!d->decoded || !d->items)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for %s", d->source);
    memcpy(d->decoded, d->text, d->length + 1);
    grow(d);
    return LML_OK;
}
