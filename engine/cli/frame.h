/* Frame: what goes over the pipe between the command and a worker.
 *
 * A frame is a kind, a length and so many bytes. A worker is not trusted: the reader bounds every
 * length, knows every kind, and mends an error block so that nothing in it can be read past its
 * end.
 */
#ifndef LML_CLI_FRAME_H
#define LML_CLI_FRAME_H

#include "base/text.h"

typedef enum lml_frame_kind {
    LML_FRAME_TEXT,   /* a stretch of the answer */
    LML_FRAME_DONE,   /* the answer is whole */
    LML_FRAME_ERROR,  /* an lml_error in place of an answer */
    LML_FRAME_MEMORY, /* the worker's memory is used up; it ends itself */
    LML_FRAME_KINDS
} lml_frame_kind;

typedef struct lml_frame {
    uint32_t kind, length;
} lml_frame;

/* All of it or false; retried when interrupted. */
bool lml_frame_write(int pipe, lml_frame_kind kind, const void *bytes, size_t length);

typedef enum lml_frame_end {
    LML_FRAMES_ANSWER, /* the text is in `out` */
    LML_FRAMES_ERROR,  /* the error is in `err` */
    LML_FRAMES_MEMORY,
    LML_FRAMES_CUT,  /* the worker ended in the middle */
    LML_FRAMES_LATE, /* the deadline passed */
    LML_FRAMES_FOUL, /* what came is no frame, or more than `out` may hold */
} lml_frame_end;

/* Read one whole answer. `deadline` in milliseconds from now. */
lml_frame_end lml_frame_read_answer(int pipe, long deadline, lml_builder *out, lml_error *err);

#endif
