#include "read/memo.h"

#include <string.h>

enum { WORDS = 4, TEXT_MOST = WORDS * 8, SETS = 256, WAYS = 4 };

typedef struct key {
    uint64_t text[WORDS]; /* filled up with zeros */
    uint8_t length, wanted, metal;
} key;

typedef struct memory {
    key key;
    lml_value value;
} memory;

struct lml_memo {
    uint32_t mark[SETS][WAYS]; /* of the key that is there, in part; 0: none */
    uint8_t next[SETS];        /* to be taken over: each in its turn */
    memory place[SETS][WAYS];  /* of a mark */
};

lml_memo *lml_memo_new(const lml_alloc *alloc)
{
    lml_memo *memo = lml_alloc_get(alloc, sizeof *memo);
    if (memo) {
        memset(memo->mark, 0, sizeof memo->mark);
        memset(memo->next, 0, sizeof memo->next);
    }
    return memo;
}

void lml_memo_free(lml_memo *memo, const lml_alloc *alloc)
{
    lml_alloc_free(alloc, memo, sizeof *memo);
}

static uint64_t mix(const key *k)
{
    const uint64_t odd = 0x9E3779B97F4A7C15; /* 2^64 over the golden ratio: spreads the high bits */
    uint64_t mixed = (uint64_t)(k->wanted << 8 | k->metal);
    for (size_t i = 0; i < WORDS; i++)
        mixed = (mixed ^ k->text[i]) * odd;
    return mixed;
}

static bool is_key(const key *a, const key *b)
{
    return memcmp(a->text, b->text, sizeof a->text) == 0 && a->length == b->length &&
           a->wanted == b->wanted && a->metal == b->metal;
}

lml_status lml_memo_read(lml_memo *memo, lml_span text, lml_wanted wanted, lml_metal metal,
                         lml_value *out, lml_error *err)
{
    if (!memo || text.length == 0 || text.length > TEXT_MOST)
        return lml_read_value(text, wanted, metal, out, err);
    key k = {.length = (uint8_t)text.length, .wanted = (uint8_t)wanted, .metal = (uint8_t)metal};
    memcpy(k.text, text.at, text.length);
    const uint64_t mixed = mix(&k);
    const size_t set = (mixed >> 32) % SETS;
    const uint32_t mark = (uint32_t)mixed | 1;
    for (int i = 0; i < WAYS; i++)
        if (memo->mark[set][i] == mark && is_key(&memo->place[set][i].key, &k)) {
            *out = memo->place[set][i].value;
            return LML_OK;
        }
    lml_value read;
    lml_status status = lml_read_value(text, wanted, metal, &read, err);
    if (status)
        return status;
    const int way = memo->next[set]++ % WAYS;
    memo->mark[set][way] = mark;
    memo->place[set][way] = (memory){k, read};
    *out = read;
    return LML_OK;
}
