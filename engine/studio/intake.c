#include "studio/intake.h"
#include "file/merge.h"
#include "file/store.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define KEPT "recipes/.packs/"

void lml_intake_kept(char out[LML_PATH], const char *pack, const char *path)
{
    (void)!snprintf(out, LML_PATH, KEPT "%s/%s", pack, path); /* both are short */
}

void lml_intake_before(char out[LML_PATH], const char *pack, const char *path)
{
    (void)!snprintf(out, LML_PATH, KEPT "%s.before/%s", pack, path);
}

void lml_intake_origin(char out[LML_PATH], const char *pack)
{
    (void)!snprintf(out, LML_PATH, KEPT "%s.json", pack);
}

const char *lml_fate_words(lml_fate fate)
{
    static const char *const words[] = {
#define X(id, text) text,
        LML_FATE_MAP(X)
#undef X
    };
    return words[fate];
}

/* ---- the three texts ---------------------------------------------------------------------------
 */

/* False when there is no such file. */
static lml_status read_there(const char *studio, const char *path, lml_builder *out, bool *there,
                             lml_error *err)
{
    char whole[LML_PATH];
    struct stat found;
    bool here = strcmp(studio, ".") == 0;
    if (snprintf(whole, sizeof whole, "%s%s%s", here ? "" : studio, here ? "" : "/", path) >=
        (int)sizeof whole)
        return lml_fail(err, LML_NO_FILE, "the path of %s is too long", path);
    *there = stat(whole, &found) == 0 || (errno != ENOENT && errno != ENOTDIR);
    return *there ? lml_store_read(whole, LML_STORE_SIZE, out, err) : LML_OK;
}

static lml_piece *add(lml_intake *in, const char *path, lml_error *err)
{
    if (in->count == in->room) {
        size_t room = in->room ? 2 * in->room : 16;
        lml_piece *moved =
            lml_alloc_resize(in->alloc, in->pieces, in->room * sizeof *moved, room * sizeof *moved);
        if (!moved) {
            lml_fail(err, LML_NO_MEMORY, "out of memory for the files of a pack");
            return NULL;
        }
        in->pieces = moved;
        in->room = room;
    }
    lml_piece *p = &in->pieces[in->count++];
    *p = (lml_piece){.base = lml_builder_on(in->alloc, 0),
                     .ours = lml_builder_on(in->alloc, 0),
                     .text = lml_builder_on(in->alloc, 0)};
    (void)!snprintf(p->path, sizeof p->path, "%s", path);
    return p;
}

static lml_status read_piece(lml_intake *in, const char *path, const lml_pack_file *file,
                             lml_error *err)
{
    char kept[LML_PATH];
    lml_piece *p = add(in, path, err);
    if (!p)
        return LML_NO_MEMORY;
    p->file = file;
    lml_intake_kept(kept, lml_pack_says(in->pack, "name"), path);
    lml_status status = read_there(in->studio, path, &p->ours, &p->has_ours, err);
    if (status == LML_OK && in->former)
        status = read_there(in->studio, kept, &p->base, &p->has_base, err);
    return status;
}

static bool is_piece(const lml_pack_file *file)
{
    char name[64];
    return lml_pack_name(file, "recipes", name) || lml_pack_name(file, "scripts", name);
}

/* Who signed the pack that is here, by its origin. */
static lml_status read_former_signer(lml_intake *in, lml_error *err)
{
    char kept[LML_PATH];
    bool there;
    lml_json_document *origin = NULL;
    lml_builder text = lml_builder_on(in->alloc, 0);
    lml_intake_origin(kept, lml_pack_says(in->pack, "name"));
    lml_status status = read_there(in->studio, kept, &text, &there, err);
    if (status == LML_OK && there)
        status = lml_json_read(in->alloc, lml_builder_span(&text), NULL, kept, &origin, err);
    if (origin) {
        lml_span who = lml_json_text(lml_json_member(lml_json_root(origin), "signed_by"));
        snprintf(in->former_signer, sizeof in->former_signer, "%.*s", (int)who.length,
                 who.length ? who.at : "");
    }
    lml_json_free(origin);
    lml_builder_free(&text);
    return status;
}

