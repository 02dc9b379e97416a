/* The book: random records of random jobs, with metal that goes from one to another. What holds for
 * any of them: in is out and here, for each owner and metal; what lies here is what its lots hold;
 * the order of the jobs changes nothing; a date shows nothing later; a file that is copied adds
 * nothing. Sums of records that take from no lot are added up here once more, entry by entry. */
#include <criterion/criterion.h>

#include "lemel.h"

#include <cjson/cJSON.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { JOBS = 6, ENTRIES = 12, TEXT = 8000, BOOKS = 60 };

static lml_engine *engine;
static lml_error error;

static void open_engine(void)
{
    engine = lml_engine_new(NULL);
}

static void close_engine(void)
{
    lml_engine_free(engine);
}

TestSuite(book, .init = open_engine, .fini = close_engine);

/* ---- random records ---- */

static const char *const ways[] = {"in",   "added", "piece", "returned",
                                   "kept", "sent",  "here",  "settled"};
static const char *const owners[] = {"client", "Merrin", "Caspian", "studio"};
static const char *const metals[] = {"Au", "Ag"};
enum { WAYS = 7, SETTLED = 7, OWNERS = 4, METALS = 2 };

typedef struct entry {
    int minute, way, owner, metal, mass, fineness; /* 0.01 g, parts in 1000 */
    int what, from_job, from_what;                 /* from_job -1: from nothing */
} entry;

typedef struct shop {
    entry entry[JOBS][ENTRIES];
    char name[JOBS][16], text[JOBS][TEXT];
    lml_source source[JOBS];
} shop;

static int any(uint32_t *seed, int below)
{
    *seed = *seed * 1664525u + 1013904223u; /* Numerical Recipes, "quick and dirty" */
    return (int)((*seed >> 8) % (uint32_t)below);
}

static entry random_entry(uint32_t *seed, int job, int order, bool taking)
{
    entry e = {.minute = order * 10 + any(seed, 10),
               .way = any(seed, WAYS),
               .owner = any(seed, OWNERS),
               .metal = any(seed, METALS),
               .mass = 1 + any(seed, 2000),
               .fineness = 300 + any(seed, 700),
               .what = any(seed, 4),
               .from_job = -1};
    if (taking && any(seed, 3) == 0) {
        e.from_job = any(seed, 2) ? job : any(seed, JOBS);
        e.from_what = any(seed, 4);
    }
    return e;
}

/* Every other entry that takes from something takes what is there: what an earlier entry has. */
static void aim(shop *s, uint32_t *seed, int job, entry *e, int order)
{
    if (e->from_job < 0 || e->from_job > job || order == 0 || any(seed, 2))
        return;
    const entry *lot = &s->entry[e->from_job][any(seed, order)];
    e->from_what = lot->what;
    e->metal = lot->metal;
    bool studio = lot->owner == 3 || lot->way == 4 || lot->way == SETTLED; /* its own, or kept */
    e->owner = studio ? 3 : lot->owner;
    e->way = e->from_job == job ? (any(seed, 2) ? 3 : SETTLED)
             : studio           ? 1
                                : 0; /* returned, settled, added, in */
    if (e->way == 1)
        e->owner = 1; /* Merrin's from now on */
}

