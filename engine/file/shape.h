/* Shapes: what a JSON value must be, described once.
 *
 * A shape is plain data: constant for the files themselves (file/shapes.h), built while a recipe is
 * loaded for its asks. The check of a file, the help text and the JSON Schema are derived from it,
 * so they cannot differ.
 *
 * Everything with a unit is a JSON text read by lml_read_value; NUMBER and WHOLE are JSON numbers,
 * YES_NO true or false. RECORD accepts the named fields, and other names only if `of` is set (which
 * then checks each); BY_NAME accepts any names, LIST any count, each entry checked by `of`.
 * ANYTHING accepts any JSON: the caller checks it. ALLOY accepts a name or a composition, ASSAY a
 * name, a fineness or a composition (file/alloy_read.h). null is never a value.
 *
 *     static const lml_shape wax = {.wanted = LML_WANT_MASS, .name = "wax", .title = "Finished
 * wax", .from = "0.02 g"}; lml_status s = lml_shape_check(&wax, node, err);
 */
#ifndef LML_FILE_SHAPE_H
#define LML_FILE_SHAPE_H

#include "file/faults.h"
#include "file/json.h"
#include "file/json_write.h"
#include "value/wanted.h"

enum { LML_TEXT_MOST = 4000, LML_OWNER_MOST = 100 }; /* bytes of a TEXT, of an OWNER */

/* The name of a record's version field; if it has one, that is its first field. */
#define LML_SHAPE_VERSION "file_version"

typedef struct lml_shape lml_shape;
struct lml_shape {
    lml_wanted wanted;
    const char *name;           /* of a field; NULL for an item or a root */
    const char *title;          /* what it is, in a few words; may be NULL */
    bool optional;              /* of a field; one with a default is optional too */
    bool promised;              /* of a give: an offer promises it */
    const char *from, *to;      /* least and most allowed, as value texts; NULL is no bound */
    const char *default_text;   /* as on the command line; NULL: none */
    const char *source;         /* of the default */
    const char *per;            /* of a PRICE: the unit it is per, or any unit of that kind */
    const char *example;        /* instead of the kind's own */
    const char *note;           /* more than the title says, for help */
    const char *heading;        /* of a field: the group of fields that begins with it, or NULL */
    const char *unless;         /* of a field: others beside it, in place of which it is asked */
    const char *when;           /* of a field: another beside it that it needs: lml_shape_when */
    unsigned order;             /* of a field: its position in the recipe's text */
    int line;                   /* of a field of a recipe that advice is given on; else 0 */
    bool seldom;                /* of a field: folded when a person is asked */
    bool usual;                 /* of one that may be left out: a file to fill in has it */
    lml_metal metal;            /* of a bare FINENESS or FINE_MASS */
    bool any_metal;             /* another metal may be named */
    const char *const *choices; /* of a CHOICE, NULL-ended */
    const lml_shape *fields;    /* of a RECORD */
    size_t field_count;
    const char *apart;   /* of a RECORD: the text that must be unique in a list; NULL: none */
    const lml_shape *of; /* entries of LIST and BY_NAME, further names of RECORD */
    /* An extra check, run last. Refuses through lml_json_fail or lml_json_place. May be NULL. */
    lml_status (*check)(const lml_json *node, lml_error *err);
};

/* Check the whole value under `node`. Refusals start with file, line and path, and carry a hint.
 * LML_BAD_DATA (wrong JSON kind, unknown or missing name), else the statuses of lml_read_value. */
lml_status lml_shape_check(const lml_shape *shape, const lml_json *node, lml_error *err);
/* The same, but notes everything that is wrong. */
void lml_shape_faults(const lml_shape *shape, const lml_json *node, lml_faults *faults);
/* Refuse a node of the wrong JSON kind. */
lml_status lml_shape_wrong_kind(const lml_shape *shape, const lml_json *node, lml_error *err);
/* One value with a unit, a NUMBER or a WHOLE, bounds checked. Any other kind is LML_FAULT. */
lml_status lml_shape_value(const lml_shape *shape, const lml_json *node, lml_value *out,
                           lml_error *err);
/* The same from a text, without checking bounds. `memo` may be NULL. */
lml_status lml_shape_value_text(const lml_shape *shape, lml_span text, struct lml_memo *memo,
                                lml_value *out, lml_error *err);
/* A text from the command line or a default ("2.85 g", "0.93", "true", "[ ... ]") as a checked
 * document of its own; lml_json_raw of its root can be spliced into a larger text. `source` as in
 * lml_json_read; `house` as lml_json_set_house, or NULL. */
lml_status lml_shape_read(const lml_alloc *alloc, const lml_shape *shape, lml_span text,
                          const char *source, const lml_json *house, lml_json_document **out,
                          lml_error *err);
/* Whether a price is per the right unit. LML_MISMATCH. */
lml_status lml_shape_check_per(const lml_shape *shape, const lml_value *value, lml_error *err);
/* Whether the shape itself is sound: bounds and default can be read and fit together, a CHOICE has
 * choices, LIST and BY_NAME have `of`, field names are present and unique. LML_BAD_VALUE says what
 * is wrong. */
lml_status lml_shape_valid(const lml_alloc *alloc, const lml_shape *shape, lml_error *err);
/* The field of that exact name; NULL if there is none. */
const lml_shape *lml_shape_field(const lml_shape *record, const char *name);
/* The same for a name that need not end in NUL. */
const lml_shape *lml_shape_field_named(const lml_shape *record, lml_span name);

/* What `when` says: "method = density", or "stones", of any. Both are empty where it says nothing.
 */
typedef struct lml_shape_when {
    lml_span name, option;
} lml_shape_when;
lml_shape_when lml_shape_when_of(lml_span text);
/* Its own example, the first of its choices, or that of its kind if within the bounds. */
const char *lml_shape_example(const lml_shape *shape);
enum { LML_EXAMPLE_TEXT = 400 };
/* The same as written in a file, lists and records with their required entries; and as typed after
 * NAME=, texts without quotes. An example that is too long is shown empty, `[]`. Its author
 * happened to use some currency and units: it is written in those that the house sets; NULL sets
 * none. */
size_t lml_shape_example_json(const lml_shape *shape, const lml_json *house, char *out,
                              size_t size);
size_t lml_shape_example_typed(const lml_shape *shape, const lml_json *house, char *out,
                               size_t size);
/* Any example in those units, figures to two digits, or to as many as keep it within the bounds of
 * a shape; NULL has none. */
void lml_shape_example_in(const lml_json *house, const lml_shape *bounds, char *example,
                          size_t size);
/* Whether the field may be left out. */
static inline bool lml_shape_optional(const lml_shape *shape)
{
    return shape->optional || shape->default_text;
}

/* "a mass, such as 12.5 g, at least 0.02 g; default 0.3 g (source)". */
void lml_shape_describe(const lml_shape *shape, lml_builder *b);
/* Lines for help: every field with its title and description, indented by `indent` blanks. */
void lml_shape_help(const lml_shape *shape, size_t indent, lml_builder *b);
/* A JSON Schema (2020-12) of the shape, as one record; `root` adds "$schema". */
void lml_shape_schema(const lml_shape *shape, bool root, lml_json_writer *w);

#endif
