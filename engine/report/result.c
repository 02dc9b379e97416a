#include "report/result.h"

#include "run/engine.h"
#include "run/gate.h"
#include "run/load.h"
#include "run/part.h"
#include "run/worked.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "report/marks.h"
#include "report/named.h"
#include "report/remarks.h"
#include "report/result_datum.h"
#include "report/result_sheet.h"
#include "report/result_withheld.h"
#include "report/why.h"

#include <stdio.h>
#include <string.h>

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_word(w, text);
}

/* ---- remarks -----------------------------------------------------------------------------------
 */

static void put_remark(lua_State *L, void *self, int part, bool withholds)
{
    (void)withholds;
    lml_json_writer *w = self;
    lml_json_write_open_record(w);
    lml_marks_enter(L, lua_gettop(L));
    lml_result_sheet_put_remark(L, w, part, lua_gettop(L));
    lml_json_write_close(w);
}

/* Level and code of one that stops, and in a try that is marked what it withholds. */
static void put_bare_remark(lua_State *L, void *self, int part, bool withholds)
{
    lml_json_writer *w = self;
    if (!withholds)
        return;
    lml_json_write_open_record(w);
    lml_result_datum_put_field(L, w, lua_gettop(L), "level");
    lml_result_datum_put_field(L, w, lua_gettop(L), "code");
    if (lml_run_of(L)->engine->marks_tries)
        lml_result_sheet_put_withholds(L, w, part, lua_gettop(L));
    lml_json_write_close(w);
}

/* ---- the whole ---------------------------------------------------------------------------------
 */

static void put_job(lml_json_writer *w, const lml_run *run)
{
    static const char *const fields[] = {"recipe", "title", "date", "client"};
    name(w, "job");
    lml_json_write_open_record(w);
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
        bool own =
            run->closing && strcmp(fields[i], "title") != 0 && strcmp(fields[i], "client") != 0;
        const lml_json *m = lml_json_member(own ? run->closing : run->job, fields[i]);
        if (own && !m && strcmp(fields[i], "recipe") == 0)
            lml_json_write_member(w, "recipe", run->working[0]);
        if (m) {
            name(w, fields[i]);
            lml_json_write_text(w, lml_json_text(m));
        }
    }
    lml_json_write_close(w);
}

/* Common practice, no source. */
static bool is_letter_country(lml_span place)
{
    static const char *const countries[] = {"US", "CA", "MX"};
    for (size_t i = 0; i < sizeof countries / sizeof *countries; i++)
        if (lml_span_starts(place, countries[i]) && (place.length == 2 || place.at[2] == '-'))
            return true;
    return false;
}

/* What the sheets need to know of the studio. */
static void put_house(lml_json_writer *w, const lml_run *run)
{
    const lml_json *house = lml_shelf_house(&run->engine->shelf);
    if (!house)
        return;
    lml_span called = lml_json_text(lml_json_member(house, "name"));
    lml_span paper = lml_json_text(lml_json_member(house, "paper"));
    lml_span days = lml_json_text(lml_json_member(house, "days"));
    lml_span place = lml_json_text(lml_json_member(house, "place"));
    lml_span gauge = lml_json_text(lml_json_member(house, "vacuum_gauge"));
    if (paper.length == 0)
        paper = lml_span_of(is_letter_country(place) ? "Letter" : "A4");
    if (days.length == 0)
        days = lml_span_of("Fri 27 Nov");
    name(w, "house");
    lml_json_write_open_record(w);
    if (called.length > 0) {
        name(w, "name");
        lml_json_write_text(w, called);
    }
    name(w, "paper");
    lml_json_write_text(w, paper);
    name(w, "days");
    lml_json_write_text(w, days);
    if (gauge.length > 0) { /* what the sheets say of a gauge, and what is recorded of it */
        name(w, "vacuum_gauge");
        lml_json_write_text(w, gauge);
    }
    lml_json_write_close(w);
}

