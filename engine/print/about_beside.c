#include "base/letter.h"
#include "print/about.h"

#include <stdlib.h>

/* A name in a record of asks is written "flasks.height". */
enum { MARK_AT = 3, MARK = 7, NAME_AT = MARK_AT + MARK + 2, NAME_MOST = 26, GAP = 2 };

typedef struct differ {
    lml_layout *layout;
    const char *title; /* of the section, until its first line is set */
    size_t name;       /* columns */
    size_t same, lines;
} differ;

static lml_span name_of(const lml_json *shape)
{
    return lml_json_text(lml_json_member(shape, "name"));
}

static const lml_json *named(const lml_json *shapes, lml_span name)
{
    for (const lml_json *shape = lml_json_first(shapes); shape; shape = lml_json_next(shape))
        if (lml_span_equal(name_of(shape), name))
            return shape;
    return NULL;
}

static lml_builder words_of(const differ *d, const lml_json *shape)
{
    lml_builder words = lml_layout_scratch(d->layout);
    lml_about_kind(shape, &words);
    lml_builder_add_text(&words, ": ");
    lml_about_words(shape, &words);
    return words;
}

static void put_line(differ *d, const char *mark, const lml_builder *name, const lml_builder *words)
{
    if (d->title) {
        lml_layout_gap(d->layout);
        lml_layout_row(d->layout, &(lml_cell){lml_span_of(d->title), 0, d->layout->width, true}, 1);
        d->title = NULL;
    }
    size_t at = NAME_AT + d->name + GAP;
    lml_cell cells[] = {{lml_span_of(mark), MARK_AT, MARK, true},
                        {{name->at, name->length}, NAME_AT, d->name, true},
                        {{words->at, words->length}, at, d->layout->width - at, false}};
    lml_layout_row(d->layout, cells, 3);
    d->lines++;
}

/* One shape, of which either may be NULL. */
static void put_shape(differ *d, const lml_builder *name, const lml_json *now,
                      const lml_json *before)
{
    lml_builder is = lml_layout_scratch(d->layout), was = is;
    if (now)
        is = words_of(d, now);
    if (before)
        was = words_of(d, before);
    if (!before) {
        put_line(d, "added", name, &is);
    } else if (!now) {
        put_line(d, "gone", name, &was);
    } else if (!lml_span_equal((lml_span){is.at, is.length}, (lml_span){was.at, was.length})) {
        lml_builder label = lml_layout_scratch(d->layout);
        lml_builder_add_text(&label, "was");
        put_line(d, "changed", name, &is);
        put_line(d, "", &label, &was);
        lml_layout_scrap(d->layout, &label);
    } else {
        d->same++;
    }
    lml_layout_scrap(d->layout, &was);
    lml_layout_scrap(d->layout, &is);
}

static void put_shapes(differ *d, const lml_builder *prefix, const lml_json *now,
                       const lml_json *before);

static void put_pair(differ *d, const lml_builder *prefix, const lml_json *now,
                     const lml_json *before)
{
    lml_builder name = lml_layout_scratch(d->layout);
    lml_builder_add_span(&name, (lml_span){prefix->at, prefix->length});
    lml_builder_add_span(&name, name_of(now ? now : before));
    put_shape(d, &name, now, before);
    lml_builder_add_char(&name, '.');
    put_shapes(d, &name, lml_json_member(now, "fields"), lml_json_member(before, "fields"));
    lml_layout_scrap(d->layout, &name);
}

static void put_shapes(differ *d, const lml_builder *prefix, const lml_json *now,
                       const lml_json *before)
{
    for (const lml_json *s = lml_json_first(now); s; s = lml_json_next(s))
        put_pair(d, prefix, s, named(before, name_of(s)));
    for (const lml_json *s = lml_json_first(before); s; s = lml_json_next(s))
        if (!named(now, name_of(s)))
            put_pair(d, prefix, NULL, s);
}

static size_t widest(const lml_json *shapes, size_t before, size_t so_far)
{
    for (const lml_json *s = lml_json_first(shapes); s; s = lml_json_next(s)) {
        size_t columns = before + lml_letter_columns_of(name_of(s));
        so_far = columns > so_far ? columns : so_far;
        so_far = widest(lml_json_member(s, "fields"), columns + 1, so_far);
    }
    return so_far < NAME_MOST ? so_far : NAME_MOST;
}

static void put_section(lml_layout *layout, const char *title, const lml_json *now,
                        const lml_json *before)
{
    differ d = {.layout = layout, .title = title, .name = widest(now, 0, widest(before, 0, 3))};
    lml_builder nothing = lml_layout_scratch(layout), line = lml_layout_scratch(layout);
    put_shapes(&d, &nothing, now, before);
    if (d.lines == 0 && d.same > 0) {
        lml_builder_add_format(&line, "%s: %zu, the same", title, d.same);
        lml_layout_gap(layout);
        lml_layout_text(layout, 0, (lml_span){line.at, line.length});
    } else if (d.same > 0) {
        lml_builder_add_format(&line, "%zu more, the same", d.same);
        lml_layout_text(layout, NAME_AT, (lml_span){line.at, line.length});
    }
    lml_layout_scrap(layout, &line);
    lml_layout_scrap(layout, &nothing);
}

