/* Offer: what a studio promised, put into the text of a job, and its outcome. */
#include "base/locale.h"
#include "base/shell.h"
#include "face/engine.h"
#include "file/json_write.h"
#include "file/offers.h"
#include "file/shapes.h"
#include "file/splice.h"
#include "papers/paper.h"
#include "papers/promise.h"
#include "read/read.h"

#include <stdio.h>
#include <string.h>

enum { MONEY_TEXT = 80 };

/* A job, what was said, and what is known of its offers. */
typedef struct paper {
    const lml_alloc *alloc;
    const lml_offer *said;
    const lml_json *job, *result; /* result NULL: none was given */
    const char *shown;
    lml_offers offers;
    bool late; /* accepted after it had expired */
} paper;

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static bool is_said(const paper *p, const char *what)
{
    return strcmp(p->said->what, what) == 0;
}

static bool is_offered(const paper *p)
{
    return is_said(p, "offered");
}

/* "2026-11-24T10:30 by O.F." */
static void when_and_who(const lml_json *event, char *out, size_t size)
{
    lml_span at = text_of(event, "at"), by = text_of(event, "by");
    snprintf(out, size, "%.*s%s%.*s", LML_SPAN_SHOWN(at), by.length ? " by " : "",
             LML_SPAN_SHOWN(by));
}

/* Whether the moment in `a` is before that in `b`; one that names only its day is all of it. */
static lml_status is_before(lml_span a, lml_span b, bool *out, lml_error *err)
{
    lml_value one, other;
    const size_t day = sizeof "2026-11-24" - 1;
    if (a.length <= day || b.length <= day) {
        a.length = a.length > day ? day : a.length;
        b.length = b.length > day ? day : b.length;
    }
    lml_status status = lml_read_value(a, LML_WANT_MOMENT, LML_NO_METAL, &one, err);
    if (status == LML_OK)
        status = lml_read_value(b, LML_WANT_MOMENT, LML_NO_METAL, &other, err);
    *out = status == LML_OK && one.exact < other.exact;
    return status;
}

/* ---- what may be said ---- */

static lml_status check_words(const lml_offer *said, lml_error *err)
{
    static const char *const whats[] = {"offered", "accepted", "withdrawn", "not accepted"};
    bool known = false;
    for (int i = 0; i < 4; i++)
        known = known || (said->what && strcmp(said->what, whats[i]) == 0);
    if (!known)
        return lml_fail(err, LML_USAGE, "it is offered, accepted, not accepted or withdrawn");
    if (!said->at || !said->at[0])
        return lml_fail(err, LML_USAGE, "when was it %s?", said->what);
    bool offered = strcmp(said->what, whats[0]) == 0, accepted = strcmp(said->what, whats[1]) == 0,
         corrects = strcmp(said->what, whats[3]) == 0;
    if (!offered && (!said->by || !said->by[0]))
        return lml_fail(err, LML_USAGE, "who %s it? Add --by WHO",
                        accepted   ? "accepted"
                        : corrects ? "takes back"
                                   : "withdrew");
    bool why = said->reason && said->reason[0];
    if (!why && strcmp(said->what, whats[2]) == 0)
        return lml_fail(err, LML_USAGE, "why was it withdrawn? Add --reason WHY");
    if (!why && corrects)
        return lml_fail(err, LML_USAGE, "why was it entered as accepted? Add --reason WHY");
    if (!why && accepted && said->anyway)
        return lml_fail(err, LML_USAGE, "why is it valid all the same? Add --reason WHY");
    if (said->paid && !accepted)
        return lml_fail(err, LML_USAGE, "--paid is for an acceptance: add --accepted --by WHO");
    return LML_OK;
}

static lml_status check_unchanged(const paper *p, lml_error *err)
{
    if (!p->offers.changed)
        return LML_OK;
    lml_json_fail(p->offers.changed, err, LML_BAD_DATA,
                  "this was changed by hand after it was written: its digest no longer matches");
    lml_error_hint(err, "restore it as it was: it is what was promised. A new figure needs a new "
                        "offer, or a variation that both sign");
    return LML_BAD_DATA;
}

static lml_status refuse_settled(const lml_json *event, const char *words, const char *hint,
                                 lml_error *err)
{
    char when[160];
    when_and_who(event, when, sizeof when);
    lml_json_fail(event, err, LML_BAD_DATA, "the offer was %s on %s", words, when);
    lml_error_hint(err, "%s", hint);
    return LML_BAD_DATA;
}

