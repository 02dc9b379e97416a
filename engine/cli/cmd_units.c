#include "base/decimal.h"
#include "cli/ask.h"
#include "cli/cmd.h"
#include "sheet/layout.h"
#include "unit/currency.h"
#include "unit/unit.h"

#include <stdio.h>
#include <string.h>

enum { NAME = 2, WORDS = 13, EXACT = 45, SOURCES = 32 };

/* "a mass" is the group "mass". */
static lml_span group_of(const lml_unit_row *row, char *buffer, size_t size)
{
    switch (row->sort) {
    case LML_UNIT_RATIO:
        return lml_span_of("ratio");
    case LML_UNIT_KARAT:
        return lml_span_of("fineness");
    case LML_UNIT_POINT:
        return lml_span_of("temperature");
    case LML_UNIT_CURRENCY:
        return lml_span_of("money");
    case LML_UNIT_PLAIN:
        break;
    }
    lml_span name = lml_span_of(lml_dimension_name(row->dimension, buffer, size));
    for (size_t article = 2; article <= 3; article++)
        if (lml_span_starts(name, article == 2 ? "a " : "an "))
            return (lml_span){name.at + article, name.length - article};
    return name;
}

/* Sources repeat: each is printed once, at the end, under its number. */
typedef struct sources {
    const char *text[SOURCES];
    size_t count;
} sources;

static size_t number_of(sources *s, const char *source)
{
    for (size_t i = 0; i < s->count; i++)
        if (strcmp(s->text[i], source) == 0)
            return i + 1;
    if (s->count == SOURCES)
        return 0;
    s->text[s->count++] = source;
    return s->count;
}

static void put_row(lml_layout *layout, sources *s, const lml_unit_row *row)
{
    lml_builder exact = lml_layout_scratch(layout);
    lml_builder_add_format(&exact, "%s [%zu]", row->exact, number_of(s, row->source));
    lml_builder words = lml_layout_scratch(layout);
    lml_builder_add_text(&words, row->words);
    if (row->spellings[0])
        lml_builder_add_format(&words, " (also %s)", row->spellings);
    if (exact.at && words.at) {
        lml_cell cells[] = {{lml_span_of(row->name), NAME, WORDS - NAME, true},
                            {{words.at, words.length}, WORDS, EXACT - WORDS - 2, false},
                            {{exact.at, exact.length}, EXACT, layout->width - EXACT, false}};
        if (layout->width < EXACT + 20) {
            cells[1].width = layout->width - WORDS;
            lml_layout_row(layout, cells, 2);
            lml_layout_text(layout, WORDS, cells[2].text);
        } else {
            lml_layout_row(layout, cells, 3);
        }
    }
    lml_layout_scrap(layout, &words);
    lml_layout_scrap(layout, &exact);
}

static void put_table(lml_call *call)
{
    lml_layout layout = {.out = &call->out, .width = call->width, .bold = call->bold};
    sources s = {.count = 0};
    char last[80] = "", buffer[80];
    for (size_t i = 1; i < lml_unit_count(); i++) { /* 0 is the plain number */
        const lml_unit_row *row = lml_unit_at(i);
        lml_span group = group_of(row, buffer, sizeof buffer);
        if (!lml_span_is(group, last)) {
            lml_layout_gap(&layout);
            lml_layout_row(&layout, &(lml_cell){group, 0, layout.width, true}, 1);
            memcpy(last, group.at, group.length);
            last[group.length] = '\0';
        }
        put_row(&layout, &s, row);
    }
    lml_layout_gap(&layout);
    lml_layout_text(&layout, 0,
                    lml_span_of("Money: any currency by its ISO 4217 code, such as USD. Units are "
                                "joined by * or ·, with at most one /: g/cm3, CAD/ozt, J/(g·K). A "
                                "pressure may end in abs or vac."));
    lml_layout_gap(&layout);
    for (size_t i = 0; i < s.count; i++) {
        char number[24];
        snprintf(number, sizeof number, "[%zu]", i + 1);
        lml_cell cells[] = {{lml_span_of(number), 0, 4, false},
                            {lml_span_of(s.text[i]), 5, layout.width - 5, false}};
        lml_layout_row(&layout, cells, 2);
    }
}

