#include "file/faults.h"

lml_faults lml_faults_on(lml_builder *to)
{
    lml_faults faults = {.w = lml_json_writer_on(to, false)};
    lml_json_write_open_list(&faults.w);
    return faults;
}

static void put_number(lml_json_writer *w, const char *name, size_t n)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_whole(w, (int64_t)n);
}

static void put_place(lml_json_writer *w, const lml_json *node)
{
    char path[LML_JSON_PATH];
    lml_json_write_member(w, "file", lml_json_path_source(node));
    put_number(w, "line", lml_json_line(node));
    lml_json_write_member(w, "path", lml_json_path(node, path, sizeof path));
}

static void put_labels(lml_json_writer *w, const lml_error *error)
{
    lml_json_write_name(w, lml_span_of("labels"));
    lml_json_write_open_list(w);
    for (int i = 0; i < error->labels; i++) {
        const lml_label *label = &error->label[i];
        lml_json_write_open_record(w);
        lml_json_write_member(w, "text", label->text);
        lml_json_write_member(w, "note", label->note);
        put_number(w, "offset", label->offset);
        put_number(w, "length", label->length);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

void lml_faults_note(lml_faults *faults, const lml_json *node, const lml_error *error)
{
    lml_json_writer *w = &faults->w;
    if (faults->count++ >= LML_FAULTS_MOST)
        return;
    lml_json_write_open_record(w);
    if (node)
        put_place(w, node);
    lml_json_write_member(w, "message", error->message);
    if (error->hint[0])
        lml_json_write_member(w, "hint", error->hint);
    if (error->labels > 0)
        put_labels(w, error);
    if (error->contexts > 0) {
        lml_json_write_name(w, lml_span_of("context"));
        lml_json_write_open_list(w);
        for (int i = 0; i < error->contexts; i++)
            lml_json_write_text(w, lml_span_of(error->context[i]));
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

lml_status lml_faults_end(lml_faults *faults, lml_error *err)
{
    if (faults->count > LML_FAULTS_MOST) {
        lml_json_write_open_record(&faults->w);
        lml_json_write_member(&faults->w, "message", "there are more faults than are listed here");
        lml_json_write_close(&faults->w);
    }
    lml_json_write_close(&faults->w);
    return lml_json_writer_end(&faults->w, err);
}

static const char *text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name)).at;
}

void lml_faults_read(const lml_json *fault, lml_error *out)
{
    lml_fail(out, LML_BAD_DATA, "%s", text_of(fault, "message"));
    lml_error_hint(out, "%s", text_of(fault, "hint"));
    const lml_json *label = lml_json_first(lml_json_member(fault, "labels"));
    for (; label; label = lml_json_next(label)) {
        lml_span text = lml_json_text(lml_json_member(label, "text"));
        lml_error_label(
            out, text.at, text.length, (size_t)lml_json_number(lml_json_member(label, "offset")),
            (size_t)lml_json_number(lml_json_member(label, "length")), text_of(label, "note"));
    }
    const lml_json *context = lml_json_first(lml_json_member(fault, "context"));
    for (; context; context = lml_json_next(context))
        lml_error_context(out, LML_BAD_DATA, "%s", lml_json_text(context).at);
}