static const char BINDS[] = "it binds both sides: a change now is a variation that both sign "
                            "(\"variations\" of the closing). If it was entered by mistake, take "
                            "it back with --not-accepted --by WHO --reason WHY";

/* The codes of what is open, as far as they fit; what is offered waits for them all, an acceptance
 * only for stops.
 */
static lml_status check_points(const paper *p, lml_error *err)
{
    char codes[240] = "";
    size_t used = 0, open = 0;
    const lml_json *remark = lml_json_first(lml_json_member(p->result, "remarks"));
    for (; remark; remark = lml_json_next(remark)) {
        lml_span level = text_of(remark, "level"), code = text_of(remark, "code");
        if (!lml_span_is(level, "stop") && !(is_offered(p) && lml_span_is(level, "confirm")))
            continue;
        if (used + code.length + 3 < sizeof codes)
            used += (size_t)snprintf(codes + used, sizeof codes - used, "%s%.*s",
                                     open > 0 ? ", " : "", LML_SPAN_SHOWN(code));
        open++;
    }
    if (open == 0)
        return LML_OK;
    const char *one = is_offered(p) ? "a point is" : "a stop is",
               *many = is_offered(p) ? "points are" : "stops are";
    lml_fail(err, LML_STOPPED, "%s while %s open: %s",
             is_offered(p) ? "no offer can be made" : "the offer cannot be accepted",
             open == 1 ? one : many, codes);
    lml_error_hint(err, "%s",
                   is_offered(p) ? "lemel run shows each; fix what a stop says, and confirm what "
                                   "someone answers for"
                                 : "lemel run shows each: fix what it says; if it is of the bench "
                                   "alone, accept all the same with --anyway and --reason why");
    return LML_STOPPED;
}

static lml_status check_run_out(paper *p, lml_error *err)
{
    lml_span until = text_of(lml_json_member(p->offers.offer, "promised"), "valid_until"),
             at = lml_span_of(p->said->at);
    if (until.length == 0)
        return LML_OK;
    lml_status status = is_before(until, at, &p->late, err);
    if (status != LML_OK || !p->late || p->said->anyway)
        return status;
    lml_json_fail(p->offers.offer, err, LML_BAD_DATA,
                  "the offer expired on %.*s, but this acceptance is of %.*s",
                  LML_SPAN_SHOWN(until), LML_SPAN_SHOWN(at));
    lml_error_hint(err, "make a new offer, or accept this one all the same with --anyway and "
                        "--reason why");
    return LML_BAD_DATA;
}

/* What is accepted is what was offered. */
static lml_status check_same(const paper *p, lml_error *err)
{
    char word[LML_SHELL_WORD];
    lml_builder differs = lml_builder_on(p->alloc, 0);
    lml_status status = lml_offers_differ(p->offers.offer, p->job, &differs, err);
    if (status == LML_OK && differs.length > 0 && !p->said->anyway) {
        lml_span was = text_of(p->offers.offer, "at"), what = lml_builder_span(&differs);
        status = LML_BAD_DATA;
        lml_json_fail(p->offers.offer, err, status,
                      "the job is no longer what was offered on %.*s; changed since: %.*s",
                      LML_SPAN_SHOWN(was), LML_SPAN_SHOWN(what));
        lml_error_hint(err,
                       "offer it again, lemel offer %s, or put the job back as it was; if the "
                       "client takes it as it is now for the price offered, --anyway and --reason "
                       "why",
                       lml_shell_word(lml_span_of(p->shown), word));
    }
    lml_builder_free(&differs);
    return status;
}

/* One that was taken back may have had a wrong moment: then the right one may be earlier. */
static lml_status check_after_back(const paper *p, lml_error *err)
{
    bool early = false;
    const lml_json *last = p->offers.last;
    if (!lml_span_is(text_of(last, "what"), "not accepted") || p->said->anyway)
        return LML_OK;
    lml_span back = text_of(last, "at"), at = lml_span_of(p->said->at);
    lml_status status = is_before(at, back, &early, err);
    if (status != LML_OK || !early)
        return status;
    lml_json_fail(last, err, LML_BAD_DATA,
                  "the acceptance was taken back on %.*s, but this one is of %.*s, before that",
                  LML_SPAN_SHOWN(back), LML_SPAN_SHOWN(at));
    lml_error_hint(err, "give the moment of the new acceptance; if only the moment of the first "
                        "one was wrong, add --anyway and --reason why");
    return LML_BAD_DATA;
}