static lml_status read_former(lml_intake *in, lml_error *err)
{
    char kept[LML_PATH];
    bool there;
    lml_builder page = lml_builder_on(in->alloc, 0);
    lml_intake_kept(kept, lml_pack_says(in->pack, "name"), LML_PACK_PAGE);
    lml_status status = read_there(in->studio, kept, &page, &there, err);
    if (status == LML_OK && there)
        status = lml_json_read(in->alloc, lml_builder_span(&page), NULL, kept, &in->former, err);
    lml_digest_of(lml_builder_span(&page), in->former_digest);
    lml_builder_free(&page);
    return status;
}

lml_status lml_intake_open(const lml_alloc *alloc, const char *studio, const lml_pack *pack,
                           lml_intake *out, lml_error *err)
{
    *out = (lml_intake){.alloc = alloc, .studio = studio, .pack = pack};
    lml_status status = read_former(out, err);
    if (status == LML_OK)
        status = read_former_signer(out, err);
    for (size_t i = 0; i < pack->count && status == LML_OK; i++)
        if (is_piece(&pack->files[i]))
            status = read_piece(out, pack->files[i].path, &pack->files[i], err);
    const lml_json *files =
        out->former ? lml_json_member(lml_json_root(out->former), "files") : NULL;
    for (const lml_json *f = lml_json_first(files); f && status == LML_OK; f = lml_json_next(f)) {
        lml_pack_file was = {.path = (char *)(uintptr_t)lml_json_name(f).at};
        if (is_piece(&was) && !lml_pack_find(pack, was.path))
            status = read_piece(out, was.path, NULL, err);
    }
    return status;
}

void lml_intake_close(lml_intake *intake)
{
    for (size_t i = 0; i < intake->count; i++) {
        lml_builder_free(&intake->pieces[i].base);
        lml_builder_free(&intake->pieces[i].ours);
        lml_builder_free(&intake->pieces[i].text);
    }
    if (intake->pieces)
        lml_alloc_free(intake->alloc, intake->pieces, intake->room * sizeof *intake->pieces);
    lml_json_free(intake->former);
    *intake = (lml_intake){.alloc = intake->alloc};
}

/* ---- what happens to them
 * ---------------------------------------------------------------------- */

static const char *former_says(const lml_intake *in, const char *member)
{
    return lml_json_text(lml_json_member(lml_json_root(in->former), member)).at;
}

static lml_status check_version(const lml_intake *in, bool replace, lml_error *err)
{
    const char *name = lml_pack_says(in->pack, "name"), *is = lml_pack_says(in->pack, "version");
    if (!in->former || replace || strcmp(in->former_digest, in->pack->digest) == 0)
        return LML_OK;
    const char *was = former_says(in, "version");
    int order = lml_pack_order(is, was);
    if (order > 0)
        return LML_OK;
    if (order < 0)
        lml_fail(err, LML_NO_WRITE, "%s: %s %s is older than %s, which this studio has",
                 in->pack->folder, name, is, was);
    else
        lml_fail(err, LML_NO_WRITE,
                 "%s: this studio already has a different %s %s: somebody forgot to "
                 "raise the version",
                 in->pack->folder, name, is);
    lml_error_hint(err, "--replace takes it anyway");
    return LML_NO_WRITE;
}

static lml_status refuse_foreign(const lml_intake *in, const lml_piece *p, lml_error *err)
{
    static const char rule[] = "recipes/rule_";
    const char *name = lml_pack_says(in->pack, "name");
    if (strncmp(p->path, rule, sizeof rule - 1) == 0)
        lml_fail(
            err, LML_NO_WRITE,
            "%s: this studio already has a rule for that point, which did not come with %s, and a "
            "point can only have one rule",
            p->path, name);
    else
        lml_fail(err, LML_NO_WRITE, "%s is already here and did not come with %s", p->path, name);
    lml_error_hint(err, "--replace replaces it with the pack's; keep a copy of yours");
    return LML_NO_WRITE;
}

