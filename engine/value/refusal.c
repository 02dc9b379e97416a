#include "value/refusal.h"
#include "value/write.h"

/* "a mass (12.0 g)" */
typedef struct named {
    char what[80];
    char text[LML_VALUE_TEXT];
} named;

static void name(const lml_value *v, named *n)
{
    lml_value_what(v, n->what, sizeof n->what);
    lml_write_text(v, n->text);
}

static bool has_kind(const lml_value *a, const lml_value *b, lml_kind kind)
{
    return a->kind == kind || b->kind == kind;
}

static bool of_metal(const lml_value *v)
{
    return v->kind == LML_FINENESS || v->kind == LML_FINENESS_DIFFERENCE ||
           v->kind == LML_FINE_MASS;
}

static bool is_ratio(const lml_value *v)
{
    return v->kind == LML_QUANTITY && lml_dimension_none(v->dimension);
}

static bool is_quantity_of(const lml_value *v, lml_dimension d)
{
    return v->kind == LML_QUANTITY && lml_dimension_equal(v->dimension, d);
}

static const char *temperature_hint(lml_operator operation, const lml_value *a, const lml_value *b)
{
    if (operation == LML_MUL || operation == LML_DIV)
        return "a temperature is a point on a scale and cannot be doubled; subtract another first";
    if (operation == LML_ADD && a->kind == LML_TEMPERATURE && b->kind == LML_TEMPERATURE)
        return "use mean for the mean of temperatures";
    if (operation == LML_COMPARE || operation == LML_MEAN)
        return "a temperature can only be compared with a temperature";
    return "a temperature changes by a temperature difference, such as 75 Δ°C";
}

static const char *clock_hint(lml_operator operation, const lml_value *a, const lml_value *b)
{
    if (has_kind(a, b, LML_WEEKDAY))
        return "weekdays cannot be calculated with or ordered: only tested for being the same day";
    if (operation == LML_COMPARE || operation == LML_MEAN)
        return "compare moments with moments, times of day with times of day";
    if (operation == LML_ADD && a->kind == b->kind)
        return "subtract one from the other for the time between them";
    return "add a time to a moment or a time of day, such as 45 min";
}

static const char *pressure_hint(lml_operator operation, const lml_value *a, const lml_value *b)
{
    if (operation == LML_ADD && a->mode == b->mode)
        return "they have a reference level: only a plain pressure can be added to one";
    if (a->mode != LML_NO_MODE && b->mode != LML_NO_MODE)
        return "an absolute pressure less a vacuum is the remaining pressure: "
               "101.3 kPa abs - 90 kPa vac";
    return "say for both whether they are abs (above empty space) or vac (below the surrounding "
           "air)";
}

static const char *metal_hint(lml_operator operation, const lml_value *a, const lml_value *b)
{
    if (a->kind == LML_FINENESS && b->kind == LML_FINENESS)
        return "finenesses cannot be added: add the fine masses, then divide by the total mass";
    if (operation == LML_MUL && has_kind(a, b, LML_FINENESS))
        return "multiply a fineness by a mass: that is the fine metal in it";
    if (operation == LML_MUL && has_kind(a, b, LML_FINE_MASS))
        return "a fine mass takes a number, a ratio or a price per mass; metal_in(fineness) gives "
               "back a mass";
    if (operation == LML_DIV)
        return "a fine mass divided by a fineness is the mass that holds it; divided by a mass it "
               "is "
               "a fineness";
    if (has_kind(a, b, LML_FINE_MASS))
        return "a fine mass can only be combined with a fine mass of the same metal";
    return "a fineness names its metal, such as 750 ‰ Au, and changes only by a fineness "
           "difference "
           "(one fineness less another)";
}

static const char *money_hint(lml_operator operation, const lml_value *a, const lml_value *b)
{
    bool both = a->kind == LML_MONEY && b->kind == LML_MONEY;
    if (operation == LML_MUL)
        return both ? "only a number or a ratio multiplies money"
                    : "a price times a quantity is money; money divided by a quantity is a price";
    if (operation == LML_DIV)
        return "money can be divided by a number, by money of its currency, by a quantity or by a "
               "price";
    if (a->dimension.money != 0 && b->dimension.money != 0)
        return "a price becomes money when it is multiplied by what it is per";
    return "money can only be combined with money in the same currency; a price turns a quantity "
           "into money";
}

static void quantity_hint(const lml_value *a, const lml_value *b, const named *na, const named *nb,
                          lml_error *err)
{
    const lml_dimension mass = {.mass = 1}, volume = {.length = 3};
    if (is_quantity_of(a, mass) && is_quantity_of(b, volume)) {
        lml_error_hint(err, "a density turns one into the other: %s * density", nb->text);
        return;
    }
    if (is_quantity_of(a, volume) && is_quantity_of(b, mass)) {
        lml_error_hint(err, "a density turns one into the other: %s * density", na->text);
        return;
    }
    if (is_ratio(a) || is_ratio(b)) {
        lml_error_hint(err, "a ratio must be taken of something first: %s * %s",
                       is_ratio(a) ? na->text : nb->text, is_ratio(a) ? nb->text : na->text);
        return;
    }
    lml_error_hint(err, "both must be of the same dimension, so multiply or divide one first");
}

