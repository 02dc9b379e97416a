#define _DEFAULT_SOURCE /* _SC_NPROCESSORS_ONLN */
#include "cli/crew.h"

#include <errno.h>
#include <poll.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

enum {
    ROOM_A_WORKER = 16, /* jobs held for each worker: one that takes long must not stop the rest */
    HELD_MOST = 64 << 20, /* bytes of jobs and answers held, when there is more than one job */
    BLOCK = 1 << 16,
    WAIT_MOST = 60000,
};

typedef enum stage { WAITING, WORKED, DONE } stage;

typedef struct slot {
    stage stage;
    size_t kit;
    lml_builder request; /* an lml_frame_job and its bytes */
    lml_builder answer;
    lml_status status;
    lml_error error;
} slot;

typedef struct worker {
    long process; /* 0: none */
    int pipe;
    bool worn;   /* has answered before */
    slot *slot;  /* what it works, NULL when idle */
    size_t sent; /* bytes of the request */
    long until;
    lml_frame_reader reader;
} worker;

struct lml_crew {
    lml_crew_orders orders;
    worker *worker;
    slot *slot;              /* a ring: job number n is in slot n % room */
    size_t room, first, put; /* job numbers: the first not delivered, the next to be handed in */
    size_t held;
};

/* ---- making ---- */

lml_status lml_crew_workers(const lml_arguments *arguments, size_t *out, lml_error *err)
{
    long processors = sysconf(_SC_NPROCESSORS_ONLN);
    uint64_t workers = processors < 1 ? 1 : (uint64_t)processors;
    if (workers > LML_CREW_WORKERS)
        workers = LML_CREW_WORKERS;
    lml_status status =
        lml_limits_whole(arguments, LML_OPTION_WORKERS, 1, LML_CREW_WORKERS, &workers, err);
    *out = (size_t)workers;
    return status;
}

lml_status lml_crew_new(const lml_crew_orders *orders, lml_crew **out, lml_error *err)
{
    const lml_alloc *alloc = orders->alloc;
    lml_crew *crew = lml_alloc_get(alloc, sizeof *crew);
    if (!crew)
        return lml_fail(err, LML_NO_MEMORY, "no memory for the workers");
    *crew = (lml_crew){.orders = *orders};
    crew->orders.hand.many = true;
    crew->orders.hand.limits = lml_limits_full(orders->hand.limits);
    size_t workers = orders->workers < 1 ? 1 : orders->workers;
    crew->orders.workers = workers > LML_CREW_WORKERS ? LML_CREW_WORKERS : workers;
    crew->room = crew->orders.workers * ROOM_A_WORKER;
    crew->worker = lml_alloc_get(alloc, crew->orders.workers * sizeof *crew->worker);
    crew->slot = lml_alloc_get(alloc, crew->room * sizeof *crew->slot);
    if (!crew->worker || !crew->slot) {
        lml_alloc_free(alloc, crew->worker, crew->orders.workers * sizeof *crew->worker);
        lml_alloc_free(alloc, crew->slot, crew->room * sizeof *crew->slot);
        lml_alloc_free(alloc, crew, sizeof *crew);
        return lml_fail(err, LML_NO_MEMORY, "no memory for the workers");
    }
    memset(crew->worker, 0, crew->orders.workers * sizeof *crew->worker);
    for (size_t i = 0; i < crew->room; i++)
        crew->slot[i] = (slot){.request = lml_builder_on(alloc, 0),
                               .answer = lml_builder_on(alloc, crew->orders.hand.limits.answer)};
    *out = crew;
    return LML_OK;
}

static lml_status end_worker(lml_crew *crew, worker *w, lml_frame_end end, lml_error *error)
{
    close(w->pipe);
    lml_status status = lml_hand_end(&crew->orders.hand, w->process, end, error);
    *w = (worker){.process = 0};
    return status;
}

void lml_crew_free(lml_crew *crew)
{
    if (!crew)
        return;
    const lml_alloc *alloc = crew->orders.alloc;
    lml_error unheard;
    for (size_t i = 0; i < crew->orders.workers; i++)
        if (crew->worker[i].process)
            end_worker(crew, &crew->worker[i], LML_FRAMES_CUT, &unheard);
    for (size_t i = 0; i < crew->room; i++) {
        lml_builder_free(&crew->slot[i].request);
        lml_builder_free(&crew->slot[i].answer);
    }
    lml_alloc_free(alloc, crew->worker, crew->orders.workers * sizeof *crew->worker);
    lml_alloc_free(alloc, crew->slot, crew->room * sizeof *crew->slot);
    lml_alloc_free(alloc, crew, sizeof *crew);
}

/* ---- slots ---- */

static slot *slot_of(lml_crew *crew, size_t number)
{
    return &crew->slot[number % crew->room];
}

static void empty(lml_builder *b, size_t most)
{
    if (b->capacity > BLOCK || b->status != LML_OK) { /* a large one is not kept for small ones */
        const lml_alloc *alloc = b->alloc;
        lml_builder_free(b);
        *b = lml_builder_on(alloc, most);
    }
    b->length = 0;
}

