/* The points of a job that a person has to confirm, asked one after the other. */
#include "cli/boxes.h"
#include "cli/session.h"
#include "sheet/layout.h"

#include <stdio.h>
#include <string.h>

enum { CODE = 200, WHO = 200 };

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* The open point behind the `skip` that were left open. */
static const lml_json *point_of(const lml_json *result, size_t skip)
{
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    for (; r; r = lml_json_next(r))
        if (lml_span_is(text_of(r, "level"), "confirm") && skip-- == 0)
            return r;
    return NULL;
}

typedef struct decision {
    lml_text result;
    char code[CODE], reason[LML_LINE_MOST / 64], by[WHO];
} decision;

static lml_status put(lml_session *s, void *self, lml_builder *after, lml_error *err)
{
    decision *d = self;
    const lml_confirmation said = {.code = d->code, .by = d->by, .reason = d->reason};
    lml_engine *engine = NULL;
    lml_text result = {.text = NULL}, text = {.text = NULL};
    lml_status status = lml_ask_engine(s->call, &engine, err);
    if (status == LML_OK) /* of the job as it is under the lock */
        status = lml_boxes_read(s->call, s->path, &s->text, &result, err);
    if (status == LML_OK)
        status = lml_engine_confirm(engine, s->text.at, s->text.length, s->path, &result, &said,
                                    &text, NULL, err);
    if (status == LML_OK)
        lml_builder_add(after, text.text, text.length);
    if (engine)
        lml_text_free(engine, &text);
    lml_boxes_end(s->call, &result);
    lml_engine_free(engine);
    return status;
}

static lml_status ask_point(lml_session *s, const lml_json *point, decision *d, size_t *skip,
                            lml_error *err)
{
    lml_builder *out = &s->call->out;
    snprintf(d->code, sizeof d->code, "%.*s", LML_SPAN_SHOWN(text_of(point, "code")));
    d->reason[0] = '\0';
    lml_builder_add_text(out, "\nTo confirm: ");
    lml_layout_put(out, text_of(point, "text"));
    lml_builder_add_char(out, '\n');
    lml_status status =
        lml_session_ask_for(s, "Reason to accept it", d->reason, sizeof d->reason, err);
    if (status == LML_OK && !s->ended && d->reason[0])
        status = lml_session_ask_for(s, "Who decides it?", d->by, sizeof d->by, err);
    if (status != LML_OK || s->ended || !d->reason[0] || !d->by[0]) {
        ++*skip;
        return status;
    }
    return lml_session_write(s, put, d, err);
}

lml_status lml_session_confirm(lml_session *s, lml_error *err)
{
    decision d = {.by = ""};
    size_t skip = 0;
    lml_status status = LML_OK;
    for (bool any = true; status == LML_OK && any && !s->ended;) {
        lml_json_document *result = NULL;
        lml_text text = {.text = NULL};
        status = lml_boxes_read(s->call, s->path, &s->text, &text, err);
        if (status == LML_OK)
            status = lml_ask_parse_span(s->call, (lml_span){text.text, text.length}, &result, err);
        const lml_json *point = result ? point_of(lml_json_root(result), skip) : NULL;
        any = point != NULL;
        if (point)
            status = ask_point(s, point, &d, &skip, err);
        lml_json_free(result);
        lml_boxes_end(s->call, &text);
    }
    return status;
}