static void put_json_row(lml_json_writer *w, const lml_unit_row *row)
{
    char buffer[80];
    lml_json_write_open_record(w);
    lml_json_write_member(w, "name", row->name);
    lml_json_write_member(w, "words", row->words);
    lml_json_write_member(w, "also", row->spellings);
    lml_json_write_name(w, lml_span_of("kind"));
    lml_json_write_text(w, group_of(row, buffer, sizeof buffer));
    lml_json_write_member(w, "exact", row->exact);
    lml_json_write_member(w, "source", row->source);
    lml_json_write_close(w);
}

/* Rows of the table that a unit is made of. */
static size_t rows_of(lml_unit unit, const lml_unit_row *rows[LML_UNIT_FACTORS])
{
    size_t count = 0;
    while (count < LML_UNIT_FACTORS && unit.id[count] != 0) {
        rows[count] = lml_unit_at(unit.id[count]);
        count++;
    }
    return count;
}

/* What a unit is, its size, and the units it is made of. */
static lml_status put_one(lml_call *call, const char *name, lml_error *err)
{
    lml_unit unit;
    lml_dimension dimension;
    lml_rational factor;
    char what[80], number[LML_NUMBER_TEXT], text[LML_UNIT_TEXT];
    lml_status status = lml_unit_read(lml_span_of(name), &unit, &dimension, err);
    if (status == LML_OK)
        status = lml_unit_factor(unit, &factor, err);
    if (status != LML_OK)
        return status;
    const lml_unit_row *rows[LML_UNIT_FACTORS];
    size_t count = rows_of(unit, rows);
    lml_layout layout = {.out = &call->out, .width = call->width, .bold = call->bold};
    lml_unit_write(unit, dimension.currency, text);
    lml_builder_add_format(&call->out, "%s: ", text);
    if (count == 1 && unit.power[0] == 1)
        lml_builder_add_text(&call->out, rows[0]->words);
    else
        lml_builder_add_text(&call->out, lml_dimension_name(dimension, what, sizeof what));
    lml_builder_add_char(&call->out, '\n');
    if (count == 1 && rows[0]->sort == LML_UNIT_CURRENCY)
        return LML_OK;
    if (count > 1 || unit.power[0] != 1) {
        lml_decimal_write_double(lml_decimal_scale_double(1.0, factor), number);
        lml_builder_add_format(&call->out, "  one is %s in SI base units (kg, m, s, K, A)\n",
                               number);
    }
    for (size_t i = 0; i < count; i++) {
        if (rows[i]->sort == LML_UNIT_CURRENCY)
            continue;
        lml_builder_add_format(&call->out, "  %s: %s\n", rows[i]->name, rows[i]->exact);
        if (rows[i]->spellings[0])
            lml_builder_add_format(&call->out, "    also read as: %s\n", rows[i]->spellings);
        lml_layout_text(&layout, 4, lml_span_of(rows[i]->source));
    }
    return LML_OK;
}

static lml_status put_json(lml_call *call, const char *name, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(&call->out, true);
    lml_unit unit;
    lml_dimension dimension;
    const lml_unit_row *rows[LML_UNIT_FACTORS];
    lml_json_write_open_list(&w);
    if (name) {
        lml_status status = lml_unit_read(lml_span_of(name), &unit, &dimension, err);
        if (status != LML_OK) {
            call->out.length = 0;
            return status;
        }
        size_t count = rows_of(unit, rows);
        for (size_t i = 0; i < count; i++)
            put_json_row(&w, rows[i]);
    } else {
        for (size_t i = 1; i < lml_unit_count(); i++)
            put_json_row(&w, lml_unit_at(i));
    }
    lml_json_write_close(&w);
    return lml_call_end_json(&w, err);
}

lml_status lml_cmd_units(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    if (a->words > 1)
        return lml_fail(err, LML_USAGE,
                        "lemel units takes one unit, but \"%s\" follows it: ask for each by itself",
                        a->word[1]);
    const char *name = a->words == 1 ? a->word[0] : NULL;
    if (lml_call_wants_json(call))
        return put_json(call, name, err);
    if (name)
        return put_one(call, name, err);
    put_table(call);
    return LML_OK;
}