static void finish_slot(lml_crew *crew, slot *s, lml_status status)
{
    s->stage = DONE;
    s->status = status;
    crew->held += s->answer.length;
}

static lml_status deliver(lml_crew *crew, lml_error *err)
{
    lml_status status = LML_OK;
    while (status == LML_OK && crew->first < crew->put &&
           slot_of(crew, crew->first)->stage == DONE) {
        slot *s = slot_of(crew, crew->first);
        lml_crew_result result = {.number = crew->first,
                                  .kit = s->kit,
                                  .shown = s->request.at + sizeof(lml_frame_job),
                                  .status = s->status,
                                  .text = {s->answer.at ? s->answer.at : "", s->answer.length},
                                  .error = &s->error};
        status = crew->orders.deliver(crew->orders.self, &result, err);
        crew->held -= s->request.length + s->answer.length;
        empty(&s->request, 0);
        empty(&s->answer, crew->orders.hand.limits.answer);
        crew->first++;
    }
    return status;
}

/* ---- workers ---- */

/* An idle worker, started when there is room for one more; NULL when all have work. */
static worker *idle_worker(lml_crew *crew, lml_error *error)
{
    worker *none = NULL;
    for (size_t i = 0; i < crew->orders.workers; i++) {
        worker *w = &crew->worker[i];
        if (w->process && !w->slot)
            return w;
        if (!w->process && !none)
            none = w;
    }
    error->status = LML_OK;
    if (!none)
        return NULL;
    if (lml_hand_start(&crew->orders.hand, &none->process, &none->pipe, error) != LML_OK)
        return NULL;
    if (crew->orders.started)
        crew->orders.started(crew->orders.self, none->process);
    return none;
}

static bool any_busy(const lml_crew *crew)
{
    for (size_t i = 0; i < crew->orders.workers; i++)
        if (crew->worker[i].slot)
            return true;
    return false;
}

static void end_job(lml_crew *crew, worker *w, lml_frame_end end)
{
    slot *s = w->slot;
    bool worn = w->worn;
    if (end == LML_FRAMES_ANSWER || end == LML_FRAMES_STOPPED) {
        finish_slot(crew, s, end == LML_FRAMES_ANSWER ? LML_OK : LML_STOPPED);
    } else if (end == LML_FRAMES_ERROR) {
        s->error = w->reader.error;
        finish_slot(crew, s, s->error.status);
    } else {
        lml_status status = end_worker(crew, w, end, &s->error);
        empty(&s->answer, crew->orders.hand.limits.answer);
        if (worn && end != LML_FRAMES_LATE)
            s->stage = WAITING; /* once more, by one that is not worn */
        else
            finish_slot(crew, s, status);
        return;
    }
    w->worn = true;
    w->slot = NULL;
}

/* As much of the request as the pipe takes. */
static void send_some(lml_crew *crew, worker *w)
{
    const lml_builder *request = &w->slot->request;
    while (w->sent < request->length) {
        ssize_t n = send(w->pipe, request->at + w->sent, request->length - w->sent,
                         MSG_DONTWAIT | MSG_NOSIGNAL);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0 && (errno == EAGAIN || errno == EWOULDBLOCK))
            return;
        if (n <= 0) {
            end_job(crew, w, lml_frame_gone(n));
            return;
        }
        w->sent += (size_t)n;
    }
}

static void read_some(lml_crew *crew, worker *w)
{
    char block[BLOCK];
    ssize_t n = recv(w->pipe, block, sizeof block, MSG_DONTWAIT);
    if (n < 0 && (errno == EINTR || errno == EAGAIN || errno == EWOULDBLOCK))
        return;
    lml_frame_end end = n <= 0 ? lml_frame_gone(n) : lml_frame_feed(&w->reader, block, (size_t)n);
    if (end != LML_FRAMES_MORE)
        end_job(crew, w, end);
}

static void give(lml_crew *crew, worker *w, slot *s)
{
    s->stage = WORKED;
    w->slot = s;
    w->sent = 0;
    w->until = lml_frame_now() + crew->orders.hand.limits.patience;
    w->reader = lml_frame_reader_on(&s->answer);
    send_some(crew, w);
}

/* Give waiting jobs to idle workers, the oldest first. */
static void give_out(lml_crew *crew)
{
    for (size_t n = crew->first; n < crew->put; n++) {
        slot *s = slot_of(crew, n);
        while (s->stage == WAITING) { /* again when a worn worker turns out to have died */
            worker *w = idle_worker(crew, &s->error);
            if (w)
                give(crew, w, s);
            else if (s->error.status == LML_OK || any_busy(crew))
                return;
            else
                finish_slot(crew, s, s->error.status);
        }
    }
}

/* ---- serving ---- */

typedef struct watch {
    struct pollfd fd[LML_CREW_WORKERS + 1];
    worker *worker[LML_CREW_WORKERS];
    nfds_t count;
    long until;
} watch;

