#include "base/status.h"

static const struct {
    const char *name, *sentence;
} statuses[] = {
#define X(name, sentence) {#name, sentence},
    LML_STATUS_MAP(X)
#undef X
};

enum { STATUSES = sizeof statuses / sizeof *statuses };

const char *lml_status_name(lml_status status)
{
    return (size_t)status < STATUSES ? statuses[status].name : "UNKNOWN";
}

const char *lml_status_sentence(lml_status status)
{
    return (size_t)status < STATUSES ? statuses[status].sentence : "an unknown status";
}