/* The fix, from the most telling difference to the least. */
static void hint(lml_operator operation, const lml_value *a, const lml_value *b, const named *na,
                 const named *nb, lml_error *err)
{
    const char *words = NULL;
    const lml_dimension mass = {.mass = 1};
    char unit[LML_UNIT_TEXT];
    if (of_metal(a) && of_metal(b) && a->metal != b->metal) {
        lml_error_hint(err, "%s and %s are kept separate: calculate one metal at a time",
                       lml_metal_name(a->metal), lml_metal_name(b->metal));
        return;
    }
    if (a->dimension.currency != 0 && b->dimension.currency != 0 &&
        a->dimension.currency != b->dimension.currency) {
        lml_error_hint(err, "no exchange rate is guessed: keep a total for each currency");
        return;
    }
    if (has_kind(a, b, LML_TEMPERATURE))
        words = temperature_hint(operation, a, b);
    else if (has_kind(a, b, LML_MOMENT) || has_kind(a, b, LML_TIME_OF_DAY) ||
             has_kind(a, b, LML_WEEKDAY))
        words = clock_hint(operation, a, b);
    else if (operation != LML_MUL && operation != LML_DIV && has_kind(a, b, LML_FINE_MASS) &&
             (is_quantity_of(a, mass) || is_quantity_of(b, mass))) {
        lml_error_hint(err, "a fineness turns one into the other: %s * fineness",
                       a->kind == LML_QUANTITY ? na->text : nb->text);
        return;
    } else if (of_metal(a) || of_metal(b))
        words = metal_hint(operation, a, b);
    else if (has_kind(a, b, LML_NUMBER) && operation != LML_MUL && operation != LML_DIV) {
        const lml_value *other = a->kind == LML_NUMBER ? b : a;
        lml_unit_write(other->unit, other->dimension.currency, unit);
        lml_error_hint(err, "a bare number has no unit: write it with one, such as %s %s%s",
                       a->kind == LML_NUMBER ? na->text : nb->text, unit,
                       operation == LML_COMPARE ? ", or ask is_zero()" : "");
        return;
    } else if (has_kind(a, b, LML_MONEY))
        words = money_hint(operation, a, b);
    else if (lml_dimension_equal(a->dimension, b->dimension) && (a->mode | b->mode) != LML_NO_MODE)
        words = pressure_hint(operation, a, b);
    if (words)
        lml_error_hint(err, "%s", words);
    else
        quantity_hint(a, b, na, nb, err);
}

lml_status lml_refusal_mismatch(lml_operator operation, const lml_value *a, const lml_value *b,
                                lml_error *err)
{
    static const struct {
        const char *between, *end;
        bool swapped;
    } words[] = {
        [LML_ADD] = {" and ", " cannot be added", false},
        [LML_SUB] = {" cannot be taken from ", "", true},
        [LML_MUL] = {" and ", " cannot be multiplied", false},
        [LML_DIV] = {" cannot be divided by ", "", false},
        [LML_WHOLE] = {" cannot be divided into whole steps of ", "", false},
        [LML_REMAINDER] = {" cannot give a remainder by ", "", false},
        [LML_COMPARE] = {" and ", " cannot be compared", false},
        [LML_MEAN] = {" and ", " have no mean", false},
        [LML_STEP] = {" cannot be rounded to a step of ", "", false},
    };
    if (!err)
        return LML_MISMATCH;
    named na, nb;
    name(a, &na);
    name(b, &nb);
    bool swapped = words[operation].swapped;
    const named *first = swapped ? &nb : &na, *last = swapped ? &na : &nb;
    lml_fail(err, LML_MISMATCH, "%s (%s)%s%s (%s)%s", first->what, first->text,
             words[operation].between, last->what, last->text, words[operation].end);
    hint(operation, a, b, &na, &nb, err);
    return LML_MISMATCH;
}

lml_status lml_refusal_overflow(const lml_value *a, const lml_value *b, lml_error *err)
{
    if (!err)
        return LML_OVERFLOW;
    named na, nb;
    name(a, &na);
    name(b, &nb);
    lml_fail(err, LML_OVERFLOW, "the result of %s (%s) and %s (%s) is too large to store", na.what,
             na.text, nb.what, nb.text);
    lml_error_hint(err, "check the units and exponents");
    return LML_OVERFLOW;
}

lml_status lml_refusal_zero(const lml_value *a, lml_error *err)
{
    return lml_refusal_alone(LML_BAD_VALUE, a, "cannot be divided by zero",
                             "make sure the divisor is given and is not zero", err);
}

lml_status lml_refusal_alone(lml_status status, const lml_value *a, const char *words,
                             const char *hint_words, lml_error *err)
{
    if (!err)
        return status;
    named na;
    name(a, &na);
    lml_fail(err, status, "%s (%s) %s", na.what, na.text, words);
    lml_error_hint(err, "%s", hint_words);
    return status;
}
