#include "base/alloc.h"

#include <stdlib.h>

static void *heap_resize(void *self, void *block, size_t old_size, size_t new_size)
{
    (void)self;
    if (new_size == 0) {
        free(block);
        return NULL;
    }
    void *moved = realloc(block, new_size);
    return !moved && new_size <= old_size ? block : moved; /* shrinking never fails */
}

lml_alloc lml_alloc_heap(void)
{
    return (lml_alloc){heap_resize, NULL};
}

/* Whether the next request for more memory must fail. */
static int fails_now(lml_meter *meter)
{
    meter->requests++;
    if (meter->fail_at == 0)
        return 0;
    if (meter->fail_at > 1) {
        meter->fail_at--;
        return 0;
    }
    if (!meter->fail_forever)
        meter->fail_at = 0;
    return 1;
}

static void *metered_resize(void *self, void *block, size_t old_size, size_t new_size)
{
    lml_meter *meter = self;
    if (new_size > old_size) {
        size_t more = new_size - old_size;
        if (fails_now(meter) || more > SIZE_MAX - meter->used ||
            (meter->limit && meter->used + more > meter->limit))
            return NULL;
    }
    void *moved = lml_alloc_resize(&meter->under, block, old_size, new_size);
    if (!moved && new_size > 0)
        return NULL;
    meter->used = meter->used - old_size + new_size;
    if (meter->used > meter->peak)
        meter->peak = meter->used;
    return moved;
}

lml_alloc lml_alloc_metered(lml_meter *meter)
{
    return (lml_alloc){metered_resize, meter};
}

void *lml_alloc_get(const lml_alloc *alloc, size_t size)
{
    return alloc->resize(alloc->self, NULL, 0, size);
}

void *lml_alloc_resize(const lml_alloc *alloc, void *block, size_t old_size, size_t new_size)
{
    return alloc->resize(alloc->self, block, old_size, new_size);
}

void lml_alloc_free(const lml_alloc *alloc, void *block, size_t size)
{
    if (block)
        alloc->resize(alloc->self, block, size, 0);
}
