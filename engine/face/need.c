#include "face/need.h"

lml_status lml_need_all(const char *function, const lml_need *needs, lml_error *err)
{
    for (; needs->name; needs++)
        if (!needs->at)
            return lml_fail(err, LML_BAD_DATA, "%s: the %s is NULL", function, needs->name);
    return LML_OK;
}
