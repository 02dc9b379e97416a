#include "file/merge.h"

/* A pairing of the base with one of the others. */
typedef struct pairs {
    size_t *to, size;
} pairs;

static lml_status pair(const lml_alloc *alloc, const lml_lines *base, const lml_lines *other,
                       pairs *out, lml_error *err)
{
    out->size = (base->count + 1) * sizeof *out->to;
    out->to = lml_alloc_get(alloc, out->size);
    if (!out->to)
        return lml_fail(err, LML_NO_MEMORY, "out of memory while comparing two texts");
    return lml_lines_pair(alloc, base, other, out->to, err);
}

static bool same(const lml_lines *a, size_t from, size_t end, const lml_lines *b, size_t b_from,
                 size_t b_end)
{
    if (end - from != b_end - b_from)
        return false;
    for (size_t i = from; i < end; i++)
        if (!lml_span_equal(a->line[i], b->line[b_from + i - from]))
            return false;
    return true;
}

static void put(lml_builder *to, const lml_lines *lines, size_t from, size_t end)
{
    for (size_t i = from; i < end; i++)
        lml_builder_add_span(to, lines->line[i]);
}

/* Lines between two that all three have. */
static void settle(lml_merge *m, const lml_merge_clash *c)
{
    if (same(&m->base, c->base, c->base_end, &m->theirs, c->theirs, c->theirs_end) ||
        same(&m->ours, c->ours, c->ours_end, &m->theirs, c->theirs, c->theirs_end)) {
        put(&m->text, &m->ours, c->ours, c->ours_end);
    } else if (same(&m->base, c->base, c->base_end, &m->ours, c->ours, c->ours_end)) {
        put(&m->text, &m->theirs, c->theirs, c->theirs_end);
    } else {
        if (m->clashes < LML_MERGE_CLASHES)
            m->clash[m->clashes] = *c;
        m->clashes++;
    }
}

static void walk(lml_merge *m, const size_t *to_ours, const size_t *to_theirs)
{
    lml_merge_clash c = {0};
    for (size_t i = 0; i <= m->base.count; i++) {
        bool end = i == m->base.count;
        if (!end && (to_ours[i] == LML_LINES_ALONE || to_theirs[i] == LML_LINES_ALONE))
            continue;
        c.base_end = i;
        c.ours_end = end ? m->ours.count : to_ours[i];
        c.theirs_end = end ? m->theirs.count : to_theirs[i];
        settle(m, &c);
        if (!end)
            put(&m->text, &m->base, i, i + 1);
        c = (lml_merge_clash){.base = i + 1, .ours = c.ours_end + 1, .theirs = c.theirs_end + 1};
    }
}

lml_status lml_merge_texts(const lml_alloc *alloc, lml_span base, lml_span ours, lml_span theirs,
                           lml_merge *out, lml_error *err)
{
    *out = (lml_merge){.base.alloc = alloc,
                       .ours.alloc = alloc,
                       .theirs.alloc = alloc,
                       .text = lml_builder_on(alloc, 0)};
    pairs to_ours = {0}, to_theirs = {0};
    lml_status status = lml_lines_cut(alloc, base, &out->base, err);
    if (status == LML_OK)
        status = lml_lines_cut(alloc, ours, &out->ours, err);
    if (status == LML_OK)
        status = lml_lines_cut(alloc, theirs, &out->theirs, err);
    if (status == LML_OK)
        status = pair(alloc, &out->base, &out->ours, &to_ours, err);
    if (status == LML_OK)
        status = pair(alloc, &out->base, &out->theirs, &to_theirs, err);
    if (status == LML_OK) {
        walk(out, to_ours.to, to_theirs.to);
        status = lml_builder_status(&out->text, err);
    }
    if (to_ours.to)
        lml_alloc_free(alloc, to_ours.to, to_ours.size);
    if (to_theirs.to)
        lml_alloc_free(alloc, to_theirs.to, to_theirs.size);
    return status;
}

void lml_merge_free(lml_merge *merge)
{
    lml_lines_free(&merge->base);
    lml_lines_free(&merge->ours);
    lml_lines_free(&merge->theirs);
    lml_builder_free(&merge->text);
}

static void show(lml_builder *out, char mark, const lml_lines *lines, size_t from, size_t end)
{
    for (size_t i = from; i < end; i++) {
        lml_builder_add_format(out, "   %c ", mark);
        lml_builder_add_span(out, lml_lines_shown(lines, i));
        lml_builder_add_char(out, '\n');
    }
}

void lml_merge_show(const lml_merge *merge, const char *file, lml_builder *out)
{
    for (size_t i = 0; i < merge->clashes && i < LML_MERGE_CLASHES; i++) {
        const lml_merge_clash *c = &merge->clash[i];
        lml_builder_add_format(out, "%s:%zu: changed on both sides (= as it was, - here, + new)\n",
                               file, merge->above + c->ours + 1);
        show(out, '=', &merge->base, c->base, c->base_end);
        show(out, '-', &merge->ours, c->ours, c->ours_end);
        show(out, '+', &merge->theirs, c->theirs, c->theirs_end);
    }
    if (merge->clashes > LML_MERGE_CLASHES)
        lml_builder_add_format(out, "and %zu more places\n", merge->clashes - LML_MERGE_CLASHES);
}
