/* Draw: the sheets of a result as text or HTML. */
#include "base/locale.h"
#include "face/engine.h"
#include "papers/paper.h"
#include "sheet/html.h"
#include "sheet/sheet.h"

#include <string.h>

enum { WIDTH_USUAL = 80 };

static lml_status draw(const lml_json *result, const lml_look *look, const lml_sheet_look *as,
                       lml_builder *out, lml_error *err)
{
    if (!look->html)
        return lml_sheet_draw(result, as, out, err);
    bool a4 = look->paper && strcmp(look->paper, "A4") == 0;
    if (look->paper && !a4 && strcmp(look->paper, "Letter") != 0)
        return lml_fail(err, LML_BAD_DATA, "there is no paper \"%s\": A4 or Letter", look->paper);
    lml_html_look html = {.pages = look->page,
                          .paper = a4            ? LML_PAPER_A4
                                   : look->paper ? LML_PAPER_LETTER
                                                 : LML_PAPER_OF_HOUSE};
    return lml_html_draw(result, &html, out, err);
}

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
        status = draw(lml_json_root(doc), look, &as, &drawn, err);
    as.bold = as.landscape = false;
    if (status == LML_OK)
        status = lml_sheet_draw_unseen(lml_json_root(doc), &as, false, &rest, err);
    lml_json_free(doc);
    lml_locale_leave(entered);
    return lml_paper_take_both(&drawn, out, &rest, unseen, status, err);
}
