/* The schemas say what the files and the results really are: the demo studio's own fit, and what is
 * wrong in one place does not. */
#include "file/result_schema.h"
#include "file/shapes.h"
#include "json_schema.h"
#include "shipped.h"

static cJSON *parse(const char *text, const char *what)
{
    cJSON *json = cJSON_Parse(text);
    cr_assert(json, "%s is no JSON", what);
    return json;
}

static cJSON *example(const char *path)
{
    char full[600];
    snprintf(full, sizeof full, "%s/examples/%s", LML_SOURCE_DIR, path);
    char *text = shipped_read(full);
    cJSON *json = parse(text, path);
    free(text);
    return json;
}

static cJSON *schema_of_result(void)
{
    lml_alloc alloc = lml_alloc_heap();
    lml_builder text = lml_builder_on(&alloc, 0);
    lml_result_schema(&text);
    cJSON *schema = parse(text.at, "the schema of a result");
    lml_builder_free(&text);
    return schema;
}

static cJSON *schema_of_file(const lml_shape *shape)
{
    lml_alloc alloc = lml_alloc_heap();
    lml_builder text = lml_builder_on(&alloc, 0);
    lml_json_writer w = lml_json_writer_on(&text, false);
    lml_shape_schema(shape, true, &w);
    cJSON *schema = parse(text.at, "the schema of a file");
    lml_builder_free(&text);
    return schema;
}

static cJSON *schema_of_recipe(lml_engine *engine, const char *recipe)
{
    lml_text text;
    lml_error e;
    cr_assert_eq(lml_engine_schema(engine, recipe, &text, &e), LML_OK, "%s", e.message);
    cJSON *schema = parse(text.text, recipe ? recipe : "the schema of a house");
    lml_text_free(engine, &text);
    return schema;
}

static void expect_fit(const cJSON *schema, const cJSON *value, const char *what)
{
    char why[300] = "";
    cr_expect(schema_fits(schema, schema, value, why, sizeof why), "%s does not fit: %s", what,
              why);
}

static void expect_misfit(const cJSON *schema, const cJSON *value, const char *what)
{
    char why[300] = "";
    cr_expect_not(schema_fits(schema, schema, value, why, sizeof why), "%s fits, and should not",
                  what);
}

static void hold_job(lml_engine *engine, const cJSON *jobs, const cJSON *results, const char *name)
{
    char path[300];
    snprintf(path, sizeof path, "jobs/%s", name);
    cJSON *job = example(path);
    const char *recipe = cJSON_GetObjectItemCaseSensitive(job, "recipe")->valuestring;
    cJSON *own = schema_of_recipe(engine, recipe);
    expect_fit(jobs, job, name);
    expect_fit(own, job, name);

    char *text = shipped_gathered(engine, cJSON_PrintUnformatted(job));
    cJSON *result = shipped_run(engine, text);
    expect_fit(results, result, name);
    free(text);

    cJSON *given = cJSON_GetObjectItemCaseSensitive(job, "given");
    given = given ? given : cJSON_AddObjectToObject(job, "given");
    cJSON_AddStringToObject(given, "what_no_recipe_asks", "1 g");
    expect_misfit(own, job, "an unknown ask");
    cJSON_Delete(result);
    cJSON_Delete(own);
    cJSON_Delete(job);
}

Test(schema, fits_the_demo_jobs_and_their_results)
{
    lml_engine *engine = shipped_studio();
    cJSON *jobs = schema_of_file(&lml_shapes_job), *results = schema_of_result();
    DIR *dir = opendir(LML_SOURCE_DIR "/examples/jobs");
    int count = 0;
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        if (entry->d_name[0] == '.')
            continue;
        hold_job(engine, jobs, results, entry->d_name);
        count++;
    }
    closedir(dir);
    cr_expect_geq(count, 5, "only %d jobs", count);
    cJSON_Delete(results);
    cJSON_Delete(jobs);
    lml_engine_free(engine);
}

/* What a wrong member of the house is: a path of names and numbers, and the JSON in its place. */
static const struct {
    const char *path[3];
    const char *wrong;
} wrong_settings[] = {
    {{"button"}, "\"9 oz\""},                          /* which ounce */
    {{"buton"}, "\"9 g\""},                            /* no recipe allows it */
    {{"need.scale_step"}, "\"0.1 mL\""},               /* another kind */
    {{"altitude"}, "\"2390\""},                        /* no unit */
    {{"altitude"}, "2390"},                            /* no text */
    {{"scale_step"}, "\"0,001 g\""},                   /* a comma */
    {{"overfill"}, "\"8\""},                           /* a ratio says of what */
    {{"unattended_ceiling"}, "\"400 \u0394\u00b0C\""}, /* a difference */
    {{"cycle", "0", "rate"}, "\"3 \u00b0C\""},         /* per nothing */
    {{"sleep", "from"}, "\"10 pm\""},
    {{"crucibles", "0", "wieght"}, "\"300 g\""}, /* no such field */
    {{"crucibles", "0", "mass"}, "\"300 mm\""},
    {{"tariff", "0", "price"}, "\"0.11 USD\""}, /* per what */
    {{"paper"}, "\"A5\""},
};

static void put_at(cJSON *house, const char *const path[3], const char *json)
{
    cJSON *in = house;
    size_t i = 0;
    for (; i + 1 < 3 && path[i + 1]; i++)
        in = cJSON_IsArray(in) ? cJSON_GetArrayItem(in, atoi(path[i]))
                               : cJSON_GetObjectItemCaseSensitive(in, path[i]);
    cr_assert(in, "%s leads nowhere", path[0]);
    cJSON *value = parse(json, path[0]);
    if (cJSON_GetObjectItemCaseSensitive(in, path[i]))
        cJSON_ReplaceItemInObjectCaseSensitive(in, path[i], value);
    else
        cJSON_AddItemToObject(in, path[i], value);
}

