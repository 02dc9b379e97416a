#include "base/pool.h"

enum { FIRST_CHUNK = 32 << 10, LAST_CHUNK = 256 << 10 };

struct lml_pool_block {
    lml_pool_block *before, *after;
    size_t size; /* this head included */
    bool kept;   /* stays where it is until the pool closes, in use or not */
};
/* What follows a head must be aligned as malloc would. */
_Static_assert(sizeof(lml_pool_block) % 16 == 0, "the head of a block keeps alignment");

/* A copy of all kept blocks, one after the other in the order of the list, and of the pool. */
typedef struct lml_pool_kept {
    lml_pool pool;
    size_t size; /* of this block */
    char bytes[];
} lml_pool_kept;

static size_t class_of(size_t size)
{
    return (size + LML_POOL_GRAIN - 1) / LML_POOL_GRAIN;
}

static void link_in(lml_pool *pool, lml_pool_block *b)
{
    b->before = NULL;
    b->after = pool->blocks;
    if (b->after)
        b->after->before = b;
    pool->blocks = b;
}

static void unlink_from(lml_pool *pool, lml_pool_block *b)
{
    if (b->before)
        b->before->after = b->after;
    else
        pool->blocks = b->after;
    if (b->after)
        b->after->before = b->before;
}

static bool has_room(lml_pool *pool, size_t more)
{
    pool->full = pool->most && (pool->held > pool->most || more > pool->most - pool->held);
    return !pool->full;
}

static void *new_block(lml_pool *pool, size_t size)
{
    if (size > SIZE_MAX - sizeof(lml_pool_block) || !has_room(pool, sizeof(lml_pool_block) + size))
        return NULL;
    lml_pool_block *b = lml_alloc_get(&pool->under, sizeof *b + size);
    if (!b)
        return NULL;
    pool->held += sizeof *b + size;
    b->size = sizeof *b + size;
    b->kept = false;
    link_in(pool, b);
    return b + 1;
}

static void free_block(lml_pool *pool, void *block)
{
    lml_pool_block *b = (lml_pool_block *)block - 1;
    if (b->kept)
        return;
    unlink_from(pool, b);
    pool->held -= b->size;
    lml_alloc_free(&pool->under, b, b->size);
}

static void *take_small(lml_pool *pool, size_t size)
{
    void *block = lml_pool_take_small(pool, size);
    if (block)
        return block;
    char *chunk = new_block(pool, pool->next_chunk);
    if (!chunk)
        return NULL;
    pool->at = chunk;
    pool->end = chunk + pool->next_chunk;
    if (pool->next_chunk < LAST_CHUNK)
        pool->next_chunk *= 2;
    return lml_pool_take_small(pool, size);
}

static void *take(lml_pool *pool, size_t size)
{
    return lml_pool_is_small(size) ? take_small(pool, size) : new_block(pool, size);
}

static void give(lml_pool *pool, void *block, size_t size)
{
    if (lml_pool_is_small(size))
        lml_pool_put_back(lml_pool_spare(pool, size), block);
    else
        free_block(pool, block);
}

static void *resize_large(lml_pool *pool, void *block, size_t new_size)
{
    lml_pool_block *b = (lml_pool_block *)block - 1;
    if (new_size > SIZE_MAX - sizeof *b)
        return NULL;
    if (b->kept) {
        size_t size = b->size - sizeof *b;
        void *copy = new_block(pool, new_size);
        if (copy)
            memcpy(copy, block, size < new_size ? size : new_size);
        return copy || new_size > size ? copy : block; /* shrinking never fails */
    }
    size_t size = sizeof *b + new_size, old_size = b->size;
    if (size > old_size && !has_room(pool, size - old_size))
        return NULL;
    unlink_from(pool, b);
    lml_pool_block *moved = lml_alloc_resize(&pool->under, b, old_size, size);
    if (!moved) {
        link_in(pool, b);
        return NULL;
    }
    moved->size = size;
    pool->held += size - old_size;
    link_in(pool, moved);
    return moved + 1;
}