/* The digests of the result's inputs, so that it can be run again. */
static void put_input(lml_json_writer *w, const char *what, const lml_json_document *doc,
                      const char *digest)
{
    if (!doc)
        return;
    name(w, what);
    lml_json_write_open_record(w);
    lml_json_write_member(w, "file", lml_json_source(doc));
    lml_json_write_member(w, "digest", digest);
    lml_json_write_close(w);
}

static void put_inputs(lml_json_writer *w, const lml_run *run)
{
    const lml_engine *engine = run->engine;
    char digest[LML_DIGEST_TEXT];
    lml_digest_of(lml_json_source_text(run->document), digest);
    name(w, "inputs");
    lml_json_write_open_record(w);
    put_input(w, "job", run->document, digest);
    put_input(w, "house", engine->shelf.house, engine->shelf.house_digest);
    put_input(w, "prices", engine->shelf.prices, engine->shelf.prices_digest);
    lml_json_write_close(w);
}

static void put_worked(lml_json_writer *w, const lml_worked_item *one)
{
    const lml_recipe *r = one->item->recipe;
    lml_json_write_open_record(w);
    if (one->item->kind == LML_PUT_SCRIPT) {
        lml_json_write_member(w, "script", one->item->name);
        lml_json_write_member(w, "digest", lml_item_digest(one->item));
    } else {
        lml_json_write_member(w, "recipe", one->item->name);
        if (r->version)
            lml_json_write_member(w, "version", r->version);
        lml_json_write_member(w, "digest", lml_item_digest(one->item));
        if (one->under)
            lml_json_write_member(w, "under", one->under);
        if (r->rule && one->item->is_own)
            lml_json_write_member(w, "house_rule", r->title);
    }
    lml_json_write_close(w);
}

void lml_result_put_worked(lua_State *L, lml_json_writer *w)
{
    const lml_worked *all = lml_run_of(L)->worked;
    name(w, "worked");
    lml_json_write_open_list(w);
    for (size_t i = 0; all && i < all->count; i++)
        put_worked(w, &all->item[i]);
    lml_json_write_close(w);
}

void lml_result_push_setting(lua_State *L, int value, const char *from)
{
    /* What it takes is the run's, and goes with it: writing may raise. */
    lml_alloc alloc = lml_pool_alloc(&lml_box_of(L)->pool);
    lml_builder b = lml_builder_on(&alloc, 0);
    lml_json_writer w = lml_json_writer_on(&b, false);
    lml_error e;
    lml_json_write_open_record(&w);
    lml_result_datum_put(L, &w, value, NULL);
    lml_json_write_member(&w, "from", from);
    lml_json_write_close(&w);
    if (lml_json_writer_end(&w, &e))
        lml_raise_as_is(L, &e);
    lua_pushlstring(L, b.at, b.length);
    lml_builder_free(&b);
}

/* Of the setting at index, where it was written beforehand. */
static bool put_written(lua_State *L, lml_json_writer *w, int setting)
{
    bool written = lua_getfield(L, setting, "text") == LUA_TSTRING;
    if (written) {
        size_t length;
        const char *at = lua_tolstring(L, -1, &length);
        lml_json_write_raw(w, (lml_span){at, length});
        lua_getfield(L, setting, "text_cost");
        lml_box_charge(L, (uint64_t)lua_tointeger(L, -1));
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    return written;
}

/* Whether the figure at the index is withheld by any of the parts. */
static bool is_withheld_in(lua_State *L, int part, int index)
{
    if (lml_run_of(L)->nothing_withheld)
        return false;
    if (lml_result_withheld_figure(L, part, NULL, index))
        return true;
    lml_box_need_stack(L, 12);
    const int top = lua_gettop(L);
    bool withheld = false;
    lua_getfield(L, part, "within");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, top + 1) && !withheld; i++) {
        lua_rawgeti(L, top + 1, i);
        withheld = is_withheld_in(L, top + 2, index);
        lua_settop(L, top + 1);
    }
    lua_settop(L, top);
    return withheld;
}

