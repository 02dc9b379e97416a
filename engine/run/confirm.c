#include "run/confirm.h"

#include "cell/what.h"
#include "file/digest.h"
#include "read/read.h"
#include "run/engine.h"

#include <string.h>

static void set_text(lua_State *L, int remark, const char *name, lml_span text)
{
    lua_pushlstring(L, text.at, text.length);
    lua_setfield(L, remark, name);
}

static void set_confirmed(lua_State *L, int remark, const lml_json *entry)
{
    set_text(L, remark, "reason", lml_json_text(lml_json_member(entry, "reason")));
    set_text(L, remark, "by", lml_json_text(lml_json_member(entry, "by")));
}

/* What comes after the recipe's name in "melt/metal-too-hot", with the slash. */
static lml_span point_of(lml_span code)
{
    const char *slash = memchr(code.at, '/', code.length);
    return slash ? lml_span_between(slash, code.at + code.length) : (lml_span){"", 0};
}

/* The same point in the same words, confirmed in another part of the job: a check that several
 * parts pass is answered once. */
static const lml_json *said_elsewhere(const lml_json *confirmed, lml_span code, lml_span text)
{
    lml_span point = point_of(code);
    const lml_json *e = point.length > 0 ? lml_json_first(confirmed) : NULL;
    while (e && !(lml_span_equal(point_of(lml_json_name(e)), point) &&
                  lml_span_equal(lml_json_text(lml_json_member(e, "text")), text)))
        e = lml_json_next(e);
    return e;
}

/* What the job itself says; false where it says nothing of this point. */
static bool job_says(lua_State *L, int remark, lml_span code, lml_span text, bool *holds)
{
    lml_run *run = lml_run_of(L);
    const lml_json *entry = lml_json_member(run->confirmed, code.at);
    entry = entry ? entry : said_elsewhere(run->confirmed, code, text);
    if (!entry)
        return false;
    set_confirmed(L, remark, entry);
    *holds =
        run->engine->trial || lml_span_equal(text, lml_json_text(lml_json_member(entry, "text")));
    if (!*holds) {
        lua_pushboolean(L, 1);
        lua_setfield(L, remark, "lapsed");
    }
    return true;
}

/* ---- for all jobs ---- */

/* Whether the entry is out of date on the day of the job; a job without a date has no day. */
static bool is_stale(const lml_run *run, const lml_json *entry)
{
    const lml_json *day = lml_json_member(run->closing ? run->closing : run->job, "date"),
                   *until = lml_json_member(entry, "until");
    lml_value now, end;
    return day && until &&
           lml_read_value(lml_json_text(day), LML_WANT_MOMENT, LML_NO_METAL, &now, NULL) ==
               LML_OK &&
           lml_read_value(lml_json_text(until), LML_WANT_MOMENT, LML_NO_METAL, &end, NULL) ==
               LML_OK &&
           now.exact > end.exact;
}

/* The house answers once for what may hold for all its jobs, until a day and for these words. An
 * entry that no longer holds is said: "stale" or "changed". A proof sees no house. */
static bool house_says(lua_State *L, int remark, lml_span code, lml_span text)
{
    lml_run *run = lml_run_of(L);
    char digest[LML_DIGEST_TEXT];
    const char *why = NULL;
    lml_digest_of(text, digest);
    const lml_json *list = lml_json_member(lml_shelf_house(&run->engine->shelf), "confirmed");
    for (const lml_json *e = run->job ? lml_json_first(list) : NULL; e; e = lml_json_next(e)) {
        if (!lml_span_equal(lml_json_text(lml_json_member(e, "code")), code))
            continue;
        bool same = lml_span_is(lml_json_text(lml_json_member(e, "digest")), digest);
        if (same && !is_stale(run, e)) {
            set_confirmed(L, remark, e);
            return true;
        }
        why = same ? "stale" : why ? why : "changed";
    }
    if (why)
        set_text(L, remark, "house", lml_span_of(why));
    return false;
}

bool lml_confirm_holds(lua_State *L, int remark)
{
    remark = lua_absindex(L, remark);
    lua_getfield(L, remark, "code");
    lua_getfield(L, remark, "text");
    lua_getfield(L, remark, "all_jobs");
    lml_span code = lml_what_need_text(L, -3, "the code of a remark"),
             text = lml_what_need_text(L, -2, "the text of a remark");
    bool holds = false;
    if (!job_says(L, remark, code, text, &holds) && lua_toboolean(L, -1))
        holds = house_says(L, remark, code, text);
    lua_pop(L, 3);
    if (holds) {
        lua_pushliteral(L, "confirmed");
        lua_setfield(L, remark, "level");
    }
    return holds;
}
