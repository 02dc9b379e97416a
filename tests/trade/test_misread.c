/* What is said of a density that its composition cannot have, and that nothing is said of a true
 * one. */
#include "shipped.h"

static void expect_words(lml_engine *engine, const char *expression, const char *words)
{
    char whole[700];
    snprintf(whole, sizeof whole,
             "(function() local clash = require('misread').density_clash %s end)()", expression);
    lml_text text;
    lml_error e;
    cr_assert_eq(lml_engine_reckon(engine, whole, NULL, 0, &text, &e), LML_OK, "%s: %s", whole,
                 e.message);
    cr_expect_str_eq(text.text, words);
    lml_text_free(engine, &text);
}

/* Source: Dental alloy data sheets to DIN EN ISO 22674, the furthest of all measured; GOST
 * 30649-99. */
Test(misread, measured_ones_pass)
{
    lml_engine *engine = shipped_engine();
    expect_words(engine,
                 "return clash(alloy { composition = { Au = '400 ‰', Ag = '359 ‰', Pd = '150 ‰', "
                 "In = '90 ‰', Ir = '1 ‰' }, density = '13 g/cm3' }, 'it') or 'nothing'",
                 "nothing");
    expect_words(engine,
                 "return clash(alloy { composition = { Au = '585 ‰', Ag = '80 ‰', Cu = '335 ‰' }, "
                 "density = '13.24 g/cm3' }, 'it') or 'nothing'",
                 "nothing");
    expect_words(engine,
                 "for _, row in ipairs(require('alloys').alloys) do "
                 "local words = clash(alloy(row), row.name) if words then return words end end "
                 "return 'nothing'",
                 "nothing");
    expect_words(engine, "return clash(assay { Au = '585 ‰' }, 'it') or 'nothing'", "nothing");
    lml_engine_free(engine);
}

/* 18 kt's density with 14 kt's composition; worked example of our own. */
Test(misread, another_metals_is_named)
{
    lml_engine *engine = shipped_engine();
    const char *words =
        "grain: its density is given as 15.40 g/cm3, but its composition gives 13.12 g/cm3. "
        "One of the two is wrong, or belongs to a different metal";
    expect_words(engine,
                 "return clash(alloy { composition = { Au = '585 ‰', Ag = '130 ‰', Cu = '245 ‰', "
                 "Zn = '40 ‰' }, density = '15.4 g/cm3' }, 'grain')",
                 words);
    const char *house =
        "{\"stock\": {\"of 14 kt\": {\"composition\": {\"Au\": \"585 ‰\", \"Ag\": \"130 ‰\", "
        "\"Cu\": \"245 ‰\", \"Zn\": \"40 ‰\"}, \"density\": \"15.4 g/cm3\"}}}";
    lml_error e;
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_HOUSE, NULL, house, strlen(house), "house.json", &e), LML_OK,
        "%s", e.message);
    cJSON *result = shipped_run(
        engine,
        "{\"recipe\": \"charge\", \"given\": {\"mass\": \"10 g\", \"target\": \"585 ‰ Au\", "
        "\"lots\": [{\"name\": \"grain\", \"metal\": \"of 14 kt\"}]}, "
        "\"house\": {\"scale_step\": \"0.01 g\"}}");
    bool said = false;
    const cJSON *remark;
    cJSON_ArrayForEach(remark, cJSON_GetObjectItemCaseSensitive(result, "remarks")) said =
        said || strcmp(cJSON_GetObjectItemCaseSensitive(remark, "text")->valuestring, words) == 0;
    cr_expect(said, "the charge says nothing of it");
    cr_expect(cJSON_IsFalse(cJSON_GetObjectItemCaseSensitive(result, "stopped")));
    cJSON_Delete(result);
    lml_engine_free(engine);
}