/* The value on top of the stack; an ellipsis for one that a recipe passes and a stop withholds. */
static void put_setting(lua_State *L, lml_json_writer *w, int part, bool passed)
{
    if (passed && is_withheld_in(L, part, lua_gettop(L)))
        lua_pushliteral(L, "\xE2\x80\xA6");
    else
        lua_pushvalue(L, -1);
    lml_result_datum_put(L, w, -1, NULL);
    lua_pop(L, 1);
}

static void put_settings(lua_State *L, lml_json_writer *w, int part)
{
    lml_run_push_settings(L);
    int settings = lua_gettop(L);
    lua_Integer count = lml_key_push_sorted(L, settings);
    lml_marks_enter(L, 0);
    name(w, "settings");
    lml_json_write_open_record(w);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, settings + 1, i);
        lml_json_write_name(w, lml_span_of(lua_tostring(L, -1)));
        lua_rawget(L, settings);
        if (put_written(L, w, lua_gettop(L))) {
            lua_pop(L, 1);
            continue;
        }
        lml_json_write_open_record(w);
        lua_getfield(L, -1, "from");
        bool passed = strcmp(lua_tostring(L, -1), "passed") == 0;
        lua_getfield(L, -2, "value");
        put_setting(L, w, part, passed);
        lua_pop(L, 2);
        lml_result_datum_put_field(L, w, lua_gettop(L), "from");
        lml_result_datum_put_field(L, w, lua_gettop(L), "over");
        if (lua_getfield(L, -1, "replaced") != LUA_TNIL) {
            name(w, "replaced");
            lml_json_write_open_record(w);
            lml_result_datum_put(L, w, -1, NULL);
            lml_json_write_close(w);
        }
        lua_pop(L, 1);
        lml_json_write_close(w);
        lua_pop(L, 1);
    }
    lml_json_write_close(w);
    lua_settop(L, settings - 1);
}

static const char *next_line(const char *at)
{
    at += strcspn(at, "\n");
    return at + (*at == '\n');
}

/* Whether the give is asked for: one of the lines of `wanted`, or any where that is NULL. They are
 * mostly asked for in the order of the gives, so each is looked for behind the last, at `*next`. */
static bool is_wanted(const char *wanted, const char **next, const char *give)
{
    const size_t length = strlen(give);
    if (!wanted)
        return true;
    const char *from = *next, *at = from;
    do {
        if (*at == '\0') {
            at = wanted;
            continue;
        }
        bool found = *at == *give && strncmp(at, give, length) == 0 &&
                     (at[length] == '\n' || at[length] == '\0');
        at = next_line(at);
        if (found) {
            *next = at;
            return true;
        }
    } while (at != from);
    return false;
}

static void put_results(lua_State *L, lml_json_writer *w, int part)
{
    lua_getfield(L, part, "results");
    lua_getfield(L, part, "withheld");
    int results = lua_gettop(L) - 1, withheld = results + 1;
    const char *wanted = lml_run_of(L)->engine->wanted, *next = wanted;
    name(w, "results");
    lml_json_write_open_record(w);
    lua_Integer count = lml_key_push_sorted(L, results);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, withheld + 1, i);
        lua_pushvalue(L, -1);
        if (lua_rawget(L, withheld) == LUA_TNIL && is_wanted(wanted, &next, lua_tostring(L, -2))) {
            name(w, lua_tostring(L, -2));
            lua_pushvalue(L, -2);
            lua_rawget(L, results);
            lml_json_write_open_record(w);
            lml_result_datum_put(L, w, -1, NULL);
            lml_json_write_close(w);
            lua_pop(L, 1);
        }
        lua_pop(L, 2);
    }
    lml_json_write_close(w);
    lua_settop(L, withheld);
    count = lml_key_push_sorted(L, withheld);
    if (count > 0) {
        name(w, "withheld");
        lml_json_write_open_list(w);
        for (lua_Integer i = 1; i <= count; i++) {
            lua_rawgeti(L, -1, i);
            lml_result_datum_put_text(L, w, -1);
            lua_pop(L, 1);
        }
        lml_json_write_close(w);
    }
    lua_settop(L, results - 1);
}

