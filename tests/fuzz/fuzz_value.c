/* The value reader, for every kind that can be due: what is read is of that kind, and is written as
 * a text that reads back to the same value, bit for bit. */
#include "fuzz.h"
#include "value/ending.h"
#include "read/read.h"
#include "value/wanted.h"
#include "value/write.h"

static bool same_bits(double a, double b)
{
    return memcmp(&a, &b, sizeof a) == 0;
}

/* Where it came from is not written, nor to how many decimals it was rounded. */
static bool same_value(const lml_value *a, const lml_value *b)
{
    return a->kind == b->kind && a->mode == b->mode && a->spread == b->spread &&
           a->metal == b->metal && lml_dimension_equal(a->dimension, b->dimension) &&
           lml_unit_equal(a->unit, b->unit) && a->exact == b->exact &&
           (a->spread == LML_NO_SPREAD || same_bits(a->low, b->low)) &&
           (a->spread != LML_BETWEEN || same_bits(a->high, b->high));
}

/* A ratio without a unit is a number anywhere else, and the water of a ratio a volume per mass. */
static bool needs_its_ask(const lml_value *v)
{
    return v->kind == LML_QUANTITY && lml_dimension_none(v->dimension) &&
           (lml_unit_none(v->unit) || lml_ending_is_water_ratio(v->unit));
}

static void expect_back(const lml_value *v, lml_wanted wanted, lml_metal metal)
{
    char text[LML_VALUE_TEXT];
    size_t length = lml_write_text(v, text);
    fuzz_expect(length == strlen(text), "%zu is not the length of \"%s\"", length, text);
    lml_value back;
    lml_error err;
    lml_status status = lml_read_value((lml_span){text, length}, wanted, metal, &back, &err);
    fuzz_expect(status == LML_OK, "as %s \"%s\" is not read back: %s", lml_wanted_name(wanted),
                text, err.message);
    fuzz_expect(same_value(v, &back), "as %s \"%s\" reads back to another value",
                lml_wanted_name(wanted), text);
}

static void work(lml_span text, lml_wanted wanted, lml_metal metal)
{
    lml_value v;
    lml_error err;
    lml_status status = lml_read_value(text, wanted, metal, &v, &err);
    fuzz_expect_sound(status, &err);
    if (status != LML_OK)
        return;
    status = lml_wanted_check(wanted, &v, &err);
    fuzz_expect(status == LML_OK, "what was read as %s is not that: %s", lml_wanted_name(wanted),
                err.message);
    expect_back(&v, wanted, metal);
    if (!needs_its_ask(&v))
        expect_back(&v, LML_WANT_ANYTHING, LML_NO_METAL);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lml_span text = {(const char *)data, size};
    for (lml_wanted wanted = 0; wanted < LML_WANTED_COUNT; wanted++) {
        work(text, wanted, LML_NO_METAL);
        if (wanted == LML_WANT_FINENESS || wanted == LML_WANT_FINE_MASS)
            work(text, wanted, LML_Au);
    }
    return 0;
}
