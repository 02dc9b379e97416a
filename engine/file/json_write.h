/* JSON writing: a stream of calls onto a builder.
 *
 * Sticky: after the first failure every further call does nothing, and lml_json_writer_end returns
 * it. The output is always one JSON text that lml_json_read accepts.
 *
 *     lml_json_writer w = lml_json_writer_on(&builder, true);
 *     lml_json_write_open_record(&w);
 *     lml_json_write_name(&w, lml_span_of("wax"));
 *     lml_json_write_text(&w, lml_span_of("2.85 g"));
 *     lml_json_write_close(&w);
 *     lml_status s = lml_json_writer_end(&w, err);
 */
#ifndef LML_FILE_JSON_WRITE_H
#define LML_FILE_JSON_WRITE_H

#include "base/text.h"

enum { LML_JSON_WRITE_DEPTH = 63 };

typedef struct lml_json_writer {
    lml_builder *to;
    uint64_t record, filled; /* one bit per level: is it a record, has it a member yet */
    int depth;
    bool indented, named, done;
    lml_status status;
    const char *fault; /* the error, if status is set */
} lml_json_writer;

/* Indented by two spaces per level, one member per line; or all on one line without blanks. */
lml_json_writer lml_json_writer_on(lml_builder *to, bool indented);
void lml_json_write_open_record(lml_json_writer *w);
void lml_json_write_open_list(lml_json_writer *w);
void lml_json_write_close(lml_json_writer *w); /* the innermost open one */
void lml_json_write_name(lml_json_writer *w, lml_span name);
/* A name of printable ASCII without quotes and backslashes, as all of lemel's own are: not looked
 * through. */
void lml_json_write_word(lml_json_writer *w, const char *name);
void lml_json_write_text(lml_json_writer *w, lml_span text);
void lml_json_write_number(lml_json_writer *w, double x); /* shortest; must be finite */
void lml_json_write_whole(lml_json_writer *w, int64_t n);
void lml_json_write_yes_no(lml_json_writer *w, bool yes);
void lml_json_write_null(lml_json_writer *w);
/* A value that is JSON already; not checked. */
void lml_json_write_raw(lml_json_writer *w, lml_span json);
/* Where the next member of the open record will begin in the output; and `length` bytes of members
 * that were written there before, repeated in another record. Not for a writer that indents. */
size_t lml_json_write_place(const lml_json_writer *w);
void lml_json_write_again(lml_json_writer *w, size_t place, size_t length);
/* Name and text together. */
void lml_json_write_member(lml_json_writer *w, const char *name, const char *text);
/* LML_OK if one complete value was written. LML_NO_MEMORY and LML_LIMIT of the builder;
 * LML_BAD_DATA for text that is not UTF-8 or holds U+0000; LML_BAD_VALUE for a number that is not
 * finite; LML_FAULT for a name without a value, a value without a name, or brackets that do not
 * match. */
lml_status lml_json_writer_end(const lml_json_writer *w, lml_error *err);

#endif
