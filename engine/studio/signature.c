#define _XOPEN_SOURCE 700
#include "studio/signature.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define PROGRAM "ssh-keygen"
enum { PATH_ROOM = 1024, ANSWER = 1000, WHO = 200 };

/* A relative path might lead into the stranger's folder. */
static bool find_program(char out[PATH_ROOM])
{
    const char *path = getenv("PATH");
    for (const char *at = path ? path : "/usr/bin:/bin"; *at;) {
        size_t length = strcspn(at, ":");
        if (*at == '/' && length < PATH_ROOM - sizeof PROGRAM - 1) {
            snprintf(out, PATH_ROOM, "%.*s/" PROGRAM, (int)length, at);
            if (access(out, X_OK) == 0)
                return true;
        }
        at += length + (at[length] == ':');
    }
    return false;
}

static _Noreturn void become(const char *program, char *const words[], int in, int out)
{
    char path[] = "PATH=/usr/bin:/bin", locale[] = "LC_ALL=C";
    char *const environment[] = {path, locale, NULL};
    int nowhere = open("/dev/null", O_WRONLY);
    signal(SIGPIPE, SIG_DFL);
    if (nowhere >= 0 && dup2(in, STDIN_FILENO) >= 0 && dup2(out, STDOUT_FILENO) >= 0 &&
        dup2(nowhere, STDERR_FILENO) >= 0)
        execve(program, words, environment);
    _exit(127);
}

static void feed(int to, lml_span bytes)
{
    while (bytes.length > 0) {
        ssize_t wrote = write(to, bytes.at, bytes.length);
        if (wrote < 0 && errno == EINTR)
            continue;
        if (wrote <= 0)
            return; /* it reads no more of it */
        bytes.at += wrote;
        bytes.length -= (size_t)wrote;
    }
}

/* More than there is room for is read and let go. */
static void hear(int from, char answer[ANSWER])
{
    char block[ANSWER];
    size_t length = 0;
    for (ssize_t got; (got = read(from, block, sizeof block)) != 0;) {
        if (got < 0 && errno != EINTR)
            break;
        size_t some = got < 0 ? 0 : (size_t)got;
        some = some < ANSWER - 1 - length ? some : ANSWER - 1 - length;
        memcpy(answer + length, block, some);
        length += some;
    }
    answer[length] = '\0';
}

static bool open_pipe(int ends[2])
{
    if (pipe(ends) != 0)
        return false;
    fcntl(ends[0], F_SETFD, FD_CLOEXEC);
    fcntl(ends[1], F_SETFD, FD_CLOEXEC);
    return true;
}

/* Its exit status and what it printed; -1 when it could not be started. */
static int ask(const char *program, char *const words[], lml_span input, char answer[ANSWER])
{
    int in[2], out[2], status = -1;
    if (!open_pipe(in))
        return -1;
    if (!open_pipe(out)) {
        close(in[0]);
        close(in[1]);
        return -1;
    }
    pid_t process = fork();
    if (process == 0)
        become(program, words, in[0], out[1]);
    close(in[0]);
    close(out[1]);
    if (process > 0) {
        struct sigaction ignore = {.sa_handler = SIG_IGN}, former;
        sigaction(SIGPIPE, &ignore, &former);
        feed(in[1], input);
        close(in[1]);
        hear(out[0], answer);
        sigaction(SIGPIPE, &former, NULL);
        while (waitpid(process, &status, 0) < 0 && errno == EINTR)
            ;
    } else {
        close(in[1]);
    }
    close(out[0]);
    return process > 0 && WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* Words of an argv are not const, but nothing writes to them. */
static char *word(const char *text)
{
    return (char *)(uintptr_t)text;
}

static lml_status refuse_key(const char *signature, const char *trusted, const char *key,
                             lml_error *err)
{
    lml_fail(err, LML_STOPPED, "%s is signed with a key that %s does not list for packs: %s",
             signature, trusted, key);
    lml_error_hint(err,
                   "if you know whose it is, add a line: NAME namespaces=\"" LML_SIGNATURE_SPACE
                   "\" and the public key that they gave you themselves");
    return LML_STOPPED;
}

/* "Good "lemel-pack" signature with ED25519 key SHA256:..." */
static const char *key_of(char answer[ANSWER])
{
    answer[strcspn(answer, "\n")] = '\0';
    char *with = strstr(answer, " with ");
    return with ? with + strlen(" with ") : "a key";
}

lml_status lml_signature_check(lml_span page, const char *signature, const char *trusted,
                               char who[WHO], lml_error *err)
{
    char program[PATH_ROOM], answer[ANSWER], shown[ANSWER];
    if (!find_program(program)) {
        lml_fail(err, LML_NO_FILE, "%s cannot be checked: " PROGRAM " is not here", signature);
        lml_error_hint(err, "install OpenSSH (the package openssh-client), or check its maker some "
                            "other way and use --digest");
        return LML_NO_FILE;
    }
    char *const whole[] = {word(program),
                           word("-Y"),
                           word("check-novalidate"),
                           word("-n"),
                           word(LML_SIGNATURE_SPACE),
                           word("-s"),
                           word(signature),
                           NULL};
    if (ask(program, whole, page, shown) != 0)
        return lml_fail(err, LML_BAD_DATA,
                        "%s is not a valid pack signature for this pack.json: the file was changed "
                        "after it was signed, or something else was signed. Ask for the pack again",
                        signature);
    char *const names[] = {word(program),
                           word("-Y"),
                           word("find-principals"),
                           word("-n"),
                           word(LML_SIGNATURE_SPACE),
                           word("-s"),
                           word(signature),
                           word("-f"),
                           word(trusted),
                           NULL};
    if (access(trusted, R_OK) != 0 || ask(program, names, lml_span_of(""), answer) != 0)
        return refuse_key(signature, trusted, key_of(shown), err);
    answer[strcspn(answer, "\n,")] = '\0';
    char *const verify[] = {word(program),
                            word("-Y"),
                            word("verify"),
                            word("-n"),
                            word(LML_SIGNATURE_SPACE),
                            word("-s"),
                            word(signature),
                            word("-f"),
                            word(trusted),
                            word("-I"),
                            word(answer),
                            NULL};
    if (ask(program, verify, page, shown) != 0)
        return refuse_key(signature, trusted, key_of(shown), err);
    snprintf(who, WHO, "%.*s", (int)WHO - 1, answer);
    return LML_OK;
}
