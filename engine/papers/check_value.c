/* Check value: one value as a form would take it, before there is a job. */
#include "base/locale.h"
#include "face/engine.h"
#include "file/shape.h"
#include "papers/paper.h"

static lml_status read_kind(const char *kind, lml_wanted *out, lml_error *err)
{
    lml_nearest near = lml_nearest_to(lml_span_of(kind));
    for (int w = 0; w < LML_WANTED_COUNT; w++)
        lml_nearest_offer(&near, lml_span_of(lml_wanted_name((lml_wanted)w)));
    *out = lml_wanted_by_name(lml_span_of(kind));
    bool plain = *out != LML_WANT_CHOICE && *out != LML_WANT_LIST && *out != LML_WANT_RECORD &&
                 *out != LML_WANT_BY_NAME;
    if (*out < LML_WANTED_COUNT && plain)
        return LML_OK;
    if (*out < LML_WANTED_COUNT)
        return lml_fail(err, LML_USAGE, "what a %s holds hangs on the recipe: check the job", kind);
    lml_fail(err, LML_USAGE, "no kind of value is called \"%s\"", kind);
    if (lml_nearest_found(&near))
        lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
    return LML_USAGE;
}

lml_status lml_engine_check_value(lml_engine *engine, const char *kind, const char *text,
                                  lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"kind", kind}, {"text", text}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_json_document *doc = NULL;
    lml_builder json = lml_builder_on(alloc, 0);
    lml_shape shape = {.wanted = LML_WANT_ANYTHING};
    lml_locale entered = lml_locale_enter();
    lml_status status = read_kind(kind, &shape.wanted, err);
    if (status == LML_OK)
        status = lml_shape_read(alloc, &shape, lml_span_of(text), "the value", &doc, err);
    if (status == LML_OK)
        lml_builder_add_span(&json, lml_json_raw(lml_json_root(doc)));
    lml_json_free(doc);
    lml_locale_leave(entered);
    return lml_paper_take(&json, status, out, err);
}
