/* Compare: two results of one job compared with each other, figure by figure. */
#include "base/locale.h"
#include "face/engine.h"
#include "papers/moved.h"
#include "papers/paper.h"

static void put_count(lml_json_writer *w, const char *name, size_t count)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_whole(w, (int64_t)count);
}

/* The codes of what withholds something. */
static void put_stops(lml_json_writer *w, const char *side, const lml_json *result)
{
    lml_json_write_name(w, lml_span_of(side));
    lml_json_write_open_list(w);
    const lml_json *remark = lml_json_first(lml_json_member(result, "remarks"));
    for (; remark; remark = lml_json_next(remark)) {
        lml_span level = lml_json_text(lml_json_member(remark, "level"));
        if (lml_span_is(level, "stop") || lml_span_is(level, "confirm"))
            lml_json_write_text(w, lml_json_text(lml_json_member(remark, "code")));
    }
    lml_json_write_close(w);
}

static lml_status write_report(const lml_moved *moved, const lml_json *before,
                               const lml_json *after, lml_builder *out, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    put_count(&w, "figures", moved->figures);
    put_count(&w, "moved", moved->count);
    put_count(&w, "beyond", moved->beyond);
    lml_json_write_name(&w, lml_span_of("stops"));
    lml_json_write_open_record(&w);
    put_stops(&w, "before", before);
    put_stops(&w, "after", after);
    lml_json_write_close(&w);
    lml_json_write_name(&w, lml_span_of("differences"));
    lml_json_write_open_list(&w);
    for (size_t i = 0; i < moved->count; i++)
        lml_moved_put(&w, &moved->movement[i]);
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

static lml_status compare(const lml_json *before, const lml_json *after, const lml_within *within,
                          lml_builder *out, lml_error *err)
{
    lml_moved moved = lml_moved_on(out->alloc, within);
    lml_status status = lml_moved_add(&moved, "", lml_json_member(before, "results"),
                                      lml_json_member(after, "results"), err);
    if (status == LML_OK) {
        lml_moved_sort(&moved);
        status = write_report(&moved, before, after, out, err);
    }
    lml_moved_free(&moved);
    return status;
}

lml_status lml_engine_compare(lml_engine *engine, const lml_text *before, const lml_text *after,
                              const char *within, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"result before", before}, {"result after", after}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_within measure = {.given = false};
    lml_json_document *doc[2] = {NULL, NULL};
    lml_builder text = lml_builder_on(alloc, 0);
    lml_locale entered = lml_locale_enter();
    lml_status status = within ? lml_within_read(within, &measure, err) : LML_OK;
    if (status == LML_OK)
        status = lml_paper_result(alloc, before, &doc[0], err);
    if (status == LML_OK)
        status = lml_paper_result(alloc, after, &doc[1], err);
    if (status == LML_OK)
        status = compare(lml_json_root(doc[0]), lml_json_root(doc[1]), &measure, &text, err);
    lml_json_free(doc[0]);
    lml_json_free(doc[1]);
    lml_locale_leave(entered);
    return lml_output_take(&text, status, out, err);
}
