/* Both faces of a result, text and HTML, say all that its JSON says: every figure, every caution
 * and every reason of every page of the demo studio's jobs. The other way round nothing of what is
 * withheld is in any of the three. */
#include "shipped.h"
#include "sheet/days.h"
#include "sheet/entries.h"
#include "sheet/html.h"
#include "sheet/sheet.h"

static lml_alloc heap;

/* A face without blanks and without markup, so that a figure is found whatever it is set in. */
static char *squeezed(const char *face, bool html)
{
    static const struct {
        const char *entity, *is;
    } entities[] = {{"&amp;", "&"}, {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}};
    char *out = (char *)malloc(strlen(face) + 1), *to = out;
    for (const char *at = face; *at;) {
        size_t entity = 5;
        for (size_t i = 0; html && *at == '&' && i < 5; i++)
            if (strncmp(at, entities[i].entity, strlen(entities[i].entity)) == 0)
                entity = i;
        if (html && *at == '<') {
            at = strchr(at, '>') + 1;
        } else if (entity < 5) {
            *to++ = *entities[entity].is;
            at += strlen(entities[entity].entity);
        } else if (*at == ' ' || *at == '\n') {
            at++;
        } else if (strncmp(at, "\302\240", 2) == 0) {
            at += 2;
        } else {
            *to++ = *at++;
        }
    }
    *to = '\0';
    return out;
}

typedef struct face {
    const lml_json *result, *page; /* of which it is drawn */
    const char *job;
    char *said;
    lml_days days;
    bool html;
} face;

static bool says(const face *f, lml_span words)
{
    char *text = (char *)malloc(words.length + 1);
    memcpy(text, words.at ? words.at : "", words.length);
    text[words.length] = '\0';
    char *needle = squeezed(text, false);
    bool there = strstr(f->said, needle) != NULL;
    free(text);
    free(needle);
    return there;
}

static void expect(const face *f, lml_span words, const char *what)
{
    lml_span page = lml_json_name(f->page);
    cr_expect(says(f, words), "%s, page %.*s in %s: %s \"%.*s\" is missing", f->job,
              (int)page.length, page.at, f->html ? "HTML" : "text", what, (int)words.length,
              words.at);
}

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* As it is written with its moments in the house's form. */
static void expect_sentence(const face *f, lml_span text, const char *what)
{
    lml_builder b = lml_builder_on(&heap, 0);
    lml_days_put_sentence(f->days, text, &b);
    expect(f, (lml_span){b.at, b.at ? b.length : 0}, what);
    lml_builder_free(&b);
}

static void expect_moment(const face *f, const lml_value *moment, bool clock)
{
    lml_builder b = lml_builder_on(&heap, 0);
    lml_days_put_clock(moment, &b);
    if (clock)
        expect(f, (lml_span){b.at, b.length}, "the hour");
    b.length = 0;
    lml_days_put_day(f->days, moment, false, &b);
    expect(f, (lml_span){b.at, b.length}, "the day");
    lml_builder_free(&b);
}

/* A difference is read in its plain unit: 75 °C, and in a file 75 Δ°C. */
static void expect_plain(const face *f, lml_span text, const char *what)
{
    static const char mark[] = "\316\224";
    lml_builder b = lml_builder_on(&heap, 0);
    for (size_t i = 0; i < text.length; i++)
        if (i + 1 < text.length && memcmp(text.at + i, mark, 2) == 0)
            i++;
        else
            lml_builder_add_char(&b, text.at[i]);
    expect(f, (lml_span){b.at, b.at ? b.length : 0}, what);
    lml_builder_free(&b);
}

/* The number alone where the unit stands elsewhere: at the head of a ladder, behind the other
 * limit. */
