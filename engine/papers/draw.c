/* Draw: the sheets of a result as text. */
#include "base/locale.h"
#include "face/engine.h"
#include "papers/paper.h"
#include "sheet/sheet.h"

enum { WIDTH_USUAL = 80 };

lml_status lml_engine_draw(lml_engine *engine, const lml_text *result, const lml_look *look,
                           lml_text *out, lml_text *unseen, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"result", result}, {"look", look}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_json_document *doc = NULL;
    lml_builder drawn = lml_builder_on(alloc, 0), rest = lml_builder_on(alloc, 0);
    lml_sheet_look as = {.page = look->page,
                         .width = look->width ? look->width : WIDTH_USUAL,
                         .bold = look->bold,
                         .landscape = look->landscape};
    lml_locale entered = lml_locale_enter();
    lml_status status = lml_paper_result(alloc, result, &doc, err);
    if (status == LML_OK)
        status = lml_sheet_draw(lml_json_root(doc), &as, &drawn, err);
    as.bold = as.landscape = false;
    if (status == LML_OK)
        status = lml_sheet_draw_unseen(lml_json_root(doc), &as, false, &rest, err);
    lml_json_free(doc);
    lml_locale_leave(entered);
    return lml_paper_take_both(&drawn, out, &rest, unseen, status, err);
}
