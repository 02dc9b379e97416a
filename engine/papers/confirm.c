/* Confirm: what a person decided on an open point, put into the text of a job. */
#include "base/locale.h"
#include "face/engine.h"
#include "file/digest.h"
#include "file/json_write.h"
#include "file/splice.h"
#include "papers/paper.h"

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* The open point of that code on the sheets of the job. */
static lml_status find_point(const lml_json *result, lml_span code, const lml_json **out,
                             lml_error *err)
{
    lml_nearest near = lml_nearest_to(code);
    size_t open = 0;
    const lml_json *first = NULL;
    const lml_json *remark = lml_json_first(lml_json_member(result, "remarks"));
    for (; remark; remark = lml_json_next(remark)) {
        lml_span level = member_text(remark, "level"), own = member_text(remark, "code");
        if (lml_span_equal(own, code) && lml_span_is(level, "confirmed"))
            return lml_fail(err, LML_BAD_DATA, "%.*s is already confirmed", (int)code.length,
                            code.at);
        if (lml_span_equal(own, code) && lml_span_is(level, "stop")) {
            lml_fail(err, LML_BAD_DATA, "%.*s is a stop, which cannot be confirmed",
                     (int)code.length, code.at);
            lml_error_hint(err, "fix what it says");
            return LML_BAD_DATA;
        }
        if (!lml_span_is(level, "confirm"))
            continue;
        if (lml_span_equal(own, code)) {
            *out = remark;
            return LML_OK;
        }
        lml_nearest_offer(&near, own);
        first = first ? first : remark;
        open++;
    }
    lml_fail(err, LML_BAD_DATA, "this job has no open point called %.*s", (int)code.length,
             code.at);
    if (lml_nearest_found(&near)) {
        lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
        return LML_BAD_DATA;
    }
    if (open == 0) {
        lml_error_hint(err, "no point is open");
        return LML_BAD_DATA;
    }
    lml_span name = member_text(first, "code");
    lml_error_hint(err, "%zu open: %.*s%s", open, (int)name.length, name.at,
                   open > 1 ? " and others" : "");
    return LML_BAD_DATA;
}

/* What is about this job holds for no other. */
static lml_status check_all_jobs(const lml_json *point, lml_span code, lml_error *err)
{
    if (lml_json_yes(lml_json_member(point, "all_jobs")))
        return LML_OK;
    lml_fail(err, LML_BAD_DATA, "%.*s is about this job, so it cannot be confirmed for all jobs",
             (int)code.length, code.at);
    lml_error_hint(err, "confirm it in the job: leave --all and --until out");
    return LML_BAD_DATA;
}

static lml_status write_entry(const lml_confirmation *said, lml_span text, lml_builder *out,
                              lml_error *err)
{
    char digest[LML_DIGEST_TEXT];
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    if (said->until) {
        lml_digest_of(text, digest);
        lml_json_write_member(&w, "code", said->code);
        lml_json_write_member(&w, "digest", digest);
    }
    lml_json_write_member(&w, "reason", said->reason);
    lml_json_write_member(&w, "by", said->by);
    if (said->until)
        lml_json_write_member(&w, "until", said->until);
    lml_json_write_name(&w, lml_span_of("text"));
    lml_json_write_text(&w, text);
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

static lml_status write_report(const lml_json *result, const lml_json *point, lml_builder *out,
                               lml_error *err)
{
    static const char *const names[][2] = {{"confirmed", "code"}, {"text", "text"}};
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    for (int i = 0; i < 2; i++) {
        lml_json_write_name(&w, lml_span_of(names[i][0]));
        lml_json_write_text(&w, member_text(point, names[i][1]));
    }
    if (lml_json_yes(lml_json_member(result, "closing"))) {
        lml_json_write_name(&w, lml_span_of("closing"));
        lml_json_write_yes_no(&w, true);
    }
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

static lml_status confirm(lml_span job, const char *shown, const lml_json *result,
                          const lml_confirmation *said, lml_builder *after, lml_builder *report,
                          lml_error *err)
{
    lml_span code = lml_span_of(said->code);
    const lml_json *point = NULL;
    lml_builder entry = lml_builder_on(after->alloc, 0);
    lml_status status = find_point(result, code, &point, err);
    if (status == LML_OK && said->until)
        status = check_all_jobs(point, code, err);
    if (status == LML_OK)
        status = write_entry(said, member_text(point, "text"), &entry, err);
    lml_span put = {entry.at, entry.length};
    if (status == LML_OK)
        status = said->until ? lml_splice_house_confirmed(job, shown, put, after, err)
                             : lml_splice_confirmed(job, shown, code, put, after, err);
    if (status == LML_OK)
        status = write_report(result, point, report, err);
    lml_builder_free(&entry);
    return status;
}

static lml_status check_said(const lml_confirmation *said, lml_error *err)
{
    if (!said->code || !said->code[0])
        return lml_fail(err, LML_USAGE, "which point is decided?");
    if (!said->by || !said->by[0])
        return lml_fail(err, LML_USAGE, "who decides it?");
    if (!said->reason || !said->reason[0])
        return lml_fail(err, LML_USAGE, "why is it accepted?");
    return LML_OK;
}

lml_status lml_engine_confirm(lml_engine *engine, const char *job, size_t length, const char *shown,
                              const lml_text *result, const lml_confirmation *said, lml_text *after,
                              lml_text *report, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"result", result},
                 {"confirmation", said}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_builder text = lml_builder_on(alloc, 0), told = lml_builder_on(alloc, 0);
    lml_json_document *doc = NULL;
    lml_locale entered = lml_locale_enter();
    lml_status status = check_said(said, err);
    if (status == LML_OK)
        status = lml_paper_result(alloc, result, &doc, err);
    if (status == LML_OK)
        status =
            confirm((lml_span){job, length}, shown, lml_json_root(doc), said, &text, &told, err);
    lml_json_free(doc);
    lml_locale_leave(entered);
    return lml_paper_take_both(&text, after, &told, report, status, err);
}
