#include "cli/boxes.h"

#include "cli/work.h"

lml_status lml_boxes_read(lml_call *call, const char *path, const lml_builder *text, lml_boxes *out,
                          lml_error *err)
{
    lml_target target = {.kind = LML_TARGET_JOB, .path = path};
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = *text, .shown = path};
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    bool stopped;
    lml_status status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = lml_work_run(&kit, &job, &answer, &stopped, err);
    if (status == LML_OK)
        status = lml_work_parse(call, &answer, &out->result, err);
    lml_builder_free(&answer);
    lml_kit_free(&kit);
    return status;
}

lml_boxes lml_boxes_of(lml_call *call, const char *path, const lml_builder *text)
{
    lml_boxes boxes = {0};
    if (lml_boxes_read(call, path, text, &boxes, NULL) != LML_OK)
        boxes.result = NULL;
    return boxes;
}

void lml_boxes_end(lml_boxes *boxes)
{
    lml_json_free(boxes->result);
    boxes->result = NULL;
}

static void look_among(const lml_json *entries, lml_box *box)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        look_among(lml_json_member(e, "entries"), box);
        lml_span name = lml_json_text(lml_json_member(e, "record"));
        if (name.length == 0)
            continue;
        box->all++;
        lml_nearest_offer(&box->near, name);
        if (!lml_span_equal(name, box->near.wanted))
            continue;
        box->count++;
        const lml_json *kind = lml_json_member(lml_json_member(e, "value"), "kind");
        lml_wanted wanted = kind ? lml_wanted_by_name(lml_json_text(kind)) : LML_WANT_ANYTHING;
        if (wanted < LML_WANTED_COUNT)
            box->kind = wanted;
    }
}

lml_box lml_boxes_find(const lml_boxes *boxes, lml_span name)
{
    lml_box box = {.kind = LML_WANT_ANYTHING, .near = lml_nearest_to(name)};
    if (!boxes->result)
        return box;
    const lml_json *sheets = lml_json_member(lml_json_root(boxes->result), "sheets");
    for (const lml_json *page = lml_json_first(sheets); page; page = lml_json_next(page))
        look_among(page, &box);
    return box;
}
