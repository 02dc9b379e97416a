/* The page of a recipe: what it declares, in the order in which a person asks. */
#include "print/about.h"

#include <string.h>

enum { INDENT = 3, CODE_MOST = 22 };

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static void title(lml_layout *layout, const char *words)
{
    lml_layout_gap(layout);
    lml_layout_row(layout, &(lml_cell){lml_span_of(words), 0, layout->width, true}, 1);
}

/* ---- stops ---- */

/* "short-" goes on with the name of a thing. */
static lml_builder code_of(const lml_layout *layout, const lml_json *stop)
{
    lml_builder code = lml_layout_scratch(layout);
    lml_span own = text_of(stop, "code");
    lml_builder_add_span(&code, own);
    if (own.length > 0 && own.at[own.length - 1] == '-')
        lml_builder_add_text(&code, "...");
    return code;
}

static void put_stops(lml_layout *layout, const char *words, const lml_json *stops,
                      const char *level)
{
    bool any = false;
    for (const lml_json *s = lml_json_first(stops); s; s = lml_json_next(s)) {
        if (!lml_span_is(text_of(s, "level"), level))
            continue;
        if (!any)
            title(layout, words);
        any = true;
        lml_builder named = code_of(layout, s);
        lml_span code = lml_builder_span(&named), text = text_of(s, "text");
        lml_cell cells[] = {{code, INDENT, CODE_MOST - INDENT, false},
                            {text, CODE_MOST, layout->width - CODE_MOST, false}};
        if (text.length == 0) {
            lml_layout_text(layout, INDENT, code);
        } else if (code.length < CODE_MOST - INDENT) {
            lml_layout_row(layout, cells, 2);
        } else {
            lml_layout_text(layout, INDENT, code);
            lml_layout_text(layout, CODE_MOST, text);
        }
        lml_layout_scrap(layout, &named);
    }
}

/* ---- sources ---- */

/* Each source once. */
static void put_source(lml_layout *layout, const lml_json *of, lml_builder *told)
{
    lml_span source = text_of(of, "source");
    if (source.length == 0)
        return;
    lml_builder own = lml_builder_on(told->alloc, 0);
    lml_builder_add_char(&own, '\n');
    lml_builder_add_span(&own, source);
    lml_builder_add_char(&own, '\n');
    if (own.at && !(told->at && strstr(told->at, own.at))) {
        lml_builder_add(told, own.at, own.length);
        lml_layout_text(layout, INDENT, source);
    }
    lml_builder_free(&own);
}

static void put_sources_of(lml_layout *layout, const lml_json *shapes, lml_builder *told)
{
    for (const lml_json *s = lml_json_first(shapes); s; s = lml_json_next(s)) {
        put_source(layout, s, told);
        put_sources_of(layout, lml_json_member(s, "fields"), told);
    }
}

static void put_sources(lml_layout *layout, const lml_json *about)
{
    lml_builder told = lml_layout_scratch(layout);
    title(layout, "Sources of its figures and of its worked examples");
    put_sources_of(layout, lml_json_member(about, "asks"), &told);
    put_sources_of(layout, lml_json_member(about, "allowances"), &told);
    put_sources_of(layout, lml_json_member(about, "proofs"), &told);
    if (told.length == 0)
        lml_layout_text(layout, INDENT, lml_span_of("none are named"));
    lml_layout_scrap(layout, &told);
}

/* ---- the page ---- */

static void put_head(lml_layout *layout, const lml_json *about)
{
    lml_builder head = lml_layout_scratch(layout);
    lml_builder_add_span(&head, text_of(about, "title"));
    lml_builder_add_format(&head, " (%.*s %.*s)", LML_SPAN_SHOWN(text_of(about, "recipe")),
                           LML_SPAN_SHOWN(text_of(about, "version")));
    lml_layout_row(layout,
                   &(lml_cell){{head.at ? head.at : "", head.length}, 0, layout->width, true}, 1);
    lml_layout_scrap(layout, &head);
    lml_span what = text_of(about, "about");
    if (what.length > 0) {
        lml_layout_gap(layout);
        lml_layout_text(layout, 0, what);
    }
}

void lml_about_page(lml_layout *layout, const lml_json *about)
{
    const lml_json *stops = lml_json_member(about, "stops");
    put_head(layout, about);
    lml_about_section(layout, "What a job gives", lml_json_member(about, "asks"));
    lml_about_section(layout, "The studio's own figures", lml_json_member(about, "allowances"));
    lml_about_section(layout, "What it gives", lml_json_member(about, "gives"));
    put_stops(layout, "What stops it, and what to do then", stops, "stop");
    put_stops(layout, "What somebody has to confirm", stops, "confirm");
    put_stops(layout, "Cautions", stops, "caution");
    put_sources(layout, about);
}
