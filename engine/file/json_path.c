#include "file/json_path.h"

#include <stdio.h>
#include <string.h>

static bool plain_name(lml_span name)
{
    for (size_t i = 0; i < name.length; i++) {
        unsigned char c = (unsigned char)name.at[i];
        if (!((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
              c == '_' || c == '-' || c >= 0x80))
            return false;
    }
    return name.length > 0;
}

/* Which item of its list a node is. Only a refusal asks, so that it may count. */
static size_t place_in_list(const lml_json *node)
{
    const lml_json *all = node->document->node;
    size_t place = 0;
    for (const lml_json *n = &all[node->parent] + 1; n != node; n = all + n->end)
        place++;
    return place;
}

static size_t append_path(const lml_json *node, char *out, size_t size, size_t used)
{
    const lml_json *all = node->document->node;
    if (node == all)
        return used;
    used = append_path(&all[node->parent], out, size, used);
    if (used >= size)
        return size;
    int wrote;
    if (node->name_offset) {
        lml_span name = {node->document->text + node->name_offset, node->name_length};
        const char *quote = plain_name(name) ? "" : "\"";
        wrote = snprintf(out + used, size - used, "%s%s%.*s%s", used ? "." : "", quote,
                         (int)name.length, name.at, quote);
    } else {
        wrote = snprintf(out + used, size - used, "[%zu]", place_in_list(node));
    }
    return wrote > 0 ? used + (size_t)wrote : used;
}

const char *lml_json_path(const lml_json *node, char *out, size_t size)
{
    out[0] = 0;
    append_path(node, out, size, 0);
    /* A cut may have gone through a character. */
    size_t length = strlen(out), last = length;
    while (last > 0 && ((unsigned char)out[last - 1] & 0xC0) == 0x80)
        last--;
    uint32_t code;
    if (last > 0 && !lml_utf8_next((lml_span){out + last - 1, length - last + 1}, &code))
        out[last - 1] = 0;
    return out;
}

const char *lml_json_path_source(const lml_json *node)
{
    return node->document->source;
}

lml_status lml_json_path_fail(const lml_json *node, unsigned line, lml_error *err,
                              lml_status status, const char *format, va_list arguments)
{
    if (!err)
        return status;
    char message[sizeof err->message], path[LML_JSON_PATH];
    vsnprintf(message, sizeof message, format, arguments);
    lml_json_path(node, path, sizeof path);
    return lml_fail(err, status, "%s:%u: %s%s%s", node->document->source, line, path,
                    *path ? ": " : "", message);
}

lml_status lml_json_fail(const lml_json *node, lml_error *err, lml_status status,
                         const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    lml_json_path_fail(node, node->line, err, status, format, arguments);
    va_end(arguments);
    return status;
}

lml_status lml_json_place(const lml_json *node, lml_status status, lml_error *err)
{
    if (!status || !err)
        return status;
    lml_error inner = *err;
    lml_json_fail(node, err, status, "%s", inner.message);
    memcpy(inner.message, err->message, sizeof inner.message);
    *err = inner;
    return status;
}