static void expect_figure(const face *f, const lml_json *figure, bool number, const char *what)
{
    lml_span text = member_text(figure, "text"), value = member_text(figure, "value");
    lml_value moment;
    bool clock;
    long minutes;
    if (!figure)
        return;
    if (lml_span_is(member_text(figure, "kind"), "moment") &&
        lml_days_read(value, &moment, &clock)) {
        expect_moment(f, &moment, clock);
        return;
    }
    if (lml_days_long_time(figure, &minutes)) {
        char words[40];
        int hours = snprintf(words, sizeof words, "%ld h", minutes / 60);
        if (minutes % 60)
            snprintf(words + hours, sizeof words - (size_t)hours, " %02ld", minutes % 60);
        expect(f, lml_span_of(words), what);
        return;
    }
    if (number && memchr(text.at, ' ', text.length))
        text.length = (size_t)((const char *)memchr(text.at, ' ', text.length) - text.at);
    if (text.length > 0)
        expect_plain(f, text, what);
    else if (lml_json_kind_of(lml_json_member(figure, "value")) == LML_JSON_TEXT)
        expect_sentence(f, value, what);
}

/* Minutes of a clock that was started: "4.5 min" on the text page, 4:30 on the other. */
static void expect_after(const face *f, const lml_json *time, const char *what)
{
    if (!time)
        return;
    if (!f->html) {
        expect_figure(f, time, false, what);
        return;
    }
    char words[40];
    long s = (long)(lml_json_number(lml_json_member(time, "value")) *
                        (lml_span_is(member_text(time, "unit"), "s") ? 1 : 60) +
                    .5);
    snprintf(words, sizeof words, "%ld:%02ld", s / 60, s % 60);
    expect(f, lml_span_of(words), what);
}

static void expect_line(const face *f, const lml_json *line)
{
    bool ladder = lml_json_member(line, "shows") != NULL;
    bool letter = !lml_entries_kind_of(lml_json_name(f->page))->working;
    if (letter && !lml_json_member(line, "value") && lml_json_member(line, "record"))
        return; /* what is only written down is for the studio */
    expect_sentence(f, member_text(line, "label"), "label");
    expect(f, member_text(line, "owner"), "owner");
    if (!letter)
        expect(f, member_text(line, "record"), "record");
    expect(f, member_text(lml_json_member(line, "recorded"), "text"), "what was recorded");
    expect_figure(f, lml_json_member(line, "value"), ladder, "value");
    expect_figure(f, lml_json_member(line, "shows"), true, "what the scale shows");
    expect_figure(f, lml_json_member(line, "least"), lml_json_member(line, "most") != NULL,
                  "least");
    expect_figure(f, lml_json_member(line, "most"), false, "most");
    expect_figure(f, lml_json_member(line, "also"), false, "second unit");
    expect_figure(f, lml_json_member(line, "chance"), false, "chance");
    expect_figure(f, lml_json_member(line, "at"), false, "when");
    expect_after(f, lml_json_member(line, "after"), "after");
    expect_after(f, lml_json_member(line, "latest"), "too late");
}

static void expect_cells(const face *f, const lml_json *cells)
{
    for (const lml_json *c = lml_json_first(cells); c; c = lml_json_next(c)) {
        if (lml_json_kind_of(c) == LML_JSON_TEXT)
            expect(f, lml_json_text(c), "column");
        else if (lml_json_yes(lml_json_member(c, "withheld")))
            expect(f, lml_span_of("DO NOT"), "cell");
        else /* the unit of a wide table's column is in its heading */
            expect_figure(f, c,
                          !f->html && !says(f, member_text(c, "text")) &&
                              says(f, member_text(c, "unit")),
                          "cell");
    }
}

static void expect_remark(const face *f, const lml_json *remark)
{
    if (member_text(remark, "reason").length > 0 &&
        !lml_json_yes(lml_json_member(remark, "lapsed"))) {
        expect_sentence(f, member_text(remark, "reason"), "reason");
        expect(f, member_text(remark, "by"), "who confirmed it");
        return;
    }
    expect_sentence(f, member_text(remark, "text"), "remark");
}

