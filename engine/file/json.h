/* JSON reading: the one strict reader, and cJSON's tree.
 *
 * Our own scan refuses everything that RFC 8259 does not allow, and also duplicate names, a byte
 * order mark, \u0000, lone surrogates, and numbers too large for a double. Accepted texts are
 * decoded into cJSON's items. cJSON's own parser is not used: it accepts [01], [1.], duplicate
 * names, bytes that are not UTF-8 and anything after the end, and it writes a global error pointer,
 * a race between threads. A test compares our tree with cJSON's.
 *
 * Every node knows its line, its path and its own bytes, so that a refusal can say "jobs/x.json:14:
 * given.old_metal[2].gross: ...". A document owns a copy of the text; nodes live as long as the
 * document. Accessors accept NULL (an absent member) as a node of no kind.
 *
 * All memory comes from `alloc`.
 *
 *     lml_json_document *doc;
 *     lml_status s = lml_json_read(&alloc, text, NULL, "jobs/x.json", &doc, err);
 *     const lml_json *wax = lml_json_member(lml_json_member(lml_json_root(doc), "given"), "wax");
 *     lml_json_free(doc);
 */
#ifndef LML_FILE_JSON_H
#define LML_FILE_JSON_H

#include "base/text.h"

struct lml_memo;

/* kind, words for a message */
#define LML_JSON_KIND_MAP(X)                                                                       \
    X(ABSENT, "nothing")                                                                           \
    X(NULL, "null")                                                                                \
    X(YES_NO, "true or false")                                                                     \
    X(NUMBER, "a bare number")                                                                     \
    X(TEXT, "a text")                                                                              \
    X(LIST, "a list")                                                                              \
    X(RECORD, "a record")
typedef enum lml_json_kind {
#define X(id, words) LML_JSON_##id,
    LML_JSON_KIND_MAP(X)
#undef X
} lml_json_kind;

typedef struct lml_json lml_json; /* a node */
typedef struct lml_json_document lml_json_document;

/* Limits of a text. 0 means the default. */
typedef struct lml_json_limits {
    size_t size;  /* bytes; usually 4 MB */
    size_t nodes; /* values of any kind; usually 200,000 */
    size_t depth; /* lists and records in each other; usually 64, never more than 500 */
} lml_json_limits;

enum { LML_JSON_SIZE = 4 << 20, LML_JSON_NODES = 200000, LML_JSON_DEPTH = 64 };
enum { LML_JSON_NUMBER_MOST = 60 }; /* longest number, in bytes */
enum { LML_JSON_PATH = 200 };       /* a buffer for lml_json_path */

/* `source` is the text's name in messages: a path, or words such as "standard input". `limits` may
 * be NULL. LML_BAD_DATA, LML_LIMIT, LML_NO_MEMORY. */
lml_status lml_json_read(const lml_alloc *alloc, lml_span text, const lml_json_limits *limits,
                         const char *source, lml_json_document **out, lml_error *err);
void lml_json_free(lml_json_document *doc); /* NULL is fine */

const lml_json *lml_json_root(const lml_json_document *doc);
/* Values are read from its texts with that memo, which outlives it. */
void lml_json_remember(lml_json_document *doc, struct lml_memo *memo);
struct lml_memo *lml_json_memo(const lml_json *node);        /* NULL where there is none */
lml_span lml_json_source_text(const lml_json_document *doc); /* the copy that nodes point into */
const char *lml_json_source(const lml_json_document *doc);   /* the text's name in messages */

lml_json_kind lml_json_kind_of(const lml_json *node);
const char *lml_json_kind_words(lml_json_kind kind);
/* The decoded characters of a TEXT, with a NUL after them and none within. Else the empty span. */
lml_span lml_json_text(const lml_json *node);
/* For any kind: its bytes in the source text, without surrounding blanks. */
lml_span lml_json_raw(const lml_json *node);
/* The nearest double of a NUMBER (always finite); lml_json_raw has its exact digits. Else 0. */
double lml_json_number(const lml_json *node);
bool lml_json_yes(const lml_json *node);
/* Number of members of a RECORD or items of a LIST, else 0. */
size_t lml_json_count(const lml_json *node);

/* In text order: first member or item, and the next one; NULL at the end. */
const lml_json *lml_json_first(const lml_json *node);
const lml_json *lml_json_next(const lml_json *node);
/* The record or list that holds it; NULL of the root. */
const lml_json *lml_json_holder(const lml_json *node);
/* By exact name; NULL if absent or if node is not a RECORD. */
const lml_json *lml_json_member(const lml_json *record, const char *name);
/* The name of a member, decoded, NUL-ended; the empty span for an item or the root. */
lml_span lml_json_name(const lml_json *node);

unsigned lml_json_line(const lml_json *node); /* 1 is the first */
/* "given.old_metal[2].gross", counted from 0; names with other characters than letters, digits, _
 * and - are in quotes. The root is "". Cut at `size` (which counts the NUL). Returns out. */
const char *lml_json_path(const lml_json *node, char *out, size_t size);
const char *lml_json_path_source(const lml_json *node); /* lml_json_source of its document */
/* The house whose currency and units the examples take that the author of the document reads: what
 * was set of it, or the document's "house", or the document itself. */
const lml_json *lml_json_house(const lml_json *node);
/* `house` outlives the document; NULL is passed over. */
void lml_json_set_house(lml_json_document *doc, const lml_json *house);
/* The code that it sets; the empty span where there is none. */
lml_span lml_json_currency(const lml_json *house);

/* Refuse a node: the message becomes "SOURCE:LINE: PATH: message". Returns `status`. */
lml_status lml_json_fail(const lml_json *node, lml_error *err, lml_status status,
                         const char *format, ...) LML_PRINTF(4, 5);
/* Put "SOURCE:LINE: PATH: " before the message of an existing error; hint, labels and context stay.
 * Does nothing when `status` is LML_OK. Returns `status`. */
lml_status lml_json_place(const lml_json *node, lml_status status, lml_error *err);

#endif