/* Entries later than `until` are left out of the texts. */
static void write_texts(shop *s, int until)
{
    for (int j = 0; j < JOBS; j++) {
        size_t used = (size_t)snprintf(s->text[j], TEXT, "{\"recipe\":\"account\",\"record\":[");
        bool first = true;
        for (int i = 0; i < ENTRIES; i++) {
            const entry *e = &s->entry[j][i];
            if (e->minute > until)
                continue;
            used += (size_t)snprintf(
                s->text[j] + used, TEXT - used,
                "%s{\"at\":\"2026-11-24T%02d:%02d\",\"what\":\"thing %d\",\"mass\":\"%d.%02d "
                "g\",\"fineness\":\"%d ‰ %s\",\"owner\":\"%s\",\"way\":\"%s\"",
                first ? "" : ",", 8 + e->minute / 60, e->minute % 60, e->what, e->mass / 100,
                e->mass % 100, e->fineness, metals[e->metal], owners[e->owner], ways[e->way]);
            if (e->from_job == j)
                used += (size_t)snprintf(s->text[j] + used, TEXT - used, ",\"from\":\"thing %d\"",
                                         e->from_what);
            else if (e->from_job >= 0)
                used +=
                    (size_t)snprintf(s->text[j] + used, TEXT - used,
                                     ",\"from\":\"job-%d: thing %d\"", e->from_job, e->from_what);
            used += (size_t)snprintf(s->text[j] + used, TEXT - used, "}");
            first = false;
        }
        used += (size_t)snprintf(s->text[j] + used, TEXT - used, "]}");
        snprintf(s->name[j], sizeof s->name[j], "job-%d.json", j);
        s->source[j] = (lml_source){s->text[j], used, s->name[j]};
    }
}

static shop *random_shop(uint32_t seed, bool taking)
{
    shop *s = calloc(1, sizeof *s);
    cr_assert(s);
    for (int j = 0; j < JOBS; j++)
        for (int i = 0; i < ENTRIES; i++) {
            s->entry[j][i] = random_entry(&seed, j, i, taking);
            aim(s, &seed, j, &s->entry[j][i], i);
        }
    write_texts(s, INT32_MAX);
    return s;
}

static lml_text add_up(const lml_source *jobs, size_t count, const char *at)
{
    lml_text out = {.text = NULL};
    cr_assert_eq(lml_engine_book(engine, jobs, count, at, &out, &error), LML_OK, "%s",
                 error.message);
    return out;
}

/* ---- reading a book ---- */

static const char *text_of(const cJSON *record, const char *name)
{
    return cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(record, name));
}

/* Nanograms of "12.3456 g Au", digit by digit. */
static int64_t nanograms(const char *text)
{
    int64_t n = 0;
    int decimals = -1;
    const char *at = text + (text[0] == '-');
    for (; *at != ' '; at++) {
        if (*at == '.') {
            decimals = 0;
            continue;
        }
        n = n * 10 + (*at - '0');
        decimals += decimals >= 0;
    }
    for (int i = decimals < 0 ? 0 : decimals; i < 9; i++)
        n *= 10;
    return text[0] == '-' ? -n : n;
}

static int64_t figure(const cJSON *account, const char *name)
{
    return nanograms(text_of(account, name));
}

static const cJSON *account_of(const cJSON *book, const char *owner, const char *metal)
{
    const cJSON *a;
    cJSON_ArrayForEach(a, cJSON_GetObjectItemCaseSensitive(book, "accounts"))
    {
        if (strcmp(text_of(a, "owner"), owner) == 0 && strcmp(text_of(a, "metal"), metal) == 0)
            return a;
    }
    return NULL;
}

static void check_account(const cJSON *book, const cJSON *a)
{
    int64_t in = figure(a, "in") + figure(a, "added") + figure(a, "from_others");
    int64_t out =
        figure(a, "piece") + figure(a, "returned") + figure(a, "to_others") + figure(a, "settled");
    cr_expect_eq(in, out + figure(a, "balance"));
    cr_expect_eq(figure(a, "balance"), figure(a, "held") + figure(a, "not_weighed"));
    cr_expect_eq(figure(a, "held"),
                 figure(a, "here") + figure(a, "sent") + figure(a, "as_brought"));
    int64_t lots = 0, open = 0;
    const cJSON *l;
    cJSON_ArrayForEach(l, cJSON_GetObjectItemCaseSensitive(book, "lots"))
    {
        if (strcmp(text_of(l, "owner"), text_of(a, "owner")) == 0 &&
            strcmp(text_of(l, "metal"), text_of(a, "metal")) == 0)
            lots += figure(l, "fine");
    }
    cJSON_ArrayForEach(l, cJSON_GetObjectItemCaseSensitive(a, "not_weighed_in"))
    {
        open += figure(l, "fine");
    }
    cr_expect_eq(lots, figure(a, "here") + figure(a, "as_brought"), "%s, %s: the lots come to %jd",
                 text_of(a, "owner"), text_of(a, "metal"), (intmax_t)lots);
    cr_expect_eq(open, figure(a, "not_weighed"));
}

