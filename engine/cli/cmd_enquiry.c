#include "cli/cmd.h"
#include "file/json_write.h"
#include "read/read.h"
#include "studio/find.h"

#include <stdio.h>
#include <string.h>

/* What was said on the telephone: MASS METAL [from MASS FINENESS ...], and behind it NAME=VALUE. */
typedef struct said {
    size_t of_piece, from, end; /* words of the new piece; the first of the old ones; the first
                                 * NAME=VALUE */
} said;

static lml_status refuse_words(const lml_arguments *a, size_t of_piece, lml_error *err)
{
    if (of_piece > 2)
        lml_fail(err, LML_USAGE, "\"%s\" is too much: the new piece has a mass and a metal",
                 a->word[2]);
    else
        lml_fail(err, LML_USAGE, "lemel enquiry needs the mass and the metal of the new piece");
    lml_error_hint(err, "lemel enquiry \"6 g\" 14kt from \"9 g\" 18kt");
    return LML_USAGE;
}

static lml_status read_words(const lml_arguments *a, said *out, lml_error *err)
{
    size_t end = 0, from;
    while (end < a->words && !strchr(a->word[end], '='))
        end++;
    for (from = 0; from < end && strcmp(a->word[from], "from") != 0;)
        from++;
    *out = (said){.of_piece = from, .from = from < end ? from + 1 : end, .end = end};
    if (out->of_piece != 2)
        return refuse_words(a, out->of_piece, err);
    size_t old = end - out->from;
    if (old % 2 == 0 && (old > 0 || from == end))
        return LML_OK;
    if (old == 0)
        lml_fail(err, LML_USAGE, "what do they bring?");
    else
        lml_fail(err, LML_USAGE, "\"%s\" has no fineness: old metal is a mass and a fineness each",
                 a->word[end - 1]);
    lml_error_hint(err, "lemel enquiry \"6 g\" 14kt from \"9 g\" 18kt \"3 g\" 8kt");
    return LML_USAGE;
}

/* "14 kt" is a fineness, and so is "925 ‰ Ag"; what can be none is the name of a metal. */
static const char *metal_or_fineness(const char *word)
{
    static const lml_metal metals[] = {LML_Au, LML_Ag, LML_Pt, LML_Pd};
    lml_value ignored;
    bool fine = false;
    for (size_t i = 0; i < sizeof metals / sizeof metals[0] && !fine; i++)
        fine = lml_read_value(lml_span_of(word), LML_WANT_FINENESS, metals[i], &ignored, NULL) ==
               LML_OK;
    return fine ? "fineness" : "metal";
}

static lml_status write_job(const lml_arguments *a, const said *s, lml_builder *job, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(job, false);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "recipe", "enquiry");
    lml_json_write_name(&w, lml_span_of("given"));
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "mass", a->word[0]);
    lml_json_write_member(&w, metal_or_fineness(a->word[1]), a->word[1]);
    lml_json_write_name(&w, lml_span_of("pieces"));
    lml_json_write_open_list(&w);
    for (size_t i = s->from; i < s->end; i += 2) {
        char name[40];
        snprintf(name, sizeof name, "old metal %zu", (i - s->from) / 2 + 1);
        lml_json_write_open_record(&w);
        lml_json_write_member(&w, "name", name);
        lml_json_write_member(&w, "mass", a->word[i]);
        lml_json_write_member(&w, "fineness", a->word[i + 1]);
        lml_json_write_close(&w);
    }
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

lml_status lml_cmd_enquiry(lml_call *call, lml_error *err)
{
    said s;
    lml_target target = {.kind = LML_TARGET_RECIPE, .recipe = lml_span_of("enquiry")};
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0), .shown = LML_JOB_TYPED};
    lml_status status = read_words(&call->arguments, &s, err);
    if (status == LML_OK)
        status = write_job(&call->arguments, &s, &job.text, err);
    if (status == LML_OK)
        status = lml_job_text_put(call, s.end, &job, err);
    if (status == LML_OK)
        status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = lml_cmd_run_text(call, &target, &job, &kit, err);
    lml_kit_free(&kit);
    lml_builder_free(&job.text);
    return status;
}
