#include "report/stops.h"

#include "shelf/token.h"

#include <string.h>

enum { TEXTS_MOST = 80, DEPTH_MOST = 40 };

/* The texts that are searched, and what has been reported so far. */
typedef struct stops {
    const lml_shelf *shelf;
    const lml_item *item[TEXTS_MOST];
    size_t count;
    lml_json_writer *w;
    lml_builder told; /* "\nlevel code" */
} stops;

static lml_span inside(lml_token text)
{
    return text.text.length > 2 ? (lml_span){text.text.at + 1, text.text.length - 2}
                                : (lml_span){"", 0};
}

/* ---- which texts ---- */

static void add_item(stops *all, const lml_item *item)
{
    for (size_t i = 0; i < all->count; i++)
        if (all->item[i] == item)
            return;
    if (item && item->text && all->count < TEXTS_MOST)
        all->item[all->count++] = item;
}

/* require "plan", or require("plan"). */
static void add_required(stops *all, const lml_item *item)
{
    lml_scanner s = lml_scanner_on((lml_span){item->text, item->length});
    bool requires = false;
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) {
        if (requires && t.kind == LML_TOKEN_TEXT)
            add_item(all, lml_shelf_find(all->shelf, LML_PUT_SCRIPT, inside(t)));
        requires = lml_token_is(t, "require") || (requires && lml_token_is(t, "("));
    }
}

/* ---- what they say ---- */

static bool is_level(lml_token t)
{
    return lml_token_is(t, "stop") || lml_token_is(t, "confirm") || lml_token_is(t, "caution");
}

/* The words behind the code, up to what fills them: `text.fill(a and "..." or "..." .. "...", {`.
 */
static void read_words(lml_scanner *s, lml_builder *words)
{
    int depth = 0;
    bool joined = false;
    lml_token t = lml_token_next(s);
    while (t.kind != LML_TOKEN_END && !lml_token_is(t, ",")) /* the rest of the code */
        t = lml_token_next(s);
    for (t = lml_token_next(s); t.kind != LML_TOKEN_END; t = lml_token_next(s)) {
        if (lml_token_is(t, "{") || (lml_token_is(t, ",") && depth <= 1))
            return;
        depth += lml_token_is(t, "(") - lml_token_is(t, ")");
        if (depth < 0 || depth > DEPTH_MOST)
            return;
        if (t.kind == LML_TOKEN_TEXT) {
            lml_builder_add_text(words, words->length > 0 && !joined ? " / " : "");
            lml_builder_add_span(words, inside(t));
        }
        joined = lml_token_is(t, "..") || (joined && t.kind != LML_TOKEN_TEXT);
    }
}

static bool is_told(stops *all, lml_span level, lml_span code)
{
    lml_builder own = lml_builder_on(all->told.alloc, 0);
    lml_builder_add_format(&own, "\n%.*s %.*s\n", LML_SPAN_SHOWN(level), LML_SPAN_SHOWN(code));
    bool found = all->told.at && own.at && strstr(all->told.at, own.at);
    if (!found)
        lml_builder_add(&all->told, own.at ? own.at : "", own.length);
    lml_builder_free(&own);
    return found;
}

static void put_stop(stops *all, lml_span level, lml_span code, const lml_builder *words)
{
    lml_json_writer *w = all->w;
    if (is_told(all, level, code))
        return;
    lml_json_write_open_record(w);
    lml_json_write_name(w, lml_span_of("level"));
    lml_json_write_text(w, level);
    lml_json_write_name(w, lml_span_of("code"));
    lml_json_write_text(w, code);
    if (words->length > 0) {
        lml_json_write_name(w, lml_span_of("text"));
        lml_json_write_text(w, (lml_span){words->at, words->length});
    }
    lml_json_write_close(w);
}

/* :stop("code", ... as far as the proofs, which name stops too. */
static lml_status put_of(stops *all, const lml_item *item)
{
    lml_scanner s = lml_scanner_on((lml_span){item->text, item->length});
    lml_builder words = lml_builder_on(all->told.alloc, 0);
    lml_token before[3] = {{0}};
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) {
        bool names = lml_token_is(before[0], ":") && is_level(before[1]) &&
                     lml_token_is(before[2], "(") && t.kind == LML_TOKEN_TEXT;
        if (names) {
            lml_scanner ahead = s;
            words.length = 0;
            read_words(&ahead, &words);
            put_stop(all, before[1].text, inside(t), &words);
        }
        before[0] = before[1];
        before[1] = before[2];
        before[2] = t;
    }
    lml_status status = words.status;
    lml_builder_free(&words);
    return status;
}

lml_status lml_stops_write(const lml_shelf *shelf, const lml_item *recipe, lml_json_writer *w,
                           lml_error *err)
{
    stops all = {.shelf = shelf, .w = w, .told = lml_builder_on(shelf->alloc, 0)};
    lml_status status = LML_OK;
    add_item(&all, recipe);
    lml_json_write_name(w, lml_span_of("stops"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < all.count && status == LML_OK; i++) { /* more come while it is walked */
        add_required(&all, all.item[i]);
        status = put_of(&all, all.item[i]);
    }
    lml_json_write_close(w);
    if (status == LML_OK)
        status = all.told.status;
    lml_builder_free(&all.told);
    return status == LML_OK ? LML_OK
                            : lml_fail(err, status, "out of memory for the stops of a recipe");
}
