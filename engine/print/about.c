#include "print/about.h"
#include "base/letter.h"

#include <string.h>

enum { INDENT = 3, GAP = 2, NAME_MOST = 24, KIND_MOST = 22 };

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static lml_span built(const lml_builder *b)
{
    return b->at ? (lml_span){b->at, b->length} : lml_span_of(NULL);
}

static void append_member(lml_builder *out, const char *before, const lml_json *record,
                          const char *name, const char *after)
{
    lml_span text = member_text(record, name);
    if (text.length == 0)
        return;
    lml_builder_add_text(out, before);
    lml_builder_add_span(out, text);
    lml_builder_add_text(out, after);
}

static void append_options(lml_builder *out, const lml_json *shape)
{
    const lml_json *first = lml_json_first(lml_json_member(shape, "options"));
    for (const lml_json *option = first; option; option = lml_json_next(option)) {
        lml_builder_add_text(out, option == first ? "; one of: " : ", ");
        lml_builder_add_span(out, lml_json_text(option));
    }
}

void lml_about_words(const lml_json *shape, lml_builder *out)
{
    lml_builder_add_span(out, member_text(shape, "title"));
    append_options(out, shape);
    append_member(out, "; from ", shape, "from", "");
    append_member(out, member_text(shape, "from").length > 0 ? " to " : "; to ", shape, "to", "");
    append_member(out, "; default ", shape, "default", "");
    append_member(out, " (", shape, "source", ")");
    append_member(out, "; no two of the same ", shape, "apart", "");
    append_member(out, "; ", shape, "note", "");
    if (lml_json_yes(lml_json_member(shape, "optional")))
        lml_builder_add_text(out, "; optional");
}

void lml_about_kind(const lml_json *shape, lml_builder *out)
{
    lml_builder_add_span(out, member_text(shape, "kind"));
    append_member(out, " of ", shape, "of", "");
}

static size_t at_most(size_t columns, size_t most)
{
    return columns < most ? columns : most;
}

static void grow(size_t *width, size_t columns, size_t most)
{
    if (at_most(columns, most) > *width)
        *width = at_most(columns, most);
}

typedef struct columns {
    size_t name, kind;
} columns;

static void measure(lml_layout *layout, const lml_json *shapes, size_t depth, columns *c)
{
    for (const lml_json *shape = lml_json_first(shapes); shape; shape = lml_json_next(shape)) {
        lml_builder kind = lml_layout_scratch(layout);
        lml_about_kind(shape, &kind);
        grow(&c->name, 2 * depth + lml_letter_columns_of(member_text(shape, "name")), NAME_MOST);
        grow(&c->kind, lml_letter_columns_of(built(&kind)), KIND_MOST);
        lml_layout_scrap(layout, &kind);
        measure(layout, lml_json_member(shape, "fields"), depth + 1, c);
    }
}

static void put_shapes(lml_layout *layout, const lml_json *shapes, size_t depth, const columns *c);

static void put_shape(lml_layout *layout, const lml_json *shape, size_t depth, const columns *c)
{
    lml_builder kind = lml_layout_scratch(layout), about = lml_layout_scratch(layout);
    lml_about_kind(shape, &kind);
    lml_about_words(shape, &about);
    size_t deeper = at_most(2 * depth, NAME_MOST / 2);
    size_t kind_at = INDENT + c->name + GAP, about_at = kind_at + c->kind + GAP;
    lml_cell cells[] = {
        {member_text(shape, "name"), INDENT + deeper, c->name - at_most(deeper, c->name - 1), true},
        {built(&kind), kind_at, c->kind, false},
        {built(&about), about_at, layout->width - about_at, false}};
    if (about_at + NAME_MOST <= layout->width) {
        lml_layout_row(layout, cells, 3);
    } else {
        cells[1].width = layout->width - kind_at;
        lml_layout_row(layout, cells, 2);
        lml_layout_text(layout, INDENT + deeper + 2, cells[2].text);
    }
    lml_layout_scrap(layout, &about);
    lml_layout_scrap(layout, &kind);
    put_shapes(layout, lml_json_member(shape, "fields"), depth + 1, c);
}

static void put_shapes(lml_layout *layout, const lml_json *shapes, size_t depth, const columns *c)
{
    for (const lml_json *shape = lml_json_first(shapes); shape; shape = lml_json_next(shape)) {
        lml_span heading = member_text(shape, "heading");
        size_t at = 1 + at_most(2 * depth, NAME_MOST / 2);
        if (heading.length > 0)
            lml_layout_row(layout, &(lml_cell){heading, at, layout->width - at, true}, 1);
        put_shape(layout, shape, depth, c);
    }
}

static void put_title(lml_layout *layout, const char *title)
{
    lml_layout_gap(layout);
    lml_layout_row(layout, &(lml_cell){lml_span_of(title), 0, layout->width, true}, 1);
}

