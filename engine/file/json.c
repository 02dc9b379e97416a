#include "file/json_scan.h"
#include "file/json_tree.h"
#include <cjson/cJSON.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DEPTH_MOST = 500 }; /* the scan goes down by recursion */

/* ---- reading ---- */

static int by_name(const void *a, const void *b)
{
    const lml_json *x = *(const lml_json *const *)a, *y = *(const lml_json *const *)b;
    int order = strcmp(x->item->string, y->item->string);
    return order ? order : (x > y) - (x < y); /* nodes of one array: text order */
}

/* Members of such a record stay in the order of the text: each is looked at. */
enum { UNSORTED_MOST = 6 };

/* As strcmp; the first letters usually decide. */
static int order_of(const char *a, const char *b)
{
    int order = (unsigned char)*a - (unsigned char)*b;
    return order ? order : strcmp(a, b);
}

/* Whether nothing is to be done: no name is there twice, and they are in order or few. */
static bool is_in_order(const lml_json **member, size_t count)
{
    bool sorted = true;
    for (size_t i = 1; i < count && sorted; i++)
        sorted = order_of(member[i - 1]->item->string, member[i]->item->string) < 0;
    if (sorted || count > UNSORTED_MOST)
        return sorted;
    for (size_t i = 1; i < count; i++)
        for (size_t k = 0; k < i; k++)
            if (order_of(member[k]->item->string, member[i]->item->string) == 0)
                return false;
    return true;
}

/* Most records have a few members, and those in order already cost one look each. */
static void sort_by_name(const lml_json **member, size_t count)
{
    enum { FEW = 12 };
    if (count > FEW) {
        qsort(member, count, sizeof *member, by_name);
        return;
    }
    for (size_t i = 1; i < count; i++) {
        const lml_json *one = member[i];
        size_t k = i;
        for (; k > 0 && strcmp(member[k - 1]->item->string, one->item->string) > 0; k--)
            member[k] = member[k - 1];
        member[k] = one;
    }
}

/* Sort the members of every record, for look-ups, and refuse names given twice. */
static lml_status sort_members(lml_json_document *d, lml_error *err)
{
    if (!d->members)
        return LML_OK;
    d->sorted = lml_alloc_get(&d->alloc, d->members * sizeof(*d->sorted));
    if (!d->sorted)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for %s", d->source);
    size_t used = 0;
    for (size_t i = 0; i < d->count; i++) {
        if (d->node[i].kind != LML_JSON_RECORD)
            continue;
        const lml_json **slice = d->sorted + used;
        d->node[i].sorted = (uint32_t)used;
        for (const lml_json *m = lml_json_first(&d->node[i]); m; m = lml_json_next(m))
            d->sorted[used++] = m;
        if (is_in_order(slice, d->node[i].count))
            continue;
        sort_by_name(slice, d->node[i].count);
        for (size_t k = 1; k < d->node[i].count; k++)
            if (strcmp(slice[k]->item->string, slice[k - 1]->item->string) == 0) {
                lml_json_fail(slice[k], err, LML_BAD_DATA, "this name was used before, on line %u",
                              slice[k - 1]->line);
                lml_error_hint(err, "keep one of the two");
                return LML_BAD_DATA;
            }
    }
    return LML_OK;
}

static lml_status build(lml_json_document *d, const lml_json_limits *limits, lml_error *err)
{
    lml_status status = lml_json_scan(d, limits, err);
    if (status)
        return status;
    status = lml_json_tree(d, err);
    return status ? status : sort_members(d, err);
}

static lml_json_limits filled(const lml_json_limits *limits)
{
    lml_json_limits l = limits ? *limits : (lml_json_limits){0};
    l.size = l.size ? l.size : LML_JSON_SIZE;
    l.nodes = l.nodes ? l.nodes : LML_JSON_NODES;
    l.depth = l.depth ? l.depth : LML_JSON_DEPTH;
    if (l.size > UINT32_MAX - 1)
        l.size = UINT32_MAX - 1;
    if (l.depth > DEPTH_MOST)
        l.depth = DEPTH_MOST;
    return l;
}

lml_status lml_json_read(const lml_alloc *alloc, lml_span text, const lml_json_limits *limits,
                         const char *source, lml_json_document **out, lml_error *err)
{
    lml_json_limits l = filled(limits);
    if (text.length > l.size)
        return lml_fail(err, LML_LIMIT, "%s: the text is longer than %zu bytes", source, l.size);
    lml_json_document *d = lml_alloc_get(alloc, sizeof *d);
    if (!d)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for %s", source);
    *d = (lml_json_document){.alloc = *alloc, .length = text.length, .source_size = strlen(source)};
    d->text = lml_span_copy(alloc, text);
    d->source = lml_span_copy(alloc, (lml_span){source, d->source_size});
    lml_status status = d->text && d->source
                            ? build(d, &l, err)
                            : lml_fail(err, LML_NO_MEMORY, "out of memory for %s", source);
    if (status)
        lml_json_free(d);
    else
        *out = d;
    return status;
}

