#include "cli/closing_open.h"

#include "cli/ask.h"
#include "cli/closing_day.h"
#include "file/offers.h"
#include "sheet/complain.h"
#include "sheet/layout.h"

#include <string.h>

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* ---- what is still needed ---- */

typedef struct steps {
    const lml_json *list; /* as the closing gives it: what, how, codes */
    const char *shown, *heading;
    lml_layout layout;
    int count;
} steps;

static const char before[] = "  before it is closed:\n";

/* What is within a datum of a result. */
static const lml_json *value_of(const lml_json *record, const char *name)
{
    return lml_json_member(lml_json_member(record, name), "value");
}

/* `text`, with the job's file in the place of JOB. */
static void put_command(steps *s, lml_span text)
{
    static const char JOB[] = "JOB";
    const char *at = strstr(text.at, JOB);
    lml_builder_add_text(s->layout.out, "       ");
    if (!at || at >= text.at + text.length) {
        lml_layout_put(s->layout.out, text);
    } else {
        lml_layout_put(s->layout.out, lml_span_between(text.at, at));
        lml_layout_put_word(s->layout.out, lml_span_of(s->shown));
        lml_layout_put(s->layout.out, lml_span_between(at + strlen(JOB), text.at + text.length));
    }
    lml_builder_add_char(s->layout.out, '\n');
}

static void put_step(steps *s, lml_span what, lml_span how)
{
    lml_builder number = lml_builder_on(s->layout.out->alloc, 0);
    if (s->count++ == 0)
        lml_builder_add_text(s->layout.out, s->heading);
    lml_builder_add_format(&number, "%d", s->count);
    const lml_cell cells[] = {{{number.at, number.length}, 4, 3, false},
                              {what, 7, s->layout.width - 7, false}};
    lml_layout_row(&s->layout, cells, 2);
    lml_builder_free(&number);
    if (how.length > 0)
        put_command(s, how);
}

/* Whether a step resolves the point: its codes name that, or the recipe of the step below it. */
static bool is_resolved(const steps *s, lml_span code)
{
    for (const lml_json *step = lml_json_first(s->list); step; step = lml_json_next(step))
        for (const lml_json *c = lml_json_first(value_of(lml_json_member(step, "value"), "codes"));
             c; c = lml_json_next(c)) {
            lml_span named = text_of(c, "value");
            if (named.length > 0 && code.length >= named.length &&
                memcmp(code.at + code.length - named.length, named.at, named.length) == 0)
                return true;
        }
    return false;
}

/* That the account says nothing yet is no step where what the account waits for is one. */
static bool waits_for_account(const lml_json *remarks, lml_span code)
{
    static const char ACCOUNT[] = "account/";
    bool waits = false;
    for (const lml_json *r = lml_json_first(remarks); r && !waits; r = lml_json_next(r)) {
        lml_span level = text_of(r, "level"), own = text_of(r, "code");
        waits = (lml_span_is(level, "confirm") || lml_span_is(level, "stop")) &&
                own.length > strlen(ACCOUNT) && memcmp(own.at, ACCOUNT, strlen(ACCOUNT)) == 0;
    }
    return waits && lml_span_is(code, "closing/metal-open");
}

/* A stop is told; a point to confirm with the command that confirms it. */
static void put_point(steps *s, const lml_json *remark, lml_span typed, bool confirm)
{
    lml_span level = text_of(remark, "level"), code = text_of(remark, "code");
    lml_builder how = lml_builder_on(s->layout.out->alloc, 0);
    if (!lml_span_is(level, confirm ? "confirm" : "stop") || is_resolved(s, code))
        return;
    if (confirm)
        lml_builder_add_format(&how, "lemel confirm JOB %.*s%s%.*s --by WHO --reason WHY",
                               LML_SPAN_SHOWN(code), typed.length > 0 ? " " : "",
                               LML_SPAN_SHOWN(typed));
    put_step(s, text_of(remark, "text"), (lml_span){how.at ? how.at : "", how.length});
    lml_builder_free(&how);
}

/* The steps of before it is closed, or of after that. */
static steps put_steps(const lml_call *call, const lml_json *result, const char *shown, bool closed,
                       lml_builder *out)
{
    steps s = {.list = value_of(lml_json_member(result, "results"), "to_do"),
               .shown = shown,
               .heading = closed ? "  once it is closed:\n" : before,
               .layout = {.out = out, .width = call->width, .bold = call->bold}};
    for (const lml_json *step = lml_json_first(s.list); step; step = lml_json_next(step)) {
        const lml_json *is = lml_json_member(step, "value");
        if (lml_json_yes(value_of(is, "after")) == closed)
            put_step(&s, lml_json_text(value_of(is, "what")), lml_json_text(value_of(is, "how")));
    }
    return s;
}

void lml_closing_open_after(const lml_call *call, const lml_json *result, const char *shown,
                            lml_builder *out)
{
    (void)put_steps(call, result, shown, true, out);
}

bool lml_closing_open_steps(const lml_call *call, const lml_json *result, const char *shown,
                            lml_span typed, lml_builder *out)
{
    steps s = put_steps(call, result, shown, false, out);
    const lml_json *remarks = lml_json_member(result, "remarks");
    for (const lml_json *r = lml_json_first(remarks); r; r = lml_json_next(r))
        if (!waits_for_account(remarks, text_of(r, "code")))
            put_point(&s, r, typed, false);
    /* Last, as any figure that changes opens a confirmed point again. */
    for (const lml_json *r = lml_json_first(remarks); r; r = lml_json_next(r))
        put_point(&s, r, typed, true);
    return s.count > 0;
}

static void tell_open(const lml_call *call, const char *shown, const lml_json *result,
                      lml_builder *out)
{
    if (lml_closing_open_steps(call, result, shown, (lml_span){"", 0}, out))
        return;
    lml_builder_add_text(out, "  ready to be closed: lemel close ");
    lml_layout_put_word(out, lml_span_of(shown));
    lml_builder_add_char(out, '\n');
    lml_closing_open_after(call, result, shown, out);
}

static lml_status try_closing(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                              lml_builder *out, lml_error *err)
{
    lml_job_text own = {
        .text = lml_builder_on(&call->alloc, 0), .shown = job->shown, .closing = true};
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_json_document *result = NULL;
    lml_error error;
    bool stopped;
    lml_builder_add(&own.text, job->text.at, job->text.length);
    lml_status status = lml_builder_status(&own.text, err);
    if (status == LML_OK)
        status = lml_closing_day_put(call, false, &own, err);
    if (status == LML_OK && lml_ask_run(kit, &own, &answer, &stopped, &error) != LML_OK) {
        lml_builder_add_text(out, before);
        lml_complain_write(&error, out);
    } else if (status == LML_OK) {
        status = lml_ask_parse(call, &answer, &result, err);
        if (status == LML_OK)
            tell_open(call, job->shown, lml_json_root(result), out);
    }
    lml_json_free(result);
    lml_builder_free(&answer);
    lml_builder_free(&own.text);
    return status;
}

lml_status lml_closing_open_tell(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                                 lml_builder *out, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_offers offers;
    lml_status status = lml_json_read(&call->alloc, (lml_span){job->text.at, job->text.length},
                                      NULL, job->shown, &doc, err);
    if (status == LML_OK)
        status = lml_offers_read(&call->alloc, lml_json_member(lml_json_root(doc), "offers"),
                                 &offers, err);
    if (status == LML_OK && offers.offer && !offers.withdrawn)
        status = try_closing(call, kit, job, out, err);
    lml_json_free(doc);
    return status;
}
