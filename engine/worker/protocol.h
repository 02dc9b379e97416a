/* Frame: what goes over the pipe between the command and a worker.
 *
 * To a worker: a job (lml_frame_job, then the bytes it counts). From it: frames, each a kind, a
 * length and so many bytes. A worker is not trusted: the reader bounds every length, knows every
 * kind, and mends an error block so that nothing in it can be read past its end. It is fed what has
 * come, in any pieces, so that one loop can serve many workers.
 *
 *     lml_frame_reader reader = lml_frame_reader_on(&text);
 *     while ((end = lml_frame_feed(&reader, block, got)) == LML_FRAMES_MORE)
 *         got = read(pipe, block, sizeof block);
 */
#ifndef LML_WORKER_PROTOCOL_H
#define LML_WORKER_PROTOCOL_H

#include "base/text.h"

typedef enum lml_frame_kind {
    LML_FRAME_TEXT,    /* a stretch of the answer */
    LML_FRAME_DONE,    /* the answer is whole */
    LML_FRAME_STOPPED, /* the answer is whole; a rule stopped something */
    LML_FRAME_ERROR,   /* an lml_error in place of an answer */
    LML_FRAME_MEMORY,  /* the worker's memory is used up; it ends itself */
    LML_FRAME_SHORT,   /* the system gives it no more, though it may have more; it ends itself */
    LML_FRAME_KINDS
} lml_frame_kind;

typedef struct lml_frame {
    uint32_t kind, length;
} lml_frame;

/* Before a job: which kit it is run with, the bytes of what messages call it, of its text, and of
 * what was kept of it. */
typedef struct lml_frame_job {
    uint32_t kit, shown, text, kept;
} lml_frame_job;

/* All of it or false; retried when interrupted. */
bool lml_frame_write(int pipe, lml_frame_kind kind, const void *bytes, size_t length);
/* All `length` bytes or false: the other end is gone. */
bool lml_frame_read(int pipe, void *bytes, size_t length);

typedef enum lml_frame_end {
    LML_FRAMES_MORE,    /* not at its end yet */
    LML_FRAMES_ANSWER,  /* the text is whole */
    LML_FRAMES_STOPPED, /* the text is whole; a rule stopped something */
    LML_FRAMES_ERROR,   /* the reader's error says it */
    LML_FRAMES_MEMORY,
    LML_FRAMES_SHORT,
    LML_FRAMES_CUT,  /* the worker ended in the middle */
    LML_FRAMES_LOST, /* the system does not let it be listened to */
    LML_FRAMES_LATE, /* the deadline passed */
    LML_FRAMES_FOUL, /* what came is no frame, or more than the text may hold */
} lml_frame_end;

typedef struct lml_frame_reader {
    lml_builder *text;
    lml_error error; /* set at LML_FRAMES_ERROR */
    lml_frame frame;
    size_t got; /* bytes of this frame, its head counted */
} lml_frame_reader;

/* The answer's text is appended to `text`. */
lml_frame_reader lml_frame_reader_on(lml_builder *text);
/* Take the next bytes. What comes after an end is LML_FRAMES_FOUL: nobody asked for it. */
lml_frame_end lml_frame_feed(lml_frame_reader *reader, const char *bytes, size_t length);

/* What it means that the pipe took or gave nothing; `result` is what the system returned, errno as
 * it left it. */
lml_frame_end lml_frame_gone(long result);
/* Read one whole answer. `deadline` in milliseconds from now. */
lml_frame_end lml_frame_read_answer(int pipe, long deadline, lml_frame_reader *reader);
/* Milliseconds of a clock that only goes forward. */
long lml_frame_now(void);

#endif
