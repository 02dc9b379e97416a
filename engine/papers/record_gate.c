#include "papers/record_gate.h"

#include "file/standing.h"
#include "papers/record_late.h"

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* A gate looked for on a page, and the empty boxes in front of it: what is weighed out, and what is
 * read under its own heading. */
typedef struct search {
    const lml_json *result;
    lml_span name;
    const char *at;
    lml_builder *why, weighed, read;
} search;

static void add_to(lml_builder *list, lml_span name)
{
    lml_builder_add_text(list, list->length > 0 ? ", " : "");
    lml_builder_add_span(list, name);
}

static void add_empty(search *s)
{
    lml_builder_add_text(s->why, "Still to be weighed or read: ");
    if (s->weighed.length > 0)
        lml_builder_add_span(s->why, lml_builder_span(&s->weighed));
    else
        lml_builder_add_text(s->why, "charge");
    if (s->read.length > 0)
        lml_builder_add_text(s->why, ", ");
    lml_builder_add_span(s->why, lml_builder_span(&s->read));
}

static void add_withheld(search *s, const lml_json *gate)
{
    lml_span by = text_of(gate, "withheld_by"), text = text_of(gate, "label");
    const lml_json *r = lml_json_first(lml_json_member(s->result, "remarks"));
    for (; r; r = lml_json_next(r))
        if (lml_span_equal(text_of(r, "code"), by)) {
            text = text_of(r, "text");
            break;
        }
    lml_builder_add_span(s->why, text);
}

/* A tick that is of a give, and has none yet, waits until the charge is weighed. */
static void look_at(search *s, const lml_json *gate)
{
    lml_span till = text_of(lml_json_member(gate, "till"), "value");
    bool waits = text_of(gate, "of").length > 0 && !lml_json_member(gate, "value");
    if (lml_json_yes(lml_json_member(gate, "withheld"))) {
        add_withheld(s, gate);
    } else if (waits) {
        add_empty(s);
    } else if (lml_record_late_is_after(s->at, till)) {
        lml_builder_add_format(s->why,
                               "The readings held until %.*s: read again what the gate names",
                               LML_SPAN_SHOWN(till));
    }
}

/* A gate may be on several pages: the first that is shut tells why. */
static void search_among(search *s, const lml_json *entries)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        search_among(s, lml_json_member(e, "entries"));
        lml_span name = text_of(e, "record"), act = text_of(e, "act");
        if (s->why->length > 0)
            return;
        if (lml_span_is(text_of(e, "is"), "heading"))
            s->read.length = 0;
        if (name.length == 0 || lml_json_member(e, "recorded"))
            continue;
        if (lml_span_starts(name, "weighed "))
            add_to(&s->weighed, name);
        else if (lml_span_is(act, "measure"))
            add_to(&s->read, name);
        else if (lml_span_is(act, "tick") && lml_span_equal(name, s->name))
            look_at(s, e);
    }
}

void lml_record_gate_shut(const lml_json *result, lml_span name, const char *at, lml_builder *why)
{
    const lml_json *page = lml_json_first(lml_json_member(result, "sheets"));
    for (; page && why->length == 0 && name.length > 0; page = lml_json_next(page)) {
        search s = {
            result, name, at, why, lml_builder_on(why->alloc, 0), lml_builder_on(why->alloc, 0)};
        search_among(&s, page);
        lml_builder_free(&s.weighed);
        lml_builder_free(&s.read);
    }
}

lml_status lml_record_gate_check(const lml_alloc *alloc, const lml_json *result, lml_span name,
                                 const char *at, lml_error *err)
{
    lml_builder why = lml_builder_on(alloc, 0);
    lml_record_gate_shut(result, name, at, &why);
    lml_status status = lml_builder_status(&why, err);
    if (status == LML_OK && why.length > 0) {
        status = lml_fail(err, LML_STOPPED, "%.*s: the sheet says DO NOT. %.*s",
                          LML_SPAN_SHOWN(name), LML_SPAN_SHOWN(lml_builder_span(&why)));
        lml_error_hint(err, "if it was done all the same, add --anyway. Nothing was recorded");
    }
    lml_builder_free(&why);
    return status;
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

/* The first unweighed entry of that name that is later than the moment and stands. */
static const lml_json *later_of(const lml_json *record, lml_span name, const char *at)
{
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e))
        if (lml_span_equal(text_of(e, "what"), name) && lml_record_late_than(e, at) &&
            !lml_json_member(e, "mass") && lml_standing_is(e))
            return e;
    return NULL;
}

lml_status lml_record_gate_check_back(const lml_json *record, const lml_entry *entry, lml_span name,
                                      lml_error *err)
{
    const char *at = entry->at;
    lml_span back = lml_standing_denied(name);
    const lml_json *later = back.length > 0 ? later_of(record, back, at) : NULL;
    bool earlier = back.length > 0 && last_of(record, back, at, false);
    if (later && !(earlier && entry->anyway)) {
        lml_span of = text_of(later, "at");
        lml_fail(err, LML_USAGE, "\"%.*s\" of %.*s is later than %s, so it would not be taken back",
                 LML_SPAN_SHOWN(back), LML_SPAN_SHOWN(of), at);
        lml_error_hint(
            err, "to take that one back, give its moment, --at %.*s%s. Nothing was recorded",
            LML_SPAN_SHOWN(of), earlier ? "; if the one before it is meant, add --anyway" : "");
        return LML_USAGE;
    }
    if (back.length == 0 || earlier)
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
