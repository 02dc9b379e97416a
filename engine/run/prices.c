#include "run/prices.h"

#include "cell/class.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "read/read.h"
#include "run/engine.h"
#include "value/arithmetic.h"

#include <string.h>

enum {
    DAY = 86400,
    BYTES_A_STEP = 64, /* looked through */
    STEPS_A_PRICE = 5,
};

static bool read_moment(const lml_json *text, lml_value *out)
{
    return text &&
           lml_read_value(lml_json_text(text), LML_WANT_MOMENT, LML_NO_METAL, out, NULL) == LML_OK;
}

/* The date that a recipe works for; no moment when there is none. */
static lml_value date_of(lua_State *L, const lml_run *run, int arguments)
{
    lml_value date = {.kind = LML_NUMBER};
    if (arguments) {
        lml_view_get_member(L, arguments, "date");
        const lml_value *passed = lml_class_test(L, -1, LML_CLASS_VALUE);
        if (passed)
            date = *passed;
        else if (lua_type(L, -1) == LUA_TSTRING)
            lml_read_value(lml_span_of(lua_tostring(L, -1)), LML_WANT_MOMENT, LML_NO_METAL, &date,
                           NULL);
        lua_pop(L, 1);
    }
    if (date.kind != LML_MOMENT && !read_moment(lml_json_member(run->given, "date"), &date))
        read_moment(lml_json_member(run->closing ? run->closing : run->job, "date"), &date);
    if (date.mode == LML_DATE_ONLY) /* the whole day */
        date.exact += DAY - 1;
    return date;
}

static bool stood_by(const lml_json *entry, const lml_value *date, lml_value *at)
{
    return date->kind == LML_MOMENT && read_moment(lml_json_member(entry, "at"), at) &&
           at->exact <= date->exact;
}

/* The earlier price that was current at the date; NULL if the newest was, or none. Of two of one
 * moment the later entry corrects the other. */
static const lml_json *former(lua_State *L, const lml_json *metal, const lml_value *date)
{
    const lml_json *found = NULL, *past = lml_json_first(lml_json_member(metal, "history"));
    lml_value at, last;
    if (stood_by(metal, date, &at))
        return NULL;
    for (; past; past = lml_json_next(past)) {
        lml_box_charge(L, STEPS_A_PRICE);
        if (stood_by(past, date, &at) && (!found || at.exact >= last.exact)) {
            found = past;
            last = at;
        }
    }
    return found;
}

/* The same charges where what they are for was done for an earlier recipe: a run costs the same
 * whoever asks first. */
static void charge_former(lua_State *L, const lml_json *metal, const lml_value *date)
{
    lml_value at;
    if (!stood_by(metal, date, &at))
        lml_box_charge(L, STEPS_A_PRICE * lml_json_count(lml_json_member(metal, "history")));
}

static const lml_json *first_metal(const lml_json_document *list)
{
    return lml_json_first(lml_json_member(lml_json_root(list), "prices"));
}

/* So many ends of lines as stand there, and nothing else. */
static void add_lines(lml_builder *b, const char *from, const char *to)
{
    while (from < to && (from = memchr(from, '\n', (size_t)(to - from)))) {
        lml_builder_add_char(b, '\n');
        from++;
    }
}

/* The list's text with of each metal's history only the entry that is kept, or NULL. */
static void write_list(const lml_json_document *list, const lml_json *const *kept, lml_builder *b)
{
    const char *at = lml_json_source_text(list).at, *end = at + lml_json_source_text(list).length;
    for (const lml_json *m = first_metal(list); m; m = lml_json_next(m), kept++) {
        lml_span history = lml_json_raw(lml_json_member(m, "history")), raw = lml_json_raw(*kept);
        if (history.length == 0)
            continue;
        lml_builder_add(b, at, (size_t)(history.at + 1 - at));
        at = history.at + 1;
        if (*kept) {
            add_lines(b, at, raw.at);
            lml_builder_add_span(b, raw);
            at = raw.at + raw.length;
        }
        const char *last = history.at + history.length - 1;
        add_lines(b, at, last);
        at = last;
    }
    lml_builder_add(b, at, (size_t)(end - at));
}

/* Nothing in here raises: what it makes is the run's. */
static lml_status make(lml_run *run, const lml_json *const *kept, lml_error *err)
{
    const lml_json_document *list = run->engine->shelf.prices;
    lml_builder text = lml_builder_on(&run->engine->alloc, 0);
    lml_prices_free(run);
    write_list(list, kept, &text);
    lml_status status = lml_builder_status(&text, err);
    if (status == LML_OK)
        status = lml_json_read(&run->engine->alloc, (lml_span){text.at, text.length}, NULL,
                               lml_json_source(list), &run->day_prices, err);
    if (status == LML_OK)
        lml_json_remember(run->day_prices, run->engine->memo);
    lml_builder_free(&text);
    return status;
}

static bool has_history(const lml_json *prices)
{
    for (const lml_json *m = lml_json_first(prices); m; m = lml_json_next(m))
        if (lml_json_count(lml_json_member(m, "history")) > 0)
            return true;
    return false;
}

static bool is_made(const lml_run *run, const lml_value *date)
{
    return run->day_prices && run->day.kind == date->kind && run->day.exact == date->exact;
}

const lml_json *lml_prices_of_day(lua_State *L, lml_run *run, int arguments)
{
    const lml_json *prices = lml_shelf_prices(&run->engine->shelf);
    if (!has_history(prices))
        return prices;
    lml_error e;
    lml_value date = date_of(L, run, arguments);
    bool made = is_made(run, &date);
    const lml_json **kept = lua_newuserdatauv(L, lml_json_count(prices) * sizeof *kept, 0);
    size_t i = 0;
    lml_box_charge(L, lml_json_source_text(run->engine->shelf.prices).length / BYTES_A_STEP);
    for (const lml_json *m = lml_json_first(prices); m; m = lml_json_next(m))
        if (made)
            charge_former(L, m, &date);
        else
            kept[i++] = former(L, m, &date);
    if (!made) {
        if (make(run, kept, &e) != LML_OK)
            lml_raise_as_is(L, &e);
        run->day = date;
    }
    lua_pop(L, 1);
    return lml_json_member(lml_json_root(run->day_prices), "prices");
}

void lml_prices_free(lml_run *run)
{
    lml_json_free(run->day_prices);
    run->day_prices = NULL;
}
