#include "studio/keep.h"

#include "base/shell.h"
#include "file/digest.h"
#include "file/store.h"
#include "sheet/complain.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { KEPT_MOST = 16 << 20, PROGRAM_MOST = 256 << 20 };

static const char MARK[] = "lemel kept 1\n";

/* ---- names -------------------------------------------------------------------------------------
 */

static void add_text(lml_digest *d, const char *text)
{
    lml_digest_add(d, (lml_span){text, strlen(text) + 1});
}

static void add_bytes(lml_digest *d, lml_span bytes)
{
    const uint64_t length = bytes.length;
    lml_digest_add(d, (lml_span){(const char *)&length, sizeof length});
    lml_digest_add(d, bytes);
}

/* The program: another build may calculate otherwise, and lays out what it keeps otherwise. */
static lml_status add_program(const lml_alloc *alloc, lml_digest *d, lml_error *err)
{
    lml_builder bytes = lml_builder_on(alloc, 0);
    lml_status status = lml_store_read("/proc/self/exe", PROGRAM_MOST, &bytes, NULL);
    if (status != LML_OK) {
        lml_fail(err, LML_NO_FILE,
                 "--keep is not possible here: the system does not show lemel its own "
                 "program, so results saved by another version could not be distinguished");
        lml_error_hint(err, "leave out --keep: the jobs are run all the same");
        status = LML_NO_FILE;
    }
    if (status == LML_OK)
        add_bytes(d, (lml_span){bytes.at, bytes.length});
    lml_builder_free(&bytes);
    return status;
}

/* The texts of a kit in any order. */
static void add_kit(const lml_kit *kit, lml_digest *d)
{
    unsigned char all[LML_DIGEST_BYTES] = {0}, one[LML_DIGEST_BYTES];
    for (size_t i = 0; i < kit->count; i++) {
        const lml_kit_text *t = &kit->texts[i];
        const char sort[2] = {(char)('a' + t->what), t->ours ? 'y' : 'n'};
        lml_digest text = lml_digest_start();
        lml_digest_add(&text, (lml_span){sort, sizeof sort});
        add_text(&text, t->name);
        add_text(&text, t->shown);
        add_bytes(&text, t->text);
        lml_digest_finish(&text, one);
        for (size_t k = 0; k < sizeof all; k++)
            all[k] ^= one[k];
    }
    lml_digest_add(d, (lml_span){(const char *)all, sizeof all});
    const lml_worker_limits full = lml_limits_full(kit->limits);
    const uint64_t limits[] = {full.steps, full.processor, (uint64_t)full.patience, full.memory,
                               full.answer};
    lml_digest_add(d, (lml_span){(const char *)limits, sizeof limits});
}

static void path_of(const lml_keep *keep, const lml_job *job, char out[LML_PATH])
{
    unsigned char bytes[LML_DIGEST_BYTES];
    char name[2 * LML_DIGEST_BYTES + 1];
    lml_digest d = lml_digest_start();
    lml_digest_add(&d, (lml_span){(const char *)keep->kit, sizeof keep->kit});
    add_text(&d, job->shown);
    add_bytes(&d, job->text);
    lml_digest_finish(&d, bytes);
    for (size_t i = 0; i < sizeof bytes; i++)
        snprintf(name + 2 * i, 3, "%02x", bytes[i]);
    snprintf(out, LML_PATH, "%s/%s", keep->folder, name);
}

/* ---- the folder --------------------------------------------------------------------------------
 */

