#include "report/result_figure.h"

#include "cell/class.h"
#include "cell/raise.h"
#include "report/result_datum.h"
#include "report/result_withheld.h"
#include "run/engine.h"
#include "shelf/house_unit.h"
#include "value/show.h"
#include "value/step.h"
#include "value/wanted.h"

#include <string.h>

/* The value in the unit that the house sets for its kind on this page: "mass_bench" before
 * "mass", for fine metal too. */
static lml_value for_house(const lml_run *run, const lml_value *v, const char *page)
{
    lml_value out = *v, other;
    const lml_json *house = lml_shelf_house(&run->engine->shelf);
    const lml_json *units = lml_json_member(house, "units");
    size_t best = 0, page_length = strlen(page);
    for (const lml_json *u = lml_json_first(units); u; u = lml_json_next(u)) {
        lml_span kind = lml_json_name(u);
        bool ours = kind.length > page_length + 1 &&
                    memcmp(kind.at + kind.length - page_length, page, page_length) == 0 &&
                    kind.at[kind.length - page_length - 1] == '_';
        if (ours)
            kind.length -= page_length + 1;
        lml_wanted wanted = lml_wanted_by_name(kind);
        size_t rank = ours ? 4 : 3;
        if (wanted == LML_WANT_MASS && v->kind == LML_FINE_MASS)
            rank -= 2;
        else if (wanted >= LML_WANT_NUMBER || lml_wanted_check(wanted, v, NULL) != LML_OK)
            continue;
        if (rank > best && lml_show_value_in(v, lml_json_text(u), &other, NULL) == LML_OK) {
            best = rank;
            out = lml_unit_equal(other.unit, v->unit) ? *v : other;
        }
    }
    return best > 0 ? out : lml_house_unit_said(house, v);
}

lml_span lml_result_figure_unit_of(lua_State *L, const char *kind, const char *page)
{
    char own[80];
    const lml_json *units =
        lml_json_member(lml_shelf_house(&lml_run_of(L)->engine->shelf), "units");
    lml_text_join(own, sizeof own, kind ? kind : "", "_", page);
    const lml_json *unit = lml_json_member(units, own);
    return lml_json_text(unit ? unit : lml_json_member(units, kind ? kind : ""));
}

void lml_result_figure_put_shown(lua_State *L, lml_json_writer *w, int index, const char *page)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    lml_value shown;
    if (v)
        shown = for_house(lml_run_of(L), v, page);
    lml_result_datum_put(L, w, index, v ? &shown : NULL);
}

/* As the scale shows it, in the scale's own unit. */
static bool to_step(const lml_value *v, const lml_value *step, lml_value *shown)
{
    return step && lml_step_round(v, step, LML_TO_NEAREST, shown, NULL) == LML_OK;
}

void lml_result_figure_put(lua_State *L, lml_json_writer *w, int index, lml_result_figure how,
                           bool unit_may_fit)
{
    index = lua_absindex(L, index);
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    lml_value shown, rounded;
    lml_json_write_open_record(w);
    if (v) {
        lml_error e;
        const lml_value *as = to_step(v, how.step, &rounded) ? &rounded : v;
        lml_status fits = LML_OK;
        if (how.unit)
            fits = lml_show_value_in(as, lml_span_of(how.unit), &shown, unit_may_fit ? NULL : &e);
        if (fits && !unit_may_fit)
            lml_raise_as_is(L, &e);
        if (!how.unit && as == &rounded)
            shown = rounded;
        else if (!how.unit || fits)
            shown = for_house(lml_run_of(L), as, how.page);
    }
    lml_result_datum_put(L, w, index, v ? &shown : NULL);
    lml_json_write_close(w);
}

void lml_result_figure_put_words_at(lua_State *L, lml_json_writer *w, int part, int index,
                                    const char *called)
{
    lml_result_withheld_push(L, part, index);
    lml_json_write_word(w, called);
    lml_result_datum_put_text(L, w, -1);
    lua_pop(L, 1);
}

void lml_result_figure_put_words(lua_State *L, lml_json_writer *w, int part, int entry,
                                 const char *field)
{
    if (lua_getfield(L, entry, field) == LUA_TSTRING)
        lml_result_figure_put_words_at(L, w, part, lua_gettop(L), field);
    lua_pop(L, 1);
}
