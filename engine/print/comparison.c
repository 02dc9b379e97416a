#include "print/comparison.h"
#include "base/letter.h"
#include "sheet/layout.h"
#include "terminal/call.h"
#include "value/arithmetic.h"
#include "value/compare.h"

#include <math.h>
#include <stdio.h>

enum { INDENT = 3, GAP = 2 };

/* ---- for people ---- */

bool lml_comparison_worked(lml_status status)
{
    return status == LML_OK || status == LML_STOPPED;
}

static const char *change_of(const lml_outcome *o)
{
    if (!lml_comparison_worked(o->status[LML_AFTER]))
        return lml_comparison_worked(o->status[LML_BEFORE]) ? "can no longer be run: "
                                                            : "cannot be run: ";
    if (!lml_comparison_worked(o->status[LML_BEFORE]))
        return "can be run now";
    if (o->status[LML_AFTER] != LML_STOPPED)
        return "no longer stops: ";
    return o->status[LML_BEFORE] == LML_STOPPED ? "stopped by other rules: " : "stops now: ";
}

/* The words that belong to it: what stops it now, or did. */
static const char *words_of(const lml_outcome *o)
{
    if (lml_comparison_worked(o->status[LML_AFTER]) &&
        !lml_comparison_worked(o->status[LML_BEFORE]))
        return "";
    return o->words[LML_AFTER][0] ? o->words[LML_AFTER] : o->words[LML_BEFORE];
}

static void put_title(lml_layout *layout, const char *title)
{
    lml_layout_gap(layout);
    lml_layout_row(layout, &(lml_cell){lml_span_of(title), 0, layout->width, true}, 1);
}

static void put_outcomes(lml_layout *layout, const lml_comparison *c)
{
    if (c->outcomes == 0)
        return;
    put_title(layout, "jobs that stop or fail differently");
    for (size_t i = 0; i < c->outcomes; i++) {
        const lml_outcome *o = &c->outcome[i];
        lml_builder line = lml_layout_scratch(layout);
        lml_builder_add_format(&line, "%s %s%s", o->job, change_of(o), words_of(o));
        lml_layout_text(layout, INDENT, lml_builder_span(&line));
        lml_layout_scrap(layout, &line);
    }
}

static void append_percent(lml_builder *out, double relative)
{
    if (isfinite(relative))
        lml_builder_add_format(out, "%s%.3g %%", relative > 0 ? "+" : "", relative * 100);
    else
        lml_builder_add_text(out, "from zero");
}

/* A row of a table: what it is of, before, after, difference, size. */
enum { COLUMNS = 5, CELL_MOST = 400 };
typedef struct row {
    char cell[COLUMNS][CELL_MOST];
} row;

static size_t columns_of(const char *text)
{
    return lml_letter_columns_of(lml_span_of(text));
}

static void widen(size_t width[COLUMNS], const row *r)
{
    for (int i = 0; i < COLUMNS; i++)
        if (columns_of(r->cell[i]) > width[i])
            width[i] = columns_of(r->cell[i]);
}

/* The first column to the left, the others to the right; over two lines when it does not fit. */
static void put_row(lml_layout *layout, const size_t width[COLUMNS], const row *r)
{
    size_t whole = INDENT;
    for (int i = 0; i < COLUMNS; i++)
        whole += width[i] + (i > 0 ? GAP : 0);
    bool two = whole > layout->width;
    lml_builder_add_repeat(layout->out, ' ', INDENT);
    lml_layout_put(layout->out, lml_span_of(r->cell[0]));
    if (two) {
        lml_builder_add_char(layout->out, '\n');
        lml_builder_add_repeat(layout->out, ' ', 2 * INDENT);
    } else {
        lml_builder_add_repeat(layout->out, ' ', width[0] - columns_of(r->cell[0]));
    }
    lml_builder line = lml_layout_scratch(layout);
    for (int i = 1; i < COLUMNS; i++) {
        lml_builder_add_repeat(&line, ' ',
                               (two && i == 1 ? 0 : GAP) + width[i] - columns_of(r->cell[i]));
        lml_builder_add_text(&line, r->cell[i]);
    }
    while (line.length > 0 && line.at[line.length - 1] == ' ')
        line.length--;
    lml_layout_put(layout->out, (lml_span){line.at, line.length});
    lml_builder_add_char(layout->out, '\n');
    lml_layout_scrap(layout, &line);
}

/* At most one column's worth of a text, cut at a whole character. */
static void fill(char cell[CELL_MOST], size_t columns, const char *text)
{
    lml_span rest = lml_span_of(text);
    lml_span line = lml_layout_take_line(&rest, columns);
    snprintf(cell, CELL_MOST, "%.*s%s", (int)line.length, line.at, rest.length > 0 ? " ..." : "");
}

static row row_of(const lml_movement *m)
{
    row r = {.cell = {""}};
    snprintf(r.cell[0], CELL_MOST, "%.190s: %.190s", m->job, m->name);
    fill(r.cell[1], 24, m->before[0] ? m->before : "none");
    fill(r.cell[2], 24, m->after[0] ? m->after : "none");
    snprintf(r.cell[3], CELL_MOST, "%s%.*s", m->relative > 0 ? "+" : "", 60, m->difference);
    if (m->measured) {
        lml_alloc heap = lml_alloc_heap();
        lml_builder percent = lml_builder_on(&heap, 0);
        append_percent(&percent, m->relative);
        snprintf(r.cell[4], CELL_MOST, "%s", percent.at ? percent.at : "");
        lml_builder_free(&percent);
    }
    return r;
}