static void expect_picture(const face *f, const lml_json *picture)
{
    const lml_json *s = lml_json_first(lml_json_member(picture, "steps"));
    for (; s; s = lml_json_next(s)) {
        expect_figure(f, lml_json_member(s, "to"), false, "step");
        expect_figure(f, lml_json_member(s, "rate"), false, "rate");
        expect_figure(f, lml_json_member(s, "hold"), false, "hold");
        expect(f, member_text(s, "name"), "name of a step");
    }
    const lml_json *r = lml_json_first(lml_json_member(picture, "reads"));
    for (; r; r = lml_json_next(r))
        expect_figure(f, lml_json_member(r, "value"), false, "reading");
    const lml_json *m = lml_json_first(lml_json_member(picture, "moves"));
    for (; m; m = lml_json_next(m)) {
        expect(f, member_text(m, "from"), "place");
        expect(f, member_text(m, "to"), "place");
        expect_figure(f, lml_json_member(m, "value"), false, "move");
    }
    static const char *const clear[] = {"wall", "top"};
    for (size_t i = 0; i < 2; i++)
        expect_figure(f, lml_json_member(lml_json_member(picture, clear[i]), "value"), false,
                      clear[i]);
    expect_figure(f, lml_json_member(lml_json_member(picture, "vessel"), "diameter"), false,
                  "diameter");
    expect(f, member_text(lml_json_member(picture, "vessel"), "name"), "vessel");
}

static void expect_entries(const face *f, const lml_json *entries)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        lml_span is = member_text(e, "is");
        if (lml_json_yes(lml_json_member(e, "withheld"))) {
            if (!lml_span_is(is, "text"))
                expect(f, lml_span_of("DO NOT"), "what is withheld");
        } else if (lml_span_is(is, "part")) {
            expect_entries(f, lml_json_member(e, "entries"));
        } else if (lml_span_is(is, "line") || lml_span_is(is, "total") || lml_span_is(is, "box")) {
            expect_line(f, e);
        } else if (lml_span_is(is, "remark")) {
            expect_remark(f, e);
        } else if (lml_span_is(is, "text") || lml_span_is(is, "heading")) {
            expect_sentence(f, member_text(e, "text"), "sentence");
        } else if (lml_span_is(is, "grid")) {
            expect_cells(f, lml_json_member(e, "columns"));
            const lml_json *row = lml_json_first(lml_json_member(e, "rows"));
            for (; row; row = lml_json_next(row))
                expect_cells(f, row);
            expect_cells(f, lml_json_member(e, "total"));
        } else if (lml_span_is(is, "sign")) {
            expect_cells(f, lml_json_member(e, "who"));
        } else {
            expect_picture(f, e);
        }
    }
}

static char *text_of(const lml_json *result, const char *page)
{
    lml_builder b = lml_builder_on(&heap, 0);
    lml_sheet_look look = {.page = page, .width = 400};
    cr_assert_eq(lml_sheet_draw(result, &look, &b, NULL), LML_OK, "%s", page ? page : "all");
    char *said = squeezed(b.at, false);
    lml_builder_free(&b);
    return said;
}

static char *html_of(const lml_json *result, const char *page)
{
    lml_builder b = lml_builder_on(&heap, 0);
    lml_html_look look = {.pages = page, .paper = LML_PAPER_A4};
    cr_assert_eq(lml_html_draw(result, &look, &b, NULL), LML_OK, "%s", page ? page : "all");
    char *said = squeezed(strstr(b.at, "<body>"), true);
    lml_builder_free(&b);
    return said;
}

static void check_page(const char *job, const lml_json *result, const lml_json *page)
{
    char name[60];
    snprintf(name, sizeof name, "%.*s", (int)lml_json_name(page).length, lml_json_name(page).at);
    for (int html = 0; html < 2; html++) {
        face f = {.result = result,
                  .page = page,
                  .job = job,
                  .said = html ? html_of(result, name) : text_of(result, name),
                  .days = lml_days_of(result),
                  .html = html};
        if (!lml_entries_kind_of(lml_json_name(page))->working)
            f.days.year = 0;
        expect_entries(&f, page);
        free(f.said);
    }
}

/* The result of a job text, as both faces take it. */
static lml_json_document *work(lml_engine *engine, const char *name, const char *text)
{
    lml_text result;
    lml_error e;
    lml_status status = strstr(text, "\"closing\": {")
                            ? lml_engine_close(engine, text, strlen(text), name, &result, &e)
                            : lml_engine_run(engine, text, strlen(text), name, &result, &e);
    cr_assert_eq(status, LML_OK, "%s: %s (%s)", name, e.message, e.hint);
    lml_json_document *doc = NULL;
    cr_assert_eq(lml_json_read(&heap, lml_span_of(result.text), NULL, name, &doc, &e), LML_OK);
    lml_text_free(engine, &result);
    return doc;
}

