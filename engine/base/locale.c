#include "base/locale.h"

lml_locale lml_locale_enter(void)
{
    lml_locale l = {.plain = newlocale(LC_ALL_MASK, "C", (locale_t)0)};
    if (l.plain)
        l.was = uselocale(l.plain);
    return l;
}

void lml_locale_leave(lml_locale entered)
{
    if (!entered.plain)
        return;
    uselocale(entered.was);
    freelocale(entered.plain);
}
