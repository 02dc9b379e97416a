#include "papers/record_entry.h"

#include "file/json_write.h"
#include "file/leftover.h"
#include "file/shapes.h"
#include "file/standing.h"
#include "papers/promise.h"
#include "papers/record_far.h"
#include "papers/record_gate.h"
#include "papers/record_late.h"
#include "read/read.h"
#include "value/show.h"

#include <stdio.h>
#include <string.h>

/* One field of the entry, read as its shape has it: "31.02 g" stays a text, a count is a number. */
static lml_status put_field(const lml_alloc *alloc, lml_span name, lml_span value,
                            lml_json_writer *w, lml_error *err)
{
    const lml_shape *entry = &lml_shapes_record_entry, *field = NULL;
    lml_nearest near = lml_nearest_to(name);
    for (size_t i = 0; i < entry->field_count; i++) {
        if (lml_span_is(name, entry->fields[i].name))
            field = &entry->fields[i];
        lml_nearest_offer(&near, lml_span_of(entry->fields[i].name));
    }
    if (!field) {
        lml_fail(err, LML_USAGE, "an entry of the record has no \"%.*s\"", (int)name.length,
                 name.at);
        if (lml_nearest_found(&near)) {
            lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
            return LML_USAGE;
        }
        lml_error_hint(err, "lemel record --help lists what it may hold");
        return LML_USAGE;
    }
    lml_json_document *doc;
    lml_status status = lml_shape_read(alloc, field, value, field->name, NULL, &doc, err);
    if (status != LML_OK)
        return status;
    lml_json_write_name(w, name);
    lml_json_write_raw(w, lml_json_raw(lml_json_root(doc)));
    lml_json_free(doc);
    return LML_OK;
}

/* What a gauge shows, with the kind of gauge that the house says it has; else as it is. */
static lml_span said_of_gauge(const lml_record_known *known, lml_span value, lml_builder *room)
{
    lml_value v;
    bool depth = lml_span_is(known->vacuum_gauge, "depth"),
         absolute = lml_span_is(known->vacuum_gauge, "absolute");
    if ((!depth && !absolute) ||
        lml_read_value(value, LML_WANT_PRESSURE, LML_NO_METAL, &v, NULL) != LML_OK ||
        v.mode != LML_NO_MODE)
        return value;
    lml_builder_add_span(room, value);
    lml_builder_add_text(room, depth ? " vac" : " abs");
    return (lml_span){room->at, room->length};
}

static lml_status put_word(const lml_record_known *known, const char *word, lml_json_writer *w,
                           lml_error *err)
{
    const char *equals = strchr(word, '=');
    lml_builder room = lml_builder_on(w->to->alloc, 0);
    lml_span name = lml_span_between(word, equals), value = lml_span_of(equals + 1);
    if (lml_span_is(name, "vacuum"))
        value = said_of_gauge(known, value, &room);
    lml_status status = lml_builder_status(&room, err);
    if (status == LML_OK)
        status = put_field(w->to->alloc, name, value, w, err);
    lml_builder_free(&room);
    return status;
}

static lml_status begin(const lml_alloc *alloc, const lml_entry *entry, lml_span what,
                        lml_json_writer *w, lml_error *err)
{
    lml_json_write_open_record(w);
    lml_status status = put_field(alloc, lml_span_of("at"), lml_span_of(entry->at), w, err);
    return status == LML_OK ? put_field(alloc, lml_span_of("what"), what, w, err) : status;
}

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static const char *word_of(const lml_entry *entry, const char *name)
{
    size_t length = strlen(name);
    for (size_t i = 0; entry->what && i < entry->count; i++)
        if (strncmp(entry->word[i], name, length) == 0 && entry->word[i][length] == '=')
            return entry->word[i] + length + 1;
    return NULL;
}

static bool says(const lml_entry *entry, const char *name)
{
    return word_of(entry, name) != NULL;
}

static bool says_owner(const lml_entry *entry)
{
    return entry->owner || says(entry, "owner");
}

/* ---- what the job knows of metal that is weighed ---- */

/* The way of what came out of one pour and goes into the next. */
#define MELTED "melted"