Test(faces, say_all_that_the_result_says)
{
    heap = lml_alloc_heap();
    lml_engine *engine = shipped_studio();
    DIR *dir = opendir(LML_SOURCE_DIR "/examples/jobs");
    cr_assert(dir);
    int jobs = 0;
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        char path[600];
        if (!strstr(entry->d_name, ".json"))
            continue;
        snprintf(path, sizeof path, "%s/examples/jobs/%s", LML_SOURCE_DIR, entry->d_name);
        char *text = shipped_read(path);
        if (strstr(text, "\"jobs\":")) {
            free(text); /* reads other files, which the command does */
            continue;
        }
        lml_json_document *doc = work(engine, entry->d_name, text);
        const lml_json *result = lml_json_root(doc);
        const lml_json *page = lml_json_first(lml_json_member(result, "sheets"));
        for (; page; page = lml_json_next(page))
            if (lml_entries_any(page))
                check_page(entry->d_name, result, page);
        lml_json_free(doc);
        free(text);
        jobs++;
    }
    closedir(dir);
    cr_expect_geq(jobs, 25);
    lml_engine_free(engine);
}

/* What a drawing needs and no text says: each is in the result of the jobs that cast. */
static const char *const needed[] = {
    "act",      "least",  "most",  "at",     "till",   "after",       "latest",
    "owner",    "whole",  "step",  "shows",  "also",   "chance",      "recorded",
    "concerns", "record", "box",   "who",    "sd",     "withheld_by", "steps",
    "nobody",   "vessel", "moves", "places", "client", "title",       "foretold"};
enum { NEEDED = sizeof needed / sizeof *needed };

static void note_members(const lml_json *node, bool found[NEEDED])
{
    for (const lml_json *inner = lml_json_first(node); inner; inner = lml_json_next(inner)) {
        for (size_t i = 0; i < NEEDED; i++)
            found[i] = found[i] || lml_span_is(lml_json_name(inner), needed[i]);
        note_members(inner, found);
    }
}

/* Everything that is drawn is in the result: an engine that has neither this house nor any recipe
 * draws the same pages from its text, with every kind of drawing there is. */
Test(faces, are_drawn_from_the_result_alone)
{
    static const struct {
        const char *job, *drawn[8];
    } casts[] = {{"cuff-links",
                  {"class=\"ladder\"", "class=\"clock\"", "class=\"against\"", "class=\"hands\"",
                   "class=\"owner\">client", "class=\"sign\"", "row do gate", "class=\"also\""}},
                 {"cloak-pin", {"class=\"beside\"", "class=\"program\"", "class=\"shares\""}},
                 {"cloak-pin-touchstone", {"class=\"donot\"", "class=\"banner\""}},
                 {"ear-cuff", {"class=\"tiles"}},
                 {"warden-rings", {"class=\"tile\"", "class=\"flow\""}},
                 {"wide-band", {"class=\"box done\"", "class=\"flow\""}}};
    heap = lml_alloc_heap();
    lml_engine *engine = shipped_studio(),
               *bare = lml_engine_new(&(lml_engine_options){.without_gates = true});
    bool found[NEEDED] = {false};
    lml_look look = {.html = true, .paper = "A4"};
    for (size_t i = 0; i < sizeof casts / sizeof *casts; i++) {
        char path[600];
        snprintf(path, sizeof path, "%s/examples/jobs/%s.json", LML_SOURCE_DIR, casts[i].job);
        char *text = shipped_read(path);
        lml_text result, own, other, unseen;
        lml_error e;
        cr_assert_eq(lml_engine_run(engine, text, strlen(text), path, &result, &e), LML_OK, "%s",
                     e.message);
        lml_json_document *doc = NULL;
        cr_assert_eq(lml_json_read(&heap, lml_span_of(result.text), NULL, path, &doc, &e), LML_OK);
        note_members(lml_json_root(doc), found);
        lml_json_free(doc);
        cr_assert_eq(lml_engine_draw(engine, &result, &look, &own, &unseen, &e), LML_OK);
        lml_text_free(engine, &unseen);
        cr_assert_eq(lml_engine_draw(bare, &result, &look, &other, &unseen, &e), LML_OK);
        lml_text_free(bare, &unseen);
        cr_expect_str_eq(own.text, other.text, "%s is drawn otherwise", casts[i].job);
        for (size_t d = 0; d < 8 && casts[i].drawn[d]; d++)
            cr_expect(strstr(other.text, casts[i].drawn[d]), "%s has no %s", casts[i].job,
                      casts[i].drawn[d]);
        lml_text_free(engine, &own);
        lml_text_free(bare, &other);
        lml_text_free(engine, &result);
        free(text);
    }
    for (size_t i = 0; i < NEEDED; i++)
        cr_expect(found[i], "no job that casts has %s in its result", needed[i]);
    lml_engine_free(bare);
    lml_engine_free(engine);
}

