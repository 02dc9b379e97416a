#include "trial/readings.h"

#include "read/read.h"
#include "value/write.h"

#include <math.h>
#include <string.h>

const lml_json *lml_readings_of(const lml_json *job, const char *path)
{
    const lml_json *set = lml_json_first(lml_json_member(job, "readings"));
    for (; set; set = lml_json_next(set)) {
        const lml_json *found = lml_json_member(set, path);
        if (found)
            return found;
    }
    return NULL;
}

/* One record of `readings`, while its items are gathered. */
typedef struct gathered {
    lml_uncertain_item *item[LML_UNCERTAIN_TOGETHER];
    double mean[LML_UNCERTAIN_TOGETHER];
    double apart[LML_UNCERTAIN_TOGETHER][LML_UNCERTAIN_TOGETHER]; /* sums of products */
    size_t size, count;
} gathered;

static size_t length_of(const lml_json *list)
{
    size_t count = 0;
    for (const lml_json *m = lml_json_first(list); m; m = lml_json_next(m))
        count++;
    return count;
}

static lml_status refuse(const lml_json *at, lml_error *err, const char *what, const char *hint)
{
    lml_json_fail(at, err, LML_BAD_DATA, "%s", what);
    lml_error_hint(err, "%s", hint);
    return LML_BAD_DATA;
}

/* The item that is at the path that the node is called by; NULL, with the error, where none does,
 * or one that cannot have readings. */
static lml_uncertain_item *item_at(lml_uncertain *u, const lml_json *node, lml_error *err)
{
    lml_uncertain_item *found = NULL;
    bool shared = false;
    for (size_t i = 0; i < u->count; i++)
        if (u->item[i].counted == node)
            found = &u->item[i];
    if (!found) {
        bool twice = false;
        for (size_t i = 0; i < u->count; i++)
            twice = twice || lml_span_is(lml_json_name(node), u->item[i].path);
        refuse(node, err,
               twice ? "the readings of this figure stand in the job already"
                     : "the job has no figure with a spread at that place",
               twice ? "write them once"
                     : "write the place as lemel sure prints it, as old_metal[0].tests[0].found, "
                       "and the figure there as a value with its unit");
        return NULL;
    }
    for (size_t i = 0; i < u->count; i++)
        shared = shared || (&u->item[i] != found && u->item[i].source == found->source);
    if (!found->between && !found->logarithm && !shared)
        return found;
    refuse(node, err,
           shared ? "this figure shares its assay with another entry of the record"
                  : "a figure between two ends is not the mean of readings",
           shared ? "leave its readings out" : "write it as 12.4 g ± 0.1 g");
    return NULL;
}

/* A reading in the unit of its item. */
static lml_status read_one(const lml_json *node, const lml_uncertain_item *item, double *out,
                           lml_error *err)
{
    lml_value v;
    lml_span text = lml_json_text(node);
    lml_wanted wanted = item->fineness ? LML_WANT_FINENESS : LML_WANT_ANYTHING;
    bool ends =
        text.length >= item->unit.length &&
        memcmp(text.at + text.length - item->unit.length, item->unit.at, item->unit.length) == 0;
    if (!ends ||
        lml_read_value(text, wanted, item->fineness ? LML_Au : LML_NO_METAL, &v, NULL) != LML_OK ||
        v.spread != LML_NO_SPREAD)
        return refuse(node, err,
                      "a reading is written as what it is a reading of, in the same unit",
                      "as \"562 ‰\" where \"561 ‰\" is said");
    *out = v.kind == LML_MONEY ? (double)v.exact / 1e6 : lml_write_in_unit(&v);
    return LML_OK;
}

static lml_status read_mean(const lml_json *list, gathered *g, size_t row, lml_error *err)
{
    double sum = 0, least = INFINITY, most = -INFINITY;
    lml_status status = LML_OK;
    for (const lml_json *m = lml_json_first(list); m && status == LML_OK; m = lml_json_next(m)) {
        double x = 0;
        status = read_one(m, g->item[row], &x, err);
        sum += x;
        least = fmin(least, x);
        most = fmax(most, x);
    }
    g->mean[row] = sum / (double)g->count;
    if (status == LML_OK && (g->item[row]->middle < least || g->item[row]->middle > most))
        status = refuse(list, err, "the figure that is given lies outside all of its readings",
                        "give their mean");
    return status;
}

/* Add up how the readings of one row go with those of another. */
static void add_products(const lml_json *of, const lml_json *with, gathered *g, size_t row,
                         size_t column)
{
    const lml_json *a = lml_json_first(of), *b = lml_json_first(with);
    for (; a; a = lml_json_next(a), b = lml_json_next(b)) {
        double x = 0, y = 0;
        read_one(a, g->item[row], &x, NULL);
        read_one(b, g->item[column], &y, NULL);
        g->apart[row][column] += (x - g->mean[row]) * (y - g->mean[column]);
    }
}

/* How much each row is of independent sources, so that rows are correlated as the readings are: the
 * root of their correlations (Cholesky's; Golub and Van Loan, Matrix Computations, 4.2.3). */
