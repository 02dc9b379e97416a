#include "craft/charge_like.h"

#include <math.h>
#include <string.h>

/* Parts are counted in millionths, a thousandth of a per mille: this only chooses among charges
 * that keep every limit, and short numbers keep the exact solver fast. */
static lml_i128 millionths(double part)
{
    return llrint(part * 1e6);
}

/* The metals that are compared, and how much of the alloy they are. */
typedef struct wish {
    int metal[LML_METALS], metals;
    lml_i128 whole;
} wish;

static wish wish_of(const lml_charge_problem *p)
{
    wish w = {0};
    for (int m = 1; m < LML_METALS; m++) {
        lml_i128 part = millionths(p->like->part[m]);
        bool there = part > 0;
        if (m == (int)p->besides)
            continue;
        for (int j = 0; j < p->lots; j++)
            there = there || p->lot[j].composition.part[m] > 0;
        w.whole += part;
        if (there)
            w.metal[w.metals++] = m;
    }
    return w;
}

/* By how much a lot has more of a metal than its share of the metals compared, times `whole`. */
static lml_i128 excess(const lml_charge_problem *p, const wish *w, int lot, int metal)
{
    const lml_composition *c = &p->lot[lot].composition;
    lml_i128 compared = 0;
    for (int i = 0; i < w->metals; i++)
        compared += millionths(c->part[w->metal[i]]);
    return millionths(c->part[metal]) * w->whole - millionths(p->like->part[metal]) * compared;
}

/* One block for all the arrays: the 128-bit ones first, for their alignment. */
typedef struct wider {
    lml_simplex_problem programme;
    lml_i128 *matrix, *cost, *tie;
    lml_simplex_range *column, *row;
    size_t size;
} wider;

static lml_status make(const lml_charge_model *model, int columns, int rows, wider *out,
                       lml_error *err)
{
    size_t wholes = ((size_t)rows + 4) * (size_t)columns;
    out->size = wholes * sizeof(lml_i128) + (size_t)(columns + rows) * sizeof(lml_simplex_range);
    out->matrix = lml_alloc_get(&model->alloc, out->size);
    if (!out->matrix)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for a charge of %d lots", model->lots);
    memset(out->matrix, 0, out->size);
    out->cost = out->matrix + (size_t)rows * (size_t)columns;
    out->tie = out->cost + columns;
    out->column = (lml_simplex_range *)(out->matrix + wholes);
    out->row = out->column + columns;
    out->programme = (lml_simplex_problem){.columns = columns,
                                           .rows = rows,
                                           .column = out->column,
                                           .row = out->row,
                                           .matrix = out->matrix,
                                           .cost = out->cost,
                                           .tie = out->tie,
                                           .more_ties = 2};
    return LML_OK;
}

/* Behind the lots there are two columns for each metal, too much and too little of it, and behind
 * the rules a row:  sum x excess - too much + too little = 0.  The first tie is the aim's, the
 * second the sum of what is too much and too little, the third what each lot is off by itself.
 * Where that sum is the aim, the cost is its first tie and that of the cost the second. */
static void fill(const lml_charge_problem *p, const wish *w, const lml_simplex_problem *from,
                 wider *to)
{
    size_t lots = (size_t)from->columns, columns = (size_t)to->programme.columns;
    lml_i128 *off = to->tie + columns, *own = off + columns, *cost = to->cost, *tie = to->tie;
    if (p->aim == LML_MOST_LIKE) {
        tie = off;
        cost = to->tie;
        off = to->cost;
    }
    memcpy(cost, from->cost, lots * sizeof *cost);
    memcpy(tie, from->tie, lots * sizeof *tie);
    memcpy(to->column, from->column, lots * sizeof *to->column);
    memcpy(to->row, from->row, (size_t)from->rows * sizeof *to->row);
    for (int r = 0; r < from->rows; r++)
        memcpy(&to->matrix[(size_t)r * columns], &from->matrix[(size_t)r * lots],
               lots * sizeof *to->matrix);
    for (int i = 0; i < w->metals; i++) {
        lml_i128 *row = &to->matrix[(size_t)(from->rows + i) * columns];
        size_t much = lots + 2 * (size_t)i, little = much + 1;
        for (int j = 0; j < p->lots; j++) {
            row[j] = excess(p, w, j, w->metal[i]);
            own[j] += row[j] < 0 ? -row[j] : row[j];
        }
        row[much] = -1;
        row[little] = 1;
        off[much] = off[little] = 1;
        to->column[much] = to->column[little] = (lml_simplex_range){.has_low = true};
        to->row[from->rows + i] = (lml_simplex_range){.has_low = true, .has_high = true};
    }
}

lml_status lml_charge_like_solve(const lml_charge_model *model,
                                 const lml_simplex_problem *programme, lml_simplex_answer *out,
                                 lml_error *err)
{
    const lml_charge_problem *p = model->problem;
    wish w = {0};
    if (p->like && programme->cost)
        w = wish_of(p);
    if (w.whole == 0)
        return lml_simplex_solve(programme, &model->alloc, out, err);
    wider to;
    lml_status s =
        make(model, programme->columns + 2 * w.metals, programme->rows + w.metals, &to, err);
    if (s != LML_OK)
        return s;
    fill(p, &w, programme, &to);
    s = lml_simplex_solve(&to.programme, &model->alloc, out, err);
    lml_alloc_free(&model->alloc, to.matrix, to.size);
    return s;
}
