/* Entries: what stands on one page of a result, whatever it is drawn as.
 */
#ifndef LML_SHEET_ENTRIES_H
#define LML_SHEET_ENTRIES_H

#include "file/json.h"

/* What a page is called at its head, and whether it is a working paper of the studio's. A page that
 * is not named here is one. */
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
/* Whether anything stands there: a part of which nothing stands on this page is no entry of it. */
bool lml_entries_any(const lml_json *entries);
/* The part that is all that stands among these entries, as of a recipe that only hands on to
 * another. */
const lml_json *lml_entries_only_part(const lml_json *entries);

/* Whether two remarks say the same, in the same tone. */
bool lml_entries_same_words(const lml_json *a, const lml_json *b);
/* The first entry that says the same as this remark, of a page's entries in the order they are
 * drawn. */
const lml_json *lml_entries_first_alike(const lml_json *entries, const lml_json *remark);
/* Whether this remark, by its code and words, stands among the entries. */
bool lml_entries_have(const lml_json *entries, const lml_json *remark);
/* Whether it stands on any page of the result. */
bool lml_entries_have_anywhere(const lml_json *result, const lml_json *remark);
/* The remarks of a page that are about a line of it, by its record or its give, each with that
 * line: the remark stands after the run of lines that it is in. They are looked for once a page,
 * since each entry asks for them; what is beyond so many stands at its own place. */
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