/* What the part withholds, and those within it: each figure, "recipe.name", with the code that
 * does.
 */
static void put_withheld_by(lua_State *L, lml_json_writer *w, int part)
{
    lml_box_need_stack(L, 12);
    const int top = lua_gettop(L);
    lua_getfield(L, part, "recipe");
    const bool known =
        lua_getfield(L, part, "withheld") == LUA_TTABLE; /* of kept stops it is not */
    const lua_Integer count = known ? lml_key_push_sorted(L, top + 2) : 0;
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, top + 3)) {
        lua_rawgeti(L, top + 3, i);
        lua_pushfstring(L, "%s.%s", lua_tostring(L, top + 1), lua_tostring(L, -1));
        lua_pushvalue(L, -2);
        lua_rawget(L, top + 2);
        lml_json_write_open_record(w);
        lml_json_write_member(w, "figure", lua_tostring(L, -2));
        lml_json_write_member(w, "code", lua_tostring(L, -1));
        lml_json_write_close(w);
    }
    lua_settop(L, top);
    lua_getfield(L, part, "within");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, top + 1); i++, lua_settop(L, top + 1)) {
        lua_rawgeti(L, top + 1, i);
        put_withheld_by(L, w, top + 2);
    }
    lua_settop(L, top);
}

/* "shown": those of the wanted figures that no give of the job is. */
static void put_shown(lua_State *L, lml_json_writer *w, int part)
{
    char called[LML_NAMED];
    lml_marks_enter(L, 0);
    name(w, "shown");
    lml_json_write_open_record(w);
    for (const char *at = lml_run_of(L)->engine->wanted; *at; at += *at == '\n') {
        const lml_span one = {at, strcspn(at, "\n")};
        at += one.length;
        snprintf(called, sizeof called, "%.*s", LML_SPAN_SHOWN(one));
        if (!strpbrk(called, ".\"") || !lml_named_push_shown(L, part, called))
            continue;
        lml_json_write_name(w, lml_span_of(called));
        lml_json_write_open_record(w);
        lml_result_datum_put(L, w, -1, NULL);
        lml_json_write_close(w);
        lua_pop(L, 1);
    }
    lml_json_write_close(w);
}

/* "titles": what the gives are called, in the order in which they are declared. */
static void put_titles(lua_State *L, lml_json_writer *w, int part)
{
    lua_getfield(L, part, "recipe");
    const lml_shape *gives = &lml_load_recipe(L, lua_tostring(L, -1))->gives;
    name(w, "titles");
    lml_json_write_open_record(w);
    for (size_t i = 0; i < gives->field_count; i++)
        lml_json_write_member(w, gives->fields[i].name, gives->fields[i].title);
    lml_json_write_close(w);
    lua_pop(L, 1);
}

/* Which of the figures an offer would hold the studio to. */
static void put_promised(lua_State *L, lml_json_writer *w, int part)
{
    lua_getfield(L, part, "recipe");
    const lml_shape *gives = &lml_load_recipe(L, lua_tostring(L, -1))->gives;
    bool any = false;
    for (size_t i = 0; i < gives->field_count; i++) {
        if (!gives->fields[i].promised)
            continue;
        if (!any) {
            name(w, "promised");
            lml_json_write_open_list(w);
        }
        any = true;
        lml_json_write_text(w, lml_span_of(gives->fields[i].name));
    }
    if (any)
        lml_json_write_close(w);
    lua_pop(L, 1);
}

typedef struct task {
    lml_run *run;
    lml_json_writer w;
    bool stopped;
} task;

static bool is_always_there(const char *page)
{
    return strcmp(page, "bench") == 0 || strcmp(page, "client") == 0 || strcmp(page, "metal") == 0;
}

