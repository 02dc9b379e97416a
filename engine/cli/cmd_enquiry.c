#include "cli/cmd.h"
#include "cli/spoken.h"
#include "file/json_write.h"
#include "read/read.h"
#include "unit/amount.h"
#include "value/write.h"
#include "studio/find.h"

#include <stdio.h>
#include <string.h>

static const lml_span nothing = {"", 0};

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
static lml_status split(const lml_arguments *a, lml_said_words *s, lml_error *err)
{
    for (s->values = 0; s->values < a->words && !strchr(a->word[s->values], '='); s->values++) {
        for (const char *at = a->word[s->values]; *(at += strspn(at, " "));) {
            size_t length = strcspn(at, " ");
            size_t kept = length > 1 && at[length - 1] == ',' ? length - 1 : length;
            if (s->count == LML_SPOKEN_WORDS)
                return refuse(err, (lml_span){at, kept}, "is too much for one enquiry");
            if (s->count > 0)
                lml_builder_add_char(&s->text, ' ');
            s->at[s->count] = s->text.length;
            lml_builder_add(&s->text, at, kept);
            s->comma[s->count] = kept < length;
            s->end[s->count++] = s->text.length;
            at += length;
        }
    }
    return lml_builder_status(&s->text, err);
}

/* ---- what it weighs ---- */

/* Of so many that weigh that each; false if it is no mass. */
static bool write_total(lml_span mass, int count, char out[LML_VALUE_TEXT])
{
    lml_value one;
    lml_amount amount;
    char text[LML_VALUE_TEXT], number[LML_NUMBER_TEXT];
    size_t used;
    if (lml_read_value(mass, LML_WANT_MASS, LML_NO_METAL, &one, NULL) != LML_OK)
        return false;
    one = lml_value_bare(&one);
    lml_write_text(&one, text);
    if (lml_amount_read(lml_span_of(text), lml_span_of(text), &amount, &used, NULL) != LML_OK)
        return false;
    double all = lml_amount_scale(&amount, (lml_rational){count, 1}, (lml_rational){0, 1});
    lml_decimal_write_double(all, number);
    return snprintf(out, LML_VALUE_TEXT, "%s%s", number, text + used) < LML_VALUE_TEXT;
}

/* Of a piece that is counted: each, or all of them. */
static lml_status check_count(const lml_said_words *s, const lml_spoken_piece *p, lml_error *err)
{
    char mass[60], total[LML_VALUE_TEXT];
    lml_span m = lml_spoken_words(s, p->mass);
    snprintf(mass, sizeof mass, "%.*s", LML_SPAN_SHOWN(m));
    if (p->each && p->count == 0)
        return refuse(err, lml_spoken_words(s, p->all),
                      "says \"each\", but not how many they are, such as two");
    if (p->count == 0 || p->each != p->together || !write_total(m, p->count, total))
        return LML_OK;
    lml_fail(err, LML_USAGE, "%s could be what each of them weighs, or all of \"%.*s\" together",
             mass, LML_SPAN_SHOWN(lml_spoken_words(s, p->all)));
    lml_error_hint(err, "write \"%s each\", %s in all, or \"%s together\"", mass, total, mass);
    return LML_USAGE;
}

static lml_status check_piece(const lml_said_words *s, const lml_spoken_piece *p, lml_error *err)
{
    if (lml_spoken_is_of_two_metals(s, p))
        return refuse(err, lml_spoken_words(s, p->all), "names two metals");
    return check_count(s, p, err);
}

/* ---- the new piece, and the old metal ---- */

static lml_status read_new(const lml_said_words *s, size_t end, lml_spoken_piece *out,
                           lml_error *err)
{
    lml_phrase alloy = lml_spoken_find_alloy(s, end);
    size_t at = lml_spoken_read_piece(s, 0, alloy.first, out);
    if (at == alloy.first && alloy.end > alloy.first) {
        out->metal = alloy;
        at = lml_spoken_read_piece(s, alloy.end, end, out);
    }
    if (at < end) {
        lml_span rest = lml_spoken_words(s, (lml_phrase){at, end});
        lml_fail(err, LML_USAGE, "lemel cannot use \"%.*s\" here", LML_SPAN_SHOWN(rest));
        lml_error_hint(err, "give the new piece one weight and one metal, such as 18 kt");
        return LML_USAGE;
    }
    if (!lml_spoken_is_whole(out))
        return refuse(err, nothing, "lemel enquiry needs the mass and the metal of the new piece");
    return check_piece(s, out, err);
}

static lml_status read_old(const lml_said_words *s, size_t *at, lml_spoken_piece *out,
                           lml_error *err)
{
    *at = lml_spoken_read_piece(s, *at, s->count, out);
    if (out->metal.end == out->metal.first)
        return refuse(err, lml_spoken_words(s, out->all),
                      "has no fineness: old metal is a mass and a fineness each");
    if (out->mass.end == out->mass.first)
        return refuse(err, lml_spoken_words(s, out->all),
                      "has no mass: old metal is a mass and a fineness each");
    return check_piece(s, out, err);
}

