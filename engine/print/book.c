#include "print/book.h"
#include "base/letter.h"
#include "read/read.h"
#include "value/metal.h"
#include "value/show.h"
#include "value/step.h"
#include "value/write.h"

#include <string.h>

/* Columns from the right edge: when, mass, fineness, fine. */
enum { INDENT = 3, GAP = 2, DATE = 10, MASS = 10, FINENESS = 8, FINE = 11, NAME_LEAST = 20 };
enum { DAY_TEXT = sizeof "2026-11-24" - 1, AFTER_NAME = GAP + DATE + MASS + FINENESS + 4 + FINE };

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static bool same(const lml_json *a, const lml_json *b, const char *name)
{
    return lml_span_equal(text_of(a, name), text_of(b, name));
}

/* ---- figures ---- */

/* "60.560 g" of "60.5604 g Ag". */
static lml_span show_grams(lml_span written, lml_wanted wanted, char out[LML_VALUE_TEXT])
{
    lml_value v, step, rounded;
    if (lml_read_value(written, wanted, LML_NO_METAL, &v, NULL) != LML_OK ||
        lml_read_value(lml_span_of("0.001 g"), LML_WANT_MASS, LML_NO_METAL, &step, NULL) !=
            LML_OK ||
        lml_step_round(&v, &step, LML_TO_NEAREST, &rounded, NULL) != LML_OK)
        return written;
    lml_span shown = {out, lml_show_shown(&rounded, out)};
    const char *unit = strstr(out, " g");
    if (unit)
        shown.length = (size_t)(unit - out) + 2;
    return shown;
}

static bool is_none(lml_span written)
{
    lml_value v;
    return lml_read_value(written, LML_WANT_FINE_MASS, LML_NO_METAL, &v, NULL) != LML_OK ||
           v.amount == 0;
}

/* "926 ‰" of "926 ‰ Ag ± 3 ‰ Ag". */
static lml_span show_fineness(lml_span written)
{
    static const char sign[] = "‰";
    const char *at = strstr(written.at, sign);
    if (at && at < written.at + written.length)
        written.length = (size_t)(at - written.at) + sizeof sign - 1;
    return written;
}

static lml_cell to_the_right(lml_span text, size_t end)
{
    size_t columns = lml_letter_columns_of(text);
    return (lml_cell){text, end > columns ? end - columns : 0, columns, false};
}

/* ---- rows ---- */

typedef struct row {
    lml_span what, at, mass, fineness, fine;
    bool bold;
} row;

static void put_row(lml_layout *layout, const row *r)
{
    lml_cell cells[5];
    size_t count = 0, right = layout->width;
    size_t name =
        right > INDENT + AFTER_NAME + NAME_LEAST ? right - AFTER_NAME - INDENT : NAME_LEAST;
    size_t at = INDENT + name + GAP, mass = at + DATE + MASS, fineness = mass + GAP + FINENESS;
    cells[count++] = (lml_cell){r->what, INDENT, r->at.length ? name : fineness - INDENT, r->bold};
    if (r->at.length)
        cells[count++] = (lml_cell){r->at, at, DATE, false};
    if (r->mass.length)
        cells[count++] = to_the_right(r->mass, mass);
    if (r->fineness.length)
        cells[count++] = to_the_right(r->fineness, fineness);
    cells[count] = to_the_right(r->fine, fineness + FINE);
    cells[count++].bold = r->bold;
    lml_layout_row(layout, cells, count);
}

static lml_span day_of(lml_span at)
{
    at.length = at.length < DAY_TEXT ? at.length : DAY_TEXT;
    return at;
}

static void put_sum(lml_layout *layout, const char *words, lml_span fine, bool bold)
{
    char shown[LML_VALUE_TEXT];
    row r = {.what = lml_span_of(words),
             .fine = show_grams(fine, LML_WANT_FINE_MASS, shown),
             .bold = bold};
    if (bold || !is_none(fine))
        put_row(layout, &r);
}

/* ---- an account ---- */

/* The account of a client without a name says in its title which job it is of. */
static bool is_of_one_job(const lml_json *account)
{
    return lml_span_starts(text_of(account, "owner"), "client of ");
}

/* Lots are in the order of their accounts: *lot moves behind those of this one. */
static void pass_lots(const lml_json **lot, const lml_json *account)
{
    while (*lot && same(*lot, account, "owner") && same(*lot, account, "metal"))
        *lot = lml_json_next(*lot);
}

static void put_lots(lml_layout *layout, const lml_json *first, const lml_json *end,
                     const lml_json *account)
{
    char mass[LML_VALUE_TEXT], fine[LML_VALUE_TEXT];
    const lml_json *before = NULL;
    bool own = is_of_one_job(account);
    for (const lml_json *l = first; l != end; l = lml_json_next(l)) {
        if (!own && (!before || !same(l, before, "job")))
            lml_layout_row(layout, &(lml_cell){text_of(l, "job"), INDENT - 1, layout->width, false},
                           1);
        before = l;
        row r = {.what = text_of(l, "what"),
                 .at = day_of(text_of(l, "at")),
                 .mass = show_grams(text_of(l, "mass"), LML_WANT_MASS, mass),
                 .fineness = show_fineness(text_of(l, "fineness")),
                 .fine = show_grams(text_of(l, "fine"), LML_WANT_FINE_MASS, fine)};
        put_row(layout, &r);
    }
}

