#include "papers/record_gate.h"

#include "file/standing.h"
#include "papers/record_late.h"

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* A gate may be on several pages: the first that is shut. */
static const lml_json *find_shut(const lml_json *entries, lml_span name)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        const lml_json *inner = find_shut(lml_json_member(e, "entries"), name);
        if (inner)
            return inner;
        if (lml_span_equal(text_of(e, "record"), name) && lml_span_is(text_of(e, "act"), "tick") &&
            lml_json_yes(lml_json_member(e, "withheld")))
            return e;
    }
    return NULL;
}

lml_span lml_record_gate_shut(const lml_json *result, lml_span name)
{
    const lml_json *gate = NULL, *page = lml_json_first(lml_json_member(result, "sheets"));
    for (; page && !gate && name.length > 0; page = lml_json_next(page))
        gate = find_shut(page, name);
    const lml_json *r = gate ? lml_json_first(lml_json_member(result, "remarks")) : NULL;
    for (; r; r = lml_json_next(r))
        if (lml_span_equal(text_of(r, "code"), text_of(gate, "withheld_by")))
            return text_of(r, "text");
    return gate ? text_of(gate, "label") : (lml_span){"", 0};
}

lml_status lml_record_gate_check(const lml_json *result, lml_span name, lml_error *err)
{
    lml_span why = lml_record_gate_shut(result, name);
    if (why.length == 0)
        return LML_OK;
    lml_fail(err, LML_STOPPED, "%.*s: the sheet says DO NOT. %.*s", LML_SPAN_SHOWN(name),
             LML_SPAN_SHOWN(why));
    lml_error_hint(err, "if it was done all the same, add --anyway. Nothing was recorded");
    return LML_STOPPED;
}

/* ---- taken back ---- */

/* The last entry of that name no later than the moment; `weighed` or standing. */
static const lml_json *last_of(const lml_json *record, lml_span name, const char *at, bool weighed)
{
    const lml_json *found = NULL;
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e))
        if (lml_span_equal(text_of(e, "what"), name) && !lml_record_late_than(e, at) &&
            weighed == (lml_json_member(e, "mass") != NULL) && (weighed || lml_standing_is(e)))
            found = e;
    return found;
}

lml_status lml_record_gate_check_back(const lml_json *record, lml_span name, const char *at,
                                      lml_error *err)
{
    lml_span back = lml_standing_denied(name);
    if (back.length == 0 || last_of(record, back, at, false))
        return LML_OK;
    if (last_of(record, back, at, true)) {
        lml_fail(err, LML_USAGE, "\"%.*s\" was weighed, so it is not taken back",
                 LML_SPAN_SHOWN(back));
        lml_error_hint(err,
                       "weigh it again: of two entries the later counts. Nothing was recorded");
        return LML_USAGE;
    }
    lml_fail(err, LML_USAGE,
             "\"%.*s\" takes \"%.*s\" back, but the record has no such entry up to %s",
             LML_SPAN_SHOWN(name), LML_SPAN_SHOWN(back), at);
    lml_error_hint(err, "name the entry as it is in the record, and a later moment. Nothing was "
                        "recorded");
    return LML_USAGE;
}