/* Where its owner and fineness come from: its box, or the weighing that it is taken out of. */
typedef struct source {
    const lml_json *box;   /* the one box of that name, or NULL */
    const lml_json *taken; /* the entry that "from" names, or NULL */
    lml_span way;          /* that the box gives it; "" for none */
    bool counts;           /* its way is the box's, given or said */
    bool studios;          /* sent out of what is the studio's by agreement */
} source;

/* The last weighing of that name that says whose it is. */
static const lml_json *weighed_as(const lml_json *record, const char *what)
{
    const lml_json *found = NULL;
    for (const lml_json *e = lml_json_first(record); e && what; e = lml_json_next(e))
        if (lml_span_is(text_of(e, "what"), what) && lml_json_member(e, "owner") &&
            lml_json_member(e, "fineness"))
            found = e;
    return found;
}

/* What came out of the flask and is weighed out for the next melt: "weighed button", from=button.
 */
static bool is_melted_again(const lml_entry *entry, const lml_json *record)
{
    static const char *const cast[] = {"tree", "raw casting"};
    const char *said = word_of(entry, "way");
    if (said || !entry->what || !says(entry, "from"))
        return said && strcmp(said, MELTED) == 0;
    bool done = false;
    for (const lml_json *e = lml_json_first(record); e && !done; e = lml_json_next(e)) {
        done = lml_standing_is_pour(e);
        for (size_t i = 0; i < sizeof cast / sizeof *cast; i++)
            done = done || lml_span_is(text_of(e, "what"), cast[i]);
        done = done && !lml_record_late_than(e, entry->at);
    }
    return done && lml_span_starts(lml_span_of(entry->what), "weighed ") &&
           !strstr(word_of(entry, "from"), ": ");
}

/* A box gives no way to an entry that says another one, or an owner, or what it is taken out of.
 * One that says the box's own way is as one that says none. */
static source source_of(const lml_entry *entry, const lml_record_known *known, const lml_box *box)
{
    source s = {.box = box->count == 1 ? box->entry : NULL,
                .taken = weighed_as(known->record, word_of(entry, "from")),
                .way = {"", 0}};
    if (is_melted_again(entry, known->record)) {
        s.box = NULL; /* of that name it is metal that went in before */
        s.way = lml_span_of(MELTED);
        return s;
    }
    const char *said = word_of(entry, "way");
    lml_leftover from = lml_leftover_of(text_of(s.taken, "what"));
    s.studios = said && strcmp(said, "sent") == 0 &&
                ((from == LML_LEFTOVER_BUTTON && known->studio_button) ||
                 (from == LML_LEFTOVER_FILINGS && known->studio_filings));
    lml_span way = text_of(s.box, "way");
    bool same = said && lml_span_is(way, said);
    if ((!said || same) && !says_owner(entry) && !says(entry, "from"))
        s.way = way;
    s.counts = s.way.length > 0 || same;
    return s;
}

static lml_span owner_of(const source *s)
{
    bool measures = !lml_json_member(s->box, "way") && !lml_json_member(s->box, "owner");
    lml_span owner = text_of(s->box, s->counts || measures ? "way_owner" : "owner"),
             way = text_of(s->taken, "way");
    if (owner.length > 0)
        return owner;
    if (s->studios || lml_span_is(way, "kept") || lml_span_is(way, "settled"))
        return lml_span_of("studio"); /* it was another's before that */
    return text_of(s->taken, "owner");
}

static bool has_fineness(const source *s)
{
    return lml_json_member(s->box, "fineness") || lml_json_member(s->taken, "fineness");
}

/* What it was taken out of; it stays whose it is where no way is said. */
static lml_status put_taken(const lml_alloc *alloc, const lml_entry *entry, const lml_json *box,
                            lml_json_writer *w, lml_error *err)
{
    lml_span from = text_of(box, "taken_from");
    if (from.length == 0 || says(entry, "from"))
        return LML_OK;
    lml_status status = put_field(alloc, lml_span_of("from"), from, w, err);
    if (status == LML_OK && !says(entry, "way"))
        status = put_field(alloc, lml_span_of("way"), lml_span_of("in"), w, err);
    return status;
}

/* Of weighings in one box the later counts, in the metal account too; after a pour it is a further
 * one. Of those of `owner`, unless that is NULL. */
