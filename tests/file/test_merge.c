/* Two texts side by side, and what two people changed of one put together. The oracle is GNU
 * diffutils: where diff3 -m -E finds no conflict ours must be its bytes, and where it finds one so
 * must we. Lines are all different in those cases, so that there is one way only to pair them. */
#include "file/merge.h"
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static lml_alloc heap(void)
{
    return lml_alloc_heap();
}

static void is_merged(const char *base, const char *ours, const char *theirs, const char *want)
{
    lml_alloc alloc = heap();
    lml_error err;
    lml_merge m;
    cr_assert_eq(lml_merge_texts(&alloc, lml_span_of(base), lml_span_of(ours), lml_span_of(theirs),
                                 &m, &err),
                 LML_OK);
    if (want)
        cr_expect(m.clashes == 0 && lml_span_is((lml_span){m.text.at, m.text.length}, want),
                  "%zu clashes, and:\n%s", m.clashes, m.text.at ? m.text.at : "");
    else
        cr_expect(m.clashes > 0);
    lml_merge_free(&m);
}

Test(merge, either_side)
{
    is_merged("a\nb\nc\nd\ne\n", "A\nb\nc\nd\ne\n", "a\nb\nc\nd\nE\n", "A\nb\nc\nd\nE\n");
    is_merged("a\nb\nc\n", "a\nb\nc\n", "a\nx\nc\n", "a\nx\nc\n");
    is_merged("a\nb\nc\n", "a\nx\nc\n", "a\nb\nc\n", "a\nx\nc\n");
    is_merged("a\nb\nc\n", "b\nc\n", "a\nb\nc\nd\n", "b\nc\nd\n");
    is_merged("", "", "a\n", "a\n");
    is_merged("a\n", "a\n", "", "");
}

Test(merge, the_same_on_both_sides)
{
    is_merged("a\nb\nc\n", "a\nx\nc\n", "a\nx\nc\n", "a\nx\nc\n");
    is_merged("", "a\n", "a\n", "a\n");
}

Test(merge, clashes)
{
    is_merged("a\nb\nc\n", "a\nx\nc\n", "a\ny\nc\n", NULL);
    is_merged("a\nb\nc\n", "a\nx\nc\n", "a\nc\n", NULL);
    is_merged("", "a\n", "b\n", NULL);
    is_merged("a\nb\n", "x\nb\n", "a\ny\n", NULL); /* no line between them */
}

Test(merge, an_end_without_a_line_feed)
{
    is_merged("a\nb", "a\nb", "a\nb\n", "a\nb\n");
    is_merged("a\nb\nc\nd", "A\nb\nc\nd", "a\nb\nc\nd\n", "A\nb\nc\nd\n");
}

Test(merge, a_clash_is_shown)
{
    lml_alloc alloc = heap();
    lml_error err;
    lml_merge m;
    lml_builder out = lml_builder_on(&alloc, 0);
    lml_span base = lml_span_of("a\nb\nc\n"), ours = lml_span_of("new\na\nx\nc\n"),
             theirs = lml_span_of("a\ny\nc\n");
    cr_assert_eq(lml_merge_texts(&alloc, base, ours, theirs, &m, &err), LML_OK);
    lml_merge_show(&m, "recipes/r.lua", &out);
    cr_expect_str_eq(out.at, "recipes/r.lua:3: changed on both sides (= as it was, - here, + "
                             "new)\n   = b\n   - x\n   + y\n");
    lml_builder_free(&out);
    lml_merge_free(&m);
}

static void change_is(const char *was, const char *is, const char *want)
{
    lml_alloc alloc = heap();
    lml_error err;
    lml_lines a, b;
    lml_builder out = lml_builder_on(&alloc, 0);
    cr_assert_eq(lml_lines_cut(&alloc, lml_span_of(was), &a, &err), LML_OK);
    cr_assert_eq(lml_lines_cut(&alloc, lml_span_of(is), &b, &err), LML_OK);
    cr_assert_eq(lml_lines_changes(&alloc, &a, &b, "", 3, &out, &err), LML_OK);
    cr_expect_str_eq(out.at ? out.at : "", want);
    lml_builder_free(&out);
    lml_lines_free(&a);
    lml_lines_free(&b);
}

Test(lines, changes)
{
    change_is("a\nb\n", "a\nb\n", "");
    change_is("a\nb\nc\n", "a\nx\nc\n", "- b\n+ x\n");
    change_is("a\n", "b\na\nc\n", "+ b\n+ c\n");
    change_is("", "1\n2\n3\n4\n5\n", "+ 1\n+ 2\n+ 3\nand 2 more lines\n");
    change_is("a\r\n", "a\n", "- a\n+ a\n");
}

/* ---- beside diff3 ------------------------------------------------------------------------------
 */

enum { TRIALS = 150, LINES = 12, ROOM = 4096 };

static unsigned state = 20261124;
static unsigned draw(unsigned below)
{
    state = state * 1664525u + 1013904223u;
    return (state >> 16) % below;
}

/* Lines taken out, put in and changed, each new line unlike every other. */
static void edit(char *to, unsigned *next)
{
    to[0] = '\0';
    for (int i = 0; i < LINES; i++) {
        char line[40];
        unsigned what = draw(8);
        if (what == 0)
            continue;
        if (what == 1)
            snprintf(line, sizeof line, "new %u\n", (*next)++);
        else if (what == 2)
            snprintf(line, sizeof line, "put %u\nline %d\n", (*next)++, i);
        else
            snprintf(line, sizeof line, "line %d\n", i);
        strcat(to, line);
    }
}

static void keep(const char *folder, const char *name, const char *text)
{
    char path[200];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *f = fopen(path, "w");
    cr_assert(f && fputs(text, f) >= 0 && fclose(f) == 0);
}

Test(merge, as_diff3_does)
{
    char folder[] = "/tmp/lemel-merge-XXXXXX", base[ROOM] = "", ours[ROOM], theirs[ROOM],
         want[ROOM], command[300];
    unsigned next = 0;
    int clean = 0, clashing = 0;
    if (system("diff3 --version >/dev/null 2>&1") != 0)
        cr_skip_test("diff3 (diffutils) is not here");
    cr_assert(mkdtemp(folder));
    for (int i = 0; i < LINES; i++)
        snprintf(base + strlen(base), ROOM - strlen(base), "line %d\n", i);
    keep(folder, "base", base);
    snprintf(command, sizeof command, "cd %s && diff3 -m -E ours base theirs", folder);
    for (int n = 0; n < TRIALS; n++) {
        edit(ours, &next);
        edit(theirs, &next);
        keep(folder, "ours", ours);
        keep(folder, "theirs", theirs);
        FILE *merged = popen(command, "r");
        cr_assert(merged);
        size_t length = fread(want, 1, ROOM - 1, merged);
        want[length] = '\0';
        int status = pclose(merged);
        bool fits = WIFEXITED(status) && WEXITSTATUS(status) == 0;
        is_merged(base, ours, theirs, fits ? want : NULL);
        *(fits ? &clean : &clashing) += 1;
    }
    cr_expect(clean > 5 && clashing > 5, "%d clean, %d clashing", clean, clashing);
    snprintf(command, sizeof command, "rm -r %s", folder);
    cr_expect(system(command) == 0);
}