void lml_about_section(lml_layout *layout, const char *title, const lml_json *shapes)
{
    if (lml_json_count(shapes) == 0)
        return;
    columns c = {1, 1};
    put_title(layout, title);
    measure(layout, shapes, 0, &c);
    put_shapes(layout, shapes, 0, &c);
}

/* Whether it may be left out. */
static bool is_free(const lml_json *shape)
{
    return lml_json_yes(lml_json_member(shape, "optional")) || lml_json_member(shape, "default");
}

/* One line for the group that begins at *shape, leaving out what is due; *shape moves behind it. */
static void put_group(lml_layout *layout, const lml_json **shape)
{
    lml_span heading = member_text(*shape, "heading");
    lml_builder names = lml_layout_scratch(layout);
    size_t count = 0;
    const lml_json *s = *shape;
    do {
        if (is_free(s)) {
            lml_builder_add_text(&names, count++ > 0 ? ", " : "");
            lml_builder_add_span(&names, member_text(s, "name"));
        }
        s = lml_json_next(s);
    } while (s && !lml_json_member(s, "heading"));
    if (count > 0) {
        size_t at = INDENT + NAME_MOST + GAP;
        lml_cell cells[] = {{heading, INDENT, NAME_MOST, true},
                            {built(&names), at, layout->width - at, false}};
        lml_layout_row(layout, cells, 2);
    }
    lml_layout_scrap(layout, &names);
    *shape = s;
}

/* What must be said in full, and the names of the rest under their headings. */
static void put_folded(lml_layout *layout, const lml_json *shapes)
{
    columns c = {1, 1};
    put_title(layout, "asks: what a job must give");
    measure(layout, shapes, 0, &c);
    bool any = false;
    for (const lml_json *s = lml_json_first(shapes); s; s = lml_json_next(s)) {
        if (is_free(s))
            continue;
        put_shape(layout, s, 0, &c);
        any = true;
    }
    if (!any)
        lml_layout_row(
            layout, &(lml_cell){lml_span_of("nothing in particular"), 1, layout->width, false}, 1);
    put_title(layout, "asks: what it may give");
    for (const lml_json *s = lml_json_first(shapes); s;)
        put_group(layout, &s);
}

void lml_about_point(lml_layout *layout, const lml_json *about, const char *by)
{
    lml_builder head = lml_layout_scratch(layout);
    append_member(&head, "", about, "rule", ": ");
    lml_builder_add_span(&head, member_text(about, "title"));
    if (by)
        lml_builder_add_format(&head, " (by %s)", by);
    lml_layout_gap(layout);
    lml_layout_row(layout, &(lml_cell){built(&head), 0, layout->width, true}, 1);
    lml_layout_scrap(layout, &head);
    columns c = {1, 1};
    measure(layout, lml_json_member(about, "asks"), 0, &c);
    measure(layout, lml_json_member(about, "gives"), 0, &c);
    lml_layout_row(layout, &(lml_cell){lml_span_of("is given"), 1, layout->width, false}, 1);
    put_shapes(layout, lml_json_member(about, "asks"), 0, &c);
    lml_layout_row(layout, &(lml_cell){lml_span_of("answers"), 1, layout->width, false}, 1);
    put_shapes(layout, lml_json_member(about, "gives"), 0, &c);
}

void lml_about_head(lml_layout *layout, const lml_json *about, const char *from)
{
    lml_builder head = lml_layout_scratch(layout), foot = lml_layout_scratch(layout);
    append_member(&head, "", about, "recipe", "");
    append_member(&head, " ", about, "version", "");
    append_member(&head, ": ", about, "title", "");
    lml_layout_row(layout, &(lml_cell){built(&head), 0, layout->width, true}, 1);
    append_member(&foot, "", about, "file", "");
    lml_builder_add_format(&foot, " (%s)", from);
    append_member(&foot, ", licence ", about, "licence", "");
    lml_builder_add_text(&foot, ", recipe language ");
    lml_builder_add_span(&foot, lml_json_raw(lml_json_member(about, "level")));
    lml_layout_text(layout, 0, built(&foot));
    lml_layout_text(layout, 0, member_text(about, "digest"));
    lml_layout_scrap(layout, &foot);
    lml_layout_scrap(layout, &head);
}

static void put_uses(lml_layout *layout, const lml_json *uses)
{
    if (lml_json_count(uses) == 0)
        return;
    put_title(layout, "uses");
    for (const lml_json *name = lml_json_first(uses); name; name = lml_json_next(name))
        lml_layout_text(layout, INDENT, lml_json_text(name));
}