/* With what all recipes on the shelf allow. Each wrong house is refused by lemel too. */
Test(schema, of_a_house_has_its_allowances)
{
    lml_engine *engine = shipped_studio();
    cJSON *schema = schema_of_recipe(engine, NULL), *house = example("house.json");
    expect_fit(schema, house, "the demo's house");
    for (size_t i = 0; i < sizeof wrong_settings / sizeof *wrong_settings; i++) {
        cJSON *wrong = cJSON_Duplicate(house, true);
        put_at(wrong, wrong_settings[i].path, wrong_settings[i].wrong);
        expect_misfit(schema, wrong, wrong_settings[i].wrong);
        char *text = cJSON_PrintUnformatted(wrong);
        const lml_source source = {text, strlen(text), "house.json"};
        lml_text faults;
        cr_assert_eq(lml_engine_faults(engine, NULL, &source, NULL, &faults, NULL), LML_OK);
        cr_expect_str_neq(faults.text, "[]", "lemel takes %s", wrong_settings[i].wrong);
        lml_text_free(engine, &faults);
        free(text);
        cJSON_Delete(wrong);
    }
    cJSON_Delete(house);
    cJSON_Delete(schema);
    lml_engine_free(engine);
}

Test(schema, fits_the_demo_house_and_prices)
{
    cJSON *houses = schema_of_file(&lml_shapes_house), *lists = schema_of_file(&lml_shapes_prices);
    cJSON *house = example("house.json"), *prices = example("prices.json");
    expect_fit(houses, house, "the house");
    expect_fit(lists, prices, "the prices");
    cJSON_AddNumberToObject(prices, "more", 1);
    expect_misfit(lists, prices, "an unknown member");
    cJSON_ReplaceItemInObjectCaseSensitive(house, "altitude", cJSON_CreateNumber(2390));
    expect_misfit(houses, house, "a bare number for a length");
    cJSON_Delete(prices);
    cJSON_Delete(house);
    cJSON_Delete(lists);
    cJSON_Delete(houses);
}

/* Every recipe that ships has a schema, and in it stands whatever it asks and allows. */
Test(schema, names_what_each_recipe_asks_and_allows)
{
    lml_engine *engine = shipped_engine();
    const char *recipe;
    size_t names = 0;
    for (size_t i = 0; (recipe = lml_engine_recipe(engine, i)); i++) {
        cJSON *schema = schema_of_recipe(engine, recipe);
        const cJSON *members = cJSON_GetObjectItemCaseSensitive(schema, "properties");
        const cJSON *given = cJSON_GetObjectItemCaseSensitive(members, "given");
        const cJSON *house = cJSON_GetObjectItemCaseSensitive(members, "house");
        lml_text text;
        lml_error e;
        cr_assert_eq(lml_engine_inspect(engine, recipe, &text, &e), LML_OK, "%s", e.message);
        cJSON *about = cJSON_Parse(text.text);
        lml_text_free(engine, &text);
        const cJSON *shape;
        cJSON_ArrayForEach(shape, cJSON_GetObjectItemCaseSensitive(about, "asks"))
        {
            const char *name = cJSON_GetObjectItemCaseSensitive(shape, "name")->valuestring;
            const cJSON *asks = cJSON_GetObjectItemCaseSensitive(given, "properties");
            cr_expect(cJSON_GetObjectItemCaseSensitive(asks, name), "%s: no %s", recipe, name);
            names++;
        }
        cJSON_ArrayForEach(shape, cJSON_GetObjectItemCaseSensitive(about, "allowances"))
        {
            char dotted[200];
            snprintf(dotted, sizeof dotted, "%s.%s", recipe,
                     cJSON_GetObjectItemCaseSensitive(shape, "name")->valuestring);
            const cJSON *settings = cJSON_GetObjectItemCaseSensitive(house, "properties");
            cr_expect(cJSON_GetObjectItemCaseSensitive(settings, dotted), "%s: no %s", recipe,
                      dotted);
            names++;
        }
        cJSON_Delete(about);
        cJSON_Delete(schema);
    }
    cr_expect_gt(names, 100u);
    lml_engine_free(engine);
}

Test(schema, of_a_result_refuses_what_is_no_result)
{
    lml_engine *engine = shipped_studio();
    cJSON *schema = schema_of_result(), *job = example("jobs/cuff-links.json");
    char *text = cJSON_PrintUnformatted(job);
    static const char *const needed[] = {"lemel",   "inputs",   "worked",
                                         "results", "settings", "sheets"};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        cJSON *result = shipped_run(engine, text);
        cJSON_DeleteItemFromObjectCaseSensitive(result, needed[i]);
        expect_misfit(schema, result, needed[i]);
        cJSON_Delete(result);
    }
    cJSON *result = shipped_run(engine, text);
    cJSON *figure = cJSON_GetObjectItemCaseSensitive(result, "results")->child;
    cJSON_DeleteItemFromObjectCaseSensitive(figure, "kind");
    expect_misfit(schema, result, "a figure of no kind");
    cJSON_Delete(result);
    result = shipped_run(engine, text);
    cJSON *line = cJSON_GetObjectItemCaseSensitive(result, "sheets")->child->child;
    cJSON_ReplaceItemInObjectCaseSensitive(line, "is", cJSON_CreateString("song"));
    expect_misfit(schema, result, "an entry that no page has");
    cJSON_Delete(result);
    free(text);
    cJSON_Delete(job);
    cJSON_Delete(schema);
    lml_engine_free(engine);
}
