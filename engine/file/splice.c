#include "file/splice.h"

#include "file/json_write.h"
#include "file/shapes.h"
#include "read/read.h"
#include "value/wanted.h"

#include <string.h>

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static lml_span text_of(const lml_builder *b)
{
    return (lml_span){b->at, b->length};
}

static const char *end_of(const lml_json *node)
{
    lml_span raw = lml_json_raw(node);
    return raw.at + raw.length;
}

static const lml_json *last_of(const lml_json *node)
{
    const lml_json *last = NULL;
    for (const lml_json *n = lml_json_first(node); n; n = lml_json_next(n))
        last = n;
    return last;
}

/* The blanks before an item or member: how one beside it should be set off. */
static lml_span lead_of(const lml_json *parent, const lml_json *item)
{
    const char *from = lml_json_raw(parent).at + 1; /* behind the bracket */
    for (const lml_json *n = lml_json_first(parent); n != item; n = lml_json_next(n)) {
        from = end_of(n);
        while (*from != ',')
            from++;
        from++;
    }
    const char *to = from;
    while (is_blank(*to))
        to++;
    return lml_span_between(from, to);
}

/* A line end and the indent after it, as the blanks have them; nothing when they stay on one line.
 */
static lml_span last_line(lml_span blanks)
{
    for (size_t i = blanks.length; i > 0; i--) {
        if (blanks.at[i - 1] != '\n')
            continue;
        size_t start = i > 1 && blanks.at[i - 2] == '\r' ? i - 2 : i - 1;
        return (lml_span){blanks.at + start, blanks.length - start};
    }
    return (lml_span){"", 0};
}

/* A member of a job that only grows, and the brackets around what it holds. */
typedef struct growing {
    const char *name;
    char open, close;
    const lml_shape *file; /* what the file must be before and after */
} growing;
static const growing record_member = {"record", '[', ']', &lml_shapes_job},
                     confirmed_member = {"confirmed", '{', '}', &lml_shapes_job},
                     offers_member = {"offers", '[', ']', &lml_shapes_job},
                     house_member = {"confirmed", '[', ']', &lml_shapes_house};

/* "[ ENTRY ]" where the members are on one line, else the entry on a line of its own, one step
 * deeper than `line`. */
static void put_first(const growing *in, lml_builder *run, lml_span line, lml_span entry, bool open,
                      bool close)
{
    bool tabs = line.length > 0 && line.at[line.length - 1] == '\t';
    if (open)
        lml_builder_add_char(run, in->open);
    if (line.length) {
        lml_builder_add_span(run, line);
        lml_builder_add_text(run, tabs ? "\t" : "  ");
    } else {
        lml_builder_add_char(run, ' ');
    }
    lml_builder_add_span(run, entry);
    if (!close)
        return;
    if (line.length)
        lml_builder_add_span(run, line);
    else
        lml_builder_add_char(run, ' ');
    if (open)
        lml_builder_add_char(run, in->close);
}

/* The bytes to put in, and where: `*at` points into the job's text. They go behind `behind`, or
 * before all where that is NULL. */
static void make_run(const growing *in, const lml_json *root, const lml_json *behind,
                     lml_span entry, const char **at, lml_builder *run)
{
    const lml_json *member = lml_json_member(root, in->name), *first = lml_json_first(member);
    lml_span lead = lml_json_count(root) ? lead_of(root, last_of(root)) : (lml_span){"", 0};
    if (behind) {
        const lml_json *next = lml_json_next(behind);
        *at = end_of(behind);
        lml_builder_add_char(run, ',');
        lml_builder_add_span(run, lead_of(member, next ? next : behind));
        lml_builder_add_span(run, entry);
    } else if (first) {
        *at = lml_json_raw(first).at;
        lml_builder_add_span(run, entry);
        lml_builder_add_char(run, ',');
        lml_builder_add_span(run, lead_of(member, first));
    } else if (member) {
        lml_span raw = lml_json_raw(member);
        bool has_line = memchr(raw.at, '\n', raw.length) != NULL; /* its own last line stays */
        *at = raw.at + 1;
        put_first(in, run, last_line(lead), entry, false, !has_line);
    } else {
        bool empty = lml_json_count(root) == 0;
        *at = empty ? lml_json_raw(root).at + 1 : end_of(last_of(root));
        if (!empty) {
            lml_builder_add_char(run, ',');
            lml_builder_add_span(run, lead);
        }
        lml_builder_add_format(run, "\"%s\": ", in->name);
        put_first(in, run, last_line(lead), entry, true, true);
    }
}