/* ---- head and proofs ---- */

static lml_span text_of(const lml_json *about, const char *member)
{
    return lml_json_text(lml_json_member(about, member));
}

/* By the numbers between the dots; 0 also where something else stands. */
static int order_of_versions(const char *a, const char *b)
{
    char *end_a, *end_b;
    for (;; a = end_a + 1, b = end_b + 1) {
        long x = strtol(a, &end_a, 10), y = strtol(b, &end_b, 10);
        if (end_a == a || end_b == b)
            return 0;
        if (x != y)
            return x < y ? -1 : 1;
        if (*end_a != '.' || *end_b != '.')
            return (*end_a == '.') - (*end_b == '.');
    }
}

static void put_head(lml_layout *layout, const lml_json *about, const lml_json *before)
{
    lml_span version = text_of(about, "version"), was = text_of(before, "version");
    lml_span licence = text_of(about, "licence"), licence_was = text_of(before, "licence");
    bool other = !lml_span_equal(text_of(about, "digest"), text_of(before, "digest"));
    if (other && lml_span_equal(version, was))
        lml_layout_text(layout, 0, lml_span_of("the same version, but a different text"));
    else if (order_of_versions(version.at, was.at) < 0)
        lml_layout_text(layout, 0, lml_span_of("an older version than the one in the studio"));
    if (lml_span_equal(licence, licence_was))
        return;
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_text(&line, "a different licence: ");
    lml_builder_add_span(&line, licence);
    lml_builder_add_text(&line, ", was ");
    lml_builder_add_span(&line, licence_was);
    lml_layout_text(layout, 0, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
}

/* "charge = 25 g, piece = 3 g": what the proof expects, and within what. */
static lml_builder figures_of(const lml_layout *layout, const lml_json *proof)
{
    lml_builder line = lml_layout_scratch(layout);
    const lml_json *figure = lml_json_first(lml_json_member(proof, "expect"));
    for (; figure; figure = lml_json_next(figure)) {
        lml_span text = lml_json_text(figure);
        lml_builder_add_text(&line, line.length > 0 ? ", " : "");
        lml_builder_add_span(&line, lml_json_name(figure));
        lml_builder_add_text(&line, " = ");
        lml_builder_add_span(&line, text.length > 0 ? text : lml_json_raw(figure));
    }
    if (text_of(proof, "within").length > 0) {
        lml_builder_add_text(&line, " within ");
        lml_builder_add_span(&line, text_of(proof, "within"));
    }
    return line;
}

/* One of the same name, whose figures are others. */
static void put_moved(differ *d, const lml_json *now, const lml_json *before)
{
    lml_builder is = figures_of(d->layout, now), was = figures_of(d->layout, before);
    if (!lml_span_equal((lml_span){is.at, is.length}, (lml_span){was.at, was.length})) {
        lml_builder none = lml_layout_scratch(d->layout), name = none, both = none;
        lml_builder_add_span(&name, name_of(now));
        put_line(d, "changed", &name, &none);
        lml_builder_add_text(&both, "expects ");
        lml_builder_add_span(&both, (lml_span){is.at, is.length});
        lml_builder_add_text(&both, "; was ");
        lml_builder_add_span(&both, (lml_span){was.at, was.length});
        lml_layout_text(d->layout, NAME_AT + GAP, (lml_span){both.at, both.length});
        lml_layout_scrap(d->layout, &both);
        lml_layout_scrap(d->layout, &name);
    }
    lml_layout_scrap(d->layout, &was);
    lml_layout_scrap(d->layout, &is);
}

/* Of proofs the names tell, and of those of one name the figures. */
static void put_proofs(lml_layout *layout, const lml_json *now, const lml_json *before)
{
    differ d = {.layout = layout, .title = "proofs", .name = layout->width - NAME_AT - GAP};
    const lml_builder none = lml_layout_scratch(layout);
    for (int side = 0; side < 2; side++) {
        const lml_json *own = side ? before : now, *other = side ? now : before;
        for (const lml_json *proof = lml_json_first(own); proof; proof = lml_json_next(proof)) {
            const lml_json *same = named(other, name_of(proof));
            if (same && side == 0)
                put_moved(&d, proof, same);
            if (same)
                continue;
            lml_builder name = lml_layout_scratch(layout);
            lml_builder_add_span(&name, name_of(proof));
            put_line(&d, side ? "gone" : "added", &name, &none);
            lml_layout_scrap(layout, &name);
        }
    }
}

void lml_about_beside(lml_layout *layout, const lml_json *about, const lml_json *before)
{
    const char *asks =
        lml_json_member(about, "rule") ? "is given" : "asks"; /* a rule asks nobody */
    const char *const sections[][2] = {
        {"asks", asks}, {"allowances", "allows"}, {"gives", "gives"}};
    put_head(layout, about, before);
    for (size_t i = 0; i < sizeof sections / sizeof sections[0]; i++)
        put_section(layout, sections[i][1], lml_json_member(about, sections[i][0]),
                    lml_json_member(before, sections[i][0]));
    put_proofs(layout, lml_json_member(about, "proofs"), lml_json_member(before, "proofs"));
}
