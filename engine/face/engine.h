/* What the floors above may know of an engine: where its memory comes from. */
#ifndef LML_FACE_ENGINE_H
#define LML_FACE_ENGINE_H

#include "base/alloc.h"
#include "face/need.h"
#include "file/json.h"
#include "lemel.h"

const lml_alloc *lml_engine_alloc(const lml_engine *engine);
/* The house that was put; NULL when there is none. */
const lml_json *lml_engine_house(const lml_engine *engine);
/* The prices by metal that were put; NULL when there are none. */
const lml_json *lml_engine_prices(const lml_engine *engine);

#endif