static void put_not_weighed(lml_layout *layout, const lml_json *account)
{
    const lml_json *list = lml_json_member(account, "not_weighed_in");
    bool own = is_of_one_job(account);
    for (const lml_json *n = lml_json_first(list); n; n = lml_json_next(n)) {
        lml_builder words = lml_layout_scratch(layout);
        lml_builder_add_text(&words, "not weighed since ");
        lml_builder_add_span(&words, text_of(n, "at"));
        lml_builder_add_text(&words, " (");
        lml_builder_add_span(&words, text_of(n, "last"));
        lml_builder_add_text(&words, own ? ")" : "), ");
        lml_builder_add_span(&words, own ? lml_span_of(NULL) : text_of(n, "job"));
        put_sum(layout, words.at ? words.at : "", text_of(n, "fine"), false);
        lml_layout_scrap(layout, &words);
    }
}

static void put_account(lml_layout *layout, const lml_json *first, const lml_json *end,
                        const lml_json *account)
{
    lml_builder title = lml_layout_scratch(layout);
    lml_metal metal = lml_metal_by_symbol(text_of(account, "metal"));
    lml_builder_add_span(&title, text_of(account, "owner"));
    lml_builder_add_text(&title, ": ");
    lml_builder_add_text(&title, lml_metal_name(metal));
    lml_layout_gap(layout);
    lml_layout_row(
        layout, &(lml_cell){{title.at ? title.at : "", title.length}, 0, layout->width, true}, 1);
    lml_layout_scrap(layout, &title);
    put_lots(layout, first, end, account);
    put_sum(layout, "at the refiner's", text_of(account, "sent"), false);
    if (!is_none(text_of(account, "held")))
        put_sum(layout, "Fine metal held", text_of(account, "held"), true);
    put_not_weighed(layout, account);
}

static bool holds_nothing(const lml_json *account)
{
    return is_none(text_of(account, "held")) && is_none(text_of(account, "balance"));
}

/* ---- all of it ---- */

static void put_parcels(lml_layout *layout, const lml_json *book)
{
    const lml_json *list = lml_json_member(book, "parcels");
    if (lml_json_count(list) == 0)
        return;
    lml_layout_gap(layout);
    lml_layout_row(layout, &(lml_cell){lml_span_of("Refiner's parcels"), 0, layout->width, true},
                   1);
    for (const lml_json *p = lml_json_first(list); p; p = lml_json_next(p)) {
        lml_builder words = lml_layout_scratch(layout);
        lml_builder_add_span(&words, text_of(p, "name"));
        lml_builder_add_text(&words, ", sent ");
        lml_builder_add_span(&words, text_of(p, "sent"));
        if (lml_json_member(p, "settled")) {
            lml_builder_add_text(&words, ", settled ");
            lml_builder_add_span(&words, text_of(p, "settled"));
            lml_builder_add_text(&words, ", found ");
            lml_builder_add_span(&words, text_of(p, "found"));
        }
        put_sum(layout, words.at ? words.at : "", text_of(p, "fine"), false);
        lml_layout_scrap(layout, &words);
    }
}

void lml_book_print(const lml_json *book, lml_layout *layout)
{
    size_t empty = 0;
    lml_span at = text_of(book, "at");
    lml_builder title = lml_layout_scratch(layout);
    lml_builder_add_text(&title, "The metal in the safe");
    if (at.length) {
        lml_builder_add_text(&title, ", ");
        lml_builder_add_span(&title, at);
    }
    lml_layout_row(
        layout, &(lml_cell){{title.at ? title.at : "", title.length}, 0, layout->width, true}, 1);
    lml_layout_scrap(layout, &title);
    const lml_json *a = lml_json_first(lml_json_member(book, "accounts")),
                   *lot = lml_json_first(lml_json_member(book, "lots"));
    for (; a; a = lml_json_next(a)) {
        const lml_json *first = lot;
        pass_lots(&lot, a);
        if (holds_nothing(a))
            empty++;
        else
            put_account(layout, first, lot, a);
    }
    put_parcels(layout, book);
    lml_layout_gap(layout);
    double jobs = lml_json_number(lml_json_member(book, "jobs"));
    lml_builder_add_format(layout->out, "%g %s, %g weighings", jobs, jobs == 1 ? "job" : "jobs",
                           lml_json_number(lml_json_member(book, "weighings")));
    if (empty)
        lml_builder_add_format(layout->out, "; %zu %s nothing", empty,
                               empty == 1 ? "account holds" : "accounts hold");
    lml_builder_add_char(layout->out, '\n');
}