static lml_span corrected_by(const lml_json *record, const char *moment, lml_span what,
                             lml_span way, const lml_span *owner)
{
    lml_span at = {"", 0};
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e)) {
        if (lml_record_late_than(e, moment))
            continue;
        if (lml_standing_is_pour(e))
            at.length = 0;
        else if (lml_span_equal(text_of(e, "what"), what) &&
                 lml_span_equal(text_of(e, "way"), way) &&
                 (!owner || lml_span_equal(text_of(e, "owner"), *owner)))
            at = text_of(e, "at");
    }
    return at;
}

/* An entry that counts cannot say that it is corrected by one that is there already. */
static lml_status refuse_corrected(lml_span what, lml_span by, lml_error *err)
{
    lml_fail(err, LML_USAGE,
             "%.*s is recorded at %.*s already, and of two entries the later counts",
             LML_SPAN_SHOWN(what), LML_SPAN_SHOWN(by));
    lml_error_hint(err,
                   "to correct it, record it with a later moment, or without --at. Nothing was "
                   "recorded");
    return LML_USAGE;
}

/* What was written down after the pour may be the weighing of before it, at the wrong moment. */
static lml_status refuse_twice(lml_span what, lml_span at, lml_error *err)
{
    lml_fail(err, LML_USAGE,
             "%.*s is recorded at %.*s already, after the pour, and both would count in the metal "
             "account",
             LML_SPAN_SHOWN(what), LML_SPAN_SHOWN(at));
    lml_error_hint(err,
                   "if it was weighed once, correct the moment of that entry in the job's "
                   "file; if it was weighed for two pours, add --anyway. Nothing was recorded");
    return LML_USAGE;
}

static lml_status put_way(const lml_alloc *alloc, const lml_entry *entry, const lml_json *record,
                          lml_span what, lml_span way, lml_json_writer *w, lml_error *err)
{
    if (way.length == 0)
        return LML_OK;
    lml_span later = lml_record_late_counts(record, entry->at, what, &way);
    if (later.length > 0)
        return refuse_corrected(what, later, err);
    lml_span at = corrected_by(record, entry->at, what, way, NULL);
    lml_span other = lml_record_late_next_round(record, entry->at, what, way);
    if (at.length == 0 && other.length > 0 && !entry->anyway)
        return refuse_twice(what, other, err);
    lml_status status = put_field(alloc, lml_span_of("way"), way, w, err);
    if (status == LML_OK && at.length > 0)
        status = put_field(alloc, lml_span_of("corrects"), at, w, err);
    return status;
}

static lml_status put_fineness(const lml_alloc *alloc, const source *s, lml_json_writer *w,
                               lml_error *err)
{
    const lml_json *of_box = lml_json_member(s->box, "fineness");
    if (of_box)
        return lml_promise_write(w, lml_span_of("fineness"), of_box, err);
    return put_field(alloc, lml_span_of("fineness"), text_of(s->taken, "fineness"), w, err);
}

/* Whose metal was weighed, what it is taken to be and where it goes, where nobody says it. */
static lml_status put_metal(const lml_alloc *alloc, const lml_entry *entry,
                            const lml_record_known *known, const source *s, lml_span what,
                            lml_json_writer *w, lml_error *err)
{
    lml_span owner = says(entry, "owner") ? (lml_span){"", 0} : owner_of(s);
    lml_status status = LML_OK;
    if (entry->owner)
        owner = lml_span_of(entry->owner);
    if (has_fineness(s) && !says(entry, "fineness"))
        status = put_fineness(alloc, s, w, err);
    if (status == LML_OK && s->box)
        status = put_taken(alloc, entry, s->box, w, err);
    if (status == LML_OK)
        status = put_way(alloc, entry, known->record, what, s->way, w, err);
    if (status == LML_OK && owner.length > 0)
        status = put_field(alloc, lml_span_of("owner"), owner, w, err);
    return status;
}

static lml_status end(const lml_alloc *alloc, const lml_entry *entry, lml_json_writer *w,
                      lml_error *err)
{
    lml_status status = LML_OK;
    if (entry->owner)
        status = put_field(alloc, lml_span_of("owner"), lml_span_of(entry->owner), w, err);
    if (status != LML_OK)
        return status;
    lml_json_write_close(w);
    return lml_json_writer_end(w, err);
}

