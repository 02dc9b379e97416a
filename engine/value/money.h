/* Money: exact decimals of one currency, to a millionth of the unit.
 *
 * Sums are exact; products and quotients round half even to a millionth; rounding to what can be
 * paid happens only here, by a named rule.
 */
#ifndef LML_VALUE_MONEY_H
#define LML_VALUE_MONEY_H

#include "base/exact.h"
#include "value/refusal.h"

enum { LML_MONEY_PLACES = 6, LML_MONEY_ONE = 1000000 };

lml_value lml_money(int64_t millionths, uint16_t currency);
/* A double of currency units: its shortest decimal, rounded half even to a millionth. */
lml_status lml_money_of(double units, uint16_t currency, lml_value *out, lml_error *err);
/* Arithmetic with at least one operand money: the table of docs/values.md. operation: LML_ADD or
 * LML_SUB. LML_MISMATCH, LML_OVERFLOW, LML_BAD_VALUE for division by zero. */
lml_status lml_money_sum(lml_operator operation, const lml_value *a, const lml_value *b,
                         lml_value *out, lml_error *err);
lml_status lml_money_product(const lml_value *a, const lml_value *b, lml_value *out,
                             lml_error *err);
lml_status lml_money_quotient(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err);
/* To the currency's minor unit. */
lml_status lml_money_round(const lml_value *money, lml_rounding mode, lml_value *out,
                           lml_error *err);
/* To a cash step ("0.05 USD"), step > 0 and of the same currency. */
lml_status lml_money_round_to(const lml_value *money, const lml_value *step, lml_rounding mode,
                              lml_value *out, lml_error *err);
/* Split into `count` parts by weights (not negative, not all zero) so that the parts, each in whole
 * minor units, sum to `money` exactly; the leftover units go to the largest remainders, ties to the
 * first. `money` must itself be in whole minor units (LML_BAD_VALUE). */
lml_status lml_money_share(const lml_value *money, const double *weights, size_t count,
                           lml_value *parts, lml_error *err);

#endif
