/* Offers: the promises to the client in a job's file, and the outcome of each.
 *
 * The list only grows. Each entry has a digest over itself and the digest of the entry before it,
 * so a figure changed by hand and an entry removed from the middle are detected. Someone who
 * rewrites every digest can still lie: this guards against mistakes and quiet changes, not forgery.
 *
 *     lml_offers o;
 *     lml_status s = lml_offers_read(lml_json_member(job, "offers"), &o, err);
 *     if (o.offer && !o.withdrawn) ... it holds, unless it has expired
 */
#ifndef LML_FILE_OFFERS_H
#define LML_FILE_OFFERS_H

#include "file/digest.h"
#include "file/json.h"
#include "file/json_write.h"

typedef struct lml_offers {
    const lml_json *offer, *accepted, *withdrawn; /* the latest, and its outcome; or NULL */
    const lml_json *changed;                      /* the first entry whose digest is another's */
    const lml_json *last;
} lml_offers;

/* `list` is the checked member of a job, or NULL for a job without offers. LML_NO_MEMORY. */
lml_status lml_offers_read(const lml_alloc *alloc, const lml_json *list, lml_offers *out,
                           lml_error *err);
/* Digest of an entry that follows `before` (NULL: the first): of its members except the digest,
 * regardless of formatting. LML_NO_MEMORY. */
lml_status lml_offers_digest(const lml_alloc *alloc, const lml_json *before, const lml_json *entry,
                             char out[LML_DIGEST_TEXT], lml_error *err);
/* The digests of what a job gives, by name, as the member `given` of the entry that is open.
 * LML_NO_MEMORY. */
lml_status lml_offers_write_given(const lml_json *job, lml_json_writer *w, lml_error *err);
/* What of the job is not as it was when `offer` was made, as "metal, lots": its recipe and what it
 * gives. Its record, date and house are not compared: they go on. Adds nothing where that offer has
 * no such digests. LML_NO_MEMORY. */
lml_status lml_offers_differ(const lml_json *offer, const lml_json *job, lml_builder *out,
                             lml_error *err);
/* What a recipe can read of it, as one record: `at`, `by`, `accepted`, `withdrawn`, `changed`,
 * `differs` as above, and `promised`. There must be an offer. */
void lml_offers_write(const lml_offers *offers, lml_span differs, lml_json_writer *w);

#endif
