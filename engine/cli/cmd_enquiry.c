#include "cli/cmd.h"
#include "file/json_write.h"
#include "read/read.h"
#include "studio/find.h"

#include <stdio.h>
#include <string.h>

static const lml_span nothing = {"", 0};
enum { WORDS = 64, LONGEST = 3 /* 925 ‰ Ag */ };

/* What a caller says, word by word; `text` is the same with one blank between words, so that
 * several in a row are one span. */
typedef struct said {
    lml_builder text;
    size_t at[WORDS], end[WORDS], count;
    size_t values; /* the first NAME=VALUE of the command line */
} said;

/* Both as words of one `said`: from `first`, up to `end`. */
typedef struct phrase {
    size_t first, end;
} phrase;

/* A piece: its mass, what it is (may be empty) and its metal. */
typedef struct piece {
    phrase mass, name, metal;
} piece;

static lml_span words_of(const said *s, phrase p)
{
    if (p.first >= p.end)
        return nothing;
    return (lml_span){s->text.at + s->at[p.first], s->end[p.end - 1] - s->at[p.first]};
}

static bool is_one_of(const said *s, size_t word, const char *const *list)
{
    lml_span is = word < s->count ? words_of(s, (phrase){word, word + 1}) : nothing;
    for (; *list; list++)
        if (lml_span_is(is, *list))
            return true;
    return false;
}

static bool is_word(const said *s, size_t word, const char *wanted)
{
    return is_one_of(s, word, (const char *const[]){wanted, NULL});
}

static lml_status refuse(lml_error *err, lml_span what, const char *why)
{
    if (what.length > 0)
        lml_fail(err, LML_USAGE, "\"%.*s\" %s", (int)what.length, what.at, why);
    else
        lml_fail(err, LML_USAGE, "%s", why);
    lml_error_hint(err, "lemel enquiry \"a 6 g ring in 14kt from 9 g of old 18kt\"");
    return LML_USAGE;
}

/* Words are what blanks part, in one argument or in several; a comma after one is punctuation. */
static lml_status split(const lml_arguments *a, said *s, lml_error *err)
{
    for (s->values = 0; s->values < a->words && !strchr(a->word[s->values], '='); s->values++) {
        for (const char *at = a->word[s->values]; *(at += strspn(at, " "));) {
            size_t length = strcspn(at, " ");
            size_t kept = length > 1 && at[length - 1] == ',' ? length - 1 : length;
            if (s->count == WORDS)
                return refuse(err, (lml_span){at, kept}, "is too much for one enquiry");
            if (s->count > 0)
                lml_builder_add_char(&s->text, ' ');
            s->at[s->count] = s->text.length;
            lml_builder_add(&s->text, at, kept);
            s->end[s->count++] = s->text.length;
            at += length;
        }
    }
    return lml_builder_status(&s->text, err);
}

static bool reads(lml_span text, lml_wanted want, lml_metal metal)
{
    lml_value ignored;
    return lml_read_value(text, want, metal, &ignored, NULL) == LML_OK;
}

/* "14ct" and "14 carat" are taken as a fineness where one is due, so that the run says what to
 * write: ct is the carat of gems. */
static bool is_carats(lml_span text)
{
    size_t digits = 0;
    while (lml_span_digit_at(text, digits))
        digits++;
    lml_span unit = {text.at + digits, text.length - digits};
    if (unit.length > 0 && *unit.at == ' ')
        unit = (lml_span){unit.at + 1, unit.length - 1};
    return digits > 0 && (lml_span_is(unit, "ct") || lml_span_is(unit, "carat"));
}

enum { SPOKEN = 16 };

/* "585" of "585 gold": three digits, as stamps have them. */
static bool is_thousandths(lml_span text)
{
    return text.length == 3 && lml_span_digit_at(text, 0) && lml_span_digit_at(text, 1) &&
           lml_span_digit_at(text, 2);
}

static const char *symbol_of(lml_span word)
{
    static const char *const metals[][2] = {
        {"gold", "Au"}, {"silver", "Ag"}, {"platinum", "Pt"}, {"palladium", "Pd"}};
    for (size_t i = 0; i < sizeof metals / sizeof *metals; i++)
        if (lml_span_is(word, metals[i][0]))
            return metals[i][1];
    return NULL;
}

/* A fineness as a caller says it, to be written "585 ‰ Au": a number and the name of its metal, or
 * sterling, which is 925 of silver (15 U.S.C. 296). 925 by itself is silver: no other metal has a
 * mark of it (Hallmarking Convention, Annex I 2.2). Other bare numbers are of two metals or more.
 */
