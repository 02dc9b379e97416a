#include "cli/worker.h"

#include <unistd.h>

lml_status lml_worker_run(const lml_worker_orders *orders, lml_builder *out, lml_error *err)
{
    lml_hand hand = {.kit = {orders->kit},
                     .work = orders->work,
                     .request = orders->request,
                     .limits = lml_limits_full(orders->limits)};
    long process;
    int pipe;
    lml_status status = lml_hand_start(&hand, &process, &pipe, err);
    if (status != LML_OK)
        return status;
    if (orders->started)
        orders->started(orders->started_self, process);
    lml_builder text = lml_builder_on(out->alloc, hand.limits.answer);
    lml_frame_reader reader = lml_frame_reader_on(&text);
    lml_frame_end end = lml_frame_read_answer(pipe, hand.limits.patience, &reader);
    close(pipe);
    status = lml_hand_end(&hand, process, end, &reader.error);
    if (status == LML_OK || status == LML_STOPPED)
        lml_builder_add(out, text.at, text.length);
    else if (err)
        *err = reader.error;
    lml_builder_free(&text);
    return status;
}