static lml_status check_acceptance(paper *p, lml_error *err)
{
    lml_status status = check_run_out(p, err);
    if (status == LML_OK)
        status = check_after_back(p, err);
    if (status == LML_OK)
        status = check_same(p, err);
    if (status == LML_OK && p->result && !p->said->anyway)
        status = check_points(p, err);
    return status;
}

static lml_status refuse_nothing_accepted(const paper *p, lml_error *err)
{
    lml_json_fail(p->offers.last ? p->offers.last : p->job, err, LML_BAD_DATA,
                  "no acceptance stands here, so none can be taken back");
    lml_error_hint(err, "an offer that is open is taken back with --withdrawn");
    return LML_BAD_DATA;
}

/* Whether the result is what it is told by: that of the job as it is. */
static lml_status check_result(const paper *p, lml_span job, lml_error *err)
{
    char digest[LML_DIGEST_TEXT];
    if (!p->result && is_offered(p))
        return lml_fail(err, LML_USAGE, "an offer needs the result of its job");
    if (!p->result)
        return LML_OK;
    lml_digest_of(job, digest);
    const lml_json *input = lml_json_member(lml_json_member(p->result, "inputs"), "job");
    if (!lml_span_is(text_of(input, "digest"), digest))
        return lml_fail(err, LML_BAD_DATA, "the result is not from the job as it is now");
    if (lml_json_yes(lml_json_member(p->result, "closing")))
        return lml_fail(err, LML_BAD_DATA, "the result is from the closing of the job");
    return LML_OK;
}

/* Whether this may follow what is there. */
static lml_status check_state(paper *p, lml_error *err)
{
    char word[LML_SHELL_WORD];
    const lml_offers *o = &p->offers;
    lml_status status = check_unchanged(p, err);
    if (status != LML_OK)
        return status;
    if (is_said(p, "not accepted"))
        return o->accepted ? LML_OK : refuse_nothing_accepted(p, err);
    if (o->accepted)
        return refuse_settled(o->accepted, "accepted", BINDS, err);
    if (is_offered(p))
        return LML_OK;
    if (!o->offer) {
        lml_json_fail(p->job, err, LML_BAD_DATA, "there is no offer yet");
        lml_error_hint(err, "lemel offer %s", lml_shell_word(lml_span_of(p->shown), word));
        return LML_BAD_DATA;
    }
    if (o->withdrawn)
        return refuse_settled(o->withdrawn, "withdrawn", "make a new offer before accepting one",
                              err);
    return is_said(p, "accepted") ? check_acceptance(p, err) : LML_OK;
}

/* ---- what is offered ---- */

static lml_status check_promise(const paper *p, lml_error *err)
{
    lml_status status = check_points(p, err);
    if (status != LML_OK)
        return status;
    lml_span at = lml_span_of(p->said->at), date = text_of(p->job, "date"),
             until = text_of(lml_json_member(lml_json_member(p->result, "results"), "valid_until"),
                             "value");
    bool early = false, late = false;
    if (date.length > 0)
        status = is_before(at, date, &early, err);
    if (status == LML_OK && until.length > 0)
        status = is_before(until, at, &late, err);
    if (status != LML_OK || (!early && !late))
        return status;
    lml_fail(err, LML_BAD_DATA,
             early ? "the offer is of %.*s, but the job is dated %.*s"
                   : "the offer is of %.*s, but what it promises only holds until %.*s",
             LML_SPAN_SHOWN(at), LML_SPAN_SHOWN(early ? date : until));
    lml_error_hint(err,
                   early ? "offer it then or later, or correct the date of the job"
                         : "write a newer date at the top of the job: prices and law depend on it");
    return LML_BAD_DATA;
}

