/* Locale: for a while the calling thread reads and writes as the C locale does, whatever the
 * program has set: a decimal has a point, and texts are in the order of their bytes. Other threads
 * are left alone.
 *
 * Lua and the C library's own printing follow the locale, so every public function that works
 * is between these two.
 *
 *     lml_locale entered = lml_locale_enter();
 *     ...
 *     lml_locale_leave(entered);
 */
#ifndef LML_BASE_LOCALE_H
#define LML_BASE_LOCALE_H

#include <locale.h>

typedef struct lml_locale {
    locale_t was, plain; /* plain 0: it could not be had, and nothing was changed */
} lml_locale;

lml_locale lml_locale_enter(void);
void lml_locale_leave(lml_locale entered);

#endif
