/* The state: limits that nothing swallows, memory that runs out, errors that cross from Lua to C
 * and back. */
#include "run/allow.h"
#include "cell/chunk.h"
#include "cell/class.h"
#include "cell/state.h"
#include "worked.h"

static lml_alloc heap;

static void open_box(lml_box *box, uint64_t budget, size_t memory)
{
    heap = lml_alloc_heap();
    lml_box_options options = {
        .alloc = &heap, .prepare = lml_allow_prepare, .budget = budget, .memory = memory};
    lml_error e;
    cr_assert_eq(lml_box_open(box, &options, &e), LML_OK, "%s", e.message);
}

/* Run a chunk; its one result stays on the stack. */
static lml_status run_chunk(lml_box *box, const char *source, lml_error *e)
{
    lml_status status = lml_chunk_load(box, lml_span_of(source), "chunk.lua", e);
    return status ? status : lml_box_call(box, 0, 1, e);
}

static lml_status fails_with(const char *source, lml_error *e)
{
    lml_box box;
    open_box(&box, 1000000, 1 << 20);
    memset(e, 0, sizeof *e);
    lml_status status = run_chunk(&box, source, e);
    cr_expect_eq(status, e->status);
    cr_expect_eq(lua_gettop(box.L), status ? 0 : 1, "the stack is as before");
    lml_box_close(&box);
    return status;
}

Test(state, budget_is_counted_and_the_same_each_time)
{
    uint64_t spent[2];
    for (int i = 0; i < 2; i++) {
        lml_box box;
        lml_error e;
        open_box(&box, 1 << 20, 1 << 20);
        cr_assert_eq(run_chunk(&box, "local n = 0 for i = 1, 50000 do n = n + i end return n", &e),
                     LML_OK);
        spent[i] = box.spent;
        lml_box_close(&box);
    }
    cr_expect_eq(spent[0], spent[1]);
    cr_expect(spent[0] >= 100000 && spent[0] <= 200000, "%d steps", (int)spent[0]);
}

Test(state, a_budget_that_is_spent_stays_spent)
{
    lml_box box;
    lml_error e;
    open_box(&box, 100000, 1 << 20);
    cr_expect_eq(run_chunk(&box, "while true do pcall(function () while true do end end) end", &e),
                 LML_LIMIT);
    cr_expect(strstr(e.message, "more work"), "%s", e.message);
    cr_expect(e.hint[0], "a hint is due");
    cr_expect_eq(run_chunk(&box, "for i = 1, 10000 do end", &e), LML_LIMIT, "the state is dead");
    lml_box_close(&box);
}

Test(state, charges_are_part_of_the_budget)
{
    lml_error e;
    /* 30 000 texts of 3 200 bytes: far fewer instructions than the budget, far more bytes. */
    cr_expect_eq(fails_with("local s = text.rep('x', 3200) for i = 1, 30000 do s:upper() end", &e),
                 LML_LIMIT);
    cr_expect_eq(fails_with("local s = text.rep('x', 32) for i = 1, 30000 do s:upper() end", &e),
                 LML_OK, "%s", e.message);
}

Test(state, memory_over_the_limit_kills_past_pcall)
{
    lml_error e;
    cr_expect_eq(fails_with("while true do pcall(function () local t = {} while true do t[#t + 1] "
                            "= {} end end) end",
                            &e),
                 LML_LIMIT);
    cr_expect(strstr(e.message, "more memory"), "%s", e.message);
}

static bool always(void *self)
{
    (*(int *)self)++;
    return *(int *)self > 3;
}

Test(state, an_interrupt_ends_a_run)
{
    int asked = 0;
    heap = lml_alloc_heap();
    lml_box_options options = {.alloc = &heap,
                               .prepare = lml_allow_prepare,
                               .budget = 1 << 30,
                               .memory = 1 << 20,
                               .interrupt = always,
                               .interrupt_self = &asked};
    lml_box box;
    lml_error e;
    cr_assert_eq(lml_box_open(&box, &options, &e), LML_OK);
    cr_expect_eq(run_chunk(&box, "while true do pcall(function () while true do end end) end", &e),
                 LML_LIMIT);
    cr_expect_eq(asked, 4);
    cr_expect(strstr(e.message, "interrupted"), "%s", e.message);
    lml_box_close(&box);
}

