#include "value/metal.h"

static const struct {
    const char *symbol, *name;
} metals[LML_METALS] = {[LML_NO_METAL] = {"", ""},
#define X(symbol, name) [LML_##symbol] = {#symbol, name},
                        LML_METAL_MAP(X)
#undef X
};

const char *lml_metal_symbol(lml_metal metal)
{
    return metals[metal].symbol;
}

const char *lml_metal_name(lml_metal metal)
{
    return metals[metal].name;
}

lml_metal lml_metal_by_symbol(lml_span symbol)
{
    for (unsigned i = 1; i < LML_METALS; i++)
        if (lml_span_is(symbol, metals[i].symbol))
            return (lml_metal)i;
    return LML_NO_METAL;
}