static lml_status end_metal(const lml_alloc *alloc, const lml_entry *entry,
                            const lml_record_known *known, const source *s, lml_span what,
                            lml_json_writer *w, lml_error *err)
{
    lml_status status = put_metal(alloc, entry, known, s, what, w, err);
    if (status != LML_OK)
        return status;
    lml_json_write_close(w);
    return lml_json_writer_end(w, err);
}

/* ---- a reading ---- */

/* What a scale, a rule, a measuring glass, a thermometer, a clock, a gauge or an ammeter shows: no
 * two of them read the same text. */
static const lml_wanted shown[] = {LML_WANT_MASS,        LML_WANT_LENGTH, LML_WANT_VOLUME,
                                   LML_WANT_TEMPERATURE, LML_WANT_TIME,   LML_WANT_GAUGE,
                                   LML_WANT_CURRENT};

static bool is_shown(lml_wanted kind)
{
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++)
        if (shown[i] == kind)
            return true;
    return false;
}

/* Why a value is no reading, in words. */
static lml_status refuse_value(lml_span name, lml_span value, lml_error *err)
{
    lml_value v;
    lml_status status = lml_read_value(value, LML_WANT_ANYTHING, LML_Au, &v, err);
    if (status != LML_OK)
        return lml_error_context(err, status, "in the reading \"%.*s\"", (int)name.length, name.at);
    lml_fail(err, LML_BAD_VALUE,
             "%.*s: %.*s is not a reading of a scale, a gauge, a thermometer or a clock",
             (int)name.length, name.at, (int)value.length, value.at);
    if (lml_read_value(value, LML_WANT_PRESSURE, LML_NO_METAL, &v, NULL) == LML_OK) {
        lml_error_hint(err,
                       "write %.*s vac if the gauge shows a depth of vacuum (zero in open air), "
                       "%.*s abs if it shows absolute pressure (zero in empty space), or put into "
                       "house.json \"vacuum_gauge\": \"depth\" or \"absolute\"",
                       LML_SPAN_SHOWN(value), LML_SPAN_SHOWN(value));
        return LML_BAD_VALUE;
    }
    lml_error_hint(err, "write its unit, as in 540 °C, 65 min, 25.5 inHg vac, 31.02 g");
    return LML_BAD_VALUE;
}

/* The member of an entry that holds a reading of that kind. */
static const char *member_for(lml_wanted kind)
{
    return kind == LML_WANT_GAUGE ? "vacuum" : lml_wanted_name(kind);
}

static lml_status member_of(lml_span name, lml_span value, lml_wanted *out, lml_error *err)
{
    lml_value v;
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++)
        if (lml_read_value(value, shown[i], LML_NO_METAL, &v, NULL) == LML_OK) {
            *out = shown[i];
            return LML_OK;
        }
    return refuse_value(name, value, err);
}

/* Water may be weighed or measured, whichever of the two is printed. */
static bool goes_with(lml_wanted box, lml_wanted reading)
{
    bool holds = box == LML_WANT_MASS || box == LML_WANT_VOLUME,
         held = reading == LML_WANT_MASS || reading == LML_WANT_VOLUME;
    bool of_gauge = box == LML_WANT_VACUUM || box == LML_WANT_PRESSURE;
    if (of_gauge)
        return reading == LML_WANT_GAUGE;
    return !is_shown(box) || box == reading || (holds && held);
}

/* Several readings have no other check than their names, so each must be a box's. */
static lml_status check_called(const lml_box *box, lml_span name, lml_error *err)
{
    if (box->all == 0 || box->count > 0) /* the job cannot be run, or has no boxes */
        return LML_OK;
    lml_fail(err, LML_USAGE, "no box on this job's sheets is called \"%.*s\"", (int)name.length,
             name.at);
    if (lml_boxes_near(box).length > 0) {
        lml_error_hint(err, "did you mean \"%.*s\"? Nothing was recorded",
                       LML_SPAN_SHOWN(lml_boxes_near(box)));
        return LML_USAGE;
    }
    lml_error_hint(err, "name it as the box on the bench sheet. Nothing was recorded");
    return LML_USAGE;
}