static bool is_spoken(lml_span text, char out[SPOKEN])
{
    const char *blank = memchr(text.at, ' ', text.length);
    lml_span one = {text.at, blank ? (size_t)(blank - text.at) : text.length};
    lml_span other = blank ? lml_span_between(blank + 1, text.at + text.length) : nothing;
    if (is_thousandths(other)) {
        lml_span swapped = one;
        one = other;
        other = swapped;
    }
    const char *symbol = symbol_of(other);
    bool sterling = lml_span_is(one, "sterling") || lml_span_is(one, "925");
    if (sterling && (!blank || (symbol && strcmp(symbol, "Ag") == 0)))
        snprintf(out, SPOKEN, "925 ‰ Ag");
    else if (is_thousandths(one) && symbol)
        snprintf(out, SPOKEN, "%.3s ‰ %s", one.at, symbol);
    else
        return false;
    return true;
}

/* "14 kt" is a fineness, and so are "925 ‰ Ag" and "sterling"; anything else is the name of a
 * metal. */
static bool is_fineness(lml_span text)
{
    static const lml_metal metals[] = {LML_Au, LML_Ag, LML_Pt, LML_Pd};
    char spoken[SPOKEN];
    bool is = is_carats(text) || is_spoken(text, spoken);
    for (size_t i = 0; i < sizeof metals / sizeof metals[0] && !is; i++)
        is = reads(text, LML_WANT_FINENESS, metals[i]);
    return is;
}

/* Whether a mass begins at this word: the 925 of 925 g is no fineness. */
static bool is_mass_at(const said *s, size_t first, size_t end)
{
    return first + 1 < end &&
           reads(words_of(s, (phrase){first, first + 2}), LML_WANT_MASS, LML_NO_METAL);
}

/* The most words from `first` on that are a fineness; 0 if none are. */
static size_t fineness_at(const said *s, size_t first, size_t end)
{
    for (size_t n = end - first < LONGEST ? end - first : LONGEST; n > 0; n--)
        if (is_fineness(words_of(s, (phrase){first, first + n})))
            return n == 1 && is_mass_at(s, first, end) ? 0 : n;
    return 0;
}

static bool is_number(const said *s, size_t word)
{
    return word < s->count && lml_span_digit_at(words_of(s, (phrase){word, word + 1}), 0);
}

static const char *const articles[] = {"a", "an", "the", "and", NULL};
static const char *const between[] = {"of", "old", "in", NULL};

/* Words up to a number, a word of `ends` or `end`; those between at either side are left out. */
static phrase take_name(const said *s, size_t *at, size_t end, const char *const *ends)
{
    while (*at < end && is_one_of(s, *at, between))
        (*at)++;
    phrase name = {*at, *at};
    for (; *at < end && !is_number(s, *at) && !is_one_of(s, *at, ends); (*at)++)
        if (!is_one_of(s, *at, between))
            name.end = *at + 1;
    return name;
}

/* The mass at `*at`, which moves past it. What is not a mass is taken as one, so that the run says
 * what is wrong with it: a word, and the unit behind it. */
static phrase take_mass(const said *s, size_t *at, size_t end)
{
    phrase mass = {*at, *at + 1};
    if (*at + 1 < end && !reads(words_of(s, mass), LML_WANT_MASS, LML_Au) && !is_number(s, *at + 1))
        mass.end++;
    *at = mass.end < end ? mass.end : end;
    return mass;
}

static void skip_articles(const said *s, size_t *at, size_t end)
{
    while (*at < end && is_one_of(s, *at, articles))
        (*at)++;
}

/* MASS [NAME in] METAL, NAME of MASS in METAL, or MASS FINENESS NAME */
static lml_status read_new(const said *s, size_t end, piece *out, lml_error *err)
{
    static const char *const in[] = {"in", NULL};
    size_t at = 0;
    skip_articles(s, &at, end);
    out->name = take_name(s, &at, end, in);
    out->mass = take_mass(s, &at, end);
    size_t metal = at;
    while (metal < end && !is_word(s, metal, "in"))
        metal++;
    if (metal < end && out->name.end == out->name.first)
        out->name = (phrase){at, metal};
    if (metal < end)
        at = metal + 1;
    out->metal = (phrase){at, end};
    if (at >= end)
        return refuse(err, nothing, "lemel enquiry needs the mass and the metal of the new piece");
    size_t fine = fineness_at(s, at, end);
    if (fine == 0 || at + fine == end)
        return LML_OK;
    out->metal.end = at += fine;
    phrase rest = {at, end};
    if (out->name.end == out->name.first)
        out->name = take_name(s, &at, end, articles);
    return at == end ? LML_OK
                     : refuse(err, words_of(s, rest),
                              "is too much: the new piece has a mass and a metal");
}

/* MASS [of] [old] [NAME] [in] FINENESS [NAME], or NAME in FINENESS of MASS, or FINENESS NAME of
 * MASS */
