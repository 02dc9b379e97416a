#define _DEFAULT_SOURCE /* _SC_NPROCESSORS_ONLN */
#include "worker/worker_pool.h"

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

struct lml_worker_pool {
    lml_worker_pool_orders orders;
    worker *worker;
    slot *slot;              /* a ring: job number n is in slot n % room */
    size_t room, first, put; /* job numbers: the first not delivered, the next to be handed in */
    size_t held;
};

/* ---- making ---- */

lml_status lml_worker_pool_workers(const lml_arguments *arguments, size_t *out, lml_error *err)
{
    long processors = sysconf(_SC_NPROCESSORS_ONLN);
    uint64_t workers = processors < 1 ? 1 : (uint64_t)processors;
    if (workers > LML_WORKER_POOL_MOST)
        workers = LML_WORKER_POOL_MOST;
    lml_status status =
        lml_limits_whole(arguments, LML_OPTION_WORKERS, 1, LML_WORKER_POOL_MOST, &workers, err);
    *out = (size_t)workers;
    return status;
}

lml_status lml_worker_pool_new(const lml_worker_pool_orders *orders, lml_worker_pool **out,
                               lml_error *err)
{
    const lml_alloc *alloc = orders->alloc;
    lml_worker_pool *pool = lml_alloc_get(alloc, sizeof *pool);
    if (!pool)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the workers");
    *pool = (lml_worker_pool){.orders = *orders};
    pool->orders.task.many = true;
    if (!orders->now)
        pool->orders.now = lml_frame_now;
    pool->orders.task.limits = lml_limits_full(orders->task.limits);
    size_t workers = orders->workers < 1 ? 1 : orders->workers;
    pool->orders.workers = workers > LML_WORKER_POOL_MOST ? LML_WORKER_POOL_MOST : workers;
    pool->room = pool->orders.workers * ROOM_A_WORKER;
    pool->worker = lml_alloc_get(alloc, pool->orders.workers * sizeof *pool->worker);
    pool->slot = lml_alloc_get(alloc, pool->room * sizeof *pool->slot);
    if (!pool->worker || !pool->slot) {
        lml_alloc_free(alloc, pool->worker, pool->orders.workers * sizeof *pool->worker);
        lml_alloc_free(alloc, pool->slot, pool->room * sizeof *pool->slot);
        lml_alloc_free(alloc, pool, sizeof *pool);
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the workers");
    }
    memset(pool->worker, 0, pool->orders.workers * sizeof *pool->worker);
    for (size_t i = 0; i < pool->room; i++)
        pool->slot[i] = (slot){.request = lml_builder_on(alloc, 0),
                               .answer = lml_builder_on(alloc, pool->orders.task.limits.answer)};
    *out = pool;
    return LML_OK;
}

static lml_status end_worker(lml_worker_pool *pool, worker *w, lml_frame_end end, lml_error *error)
{
    close(w->pipe);
    lml_status status = lml_process_end(&pool->orders.task, w->process, end, error);
    *w = (worker){.process = 0};
    return status;
}

void lml_worker_pool_free(lml_worker_pool *pool)
{
    if (!pool)
        return;
    const lml_alloc *alloc = pool->orders.alloc;
    lml_error unheard;
    for (size_t i = 0; i < pool->orders.workers; i++)
        if (pool->worker[i].process)
            end_worker(pool, &pool->worker[i], LML_FRAMES_CUT, &unheard);
    for (size_t i = 0; i < pool->room; i++) {
        lml_builder_free(&pool->slot[i].request);
        lml_builder_free(&pool->slot[i].answer);
    }
    lml_alloc_free(alloc, pool->worker, pool->orders.workers * sizeof *pool->worker);
    lml_alloc_free(alloc, pool->slot, pool->room * sizeof *pool->slot);
    lml_alloc_free(alloc, pool, sizeof *pool);
}

/* ---- slots ---- */

