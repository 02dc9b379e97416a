/* Adopt pack: what `lemel adopt FOLDER` does. */
#ifndef LML_CLI_ADOPT_PACK_H
#define LML_CLI_ADOPT_PACK_H

#include "terminal/call.h"

lml_status lml_adopt_pack(lml_call *call, const char *folder, lml_error *err);

#endif