/* Of one metal, over all owners: what came in is what went out and what is held, and what one owner
 * gave another got. */
static void check_metal(const cJSON *book, const char *metal)
{
    int64_t in = 0, out = 0, held = 0, given = 0;
    const cJSON *a;
    cJSON_ArrayForEach(a, cJSON_GetObjectItemCaseSensitive(book, "accounts"))
    {
        if (strcmp(text_of(a, "metal"), metal) != 0)
            continue;
        in += figure(a, "in") + figure(a, "added");
        out += figure(a, "piece") + figure(a, "returned") + figure(a, "settled");
        held += figure(a, "balance");
        given += figure(a, "to_others") - figure(a, "from_others");
    }
    cr_expect_eq(in, out + held);
    cr_expect_eq(given, 0);
}

/* ---- what holds of any book ---- */

Test(book, in_is_out_and_here)
{
    int taken = 0, refused = 0, more = 0;
    for (uint32_t seed = 1; seed <= BOOKS; seed++) {
        shop *s = random_shop(seed, seed % 2);
        lml_text text = add_up(s->source, JOBS, NULL);
        cJSON *book = cJSON_Parse(text.text);
        const cJSON *a;
        cJSON_ArrayForEach(a, cJSON_GetObjectItemCaseSensitive(book, "accounts"))
        {
            check_account(book, a);
            taken += strcmp(text_of(a, "owner"), "studio") != 0 && figure(a, "from_others") != 0;
        }
        for (int m = 0; m < METALS; m++)
            check_metal(book, metals[m]);
        more += strstr(text.text, "more-than-held") != NULL;
        refused += strstr(text.text, "from-owner") && strstr(text.text, "no-lot");
        cJSON_Delete(book);
        lml_text_free(engine, &text);
        free(s);
    }
    cr_expect(taken > 9 && more > 3 && refused > 3, "%d %d %d books are not like that", taken, more,
              refused);
}

/* Fine metal of the entries of one owner, metal and way: hundredths of a gram by parts in 1000. */
static int64_t sum_of(const shop *s, int owner, int metal, int way)
{
    int64_t sum = 0;
    for (int j = 0; j < JOBS; j++)
        for (int i = 0; i < ENTRIES; i++) {
            const entry *e = &s->entry[j][i];
            if (e->owner == owner && e->metal == metal && e->way == way)
                sum += (int64_t)e->mass * e->fineness * 10000;
        }
    return sum;
}

/* "client" is another person in each job; the studio keeps what others let it keep. */
Test(book, sums_are_those_of_the_entries)
{
    for (uint32_t seed = 1; seed <= BOOKS; seed++) {
        shop *s = random_shop(seed, false);
        lml_text text = add_up(s->source, JOBS, NULL);
        cJSON *book = cJSON_Parse(text.text);
        for (int o = 1; o < OWNERS - 1; o++)
            for (int m = 0; m < METALS; m++) {
                const cJSON *a = account_of(book, owners[o], metals[m]);
                static const char *const names[] = {"in",        "added", "piece", "returned",
                                                    "to_others", "sent",  "here"};
                for (int w = 0; w < WAYS && a; w++)
                    cr_expect_eq(figure(a, names[w]), sum_of(s, o, m, w), "%s %s %s", owners[o],
                                 metals[m], names[w]);
            }
        cJSON_Delete(book);
        lml_text_free(engine, &text);
        free(s);
    }
}

static void expect_same(const lml_text *a, const lml_text *b)
{
    cr_expect_str_eq(a->text, b->text);
}

