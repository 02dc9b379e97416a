/* The command: words in, one subcommand, everything printed or written here, one exit status. */
#define _DEFAULT_SOURCE   /* winsize */
#define _XOPEN_SOURCE 700 /* realpath */
#include "cli/fault_list.h"
#include "cli/help.h"
#include "file/store.h"
#include "lemel.h"
#include "sheet/complain.h"
#include "sheet/layout.h"
#include "studio/find.h"
#include "worker/filter.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

enum { WIDTH_USUAL = 80, WIDTH_LEAST = 40, WIDTH_MOST = 100 };

/* COLUMNS, else what the terminal says, else 80. Lines longer than 100 columns are hard to read. */
static size_t find_width(void)
{
    const char *columns = getenv("COLUMNS");
    long width = columns ? strtol(columns, NULL, 10) : 0;
    struct winsize size;
    if (width <= 0 && isatty(STDOUT_FILENO) && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0)
        width = size.ws_col;
    if (width <= 0)
        width = WIDTH_USUAL;
    return width < WIDTH_LEAST ? WIDTH_LEAST : width > WIDTH_MOST ? WIDTH_MOST : (size_t)width;
}

static bool may_be_bold(void)
{
    const char *no_color = getenv("NO_COLOR"), *term = getenv("TERM");
    return isatty(STDOUT_FILENO) && !(no_color && no_color[0]) && term && strcmp(term, "dumb") != 0;
}

/* Without stdio, which would hold back what could not be written, and write it at the end: what
 * ends as a failure has not been printed whole. */
static lml_status print(int to, const lml_builder *text, lml_error *err)
{
    if (text->length == 0 || lml_store_write_all(to, text->at, text->length))
        return LML_OK;
    const char *reason = lml_store_reason(errno);
    return lml_fail(err, LML_NO_WRITE, "could not write to standard output%s%s", reason ? ": " : "",
                    reason ? reason : "");
}

enum { PIECE = 1000, PIECE_CLEAN = 4 * PIECE };

/* One block, on the stack, so that errors can be printed when memory is exhausted. */
static void *in_block(void *self, void *block, size_t old_size, size_t new_size)
{
    (void)block;
    (void)old_size;
    return new_size > 0 && new_size <= PIECE_CLEAN ? self : NULL;
}

/* The start of the line that fits into a piece, cut at a whole character. */
static size_t piece_of(lml_span line)
{
    size_t length = line.length > PIECE ? PIECE : line.length;
    while (length < line.length && length > PIECE - 4 &&
           ((unsigned char)line.at[length] & 0xc0) == 0x80)
        length--;
    return length;
}

/* The next line, without its end; false when there is none. */
static bool take_line(lml_span *rest, lml_span *line)
{
    const char *end = rest->at + rest->length, *feed;
    if (rest->length == 0)
        return false;
    feed = memchr(rest->at, '\n', rest->length);
    *line = lml_span_between(rest->at, feed ? feed : end);
    *rest = lml_span_between(feed ? feed + 1 : end, end);
    return true;
}

static void print_in_pieces(lml_span line)
{
    char block[PIECE_CLEAN];
    const lml_alloc alloc = {in_block, block};
    for (; line.length > 0;
         line = (lml_span){line.at + piece_of(line), line.length - piece_of(line)}) {
        lml_builder clean = lml_builder_on(&alloc, 0);
        lml_layout_put(&clean, (lml_span){line.at, piece_of(line)});
        print(STDERR_FILENO, &clean, NULL);
    }
    fputc('\n', stderr);
}

/* It contains file names unchanged, and a file can have any name. */
static void print_aside(const lml_builder *aside)
{
    lml_builder clean = lml_builder_on(aside->alloc, 0);
    lml_span all = {aside->at, aside->length}, rest, line;
    for (rest = all; take_line(&rest, &line);) {
        lml_layout_put(&clean, line);
        lml_builder_add_char(&clean, '\n');
    }
    if (lml_builder_status(&clean, NULL) == LML_OK)
        print(STDERR_FILENO, &clean, NULL);
    else
        for (rest = all; take_line(&rest, &line);)
            print_in_pieces(line);
    if (lml_builder_status(aside, NULL) != LML_OK)
        fputs("out of memory: some of the output is missing\n", stderr);
    lml_builder_free(&clean);
}

