#include "face/output.h"

lml_status lml_output_take(lml_builder *b, lml_status status, lml_text *out, lml_error *err)
{
    if (status == LML_OK)
        status = lml_builder_status(b, err);
    if (status == LML_OK && out)
        *out = (lml_text){.text = b->at, .length = b->length, .size = b->capacity};
    else
        lml_builder_free(b);
    return status;
}