/* ---- the job ---- */

static void write_member(lml_json_writer *w, const char *name, lml_span text)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_text(w, text);
}

static void write_fineness(lml_json_writer *w, lml_span text)
{
    char spoken[LML_SPOKEN_TEXT];
    write_member(w, "fineness", lml_spoken_write(text, spoken) ? lml_span_of(spoken) : text);
}

/* Of all together. */
static void write_mass(const lml_said_words *s, const lml_spoken_piece *p, lml_json_writer *w)
{
    char total[LML_VALUE_TEXT];
    lml_span mass = lml_spoken_words(s, p->mass);
    if (p->count > 0 && p->each && write_total(mass, p->count, total))
        mass = lml_span_of(total);
    write_member(w, "mass", mass);
}

/* "two wedding bands, together" */
static void write_name(const lml_said_words *s, const lml_spoken_piece *p, const char *member,
                       const char *without, lml_json_writer *w, const lml_alloc *alloc)
{
    lml_builder name = lml_builder_on(alloc, 0);
    if (p->count > 0) {
        if (lml_spoken_is_number(s, p->how_many.first)) /* without its x */
            lml_builder_add_format(&name, "%d", p->count);
        else
            lml_builder_add_span(&name, lml_spoken_words(s, p->how_many));
        lml_builder_add_text(&name, p->names > 0 ? " " : " of them");
    }
    for (size_t i = 0; i < p->names; i++) {
        lml_builder_add_text(&name, i > 0 ? " " : "");
        lml_builder_add_span(&name, lml_spoken_words(s, (lml_phrase){p->name[i], p->name[i] + 1}));
    }
    if (p->count > 0)
        lml_builder_add_text(&name, ", together");
    if (name.length == 0)
        lml_builder_add_text(&name, without);
    if (name.length > 0)
        write_member(w, member, lml_builder_span(&name));
    lml_builder_free(&name);
}

static lml_status write_old(const lml_said_words *s, size_t at, lml_json_writer *w,
                            const lml_alloc *alloc, lml_error *err)
{
    for (int number = 1; at < s->count; number++) {
        lml_spoken_piece old = {.count = 0};
        lml_status status = read_old(s, &at, &old, err);
        if (status != LML_OK)
            return status;
        char name[40];
        snprintf(name, sizeof name, "old metal %d", number);
        lml_json_write_open_record(w);
        write_name(s, &old, "name", name, w, alloc);
        write_mass(s, &old, w);
        write_fineness(w, lml_spoken_words(s, old.metal));
        lml_json_write_close(w);
    }
    return LML_OK;
}

/* The new piece, and behind "from" or "they bring" what there is to make it of. */
static lml_status write_job(const lml_said_words *s, lml_builder *job, const lml_alloc *alloc,
                            lml_error *err)
{
    size_t end = 0;
    while (end < s->count && !lml_spoken_is_word(s, end, "from") &&
           !(lml_spoken_is_word(s, end, "they") && lml_spoken_is_word(s, end + 1, "bring")))
        end++;
    size_t old = lml_spoken_is_word(s, end, "they") ? end + 2 : end + 1;
    lml_spoken_piece made = {.count = 0};
    lml_status status = read_new(s, end, &made, err);
    if (status == LML_OK && end < s->count && old >= s->count)
        status = refuse(err, lml_spoken_words(s, (lml_phrase){end, old}),
                        "is followed by nothing: write a mass and a fineness of old metal");
    if (status != LML_OK)
        return status;
    lml_json_writer w = lml_json_writer_on(job, false);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "recipe", "enquiry");
    lml_json_write_name(&w, lml_span_of("given"));
    lml_json_write_open_record(&w);
    write_mass(s, &made, &w);
    lml_span metal = lml_spoken_words(s, made.metal);
    if (lml_spoken_is_fineness(metal))
        write_fineness(&w, metal);
    else
        write_member(&w, "metal", metal);
    write_name(s, &made, "piece", "", &w, alloc);
    lml_json_write_name(&w, lml_span_of("pieces"));
    lml_json_write_open_list(&w);
    status = write_old(s, old, &w, alloc, err);
    if (status != LML_OK)
        return status;
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

lml_status lml_cmd_enquiry(lml_call *call, lml_error *err)
{
    lml_said_words s = {.text = lml_builder_on(&call->alloc, 0)};
    lml_target target = {.kind = LML_TARGET_RECIPE, .recipe = lml_span_of("enquiry")};
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0), .shown = LML_JOB_TYPED};
    lml_status status = split(&call->arguments, &s, err);
    if (status == LML_OK)
        status = write_job(&s, &job.text, &call->alloc, err);
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
