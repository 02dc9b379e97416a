/* What of a record stands: every record of up to six entries of one name, some weighed, some taken
 * back, against a list from which each "not" takes the last one that it may. */
#include "file/json.h"
#include "file/standing.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

enum { ENTRIES = 6, KINDS = 4 };
static const char *const KIND[KINDS] = {"{\"what\":\"poured\"}",
                                        "{\"what\":\"poured\",\"mass\":\"31 g\"}",
                                        "{\"what\":\"not poured\"}", "{\"what\":\"lit\"}"};

/* Places in the record of those that stand; returns how many. */
static int keep(const int *kind, int count, int *list)
{
    int kept = 0;
    for (int i = 0; i < count; i++) {
        int back = kept;
        while (kind[i] == 2 && back > 0 && kind[list[back - 1]] != 0)
            back--;
        if (kind[i] == 2 && back > 0) {
            memmove(list + back - 1, list + back, (size_t)(kept - back) * sizeof *list);
            kept--;
        } else if (kind[i] < 2) {
            list[kept++] = i;
        }
    }
    return kept;
}

static void expect_record(const int *kind, int count)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder text = lml_builder_on(&heap, 0);
    lml_json_document *doc = NULL;
    int list[ENTRIES];
    lml_builder_add_char(&text, '[');
    for (int i = 0; i < count; i++)
        lml_builder_add_format(&text, "%s%s", i > 0 ? "," : "", KIND[kind[i]]);
    lml_builder_add_char(&text, ']');
    cr_assert_eq(lml_json_read(&heap, lml_builder_span(&text), NULL, "r", &doc, NULL), LML_OK);
    const int kept = keep(kind, count, list);
    const lml_json *record = lml_json_root(doc), *e = lml_json_first(record);
    for (int i = 0, k = 0; i < count; i++, e = lml_json_next(e)) {
        bool stands = k < kept && list[k] == i;
        k += stands;
        if (kind[i] < 2)
            cr_expect_eq(lml_standing_is_pour(e), stands, "entry %d of %s", i, text.at);
        else
            cr_expect(!lml_standing_is_pour(e));
    }
    const lml_json *last = lml_json_first(record);
    for (int i = 0; kept > 0 && i < list[kept - 1]; i++)
        last = lml_json_next(last);
    size_t seen;
    cr_expect_eq(lml_standing_last(record, lml_span_of("poured"), &seen), kept > 0 ? last : NULL,
                 "the last of %s", text.at);
    cr_expect_eq(seen, (size_t)count);
    lml_json_free(doc);
    lml_builder_free(&text);
}

Test(standing, of_every_short_record)
{
    int kind[ENTRIES];
    for (int count = 0, all = 1; count <= ENTRIES; count++, all *= KINDS)
        for (int n = 0; n < all; n++) {
            for (int i = 0, left = n; i < count; i++, left /= KINDS)
                kind[i] = left % KINDS;
            expect_record(kind, count);
        }
}

Test(standing, a_name_that_denies)
{
    cr_expect(lml_span_is(lml_standing_denied(lml_span_of("not poured")), "poured"));
    cr_expect_eq(lml_standing_denied(lml_span_of("poured")).length, 0);
    cr_expect_eq(lml_standing_denied(lml_span_of("not ")).length, 0);
    cr_expect_eq(lml_standing_denied(lml_span_of("notch")).length, 0);
}
