#include "cli/job_text.h"
#include "papers/given.h"
#include "file/store.h"

#include <stdio.h>
#include <string.h>

static lml_status read_input(lml_builder *out, lml_error *err)
{
    char block[4096];
    size_t got;
    while ((got = fread(block, 1, sizeof block, stdin)) > 0) {
        lml_builder_add(out, block, got);
        if (out->length > LML_STORE_SIZE)
            return lml_fail(err, LML_LIMIT, "standard input is longer than %d bytes",
                            (int)LML_STORE_SIZE);
    }
    if (ferror(stdin))
        return lml_fail(err, LML_NO_FILE, "cannot read standard input");
    return lml_builder_status(out, err);
}

lml_status lml_job_text_read(const lml_call *call, const lml_target *target, lml_job_text *out,
                             lml_error *err)
{
    *out = (lml_job_text){.text = lml_builder_on(&call->alloc, 0), .shown = target->path};
    lml_status status = LML_FAULT;
    switch (target->kind) {
    case LML_TARGET_JOB:
        status = target->named ? lml_store_read_named(target->path, LML_STORE_SIZE, &out->text, err)
                               : lml_store_read(target->path, LML_STORE_SIZE, &out->text, err);
        break;
    case LML_TARGET_INPUT:
        out->shown = "standard input";
        status = read_input(&out->text, err);
        break;
    case LML_TARGET_RECIPE:
        out->shown = LML_JOB_TYPED;
        status = lml_given_start(&out->text, target->recipe, err);
        break;
    }
    if (status != LML_OK)
        lml_builder_free(&out->text);
    return status;
}

lml_status lml_job_text_put(const lml_call *call, size_t first, lml_job_text *job, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    for (size_t i = first; i < a->words; i++) {
        size_t name = strcspn(a->word[i], "=");
        for (size_t k = first; k < i; k++)
            if (strcspn(a->word[k], "=") == name && strncmp(a->word[k], a->word[i], name) == 0)
                return lml_fail(err, LML_USAGE, "%.*s is given twice, %s and %s: leave one out",
                                (int)name, a->word[i], a->word[k], a->word[i]);
        lml_status status = job->closing
                                ? lml_given_put_closing(&job->text, a->word[i], job->shown, err)
                                : lml_given_put(&job->text, a->word[i], job->shown, err);
        if (status != LML_OK)
            return status;
    }
    return LML_OK;
}

/* Behind "FILE:LINE: given." or "house.", or NULL. */
static const char *behind_given(const char *message, const char *shown)
{
    static const char GIVEN[] = "given.", HOUSE[] = "house.", CLOSING[] = "closing.";
    size_t length = strlen(shown);
    if (strncmp(message, shown, length) != 0 || message[length] != ':')
        return NULL;
    const char *at = message + length + 1;
    at += strspn(at, "0123456789");
    if (strncmp(at, ": ", 2) != 0)
        return NULL;
    at += 2;
    at += strncmp(at, CLOSING, strlen(CLOSING)) == 0 ? strlen(CLOSING) : 0;
    return strncmp(at, GIVEN, strlen(GIVEN)) == 0   ? at + strlen(GIVEN)
           : strncmp(at, HOUSE, strlen(HOUSE)) == 0 ? at + strlen(HOUSE)
                                                    : NULL;
}

void lml_job_text_blame(const lml_call *call, size_t first, const lml_job_text *job, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *name = err && job->shown ? behind_given(err->message, job->shown) : NULL;
    for (size_t i = first; name && i < a->words; i++) {
        size_t length = strcspn(a->word[i], "=.[");
        if (strcspn(name, ":.[") != length || strncmp(a->word[i], name, length) != 0)
            continue;
        char message[sizeof err->message];
        snprintf(message, sizeof message, "%s: %s", LML_JOB_TYPED, name);
        memcpy(err->message, message, sizeof message);
        return;
    }
}