Test(book, order_of_jobs_changes_nothing)
{
    for (uint32_t seed = 1; seed <= BOOKS; seed++) {
        shop *s = random_shop(seed, true);
        lml_text text = add_up(s->source, JOBS, NULL);
        for (int j = 0; j < JOBS; j++) {
            int k = any(&(uint32_t){seed + (uint32_t)j}, JOBS);
            lml_source moved = s->source[j];
            s->source[j] = s->source[k];
            s->source[k] = moved;
        }
        lml_text again = add_up(s->source, JOBS, NULL);
        expect_same(&text, &again);
        lml_text_free(engine, &text);
        lml_text_free(engine, &again);
        free(s);
    }
}

Test(book, a_date_shows_nothing_later)
{
    for (uint32_t seed = 1; seed <= BOOKS; seed++) {
        shop *s = random_shop(seed, true);
        int until = any(&(uint32_t){seed}, ENTRIES * 10);
        char at[40];
        snprintf(at, sizeof at, "2026-11-24T%02d:%02d", 8 + until / 60, until % 60);
        lml_text cut = add_up(s->source, JOBS, at);
        write_texts(s, until);
        lml_text without = add_up(s->source, JOBS, at);
        expect_same(&cut, &without);
        lml_text_free(engine, &cut);
        lml_text_free(engine, &without);
        free(s);
    }
}

/* A copy has a name behind all others, so that the jobs are called as before. */
Test(book, a_copied_file_adds_nothing)
{
    for (uint32_t seed = 1; seed <= BOOKS; seed++) {
        shop *s = random_shop(seed, true);
        lml_source more[JOBS + 2];
        memcpy(more, s->source, sizeof s->source);
        more[JOBS] = s->source[2];
        more[JOBS].shown = "zopied.json";
        more[JOBS + 1] = s->source[3]; /* the same file, named twice */
        more[JOBS + 1].shown = "./job-3.json";
        lml_text one = add_up(s->source, JOBS, NULL), other = add_up(more, JOBS + 2, NULL);
        cJSON *a = cJSON_Parse(one.text), *b = cJSON_Parse(other.text);
        cr_expect(cJSON_Compare(cJSON_GetObjectItem(a, "accounts"),
                                cJSON_GetObjectItem(b, "accounts"), true));
        cr_expect(
            cJSON_Compare(cJSON_GetObjectItem(a, "lots"), cJSON_GetObjectItem(b, "lots"), true));
        cr_expect(strstr(other.text, "zopied: 12 of its weighings"));
        cJSON_Delete(a);
        cJSON_Delete(b);
        lml_text_free(engine, &one);
        lml_text_free(engine, &other);
        free(s);
    }
}

/* ---- by hand ---- */

static const char *const hand[][2] = {
    {"ring.json",
     "{\"recipe\":\"account\",\"given\":{\"button_to\":\"studio\"},\"record\":["
     "{\"at\":\"2026-11-24T10:00\",\"what\":\"bar\",\"mass\":\"20 g\",\"fineness\":\"1000 "
     "‰\",\"owner\":\"client\",\"way\":\"in\"},"
     "{\"at\":\"2026-11-26T10:00\",\"what\":\"ring\",\"mass\":\"10 g\",\"fineness\":\"1000 "
     "‰\",\"owner\":\"client\",\"way\":\"piece\"},"
     "{\"at\":\"2026-11-26T10:05\",\"what\":\"button\",\"mass\":\"8 g\",\"fineness\":\"1000 "
     "‰\",\"owner\":\"client\",\"way\":\"here\"},"
     "{\"at\":\"2026-11-27T10:00\",\"what\":\"parcel 7\",\"mass\":\"3 g\",\"fineness\":\"1000 "
     "‰\",\"owner\":\"studio\",\"way\":\"sent\",\"from\":\"button\"}]}"},
    {"band.json",
     "{\"recipe\":\"account\",\"record\":["
     "{\"at\":\"2026-11-28T10:00\",\"what\":\"weighed button\",\"mass\":\"4 "
     "g\",\"fineness\":\"1000 ‰\",\"owner\":\"Merrin\",\"way\":\"added\",\"from\":\"ring: "
     "button\"}]}"},
    {"refiner.json",
     "{\"recipe\":\"closing\",\"date\":\"2026-12-10\",\"given\":{\"settlements\":[{\"lot\":"
     "\"parcel 7\",\"expected\":\"3 g Au\",\"found\":\"2.97 g Au\",\"price\":\"90 EUR/g\","
     "\"paid\":\"250 EUR\"}]}}"},
};

