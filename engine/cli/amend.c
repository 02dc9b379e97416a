#include "cli/amend.h"

#include "cli/ask.h"
#include "file/store.h"
#include "studio/lock.h"

#include <string.h>

static lml_status read_file(const lml_amend *amend, lml_amended *file, lml_store_file *as_read,
                            lml_error *err)
{
    lml_status status = lml_store_read_as(amend->path, LML_STORE_SIZE, &file->before, as_read, err);
    if (status == LML_NO_FILE && amend->makes) {
        if (err)
            memset(err, 0, sizeof *err);
        return LML_OK; /* a folder or an unreadable file is refused as it is written */
    }
    file->text = file->before.at ? file->before.at : "";
    return status;
}

static lml_status write_file(lml_call *call, const lml_amend *amend, lml_amended *file,
                             lml_store_file *as_read, lml_error *err)
{
    lml_span bytes = {file->after.text, file->after.length};
    lml_status status = file->text ? lml_store_replace(amend->path, bytes, as_read, err)
                                   : lml_store_write(amend->path, bytes, false, err);
    if (as_read->replaced || (!file->text && status == LML_OK))
        lml_text_join(call->done, sizeof call->done, amend->done, amend->path, amend->again);
    return status;
}

static lml_status change_file(lml_call *call, const lml_amend *amend, lml_amended *file,
                              lml_error *err)
{
    lml_lock lock;
    lml_store_file as_read = {0};
    lml_status status = lml_lock_take(amend->path, &lock, err);
    if (status == LML_OK)
        status = read_file(amend, file, &as_read, err);
    if (status == LML_OK)
        status = amend->change(call, file, err);
    if (status == LML_OK)
        status = write_file(call, amend, file, &as_read, err);
    lml_lock_end(&lock);
    return status;
}

static lml_status report(lml_call *call, const lml_amend *amend, const lml_amended *file,
                         lml_error *err)
{
    lml_json_document *doc;
    lml_status status =
        lml_ask_parse_span(call, (lml_span){file->told.text, file->told.length}, &doc, err);
    if (status != LML_OK)
        return status;
    status = amend->report(call, file, lml_json_root(doc), err);
    lml_json_free(doc);
    return status;
}

lml_status lml_amend_file(lml_call *call, const lml_amend *amend, lml_error *err)
{
    lml_amended file = {.path = amend->path, .before = lml_builder_on(&call->alloc, 0)};
    lml_status status = lml_ask_engine(call, &file.engine, err);
    if (status == LML_OK)
        status = change_file(call, amend, &file, err);
    if (status == LML_OK)
        status = report(call, amend, &file, err);
    if (file.engine) {
        lml_text_free(file.engine, &file.after);
        lml_text_free(file.engine, &file.told);
    }
    lml_engine_free(file.engine);
    lml_builder_free(&file.before);
    return status;
}

lml_status lml_amend_put_json(lml_call *call, const char *name, const lml_amended *file,
                              const lml_json *told, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(&call->out, true);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, name, file->path);
    for (const lml_json *m = lml_json_first(told); m; m = lml_json_next(m)) {
        lml_json_write_name(&w, lml_json_name(m));
        lml_json_write_raw(&w, lml_json_raw(m));
    }
    lml_json_write_close(&w);
    return lml_call_end_json(&w, err);
}