static void put_uses_folded(lml_layout *layout, const lml_json *uses)
{
    if (lml_json_count(uses) == 0)
        return;
    lml_builder names = lml_layout_scratch(layout);
    put_title(layout, "uses");
    for (const lml_json *name = lml_json_first(uses); name; name = lml_json_next(name)) {
        lml_builder_add_text(&names, names.length > 0 ? ", " : "");
        lml_builder_add_span(&names, lml_json_text(name));
    }
    lml_layout_text(layout, INDENT, built(&names));
    lml_layout_scrap(layout, &names);
}

static void put_proofs(lml_layout *layout, const lml_json *proofs)
{
    put_title(layout, "proofs");
    for (const lml_json *proof = lml_json_first(proofs); proof; proof = lml_json_next(proof)) {
        lml_builder line = lml_layout_scratch(layout);
        append_member(&line, "", proof, "name", "");
        append_member(&line, ", within ", proof, "within", "");
        append_member(&line, " (", proof, "source", ")");
        lml_layout_text(layout, INDENT, built(&line));
        lml_layout_scrap(layout, &line);
    }
    if (lml_json_count(proofs) == 0)
        lml_layout_text(layout, INDENT,
                        lml_span_of("none: nothing shows that its results are right"));
}

static void put_count(lml_layout *layout, const char *title, const lml_json *all, const char *what)
{
    lml_builder line = lml_layout_scratch(layout);
    put_title(layout, title);
    lml_builder_add_format(&line, "%zu %s", lml_json_count(all), what);
    lml_layout_text(layout, INDENT, built(&line));
    lml_layout_scrap(layout, &line);
}

/* Allowances that have a figure of their own are counted; the others must be set. */
static void put_due(lml_layout *layout, const lml_json *allowances)
{
    columns c = {1, 1};
    size_t rest = 0;
    put_title(layout, "allows: the studio's own figures");
    measure(layout, allowances, 0, &c);
    for (const lml_json *s = lml_json_first(allowances); s; s = lml_json_next(s)) {
        if (!is_free(s))
            put_shape(layout, s, 0, &c);
        rest += is_free(s);
    }
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_format(&line, "%zu more that can be set", rest);
    lml_layout_text(layout, INDENT, built(&line));
    lml_layout_scrap(layout, &line);
}

bool lml_about_folds(const lml_json *about)
{
    const lml_json *shape = lml_json_first(lml_json_member(about, "asks"));
    for (; shape; shape = lml_json_next(shape))
        if (lml_json_member(shape, "heading"))
            return true;
    return false;
}

void lml_about_draw_folded(lml_layout *layout, const lml_json *about, const char *from)
{
    lml_about_head(layout, about, from);
    put_folded(layout, lml_json_member(about, "asks"));
    put_due(layout, lml_json_member(about, "allowances"));
    put_count(layout, "gives", lml_json_member(about, "gives"), "figures");
    put_uses_folded(layout, lml_json_member(about, "uses"));
    put_count(layout, "proofs", lml_json_member(about, "proofs"), "worked examples");
    lml_layout_gap(layout);
    lml_layout_text(layout, 0, lml_span_of("--all lists every one of them"));
}

void lml_about_draw(lml_layout *layout, const lml_json *about, const char *from)
{
    lml_about_head(layout, about, from);
    lml_about_section(layout, "asks: what a job must give", lml_json_member(about, "asks"));
    lml_about_section(layout, "allows: the studio's own figures",
                      lml_json_member(about, "allowances"));
    lml_about_section(layout, "gives", lml_json_member(about, "gives"));
    put_uses(layout, lml_json_member(about, "uses"));
    put_proofs(layout, lml_json_member(about, "proofs"));
}

/* Whether that allowance was listed for another recipe already; from now on it is. */
static bool is_told(const lml_json *shape, lml_builder *told)
{
    lml_builder own = lml_builder_on(told->alloc, 0);
    lml_builder_add_char(&own, '\n');
    append_member(&own, "", shape, "name", " ");
    append_member(&own, "", shape, "title", "\n");
    bool found = told->at && own.at && strstr(told->at, own.at);
    if (!found)
        lml_builder_add(told, own.at, own.length);
    lml_builder_free(&own);
    return found;
}

void lml_about_settings(lml_layout *layout, const lml_json *about, lml_builder *told)
{
    const lml_json *shapes = lml_json_member(about, "allowances");
    columns c = {1, 1};
    bool any = false;
    measure(layout, shapes, 0, &c);
    for (const lml_json *s = lml_json_first(shapes); s; s = lml_json_next(s)) {
        if (is_told(s, told))
            continue;
        if (!any) {
            lml_builder title = lml_layout_scratch(layout);
            append_member(&title, "", about, "recipe", ", used here");
            lml_layout_gap(layout);
            lml_layout_row(layout, &(lml_cell){built(&title), 0, layout->width, true}, 1);
            lml_layout_scrap(layout, &title);
        }
        put_shape(layout, s, 0, &c);
        any = true;
    }
}