static void expect_hand(const char *at, const char *owner, const char *name, const char *figure_is)
{
    lml_source jobs[3];
    for (int i = 0; i < 3; i++)
        jobs[i] = (lml_source){hand[i][1], strlen(hand[i][1]), hand[i][0]};
    lml_text text = add_up(jobs, 3, at);
    cJSON *book = cJSON_Parse(text.text);
    const cJSON *a = account_of(book, owner, "Au");
    cr_expect(a && !text.stopped, "%s", text.text);
    if (a)
        cr_expect_str_eq(text_of(a, name), figure_is, "%s: %s of %s", at, name, owner);
    cJSON_Delete(book);
    lml_text_free(engine, &text);
}

/* 20 g came; 10 g are the ring, 8 g the button, which is the studio's; 2 g nobody weighed since.
 * Of the button 3 g go to the refiner and 4 g into the band. */
Test(book, a_button_goes_its_ways)
{
    expect_hand("2026-11-25", "client of ring", "as_brought", "20 g Au");
    expect_hand("2026-11-25", "client of ring", "held", "20 g Au");
    expect_hand("2026-11-25", "client of ring", "not_weighed", "0 g Au");
    expect_hand("2026-11-26", "client of ring", "to_others", "8 g Au");
    expect_hand("2026-11-26", "client of ring", "held", "0 g Au");
    expect_hand("2026-11-26", "client of ring", "not_weighed", "2 g Au");
    expect_hand("2026-11-26", "studio", "here", "8 g Au");
    expect_hand("2026-11-27", "studio", "here", "5 g Au");
    expect_hand("2026-11-27", "studio", "sent", "3 g Au");
    expect_hand("2026-11-28", "studio", "here", "1 g Au");
    expect_hand("2026-11-28", "studio", "held", "4 g Au");
    expect_hand("2026-11-28", "Merrin", "from_others", "4 g Au");
    expect_hand("2026-12-10", "studio", "settled", "3 g Au");
    expect_hand("2026-12-10", "studio", "held", "1 g Au");
}

/* ---- what a charge asks ---- */

enum { THINGS = 4 };

/* A job that counts on a gram of everything of every job, and took `taken` of the first already. */
static void write_asker(char *text, const char *taken)
{
    size_t used = (size_t)snprintf(text, TEXT, "{\"recipe\":\"charge\",\"given\":{\"lots\":[");
    for (int i = 0; i < JOBS * THINGS; i++)
        used += (size_t)snprintf(text + used, TEXT - used,
                                 "%s{\"name\":\"lot %d\",\"mass\":\"1 g\",\"from\":\"job-%d: "
                                 "thing %d\"}",
                                 i ? "," : "", i, i / THINGS, i % THINGS);
    snprintf(text + used, TEXT - used, "]},\"record\":[%s]}", taken);
}

static cJSON *ask(shop *s, const char *taken)
{
    static char asker[TEXT];
    lml_source all[JOBS + 1];
    lml_text out = {.text = NULL};
    memcpy(all, s->source, sizeof s->source);
    write_asker(asker, taken);
    all[JOBS] = (lml_source){asker, strlen(asker), "asker.json"};
    cr_assert_eq(lml_engine_book_held(engine, all, JOBS + 1, JOBS, NULL, &out, &error), LML_OK,
                 "%s", error.message);
    cJSON *job = cJSON_Parse(out.text);
    lml_text_free(engine, &out);
    return job;
}