static void put_movements(lml_layout *layout, const lml_comparison *c)
{
    size_t width[COLUMNS] = {0};
    for (size_t i = 0; i < c->moved.count; i++) {
        row r = row_of(&c->moved.movement[i]);
        if (!c->moved.movement[i].within)
            widen(width, &r);
    }
    if (c->moved.beyond == 0)
        return;
    put_title(layout, "figures that moved: before, after, difference");
    for (size_t i = 0; i < c->moved.count; i++) {
        row r = row_of(&c->moved.movement[i]);
        if (!c->moved.movement[i].within)
            put_row(layout, width, &r);
    }
}

static void show(char cell[CELL_MOST], const char *sign, const lml_value *v)
{
    char text[LML_VALUE_TEXT];
    lml_moved_show(v, text);
    snprintf(cell, CELL_MOST, "%s%s", sign, text);
}

/* False for what cannot be added up or has not moved. */
static bool total_row(const lml_total *t, row *r)
{
    lml_value difference;
    int order;
    if (!t->sums || t->moved == 0 ||
        lml_arithmetic_sub(&t->after, &t->before, &difference, NULL) != LML_OK ||
        lml_compare(&t->after, &t->before, &order, NULL) != LML_OK)
        return false;
    *r = (row){.cell = {""}};
    snprintf(r->cell[0], CELL_MOST, "%.300s in %zu of %zu jobs", t->name, t->moved, t->jobs);
    show(r->cell[1], "", &t->before);
    show(r->cell[2], "", &t->after);
    show(r->cell[3], order > 0 ? "+" : "", &difference);
    return true;
}

static void put_totals(lml_layout *layout, const lml_comparison *c)
{
    size_t width[COLUMNS] = {0};
    bool any = false;
    row r;
    for (size_t i = 0; i < c->moved.totals; i++)
        if (total_row(&c->moved.total[i], &r)) {
            widen(width, &r);
            any = true;
        }
    if (!any)
        return;
    put_title(layout, "totals over all jobs: before, after, difference");
    for (size_t i = 0; i < c->moved.totals; i++)
        if (total_row(&c->moved.total[i], &r))
            put_row(layout, width, &r);
}

lml_status lml_comparison_print(const lml_comparison *c, lml_error *err)
{
    lml_builder *out = &c->call->out;
    lml_layout layout = {.out = out, .width = c->call->width, .bold = c->call->bold};
    lml_builder line = lml_layout_scratch(&layout);
    lml_builder_add_format(&line, "%s: before as %s, after as %s", c->recipe, c->shown[LML_BEFORE],
                           c->shown[LML_AFTER]);
    lml_layout_text(&layout, 0, lml_builder_span(&line));
    lml_layout_scrap(&layout, &line);
    put_outcomes(&layout, c);
    put_movements(&layout, c);
    put_totals(&layout, c);
    lml_layout_gap(&layout);
    lml_builder_add_format(out, "%zu jobs, %zu figures: %zu moved", c->done, c->moved.figures,
                           c->moved.count);
    if (c->moved.within.given)
        lml_builder_add_format(out, ", %zu by more than allowed", c->moved.beyond);
    lml_builder_add_format(out, "; %zu jobs end differently, %zu could not be run\n", c->outcomes,
                           c->failed);
    return lml_builder_status(out, err);
}

/* ---- for programs ---- */

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_name(w, lml_span_of(text));
}

static void put_outcome(lml_json_writer *w, const lml_outcome *o)
{
    static const char *const sides[] = {"before", "after"};
    lml_json_write_open_record(w);
    lml_json_write_member(w, "job", o->job);
    for (int i = 0; i < 2; i++) {
        name(w, sides[i]);
        lml_json_write_open_record(w);
        lml_json_write_member(w, "status", lml_status_name(o->status[i]));
        if (o->words[i][0])
            lml_json_write_member(w, lml_comparison_worked(o->status[i]) ? "stops" : "message",
                                  o->words[i]);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static void put_total(lml_json_writer *w, const lml_total *t)
{
    row r;
    if (!total_row(t, &r))
        return;
    lml_json_write_open_record(w);
    lml_json_write_member(w, "name", t->name);
    name(w, "jobs");
    lml_json_write_whole(w, (int64_t)t->jobs);
    name(w, "moved");
    lml_json_write_whole(w, (int64_t)t->moved);
    lml_json_write_member(w, "before", r.cell[1]);
    lml_json_write_member(w, "after", r.cell[2]);
    lml_json_write_member(w, "difference", r.cell[3]);
    lml_json_write_close(w);
}

lml_status lml_comparison_print_json(const lml_comparison *c, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(&c->call->out, true);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "recipe", c->recipe);
    lml_json_write_member(&w, "before", c->shown[LML_BEFORE]);
    lml_json_write_member(&w, "after", c->shown[LML_AFTER]);
    const struct {
        const char *name;
        size_t count;
    } counts[] = {{"jobs", c->done},
                  {"figures", c->moved.figures},
                  {"moved", c->moved.count},
                  {"beyond", c->moved.beyond},
                  {"failed", c->failed}};
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        name(&w, counts[i].name);
        lml_json_write_whole(&w, (int64_t)counts[i].count);
    }
    name(&w, "outcomes");
    lml_json_write_open_list(&w);
    for (size_t i = 0; i < c->outcomes; i++)
        put_outcome(&w, &c->outcome[i]);
    lml_json_write_close(&w);
    name(&w, "differences");
    lml_json_write_open_list(&w);
    for (size_t i = 0; i < c->moved.count; i++)
        lml_moved_put(&w, &c->moved.movement[i]);
    lml_json_write_close(&w);
    name(&w, "totals");
    lml_json_write_open_list(&w);
    for (size_t i = 0; i < c->moved.totals; i++)
        put_total(&w, &c->moved.total[i]);
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    return lml_call_end_json(&w, err);
}