static lml_status check_box(const lml_box *box, lml_span name, lml_span value, lml_wanted kind,
                            lml_error *err)
{
    if (box->count == 0)
        return LML_OK;
    if (box->count > 1) {
        lml_fail(err, LML_USAGE, "%zu boxes of this job are called \"%.*s\"", box->count,
                 (int)name.length, name.at);
        lml_error_hint(err, "give the parts different names in the job, so that each box has "
                            "its own name. Nothing was recorded");
        return LML_USAGE;
    }
    if (box->kind == LML_WANT_TEXT) {
        lml_fail(err, LML_USAGE, "the box \"%.*s\" is ticked, not read", (int)name.length, name.at);
        lml_error_hint(err,
                       "record it separately: lemel record JOB \"%.*s\" --at now. Nothing was "
                       "recorded",
                       (int)name.length, name.at);
        return LML_USAGE;
    }
    if (!goes_with(box->kind, kind)) {
        lml_fail(err, LML_USAGE, "the box \"%.*s\" takes %s, but %.*s is %s", (int)name.length,
                 name.at, lml_wanted_words(box->kind), (int)value.length, value.at,
                 lml_wanted_words(kind));
        lml_error_hint(err, "are two readings swapped? Nothing was recorded");
        return LML_USAGE;
    }
    return LML_OK;
}

/* Of "10.12 dwt", as it is printed; empty where that is no figure and unit. */
static lml_span unit_of(lml_span text)
{
    const char *blank = memchr(text.at, ' ', text.length);
    return blank ? lml_span_between(blank + 1, text.at + text.length) : (lml_span){"", 0};
}

/* The reading in the unit of the sheet, to compare the two. */
static void put_also(const lml_box *box, lml_span value, lml_wanted kind, lml_builder *also)
{
    const lml_json *printed = lml_json_member(box->entry, "value");
    lml_span unit = unit_of(text_of(printed, "text"));
    lml_value v, there;
    if (unit.length == 0 || lml_read_value(text_of(printed, "text"), kind, LML_NO_METAL, &v, NULL))
        unit = text_of(printed ? printed : box->entry, "unit"); /* of a box without a figure */
    if (unit.length > 0 && box->count == 1 &&
        lml_read_value(value, kind, LML_NO_METAL, &v, NULL) == LML_OK &&
        lml_show_value_in(&v, unit, &there, NULL) == LML_OK && !lml_unit_equal(there.unit, v.unit))
        lml_show_value(&there, also);
}

/* Who says way, owner or lot means metal of their own beside what the sheet prints. */
static bool is_aside(const lml_entry *entry)
{
    return says(entry, "way") || says_owner(entry) || says(entry, "from");
}

static lml_status put_reading(const lml_entry *entry, const lml_record_known *known,
                              const lml_box *box, lml_span name, lml_span value, lml_json_writer *w,
                              lml_wanted *kind, lml_builder *also, lml_error *err)
{
    lml_builder room = lml_builder_on(w->to->alloc, 0);
    value = said_of_gauge(known, value, &room);
    lml_status status = lml_builder_status(&room, err);
    if (status == LML_OK)
        status = member_of(name, value, kind, err);
    if (status == LML_OK && !entry->what)
        status = check_called(box, name, err);
    if (status == LML_OK)
        status = check_box(box, name, value, *kind, err);
    if (status == LML_OK && !entry->anyway)
        status = lml_record_far_check(box, entry, is_aside(entry), known->record, name, value,
                                      *kind, err);
    if (status == LML_OK)
        status = put_field(w->to->alloc, lml_span_of(member_for(*kind)), value, w, err);
    if (status == LML_OK)
        put_also(box, value, *kind, also);
    lml_builder_free(&room);
    return status;
}

static lml_status refuse_second(const lml_entry *entry, const char *first, const char *second,
                                lml_error *err)
{
    lml_fail(err, LML_USAGE, "\"%s\" has two readings, %s and %s", entry->what, first, second);
    lml_error_hint(err, "an entry has one; name what else it gives, as in fineness=\"585 ‰\", or "
                        "record several boxes with --all");
    return LML_USAGE;
}