/* The promised figures that are there. */
static lml_status put_promised(const paper *p, lml_json_writer *w, lml_error *err)
{
    const lml_json *names = lml_json_member(p->result, "promised"),
                   *results = lml_json_member(p->result, "results");
    lml_status status = LML_OK;
    bool any = false;
    lml_json_write_name(w, lml_span_of("promised"));
    lml_json_write_open_record(w);
    for (const lml_json *n = lml_json_first(names); n && status == LML_OK; n = lml_json_next(n)) {
        const lml_json *figure = lml_json_member(results, lml_json_text(n).at);
        any = any || figure;
        if (figure)
            status = lml_promise_write(w, lml_json_text(n), figure, err);
    }
    lml_json_write_close(w);
    if (status != LML_OK || any)
        return status;
    lml_span recipe = text_of(p->job, "recipe");
    if (names) {
        lml_fail(err, LML_BAD_DATA, "%.*s gave nothing that could be offered",
                 LML_SPAN_SHOWN(recipe));
        lml_error_hint(err, "the end of the bench sheet says what was left out and why");
    } else {
        lml_fail(err, LML_BAD_DATA, "the recipe %.*s promises nothing", LML_SPAN_SHOWN(recipe));
        lml_error_hint(err,
                       "write promised = true beside the title of each give that an offer commits "
                       "to: give.money { \"Price\", promised = true }");
    }
    return LML_BAD_DATA;
}

/* ---- the entry ---- */

/* The currency of the price, as a payment has to be written. */
static lml_span currency_of(lml_span price)
{
    lml_span code = price;
    for (size_t i = 0; i < price.length; i++)
        if (price.at[i] == ' ')
            code = (lml_span){price.at + i + 1, price.length - i - 1};
    return code.length > 0 ? code : lml_span_of("USD");
}

/* What was paid: money of its own, or the deposit that was promised. */
static lml_status read_paid(const paper *p, char out[MONEY_TEXT], lml_error *err)
{
    const lml_json *promised = lml_json_member(p->offers.offer, "promised");
    lml_span deposit = text_of(promised, "deposit"), price = text_of(promised, "price"),
             paid = lml_span_of(p->said->paid);
    lml_value money, whole;
    bool asked = deposit.length > 0 &&
                 lml_read_value(deposit, LML_WANT_MONEY, LML_NO_METAL, &money, NULL) == LML_OK &&
                 money.exact != 0;
    if (lml_span_is(paid, "deposit") && !asked)
        return lml_fail(
            err, LML_USAGE,
            "the offer asks for no deposit: leave out --paid, or write the amount that was "
            "paid, such as --paid \"200 %.*s\"",
            LML_SPAN_SHOWN(currency_of(price)));
    if (lml_span_is(paid, "deposit"))
        paid = deposit;
    lml_status status = lml_read_value(paid, LML_WANT_MONEY, LML_NO_METAL, &money, err);
    if (status != LML_OK) {
        lml_error_hint(err, "with its currency, such as --paid \"200 %.*s\"",
                       LML_SPAN_SHOWN(currency_of(price)));
        return lml_error_context(err, status, "in what was paid");
    }
    snprintf(out, MONEY_TEXT, "%.*s", LML_SPAN_SHOWN(paid));
    if (price.length == 0 || lml_read_value(price, LML_WANT_MONEY, LML_NO_METAL, &whole, NULL))
        return LML_OK;
    if (money.dimension.currency != whole.dimension.currency)
        return lml_fail(err, LML_BAD_VALUE,
                        "%s was paid, but the offer is for %.*s: write the payment in that "
                        "currency",
                        out, LML_SPAN_SHOWN(price));
    if (money.exact < 0 || money.exact > whole.exact)
        return lml_fail(err, LML_BAD_VALUE,
                        "%s was paid, but the whole price is %.*s: check the amount", out,
                        LML_SPAN_SHOWN(price));
    return LML_OK;
}

static void put_text(lml_json_writer *w, const char *name, const char *text)
{
    if (text && text[0])
        lml_json_write_member(w, name, text);
}

static lml_status write_entry(const paper *p, lml_builder *out, lml_error *err)
{
    char paid[MONEY_TEXT];
    lml_status status = LML_OK;
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    put_text(&w, "what", p->said->what);
    put_text(&w, "at", p->said->at);
    put_text(&w, "by", p->said->by);
    put_text(&w, "reason", p->said->reason);
    if (p->said->paid) {
        status = read_paid(p, paid, err);
        lml_json_write_member(&w, "paid", paid);
    }
    if (p->late) {
        lml_json_write_name(&w, lml_span_of("late"));
        lml_json_write_yes_no(&w, true);
    }
    if (status == LML_OK && is_offered(p)) {
        lml_json_write_name(&w, lml_span_of("recipe"));
        lml_json_write_text(&w, text_of(p->job, "recipe"));
        status = put_promised(p, &w, err);
        if (status == LML_OK)
            status = lml_offers_write_given(p->job, &w, err);
        if (status == LML_OK)
            status = lml_promise_write_digests(&w, p->result, err);
        put_text(&w, "lemel", lml_version());
    }
    lml_json_write_close(&w);
    return status == LML_OK ? lml_json_writer_end(&w, err) : status;
}

