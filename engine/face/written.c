#include "face/written.h"

#include <string.h>

typedef struct place {
    lml_span words; /* at NULL: free */
    bool again;     /* more than once */
} place;

/* A hash table of what is between any two quotes in a row. */
struct lml_written {
    const lml_shelf *shelf;
    const lml_json_document *job;
    place *place;
    size_t places; /* a power of two, at least twice as many as are taken */
};

enum { OTHERS = 3 /* texts beside those of the shelf's items */ };

/* Text number i of the shelf and the job; empty where there is none. */
static lml_span text_at(const lml_written *w, size_t i)
{
    const lml_shelf *shelf = w->shelf;
    if (i < shelf->count)
        return (lml_span){shelf->items[i]->text, shelf->items[i]->length};
    const lml_json_document *doc[OTHERS] = {w->job, shelf->house, shelf->prices};
    const lml_json_document *other = doc[i - shelf->count];
    return other ? lml_json_source_text(other) : (lml_span){"", 0};
}

/* The words up to the next quote; *rest goes on behind that. False when there is no quote. */
static bool next_words(lml_span *rest, lml_span *out)
{
    const char *quote = rest->length ? memchr(rest->at, '"', rest->length) : NULL;
    if (!quote)
        return false;
    *out = lml_span_between(rest->at, quote);
    *rest = lml_span_between(quote + 1, rest->at + rest->length);
    return true;
}

/* Where the words are, or would be. */
static place *place_of(const lml_written *w, lml_span words)
{
    uint64_t hash = 14695981039346656037u; /* FNV-1a: from memory */
    for (size_t i = 0; i < words.length; i++)
        hash = (hash ^ (unsigned char)words.at[i]) * 1099511628211u;
    size_t at = (size_t)(hash ^ hash >> 32);
    while (w->place[at &= w->places - 1].words.at && !lml_span_equal(w->place[at].words, words))
        at++;
    return &w->place[at];
}

static size_t count_quotes(const lml_written *w)
{
    size_t count = 0;
    for (size_t i = 0; i < w->shelf->count + OTHERS; i++) {
        lml_span rest = text_at(w, i), words;
        while (next_words(&rest, &words))
            count++;
    }
    return count;
}

static void take_all(lml_written *w)
{
    for (size_t i = 0; i < w->shelf->count + OTHERS; i++) {
        lml_span rest = text_at(w, i), words;
        if (!next_words(&rest, &words)) /* before the first quote there is none */
            continue;
        while (next_words(&rest, &words)) {
            place *p = place_of(w, words);
            p->again = p->words.at != NULL;
            p->words = words;
        }
    }
}

lml_written *lml_written_new(const lml_shelf *shelf, const lml_json_document *job)
{
    lml_written *w = lml_alloc_get(shelf->alloc, sizeof *w);
    if (!w)
        return NULL;
    *w = (lml_written){.shelf = shelf, .job = job, .places = 2};
    const size_t quotes = count_quotes(w);
    while (w->places < 2 * quotes)
        w->places *= 2;
    w->place = lml_alloc_get(shelf->alloc, w->places * sizeof *w->place);
    if (!w->place) {
        lml_alloc_free(shelf->alloc, w, sizeof *w);
        return NULL;
    }
    memset(w->place, 0, w->places * sizeof *w->place);
    take_all(w);
    return w;
}

void lml_written_free(lml_written *w)
{
    if (!w)
        return;
    const lml_alloc *alloc = w->shelf->alloc;
    lml_alloc_free(alloc, w->place, w->places * sizeof *w->place);
    lml_alloc_free(alloc, w, sizeof *w);
}

/* The quote before the words; NULL. */
static const char *find_in(lml_span text, lml_span words)
{
    const char *end = text.at + text.length;
    for (const char *at = text.at; (size_t)(end - at) > words.length + 1; at++) {
        at = memchr(at, '"', (size_t)(end - at) - words.length - 1);
        if (!at)
            return NULL;
        if (at[words.length + 1] == '"' && memcmp(at + 1, words.at, words.length) == 0)
            return at;
    }
    return NULL;
}

bool lml_written_has(const lml_written *w, lml_span words)
{
    if (words.length == 0)
        return true;
    if (!memchr(words.at, '"', words.length))
        return place_of(w, words)->words.at != NULL;
    bool found = false; /* the table has them in pieces */
    for (size_t i = 0; i < w->shelf->count + OTHERS && !found; i++)
        found = find_in(text_at(w, i), words) != NULL;
    return found;
}

/* The text's name in messages. */
static const char *shown_at(const lml_written *w, size_t i)
{
    const lml_shelf *shelf = w->shelf;
    const lml_json_document *doc[OTHERS] = {w->job, shelf->house, shelf->prices};
    return i < shelf->count ? shelf->items[i]->shown : lml_json_source(doc[i - shelf->count]);
}

static bool find_at(const lml_written *w, size_t i, lml_span words, const char **file,
                    unsigned *line)
{
    lml_span text = text_at(w, i);
    const char *at = text.length > words.length ? find_in(text, words) : NULL;
    if (!at)
        return false;
    *file = shown_at(w, i);
    *line = 1;
    for (const char *c = text.at; c < at; c++)
        *line += *c == '\n';
    return true;
}

bool lml_written_find(const lml_written *w, lml_span words, const char **file, unsigned *line,
                      bool *once)
{
    const size_t items = w->shelf->count;
    *once = !memchr(words.at, '"', words.length) && !place_of(w, words)->again;
    for (size_t i = items; i < items + OTHERS; i++)
        if (find_at(w, i, words, file, line))
            return true;
    for (int scripts = 1; scripts >= 0; scripts--)
        for (size_t i = 0; i < items; i++)
            if ((w->shelf->items[i]->kind == LML_PUT_SCRIPT) == scripts &&
                find_at(w, i, words, file, line))
                return true;
    return false;
}