/* What counts in the metal account counts whatever is recorded later, so nothing it needs may be
 * missing. */
static lml_status check_counted(const lml_entry *entry, const source *s, bool weighed,
                                lml_error *err)
{
    bool owner = says_owner(entry) || (weighed && owner_of(s).length > 0),
         fineness = says(entry, "fineness") || (weighed && has_fineness(s)),
         melted = lml_span_is(s->way, MELTED);
    if (melted && !says(entry, "from")) {
        lml_fail(err, LML_USAGE, "\"%s\" is melted again, but out of what?", entry->what);
        lml_error_hint(err, "add from=button, as the entry of what is melted is called. Nothing "
                            "was recorded");
        return LML_USAGE;
    }
    if (!(says(entry, "way") || melted) || (weighed && fineness && owner))
        return LML_OK;
    lml_fail(err, LML_USAGE, "\"%s\" has a way, so it counts in the metal account, but has no %s",
             entry->what,
             !weighed    ? "mass"
             : !fineness ? "fineness"
                         : "owner");
    lml_error_hint(err, "add %s, or leave way out while it is not known. Nothing was recorded",
                   !weighed    ? "what the scale shows, such as \"8.62 g\""
                   : !fineness ? "fineness=\"750 ‰\""
                               : "owner=client or owner=studio");
    return LML_USAGE;
}

/* What a box counts needs its fineness, which the box does not print while a stop withholds it. */
static lml_status check_withheld(const lml_entry *entry, const source *s, bool weighed,
                                 lml_span name, lml_error *err)
{
    if (!weighed || !s->box || s->way.length == 0 || says(entry, "fineness") || has_fineness(s))
        return LML_OK;
    lml_fail(err, LML_USAGE,
             "\"%.*s\" counts in the metal account, but its fineness is withheld by %.*s",
             LML_SPAN_SHOWN(name), LML_SPAN_SHOWN(text_of(s->box, "withheld_by")));
    lml_error_hint(err, "resolve that first (lemel check lists it), or record it by itself with "
                        "its fineness, such as fineness=\"750 ‰\". Nothing was recorded");
    return LML_USAGE;
}

/* The names of what lies here by the record, as far as they fit. */
static void list_here(const lml_json *record, char *out, size_t size)
{
    size_t used = 0;
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e)) {
        lml_span what = text_of(e, "what");
        if (lml_span_is(text_of(e, "way"), "here") && used + what.length + 4 < size)
            used += (size_t)snprintf(out + used, size - used, "%s%.*s", used > 0 ? "; " : "",
                                     LML_SPAN_SHOWN(what));
    }
}

/* What it is taken from is in this record, or in that of another job, which from names. */
static lml_status check_from(const lml_entry *entry, const lml_json *record, lml_error *err)
{
    const char *from = word_of(entry, "from");
    if (!from || entry->anyway || strstr(from, ": "))
        return LML_OK;
    char here[160] = "nothing yet";
    lml_nearest near = lml_nearest_to(lml_span_of(from));
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e)) {
        if (lml_span_is(text_of(e, "what"), from))
            return LML_OK;
        lml_nearest_offer(&near, text_of(e, "what"));
    }
    list_here(record, here, sizeof here);
    lml_fail(err, LML_USAGE, "\"%s\" is taken from \"%s\", but this job's record has no such entry",
             entry->what, from);
    if (lml_nearest_found(&near))
        lml_error_hint(err,
                       "did you mean from=\"%.*s\"? For another job's lot write from=\"JOB: "
                       "LOT\". Nothing was recorded",
                       LML_SPAN_SHOWN(near.best));
    else
        lml_error_hint(err,
                       "here are: %s. For another job's lot write from=\"JOB: LOT\"; for one "
                       "in another file of this job add --anyway. Nothing was recorded",
                       here);
    return LML_USAGE;
}