static slot *slot_of(lml_worker_pool *pool, size_t number)
{
    return &pool->slot[number % pool->room];
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

static void finish_slot(lml_worker_pool *pool, slot *s, lml_status status)
{
    s->stage = DONE;
    s->status = status;
    pool->held += s->answer.length;
}

static lml_status deliver(lml_worker_pool *pool, lml_error *err)
{
    lml_status status = LML_OK;
    while (status == LML_OK && pool->first < pool->put &&
           slot_of(pool, pool->first)->stage == DONE) {
        slot *s = slot_of(pool, pool->first);
        lml_frame_job head;
        memcpy(&head, s->request.at, sizeof head);
        lml_worker_pool_result result = {
            .number = pool->first,
            .kit = s->kit,
            .shown = s->request.at + sizeof head,
            .job = {s->request.at + sizeof head + head.shown, head.text},
            .status = s->status,
            .text = lml_builder_span(&s->answer),
            .error = &s->error};
        status = pool->orders.deliver(pool->orders.self, &result, err);
        pool->held -= s->request.length + s->answer.length;
        empty(&s->request, 0);
        empty(&s->answer, pool->orders.task.limits.answer);
        pool->first++;
    }
    return status;
}

/* ---- workers ---- */

/* An idle worker, started when there is room for one more; NULL when all have work. */
static worker *idle_worker(lml_worker_pool *pool, lml_error *error)
{
    worker *none = NULL;
    for (size_t i = 0; i < pool->orders.workers; i++) {
        worker *w = &pool->worker[i];
        if (w->process && !w->slot)
            return w;
        if (!w->process && !none)
            none = w;
    }
    error->status = LML_OK;
    if (!none)
        return NULL;
    if (lml_process_start(&pool->orders.task, &none->process, &none->pipe, error) != LML_OK)
        return NULL;
    if (pool->orders.started)
        pool->orders.started(pool->orders.self, none->process);
    return none;
}

static bool any_busy(const lml_worker_pool *pool)
{
    for (size_t i = 0; i < pool->orders.workers; i++)
        if (pool->worker[i].slot)
            return true;
    return false;
}

static void end_job(lml_worker_pool *pool, worker *w, lml_frame_end end)
{
    slot *s = w->slot;
    bool worn = w->worn;
    if (end == LML_FRAMES_ANSWER || end == LML_FRAMES_STOPPED) {
        finish_slot(pool, s, end == LML_FRAMES_ANSWER ? LML_OK : LML_STOPPED);
    } else if (end == LML_FRAMES_ERROR) {
        s->error = w->reader.error;
        finish_slot(pool, s, s->error.status);
    } else {
        lml_status status = end_worker(pool, w, end, &s->error);
        empty(&s->answer, pool->orders.task.limits.answer);
        if (worn && end != LML_FRAMES_LATE)
            s->stage = WAITING; /* once more, by one that is not worn */
        else
            finish_slot(pool, s, status);
        return;
    }
    w->worn = true;
    w->slot = NULL;
}

/* As much of the request as the pipe takes. */
static void send_some(lml_worker_pool *pool, worker *w)
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
            end_job(pool, w, lml_frame_gone(n));
            return;
        }
        w->sent += (size_t)n;
    }
}

static void read_some(lml_worker_pool *pool, worker *w)
{
    char block[BLOCK];
    ssize_t n = recv(w->pipe, block, sizeof block, MSG_DONTWAIT);
    if (n < 0 && (errno == EINTR || errno == EAGAIN || errno == EWOULDBLOCK))
        return;
    lml_frame_end end = n <= 0 ? lml_frame_gone(n) : lml_frame_feed(&w->reader, block, (size_t)n);
    if (end != LML_FRAMES_MORE)
        end_job(pool, w, end);
}

static void give(lml_worker_pool *pool, worker *w, slot *s)
{
    s->stage = WORKED;
    w->slot = s;
    w->sent = 0;
    w->until = pool->orders.now() + pool->orders.task.limits.patience;
    w->reader = lml_frame_reader_on(&s->answer);
    send_some(pool, w);
}

/* Give waiting jobs to idle workers, the oldest first. */
static void give_out(lml_worker_pool *pool)
{
    for (size_t n = pool->first; n < pool->put; n++) {
        slot *s = slot_of(pool, n);
        while (s->stage == WAITING) { /* again when a worn worker turns out to have died */
            worker *w = idle_worker(pool, &s->error);
            if (w)
                give(pool, w, s);
            else if (s->error.status == LML_OK || any_busy(pool))
                return;
            else
                finish_slot(pool, s, s->error.status);
        }
    }
}

/* ---- serving ---- */

typedef struct watch {
    struct pollfd fd[LML_WORKER_POOL_MOST + 1];
    worker *worker[LML_WORKER_POOL_MOST];
    nfds_t count;
    long until;
} watch;

static void watch_workers(lml_worker_pool *pool, watch *list)
{
    *list = (watch){.until = pool->orders.now() + WAIT_MOST};
    for (size_t i = 0; i < pool->orders.workers; i++) {
        worker *w = &pool->worker[i];
        if (!w->slot)
            continue;
        short events = w->sent < w->slot->request.length ? POLLIN | POLLOUT : POLLIN;
        list->worker[list->count] = w;
        list->fd[list->count++] = (struct pollfd){.fd = w->pipe, .events = events};
        if (w->until < list->until)
            list->until = w->until;
    }
}

