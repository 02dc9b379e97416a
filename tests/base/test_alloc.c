#include "base/alloc.h"

#include <criterion/criterion.h>
#include <string.h>

Test(alloc, heap_gets_changes_and_frees)
{
    lml_alloc heap = lml_alloc_heap();
    char *p = lml_alloc_get(&heap, 10);
    cr_assert_not_null(p);
    strcpy(p, "lemel");
    p = lml_alloc_resize(&heap, p, 10, 100000);
    cr_assert_not_null(p);
    cr_expect_str_eq(p, "lemel");
    p = lml_alloc_resize(&heap, p, 100000, 6);
    cr_expect_str_eq(p, "lemel");
    cr_expect_null(lml_alloc_resize(&heap, p, 6, 0));
    lml_alloc_free(&heap, NULL, 0);
}

Test(alloc, a_meter_counts_and_limits)
{
    lml_meter meter = {.under = lml_alloc_heap(), .limit = 100};
    lml_alloc alloc = lml_alloc_metered(&meter);
    char *a = lml_alloc_get(&alloc, 60);
    cr_assert_not_null(a);
    cr_expect_null(lml_alloc_get(&alloc, 41));
    cr_expect_null(lml_alloc_get(&alloc, SIZE_MAX));
    char *b = lml_alloc_get(&alloc, 40);
    cr_expect_not_null(b);
    cr_expect_eq(meter.used, 100);
    cr_expect_null(lml_alloc_resize(&alloc, a, 60, 61));
    a = lml_alloc_resize(&alloc, a, 60, 10);
    cr_expect_not_null(a, "shrinking never fails");
    cr_expect_eq(meter.used, 50);
    lml_alloc_free(&alloc, a, 10);
    lml_alloc_free(&alloc, b, 40);
    cr_expect_eq(meter.used, 0);
    cr_expect_eq(meter.peak, 100);
    cr_expect_eq(meter.requests, 5);
}

Test(alloc, a_meter_fails_when_told)
{
    lml_meter meter = {.under = lml_alloc_heap(), .fail_at = 2};
    lml_alloc alloc = lml_alloc_metered(&meter);
    void *first = lml_alloc_get(&alloc, 8);
    cr_expect_not_null(first);
    cr_expect_null(lml_alloc_get(&alloc, 8));
    void *third = lml_alloc_get(&alloc, 8);
    cr_expect_not_null(third, "once only");

    meter.fail_at = 1;
    meter.fail_forever = 1;
    for (int i = 0; i < 3; i++)
        cr_expect_null(lml_alloc_get(&alloc, 8));
    lml_alloc_free(&alloc, first, 8);
    lml_alloc_free(&alloc, third, 8);
    cr_expect_eq(meter.used, 0);
}
