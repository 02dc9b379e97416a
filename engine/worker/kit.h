/* Kit: the texts that an engine will be handed, read before a worker gives up the file system, and
 * what a job may cost.
 *
 * A later text of the same kind and name replaces the earlier, as on the engine's own shelf: so the
 * recipes that come with lemel go in first and the studio's own after them.
 */
#ifndef LML_WORKER_KIT_H
#define LML_WORKER_KIT_H

#include "base/text.h"
#include "worker/limits.h"

typedef struct lml_kit_text {
    lml_put what;
    char *name, *shown; /* NUL-ended */
    lml_span text;      /* NUL-ended, never NULL */
    lml_builder held;   /* its bytes, unless they are those that were built in */
    const char *from;   /* "shipped", "studio", "file": where a recipe came from */
    bool ours;          /* the bytes are those of a recipe that comes with lemel */
    bool replaces;      /* it replaced one that comes with lemel and has other bytes */
} lml_kit_text;

typedef struct lml_kit {
    const lml_alloc *alloc;
    lml_kit_text *texts;
    size_t count, room;
    lml_worker_limits limits;
    bool without_settings; /* house and prices are not put: somebody looks at them */
} lml_kit;

lml_kit lml_kit_on(const lml_alloc *alloc);
void lml_kit_free(lml_kit *kit);
typedef struct lml_kit_file {
    const char *path, *shown; /* how messages name it */
    const char *from;         /* see lml_kit_text */
    bool named;               /* a person named it: it may be a pipe */
    bool plain;               /* its folder says that it is a plain file */
} lml_kit_file;

/* Read a file into the kit. What is the same, byte for byte, as the text whose place it takes is
 * not "file" but from there. Whatever lml_store_read says; but a recipe that nobody named and that
 * is too long is cut, and harms only who uses it: it is too long for the engine too. */
lml_status lml_kit_read(lml_kit *kit, lml_put what, lml_span name, const lml_kit_file *file,
                        lml_error *err);
/* The same with bytes that were read already; `path` says nothing. LML_NO_MEMORY. */
lml_status lml_kit_put(lml_kit *kit, lml_put what, lml_span name, const lml_kit_file *file,
                       lml_span bytes, lml_error *err);
/* Put a copy of the text of `from` into the kit as the recipe `name`. LML_NO_MEMORY. */
lml_status lml_kit_copy(lml_kit *kit, const lml_kit_text *from, lml_span name, lml_error *err);
/* Take the text out, where there is one. */
void lml_kit_take_out(lml_kit *kit, lml_put what, lml_span name);
/* By kind and name: a folder lists its files in no order. */
void lml_kit_sort(lml_kit *kit);
/* "hours" of "rule_hours"; NULL for a name that is no rule's. */
const char *lml_kit_rule_point(const char *recipe);
/* NULL when the kit has no such text. */
const lml_kit_text *lml_kit_find(const lml_kit *kit, lml_put what, lml_span name);
/* The house or the prices, of which there is one at most; NULL. */
const lml_kit_text *lml_kit_settings(const lml_kit *kit, lml_put what);
/* Make an engine that has all of it on its shelf. A refused recipe is reported to those who use it.
 */
lml_status lml_kit_engine(const lml_kit *kit, const lml_engine_options *options, lml_engine **out,
                          lml_error *err);

#endif