static void serve(lml_worker_pool *pool, const watch *list)
{
    long now = pool->orders.now();
    for (nfds_t i = 0; i < list->count; i++) {
        worker *w = list->worker[i];
        short ready = list->fd[i].revents;
        if (ready & POLLOUT)
            send_some(pool, w);
        if (w->slot && (ready & (POLLIN | POLLERR | POLLHUP)))
            read_some(pool, w);
        else if (w->slot && now >= w->until)
            end_job(pool, w, LML_FRAMES_LATE);
    }
}

static lml_status wait_for(lml_worker_pool *pool, watch *list, int descriptor, bool *readable,
                           lml_error *err)
{
    nfds_t count = list->count;
    if (descriptor >= 0)
        list->fd[count++] = (struct pollfd){.fd = descriptor, .events = POLLIN};
    int ready = poll(list->fd, count, 0);
    if (ready == 0 && pool->orders.idle) {
        lml_status status = pool->orders.idle(pool->orders.self, err);
        if (status != LML_OK)
            return status;
    }
    if (ready == 0) {
        long left = list->until - pool->orders.now();
        bool nothing_due = list->count == 0;
        ready = poll(list->fd, count, nothing_due ? -1 : left < 0 ? 0 : (int)left);
    }
    if (ready < 0 && errno != EINTR)
        return lml_fail(err, LML_FAULT, "the workers cannot be waited for");
    *readable = ready > 0 && descriptor >= 0 && list->fd[count - 1].revents != 0;
    return LML_OK;
}

/* One round: give out, wait for something to happen, deliver. */
static lml_status turn(lml_worker_pool *pool, int descriptor, bool *readable, lml_error *err)
{
    watch list;
    give_out(pool);
    lml_status status = deliver(pool, err);
    watch_workers(pool, &list);
    *readable = false;
    if (status != LML_OK || (list.count == 0 && descriptor < 0))
        return status;
    status = wait_for(pool, &list, descriptor, readable, err);
    if (status != LML_OK)
        return status;
    serve(pool, &list);
    give_out(pool);
    return deliver(pool, err);
}

lml_status lml_worker_pool_finish(lml_worker_pool *pool, lml_error *err)
{
    bool readable;
    lml_status status = LML_OK;
    while (status == LML_OK && pool->first < pool->put)
        status = turn(pool, -1, &readable, err);
    return status;
}

lml_status lml_worker_pool_await(lml_worker_pool *pool, int descriptor, lml_error *err)
{
    bool readable = false;
    lml_status status = LML_OK;
    while (status == LML_OK && !readable)
        status = turn(pool, descriptor, &readable, err);
    return status;
}

/* ---- handing in ---- */

static lml_status make_room(lml_worker_pool *pool, lml_error *err)
{
    bool readable;
    lml_status status = LML_OK;
    while (status == LML_OK && pool->put > pool->first &&
           (pool->put - pool->first == pool->room || pool->held > HELD_MOST))
        status = turn(pool, -1, &readable, err);
    return status;
}

/* The next slot with its request, in which `shown` keeps its NUL. */
static lml_status open_slot(lml_worker_pool *pool, size_t kit, const lml_job *job, slot **out,
                            lml_error *err)
{
    lml_status status = make_room(pool, err);
    if (status != LML_OK)
        return status;
    slot *s = slot_of(pool, pool->put);
    size_t shown = strlen(job->shown);
    lml_frame_job head = {(uint32_t)kit, (uint32_t)shown + 1, (uint32_t)job->text.length,
                          (uint32_t)job->kept.length};
    s->kit = kit;
    lml_builder_add(&s->request, (const char *)&head, sizeof head);
    lml_builder_add(&s->request, job->shown, shown + 1);
    lml_builder_add_span(&s->request, job->text);
    lml_builder_add_span(&s->request, job->kept);
    status = lml_builder_status(&s->request, err);
    if (status != LML_OK)
        return status;
    pool->held += s->request.length;
    pool->put++;
    *out = s;
    return LML_OK;
}

lml_status lml_worker_pool_put(lml_worker_pool *pool, size_t kit, const lml_job *job,
                               lml_error *err)
{
    slot *s;
    lml_status status = open_slot(pool, kit, job, &s, err);
    if (status != LML_OK)
        return status;
    s->stage = WAITING;
    give_out(pool);
    return LML_OK;
}

lml_status lml_worker_pool_put_error(lml_worker_pool *pool, size_t kit, const char *shown,
                                     const lml_error *error, lml_error *err)
{
    slot *s;
    lml_status status = open_slot(pool, kit, &(lml_job){.text = {"", 0}, .shown = shown}, &s, err);
    if (status != LML_OK)
        return status;
    s->error = *error;
    finish_slot(pool, s, error->status);
    return deliver(pool, err);
}
