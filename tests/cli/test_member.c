/* One member of a record, found without reading the rest: nothing inside a text or a value misleads
 * it. */
#include <criterion/criterion.h>

#include "worker/member.h"

#include <string.h>

static void expect(const char *record, const char *name, const char *value)
{
    size_t length = strlen(record);
    char *bytes =
        (char *)malloc(length + 1); /* as long as the text, so that the sanitizers see its end */
    memcpy(bytes, record, length);
    lml_span got = lml_member((lml_span){bytes, length}, name);
    cr_expect(lml_span_is(got, value), "%s of %s is %.*s", name, record, (int)got.length, got.at);
    free(bytes);
}

Test(member, stands_anywhere)
{
    static const char record[] =
        "{\"a\":1,\"b\":{\"c\":[1,{\"d\":\"x\"}],\"e\":true},\"f\":\"g\",\"h\":[]}";
    expect(record, "a", "1");
    expect(record, "b", "{\"c\":[1,{\"d\":\"x\"}],\"e\":true}");
    expect(record, "f", "\"g\"");
    expect(record, "h", "[]");
    expect(record, "c", "");
    expect(record, "e", "");
    expect("{}", "a", "");
    expect("", "a", "");
}

Test(member, texts_hold_anything)
{
    expect("{\"a\":\"}],\\\"b\\\":1\",\"b\":2}", "b", "2");
    expect("{\"a\":\"\\\\\",\"b\":2}", "b", "2");
    expect("{\"a\":\"\\\\\\\"\",\"b\":2}", "b", "2");
    expect("{\"a\":\"\\\\\\\\\",\"b\":\"\\\\\"}", "b", "\"\\\\\"");
    expect("{\"\\\"b\\\"\":1,\"b\":2}", "b", "2");
}

Test(member, what_is_cut_ends_the_search)
{
    expect("{\"a\":1,\"b", "b", "");
    expect("{\"a\":\"x", "b", "");
    expect("{\"a\":\"x\\", "b", "");
    expect("{\"a\":[1,2", "b", "");
    expect("{\"a\":1,", "b", "");
    expect("{\"a\"", "a", "");
    expect("{\"", "", "");
}
