/* Constant: where a constant of a step is written: its line in a recipe or script, what it is
 * called there, and the comment that says where it comes from. Where that is not certain, only the
 * line that it came into is said.
 *
 *     lml_constants all = {.trace = trace, .alloc = alloc};      the alloc outlives it
 *     lml_constant o;
 *     lml_constant_find(&all, into, input, &o);      o.line: 14; o.name: "MELTED"; o.said: its
 * source
 */
#ifndef LML_REPORT_CONSTANT_H
#define LML_REPORT_CONSTANT_H

#include "cell/trace_list.h"

enum { LML_CONSTANT_SAID = 240, LML_CONSTANT_ROW = 300 };

typedef struct lml_constant {
    const char *file; /* NULL: it is not known */
    unsigned line;
    lml_span name;                /* "local NAME = ..."; empty for others */
    char said[LML_CONSTANT_SAID]; /* "" without a comment */
    bool calculated;              /* a number that is written nowhere in the file */
} lml_constant;

/* What was read of the texts of a trace. */
typedef struct lml_constants {
    const lml_trace *trace;
    lml_alloc alloc; /* what it gives is not freed */
    struct lml_constant_file *file;
    struct lml_constant_all_said *said;
} lml_constants;

/* Of the constant `input`, a step that goes into the step `into`: the literal that its operation
 * took, if that is certain. Else the line of the step, and of a text where else alone it is. */
void lml_constant_find(lml_constants *c, uint32_t into, uint32_t input, lml_constant *out);
/* The same of a bare number that Lua calculated, where it made it of constants alone, in a line
 * that has them: the name is "1 + CUT", and what is said is said of CUT. */
bool lml_constant_folds(lml_constants *c, uint32_t into, uint32_t plain, lml_constant *out);
/* The step that the recipe only calls a bare number of, in plain Lua: one that was said, where the
 * line of the step `into` has its name, as "confidence" or "stone.count". The step itself where
 * that is not known. */
uint32_t lml_constant_said(lml_constants *c, uint32_t plain, uint32_t into);
/* Of a text; false where it is not written between quotes. */
bool lml_constant_of_text(const lml_trace *trace, lml_span words, lml_constant *out);
/* The row of the table that has the text, on one line and without its comments: the law of a mark
 * with its limits. Of several rows the one for the metal, "Pt = { ... }", whose line is then the
 * place. Empty where it is in no table, in a longer one, or in several. */
void lml_constant_row(lml_constants *c, lml_constant *at, lml_span words, const char *metal,
                      char out[LML_CONSTANT_ROW]);

#endif
