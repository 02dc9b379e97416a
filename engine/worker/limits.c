#include "worker/limits.h"

#include <string.h>

enum { SECONDS_MOST = 3600, DIGITS_MOST = 18 };
static const uint64_t STEPS_MOST = 1000000000000, MEMORY_LEAST = 4 << 20, MEMORY_MOST = 1ULL << 36;

lml_worker_limits lml_limits_full(lml_worker_limits limits)
{
    if (limits.processor == 0)
        limits.processor = 10;
    if (limits.patience == 0)
        limits.patience = 10000;
    if (limits.memory == 0)
        limits.memory = (size_t)128 << 20;
    if (limits.answer == 0)
        limits.answer = (size_t)8 << 20;
    return limits;
}

lml_limits lml_limits_of_engine(const lml_worker_limits *limits)
{
    return (lml_limits){.steps = limits->steps, .memory = limits->memory - limits->memory / 8};
}

/* The digits at the start of `text`; false when there are none or too many. */
static bool read_digits(const char *text, uint64_t *out, const char **rest)
{
    size_t digits = strspn(text, "0123456789");
    *rest = text + digits;
    *out = 0;
    for (size_t i = 0; i < digits && digits <= DIGITS_MOST; i++)
        *out = *out * 10 + (uint64_t)(text[i] - '0');
    return digits > 0 && digits <= DIGITS_MOST;
}

lml_status lml_limits_whole(const lml_arguments *arguments, lml_option option, uint64_t least,
                            uint64_t most, uint64_t *out, lml_error *err)
{
    const char *text = arguments->value[option], *rest;
    uint64_t n;
    if (!text)
        return LML_OK;
    if (!read_digits(text, &n, &rest) || *rest != '\0' || n < least || n > most) {
        lml_fail(err, LML_USAGE, "%s needs a whole number from %llu to %llu, but \"%s\" is not one",
                 lml_option_at(option)->name, (unsigned long long)least, (unsigned long long)most,
                 text);
        return LML_USAGE;
    }
    *out = n;
    return LML_OK;
}

static const struct {
    const char *name;
    uint64_t bytes;
} sizes[] = {{"MB", 1000000}, {"MiB", 1 << 20}, {"GB", 1000000000}, {"GiB", 1 << 30}};

static lml_status read_size(const char *text, size_t *out, lml_error *err)
{
    const char *rest;
    uint64_t n;
    bool number = read_digits(text, &n, &rest) && n < UINT32_MAX;
    rest += strspn(rest, " ");
    for (size_t i = 0; number && i < sizeof sizes / sizeof sizes[0]; i++) {
        if (strcmp(rest, sizes[i].name) != 0)
            continue;
        n *= sizes[i].bytes;
        if (n >= MEMORY_LEAST && n <= MEMORY_MOST && n <= SIZE_MAX / 4) {
            *out = (size_t)n;
            return LML_OK;
        }
        lml_fail(err, LML_USAGE, "--memory %s is out of range", text);
        lml_error_hint(err, "from 4 MiB to 64 GiB; where lemel is built for 32 bits, to 1023 MiB");
        return LML_USAGE;
    }
    lml_fail(err, LML_USAGE, "--memory needs a size, but \"%s\" is not one", text);
    lml_error_hint(err, "write it in MB, MiB, GB or GiB: --memory \"256 MiB\"");
    return LML_USAGE;
}

lml_status lml_limits_read(const lml_arguments *arguments, lml_worker_limits *out, lml_error *err)
{
    lml_worker_limits limits = {0};
    uint64_t seconds = 0;
    lml_status status =
        lml_limits_whole(arguments, LML_OPTION_STEPS, 1, STEPS_MOST, &limits.steps, err);
    if (status == LML_OK)
        status = lml_limits_whole(arguments, LML_OPTION_SECONDS, 1, SECONDS_MOST, &seconds, err);
    if (status == LML_OK && arguments->value[LML_OPTION_MEMORY])
        status = read_size(arguments->value[LML_OPTION_MEMORY], &limits.memory, err);
    if (status != LML_OK)
        return status;
    limits.processor = (unsigned)seconds;
    limits.patience = (long)seconds * 1000;
    *out = lml_limits_full(limits);
    return LML_OK;
}
