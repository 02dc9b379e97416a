/* Hold: one command at a time reads a file, changes it and writes it anew.
 *
 * Held is the folder that the file stands in, for the file itself is replaced. Only commands of
 * lemel's heed it. It ends with the process at the latest. Where the file system cannot hold
 * anything, nothing is held and nothing is said.
 *
 *     lml_hold hold;
 *     if (lml_hold_take("jobs/x.json", &hold, err) == LML_OK) ... read, write
 *     lml_hold_end(&hold);
 */
#ifndef LML_CLI_HOLD_H
#define LML_CLI_HOLD_H

#include "base/status.h"

typedef struct lml_hold {
    int folder; /* -1: none */
} lml_hold;

/* Waits for some seconds; then LML_NO_WRITE. `out` is to be ended in any case. */
lml_status lml_hold_take(const char *path, lml_hold *out, lml_error *err);
void lml_hold_end(lml_hold *hold);

#endif
