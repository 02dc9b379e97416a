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

/* A stop, a point to confirm, or that a piece of the receipt is still here. */
static bool is_open(const lml_json *remark)
{
    static const char RECEIPT[] = "/receipt-open";
    lml_span level = text_of(remark, "level"), code = text_of(remark, "code");
    return lml_span_is(level, "stop") || lml_span_is(level, "confirm") ||
           (code.length > strlen(RECEIPT) &&
            memcmp(code.at + code.length - strlen(RECEIPT), RECEIPT, strlen(RECEIPT)) == 0);
}

static void tell_open(const char *shown, const lml_json *result, lml_builder *out)
{
    bool any = false;
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    for (; r; r = lml_json_next(r)) {
        if (!is_open(r))
            continue;
        lml_builder_add_text(out, any ? "" : "  before it is closed:\n");
        lml_builder_add_text(out, "    ");
        lml_layout_put(out, text_of(r, "text"));
        lml_builder_add_char(out, '\n');
        any = true;
    }
    if (!any)
        lml_builder_add_format(out, "  ready to be closed: lemel close %s\n", shown);
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
        lml_builder_add_text(out, "  before it is closed:\n");
        lml_complain_write(&error, out);
    } else if (status == LML_OK) {
        status = lml_ask_parse(call, &answer, &result, err);
        if (status == LML_OK)
            tell_open(job->shown, lml_json_root(result), out);
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
    if (status == LML_OK && offers.accepted)
        status = try_closing(call, kit, job, out, err);
    else if (status == LML_OK && offers.offer && !offers.withdrawn)
        lml_builder_add_format(out,
                               "  offered, but not accepted yet: lemel offer %s --accepted --by "
                               "WHO\n",
                               job->shown);
    lml_json_free(doc);
    return status;
}
