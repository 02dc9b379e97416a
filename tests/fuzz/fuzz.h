/* What the fuzz targets share: how a broken promise ends the program, and what every refusal owes
 * the user.
 *
 * A target is one file with LLVMFuzzerTestOneInput. Built with clang and LEMEL_FUZZ it is linked
 * with libFuzzer and looks for inputs by itself; otherwise it is linked with replay.c, which works
 * the inputs in corpus/. Targets that take two texts part them by a form feed, which neither JSON
 * nor a value holds and which Lua reads as a blank.
 *
 *     int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
 *     {
 *         fuzz_expect(reads_back(data, size), "%zu bytes do not read back", size);
 *         return 0;
 *     }
 */
#ifndef LML_TESTS_FUZZ_H
#define LML_TESTS_FUZZ_H

#include "base/text.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* What does not hold is a finding: the program says what and aborts. */
#define fuzz_expect(holds, ...)                                                                    \
    do {                                                                                           \
        if (!(holds)) {                                                                            \
            fprintf(stderr, "%s:%d: %s\n    ", __FILE__, __LINE__, #holds);                        \
            fprintf(stderr, __VA_ARGS__);                                                          \
            fputc('\n', stderr);                                                                   \
            abort();                                                                               \
        }                                                                                          \
    } while (0)

/* A message goes to a terminal and into a JSON text: whole characters, and none that steer. */
static inline void fuzz_expect_clean(const char *text, const char *what)
{
    fuzz_expect(lml_text_check_utf8(lml_span_of(text), NULL) == LML_OK, "%s is not UTF-8: %s", what,
                text);
    for (const char *at = text; *at; at++)
        fuzz_expect((unsigned char)*at >= 0x20 || *at == '\n', "%s holds the byte %d: %s", what,
                    *at, text);
}

/* What holds for every status and the error that came with it; a fault of our own never comes. */
static inline void fuzz_expect_sound(lml_status status, const lml_error *err)
{
    if (status == LML_OK)
        return;
    fuzz_expect(status == err->status, "returned %s, and the error says %s: %s",
                lml_status_name(status), lml_status_name(err->status), err->message);
    fuzz_expect(status != LML_FAULT, "%s", err->message);
    fuzz_expect(*err->message, "%s says nothing", lml_status_name(status));
    fuzz_expect_clean(err->message, "the message");
    fuzz_expect_clean(err->hint, "the hint");
    fuzz_expect(err->labels >= 0 && err->labels <= LML_ERROR_LABELS, "%d labels", err->labels);
    for (int i = 0; i < err->labels; i++) {
        const lml_label *label = &err->label[i];
        fuzz_expect_clean(label->text, "a label's text");
        fuzz_expect_clean(label->note, "a label's note");
        fuzz_expect((size_t)label->offset + label->length <= strlen(label->text), "%d + %d in %s",
                    label->offset, label->length, label->text);
    }
    fuzz_expect(err->contexts >= 0 && err->contexts <= LML_ERROR_CONTEXTS, "%d contexts",
                err->contexts);
    for (int i = 0; i < err->contexts; i++)
        fuzz_expect_clean(err->context[i], "a context");
}

/* Cut *rest at its first form feed: what stands before it, and *rest becomes what stands behind. */
static inline lml_span fuzz_part(lml_span *rest)
{
    const char *end = rest->at + rest->length;
    const char *mark = rest->length ? memchr(rest->at, '\f', rest->length) : NULL;
    lml_span part = lml_span_between(rest->at, mark ? mark : end);
    *rest = lml_span_between(mark ? mark + 1 : end, end);
    return part;
}

#endif
