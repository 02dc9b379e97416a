/* Tries of one job come to what each comes to by itself: all jobs of the demo studio, drawn a few
 * times, and with each of what the house sets for them at another figure. What a draw says of a
 * figure is what a reader of the result finds, to the last bit. */
#include "face/tries.h"
#include "file/json.h"
#include "papers/leaf.h"
#include "papers/paper.h"
#include "report/drawn.h"
#include "trial/uncertain.h"

#include "../shipped.h"

#include <math.h>

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

/* ---- draws ---- */

typedef struct names {
    const lml_json *results;
    lml_builder *about;
} names;

/* Some keys have a dot in them, and so no name. */
static lml_status add_name(void *self, const char *name, const lml_json *datum, lml_error *err)
{
    names *n = self;
    (void)err;
    if (lml_leaf_find(n->results, lml_span_of(name)) == datum)
        lml_builder_add_format(n->about, "\n=%s", name);
    return LML_OK;
}

static double size_of(const lml_json *datum, int *kind)
{
    lml_value v;
    *kind = LML_DRAWN_NONE;
    if (!datum || !lml_leaf_read(datum, &v) || v.kind > LML_MOMENT)
        return NAN;
    *kind = v.kind;
    return v.kind < LML_MONEY ? v.amount : (double)v.exact;
}

static void expect_figures(const lml_json *results, lml_span wanted, lml_span *drawn,
                           const char *job)
{
    while (wanted.length > 0) {
        int kind, due_kind;
        double size;
        const char *end = memchr(wanted.at, '\n', wanted.length);
        lml_span name = lml_span_between(wanted.at + 1, end ? end : wanted.at + wanted.length);
        double due = size_of(lml_leaf_find(results, name), &due_kind);
        cr_assert(lml_drawn_take_figure(drawn, &kind, &size), "%s", job);
        cr_expect_eq(kind == LML_DRAWN_NONE, due_kind == LML_DRAWN_NONE, "%s, %.*s", job,
                     LML_SPAN_SHOWN(name));
        if (kind != LML_DRAWN_NONE)
            cr_expect_eq(memcmp(&size, &due, sizeof size), 0, "%s, %.*s: %.17g and %.17g", job,
                         LML_SPAN_SHOWN(name), size, due);
        wanted = end ? lml_span_between(end + 1, wanted.at + wanted.length) : (lml_span){"", 0};
    }
}

static void expect_stops(const lml_json *result, lml_span *drawn, const char *name)
{
    lml_span level, code;
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    for (; r; r = lml_json_next(r)) {
        cr_assert(lml_drawn_take_stop(drawn, &level, &code), "%s", name);
        cr_expect(lml_span_equal(level, lml_json_text(lml_json_member(r, "level"))), "%s", name);
        cr_expect(lml_span_equal(code, lml_json_text(lml_json_member(r, "code"))), "%s", name);
    }
    cr_expect_eq(drawn->length, 0, "%s", name);
}

/* The figures that the first draw has are wanted of all; *length is of what comes before them. */
static void expect_drawn(lml_engine *alone, lml_engine *drawing, const char *name, lml_span job,
                         lml_builder *about, size_t *length)
{
    lml_alloc heap = lml_alloc_heap();
    lml_text is, due;
    lml_error e;
    lml_json_document *doc;
    if (lml_tries_work(alone, job, "job", &due, &e) != LML_OK)
        return;
    cr_assert_eq(lml_paper_result(&heap, &due, &doc, &e), LML_OK, "%s", e.message);
    const lml_json *results = lml_json_member(lml_json_root(doc), "results");
    if (*length == 0) {
        *length = about->length;
        lml_leaf_each(results, add_name, &(names){results, about}, NULL);
        cr_assert_eq(lml_tries_open(drawing, (lml_span){about->at, about->length}, &e), LML_OK);
    }
    cr_assert_eq(lml_tries_draw(drawing, job, "job", &is, &e), LML_OK, "%s: %s", name, e.message);
    cr_expect_eq(is.stopped, due.stopped);
    lml_span drawn = {is.text, is.length};
    const char *first = about->at + *length + 1, *end = about->at + about->length;
    expect_figures(results, first < end ? lml_span_between(first, end) : (lml_span){"", 0}, &drawn,
                   name);
    expect_stops(lml_json_root(doc), &drawn, name);
    lml_json_free(doc);
    lml_text_free(drawing, &is);
    lml_text_free(alone, &due);
}

static void draw(lml_engine *engine[3], const char *name, const lml_json *house)
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
    size_t length = 0;
    for (uint64_t i = 0; i < DRAWS && u.count > 0; i++) {
        lml_builder job = lml_builder_on(&heap, 0);
        cr_assert_eq(lml_uncertain_draw(&u, i, at, &job, &e), LML_OK);
        expect_same(engine[0], engine[1], name, (lml_span){job.at, job.length});
        expect_drawn(engine[0], engine[2], name, (lml_span){job.at, job.length}, &about, &length);
        lml_builder_free(&job);
    }
    lml_tries_close(engine[1]);
    lml_tries_close(engine[2]);
    lml_builder_free(&about);
    lml_uncertain_free(&u);
}

static void draw_all(const char *house_text)
{
    lml_alloc heap = lml_alloc_heap();
    lml_json_document *house;
    lml_error e;
    lml_engine *engine[3] = {studio(house_text), studio(house_text), studio(house_text)};
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
    lml_engine_free(engine[2]);
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
