/* What the floors above may see of an engine: its allocator. */
#ifndef LML_FACE_ENGINE_H
#define LML_FACE_ENGINE_H

#include "base/alloc.h"
#include "face/need.h"
#include "file/json.h"
#include "lemel.h"

const lml_alloc *lml_engine_alloc(const lml_engine *engine);
/* The house on the shelf; NULL if there is none. */
const lml_json *lml_engine_house(const lml_engine *engine);
/* The prices by metal on the shelf; NULL if there are none. */
const lml_json *lml_engine_prices(const lml_engine *engine);

#endif
