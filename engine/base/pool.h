/* A pool: memory for something that lives shortly and is let go of all at once, such as a Lua state.
 *
 * Small blocks come in sizes of sixteen bytes from large chunks and go back to lists by size; larger
 * ones pass through to the allocator below. Closing the pool gives back everything that was ever taken
 * from it, freed or not. One thread at a time; a pool must not move while it is in use.
 *
 * A pool can be kept as it is at one moment and wound back to that moment, byte for byte at the same
 * addresses, as often as wanted: what was made once need not be made again for the next run.
 *
 * Under AddressSanitizer every block passes through, so that a fault inside the pool's memory is seen.
 *
 *     lml_pool pool;
 *     lml_pool_open(&pool, &heap);
 *     lml_alloc alloc = lml_alloc_pooled(&pool);
 *     ...
 *     lml_pool_close(&pool);
 */
#ifndef LML_BASE_POOL_H
#define LML_BASE_POOL_H

#include "base/alloc.h"

#include <stdbool.h>

enum { LML_POOL_SMALL = 512, LML_POOL_GRAIN = 16 };

typedef struct lml_pool_block lml_pool_block; /* what stands before a chunk or a large block */

typedef struct lml_pool {
    lml_alloc under;
    lml_pool_block *blocks;
    void *spare[LML_POOL_SMALL / LML_POOL_GRAIN + 1]; /* freed small blocks, a list for each size */
    char *at, *end;                                   /* what is left of the newest chunk */
    size_t next_chunk;
    struct lml_pool_kept *kept; /* NULL until lml_pool_keep */
} lml_pool;

void lml_pool_open(lml_pool *pool, const lml_alloc *under);
void lml_pool_close(lml_pool *pool);
/* Remember all that the pool holds now; once a pool. False when memory is short: then it goes on as
 * before. */
bool lml_pool_keep(lml_pool *pool);
/* Make it so again. Only after lml_pool_keep. */
void lml_pool_rewind(lml_pool *pool);
lml_alloc lml_alloc_pooled(lml_pool *pool);

#endif
