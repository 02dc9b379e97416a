#include "worker/protocol.h"

#include "file/store.h"

#include <errno.h>
#include <poll.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { TEXT_MOST = 1 << 16 }; /* bytes of one text frame */

bool lml_frame_write(int pipe, lml_frame_kind kind, const void *bytes, size_t length)
{
    const char *at = bytes;
    do {
        size_t part = length > TEXT_MOST ? TEXT_MOST : length;
        lml_frame frame = {(uint32_t)kind, (uint32_t)part};
        if (!lml_store_write_all(pipe, &frame, sizeof frame) ||
            !lml_store_write_all(pipe, at, part))
            return false;
        at = part > 0 ? at + part : at;
        length -= part;
    } while (length > 0);
    return true;
}

bool lml_frame_read(int pipe, void *bytes, size_t length)
{
    char *at = bytes;
    while (length > 0) {
        ssize_t got = read(pipe, at, length);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            return false;
        at += got;
        length -= (size_t)got;
    }
    return true;
}

/* ---- reading an answer ---- */

#define END(text) ((text)[sizeof(text) - 1] = '\0')

/* An error block is bytes from a process that may have been taken over. */
static bool mend(lml_error *error)
{
    if (error->status <= LML_OK || error->status > LML_FAULT || error->labels < 0 ||
        error->labels > LML_ERROR_LABELS || error->contexts < 0 ||
        error->contexts > LML_ERROR_CONTEXTS)
        return false;
    END(error->message);
    END(error->hint);
    for (int i = 0; i < LML_ERROR_LABELS; i++) {
        END(error->label[i].text);
        END(error->label[i].note);
    }
    for (int i = 0; i < LML_ERROR_CONTEXTS; i++)
        END(error->context[i]);
    return true;
}

lml_frame_reader lml_frame_reader_on(lml_builder *text)
{
    return (lml_frame_reader){.text = text};
}

static bool is_sound(const lml_frame *frame)
{
    switch (frame->kind) {
    case LML_FRAME_TEXT:
        return frame->length <= TEXT_MOST;
    case LML_FRAME_ERROR:
        return frame->length == sizeof(lml_error);
    default:
        return frame->kind < LML_FRAME_KINDS && frame->length == 0;
    }
}

static lml_frame_end end_of(lml_frame_reader *r)
{
    switch (r->frame.kind) {
    case LML_FRAME_TEXT:
        r->got = 0;
        return lml_builder_status(r->text, NULL) == LML_OK ? LML_FRAMES_MORE : LML_FRAMES_FOUL;
    case LML_FRAME_DONE:
        return LML_FRAMES_ANSWER;
    case LML_FRAME_STOPPED:
        return LML_FRAMES_STOPPED;
    case LML_FRAME_ERROR:
        return mend(&r->error) ? LML_FRAMES_ERROR : LML_FRAMES_FOUL;
    case LML_FRAME_MEMORY:
        return LML_FRAMES_MEMORY;
    case LML_FRAME_SHORT:
        return LML_FRAMES_SHORT;
    }
    return LML_FRAMES_FOUL;
}

/* Move up to `length` bytes into the frame's head or body; returns how many. */
static size_t take(lml_frame_reader *r, const char *bytes, size_t length)
{
    bool head = r->got < sizeof r->frame;
    size_t had = head ? r->got : r->got - sizeof r->frame;
    size_t left = (head ? sizeof r->frame : r->frame.length) - had;
    size_t part = length < left ? length : left;
    if (head)
        memcpy((char *)&r->frame + had, bytes, part);
    else if (r->frame.kind == LML_FRAME_TEXT)
        lml_builder_add(r->text, bytes, part);
    else
        memcpy((char *)&r->error + had, bytes, part); /* the one other frame that has a body */
    r->got += part;
    return part;
}

lml_frame_end lml_frame_feed(lml_frame_reader *r, const char *bytes, size_t length)
{
    lml_frame_end end = LML_FRAMES_MORE;
    while (length > 0) {
        if (end != LML_FRAMES_MORE)
            return LML_FRAMES_FOUL;
        size_t took = take(r, bytes, length);
        bytes += took;
        length -= took;
        if (r->got == sizeof r->frame && !is_sound(&r->frame))
            return LML_FRAMES_FOUL;
        if (r->got >= sizeof r->frame && r->got - sizeof r->frame == r->frame.length)
            end = end_of(r);
    }
    return end;
}

lml_frame_end lml_frame_gone(long result)
{
    return result == 0 || errno == EPIPE || errno == ECONNRESET ? LML_FRAMES_CUT : LML_FRAMES_LOST;
}

long lml_frame_now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (long)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

lml_frame_end lml_frame_read_answer(int pipe, long deadline, lml_frame_reader *reader)
{
    char block[1 << 14];
    long until = lml_frame_now() + deadline;
    for (;;) {
        long left = until - lml_frame_now();
        if (left <= 0)
            return LML_FRAMES_LATE;
        struct pollfd wait = {.fd = pipe, .events = POLLIN};
        int ready = poll(&wait, 1, left > 60000 ? 60000 : (int)left);
        if (ready < 0 && errno != EINTR)
            return LML_FRAMES_LOST;
        if (ready <= 0)
            continue;
        ssize_t got = read(pipe, block, sizeof block);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            return lml_frame_gone(got);
        lml_frame_end end = lml_frame_feed(reader, block, (size_t)got);
        if (end != LML_FRAMES_MORE)
            return end;
    }
}
