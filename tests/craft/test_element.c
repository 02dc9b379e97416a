#include "craft/element.h"

#include <criterion/criterion.h>

Test(element, every_metal_of_the_list_is_described)
{
    for (int m = 1; m < LML_METALS; m++) {
        const lml_element *e = lml_element_of((lml_metal)m);
        const char *symbol = lml_metal_symbol((lml_metal)m);
        cr_assert_not_null(e, "%s", symbol);
        const lml_fact due[] = {e->atomic_weight, e->density,    e->melting_point,
                                e->boiling_point, e->molar_heat, e->molar_fusion};
        for (size_t i = 0; i < sizeof due / sizeof *due; i++) {
            cr_expect(due[i].value > 0, "%s, fact %zu", symbol, i);
            cr_expect_not_null(due[i].source, "%s, fact %zu", symbol, i);
        }
        cr_expect(e->melting_point.value < e->boiling_point.value, "%s", symbol);
        cr_expect((e->liquid_density.source != NULL) == (e->liquid_density.value > 0), "%s",
                  symbol);
        cr_expect(e->liquid_density.value < e->density.value, "%s swells when it melts", symbol);
    }
}

Test(element, no_metal_has_no_facts)
{
    cr_expect_null(lml_element_of(LML_NO_METAL));
    cr_expect_null(lml_element_of(LML_METALS));
}

Test(element, what_was_not_looked_up_says_so)
{
    cr_expect_str_eq(lml_element_of(LML_W)->molar_fusion.source, "from memory, unverified");
    cr_expect_str_eq(lml_element_of(LML_Pb)->molar_heat.source, "from memory, unverified");
    cr_expect_null(lml_element_of(LML_Ir)->liquid_density.source);
}