static lml_status read_checked(const lml_alloc *alloc, lml_span text, const char *source,
                               const lml_shape *shape, lml_json_document **out, lml_error *err)
{
    lml_json_document *doc;
    lml_status status = lml_json_read(alloc, text, NULL, source, &doc, err);
    if (status != LML_OK)
        return status;
    status = lml_shape_check(shape, lml_json_root(doc), err);
    if (status == LML_OK)
        *out = doc;
    else
        lml_json_free(doc);
    return status;
}

static lml_status read_at(const lml_json *entry, lml_value *out, lml_error *err)
{
    return lml_read_value(lml_json_text(lml_json_member(entry, "at")), LML_WANT_MOMENT,
                          LML_NO_METAL, out, err);
}

/* The entry that `entry` belongs behind: the last one that is not later. NULL: it is before all. */
static lml_status find_place(const lml_json *list, const lml_json *entry, const lml_json **behind,
                             lml_error *err)
{
    lml_value now, there;
    lml_status status = read_at(entry, &now, err);
    *behind = NULL;
    for (const lml_json *e = lml_json_first(list); e && status == LML_OK; e = lml_json_next(e)) {
        status = read_at(e, &there, err);
        if (status == LML_OK && there.exact <= now.exact)
            *behind = e;
    }
    return status;
}

/* The entry of the offers that a new one may not be earlier than. An acceptance that is taken back
 * may have had a wrong moment, and when it is taken back says nothing of the offer. */
static const lml_json *standing_of(const lml_json *list, const lml_json *entry)
{
    const lml_json *offer = NULL, *standing = NULL;
    for (const lml_json *e = lml_json_first(list); e; e = lml_json_next(e)) {
        lml_span what = lml_json_text(lml_json_member(e, "what"));
        if (lml_span_is(what, "offered"))
            offer = e;
        standing = lml_span_is(what, "not accepted") ? offer : e;
    }
    bool corrects = lml_span_is(lml_json_text(lml_json_member(entry, "what")), "not accepted");
    return corrects ? offer : standing;
}

/* Offers are added in order: each has the digest of the one before it. */
static lml_status check_order(const lml_json *list, const lml_json *entry, lml_error *err)
{
    const lml_json *last = standing_of(list, entry);
    lml_value moment, there;
    if (!last)
        return LML_OK;
    lml_status status = read_at(entry, &moment, err);
    if (status == LML_OK)
        status = read_at(last, &there, err);
    if (status != LML_OK || there.exact <= moment.exact)
        return status;
    const lml_json *before = lml_json_member(last, "at"), *now = lml_json_member(entry, "at");
    lml_span a = lml_json_text(now), b = lml_json_text(before);
    lml_json_fail(before, err, LML_BAD_DATA, "the last entry is of %.*s, but %.*s is earlier",
                  (int)b.length, b.at, (int)a.length, a.at);
    lml_error_hint(err, "offers can only be added in order: give the moment with its time");
    return LML_BAD_DATA;
}

/* The new text, checked as a whole: what is written must be a job that can be read. */
static lml_status put_in(const growing *in, const lml_json_document *doc, const lml_json *behind,
                         lml_span entry, const char *source, lml_builder *after, lml_error *err)
{
    lml_span text = lml_json_source_text(doc);
    lml_builder run = lml_builder_on(after->alloc, 0);
    const char *at = text.at;
    make_run(in, lml_json_root(doc), behind, entry, &at, &run);
    lml_builder_add_span(after, lml_span_between(text.at, at));
    lml_builder_add_span(after, text_of(&run));
    lml_builder_add_span(after, lml_span_between(at, text.at + text.length));
    lml_status status = lml_builder_status(&run, err);
    if (status == LML_OK)
        status = lml_builder_status(after, err);
    lml_builder_free(&run);
    lml_json_document *made = NULL;
    if (status == LML_OK)
        status = read_checked(after->alloc, text_of(after), source, in->file, &made, err);
    lml_json_free(made);
    return status;
}