void lml_json_free(lml_json_document *d)
{
    if (!d)
        return;
    lml_alloc alloc = d->alloc;
    if (d->items)
        lml_alloc_free(&alloc, d->items, d->count * sizeof *d->items);
    if (d->decoded)
        lml_alloc_free(&alloc, d->decoded, d->length + 1);
    if (d->sorted)
        lml_alloc_free(&alloc, d->sorted, d->members * sizeof(*d->sorted));
    if (d->node)
        lml_alloc_free(&alloc, d->node, d->capacity * sizeof *d->node);
    if (d->source)
        lml_alloc_free(&alloc, d->source, d->source_size + 1);
    if (d->text)
        lml_alloc_free(&alloc, d->text, d->length + 1);
    lml_alloc_free(&alloc, d, sizeof *d);
}

/* ---- nodes ---- */

const lml_json *lml_json_root(const lml_json_document *d)
{
    return &d->node[0];
}

void lml_json_remember(lml_json_document *d, struct lml_memo *memo)
{
    d->memo = memo;
}

struct lml_memo *lml_json_memo(const lml_json *node)
{
    return node ? node->document->memo : NULL;
}

const char *lml_json_source(const lml_json_document *d)
{
    return d->source;
}

lml_span lml_json_source_text(const lml_json_document *d)
{
    return (lml_span){d->text, d->length};
}

lml_json_kind lml_json_kind_of(const lml_json *node)
{
    return node ? node->kind : LML_JSON_ABSENT;
}

const char *lml_json_kind_words(lml_json_kind kind)
{
    static const char *const words[] = {
#define X(id, text) text,
        LML_JSON_KIND_MAP(X)
#undef X
    };
    return words[kind];
}

lml_span lml_json_text(const lml_json *node)
{
    return lml_span_of(lml_json_kind_of(node) == LML_JSON_TEXT ? node->item->valuestring : NULL);
}

lml_span lml_json_raw(const lml_json *node)
{
    if (!node)
        return (lml_span){0};
    return (lml_span){node->document->text + node->offset, node->length};
}

double lml_json_number(const lml_json *node)
{
    return node ? node->number : 0;
}

bool lml_json_yes(const lml_json *node)
{
    return lml_json_kind_of(node) == LML_JSON_YES_NO && cJSON_IsTrue(node->item);
}

size_t lml_json_count(const lml_json *node)
{
    return node ? node->count : 0;
}

const lml_json *lml_json_first(const lml_json *node)
{
    return lml_json_count(node) ? node + 1 : NULL;
}

const lml_json *lml_json_next(const lml_json *node)
{
    const lml_json *all = node->document->node;
    if (node == all || node->end >= all[node->parent].end)
        return NULL;
    return all + node->end;
}

const lml_json *lml_json_holder(const lml_json *node)
{
    const lml_json *all = node->document->node;
    return node == all ? NULL : all + node->parent;
}

static const lml_json *member_of_few(const lml_json *const *member, size_t count, const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (order_of(name, member[i]->item->string) == 0)
            return member[i];
    return NULL;
}

const lml_json *lml_json_member(const lml_json *record, const char *name)
{
    if (lml_json_kind_of(record) != LML_JSON_RECORD)
        return NULL;
    const lml_json *const *member = record->document->sorted + record->sorted;
    if (record->count <= UNSORTED_MOST)
        return member_of_few(member, record->count, name);
    size_t low = 0, high = record->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = order_of(name, member[middle]->item->string);
        if (order == 0)
            return member[middle];
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}

lml_span lml_json_name(const lml_json *node)
{
    return lml_span_of(node && node->name_offset ? node->item->string : NULL);
}

unsigned lml_json_line(const lml_json *node)
{
    return node->line;
}

/* ---- paths ---- */

const lml_json *lml_json_house(const lml_json *node)
{
    if (!node || node->document->house)
        return node ? node->document->house : NULL;
    const lml_json *root = lml_json_root(node->document), *house = lml_json_member(root, "house");
    return house ? house : root;
}

void lml_json_set_house(lml_json_document *doc, const lml_json *house)
{
    doc->house = house ? house : doc->house;
}

lml_span lml_json_currency(const lml_json *house)
{
    return lml_json_text(lml_json_member(house, "currency"));
}