static const char *output_file(const lml_call *call)
{
    const char *path = call->arguments.value[LML_OPTION_OUTPUT];
    return path && strcmp(path, "-") != 0 ? path : NULL;
}

static lml_status emit(lml_call *call, lml_error *err)
{
    if (output_file(call))
        return LML_OK;
    lml_status status = lml_builder_status(&call->out, err);
    if (status == LML_OK)
        status = print(STDOUT_FILENO, &call->out, err);
    call->out.length = 0;
    return status;
}

static void progress(const lml_call *call, size_t done, size_t all)
{
    bool moved = done > 0 && done * 100 / all != (done - 1) * 100 / all;
    if (!moved || lml_call_quiet(call) || !isatty(STDERR_FILENO))
        return;
    fprintf(stderr, "\r%zu of %zu jobs%s", done, all, done == all ? "\r\033[K" : "");
}

/* Ends that come in the middle: `out` is then incomplete, and a file is written completely or not
 * at all. A stop, or data that could not be used, is reported besides complete results. */
static bool is_cut(lml_status status)
{
    return status == LML_FAULT || status == LML_NO_MEMORY || status == LML_NO_FILE;
}

static lml_status deliver(lml_call *call, lml_error *err)
{
    const char *path = output_file(call);
    lml_status status = lml_builder_status(&call->out, err);
    if (status != LML_OK)
        return status;
    if (!path && call->done[0])
        signal(SIGPIPE,
               SIG_IGN); /* a reader that stops would end us without a message about what is done */
    if (!path)
        return print(STDOUT_FILENO, &call->out, err);
    if (call->out.length == 0)
        return LML_OK; /* there is no result: the complaint says why */
    bool replace = call->arguments.given[LML_OPTION_REPLACE];
    status = lml_store_write(path, (lml_span){call->out.at, call->out.length}, replace, err);
    if (status == LML_OK && !lml_call_quiet(call))
        lml_builder_add_format(&call->aside, "wrote %s\n", path);
    if (status == LML_OK && lml_builder_status(&call->aside, NULL) != LML_OK)
        lml_text_join(call->done, sizeof call->done, "wrote ", path, "");
    return status;
}

/* Which command, and what remains of the words. "lemel help run" is "lemel run --help". */
static lml_status choose(lml_arguments *a, const lml_command **out, lml_error *err)
{
    if (a->words > 0 && strcmp(a->word[0], "help") == 0) {
        a->given[LML_OPTION_HELP] = true;
        a->word++;
        a->words--;
    }
    if (a->words == 0) {
        *out = NULL;
        return LML_OK;
    }
    lml_status status = lml_command_named(a->word[0], out, err);
    a->word++;
    a->words--;
    return status;
}

static void say_bounds(lml_call *call)
{
    lml_builder_add_text(
        &call->aside, lml_filter_there()
                          ? "recipes run in processes without files, sockets, other system calls\n"
                          : "recipes run in processes without files; the filter of system calls is "
                            "missing here\n");
}

static void say_shipped(lml_call *call)
{
    char folder[LML_PATH];
    lml_find_shipped_folder(folder);
    char *whole = realpath(folder, NULL);
    lml_builder_add_text(&call->out,
                         whole ? "recipes and scripts: " : "recipes and scripts, not found: ");
    lml_layout_put(&call->out, lml_span_of(whole ? whole : folder));
    lml_builder_add_char(&call->out, '\n');
    free(whole);
}

