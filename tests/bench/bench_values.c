/* What a unit-safe operation costs in Lua, against a C metamethod that only returns a number: the
 * same Lua, the same run, the same loop. The ratio that is asked for is at most 3.5, 2.5 is the
 * hope. */
#include "run/allow.h"
#include "words/bind.h"
#include "cell/chunk.h"
#include "cell/state.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { ROUNDS = 51, TIMES = 20000 };

/* The cheapest metamethods there are: no check, no new value. */
static int give_number(lua_State *L)
{
    lua_pushnumber(L, 1.5);
    return 1;
}

static int give_true(lua_State *L)
{
    lua_pushboolean(L, 1);
    return 1;
}

static int push_cheap(lua_State *L)
{
    lua_newuserdatauv(L, sizeof(lml_value), 0);
    lua_newtable(L);
    static const char *const numbers[] = {"__add", "__mul", "__div"};
    for (int i = 0; i < 3; i++) {
        lua_pushcfunction(L, give_number);
        lua_setfield(L, -2, numbers[i]);
    }
    lua_pushcfunction(L, give_true);
    lua_setfield(L, -2, "__lt");
    lua_setmetatable(L, -2);
    return 1;
}

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static void must(lml_status status, const lml_error *e)
{
    if (status) {
        fprintf(stderr, "%s\n", e->message);
        exit(70);
    }
}

/* Nanoseconds of one turn of a loop over the chunk's body, with the two values at the top of the
 * stack as a and b. */
static double turn(lml_box *box, const char *body)
{
    char source[400];
    lml_error e;
    snprintf(source, sizeof source, "local a, b = ... local c for i = 1, %d do %s end", TIMES,
             body);
    must(lml_chunk_load(box, lml_span_of(source), "bench", &e), &e);
    lua_pushvalue(box->L, -3);
    lua_pushvalue(box->L, -3);
    double start = seconds();
    must(lml_box_call(box, 2, 0, &e), &e);
    return (seconds() - start) / TIMES * 1e9;
}

/* The least of many rounds: what disturbs a round only ever adds to it. */
static double least(const double list[ROUNDS])
{
    double best = list[0];
    for (int i = 1; i < ROUNDS; i++)
        best = list[i] < best ? list[i] : best;
    return best;
}

int main(void)
{
    static const struct {
        const char *name, *body, *a, *b;
    } cases[] = {{"mass + mass", "c = a + b", "Q '12.4 g'", "Q '3.1 g'"},
                 {"mass * ratio", "c = a * b", "Q '12.4 g'", "Q '50 %'"},
                 {"mass * number", "c = a * b", "Q '12.4 g'", "2.5"},
                 {"mass / density", "c = a / b", "Q '12.4 g'", "Q '3.1 g/cm3'"},
                 {"volume * density", "c = a * b", "Q '12.4 cm3'", "Q '3.1 g/cm3'"},
                 {"mass / mass", "c = a / b", "Q '12.4 g'", "Q '3.1 g'"},
                 {"mass < mass", "c = a < b", "Q '12.4 g'", "Q '3.1 g'"},
                 {"fineness * mass", "c = a * b", "Q '750 ‰ Au'", "Q '3.1 g'"},
                 {"money + money", "c = a + b", "Q '12.40 USD'", "Q '3.10 USD'"},
                 {"price * mass", "c = a * b", "Q '98.50 USD/g'", "Q '3.1 g'"}};
    printf("%-18s %10s %10s %8s\n", "", "ns", "bare ns", "ratio");
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double ours[ROUNDS], bare[ROUNDS], empty[ROUNDS];
        for (int round = 0; round < ROUNDS; round++) {
            lml_alloc heap = lml_alloc_heap();
            lml_box_options options = {.alloc = &heap,
                                       .prepare = lml_allow_prepare,
                                       .budget = UINT64_MAX,
                                       .memory = 64 << 20};
            lml_box box;
            lml_error e;
            char pair[200];
            must(lml_box_open(&box, &options, &e), &e);
            snprintf(pair, sizeof pair, "return %s, %s", cases[i].a, cases[i].b);
            must(lml_chunk_load(&box, lml_span_of(pair), "pair", &e), &e);
            must(lml_box_call(&box, 0, 2, &e), &e);
            ours[round] = turn(&box, cases[i].body);
            empty[round] = turn(&box, "c = a");
            lua_pushcfunction(box.L, push_cheap);
            must(lml_box_call(&box, 0, 1, &e), &e);
            lua_pushvalue(box.L, -1);
            bare[round] = turn(&box, cases[i].body);
            lml_box_close(&box);
        }
        double loop = least(empty), a = least(ours) - loop, b = least(bare) - loop;
        printf("%-18s %10.1f %10.1f %8.2f\n", cases[i].name, a, b, a / b);
    }
    return 0;
}