static lml_status read_old(const said *s, size_t *at, piece *out, lml_error *err)
{
    skip_articles(s, at, s->count);
    size_t first = *at, fine = 0;
    size_t leading = fineness_at(s, first, s->count);
    /* "20 ct of 18 kt": a mass, wrong as it may be */
    bool mass_first = is_number(s, first) &&
                      (leading == 0 || is_carats(words_of(s, (phrase){first, first + leading})));
    if (mass_first)
        out->mass = take_mass(s, at, s->count);
    out->name = (phrase){*at, *at};
    for (; *at < s->count && (fine = fineness_at(s, *at, s->count)) == 0; (*at)++) {
        if (!is_one_of(s, *at, between))
            out->name.end = *at + 1;
        else if (out->name.first == *at)
            out->name = (phrase){*at + 1, *at + 1};
    }
    out->metal = (phrase){*at, *at + fine};
    *at += fine;
    if (fine == 0)
        return refuse(err, words_of(s, (phrase){first, s->count}),
                      "has no fineness: old metal is a mass and a fineness each");
    if (out->name.end == out->name.first)
        out->name = take_name(s, at, s->count, articles);
    if (mass_first)
        return LML_OK;
    while (is_one_of(s, *at, between))
        (*at)++;
    if (!is_number(s, *at))
        return refuse(err, words_of(s, (phrase){first, *at}),
                      "has no mass: old metal is a mass and a fineness each");
    out->mass = take_mass(s, at, s->count);
    return LML_OK;
}

static void write_member(lml_json_writer *w, const char *name, lml_span text)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_text(w, text);
}

static void write_fineness(lml_json_writer *w, lml_span text)
{
    char spoken[SPOKEN];
    write_member(w, "fineness", is_spoken(text, spoken) ? lml_span_of(spoken) : text);
}

static lml_status write_old(const said *s, size_t at, lml_json_writer *w, lml_error *err)
{
    piece old;
    for (int number = 1; at < s->count; number++) {
        lml_status status = read_old(s, &at, &old, err);
        if (status != LML_OK)
            return status;
        char name[40];
        snprintf(name, sizeof name, "old metal %d", number);
        lml_span called = words_of(s, old.name);
        lml_json_write_open_record(w);
        write_member(w, "name", called.length > 0 ? called : lml_span_of(name));
        write_member(w, "mass", words_of(s, old.mass));
        write_fineness(w, words_of(s, old.metal));
        lml_json_write_close(w);
    }
    return LML_OK;
}

/* MASS [NAME in] METAL, and behind "from" or "they bring" what there is to make it of. */
static lml_status write_job(const said *s, lml_builder *job, lml_error *err)
{
    size_t end = 0;
    while (end < s->count && !is_word(s, end, "from") &&
           !(is_word(s, end, "they") && is_word(s, end + 1, "bring")))
        end++;
    size_t old = is_word(s, end, "they") ? end + 2 : end + 1;
    piece made;
    lml_status status = read_new(s, end, &made, err);
    if (status == LML_OK && end < s->count && old >= s->count)
        status = refuse(err, words_of(s, (phrase){end, old}),
                        "is followed by nothing: write a mass and a fineness of old metal");
    if (status != LML_OK)
        return status;
    lml_json_writer w = lml_json_writer_on(job, false);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "recipe", "enquiry");
    lml_json_write_name(&w, lml_span_of("given"));
    lml_json_write_open_record(&w);
    write_member(&w, "mass", words_of(s, made.mass));
    lml_span metal = words_of(s, made.metal);
    if (is_fineness(metal))
        write_fineness(&w, metal);
    else
        write_member(&w, "metal", metal);
    if (made.name.end > made.name.first)
        write_member(&w, "piece", words_of(s, made.name));
    lml_json_write_name(&w, lml_span_of("pieces"));
    lml_json_write_open_list(&w);
    status = write_old(s, old, &w, err);
    if (status != LML_OK)
        return status;
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

lml_status lml_cmd_enquiry(lml_call *call, lml_error *err)
{
    said s = {.text = lml_builder_on(&call->alloc, 0)};
    lml_target target = {.kind = LML_TARGET_RECIPE, .recipe = lml_span_of("enquiry")};
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0), .shown = LML_JOB_TYPED};
    lml_status status = split(&call->arguments, &s, err);
    if (status == LML_OK)
        status = write_job(&s, &job.text, err);
    if (status == LML_OK)
        status = lml_job_text_put(call, s.values, &job, err);
    if (status == LML_OK)
        status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = lml_cmd_run_text(call, &target, &job, &kit, err);
    lml_kit_free(&kit);
    lml_builder_free(&job.text);
    lml_builder_free(&s.text);
    return status;
}
