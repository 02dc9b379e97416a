#include "sheet/fact.h"

#include "sheet/line_text.h"

enum { INDENT = 4, UNBROKEN = 20 /* bytes */ };

bool lml_fact_is(const lml_json *line)
{
    static const char *const more[] = {"act",   "record", "big",   "withheld", "at",
                                       "after", "latest", "owner", "step",     "chance"};
    if (!lml_span_is(lml_json_text(lml_json_member(line, "is")), "line"))
        return false;
    for (size_t i = 0; i < sizeof more / sizeof *more; i++)
        if (lml_json_member(line, more[i]))
            return false;
    return true;
}

void lml_fact_draw(lml_page *page, const lml_json *first, const lml_json *end)
{
    lml_builder line = lml_layout_scratch(&page->layout), one = lml_layout_scratch(&page->layout);
    for (const lml_json *e = first; e != end; e = lml_json_next(e)) {
        lml_span origin = lml_json_text(lml_json_member(e, "origin"));
        one.length = 0;
        lml_line_text_put(lml_page_days(page), e, NULL, &one);
        lml_builder_add_text(&line, line.length > 0 ? "; " : "");
        lml_builder_add_span(&line, lml_json_text(lml_json_member(e, "label")));
        lml_builder_add_text(&line, ":" LML_NO_BREAK);
        lml_span text = one.at ? (lml_span){one.at, one.length} : lml_span_of(NULL);
        if (text.length <= UNBROKEN)
            lml_layout_add_unbroken(&line, text);
        else
            lml_builder_add_span(&line, text);
        if (origin.length > 0)
            lml_builder_add_format(&line, " (%.*s)", (int)origin.length, origin.at);
    }
    if (line.length > 0)
        lml_layout_text(&page->layout, INDENT, (lml_span){line.at, line.length});
    lml_layout_scrap(&page->layout, &one);
    lml_layout_scrap(&page->layout, &line);
}