/* No more is taken out of a lot than is there. Of what settles the metal account knows more. */
static lml_status check_left(const lml_entry *entry, const lml_json *record, const char *mass,
                             lml_error *err)
{
    const char *from = word_of(entry, "from"), *way = word_of(entry, "way"),
               *corrects = word_of(entry, "corrects");
    if (!from || !mass || entry->anyway || (way && strcmp(way, "settled") == 0))
        return LML_OK;
    return lml_record_far_check_from(record, lml_span_of(entry->what), lml_span_of(mass), from,
                                     lml_span_of(corrects ? corrects : ""), err);
}

/* What settles is taken out of a lot: without one it would be here twice. */
static lml_status check_settled(const lml_entry *entry, const lml_json *record, const source *s,
                                lml_error *err)
{
    const char *way = word_of(entry, "way"), *from = word_of(entry, "from");
    if (!way || strcmp(way, "settled") != 0 || s->taken)
        return LML_OK;
    lml_nearest near = lml_nearest_to(lml_span_of(from));
    for (const lml_json *e = lml_json_first(record); e && from; e = lml_json_next(e))
        if (lml_span_is(text_of(e, "way"), "here"))
            lml_nearest_offer(&near, text_of(e, "what"));
    if (from)
        lml_fail(err, LML_USAGE,
                 "\"%s\" is to be settled from \"%s\", but the record has no entry of that name "
                 "with an owner and a fineness",
                 entry->what, from);
    else
        lml_fail(err, LML_USAGE,
                 "\"%s\" has the way settled, but no from: which lot is it taken from?",
                 entry->what);
    if (lml_nearest_found(&near))
        lml_error_hint(err, "did you mean from=\"%.*s\"? Nothing was recorded",
                       LML_SPAN_SHOWN(near.best));
    else
        lml_error_hint(err, "give the lot as its entry is called, such as from=\"filings\". "
                            "Nothing was recorded");
    return LML_USAGE;
}

/* Of two weighings of one name and owner each counts: what is typed again may be meant to replace.
 * Something may be added to one melt twice. */
static lml_status check_twice(const lml_entry *entry, const lml_json *record, const source *s,
                              lml_error *err)
{
    static const char *const ways[] = {"in", "piece", "here", "returned", "kept", "sent"};
    const char *way = word_of(entry, "way"), *owner = word_of(entry, "owner");
    bool again = way && s->way.length == 0 && !says(entry, "from") && !says(entry, "corrects"),
         counts = false;
    for (size_t i = 0; again && i < sizeof ways / sizeof *ways; i++)
        counts = counts || strcmp(way, ways[i]) == 0;
    if (!counts || entry->anyway)
        return LML_OK;
    lml_span whose = owner          ? lml_span_of(owner)
                     : entry->owner ? lml_span_of(entry->owner)
                                    : owner_of(s);
    lml_span at =
        corrected_by(record, entry->at, lml_span_of(entry->what), lml_span_of(way), &whose);
    if (at.length == 0)
        return LML_OK;
    lml_fail(err, LML_USAGE,
             "%s is recorded at %.*s already, and both would count in the metal account",
             entry->what, LML_SPAN_SHOWN(at));
    lml_error_hint(err,
                   "if this one replaces it, add corrects=%.*s; if it is more metal, add "
                   "--anyway. Nothing was recorded",
                   LML_SPAN_SHOWN(at));
    return LML_USAGE;
}

/* For metal without a box on the sheets nothing else says whose it is: an entry of a mass alone
 * would be in no account, unnoticed. */
static lml_status check_named(const lml_entry *entry, const lml_box *box, const source *s,
                              bool weighed, lml_error *err)
{
    bool whose = (says_owner(entry) && says(entry, "fineness")) || lml_span_is(s->way, MELTED);
    if (!weighed || box->all == 0 || box->count > 0 || whose || says(entry, "way") ||
        says(entry, "note"))
        return LML_OK;
    lml_fail(err, LML_USAGE,
             "no box on this job's sheets is called \"%s\", and the entry does not say whose metal "
             "that is",
             entry->what);
    if (lml_boxes_near(box).length > 0) {
        lml_error_hint(err,
                       "did you mean \"%.*s\"? If not, add owner, fineness and way, or a note. "
                       "Nothing was recorded",
                       LML_SPAN_SHOWN(lml_boxes_near(box)));
        return LML_USAGE;
    }
    lml_error_hint(err,
                   "add owner=client, fineness=\"750 ‰\" and way=here, or note=\"WHY\" if it is "
                   "in no account. Nothing was recorded");
    return LML_USAGE;
}

