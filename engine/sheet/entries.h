/* Entries: the contents of one page of a result, independent of how it is drawn.
 */
#ifndef LML_SHEET_ENTRIES_H
#define LML_SHEET_ENTRIES_H

#include "file/json.h"

/* A page's name in its header, and whether it is a working paper of the studio's. Pages not named
 * here are. */
typedef struct lml_entries_kind {
    const char *name, *title;
    bool working;
} lml_entries_kind;
const lml_entries_kind *lml_entries_kind_of(lml_span page);

/* Whether a page is among those asked for: NULL or "all" is every page, else names with commas
 * between them, "client,metal". */
bool lml_entries_names(const char *asked, lml_span page);

/* The entries of a page of a result; NULL when it has none of that name. */
const lml_json *lml_entries_of(const lml_json *result, const char *page);
/* Whether the page has entries: a part without content on this page is not an entry of it. */
bool lml_entries_any(const lml_json *entries);
/* The only part among these entries, as of a recipe that only passes on to another. */
const lml_json *lml_entries_only_part(const lml_json *entries);

/* Whether two remarks have the same words and level. */
bool lml_entries_same_words(const lml_json *a, const lml_json *b);
/* The first entry that says the same as this remark, of a page's entries in the order they are
 * drawn. */
const lml_json *lml_entries_first_alike(const lml_json *entries, const lml_json *remark);
/* Whether this remark, by its code and words, is among the entries. */
/* Whether the page says the same before: of a caution, and of a remark that is withheld whole. */
bool lml_entries_said_before(const lml_json *entries, const lml_json *remark);
bool lml_entries_have(const lml_json *entries, const lml_json *remark);
/* Whether it is on any page of the result. */
bool lml_entries_have_anywhere(const lml_json *result, const lml_json *remark);
/* The remarks of a page that are about a line of it, by its record or its give, each with that
 * line: the remark is printed after the run of lines that it belongs to. They are collected once
 * per page, since each entry asks for them; any beyond the limit stay where they are. */
enum { LML_ENTRIES_ASIDES = 100 };
typedef struct lml_entries_asides {
    struct {
        const lml_json *remark, *line;
    } at[LML_ENTRIES_ASIDES];
    size_t count;
} lml_entries_asides;
void lml_entries_find_asides(const lml_json *page, lml_entries_asides *out);
/* The line that a remark of the page is about, or NULL. */
const lml_json *lml_entries_line_of(const lml_entries_asides *asides, const lml_json *remark);
/* Every remark of the page that is about this line, in their order. */
typedef void lml_entries_use(void *data, const lml_json *remark);
void lml_entries_concerning(const lml_entries_asides *asides, const lml_json *line,
                            lml_entries_use *use, void *data);
/* Whether a remark is a stop or an open point of the result's list, which the bench page reads
 * first. */
bool lml_entries_at_head(const lml_json *result, const lml_json *remark);
/* Whether anything of these entries is withheld, or is why something is. */
bool lml_entries_withhold(const lml_json *entries);

#endif
