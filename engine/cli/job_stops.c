#include "cli/job_stops.h"

#include "cli/ask.h"
#include "sheet/layout.h"

#include <stdio.h>
#include <string.h>

/* The command that confirms a point, to be copied. */
static void tell_how(const char *shown, lml_span code, lml_layout *layout)
{
    lml_builder_add_text(layout->out, "       lemel confirm ");
    lml_layout_put_word(layout->out, lml_span_of(shown));
    lml_builder_add_char(layout->out, ' ');
    lml_layout_put(layout->out, code);
    lml_builder_add_text(layout->out, " --by WHO --reason WHY\n");
}

/* A point is told with the command that confirms it; a stop has none: the job is corrected. */
static size_t tell_level(const lml_json *result, const char *level, const char *shown,
                         lml_layout *layout)
{
    bool confirm = shown != NULL;
    size_t count = 0;
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    for (; r; r = lml_json_next(r)) {
        if (!lml_span_is(lml_json_text(lml_json_member(r, "level")), level))
            continue;
        lml_span text = lml_json_text(lml_json_member(r, "text"));
        lml_span code = lml_json_text(lml_json_member(r, "code"));
        lml_builder line = lml_builder_on(layout->out->alloc, 0);
        lml_builder_add_format(&line, "%s  %.*s [%.*s]", confirm ? "ASK" : "STOP",
                               LML_SPAN_SHOWN(text), LML_SPAN_SHOWN(code));
        lml_layout_text(layout, 2, (lml_span){line.at, line.length});
        lml_builder_free(&line);
        if (confirm)
            tell_how(shown, code, layout);
        count++;
    }
    return count;
}

lml_status lml_job_stops_tell(const lml_call *call, const lml_kit *kit, const lml_job_text *job,
                              lml_builder *out, lml_error *err)
{
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_json_document *result = NULL;
    bool stopped = false;
    lml_status status = lml_ask_run(kit, job, &answer, &stopped, err);
    if (status == LML_OK && stopped)
        status = lml_ask_parse(call, &answer, &result, err);
    if (result) {
        lml_layout layout = {.out = out, .width = call->width, .bold = call->bold};
        size_t stops = tell_level(lml_json_root(result), "stop", NULL, &layout);
        size_t points = tell_level(lml_json_root(result), "confirm", job->shown, &layout);
        char counted[80] = "";
        if (stops > 0)
            snprintf(counted, sizeof counted, "%zu stop%s%s", stops, stops == 1 ? "" : "s",
                     points > 0 ? ", and " : "");
        if (points > 0)
            snprintf(counted + strlen(counted), sizeof counted - strlen(counted),
                     "%zu point%s to confirm", points, points == 1 ? "" : "s");
        status = lml_fail(err, LML_STOPPED,
                          "%s: the job file is complete, but it has %s:", job->shown, counted);
    }
    lml_json_free(result);
    lml_builder_free(&answer);
    return status;
}
