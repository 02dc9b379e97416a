/* Drawn: of a run with drawn figures only how large the wanted ones are and which stops it met, as
 * bytes. A thousand of them are read to find how far off a job may be.
 *
 * Each figure is exactly what a reader of the job's result would find there, to the last bit. The
 * bytes are of this build of lemel alone.
 *
 *     lml_drawn_write(&run, &bytes, &stopped, err)
 *     lml_span rest = {bytes.at, bytes.length};
 *     lml_drawn_take_figure(&rest, &kind, &size)       as often as figures are wanted
 *     while (lml_drawn_take_stop(&rest, &level, &code)) ...
 */
#ifndef LML_REPORT_DRAWN_H
#define LML_REPORT_DRAWN_H

#include "run/run.h"

enum {
    LML_DRAWN_NONE = 255 /* kind of one that the run does not have or withholds, or no number */
};

/* Of engine->wanted, a name a line: "=weigh[0].mass" of a figure that the job gives, else what it
 * only shows, as lml_named_push_shown has it. The two values that lml_work_job_run left are on top
 * of the stack. Appends to `b`; *stopped as lml_result_write. */
lml_status lml_drawn_write(lml_run *run, lml_builder *b, bool *stopped, lml_error *err);

/* The next figure: its lml_kind, and in SI, in millionths or in seconds how large it is. False,
 * with LML_DRAWN_NONE, where the bytes end. */
bool lml_drawn_take_figure(lml_span *from, int *kind, double *size);
/* The next stop or point to confirm; false where there are no more. */
bool lml_drawn_take_stop(lml_span *from, lml_span *level, lml_span *code);

#endif