static void set_loads(const gathered *g, lml_uncertain_set *set)
{
    for (size_t i = 0; i < g->size; i++)
        for (size_t j = 0; j <= i; j++) {
            double scale = sqrt(g->apart[i][i] * g->apart[j][j]);
            double left = i == j ? 1 : scale > 0 ? g->apart[i][j] / scale : 0;
            for (size_t k = 0; k < j; k++)
                left -= set->load[i][k] * set->load[j][k];
            if (i == j)
                set->load[i][i] = sqrt(fmax(left, 0));
            else /* fully correlated rows leave nothing for the later ones */
                set->load[i][j] = set->load[j][j] > 1e-9 ? left / set->load[j][j] : 0;
        }
}

static lml_status gather(lml_uncertain *u, const lml_json *record, gathered *g, lml_error *err)
{
    for (const lml_json *m = lml_json_first(record); m; m = lml_json_next(m)) {
        if (g->size == LML_UNCERTAIN_TOGETHER) {
            lml_fail(err, LML_LIMIT, "more than %d figures were read together",
                     LML_UNCERTAIN_TOGETHER);
            lml_error_hint(err, "write those that have nothing to do with each other in records of "
                                "their own");
            return LML_LIMIT;
        }
        if (!(g->item[g->size++] = item_at(u, m, err)))
            return LML_BAD_DATA;
        size_t count = length_of(m);
        if (g->size > 1 && count != g->count)
            return refuse(m, err, "what was read together has one reading of each at a time",
                          "give each as many readings, or a record of its own");
        g->count = count;
        if (count < LML_UNCERTAIN_FEWEST || count > LML_UNCERTAIN_READINGS)
            return refuse(m, err, "a spread is found from 4 to 1000 readings",
                          "fewer do not show how far they spread");
    }
    return LML_OK;
}

static lml_status join_lists(lml_uncertain *u, const lml_json *record, lml_uncertain_set *set,
                             lml_error *err)
{
    gathered g;
    memset(&g, 0, sizeof g);
    lml_status status = gather(u, record, &g, err);
    const lml_json *list[LML_UNCERTAIN_TOGETHER];
    for (size_t i = 0; i < g.size && status == LML_OK; i++) {
        list[i] = g.item[i]->counted;
        status = read_mean(list[i], &g, i, err);
        for (size_t j = 0; j <= i && status == LML_OK; j++)
            add_products(list[i], list[j], &g, i, j);
    }
    if (status != LML_OK)
        return status;
    set_loads(&g, set);
    set->size = g.size;
    set->freedom = (unsigned)g.count - 1;
    for (size_t i = 0; i < g.size; i++) {
        double n = (double)g.count;
        g.item[i]->deviation = sqrt(g.apart[i][i] / (n - 1) / n);
        g.item[i]->set = u->sets + 1;
        g.item[i]->row = i;
        set->source[i] = g.item[i]->source;
    }
    u->sets++;
    return LML_OK;
}

static lml_status join_count(lml_uncertain *u, const lml_json *node, lml_uncertain_set *set,
                             lml_error *err)
{
    double count = lml_json_number(node);
    lml_uncertain_item *item = item_at(u, node, err);
    if (!item)
        return LML_BAD_DATA;
    if (count != floor(count) || count < LML_UNCERTAIN_FEWEST || count > LML_UNCERTAIN_READINGS)
        return refuse(node, err, "a spread is found from 4 to 1000 readings",
                      "fewer do not show how far they spread");
    *set = (lml_uncertain_set){.size = 1, .freedom = (unsigned)count - 1};
    set->source[0] = item->source;
    set->load[0][0] = 1;
    item->set = ++u->sets;
    item->row = 0;
    return LML_OK;
}

static lml_status refuse_sets(lml_error *err)
{
    lml_fail(err, LML_LIMIT, "the job has readings of more than %d figures", LML_UNCERTAIN_SETS);
    lml_error_hint(err, "write the others with their deviation alone, as \"562 ‰ ± 6 ‰\"");
    return LML_LIMIT;
}

static lml_status join_record(lml_uncertain *u, const lml_json *record, lml_error *err)
{
    lml_status status = LML_OK;
    bool lists = lml_json_kind_of(lml_json_first(record)) == LML_JSON_LIST;
    for (const lml_json *m = lml_json_first(record); m && status == LML_OK; m = lml_json_next(m)) {
        lml_json_kind kind = lml_json_kind_of(m);
        if (u->sets == LML_UNCERTAIN_SETS)
            status = refuse_sets(err);
        else if (kind != (lists ? LML_JSON_LIST : LML_JSON_NUMBER))
            status = refuse(m, err, "readings are how many there were, or a list of them",
                            "write 5, or [\"562 ‰\", \"559 ‰\", ...], in one record all alike");
        else if (!lists)
            status = join_count(u, m, &u->set[u->sets], err);
    }
    if (status == LML_OK && lists)
        status = join_lists(u, record, &u->set[u->sets], err);
    return status;
}

lml_status lml_readings_join(lml_uncertain *u, lml_error *err)
{
    lml_status status = LML_OK;
    const lml_json *record = lml_json_first(lml_json_member(lml_json_root(u->job), "readings"));
    for (; record && status == LML_OK; record = lml_json_next(record))
        status = join_record(u, record, err);
    return status;
}
