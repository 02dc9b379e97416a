#include "cli/script_reach.h"

#include <string.h>

lml_script_reach lml_script_reach_on(const lml_alloc *alloc)
{
    return (lml_script_reach){.alloc = alloc};
}

void lml_script_reach_free(lml_script_reach *reach)
{
    for (size_t i = 0; i < reach->count; i++) {
        lml_script_lines *s = &reach->scripts[i];
        if (s->file)
            lml_alloc_free(reach->alloc, s->file, strlen(s->file) + 1);
        if (s->missed)
            lml_alloc_free(reach->alloc, s->missed, s->room);
    }
    if (reach->scripts)
        lml_alloc_free(reach->alloc, reach->scripts, reach->room * sizeof *reach->scripts);
    *reach = lml_script_reach_on(reach->alloc);
}

/* ---- adding ---- */

static size_t last_of(const lml_json *missed)
{
    double last = 0;
    for (const lml_json *l = lml_json_first(missed); l; l = lml_json_next(l))
        last = lml_json_number(l);
    return last > 0 && last < 1e6 ? (size_t)last : 0;
}

static lml_script_lines *find(const lml_script_reach *reach, lml_span file)
{
    for (size_t i = 0; i < reach->count; i++)
        if (lml_span_is(file, reach->scripts[i].file))
            return &reach->scripts[i];
    return NULL;
}

/* The first report on a script: what it misses. */
static lml_status begin(lml_script_reach *reach, const lml_kit *kit, const lml_json *script,
                        lml_error *err)
{
    if (reach->count == reach->room) {
        size_t room = reach->room ? 2 * reach->room : 16;
        lml_script_lines *moved = lml_alloc_resize(
            reach->alloc, reach->scripts, reach->room * sizeof *moved, room * sizeof *moved);
        if (!moved)
            return lml_fail(err, LML_NO_MEMORY, "out of memory for the lines of scripts");
        reach->scripts = moved;
        reach->room = room;
    }
    const lml_json *missed = lml_json_member(script, "missed");
    const lml_kit_text *text =
        lml_kit_find(kit, LML_PUT_SCRIPT, lml_json_text(lml_json_member(script, "script")));
    lml_script_lines *s = &reach->scripts[reach->count++];
    *s = (lml_script_lines){
        .file = lml_span_copy(reach->alloc, lml_json_text(lml_json_member(script, "file"))),
        .own = text && !text->ours,
        .lines = (size_t)lml_json_number(lml_json_member(script, "lines")),
        .room = last_of(missed) + 1};
    s->missed = lml_alloc_get(reach->alloc, s->room);
    if (!s->file || !s->missed)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the lines of scripts");
    memset(s->missed, 0, s->room);
    for (const lml_json *l = lml_json_first(missed); l; l = lml_json_next(l))
        s->missed[(size_t)lml_json_number(l)] = true;
    return LML_OK;
}

/* A line is missed that all miss. */
static void keep_missed(lml_script_lines *s, const lml_json *missed)
{
    const lml_json *l = lml_json_first(missed);
    for (size_t n = 1; n < s->room; n++) {
        while (l && lml_json_number(l) < (double)n)
            l = lml_json_next(l);
        s->missed[n] = s->missed[n] && l && lml_json_number(l) == (double)n;
    }
}

lml_status lml_script_reach_add(lml_script_reach *reach, const lml_kit *kit, const lml_json *report,
                                lml_error *err)
{
    const lml_json *scripts = lml_json_member(lml_json_member(report, "reach"), "scripts");
    lml_status status = LML_OK;
    for (const lml_json *s = lml_json_first(scripts); s && !status; s = lml_json_next(s)) {
        lml_script_lines *known = find(reach, lml_json_text(lml_json_member(s, "file")));
        if (known)
            keep_missed(known, lml_json_member(s, "missed"));
        else
            status = begin(reach, kit, s, err);
    }
    return status;
}

/* ---- printing ---- */

void lml_script_reach_put_lines(lml_builder *out, const lml_json *lines)
{
    const char *between = "";
    for (const lml_json *l = lml_json_first(lines); l; between = ", ") {
        double first = lml_json_number(l), last = first;
        for (l = lml_json_next(l); l && lml_json_number(l) == last + 1; l = lml_json_next(l))
            last++;
        lml_builder_add_format(out, last > first ? "%s%.0f-%.0f" : "%s%.0f", between, first, last);
    }
}

static void put_missed(lml_builder *out, const lml_script_lines *s)
{
    const char *between = "";
    for (size_t n = 1; n < s->room; n++) {
        if (!s->missed[n])
            continue;
        size_t first = n;
        while (n + 1 < s->room && s->missed[n + 1])
            n++;
        lml_builder_add_format(out, n > first ? "%s%zu-%zu" : "%s%zu", between, first, n);
        between = ", ";
    }
}

void lml_script_reach_put(const lml_script_reach *reach, bool own_alone, lml_layout *layout)
{
    for (size_t i = 0; i < reach->count; i++) {
        const lml_script_lines *s = &reach->scripts[i];
        size_t missed = 0;
        if (own_alone && !s->own)
            continue;
        for (size_t n = 1; n < s->room; n++)
            missed += s->missed[n];
        lml_builder line = lml_layout_scratch(layout);
        if (missed == 0) {
            lml_builder_add_format(&line, "%s: the proofs cover all of it", s->file);
        } else {
            lml_builder_add_format(&line, "%s: the proofs cover %zu of its %zu lines; not ",
                                   s->file, s->lines - missed, s->lines);
            put_missed(&line, s);
        }
        lml_layout_text(layout, 0, (lml_span){line.at, line.length});
        lml_layout_scrap(layout, &line);
    }
}
