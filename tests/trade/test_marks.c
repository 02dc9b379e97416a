/* The tables of marks against the words of the laws: tests/reference/marks.tsv asks,
 * scripts/mark_law.lua answers through the engine as any recipe would. */
#include "reference.h"

#include "lemel.h"

static lml_engine *engine;

static void put_script(const char *name)
{
    char path[512], text[128 * 1024];
    snprintf(path, sizeof path, "%s/scripts/%s.lua", LML_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    cr_assert(file, "%s cannot be opened", path);
    size_t length = fread(text, 1, sizeof text, file);
    fclose(file);
    lml_error e;
    cr_assert_eq(lml_engine_put(engine, LML_PUT_SCRIPT, name, text, length, path, &e), LML_OK, "%s",
                 e.message);
}

static void open_engine(void)
{
    engine = lml_engine_new(NULL);
    cr_assert(engine);
    put_script("places");
    put_script("fine_enough");
    put_script("pieces");
    put_script("mark_table");
    put_script("mark_law");
}

static void close_engine(void)
{
    lml_engine_free(engine);
}

TestSuite(marks, .init = open_engine, .fini = close_engine);

/* Answers each question as a text of figures; c is the row of the table. */
static const char answers[] =
    "local m = require \"mark_law\"\n"
    "local place = m.place(c.place)\n"
    "if not place then return \"place unknown\" end\n"
    "local function gold(parts) return fineness(c.metal, parts / 1000) end\n"
    "local function parts(f) return f and tostring(f:number \"‰\") or \"-\" end\n"
    "local promise = c.mark ~= \"-\" and m.promise(place, c.metal, c.mark, f)\n"
    "if c.question == \"limits\" then\n"
    "  return promise and parts(promise.body) .. \" \" .. parts(promise.whole) or \"none\"\n"
    "elseif c.question == \"lawful\" then\n"
    "  return m.keeps(promise, gold(f.body), gold(f.whole)) and \"yes\" or \"no\"\n"
    "elseif c.question == \"highest\" then\n"
    "  local body, whole = gold(f.body), gold(f.whole)\n"
    "  local p = m.next_lower(place, c.metal, nil, f, { body = body, whole = whole },\n"
    "    function(p) return m.keeps(p, body, whole) end)\n"
    "  return p and p.text or \"none\"\n"
    "elseif c.question == \"solder\" then\n"
    "  local least = m.solder_least(promise, f)\n"
    "  return least and parts(least) or \"none\"\n"
    "elseif c.question == \"exempt\" then\n"
    "  local mass = f.mass * Q \"1 g\"\n"
    "  return m.exempt(place, c.metal, f, { marked = mass, metal = mass, article = mass }) and "
    "\"yes\" or \"no\"\n"
    "elseif c.question == \"nickel\" then\n"
    "  return place.nickel.post:split(\" \")[1] .. \" \" .. place.nickel.skin:split(\" \")[1]\n"
    "end\n"
    "error(\"there is no such question\")\n";

/* Words are equal, and figures within a hundredth of a thousandth part. */
static bool same(const char *ours, const char *published)
{
    while (*ours && *published) {
        char *end_a, *end_b;
        double a = strtod(ours, &end_a), b = strtod(published, &end_b);
        if (end_a != ours && end_b != published) {
            if (fabs(a - b) > 0.01)
                return false;
            ours = end_a;
            published = end_b;
        } else if (*ours++ != *published++) {
            return false;
        }
    }
    return *ours == *published;
}

Test(marks, the_tables_answer_as_the_laws_do)
{
    const ref_table *t = ref_open("marks.tsv");
    cr_assert_gt(t->count, 300);
    for (size_t i = 0; i < t->count; i++) {
        const ref_row *row = &t->row[i];
        const char *facts = ref_cell(row, "facts"), *published = ref_cell(row, "answer");
        char expression[8192];
        snprintf(expression, sizeof expression,
                 "(function()\nlocal c = { question = \"%s\", place = \"%s\", metal = \"%s\", mark "
                 "= \"%s\" }\n"
                 "local f = { %s }\n%s end)()",
                 ref_cell(row, "question"), ref_cell(row, "place"), ref_cell(row, "metal"),
                 ref_cell(row, "mark"), strcmp(facts, "-") == 0 ? "" : facts, answers);
        lml_text answer;
        lml_error e;
        lml_status status = lml_engine_reckon(engine, expression, NULL, 0, &answer, &e);
        cr_expect_eq(status, LML_OK, "%s: %s", ref_where(row), e.message);
        if (status != LML_OK)
            continue;
        cr_expect(same(answer.text, published), "%s %s %s %s: we get %s, the law has %s (%s)",
                  ref_where(row), ref_cell(row, "place"), ref_cell(row, "metal"),
                  ref_cell(row, "mark"), answer.text, published, ref_cell(row, "source"));
        lml_text_free(engine, &answer);
    }
}

/* Karats and thousandths are different promises; what could be either is refused. */
Test(marks, karats_and_thousandths_are_never_the_same_promise)
{
    static const struct {
        const char *mark, *least;
    } cases[] = {
        {"14K", "583.333"}, {"14 kt", "583.333"}, {"14ct", "583.333"}, {"14 karat", "583.333"},
        {"585", "585"},     {".585", "585"},      {"585 ‰", "585"},    {"Au585", "585"},
        {"19.2K", "800"},   {"14", "none"},       {"25K", "none"},     {"fine", "none"},
        {"1001", "none"},   {"Pt950", "none"},    {"-14K", "none"},    {"", "none"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char expression[400];
        snprintf(expression, sizeof expression,
                 "(function() local m = require \"mark_law\" local p = m.promise(m.place \"US\", "
                 "\"Au\", "
                 "\"%s\", {}) return p and tostring(p.least:number \"‰\") or \"none\" end)()",
                 cases[i].mark);
        lml_text answer;
        lml_error e;
        cr_assert_eq(lml_engine_reckon(engine, expression, NULL, 0, &answer, &e), LML_OK, "%s: %s",
                     cases[i].mark, e.message);
        cr_expect(same(answer.text, cases[i].least), "%s promises %s, expected %s", cases[i].mark,
                  answer.text, cases[i].least);
        lml_text_free(engine, &answer);
    }
}
