/* Tries of one job come to what each comes to by itself: all jobs of the demo studio, drawn a few
 * times, and with each of what the house sets for them at another figure. */
#include "face/tries.h"
#include "file/json.h"
#include "trial/uncertain.h"

#include "../shipped.h"

enum { TEXT = 1 << 20, DRAWS = 4, ROOM = 400 };

static char text[TEXT];

static lml_span read_text(const char *name)
{
    char path[600];
    snprintf(path, sizeof path, "%s/examples/%s", LML_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    cr_assert(file, "%s cannot be opened", path);
    size_t length = fread(text, 1, TEXT - 1, file);
    fclose(file);
    text[length] = '\0';
    return (lml_span){text, length};
}

static lml_engine *studio(const char *house)
{
    lml_engine *engine = shipped_engine();
    lml_error e;
    cr_assert_eq(lml_engine_put(engine, LML_PUT_HOUSE, "", house, strlen(house), "house.json", &e),
                 LML_OK, "%s", e.message);
    lml_span prices = read_text("prices.json");
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_PRICES, "", prices.at, prices.length, "prices.json", &e),
        LML_OK);
    return engine;
}

/* The same job by itself, and as one of many: same bytes, or the same error. */
static void expect_same(lml_engine *alone, lml_engine *many, const char *name, lml_span job)
{
    lml_text is, due;
    lml_error is_error, due_error;
    lml_status status = lml_tries_work(many, job, "job", &is, &is_error);
    cr_assert_eq(lml_tries_work(alone, job, "job", &due, &due_error), status, "%s", name);
    if (status != LML_OK) {
        cr_expect_str_eq(is_error.message, due_error.message, "%s", name);
        return;
    }
    cr_expect_str_eq(is.text, due.text, "%s", name);
    cr_expect_eq(is.stopped, due.stopped);
    lml_text_free(many, &is);
    lml_text_free(alone, &due);
}

static void draw(lml_engine *engine[2], const char *name, const lml_json *house)
{
    lml_alloc heap = lml_alloc_heap();
    lml_error e;
    char path[600];
    float at[LML_UNCERTAIN_MOST];
    lml_uncertain u = lml_uncertain_on(&heap);
    snprintf(path, sizeof path, "jobs/%s", name);
    cr_assert_eq(lml_uncertain_find(&u, read_text(path), "job", house, &e), LML_OK);
    lml_builder about = lml_builder_on(&heap, 0);
    for (size_t i = 0; i < u.count; i++)
        lml_builder_add_format(&about, "%s\n", u.item[i].path);
    cr_assert_eq(lml_tries_open(engine[1], (lml_span){about.at ? about.at : "", about.length}, &e),
                 LML_OK);
    for (uint64_t i = 0; i < DRAWS && u.count > 0; i++) {
        lml_builder job = lml_builder_on(&heap, 0);
        cr_assert_eq(lml_uncertain_draw(&u, i, at, &job, &e), LML_OK);
        expect_same(engine[0], engine[1], name, (lml_span){job.at, job.length});
        lml_builder_free(&job);
    }
    lml_tries_close(engine[1]);
    lml_builder_free(&about);
    lml_uncertain_free(&u);
}

static void draw_all(const char *house_text)
{
    lml_alloc heap = lml_alloc_heap();
    lml_json_document *house;
    lml_error e;
    lml_engine *engine[2] = {studio(house_text), studio(house_text)};
    cr_assert_eq(lml_json_read(&heap, lml_span_of(house_text), NULL, "house.json", &house, &e),
                 LML_OK);
    DIR *dir = opendir(LML_SOURCE_DIR "/examples/jobs");
    cr_assert(dir);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir))
        if (strstr(entry->d_name, ".json"))
            draw(engine, entry->d_name, lml_json_root(house));
    closedir(dir);
    lml_json_free(house);
    lml_engine_free(engine[0]);
    lml_engine_free(engine[1]);
}

static char *house_of_demo(void)
{
    lml_span house = read_text("house.json");
    char *copy = malloc(house.length + ROOM);
    memcpy(copy, house.at, house.length + 1);
    return copy;
}

Test(tries, come_to_what_each_comes_to_alone)
{
    char *house = house_of_demo();
    draw_all(house);
    free(house);
}

/* What recipes within the job read of the house by themselves is never taken over. */
Test(tries, nor_where_the_house_is_uncertain)
{
    static const char *const setting[] = {"\"markup\": \"22 %", "\"wastage\": \"8 %",
                                          "\"credit_share\": \"90 %"};
    static const char spread[] = " ± 0.5 %";
    char *house = house_of_demo();
    for (size_t i = 0; i < sizeof setting / sizeof *setting; i++) {
        char *at = strstr(house, setting[i]);
        cr_assert(at, "the demo house does not set %s", setting[i]);
        at += strlen(setting[i]);
        memmove(at + strlen(spread), at, strlen(at) + 1);
        memcpy(at, spread, strlen(spread));
    }
    draw_all(house);
    free(house);
}