/* The entry with its digest behind its other members. */
static lml_status seal(const paper *p, lml_builder *entry, lml_error *err)
{
    char digest[LML_DIGEST_TEXT];
    lml_json_document *doc = NULL;
    lml_status status =
        lml_json_read(p->alloc, (lml_span){entry->at, entry->length}, NULL, "the entry", &doc, err);
    if (status == LML_OK)
        status = lml_offers_digest(p->alloc, p->offers.last, lml_json_root(doc), digest, err);
    lml_json_free(doc);
    if (status != LML_OK)
        return status;
    entry->length--; /* the closing brace */
    lml_builder_add_format(entry, ",\"digest\":\"%s\"}", digest);
    return lml_builder_status(entry, err);
}

static lml_status write_report(const paper *p, lml_span entry, lml_builder *out, lml_error *err)
{
    static const char *const event[] = {"what", "at", "by", "reason", "paid"};
    lml_json_document *doc;
    lml_status status = lml_json_read(p->alloc, entry, NULL, "the entry", &doc, err);
    if (status != LML_OK)
        return status;
    const lml_json *root = lml_json_root(doc);
    const lml_json *promised = lml_json_member(is_offered(p) ? root : p->offers.offer, "promised");
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    for (size_t i = 0; i < sizeof event / sizeof *event; i++)
        put_text(&w, event[i], text_of(root, event[i]).at);
    put_text(&w, "price", text_of(promised, "price").at);
    put_text(&w, "deposit", text_of(promised, "deposit").at);
    put_text(&w, "until", text_of(promised, "valid_until").at);
    const lml_offers *o = &p->offers;
    if (is_offered(p) && o->offer && !o->withdrawn) {
        const lml_json *price = lml_json_member(lml_json_member(o->offer, "promised"), "price");
        put_text(&w, "replaced", price ? lml_json_text(price).at : "an offer");
        put_text(&w, "replaced_at", text_of(o->offer, "at").at);
    }
    lml_json_write_close(&w);
    status = lml_json_writer_end(&w, err);
    lml_json_free(doc);
    return status;
}

static lml_status offer(paper *p, lml_span job, lml_builder *after, lml_builder *report,
                        lml_error *err)
{
    lml_builder entry = lml_builder_on(p->alloc, 0);
    lml_status status =
        lml_offers_read(p->alloc, lml_json_member(p->job, "offers"), &p->offers, err);
    if (status == LML_OK)
        status = check_result(p, job, err);
    if (status == LML_OK)
        status = check_state(p, err);
    if (status == LML_OK && is_offered(p))
        status = check_promise(p, err);
    if (status == LML_OK)
        status = write_entry(p, &entry, err);
    if (status == LML_OK)
        status = seal(p, &entry, err);
    lml_span made = {entry.at, entry.length};
    if (status == LML_OK)
        status = lml_splice_offer(job, p->shown, made, after, err);
    if (status == LML_OK)
        status = write_report(p, made, report, err);
    lml_builder_free(&entry);
    return status;
}

lml_status lml_engine_offer(lml_engine *engine, const char *job, size_t length, const char *shown,
                            const lml_text *result, const lml_offer *said, lml_text *after,
                            lml_text *report, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"said", said},
                 {"after", after}))
        return LML_BAD_DATA;
    paper p = {.alloc = lml_engine_alloc(engine), .said = said, .shown = shown};
    lml_builder text = lml_builder_on(p.alloc, 0), told = lml_builder_on(p.alloc, 0);
    lml_json_document *read = NULL, *doc = NULL;
    lml_locale entered = lml_locale_enter();
    lml_status status = check_words(said, err);
    if (status == LML_OK)
        status = lml_json_read(p.alloc, (lml_span){job, length}, NULL, shown, &read, err);
    if (status == LML_OK)
        status = lml_shape_check(&lml_shapes_job, lml_json_root(read), err);
    if (status == LML_OK && result)
        status = lml_paper_result(p.alloc, result, &doc, err);
    if (status == LML_OK) {
        p.job = lml_json_root(read);
        p.result = doc ? lml_json_root(doc) : NULL;
        status = offer(&p, (lml_span){job, length}, &text, &told, err);
    }
    lml_json_free(read);
    lml_json_free(doc);
    lml_locale_leave(entered);
    return lml_paper_take_both(&text, after, &told, report, status, err);
}
