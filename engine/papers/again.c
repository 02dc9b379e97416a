/* Again: a result compared with an earlier one of the same job, to the last bit. */
#include "base/locale.h"
#include "face/engine.h"
#include "papers/differ.h"
#include "papers/paper.h"

lml_status lml_engine_again(lml_engine *engine, const lml_text *was, const lml_text *is,
                            const char *shown, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"earlier result", was}, {"result", is},
                 {"shown name", shown}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_json_document *old = NULL, *new = NULL;
    lml_builder text = lml_builder_on(alloc, 0);
    lml_locale entered = lml_locale_enter();
    lml_status status = lml_paper_result(alloc, was, &old, err);
    if (status == LML_OK)
        status = lml_paper_result(alloc, is, &new, err);
    if (status == LML_OK) {
        lml_json_writer w = lml_json_writer_on(&text, false);
        lml_differ_write(&w, shown, lml_json_root(old), lml_json_root(new));
        status = lml_json_writer_end(&w, err);
    }
    lml_json_free(old);
    lml_json_free(new);
    lml_locale_leave(entered);
    return lml_output_take(&text, status, out, err);
}
