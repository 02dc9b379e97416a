#include "file/standing.h"

#include <string.h>

static const char NOT[] = "not ";

static lml_span name_of(const lml_json *entry)
{
    return lml_json_text(lml_json_member(entry, "what"));
}

lml_span lml_standing_denied(lml_span name)
{
    if (!lml_span_starts(name, NOT))
        return (lml_span){"", 0};
    return lml_span_between(name.at + strlen(NOT), name.at + name.length);
}

/* 1 of what was done and may be taken back, -1 of what takes it back, 0 of any other entry. */
static int step_of(const lml_json *entry, lml_span name)
{
    lml_span own = name_of(entry);
    if (lml_span_equal(own, name))
        return lml_json_member(entry, "mass") ? 0 : 1;
    return lml_span_starts(own, NOT) && lml_span_equal(lml_standing_denied(own), name) ? -1 : 0;
}

/* How many stand behind an entry, of so many in front of it. */
static size_t behind(size_t standing, int step)
{
    if (step < 0)
        return standing > 0 ? standing - 1 : 0;
    return standing + (step > 0);
}

bool lml_standing_is(const lml_json *entry)
{
    size_t standing = 1; /* this one */
    if (lml_json_member(entry, "mass"))
        return true;
    for (const lml_json *e = lml_json_next(entry); e && standing > 0; e = lml_json_next(e))
        standing = behind(standing, step_of(e, name_of(entry)));
    return standing > 0;
}

bool lml_standing_is_pour(const lml_json *entry)
{
    return lml_span_is(name_of(entry), "poured") && lml_standing_is(entry);
}

/* How many unweighed ones of the name stand behind the last entry. */
static size_t count(const lml_json *record, lml_span name, size_t *seen)
{
    size_t standing = 0;
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e), ++*seen)
        standing = behind(standing, step_of(e, name));
    return standing;
}

const lml_json *lml_standing_last(const lml_json *record, lml_span name, size_t *seen)
{
    size_t standing = 0;
    *seen = 0;
    const size_t all = count(record, name, seen);
    const lml_json *found = NULL;
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e)) {
        int step = step_of(e, name);
        standing = behind(standing, step);
        bool weighed = step == 0 && lml_span_equal(name_of(e), name);
        if (weighed || (step > 0 && standing == all))
            found = e;
    }
    return found;
}
