#include "file/assay_read.h"
#include "file/alloy_read.h"
#include "read/memo.h"
#include "value/wanted.h"

#include <string.h>

static lml_status check_assay(const lml_json *node, lml_error *err)
{
    lml_assay assay;
    return lml_assay_read(node, LML_NO_METAL, &assay, err);
}

const lml_shape lml_assay_read_shape = {.wanted = LML_WANT_BY_NAME,
                                        .title = "What was found in a piece, by metal",
                                        .example = "{ \"Au\": \"579 ‰ ± 5 ‰\" }",
                                        .of = &lml_alloy_read_part,
                                        .check = check_assay};

bool lml_assay_read_is_name(lml_span text, struct lml_memo *memo)
{
    lml_value ignored;
    if (text.length == 0)
        return false;
    if (text.at[0] < '0' || text.at[0] > '9')
        return true;
    return lml_memo_read(memo, text, LML_WANT_FINENESS, LML_Au, &ignored, NULL) &&
           lml_memo_read(memo, text, LML_WANT_ANYTHING, LML_NO_METAL, &ignored, NULL);
}

lml_status lml_assay_read(const lml_json *node, lml_metal metal, lml_assay *out, lml_error *err)
{
    lml_assay a;
    lml_status status;
    if (lml_json_kind_of(node) == LML_JSON_RECORD) {
        status = lml_alloy_read_parts(node, &a.found, &a.deviation, err);
    } else {
        lml_shape shape = {.wanted = LML_WANT_FINENESS, .metal = metal, .any_metal = true};
        lml_value part;
        memset(&a, 0, sizeof a);
        status = lml_shape_value(&shape, node, &part, err);
        if (!status) {
            a.found.part[part.metal] = part.amount;
            a.deviation.part[part.metal] = lml_value_deviation(&part);
        }
    }
    if (status)
        return status;
    status = lml_assay_check(&a, err);
    if (!status)
        *out = a;
    return lml_json_place(node, status, err);
}