static void watch_workers(lml_crew *crew, watch *list)
{
    *list = (watch){.until = lml_frame_now() + WAIT_MOST};
    for (size_t i = 0; i < crew->orders.workers; i++) {
        worker *w = &crew->worker[i];
        if (!w->slot)
            continue;
        short events = w->sent < w->slot->request.length ? POLLIN | POLLOUT : POLLIN;
        list->worker[list->count] = w;
        list->fd[list->count++] = (struct pollfd){.fd = w->pipe, .events = events};
        if (w->until < list->until)
            list->until = w->until;
    }
}

static void serve(lml_crew *crew, const watch *list)
{
    long now = lml_frame_now();
    for (nfds_t i = 0; i < list->count; i++) {
        worker *w = list->worker[i];
        short ready = list->fd[i].revents;
        if (ready & POLLOUT)
            send_some(crew, w);
        if (w->slot && (ready & (POLLIN | POLLERR | POLLHUP)))
            read_some(crew, w);
        else if (w->slot && now >= w->until)
            end_job(crew, w, LML_FRAMES_LATE);
    }
}

static lml_status wait_for(lml_crew *crew, watch *list, int descriptor, bool *readable,
                           lml_error *err)
{
    nfds_t count = list->count;
    if (descriptor >= 0)
        list->fd[count++] = (struct pollfd){.fd = descriptor, .events = POLLIN};
    int ready = poll(list->fd, count, 0);
    if (ready == 0 && crew->orders.idle) {
        lml_status status = crew->orders.idle(crew->orders.self, err);
        if (status != LML_OK)
            return status;
    }
    if (ready == 0) {
        long left = list->until - lml_frame_now();
        bool nothing_due = list->count == 0;
        ready = poll(list->fd, count, nothing_due ? -1 : left < 0 ? 0 : (int)left);
    }
    if (ready < 0 && errno != EINTR)
        return lml_fail(err, LML_FAULT, "the workers cannot be waited for");
    *readable = ready > 0 && descriptor >= 0 && list->fd[count - 1].revents != 0;
    return LML_OK;
}

/* One round: give out, wait for something to happen, deliver. */
static lml_status turn(lml_crew *crew, int descriptor, bool *readable, lml_error *err)
{
    watch list;
    give_out(crew);
    lml_status status = deliver(crew, err);
    watch_workers(crew, &list);
    *readable = false;
    if (status != LML_OK || (list.count == 0 && descriptor < 0))
        return status;
    status = wait_for(crew, &list, descriptor, readable, err);
    if (status != LML_OK)
        return status;
    serve(crew, &list);
    give_out(crew);
    return deliver(crew, err);
}

lml_status lml_crew_finish(lml_crew *crew, lml_error *err)
{
    bool readable;
    lml_status status = LML_OK;
    while (status == LML_OK && crew->first < crew->put)
        status = turn(crew, -1, &readable, err);
    return status;
}

lml_status lml_crew_await(lml_crew *crew, int descriptor, lml_error *err)
{
    bool readable = false;
    lml_status status = LML_OK;
    while (status == LML_OK && !readable)
        status = turn(crew, descriptor, &readable, err);
    return status;
}

/* ---- handing in ---- */

static lml_status make_room(lml_crew *crew, lml_error *err)
{
    bool readable;
    lml_status status = LML_OK;
    while (status == LML_OK && crew->put > crew->first &&
           (crew->put - crew->first == crew->room || crew->held > HELD_MOST))
        status = turn(crew, -1, &readable, err);
    return status;
}

/* The next slot with its request, in which `shown` keeps its NUL. */
static lml_status open_slot(lml_crew *crew, size_t kit, const lml_job *job, slot **out,
                            lml_error *err)
{
    lml_status status = make_room(crew, err);
    if (status != LML_OK)
        return status;
    slot *s = slot_of(crew, crew->put);
    size_t shown = strlen(job->shown);
    lml_frame_job head = {(uint32_t)kit, (uint32_t)shown + 1, (uint32_t)job->text.length};
    s->kit = kit;
    lml_builder_add(&s->request, (const char *)&head, sizeof head);
    lml_builder_add(&s->request, job->shown, shown + 1);
    lml_builder_add_span(&s->request, job->text);
    status = lml_builder_status(&s->request, err);
    if (status != LML_OK)
        return status;
    crew->held += s->request.length;
    crew->put++;
    *out = s;
    return LML_OK;
}

lml_status lml_crew_put(lml_crew *crew, size_t kit, const lml_job *job, lml_error *err)
{
    slot *s;
    lml_status status = open_slot(crew, kit, job, &s, err);
    if (status != LML_OK)
        return status;
    s->stage = WAITING;
    give_out(crew);
    return LML_OK;
}

lml_status lml_crew_put_error(lml_crew *crew, size_t kit, const char *shown, const lml_error *error,
                              lml_error *err)
{
    slot *s;
    lml_status status = open_slot(crew, kit, &(lml_job){{"", 0}, shown}, &s, err);
    if (status != LML_OK)
        return status;
    s->error = *error;
    finish_slot(crew, s, error->status);
    return deliver(crew, err);
}
