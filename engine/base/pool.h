/* A pool: memory for something short-lived that is freed all at once, such as a Lua state.
 *
 * Small blocks come in sizes of sixteen bytes from large chunks and go back to lists by size;
 * larger ones pass through to the allocator below. Closing the pool frees everything that was taken
 * from it. One thread at a time; a pool must not move while it is in use.
 *
 * A pool can be saved at one moment and restored to it, byte for byte at the same addresses, any
 * number of times: the next run need not build the same things again.
 *
 * Under AddressSanitizer every block passes through, so that errors inside the pool's memory are
 * found.
 *
 *     lml_pool pool;
 *     lml_pool_open(&pool, &heap);
 *     lml_alloc alloc = lml_pool_alloc(&pool);
 *     ...
 *     lml_pool_close(&pool);
 */
#ifndef LML_BASE_POOL_H
#define LML_BASE_POOL_H

#include "base/alloc.h"

#include <stdbool.h>

#include <string.h>

#if defined(__SANITIZE_ADDRESS__)
#define LML_POOL_PASSES_THROUGH true
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define LML_POOL_PASSES_THROUGH true
#endif
#endif
#ifndef LML_POOL_PASSES_THROUGH
#define LML_POOL_PASSES_THROUGH false
#endif

enum { LML_POOL_SMALL = 512, LML_POOL_GRAIN = 16 };

typedef struct lml_pool_block lml_pool_block; /* the header of a chunk or a large block */

typedef struct lml_pool {
    lml_alloc under;
    lml_pool_block *blocks;
    void *spare[LML_POOL_SMALL / LML_POOL_GRAIN + 1]; /* freed small blocks, one list per size */
    char *at, *end;                                   /* what is left of the newest chunk */
    size_t next_chunk;
    size_t held;                /* bytes from the allocator below, without the saved copy */
    size_t most;                /* the most it may take; 0 is no limit */
    bool full;                  /* the last request that it refused was for more than that */
    struct lml_pool_kept *kept; /* NULL until lml_pool_keep */
} lml_pool;

void lml_pool_open(lml_pool *pool, const lml_alloc *under);
void lml_pool_close(lml_pool *pool);
/* Save the pool's contents; once per pool. False if memory is short: the pool can still be used. */
bool lml_pool_keep(lml_pool *pool);
/* Restore what was saved. Only after lml_pool_keep. */
void lml_pool_rewind(lml_pool *pool);
lml_alloc lml_pool_alloc(lml_pool *pool);

static inline bool lml_pool_is_small(size_t size)
{
    return !LML_POOL_PASSES_THROUGH && size <= LML_POOL_SMALL;
}

static inline void **lml_pool_spare(lml_pool *pool, size_t size)
{
    return &pool->spare[(size + LML_POOL_GRAIN - 1) / LML_POOL_GRAIN];
}

/* The list of freed blocks of a size is linked through the blocks themselves. */
static inline void lml_pool_put_back(void **spare, void *block)
{
    memcpy(block, spare, sizeof *spare);
    *spare = block;
}

static inline void *lml_pool_take_back(void **spare)
{
    void *block = *spare;
    memcpy(spare, block, sizeof *spare);
    return block;
}

/* A new small block: one that was freed before, or the next of the newest chunk; NULL where that is
 * used up. */
static inline void *lml_pool_take_small(lml_pool *pool, size_t size)
{
    const size_t room = (size + LML_POOL_GRAIN - 1) & ~(size_t)(LML_POOL_GRAIN - 1);
    void **spare = lml_pool_spare(pool, size), *block = pool->at;
    if (*spare)
        return lml_pool_take_back(spare);
    if ((size_t)(pool->end - pool->at) < room)
        return NULL;
    pool->at += room;
    return block;
}

void *lml_pool_resize_any(lml_pool *pool, void *block, size_t old_size, size_t new_size);
/* Implements lml_pool_alloc. A Lua state mostly asks for a small block, or frees one: these cases
 * are inlined. */
static inline void *lml_pool_resize(lml_pool *pool, void *block, size_t old_size, size_t new_size)
{
    if (!block && new_size > 0 && lml_pool_is_small(new_size)) {
        void *taken = lml_pool_take_small(pool, new_size);
        if (taken)
            return taken;
    } else if (block && new_size == 0 && lml_pool_is_small(old_size)) {
        lml_pool_put_back(lml_pool_spare(pool, old_size), block);
        return NULL;
    }
    return lml_pool_resize_any(pool, block, old_size, new_size);
}

#endif