void *lml_pool_resize_any(lml_pool *pool, void *block, size_t old_size, size_t new_size)
{
    if (new_size == 0) {
        if (block)
            give(pool, block, old_size);
        return NULL;
    }
    if (!block)
        return take(pool, new_size);
    if (lml_pool_is_small(old_size) && lml_pool_is_small(new_size) &&
        class_of(old_size) == class_of(new_size))
        return block;
    if (!lml_pool_is_small(old_size) && !lml_pool_is_small(new_size))
        return resize_large(pool, block, new_size);
    void *moved = take(pool, new_size);
    if (moved) {
        memcpy(moved, block, old_size < new_size ? old_size : new_size);
        give(pool, block, old_size);
    } else if (new_size < old_size) {
        /* Shrinking never fails. The block stays where it is and counts as a small one from now on;
         * what it holds too much is freed when the pool closes. */
        moved = block;
    }
    return moved;
}

void lml_pool_open(lml_pool *pool, const lml_alloc *under)
{
    memset(pool, 0, sizeof *pool);
    pool->under = *under;
    pool->next_chunk = FIRST_CHUNK;
}

void lml_pool_close(lml_pool *pool)
{
    for (lml_pool_block *b = pool->blocks; b;) {
        lml_pool_block *after = b->after;
        lml_alloc_free(&pool->under, b, b->size);
        b = after;
    }
    pool->blocks = NULL;
    if (pool->kept)
        lml_alloc_free(&pool->under, pool->kept, pool->kept->size);
    pool->kept = NULL;
}

/* What of a block is worth keeping: of the newest chunk only what was taken from it. */
static size_t used_of(const lml_pool *pool, const lml_pool_block *b)
{
    const char *start = (const char *)(b + 1), *end = (const char *)b + b->size;
    return (size_t)((pool->end == end ? pool->at : end) - start);
}

bool lml_pool_keep(lml_pool *pool)
{
    size_t size = sizeof(lml_pool_kept);
    for (lml_pool_block *b = pool->blocks; b; b = b->after)
        size += used_of(pool, b);
    lml_pool_kept *kept = lml_alloc_get(&pool->under, size);
    if (!kept)
        return false;
    char *to = kept->bytes;
    for (lml_pool_block *b = pool->blocks; b; b = b->after) {
        b->kept = true;
        memcpy(to, b + 1, used_of(pool, b));
        to += used_of(pool, b);
    }
    pool->kept = kept;
    kept->size = size;
    kept->pool = *pool;
    return true;
}

/* In pieces, which the C library copies by vectors: a long block it may copy by one instruction of
 * the processor that is no faster here, and counts as one for each byte. So does the compiler where
 * it puts its own code in place of memcpy; memmove it leaves to the library. */
static void copy(char *to, const char *from, size_t size)
{
    enum { PIECE = 4000 };
    for (size_t at = 0; at < size; at += PIECE)
        memmove(to + at, from + at, size - at < PIECE ? size - at : PIECE);
}

void lml_pool_rewind(lml_pool *pool)
{
    const lml_pool_kept *kept = pool->kept;
    const char *from = kept->bytes;
    for (lml_pool_block *b = pool->blocks, *after; b; b = after) {
        after = b->after;
        if (b->kept)
            continue;
        unlink_from(pool, b);
        lml_alloc_free(&pool->under, b, b->size);
    }
    *pool = kept->pool;
    for (lml_pool_block *b = pool->blocks; b; b = b->after) {
        copy((char *)(b + 1), from, used_of(pool, b));
        from += used_of(pool, b);
    }
}

static void *resize(void *self, void *block, size_t old_size, size_t new_size)
{
    return lml_pool_resize(self, block, old_size, new_size);
}

lml_alloc lml_pool_alloc(lml_pool *pool)
{
    return (lml_alloc){resize, pool};
}
