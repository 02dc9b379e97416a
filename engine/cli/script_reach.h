/* Script reach: which lines of scripts the proofs of no recipe cover, put together from the reports
 * on the recipes that use them.
 *
 *     lml_script_reach reach = lml_script_reach_on(&call->alloc);
 *     lml_script_reach_add(&reach, report, err);         once a recipe
 *     lml_script_reach_put(&reach, own_alone, &layout);
 *     lml_script_reach_free(&reach);
 */
#ifndef LML_CLI_SCRIPT_REACH_H
#define LML_CLI_SCRIPT_REACH_H

#include "file/json.h"
#include "sheet/layout.h"
#include "worker/kit.h"

typedef struct lml_script_lines {
    char *file;
    bool own; /* the studio's */
    size_t lines, room;
    bool *missed; /* by line */
} lml_script_lines;

typedef struct lml_script_reach {
    const lml_alloc *alloc;
    lml_script_lines *scripts;
    size_t count, room;
} lml_script_reach;

lml_script_reach lml_script_reach_on(const lml_alloc *alloc);
void lml_script_reach_free(lml_script_reach *reach);
/* Of a report of lml_engine_reach; `kit` says whose a script is. LML_NO_MEMORY. */
lml_status lml_script_reach_add(lml_script_reach *reach, const lml_kit *kit, const lml_json *report,
                                lml_error *err);
/* A line for each script; `own_alone`: for the studio's only. */
void lml_script_reach_put(const lml_script_reach *reach, bool own_alone, lml_layout *layout);
/* "12-14, 20": the lines of a list, those that follow each other as one. */
void lml_script_reach_put_lines(lml_builder *out, const lml_json *lines);

#endif
