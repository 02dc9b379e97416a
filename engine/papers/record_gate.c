#include "papers/record_gate.h"

#include "papers/boxes.h"

#include <string.h>

static const char NOT[] = "not ";
static const char POURED[] = "poured";

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

lml_span lml_record_gate_shut(const lml_json *result, lml_span name)
{
    lml_box box = lml_boxes_find(result, name);
    bool shut = box.count == 1 && lml_span_is(text_of(box.entry, "act"), "tick") &&
                lml_json_yes(lml_json_member(box.entry, "withheld"));
    const lml_json *r = shut ? lml_json_first(lml_json_member(result, "remarks")) : NULL;
    for (; r; r = lml_json_next(r))
        if (lml_span_equal(text_of(r, "code"), text_of(box.entry, "withheld_by")))
            return text_of(r, "text");
    return shut ? text_of(box.entry, "label") : (lml_span){"", 0};
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

lml_span lml_record_gate_taken_back(lml_span name)
{
    if (!lml_span_starts(name, NOT))
        return (lml_span){"", 0};
    return lml_span_between(name.at + strlen(NOT), name.at + name.length);
}

bool lml_record_gate_is_pour(const lml_json *entry)
{
    if (!lml_span_is(text_of(entry, "what"), POURED))
        return false;
    for (const lml_json *e = lml_json_next(entry); e; e = lml_json_next(e)) {
        if (lml_span_is(text_of(e, "what"), POURED))
            return true;
        if (lml_span_is(lml_record_gate_taken_back(text_of(e, "what")), POURED))
            return false;
    }
    return true;
}

lml_status lml_record_gate_check_back(const lml_json *record, lml_span name, lml_error *err)
{
    lml_span back = lml_record_gate_taken_back(name);
    const lml_json *found = NULL;
    if (back.length == 0)
        return LML_OK;
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e)) {
        if (lml_span_equal(text_of(e, "what"), back))
            found = e;
        if (lml_span_equal(text_of(e, "what"), name))
            found = NULL;
    }
    if (!found) {
        lml_fail(err, LML_USAGE, "\"%.*s\" takes \"%.*s\" back, but the record has no such entry",
                 LML_SPAN_SHOWN(name), LML_SPAN_SHOWN(back));
        lml_error_hint(err, "name the entry as it is in the record. Nothing was recorded");
        return LML_USAGE;
    }
    if (lml_json_member(found, "mass")) {
        lml_fail(err, LML_USAGE, "\"%.*s\" was weighed, so it is not taken back",
                 LML_SPAN_SHOWN(back));
        lml_error_hint(err,
                       "weigh it again: of two entries the later counts. Nothing was recorded");
        return LML_USAGE;
    }
    return LML_OK;
}
