/* The allocator: a parameter, never a global.
 *
 * types.h says what it must do.
 *
 *     lml_alloc heap = lml_alloc_heap();
 *     void *p = lml_alloc_get(&heap, 100);
 *     lml_alloc_free(&heap, p, 100);
 */
#ifndef LML_BASE_ALLOC_H
#define LML_BASE_ALLOC_H

#include "base/types.h"
#include <stdint.h>

/* malloc and free of the C library. */
lml_alloc lml_alloc_heap(void);

/* Counts, limits and can be made to fail: for the box's memory limit and for tests. `limit` 0 is no
 * limit; `fail_at` N makes the Nth request for more return NULL (1 is the next), 0 never.
 * `fail_forever` keeps failing from then on. */
typedef struct lml_meter {
    lml_alloc under;
    size_t used, peak, limit;
    uint64_t requests, fail_at;
    int fail_forever;
} lml_meter;
lml_alloc lml_alloc_metered(lml_meter *meter);

void *lml_alloc_get(const lml_alloc *alloc, size_t size);
void *lml_alloc_resize(const lml_alloc *alloc, void *block, size_t old_size, size_t new_size);
void lml_alloc_free(const lml_alloc *alloc, void *block, size_t size);

#endif
