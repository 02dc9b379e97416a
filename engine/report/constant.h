/* Constant: where a constant of a step is written: its line in a recipe or script, what it is
 * called there, and the comment that says where it comes from.
 *
 *     lml_constant o;
 *     lml_constant_find(trace, step, "0.62", &o);     o.line: 14; o.name: "MELTED"; o.said: its
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
    bool calculated;              /* a number that is not written there: Lua made it of others */
} lml_constant;

/* Of a constant that goes into the step, as the step of it writes it: near the step, or where the
 * same file names it, or for a text wherever it is written. Else the line of the step, to which it
 * came in plain Lua. */
void lml_constant_find(const lml_trace *trace, const lml_step *step, const char *is,
                       lml_constant *out);
/* The step that the recipe only calls a bare number of, in plain Lua: one that was said, where the
 * line of the step `into` has its name, as "confidence" or "stone.count". The step itself where
 * that is not known. */
uint32_t lml_constant_said(const lml_trace *trace, uint32_t plain, uint32_t into);
/* Of a text; false where it is not written between quotes. */
bool lml_constant_of_text(const lml_trace *trace, lml_span words, lml_constant *out);
/* The row of the table that has the text, on one line and without its comments: the law of a mark
 * with its limits. Of several rows the one for the metal, "Pt = { ... }", whose line is then the
 * place. Empty where it is in no table, in a longer one, or in several. */
void lml_constant_row(const lml_trace *trace, lml_constant *at, lml_span words, const char *metal,
                      char out[LML_CONSTANT_ROW]);

#endif
