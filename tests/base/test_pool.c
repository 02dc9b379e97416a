#include "base/pool.h"
#include "random.h"

#include <criterion/criterion.h>
#include <string.h>

enum { SLOTS = 400, ROUNDS = 60000 };

static size_t any_size(random_source *r)
{
    return random_below(r, 8) ? 1 + (size_t)random_below(r, 700)
                              : 1 + (size_t)random_below(r, 20000);
}

static bool is_filled(const unsigned char *block, size_t size, unsigned char with)
{
    for (size_t i = 0; i < size; i++)
        if (block[i] != with)
            return false;
    return true;
}

/* Blocks keep what was written into them through any order of getting, resizing and freeing, and
 * when the pool is closed everything is back with the allocator below. */
static void drive(lml_meter *under)
{
    lml_alloc below = lml_alloc_metered(under);
    lml_pool pool;
    lml_pool_open(&pool, &below);
    lml_alloc alloc = lml_pool_alloc(&pool);
    unsigned char *block[SLOTS] = {0}, with[SLOTS];
    size_t size[SLOTS] = {0};
    random_source r = {20261124};
    for (int i = 0; i < ROUNDS; i++) {
        int s = random_below(&r, SLOTS);
        if (block[s])
            cr_assert(is_filled(block[s], size[s], with[s]), "round %d", i);
        size_t wanted = random_below(&r, 4) ? any_size(&r) : 0;
        unsigned char *moved = alloc.resize(alloc.self, block[s], size[s], wanted);
        if (!moved && wanted) {
            cr_assert(wanted > size[s], "shrinking failed in round %d", i);
            continue;
        }
        size_t kept = wanted < size[s] ? wanted : size[s];
        if (block[s] && wanted)
            cr_assert(is_filled(moved, kept, with[s]), "round %d", i);
        block[s] = moved;
        size[s] = wanted;
        with[s] = (unsigned char)random_below(&r, 256);
        if (moved) {
            cr_assert((uintptr_t)moved % 16 == 0);
            memset(moved, with[s], wanted);
        }
    }
    lml_pool_close(&pool);
    cr_assert(under->used == 0, "%zu bytes were not given back", under->used);
}

Test(pool, keeps_what_is_written)
{
    lml_meter under = {.under = lml_alloc_heap()};
    drive(&under);
    cr_assert(under.requests > 0);
}

Test(pool, lives_with_an_allocator_that_runs_out)
{
    for (uint64_t nth = 1; nth < 40; nth += 3) {
        lml_meter under = {.under = lml_alloc_heap(), .fail_at = nth, .fail_forever = 1};
        drive(&under);
    }
}

/* Where every block passes through, new ones stand where malloc puts them. */
#ifdef LML_SANITIZED
enum { PASS_THROUGH = true };
#else
enum { PASS_THROUGH = false };
#endif

/* Everything that happened since a pool was kept is undone by winding it back, and what is had from
 * it then stands where it stood the first time. */
Test(pool, winds_back_to_what_was_kept)
{
    lml_meter under = {.under = lml_alloc_heap()};
    lml_alloc below = lml_alloc_metered(&under);
    lml_pool pool;
    lml_pool_open(&pool, &below);
    lml_alloc alloc = lml_pool_alloc(&pool);
    enum { KEPT = 200 };
    unsigned char *block[KEPT], with[KEPT];
    size_t size[KEPT];
    random_source r = {7};
    for (int i = 0; i < KEPT; i++) {
        size[i] = any_size(&r);
        with[i] = (unsigned char)i;
        block[i] = alloc.resize(alloc.self, NULL, 0, size[i]);
        memset(block[i], with[i], size[i]);
    }
    cr_assert(lml_pool_keep(&pool));
    size_t held = under.used;
    void *first[KEPT];
    for (int round = 0; round < 20; round++) {
        for (int i = 0; i < KEPT;
             i++) { /* spoil, free, grow and shrink what was kept, and take more */
            memset(block[i], 0xee, size[i]);
            size_t wanted = (i + round) % 3 == 0 ? 0 : any_size(&r);
            alloc.resize(alloc.self, block[i], size[i], wanted);
        }
        lml_pool_rewind(&pool);
        cr_expect_eq(under.used, held, "round %d", round);
        for (int i = 0; i < KEPT; i++)
            cr_expect(is_filled(block[i], size[i], with[i]), "block %d, round %d", i, round);
        for (int i = 0; i < KEPT; i++) {
            void *small = alloc.resize(alloc.self, NULL, 0, (size_t)(1 + i));
            cr_expect(PASS_THROUGH || round == 0 || small == first[i], "block %d, round %d", i,
                      round);
            first[i] = small;
        }
        lml_pool_rewind(&pool);
    }
    lml_pool_close(&pool);
    cr_expect_eq(under.used, 0u);
}
