/* Operand: which literal of a text an operation in one of its lines took, read from the text.
 *
 * Lua's debug information has the line of an operation, and of none of its operands. So the
 * operation is looked for in that line, by its sign or its name, and its operand is taken only
 * where it can be no other: the literal itself beside it, or a name that the whole text defines
 * once, as that literal; and every other operation of that name in the line takes the same, or
 * others.
 *
 *     lml_operand_find(&tokens, &(lml_operation){.how = "*", .line = 12, .side = 1}, "0.62", &at)
 */
#ifndef LML_REPORT_OPERAND_H
#define LML_REPORT_OPERAND_H

#include "report/tokens.h"

typedef struct lml_operation {
    const char *how; /* "*", "up_to", "craft.density" */
    unsigned line;
    uint32_t side; /* of a sign: 0 left, 1 right */
} lml_operation;

/* The place among the tokens of the literal `is`: a number, or a text in its quotes. False where it
 * is not known for certain. */
bool lml_operand_find(const lml_tokens *t, const lml_operation *o, lml_span is, size_t *out);
/* Whether the token is that number or text. */
bool lml_operand_is(lml_token token, bool negative, lml_span is);
/* The name of "local NAME = LITERAL" that the literal is for, also behind Q and in a list of them;
 * empty for any other. */
lml_span lml_operand_name(const lml_tokens *t, size_t literal);

#endif