static lml_status merge(const lml_intake *in, lml_piece *p, lml_builder *clashes, lml_error *err)
{
    lml_merge m;
    lml_status status =
        lml_merge_texts(in->alloc, lml_builder_span(&p->base), lml_builder_span(&p->ours),
                        lml_builder_span(&p->file->bytes), &m, err);
    if (status == LML_OK && m.clashes > 0) {
        lml_merge_show(&m, p->path, clashes);
        lml_fail(err, LML_NO_WRITE, "%s: your changes and those of %s conflict in %zu place%s",
                 p->path, lml_pack_says(in->pack, "name"), m.clashes, m.clashes == 1 ? "" : "s");
        lml_error_hint(err, "adapt yours there first, or use --replace to take the pack's");
        status = LML_NO_WRITE;
    }
    if (status == LML_OK) {
        lml_builder_add_span(&p->text, lml_builder_span(&m.text));
        status = lml_builder_status(&p->text, err);
        p->fate = LML_FATE_MERGED;
    }
    lml_merge_free(&m);
    return status;
}

static lml_status refuse_edited(const lml_intake *in, const lml_piece *p, lml_error *err)
{
    const char *name = lml_pack_says(in->pack, "name");
    lml_fail(err, LML_NO_WRITE,
             "%s was changed here since %s %s was adopted, and %s changes it too", p->path, name,
             former_says(in, "version"), lml_pack_says(in->pack, "version"));
    lml_error_hint(err, "--merge combines both, --replace takes the pack's");
    return LML_NO_WRITE;
}

/* Whether another pack of the studio holds that file: its copy is then kept too. */
static lml_status find_holder(const lml_intake *in, const char *path, bool *held, lml_error *err)
{
    char folder[LML_PATH], kept[LML_PATH];
    bool here = strcmp(in->studio, ".") == 0;
    *held = false;
    if (snprintf(folder, sizeof folder, "%s%s" KEPT, here ? "" : in->studio, here ? "" : "/") >=
        (int)sizeof folder)
        return lml_fail(err, LML_NO_FILE, "the path of " KEPT " is too long");
    DIR *packs = opendir(folder);
    if (!packs)
        return errno == ENOENT
                   ? LML_OK
                   : lml_fail(err, LML_NO_FILE, "cannot list %s: %s", folder, strerror(errno));
    errno = 0;
    for (const struct dirent *e; !*held && (e = readdir(packs));) {
        const char *dot = strrchr(e->d_name, '.'); /* "." and "..", NAME.json, NAME.before */
        if (dot || strcmp(e->d_name, lml_pack_says(in->pack, "name")) == 0)
            continue;
        struct stat found;
        *held =
            snprintf(kept, sizeof kept, "%s%s/%s", folder, e->d_name, path) < (int)sizeof kept &&
            stat(kept, &found) == 0;
        errno = 0;
    }
    lml_status status =
        errno ? lml_fail(err, LML_NO_FILE, "cannot list %s: %s", folder, strerror(errno)) : LML_OK;
    closedir(packs);
    return status;
}

static lml_status decide_dropped(const lml_intake *in, lml_piece *p, bool edited, bool replace,
                                 lml_error *err)
{
    bool held;
    lml_status status = find_holder(in, p->path, &held, err);
    p->fate = held ? LML_FATE_OTHERS : edited && !replace ? LML_FATE_LEFT : LML_FATE_GOES;
    return status;
}

static lml_status decide(lml_intake *in, lml_piece *p, bool replace, bool do_merge,
                         lml_builder *clashes, lml_error *err)
{
    lml_span ours = lml_builder_span(&p->ours), base = lml_builder_span(&p->base);
    bool edited = p->has_ours && !(p->has_base && lml_span_equal(ours, base));
    if (!p->file)
        return decide_dropped(in, p, edited, replace, err);
    lml_span theirs = lml_builder_span(&p->file->bytes);
    if (p->has_ours && lml_span_equal(ours, theirs)) {
        p->fate = LML_FATE_SAME;
    } else if (!p->has_ours) {
        p->fate = LML_FATE_NEW;
    } else if (!edited) {
        p->fate = LML_FATE_NEWER;
    } else if (replace) {
        p->fate = LML_FATE_REPLACED;
    } else if (!p->has_base) {
        return refuse_foreign(in, p, err);
    } else if (lml_span_equal(base, theirs)) {
        p->fate = LML_FATE_OURS;
        lml_builder_add_span(&p->text, ours);
        return lml_builder_status(&p->text, err);
    } else {
        return do_merge ? merge(in, p, clashes, err) : refuse_edited(in, p, err);
    }
    lml_builder_add_span(&p->text, theirs);
    return lml_builder_status(&p->text, err);
}

