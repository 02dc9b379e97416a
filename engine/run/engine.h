/* What the engine holds, for the box's own files. The public face is lemel.h. */
#ifndef LML_RUN_ENGINE_H
#define LML_RUN_ENGINE_H

#include "shelf/shelf.h"
#include "file/digest.h"
#include "file/json.h"

struct lml_engine {
    lml_alloc alloc;
    lml_limits limits;
    bool (*interrupt)(void *self);
    void *interrupt_self;
    bool without_gates;
    lml_shelf shelf;
    lml_json_document *house, *prices; /* NULL when none was put */
    char house_digest[LML_DIGEST_TEXT], prices_digest[LML_DIGEST_TEXT]; /* of their texts */
    bool house_checked;
    struct lml_warm *warm; /* boxes of the recipes worked of late */
};

const lml_json *lml_engine_house(const struct lml_engine *engine);  /* the root, or NULL */
const lml_json *lml_engine_prices(const struct lml_engine *engine); /* its "prices", or NULL */
bool lml_engine_has_script(const struct lml_engine *engine, const char *name);
/* Push what a script gives back: the engine's own instance, loaded once a run, which no recipe can reach.
 * Raises. */
void lml_push_module(lua_State *L, const char *name);

#endif
