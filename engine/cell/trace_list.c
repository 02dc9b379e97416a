#include "cell/trace_list.h"

#include <math.h>
#include <string.h>

void lml_trace_open(lml_trace *t, const lml_alloc *alloc)
{
    *t = (lml_trace){.alloc = *alloc, .steps = 1};
    lml_pool_open(&t->texts, &t->alloc);
    t->texts.most = SIZE_MAX;
}

void lml_trace_close(lml_trace *t)
{
    lml_alloc_free(&t->alloc, t->step, t->step_room * sizeof *t->step);
    lml_alloc_free(&t->alloc, t->input, t->input_room * sizeof *t->input);
    lml_alloc_free(&t->alloc, t->number, t->number_room * sizeof *t->number);
    lml_alloc_free(&t->alloc, t->left, t->left_room * sizeof *t->left);
    lml_alloc_free(&t->alloc, t->term, t->term_room * sizeof *t->term);
    lml_alloc_free(&t->alloc, t->also, t->also_room * sizeof *t->also);
    lml_alloc_free(&t->alloc, t->called, t->called_room * sizeof *t->called);
    lml_pool_close(&t->texts);
}

bool lml_trace_make_room(lml_trace *t, void **list, size_t count, size_t *room, size_t size)
{
    if (count < *room)
        return true;
    size_t more = *room ? 2 * *room : 256;
    void *moved = lml_alloc_resize(&t->alloc, *list, *room * size, more * size);
    if (!moved) {
        t->short_of = true;
        return false;
    }
    *list = moved;
    *room = more;
    return true;
}

const char *lml_trace_keep(lml_trace *t, const char *text, size_t length)
{
    lml_alloc pool = lml_pool_alloc(&t->texts);
    char *copy = lml_alloc_get(&pool, length + 1);
    if (!copy) {
        t->short_of = true;
        return "";
    }
    memcpy(copy, text, length);
    copy[length] = '\0';
    return copy;
}

uint32_t lml_trace_add(lml_trace *t, const lml_step *step)
{
    void *list = t->step;
    if (t->steps >= LML_TRACE_STEPS ||
        !lml_trace_make_room(t, &list, t->steps, &t->step_room, sizeof *t->step)) {
        t->short_of = true;
        return 0;
    }
    t->step = list;
    t->step[t->steps] = *step;
    return (uint32_t)t->steps++;
}

void lml_trace_add_input(lml_trace *t, uint32_t step)
{
    void *list = t->input;
    if (!lml_trace_make_room(t, &list, t->inputs, &t->input_room, sizeof *t->input))
        return;
    t->input = list;
    t->input[t->inputs++] = step;
}

void lml_trace_call_input(lml_trace *t, const char *called)
{
    void *list = t->called;
    if (!lml_trace_make_room(t, &list, t->calleds, &t->called_room, sizeof *t->called))
        return;
    t->called = list;
    t->called[t->calleds++] =
        (lml_trace_called){t->inputs - 1, lml_trace_keep(t, called, strlen(called))};
}

void lml_trace_add_also(lml_trace *t, uint32_t step, uint32_t from)
{
    void *list = t->also;
    if (!step || !from || step == from)
        return;
    if (t->alsos > 0 && t->also[t->alsos - 1].step == step && t->also[t->alsos - 1].from == from)
        return;
    if (!lml_trace_make_room(t, &list, t->alsos, &t->also_room, sizeof *t->also))
        return;
    t->also = list;
    t->also[t->alsos++] = (lml_trace_also){step, from};
}

bool lml_trace_is_of_kind(const lml_step *s)
{
    static const char *const names[] = {"zero", "currency", "metal", "per"};
    for (size_t i = 0; s->how && i < sizeof names / sizeof *names; i++)
        if (strcmp(s->how, names[i]) == 0)
            return true;
    return false;
}

void lml_trace_inputs_open(lml_trace_inputs *in, const lml_trace *t, const lml_step *step)
{
    *in = (lml_trace_inputs){.trace = t, .of = step};
}

static void go_into(lml_trace_inputs *in, uint32_t list)
{
    in->list = &in->trace->step[list];
    in->left = in->list->inputs;
}

uint32_t lml_trace_inputs_next(lml_trace_inputs *in)
{
    const lml_trace *t = in->trace;
    for (;;) {
        uint32_t step;
        if (in->left > 0)
            in->at = in->list->first + --in->left;
        else if (in->next < in->of->inputs)
            in->at = in->of->first + in->next++;
        else
            return 0;
        step = t->input[in->at];
        if (t->step[step].is_list)
            go_into(in, step); /* in a list it is the first, and so the last to come */
        else if (step)
            return step;
    }
}

const char *lml_trace_input_called(const lml_trace_inputs *in)
{
    const lml_trace *t = in->trace;
    size_t low = 0, high = t->calleds;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (t->called[middle].input < in->at)
            low = middle + 1;
        else
            high = middle;
    }
    return low < t->calleds && t->called[low].input == in->at ? t->called[low].called : "";
}

/* The mark of the first input that has one, unless only the kind of its inputs went in. */
static uint32_t spread_to(const lml_trace *t, const lml_step *step, const uint32_t *by)
{
    uint32_t k = 0;
    while (k < step->inputs && !by[t->input[step->first + k]])
        k++;
    return k < step->inputs && !lml_trace_is_of_kind(step) ? by[t->input[step->first + k]] : 0;
}

void lml_trace_spread(const lml_trace *t, uint32_t *by)
{
    for (bool more = true; more;) {
        uint32_t any = 0;
        for (size_t i = 1; i < t->steps; i++) { /* what went in came first */
            if (!by[i])
                by[i] = t->step[i].caught ? any : spread_to(t, &t->step[i], by);
            any = any ? any : by[i];
        }
        more = false;
        for (size_t i = 0; i < t->alsos; i++)
            if (!by[t->also[i].step] && by[t->also[i].from]) {
                by[t->also[i].step] = by[t->also[i].from];
                more = true;
            }
    }
}

/* Known by its size alone it could be another: of few digits it is. */
static bool is_common(double x)
{
    double scaled = x * 1000;
    return fabs(x) <= 10000 && scaled == floor(scaled);
}

static size_t slot_of(const lml_trace *t, double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    size_t i = (size_t)(bits * 0x9E3779B97F4A7C15u >> 20) % t->number_room;
    while (t->number[i].step && t->number[i].number != x)
        i = (i + 1) % t->number_room;
    return i;
}

void lml_trace_note_number(lml_trace *t, double x, uint32_t step)
{
    if (is_common(x) || !step)
        return;
    if (2 * (t->numbers + 1) > t->number_room) {
        lml_trace old = *t;
        t->number_room = old.number_room ? 2 * old.number_room : 512;
        t->number = lml_alloc_get(&t->alloc, t->number_room * sizeof *t->number);
        if (!t->number) {
            t->number = old.number;
            t->number_room = old.number_room;
            t->short_of = true;
            return;
        }
        memset(t->number, 0, t->number_room * sizeof *t->number);
        for (size_t i = 0; i < old.number_room; i++)
            if (old.number[i].step)
                t->number[slot_of(t, old.number[i].number)] = old.number[i];
        lml_alloc_free(&t->alloc, old.number, old.number_room * sizeof *old.number);
    }
    size_t slot = slot_of(t, x);
    t->numbers += t->number[slot].step == 0;
    t->number[slot].number = x;
    t->number[slot].step = step;
}

uint32_t lml_trace_step_of_number(const lml_trace *t, double x)
{
    return t->number_room && !is_common(x) ? t->number[slot_of(t, x)].step : 0;
}
