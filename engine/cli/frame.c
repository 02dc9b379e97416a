#include "cli/frame.h"

#include <errno.h>
#include <poll.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { TEXT_MOST = 1 << 16 }; /* bytes of one text frame */

static bool write_all(int pipe, const void *bytes, size_t length)
{
    const char *at = bytes;
    while (length > 0) {
        ssize_t wrote = write(pipe, at, length);
        if (wrote < 0 && errno == EINTR)
            continue;
        if (wrote <= 0)
            return false;
        at += wrote;
        length -= (size_t)wrote;
    }
    return true;
}

bool lml_frame_write(int pipe, lml_frame_kind kind, const void *bytes, size_t length)
{
    const char *at = bytes;
    do {
        size_t part = length > TEXT_MOST ? TEXT_MOST : length;
        lml_frame frame = {(uint32_t)kind, (uint32_t)part};
        if (!write_all(pipe, &frame, sizeof frame) || !write_all(pipe, at, part))
            return false;
        at = part > 0 ? at + part : at;
        length -= part;
    } while (length > 0);
    return true;
}

static long now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (long)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

/* LML_FRAMES_ANSWER when all bytes came. */
static lml_frame_end read_all(int pipe, long until, void *bytes, size_t length)
{
    char *at = bytes;
    while (length > 0) {
        long left = until - now();
        if (left <= 0)
            return LML_FRAMES_LATE;
        struct pollfd wait = {.fd = pipe, .events = POLLIN};
        int ready = poll(&wait, 1, left > 60000 ? 60000 : (int)left);
        if (ready < 0 && errno != EINTR)
            return LML_FRAMES_CUT;
        if (ready <= 0)
            continue;
        ssize_t got = read(pipe, at, length);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            return LML_FRAMES_CUT;
        at += got;
        length -= (size_t)got;
    }
    return LML_FRAMES_ANSWER;
}

static lml_frame_end read_text(int pipe, long until, size_t length, lml_builder *out)
{
    char block[4096];
    while (length > 0) {
        size_t part = length < sizeof block ? length : sizeof block;
        lml_frame_end end = read_all(pipe, until, block, part);
        if (end != LML_FRAMES_ANSWER)
            return end;
        lml_append(out, block, part);
        length -= part;
    }
    return lml_builder_status(out, NULL) == LML_OK ? LML_FRAMES_ANSWER : LML_FRAMES_FOUL;
}

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

static lml_frame_end read_error(int pipe, long until, size_t length, lml_error *err)
{
    lml_error error;
    if (length != sizeof error)
        return LML_FRAMES_FOUL;
    lml_frame_end end = read_all(pipe, until, &error, sizeof error);
    if (end != LML_FRAMES_ANSWER)
        return end;
    if (!mend(&error))
        return LML_FRAMES_FOUL;
    *err = error;
    return LML_FRAMES_ERROR;
}

lml_frame_end lml_frame_read_answer(int pipe, long deadline, lml_builder *out, lml_error *err)
{
    long until = now() + deadline;
    for (;;) {
        lml_frame frame;
        lml_frame_end end = read_all(pipe, until, &frame, sizeof frame);
        if (end != LML_FRAMES_ANSWER)
            return end;
        switch (frame.kind) {
        case LML_FRAME_TEXT:
            if (frame.length > TEXT_MOST)
                return LML_FRAMES_FOUL;
            end = read_text(pipe, until, frame.length, out);
            if (end != LML_FRAMES_ANSWER)
                return end;
            break;
        case LML_FRAME_DONE:
            return frame.length == 0 ? LML_FRAMES_ANSWER : LML_FRAMES_FOUL;
        case LML_FRAME_ERROR:
            return read_error(pipe, until, frame.length, err);
        case LML_FRAME_MEMORY:
            return LML_FRAMES_MEMORY;
        default:
            return LML_FRAMES_FOUL;
        }
    }
}