static lml_status serve(lml_call *call, lml_error *err)
{
    lml_arguments *a = &call->arguments;
    const lml_command *command = NULL;
    if (a->given[LML_OPTION_VERSION]) {
        lml_builder_add_format(&call->out, "lemel %s\n", lml_version());
        if (a->given[LML_OPTION_VERBOSE])
            say_shipped(call);
        return LML_OK;
    }
    lml_status status = choose(a, &command, err);
    if (status != LML_OK)
        return status;
    if (a->given[LML_OPTION_HELP]) {
        lml_help_write(command, call->width, &call->out);
        return LML_OK;
    }
    if (!command) {
        lml_help_write(NULL, call->width, &call->aside);
        return LML_USAGE;
    }
    status = lml_arguments_fit(a, command->name, err);
    if (a->given[LML_OPTION_VERBOSE])
        say_bounds(call);
    return status == LML_OK ? command->run(call, err) : status;
}

/* A standard stream that the caller closed is held by one that refuses: else a worker's pipe or a
 * file would get its number, and the results would be written there. */
static void hold_standard_streams(void)
{
    for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++)
        if (fcntl(fd, F_GETFD) < 0)
            (void)!open("/dev/null", fd == STDIN_FILENO ? O_WRONLY : O_RDONLY);
}

/* The exit status for a status of the engine. */
static int exit_of(lml_status status)
{
    switch (status) {
    case LML_OK:
        return 0;
    case LML_STOPPED:
        return 1;
    case LML_USAGE:
        return 64;
    case LML_BAD_VALUE:
    case LML_MISMATCH:
    case LML_OVERFLOW:
    case LML_BAD_DATA:
    case LML_BAD_RECIPE:
    case LML_NOT_FOUND:
        return 65;
    case LML_NO_FILE:
    case LML_NO_GATES:
        return 66;
    case LML_NO_MEMORY:
    case LML_FAULT:
        return 70;
    case LML_NO_WRITE:
        return 74;
    case LML_LIMIT:
        return 79;
    }
    return 70;
}

int main(int argc, char **argv)
{
    hold_standard_streams();
    signal(SIGXFSZ, SIG_IGN); /* a file over its limit is an error of the write, which takes the
                                 temporary file away */
    lml_call call = {.alloc = lml_alloc_heap(), .emit = emit, .progress = progress};
    size_t size = (size_t)(argc > 0 ? argc : 1) * sizeof(char *);
    const char **word = lml_alloc_get(&call.alloc, size);
    lml_error error = {.status = LML_OK}, late = {.status = LML_OK};
    call.out = lml_builder_on(&call.alloc, 0);
    call.aside = lml_builder_on(&call.alloc, 0);
    lml_status status = word
                            ? lml_arguments_read(argc, argv, word, &call.arguments, &error)
                            : lml_fail(&error, LML_NO_MEMORY, "out of memory for the command line");
    bool to_file = call.arguments.given[LML_OPTION_OUTPUT];
    call.width = to_file ? WIDTH_USUAL : find_width();
    call.bold = !to_file && may_be_bold();
    if (status == LML_OK)
        status = serve(&call, &error);
    if (is_cut(status) && output_file(&call))
        call.out.length = 0;
    lml_status delivered = deliver(&call, &late);
    if (status == LML_NO_MEMORY && !error.hint[0])
        lml_error_hint(&error,
                       "the system refuses more memory: see ulimit -v, or the container's limit");
    lml_fault_list_leave_out_said(&call, &error);
    if (error.message[0])
        lml_complain_write(&error, &call.aside);
    if (delivered != LML_OK) {
        lml_complain_write(&late, &call.aside);
        status = delivered;
    }
    if (status != LML_OK && call.done[0])
        lml_builder_add_format(&call.aside, "  %s\n", call.done);
    /* A refusal whose reasons could not all be told is no answer. */
    if (status != LML_OK && lml_builder_status(&call.aside, NULL) != LML_OK)
        status = LML_NO_MEMORY;
    const bool lost = lml_builder_status(&call.aside, NULL) != LML_OK;
    print_aside(&call.aside);
    if (lost && call.done[0]) /* what is in a file is said all the same: it takes no memory */
        print_in_pieces(lml_span_of(call.done));
    lml_builder_free(&call.out);
    lml_builder_free(&call.aside);
    lml_alloc_free(&call.alloc, word, size);
    return exit_of(status);
}
