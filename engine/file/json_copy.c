#include "file/json_copy.h"

void lml_json_copy(lml_json_writer *w, const lml_json *node)
{
    switch (lml_json_kind_of(node)) {
    case LML_JSON_RECORD:
        lml_json_write_open_record(w);
        for (const lml_json *m = lml_json_first(node); m; m = lml_json_next(m)) {
            lml_json_write_name(w, lml_json_name(m));
            lml_json_copy(w, m);
        }
        lml_json_write_close(w);
        break;
    case LML_JSON_LIST:
        lml_json_write_open_list(w);
        for (const lml_json *item = lml_json_first(node); item; item = lml_json_next(item))
            lml_json_copy(w, item);
        lml_json_write_close(w);
        break;
    case LML_JSON_TEXT:
        lml_json_write_text(w, lml_json_text(node));
        break;
    case LML_JSON_NUMBER:
    case LML_JSON_YES_NO:
    case LML_JSON_NULL:
    case LML_JSON_ABSENT:
        lml_json_write_raw(w, lml_json_raw(node));
        break;
    }
}
