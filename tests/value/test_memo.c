/* The memo of texts that were read: it says what the reader says. */
#include "read/memo.h"

#include "value/write.h"

#include <criterion/criterion.h>
#include <string.h>

static bool same(const lml_value *a, const lml_value *b)
{
    char one[LML_VALUE_TEXT], other[LML_VALUE_TEXT];
    size_t length = lml_write_text(a, one);
    return length == lml_write_text(b, other) && memcmp(one, other, length) == 0 &&
           a->kind == b->kind;
}

/* Each text twice, of each kind: what is remembered of one kind is not taken for another. */
Test(memo, says_what_the_reader_says)
{
    static const char *const texts[] = {"12.5 g",
                                        "14K",
                                        "585 ‰",
                                        "0.5",
                                        "1 h 30 min",
                                        "20 °C",
                                        "12.50 USD",
                                        "40 mL/(100 g)",
                                        "2026-11-24",
                                        "gramm",
                                        "",
                                        "12.5 g ± 0.1 g",
                                        "12.3..12.5 g of something"};
    lml_alloc heap = lml_alloc_heap();
    lml_memo *memo = lml_memo_new(&heap);
    for (int turn = 0; turn < 2; turn++)
        for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
            for (int wanted = 0; wanted < LML_WANTED_COUNT; wanted++)
                for (int metal = LML_NO_METAL; metal <= LML_Ag; metal++) {
                    lml_value read, remembered;
                    lml_span text = lml_span_of(texts[i]);
                    lml_status status =
                        lml_read_value(text, (lml_wanted)wanted, (lml_metal)metal, &read, NULL);
                    cr_expect_eq(lml_memo_read(memo, text, (lml_wanted)wanted, (lml_metal)metal,
                                               &remembered, NULL),
                                 status, "%s as %d", texts[i], wanted);
                    cr_expect(status || same(&read, &remembered), "%s as %d", texts[i], wanted);
                }
    lml_memo_free(memo, &heap);
}

/* Short texts are kept filled up with zeros: one that ends in a zero of its own is another text. */
Test(memo, a_text_with_a_zero_byte_is_refused)
{
    lml_alloc heap = lml_alloc_heap();
    lml_memo *memo = lml_memo_new(&heap);
    lml_value v;
    cr_expect_eq(lml_memo_read(memo, (lml_span){"1 g\0", 3}, LML_WANT_MASS, LML_NO_METAL, &v, NULL),
                 LML_OK);
    cr_expect_neq(
        lml_memo_read(memo, (lml_span){"1 g\0", 4}, LML_WANT_MASS, LML_NO_METAL, &v, NULL), LML_OK);
    lml_memo_free(memo, &heap);
}