Test(state, a_long_text_makes_steps_dearer)
{
    uint64_t spent[2];
    const char *const source[] = {
        "local s = 'x' for i = 1, 6 do s = s .. s end for i = 1, 50000 do end return 1",
        "local s = 'x' for i = 1, 15 do s = s .. s end for i = 1, 50000 do end return 1"};
    for (int i = 0; i < 2; i++) {
        lml_box box;
        lml_error e;
        open_box(&box, 1 << 28, 1 << 20);
        cr_assert_eq(run_chunk(&box, source[i], &e), LML_OK);
        spent[i] = box.spent;
        lml_box_close(&box);
    }
    cr_expect(spent[1] > 20 * spent[0], "%d and %d", (int)spent[0], (int)spent[1]);
}

Test(state, errors_name_the_line)
{
    lml_error e;
    cr_expect_eq(fails_with("\n\nlocal a = Q '1 g' + Q '1 mL'", &e), LML_MISMATCH);
    cr_expect_str_eq(e.message, "chunk.lua:3: a mass (1 g) and a volume (1 mL) cannot be added");
    cr_expect(strstr(e.hint, "density"), "%s", e.hint);
    cr_expect_eq(fails_with("\nerror 'no gold'", &e), LML_BAD_RECIPE);
    cr_expect_str_eq(e.message, "chunk.lua:2: no gold");
    cr_expect_eq(fails_with("local x = = 1", &e), LML_BAD_RECIPE);
    cr_expect(strstr(e.message, "chunk.lua:1:"), "%s", e.message);
    cr_expect(strstr(e.hint, "chunk.lua"), "%s", e.hint);
}

Test(state, a_long_message_is_cut_at_a_whole_character)
{
    lml_error e;
    char source[900] = "error('";
    for (int i = 0; i < 200; i++)
        strcat(source, "\xc3\xa4");
    strcat(source, "\xe2\x82\xac')");
    cr_expect_eq(fails_with(source, &e), LML_BAD_RECIPE);
    cr_expect_eq(lml_text_check_utf8(lml_span_of(e.message), NULL), LML_OK, "%s", e.message);
}

Test(state, an_error_that_was_caught_can_be_raised_again)
{
    lml_error e;
    cr_expect_eq(
        fails_with("local ok, x = pcall(function () return Q '1 g' + Q '1 mL' end)\nerror(x)", &e),
        LML_MISMATCH);
    cr_expect_str_eq(e.message, "chunk.lua:1: a mass (1 g) and a volume (1 mL) cannot be added");
}

Test(state, compiled_lua_is_refused)
{
    lml_box box;
    lml_error e;
    open_box(&box, 1000, 1 << 20);
    cr_expect_eq(lml_chunk_load(&box, (lml_span){"\033Lua", 4}, "x", &e), LML_BAD_RECIPE);
    lml_box_close(&box);

    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    cr_expect_eq(lml_engine_put(engine, LML_PUT_RECIPE, "x", "\033Lua", 4, "x.lua", &e),
                 LML_BAD_RECIPE);
    cr_expect_eq(lml_engine_put(engine, LML_PUT_SCRIPT, "x", "\033Lua\x54\xff", 6, "x.lua", &e),
                 LML_BAD_DATA);
    lml_engine_free(engine);
}

Test(state, userdata_of_one_class_is_not_another)
{
    lml_box box;
    lml_error e;
    open_box(&box, 100000, 1 << 20);
    cr_assert_eq(run_chunk(&box, "return Q '1 g'", &e), LML_OK);
    cr_expect(lml_class_test(box.L, -1, LML_CLASS_VALUE));
    for (int i = LML_CLASS_VALUE + 1; i < LML_CLASSES; i++)
        cr_expect_not(lml_class_test(box.L, -1, (lml_class)i));
    lua_pushlightuserdata(box.L, &box);
    lua_pushinteger(box.L, 1);
    for (int i = 0; i < LML_CLASSES; i++) {
        cr_expect_not(lml_class_test(box.L, -1, (lml_class)i));
        cr_expect_not(lml_class_test(box.L, -2, (lml_class)i));
    }
    lml_box_close(&box);
}

/* Whether every failing request for memory ends in a status, without a leak. */
Test(state, opening_survives_any_failing_request)
{
    for (uint64_t n = 1;; n++) {
        lml_meter meter = {.under = lml_alloc_heap(), .fail_at = n, .fail_forever = 1};
        lml_alloc metered = lml_alloc_metered(&meter);
        lml_box_options options = {
            .alloc = &metered, .prepare = lml_allow_prepare, .budget = 1000, .memory = 1 << 20};
        lml_box box;
        lml_error e;
        lml_status status = lml_box_open(&box, &options, &e);
        if (!status)
            lml_box_close(&box);
        else
            cr_assert_eq(status, LML_NO_MEMORY, "request %d: %s", (int)n, e.message);
        cr_assert_eq(meter.used, 0, "request %d leaks", (int)n);
        if (!status)
            break;
    }
}
