/* Skeleton: a job file to fill in, from what its recipe declares. */
#ifndef LML_CLI_SKELETON_H
#define LML_CLI_SKELETON_H

#include "file/json.h"
#include "file/json_write.h"

/* Write a job for the recipe that `about` describes (lml_engine_inspect, parsed). What a job must
 * say stands in it with an empty text, which no kind takes, so that `check` names every one that is
 * not filled in; what it may say is listed in its notes. */
void lml_skeleton_job(lml_json_writer *w, const lml_json *about, const char *title,
                      const char *date);

#endif
