/* Meaning: what the names and sums in a recipe's text come to, as far as the text alone tells.
 *
 *     lml_meanings m = lml_meanings_of(source, recipe);
 *     lml_scanner s = lml_scanner_on(source);
 *     lml_meaning mass;
 *     lml_token after = lml_meanings_sum(&m, &s, lml_token_next(&s), &mass);
 *
 * Known are `job`, `house` and `sheet` by the names that `work` gives them, through records too
 * (house.kiln.power), a local that is set once and nowhere else (local wax = job.wax), the entries
 * that `for _, lot in ipairs(job.lots)` goes through, what Q reads, and the kind of a sum or
 * product of these. It does not follow calls: what is not sure is LML_MEANS_NOTHING.
 */
#ifndef LML_SHELF_MEANING_H
#define LML_SHELF_MEANING_H

#include "shelf/recipe.h"
#include "shelf/token.h"

typedef enum lml_means {
    LML_MEANS_NOTHING, /* that is known */
    LML_MEANS_NUMBER,  /* as it is written: 1.5 */
    LML_MEANS_TEXT,    /* as it is written: "2 g" */
    LML_MEANS_KIND,    /* a figure, a record or a list of the kind `wanted` */
    LML_MEANS_SHEET,
    LML_MEANS_PAGE
} lml_means;

typedef struct lml_meaning {
    lml_means what;
    lml_wanted wanted;
    const lml_shape *shape; /* NULL: only its kind is known */
} lml_meaning;

enum { LML_MEANING_LOCALS = 64, LML_MEANING_PATH = 6, LML_MEANING_OPEN = 64 };

typedef struct lml_meanings {
    lml_span source;
    const lml_recipe *recipe;
    bool known; /* whether the source was read for them: not until one is asked for */
    lml_span job, house, sheet; /* as `work` calls them */
    struct {
        lml_span name;
        lml_meaning meaning;
    } locals[LML_MEANING_LOCALS];
    int count;
    /* The recipe that `use` reaches by that name, for what it gives; NULL: not followed. */
    const lml_recipe *(*used)(void *self, lml_span name);
    void *self;
} lml_meanings;

/* a.b.c; count 0: none, or one too long to follow. */
typedef struct lml_path {
    lml_span part[LML_MEANING_PATH];
    int count;
} lml_path;

/* `source` must be Lua that compiles. */
lml_meanings lml_meanings_of(lml_span source, const lml_recipe *recipe);
/* What the first `count` parts of the path stand for. */
lml_meaning lml_meanings_path(lml_meanings *m, const lml_path *path, int count);
/* The path that begins with that name; returns the token behind it. */
lml_token lml_path_read(lml_scanner *s, lml_token first, lml_path *out);
/* What the sum that begins with that token comes to; returns the token behind it: a comparison,
 * and, or, a comma ... */
lml_token lml_meanings_sum(lml_meanings *m, lml_scanner *s, lml_token first, lml_meaning *out);
/* The same of a product: + and - end it, too. */
lml_token lml_meanings_product(lml_meanings *m, lml_scanner *s, lml_token first, lml_meaning *out);
/* Whether that method of a value gives one of the same kind back: up_to, rounded ... */
bool lml_meaning_is_kept_by(lml_token method);
/* Past the arguments of a call, which begin with that token: ( ... ), { ... } or a text. */
lml_token lml_meaning_skip_arguments(lml_scanner *s, lml_token first);
/* Whether an operand of a comparison may begin behind that token: a keyword, a comma, a sign ... */
bool lml_meaning_is_border(lml_token t);
/* Whether that token begins a statement, or the text ends. */
bool lml_meaning_is_over(lml_token t);

#endif
