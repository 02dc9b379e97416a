/* Shapes that take alike: what was taken as one says need not be taken again as the other says. */
#include "run/take.h"

#include <string.h>

static bool same_text(const char *a, const char *b)
{
    return a == b || (a && b && strcmp(a, b) == 0);
}

static bool same_choices(const char *const *a, const char *const *b)
{
    if (!a || !b)
        return a == b;
    while (*a && same_text(*a, *b)) {
        a++;
        b++;
    }
    return *a == *b;
}

/* All but what is in it, and its default. */
static bool same_itself(const lml_shape *a, const lml_shape *b)
{
    return a->wanted == b->wanted && a->metal == b->metal && a->any_metal == b->any_metal &&
           a->field_count == b->field_count && a->check == b->check &&
           same_text(a->from, b->from) && same_text(a->to, b->to) && same_text(a->per, b->per) &&
           same_text(a->apart, b->apart) && same_choices(a->choices, b->choices);
}

bool lml_take_alike(lua_State *L, const lml_shape *a, const lml_shape *b)
{
    lml_box_charge(L, 1);
    if (a == b)
        return true;
    if (!a || !b || !same_itself(a, b))
        return false;
    for (size_t i = 0; i < a->field_count; i++) {
        const lml_shape *f = &a->fields[i], *g = &b->fields[i];
        if (!same_text(f->name, g->name) || f->optional != g->optional ||
            !same_text(f->default_text, g->default_text) || !lml_take_alike(L, f, g))
            return false;
    }
    return lml_take_alike(L, a->of, b->of);
}