static lml_status need_folder(const char *folder, bool makes, lml_error *err)
{
    char word[LML_SHELL_WORD];
    struct stat is;
    if (strlen(folder) + 2 * LML_DIGEST_BYTES + 2 > LML_PATH)
        return lml_fail(err, LML_USAGE, "the name of the folder after --keep is too long");
    if (makes && mkdir(folder, 0777) == 0)
        return LML_OK;
    int made = errno;
    if (stat(folder, &is) == 0) {
        if (S_ISDIR(is.st_mode))
            return LML_OK;
        lml_fail(err, LML_USAGE, "--keep needs a folder, but %s is not one", folder);
        lml_error_hint(err, "name an existing folder or a new one");
        return LML_USAGE;
    }
    const char *why = lml_store_reason(makes ? made : errno);
    if (makes)
        return lml_fail(err, LML_NO_WRITE, "the folder %s cannot be created%s%s", folder,
                        why ? ": " : "", why ? why : "");
    lml_fail(err, LML_NO_FILE, "there is no folder %s: nothing was saved", folder);
    lml_error_hint(err, "lemel batch JOB ... --keep %s saves the results of the jobs there",
                   lml_shell_word(lml_span_of(folder), word));
    return LML_NO_FILE;
}

lml_status lml_keep_open(lml_keep *keep, lml_call *call, const lml_kit *kit, bool makes,
                         lml_error *err)
{
    *keep = (lml_keep){.call = call, .folder = call->arguments.value[LML_OPTION_KEEP]};
    if (!keep->folder)
        return LML_OK;
    lml_digest d = lml_digest_start();
    lml_status status = need_folder(keep->folder, makes, err);
    if (status == LML_OK)
        status = add_program(&call->alloc, &d, err);
    if (status != LML_OK)
        return status;
    add_kit(kit, &d);
    lml_digest_finish(&d, keep->kit);
    return LML_OK;
}

/* ---- files -------------------------------------------------------------------------------------
 */

bool lml_keep_read(lml_keep *keep, const lml_job *job, lml_builder *out)
{
    enum { MARK_LENGTH = sizeof MARK - 1, DIGEST_LENGTH = LML_DIGEST_TEXT - 1 };
    char path[LML_PATH], digest[LML_DIGEST_TEXT];
    out->length = 0;
    if (!keep->folder)
        return false;
    path_of(keep, job, path);
    bool sound = lml_store_read(path, KEPT_MOST, out, NULL) == LML_OK &&
                 out->length > MARK_LENGTH + DIGEST_LENGTH &&
                 memcmp(out->at, MARK, MARK_LENGTH) == 0;
    if (sound) {
        const char *kept = out->at + MARK_LENGTH + DIGEST_LENGTH;
        size_t length = out->length - MARK_LENGTH - DIGEST_LENGTH;
        lml_digest_of((lml_span){kept, length}, digest);
        sound = memcmp(out->at + MARK_LENGTH, digest, DIGEST_LENGTH) == 0;
        memmove(out->at, kept, length);
        out->length = length;
    }
    *(sound ? &keep->taken : &keep->missed) += 1;
    if (!sound)
        out->length = 0;
    return sound;
}

void lml_keep_write(lml_keep *keep, const lml_job *job, lml_span kept)
{
    char path[LML_PATH], digest[LML_DIGEST_TEXT];
    lml_error error;
    if (!keep->folder || keep->failed || kept.length == 0)
        return;
    path_of(keep, job, path);
    lml_builder text = lml_builder_on(&keep->call->alloc, 0);
    lml_digest_of(kept, digest);
    lml_builder_add_text(&text, MARK);
    lml_builder_add_text(&text, digest);
    lml_builder_add_span(&text, kept);
    lml_status status = lml_builder_status(&text, &error);
    if (status == LML_OK)
        status = lml_store_write(path, (lml_span){text.at, text.length}, true, &error);
    lml_builder_free(&text);
    if (status == LML_OK)
        return;
    keep->failed = true;
    lml_builder_add_format(&keep->call->aside,
                           "from here on results are not saved in %s; the jobs are run all "
                           "the same\n",
                           keep->folder);
    lml_complain_write(&error, &keep->call->aside);
}

void lml_keep_tell(const lml_keep *keep)
{
    if (keep->folder && keep->missed > 0 && !lml_call_quiet(keep->call))
        lml_builder_add_format(&keep->call->aside,
                               "%zu of %zu jobs were run again: no saved results match them\n",
                               keep->missed, keep->missed + keep->taken);
}
