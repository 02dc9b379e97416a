/* What ships follows its own advice: so nobody is told to mend what is meant. */
#include "shipped.h"

static void expect_none_on(lml_engine *engine, const char *recipe)
{
    lml_text text;
    lml_error e;
    cr_assert_eq(lml_engine_advise(engine, recipe, &text, &e), LML_OK, "%s", e.message);
    cJSON *list = cJSON_Parse(text.text);
    int count = cJSON_GetArraySize(list);
    cr_expect_eq(count, 0, "%s: %s", recipe, text.text);
    cJSON_Delete(list);
    lml_text_free(engine, &text);
}

Test(advice, none_on_what_ships)
{
    lml_engine *engine = shipped_engine();
    shipped_put(engine, LML_PUT_RECIPE, "examples/rules");
    const char *recipe;
    size_t i = 0;
    for (; (recipe = lml_engine_recipe(engine, i)); i++)
        expect_none_on(engine, recipe);
    cr_expect_gt(i, 20u);
    lml_engine_free(engine);
}
