/* What would mend a stop of a job, asked once the job was run: the remark says which question. */
#include "cli/session.h"
#include "sheet/layout.h"

#include <stdio.h>
#include <string.h>

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* The next remark that names a question which was not asked yet; its line goes into `asked`. */
static const lml_json *next_of(const lml_json *result, lml_builder *asked)
{
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    for (; r; r = lml_json_next(r)) {
        lml_span question = text_of(r, "ask");
        if (question.length == 0 || lml_span_is_line_of(question, lml_builder_span(asked)))
            continue;
        lml_builder_add_span(asked, question);
        lml_builder_add_char(asked, '\n');
        return r;
    }
    return NULL;
}

/* A remark of a recipe that this job uses may name a question that the job itself does not have:
 * then its words are all there is. */
static lml_status ask_for(lml_session *s, const lml_json *remark, lml_error *err)
{
    char at[LML_JSON_PATH];
    lml_span ask = text_of(remark, "ask");
    bool whole = lml_span_starts(ask, "house.");
    snprintf(at, sizeof at, "%s%.*s", whole ? "" : "given.", LML_SPAN_SHOWN(ask));
    lml_builder_add_char(&s->call->out, '\n');
    lml_layout_put(&s->call->out, text_of(remark, "text"));
    lml_builder_add_char(&s->call->out, '\n');
    lml_status status = lml_session_ask_one(s, at, err);
    return status == LML_USAGE ? LML_OK : status;
}

lml_status lml_session_mend(lml_session *s, const lml_text *ran, lml_builder *asked, bool *any,
                            lml_error *err)
{
    lml_json_document *result = NULL;
    lml_status status =
        lml_ask_parse_span(s->call, (lml_span){ran->text, ran->length}, &result, err);
    const lml_json *remark = result ? next_of(lml_json_root(result), asked) : NULL;
    *any = remark != NULL;
    if (remark)
        status = ask_for(s, remark, err);
    lml_json_free(result);
    return status == LML_OK ? lml_builder_status(asked, err) : status;
}
