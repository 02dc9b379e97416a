#include "file/offers.h"

#include "file/json_copy.h"

#include <string.h>

lml_status lml_offers_digest(const lml_alloc *alloc, const lml_json *before, const lml_json *entry,
                             char out[LML_DIGEST_TEXT], lml_error *err)
{
    lml_builder text = lml_builder_on(alloc, 0);
    lml_json_writer w = lml_json_writer_on(&text, false);
    lml_json_write_open_list(&w);
    lml_json_write_text(&w, lml_json_text(lml_json_member(before, "digest")));
    lml_json_write_open_record(&w);
    for (const lml_json *m = lml_json_first(entry); m; m = lml_json_next(m)) {
        if (lml_span_is(lml_json_name(m), "digest"))
            continue;
        lml_json_write_name(&w, lml_json_name(m));
        lml_json_copy(&w, m);
    }
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    lml_status status = lml_json_writer_end(&w, err);
    if (status == LML_OK)
        lml_digest_of((lml_span){text.at, text.length}, out);
    lml_builder_free(&text);
    return status;
}

lml_status lml_offers_read(const lml_alloc *alloc, const lml_json *list, lml_offers *out,
                           lml_error *err)
{
    *out = (lml_offers){.last = NULL};
    lml_status status = LML_OK;
    for (const lml_json *e = lml_json_first(list); e && status == LML_OK; e = lml_json_next(e)) {
        char digest[LML_DIGEST_TEXT];
        lml_span what = lml_json_text(lml_json_member(e, "what"));
        if (lml_span_is(what, "offered")) {
            out->offer = e;
            out->accepted = out->withdrawn = NULL;
        } else if (lml_span_is(what, "accepted")) {
            out->accepted = e;
        } else if (lml_span_is(what, "not accepted")) {
            out->accepted = NULL;
        } else {
            out->withdrawn = e;
        }
        status = lml_offers_digest(alloc, out->last, e, digest, err);
        if (status == LML_OK && !out->changed &&
            !lml_span_is(lml_json_text(lml_json_member(e, "digest")), digest))
            out->changed = e;
        out->last = e;
    }
    return status;
}

/* ---- what the job gave ---- */

static lml_status digest_of(const lml_alloc *alloc, const lml_json *given,
                            char out[LML_DIGEST_TEXT], lml_error *err)
{
    lml_builder text = lml_builder_on(alloc, 0);
    lml_json_writer w = lml_json_writer_on(&text, false);
    lml_json_copy(&w, given);
    lml_status status = lml_json_writer_end(&w, err);
    if (status == LML_OK)
        lml_digest_of(lml_builder_span(&text), out);
    lml_builder_free(&text);
    return status;
}

lml_status lml_offers_write_given(const lml_json *job, lml_json_writer *w, lml_error *err)
{
    char digest[LML_DIGEST_TEXT];
    lml_status status = LML_OK;
    lml_json_write_name(w, lml_span_of("given"));
    lml_json_write_open_record(w);
    const lml_json *m = lml_json_first(lml_json_member(job, "given"));
    for (; m && status == LML_OK; m = lml_json_next(m)) {
        status = digest_of(w->to->alloc, m, digest, err);
        lml_json_write_name(w, lml_json_name(m));
        lml_json_write_text(w, lml_span_of(digest));
    }
    lml_json_write_close(w);
    return status;
}

static void name(lml_builder *out, lml_span what)
{
    if (out->length > 0)
        lml_builder_add_text(out, ", ");
    lml_builder_add_span(out, what);
}

lml_status lml_offers_differ(const lml_json *offer, const lml_json *job, lml_builder *out,
                             lml_error *err)
{
    const lml_json *then = lml_json_member(offer, "given"), *now = lml_json_member(job, "given");
    lml_span recipe = lml_json_text(lml_json_member(offer, "recipe"));
    char digest[LML_DIGEST_TEXT];
    lml_status status = LML_OK;
    if (!then)
        return LML_OK;
    if (!lml_span_equal(recipe, lml_json_text(lml_json_member(job, "recipe"))))
        name(out, lml_span_of("recipe"));
    for (const lml_json *m = lml_json_first(now); m && status == LML_OK; m = lml_json_next(m)) {
        status = digest_of(out->alloc, m, digest, err);
        if (status == LML_OK &&
            !lml_span_is(lml_json_text(lml_json_member(then, lml_json_name(m).at)), digest))
            name(out, lml_json_name(m));
    }
    for (const lml_json *m = lml_json_first(then); m; m = lml_json_next(m))
        if (!lml_json_member(now, lml_json_name(m).at))
            name(out, lml_json_name(m));
    return status == LML_OK ? lml_builder_status(out, err) : status;
}

/* ---- for a recipe ---- */

/* The members of an event that a recipe reads, as the member `name`. */
static void put_event(lml_json_writer *w, const char *name, const lml_json *event)
{
    static const char *const members[] = {"at", "by", "reason", "paid", "late"};
    if (!event)
        return;
    if (name) {
        lml_json_write_name(w, lml_span_of(name));
        lml_json_write_open_record(w);
    }
    for (size_t i = 0; i < sizeof members / sizeof *members; i++) {
        const lml_json *m = lml_json_member(event, members[i]);
        if (!m)
            continue;
        lml_json_write_name(w, lml_span_of(members[i]));
        lml_json_copy(w, m);
    }
    if (name)
        lml_json_write_close(w);
}

void lml_offers_write(const lml_offers *offers, lml_span differs, lml_json_writer *w)
{
    const lml_json *promised = lml_json_member(offers->offer, "promised");
    lml_json_write_open_record(w);
    put_event(w, NULL, offers->offer);
    put_event(w, "accepted", offers->accepted);
    put_event(w, "withdrawn", offers->withdrawn);
    lml_json_write_name(w, lml_span_of("changed"));
    lml_json_write_yes_no(w, offers->changed != NULL);
    if (differs.length > 0) {
        lml_json_write_name(w, lml_span_of("differs"));
        lml_json_write_text(w, differs);
    }
    lml_json_write_name(w, lml_span_of("promised"));
    if (promised)
        lml_json_copy(w, promised);
    else {
        lml_json_write_open_record(w);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}