lml_status lml_record_entry(const lml_entry *entry, const lml_record_known *known, lml_builder *out,
                            lml_builder *also, lml_error *err)
{
    lml_span what = lml_span_of(entry->what);
    lml_box box = lml_boxes_find(known->result, what);
    source from = source_of(entry, known, &box);
    lml_wanted kind = LML_WANT_ANYTHING;
    const char *reading = NULL;
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_status status = begin(out->alloc, entry, what, &w, err);
    if (status == LML_OK && !entry->anyway)
        status = lml_record_gate_check(out->alloc, known->result, what, entry->at, err);
    if (status == LML_OK && box.count == 0)
        status = lml_record_gate_check_back(known->record, entry, what, err);
    for (size_t i = 0; i < entry->count && status == LML_OK; i++) {
        const char *word = entry->word[i];
        if (from.way.length > 0 && lml_span_starts(lml_span_of(word), "way=")) {
            continue; /* it is written with the box's own members */
        } else if (strchr(word, '=')) {
            status = put_word(known, word, &w, err);
        } else if (reading) {
            return refuse_second(entry, reading, word, err);
        } else {
            reading = word;
            status = put_reading(entry, known, &box, what, lml_span_of(word), &w, &kind, also, err);
        }
    }
    if (status == LML_OK && reading && says(entry, member_for(kind)))
        return lml_fail(err, LML_USAGE, "%s is given twice", member_for(kind));
    const char *mass = word_of(entry, "mass");
    bool weighed = kind == LML_WANT_MASS || mass;
    if (status == LML_OK && mass && !entry->anyway)
        status = lml_record_far_check(&box, entry, is_aside(entry), known->record, what,
                                      lml_span_of(mass), LML_WANT_MASS, err);
    if (status == LML_OK)
        status = lml_record_late_check(known->record, entry, what, word_of(entry, "from"), err);
    if (status == LML_OK)
        status = check_from(entry, known->record, err);
    if (status == LML_OK)
        status = check_settled(entry, known->record, &from, err);
    if (status == LML_OK)
        status = check_left(entry, known->record, mass ? mass : weighed ? reading : NULL, err);
    if (status == LML_OK)
        status = check_counted(entry, &from, weighed, err);
    if (status == LML_OK)
        status = check_withheld(entry, &from, weighed, what, err);
    if (status == LML_OK)
        status = check_twice(entry, known->record, &from, err);
    if (status == LML_OK)
        status = check_named(entry, &box, &from, weighed, err);
    if (status != LML_OK)
        return status;
    return weighed ? end_metal(out->alloc, entry, known, &from, what, &w, err)
                   : end(out->alloc, entry, &w, err);
}

lml_status lml_record_entry_reading(const lml_entry *entry, const lml_record_known *known,
                                    const char *word, lml_builder *out, lml_builder *also,
                                    lml_error *err)
{
    const char *equals = strchr(word, '=');
    if (!equals || equals == word) {
        lml_fail(err, LML_USAGE, "\"%s\" is not a box and its reading", word);
        lml_error_hint(err, "write \"NAME=READING\", such as \"flask held=65 min\"; without --all "
                            "an entry may be a name alone");
        return LML_USAGE;
    }
    lml_span name = lml_span_between(word, equals), value = lml_span_of(equals + 1);
    lml_wanted kind = LML_WANT_ANYTHING;
    lml_box box = lml_boxes_find(known->result, name);
    source from = source_of(entry, known, &box);
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_status status = begin(out->alloc, entry, name, &w, err);
    if (status == LML_OK)
        status = put_reading(entry, known, &box, name, value, &w, &kind, also, err);
    if (status == LML_OK)
        status = lml_record_late_check(known->record, entry, name, NULL, err);
    if (status == LML_OK)
        status = check_withheld(entry, &from, kind == LML_WANT_MASS, name, err);
    if (status != LML_OK)
        return status;
    return kind == LML_WANT_MASS ? end_metal(out->alloc, entry, known, &from, name, &w, err)
                                 : end(out->alloc, entry, &w, err);
}