/* One figure, in every place that a page has for one; a caution alone is never cut. */
static const char leaks[] =
    "return recipe { title = 'Leaks', version = '1.0.0', licence = 'CC0-1.0', level = 1,"
    " asks = { m = ask.mass { 'M' } }, allowances = {}, gives = { out = give.mass 'Out' },"
    " work = function (job, house, sheet) local out = job.m * 1"
    "  sheet:stop('no', 'Not that much', { 'out' })"
    "  for _, page in ipairs { sheet.bench, sheet.client, sheet.metal } do"
    "   page:line('Line', out) page:weigh('Weigh', out, { record = 'a', step = Q '0.01 g' })"
    "   page:weigh('Weigh', out, { record = 'b', step = Q '0.01 g' }) page:total('Sum', out)"
    "   page:measure('Measure', nil, { least = out }) page:line('Also', out, { also = 'dwt' })"
    "   page:tick(text.fill('Label {m}', { m = out })) page:text(text.fill('{m} of it', { m = out "
    "}))"
    "   page:heading(text.fill('Heading {m}', { m = out }))"
    "   page:grid { columns = { 'A', 'B' }, rows = { { out, text.fill('{m}', { m = out }) } },"
    "    total = { 'All', out } }"
    "   page:note('said', text.fill('Note {m}', { m = out }))"
    "   page:flow { { 'ring', 'melt', out }, { 'melt', 'piece', out } }"
    "   page:flow { of = 'out', { text.fill('ring {m}', { m = out }), 'melt', Q '1 g' } }"
    "   page:curve { title = text.fill('{m}', { m = out }), from = Q '20 g', steps = { { to = out,"
    "    begins = Q '2026-11-27T03:06', there = Q '2026-11-27T04:06', ends = Q '2026-11-27T05:06' "
    "} } }"
    "  end return { out = out } end }";

Test(faces, hold_nothing_of_what_is_withheld)
{
    heap = lml_alloc_heap();
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_error e;
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_RECIPE, "leaks", leaks, strlen(leaks), "leaks.lua", &e),
        LML_OK, "%s", e.message);
    static const char job[] = "{ \"recipe\": \"leaks\", \"given\": { \"m\": \"41.37 g\" }, "
                              "\"record\": [ { \"at\": \"2026-11-26T10:00\", \"what\": \"a\", "
                              "\"mass\": \"41.37 g\" } ] }";
    lml_text result;
    cr_assert_eq(lml_engine_run(engine, job, strlen(job), "job.json", &result, &e), LML_OK,
                 "%s (%s)", e.message, e.hint);
    const char *figures[] = {"41.37", "26.6"};
    lml_json_document *doc = NULL;
    cr_assert_eq(lml_json_read(&heap, lml_span_of(result.text), NULL, "r", &doc, &e), LML_OK);
    char *faces[] = {text_of(lml_json_root(doc), NULL), html_of(lml_json_root(doc), NULL)};
    for (size_t i = 0; i < 2; i++) {
        for (size_t f = 0; f < 2; f++)
            cr_expect(!strstr(faces[f], figures[i]), "%s is in %s", figures[i], faces[f]);
        const char *sheets = strstr(result.text, "\"sheets\"");
        cr_expect(sheets && !strstr(sheets, figures[i]), "%s is in the result", figures[i]);
    }
    cr_expect(strstr(faces[0], "DONOT") && strstr(faces[1], "DONOT"));
    for (size_t f = 0; f < 2; f++)
        free(faces[f]);
    lml_json_free(doc);
    lml_text_free(engine, &result);
    lml_engine_free(engine);
}
