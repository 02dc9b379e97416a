/* Locale: puts the calling thread in the C locale for a while, whatever the program has set: a
 * decimal has a point, and texts sort by bytes. Other threads are not affected.
 *
 * Lua and the C library's own printing follow the locale, so every public function that does work
 * is enclosed by these two.
 *
 *     lml_locale entered = lml_locale_enter();
 *     ...
 *     lml_locale_leave(entered);
 */
#ifndef LML_BASE_LOCALE_H
#define LML_BASE_LOCALE_H

#include <locale.h>

typedef struct lml_locale {
    locale_t was, plain; /* plain 0: it was not available, and nothing was changed */
} lml_locale;

lml_locale lml_locale_enter(void);
void lml_locale_leave(lml_locale entered);

#endif