lml_status lml_intake_decide(lml_intake *intake, bool replace, bool merge_them,
                             lml_builder *clashes, lml_error *err)
{
    lml_status status = check_version(intake, replace, err);
    for (size_t i = 0; i < intake->count && status == LML_OK; i++)
        status = decide(intake, &intake->pieces[i], replace, merge_them, clashes, err);
    return status;
}

lml_status lml_intake_look_again(const lml_intake *intake, lml_error *err)
{
    for (size_t i = 0; i < intake->count; i++) {
        const lml_piece *p = &intake->pieces[i];
        lml_builder now = lml_builder_on(intake->alloc, 0);
        bool there;
        lml_status status = read_there(intake->studio, p->path, &now, &there, err);
        bool same = there == p->has_ours &&
                    lml_span_equal(lml_builder_span(&now), lml_builder_span(&p->ours));
        lml_builder_free(&now);
        if (status != LML_OK)
            return status;
        if (same)
            continue;
        lml_fail(err, LML_NO_WRITE,
                 "%s was changed by someone else in the meantime, so nothing is adopted", p->path);
        lml_error_hint(err, "run the same command again");
        return LML_NO_WRITE;
    }
    return LML_OK;
}

/* ---- all that changes --------------------------------------------------------------------------
 */

static lml_status put_kept(const lml_intake *in, const char *path, lml_span bytes,
                           lml_change *change, lml_error *err)
{
    char kept[LML_PATH];
    lml_intake_kept(kept, lml_pack_says(in->pack, "name"), path);
    return lml_change_put(change, kept, bytes, err);
}

static lml_status put_piece(const lml_intake *in, const lml_piece *p, lml_change *change,
                            lml_error *err)
{
    char kept[LML_PATH];
    lml_status status = LML_OK;
    bool goes = p->fate == LML_FATE_GOES;
    bool changes = p->file && !(p->has_ours && lml_span_equal(lml_builder_span(&p->ours),
                                                              lml_builder_span(&p->text)));
    lml_intake_before(kept, lml_pack_says(in->pack, "name"), p->path);
    if (p->has_ours && (goes || changes))
        status = lml_change_put(change, kept, lml_builder_span(&p->ours), err);
    if (status == LML_OK && changes)
        status = lml_change_put(change, p->path, lml_builder_span(&p->text), err);
    if (status == LML_OK && goes && p->has_ours)
        status = lml_change_take_away(change, p->path, err);
    if (status == LML_OK && !p->file) {
        lml_intake_kept(kept, lml_pack_says(in->pack, "name"), p->path);
        status = lml_change_take_away(change, kept, err);
    }
    return status;
}

lml_status lml_intake_put(const lml_intake *intake, lml_span origin, lml_change *change,
                          lml_error *err)
{
    const lml_pack *pack = intake->pack;
    char kept[LML_PATH];
    lml_status status = LML_OK;
    for (size_t i = 0; i < intake->count && status == LML_OK; i++)
        status = put_piece(intake, &intake->pieces[i], change, err);
    for (size_t i = 0; i < pack->count && status == LML_OK; i++)
        status = put_kept(intake, pack->files[i].path, lml_builder_span(&pack->files[i].bytes),
                          change, err);
    if (status == LML_OK)
        status = put_kept(intake, LML_PACK_PAGE, lml_builder_span(&pack->page), change, err);
    lml_intake_origin(kept, lml_pack_says(pack, "name"));
    return status == LML_OK ? lml_change_put(change, kept, origin, err) : status;
}