static int write_result(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    lml_json_writer *w = &t->w;
    const int part = 2;
    lml_result_withheld_look(L, part);
    lml_json_write_open_record(w);
    lml_json_write_member(w, "lemel", LML_VERSION);
    put_job(w, t->run);
    put_house(w, t->run);
    put_inputs(w, t->run);
    lml_result_put_worked(L, w);
    if (!lml_shelf_has_script(&t->run->engine->shelf, LML_GATES)) {
        name(w, "gates");
        lml_json_write_null(w);
    }
    if (t->run->closing) {
        name(w, "closing");
        lml_json_write_yes_no(w, true);
    }
    name(w, "stopped");
    t->stopped = lml_remarks_stop(L, part);
    lml_json_write_yes_no(w, t->stopped);
    put_results(L, w, part);
    put_titles(L, w, part);
    put_promised(L, w, part);
    put_settings(L, w, part);
    name(w, "sheets");
    lml_json_write_open_record(w);
    for (size_t i = 0; i < lml_part_pages(); i++) {
        const char *page = lml_part_page(i);
        if (is_always_there(page) || lml_result_sheet_has_entries(L, part, page)) {
            name(w, page);
            lml_result_sheet_put(L, w, part, page);
        }
    }
    lml_json_write_close(w);
    name(w, "remarks");
    lml_json_write_open_list(w);
    lml_remarks_each(L, part, put_remark, w);
    lml_json_write_close(w);
    if (t->run->engine->tells_why)
        lml_why_put_all(L, w, part);
    lml_json_write_close(w);
    return 0;
}

/* The names of the recipes that were run. */
static void put_worked_names(const lml_run *run, lml_json_writer *w)
{
    const lml_worked *all = run->worked;
    name(w, "worked");
    lml_json_write_open_list(w);
    for (size_t i = 0; all && i < all->count; i++) {
        if (all->item[i].item->kind != LML_PUT_RECIPE)
            continue;
        lml_json_write_open_record(w);
        lml_json_write_member(w, "recipe", all->item[i].item->name);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static int write_bare(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    lml_json_writer *w = &t->w;
    const int part = 2;
    lml_json_write_open_record(w);
    if (!t->run->engine->trial || t->run->engine->marks_tries)
        lml_result_withheld_look(L, part);
    if (!t->run->engine->trial)
        put_worked_names(t->run, w);
    name(w, "stopped");
    t->stopped = lml_remarks_stop(L, part);
    lml_json_write_yes_no(w, t->stopped);
    put_results(L, w, part);
    if (t->run->engine->trial && !t->run->engine->no_sheets)
        put_shown(L, w, part);
    name(w, "remarks");
    lml_json_write_open_list(w);
    lml_remarks_each(L, part, put_bare_remark, w);
    lml_json_write_close(w);
    if (t->stopped && t->run->engine->marks_tries) {
        name(w, "withheld_by");
        lml_json_write_open_list(w);
        put_withheld_by(L, w, part);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
    return 0;
}

static lml_status write(lml_run *run, lua_CFunction how, lml_builder *b, bool *stopped,
                        lml_error *err)
{
    lua_State *L = run->box.L;
    task t = {run, lml_json_writer_on(b, false), false};
    lml_result_figures figures;
    lml_result_figures_begin(&figures, b);
    run->figures = &figures;
    lua_pushcfunction(L, how);
    lua_pushlightuserdata(L, &t);
    lua_pushvalue(L, -3);
    lml_status status = lml_box_call(&run->box, 2, 0, err);
    run->figures = NULL;
    if (!status)
        status = lml_json_writer_end(&t.w, err);
    if (!status)
        *stopped = t.stopped;
    return status;
}

lml_status lml_result_write(lml_run *run, lml_builder *b, bool *stopped, lml_error *err)
{
    return write(run, write_result, b, stopped, err);
}

lml_status lml_result_write_bare(lml_run *run, lml_builder *b, bool *stopped, lml_error *err)
{
    return write(run, write_bare, b, stopped, err);
}