/* An entry with a moment, where it belongs in a list; `ordered`: only behind the last one. */
static lml_status splice_entry(const growing *in, const lml_shape *shape, bool ordered,
                               lml_span job, const char *source, lml_span entry, lml_builder *out,
                               lml_error *err)
{
    lml_json_document *doc = NULL, *added = NULL;
    const lml_json *list = NULL, *behind = NULL;
    lml_builder after = lml_builder_on(out->alloc, 0);
    lml_status status = read_checked(out->alloc, job, source, &lml_shapes_job, &doc, err);
    if (status == LML_OK)
        status = read_checked(out->alloc, entry, "the entry", shape, &added, err);
    if (status == LML_OK) {
        list = lml_json_member(lml_json_root(doc), in->name);
        status = find_place(list, lml_json_root(added), &behind, err);
    }
    if (status == LML_OK && ordered) {
        behind = last_of(list);
        status = check_order(list, lml_json_root(added), err);
    }
    if (status == LML_OK)
        status = put_in(in, doc, behind, lml_json_raw(lml_json_root(added)), source, &after, err);
    if (status == LML_OK) {
        lml_builder_add_span(out, text_of(&after));
        status = lml_builder_status(out, err);
    }
    lml_builder_free(&after);
    lml_json_free(added);
    lml_json_free(doc);
    return status;
}

lml_status lml_splice_record(lml_span job, const char *source, lml_span entry, lml_builder *out,
                             lml_error *err)
{
    return splice_entry(&record_member, &lml_shapes_record_entry, false, job, source, entry, out,
                        err);
}

lml_status lml_splice_offer(lml_span job, const char *source, lml_span entry, lml_builder *out,
                            lml_error *err)
{
    return splice_entry(&offers_member, &lml_shapes_offer, true, job, source, entry, out, err);
}

/* The new text, with what the person says now where `old` stood. */
static lml_status put_over(const lml_json_document *doc, const lml_json *old, lml_span entry,
                           const char *source, lml_builder *after, lml_error *err)
{
    lml_span text = lml_json_source_text(doc), raw = lml_json_raw(old);
    lml_json_document *made = NULL;
    lml_builder_add_span(after, lml_span_between(text.at, raw.at));
    lml_builder_add_span(after, entry);
    lml_builder_add_span(after, lml_span_between(raw.at + raw.length, text.at + text.length));
    lml_status status = lml_builder_status(after, err);
    if (status == LML_OK)
        status =
            read_checked(after->alloc, text_of(after), source, confirmed_member.file, &made, err);
    lml_json_free(made);
    return status;
}

lml_status lml_splice_confirmed(lml_span job, const char *source, lml_span code, lml_span entry,
                                lml_builder *out, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_builder after = lml_builder_on(out->alloc, 0), named = lml_builder_on(out->alloc, 0);
    lml_status status = read_checked(out->alloc, job, source, &lml_shapes_job, &doc, err);
    const lml_json *there =
        status == LML_OK ? lml_json_member(lml_json_root(doc), confirmed_member.name) : NULL;
    const lml_json *old = lml_json_first(there);
    while (old && !lml_span_equal(lml_json_name(old), code))
        old = lml_json_next(old);
    if (status == LML_OK && !old) {
        lml_json_writer w = lml_json_writer_on(&named, false);
        lml_json_write_text(&w, code);
        lml_builder_add_text(&named, ": ");
        lml_builder_add_span(&named, entry);
        status = lml_builder_status(&named, err);
    }
    if (status == LML_OK)
        status = old ? put_over(doc, old, entry, source, &after, err)
                     : put_in(&confirmed_member, doc, last_of(there), text_of(&named), source,
                              &after, err);
    if (status == LML_OK) {
        lml_builder_add_span(out, text_of(&after));
        status = lml_builder_status(out, err);
    }
    lml_builder_free(&named);
    lml_builder_free(&after);
    lml_json_free(doc);
    return status;
}

lml_status lml_splice_house_confirmed(lml_span house, const char *source, lml_span entry,
                                      lml_builder *out, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_builder after = lml_builder_on(out->alloc, 0);
    lml_status status = read_checked(out->alloc, house, source, &lml_shapes_house, &doc, err);
    if (status == LML_OK)
        status = put_in(&house_member, doc,
                        last_of(lml_json_member(lml_json_root(doc), house_member.name)), entry,
                        source, &after, err);
    if (status == LML_OK) {
        lml_builder_add_span(out, text_of(&after));
        status = lml_builder_status(out, err);
    }
    lml_builder_free(&after);
    lml_json_free(doc);
    return status;
}