static const cJSON *held_of(const cJSON *job, int lot)
{
    const cJSON *given = cJSON_GetObjectItemCaseSensitive(job, "given");
    const cJSON *lots = cJSON_GetObjectItemCaseSensitive(given, "lots");
    return cJSON_GetObjectItemCaseSensitive(cJSON_GetArrayItem(lots, lot), "held");
}

static int64_t sum_of_masses(const cJSON *lots, const char *job, const char *what)
{
    int64_t sum = 0;
    const cJSON *l;
    cJSON_ArrayForEach(l, lots)
    {
        bool fits =
            !job || (strcmp(text_of(l, "job"), job) == 0 && strcmp(text_of(l, "what"), what) == 0);
        int64_t mass = fits ? nanograms(text_of(l, "mass")) : 0;
        sum += mass > 0 ? mass : 0;
    }
    return sum;
}

/* Of what lies here. A lot as it came in is no lot of the book, which knows not what is left of it.
 */
static bool was_weighed(const shop *s, int job, int thing)
{
    for (int i = 0; i < ENTRIES; i++) {
        const entry *e = &s->entry[job][i];
        if (e->what == thing && (e->way == 4 || e->way == 6 || e->way == SETTLED))
            return true;
    }
    return false;
}

Test(book, a_charge_is_told_what_the_book_has)
{
    int compared = 0, silent = 0;
    for (uint32_t seed = 1; seed <= BOOKS; seed++) {
        shop *s = random_shop(seed, true);
        lml_text text = add_up(s->source, JOBS, NULL);
        cJSON *book = cJSON_Parse(text.text), *job = ask(s, "");
        for (int i = 0; i < JOBS * THINGS; i++) {
            char home[16], what[16];
            snprintf(home, sizeof home, "job-%d", i / THINGS);
            snprintf(what, sizeof what, "thing %d", i % THINGS);
            const cJSON *held = held_of(job, i);
            if (!was_weighed(s, i / THINGS, i % THINGS)) {
                silent += text_of(held, "why") != NULL;
                continue;
            }
            const cJSON *lots = cJSON_GetObjectItemCaseSensitive(held, "lots");
            cr_expect_eq(sum_of_masses(lots, NULL, NULL),
                         sum_of_masses(cJSON_GetObjectItemCaseSensitive(book, "lots"), home, what),
                         "book %u, %s of %s", seed, what, home);
            compared++;
        }
        cJSON_Delete(job);
        cJSON_Delete(book);
        lml_text_free(engine, &text);
        free(s);
    }
    cr_expect(compared > 500 && silent > 50, "%d compared, %d of nothing", compared, silent);
}

Test(book, what_the_charge_took_itself_is_there_for_it)
{
    for (uint32_t seed = 1; seed <= BOOKS; seed++) {
        shop *s = random_shop(seed, true);
        cJSON *before = ask(s, "");
        cJSON *after =
            ask(s, "{\"at\":\"2026-11-25T10:00\",\"what\":\"weighed lot 0\",\"mass\":\"1 "
                   "g\",\"fineness\":\"585 ‰\",\"owner\":\"Merrin\",\"way\":\"added\","
                   "\"from\":\"job-0: thing 0\"}");
        for (int i = 0; i < JOBS * THINGS; i++)
            cr_expect(cJSON_Compare(held_of(before, i), held_of(after, i), true));
        cJSON_Delete(before);
        cJSON_Delete(after);
        free(s);
    }
}

Test(book, only_one_of_its_jobs_may_ask)
{
    shop *s = random_shop(1, false);
    lml_text out = {.text = NULL};
    cr_expect_eq(lml_engine_book_held(engine, s->source, JOBS, JOBS, NULL, &out, &error),
                 LML_BAD_DATA);
    cr_expect_eq(lml_engine_book_held(engine, s->source, JOBS, 0, NULL, &out, &error), LML_OK);
    cr_expect_str_eq(out.text, s->text[0]); /* it counts on nothing: its text as it was */
    lml_text_free(engine, &out);
    free(s);
}
