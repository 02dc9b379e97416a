#include "programme.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

Test(simplex_random, every_random_answer_proves_itself)
{
    int optimal = 0, infeasible = 0;
    state = 1;
    for (int n = 0; n < 6000; n++) {
        programme p;
        if (n % 3 == 0)
            draw_charge(&p, draw(1, 20), draw(1, 8));
        else
            draw_small(&p, draw(1, 8), draw(0, 8));
        lml_simplex_answer a = solve(&p);
        if (a.outcome == LML_SIMPLEX_OPTIMAL) {
            expect_optimal(&p, &a);
            optimal++;
        } else {
            expect_certificate(&p, &a);
            infeasible++;
        }
        lml_simplex_free(&a);
    }
    cr_expect_gt(optimal, 1000);
    cr_expect_gt(infeasible, 1000);
}

/* Moving the columns about must not change the least cost. */
Test(simplex_random, the_order_of_the_columns_does_not_matter)
{
    state = 2;
    for (int n = 0; n < 500; n++) {
        programme p, q;
        draw_charge(&p, 12, 5);
        begin(&q, 12, 5);
        memcpy(q.row, p.row, sizeof p.row);
        for (int j = 0; j < 12; j++) {
            q.column[j] = p.column[11 - j];
            q.cost[j] = p.cost[11 - j];
            for (int i = 0; i < 5; i++)
                q.matrix[i * 12 + j] = p.matrix[i * 12 + 11 - j];
        }
        lml_simplex_answer a = solve(&p), b = solve(&q);
        cr_assert_eq(a.outcome, b.outcome);
        if (a.outcome == LML_SIMPLEX_OPTIMAL) {
            lml_big left, right;
            lml_big_mul(&a.cost, &b.bottom, &left, NULL);
            lml_big_mul(&b.cost, &a.bottom, &right, NULL);
            cr_assert(equal(&left, &right));
        }
        lml_simplex_free(&a);
        lml_simplex_free(&b);
    }
}

/* --- every corner, by brute force ------------------------------------------------------------ */

/* A bound as an equation over three columns: a . x = b. */
typedef struct plane {
    int64_t a[3], b;
} plane;

static int64_t determinant(int64_t m[3][3])
{
    return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
           m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
           m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
}

/* Cramer's rule: x = top / *bottom, *bottom > 0. */
static bool meet(const plane *const in[3], int64_t top[3], int64_t *bottom)
{
    int64_t m[3][3];
    for (int i = 0; i < 3; i++)
        memcpy(m[i], in[i]->a, sizeof m[i]);
    *bottom = determinant(m);
    if (*bottom == 0)
        return false;
    int64_t sign = *bottom < 0 ? -1 : 1;
    for (int j = 0; j < 3; j++) {
        for (int i = 0; i < 3; i++) {
            memcpy(m[i], in[i]->a, sizeof m[i]);
            m[i][j] = in[i]->b;
        }
        top[j] = sign * determinant(m);
    }
    *bottom *= sign;
    return true;
}

static bool inside(const programme *p, const int64_t top[3], int64_t bottom)
{
    for (int v = 0; v < 3 + p->problem.rows; v++) {
        const lml_simplex_range *r = range_of(p, v);
        int64_t at = v < 3 ? top[v] : 0;
        for (int j = 0; v >= 3 && j < 3; j++)
            at += (int64_t)p->matrix[(v - 3) * 3 + j] * top[j];
        if ((r->has_low && at < r->low * bottom) || (r->has_high && at > r->high * bottom))
            return false;
    }
    return true;
}

static int list_planes(const programme *p, plane planes[])
{
    int count = 0;
    for (int v = 0; v < 3 + p->problem.rows; v++) {
        const lml_simplex_range *r = range_of(p, v);
        plane one = {{0, 0, 0}, 0};
        for (int j = 0; j < 3; j++)
            one.a[j] = v < 3 ? v == j : (int64_t)p->matrix[(v - 3) * 3 + j];
        for (int high = 0; high < 2; high++) {
            if (!(high ? r->has_high : r->has_low))
                continue;
            one.b = (int64_t)(high ? r->high : r->low);
            planes[count++] = one;
        }
    }
    return count;
}

Test(simplex_random, no_corner_is_better_and_none_is_missed)
{
    state = 3;
    int corners = 0;
    for (int n = 0; n < 3000; n++) {
        programme p;
        draw_small(&p, 3, draw(1, 3));
        plane planes[12];
        int count = list_planes(&p, planes);
        bool found = false;
        int64_t best_top = 0, best_bottom = 1;
        for (int i = 0; i < count; i++)
            for (int j = i + 1; j < count; j++)
                for (int k = j + 1; k < count; k++) {
                    int64_t top[3], bottom, cost = 0;
                    if (!meet((const plane *const[]){&planes[i], &planes[j], &planes[k]}, top,
                              &bottom) ||
                        !inside(&p, top, bottom))
                        continue;
                    corners++;
                    for (int c = 0; c < 3; c++)
                        cost += (int64_t)p.cost[c] * top[c];
                    if (!found || cost * best_bottom < best_top * bottom) {
                        best_top = cost;
                        best_bottom = bottom;
                    }
                    found = true;
                }
        lml_simplex_answer a = solve(&p);
        cr_assert_eq(a.outcome == LML_SIMPLEX_OPTIMAL, found, "case %d", n);
        if (found)
            expect_ratio(&a.cost, &a.bottom, best_top, best_bottom);
        lml_simplex_free(&a);
    }
    cr_expect_gt(corners, 3000);
}

/* --- GLPK ------------------------------------------------------------------------------------ */

static void write_terms(FILE *f, const lml_i128 a[], int count)
{
    for (int j = 0; j < count; j++)
        fprintf(f, " %+lld x%d", (long long)a[j], j);
}

/* The CPLEX LP format that glpsol reads. */
static void write_programme(const programme *p, const char *path)
{
    int columns = p->problem.columns;
    FILE *f = fopen(path, "w");
    cr_assert_not_null(f, "%s cannot be written", path);
    fputs("Minimize\n cost:", f);
    write_terms(f, p->cost, columns);
    fputs("\nSubject To\n any: +1 x0 >= -1000\n", f); /* the format wants at least one */
    for (int i = 0; i < p->problem.rows; i++)
        for (int high = 0; high < 2; high++) {
            const lml_simplex_range *r = &p->row[i];
            if (!(high ? r->has_high : r->has_low))
                continue;
            fprintf(f, " r%d_%d:", i, high);
            write_terms(f, &p->matrix[i * columns], columns);
            fprintf(f, " %s %lld\n", high ? "<=" : ">=", (long long)(high ? r->high : r->low));
        }
    fputs("Bounds\n", f);
    for (int j = 0; j < columns; j++) {
        fprintf(f, " x%d >= %lld\n", j, (long long)p->column[j].low);
        if (p->column[j].has_high)
            fprintf(f, " x%d <= %lld\n", j, (long long)p->column[j].high);
    }
    fputs("End\n", f);
    cr_assert_eq(fclose(f), 0);
}

/* Whether GLPK found an optimum, and its cost: the line "s bas ROWS COLUMNS PRIMAL DUAL COST". */
static bool ask_glpk(const char *problem, const char *answer, double *cost)
{
    char command[1024], line[256], primal, dual;
    snprintf(command, sizeof command, "glpsol --lp '%s' -w '%s' > /dev/null 2>&1", problem, answer);
    cr_assert_eq(system(command), 0, "glpsol failed");
    FILE *f = fopen(answer, "r");
    cr_assert_not_null(f);
    bool read = false;
    while (!read && fgets(line, sizeof line, f))
        read = sscanf(line, "s bas %*d %*d %c %c %lf", &primal, &dual, cost) == 3;
    fclose(f);
    cr_assert(read, "no answer in %s", answer);
    return primal == 'f' && dual == 'f';
}

Test(simplex_random, agrees_with_glpk_to_nine_digits)
{
    if (system("command -v glpsol > /dev/null 2>&1") != 0)
        cr_skip_test("glpsol is not installed (Debian: glpk-utils): not compared with GLPK");
    const char *problem = LML_BINARY_DIR "/simplex.lp", *answer = LML_BINARY_DIR "/simplex.sol";
    int optimal = 0;
    state = 4;
    for (int n = 0; n < 200; n++) {
        programme p;
        if (n % 4 == 0)
            draw_small(&p, draw(2, 8), draw(1, 8));
        else
            draw_charge(&p, draw(6, COLUMNS), draw(2, 6));
        write_programme(&p, problem);
        double cost;
        bool found = ask_glpk(problem, answer, &cost);
        lml_simplex_answer a = solve(&p);
        cr_assert_eq(a.outcome == LML_SIMPLEX_OPTIMAL, found, "case %d", n);
        if (found) {
            optimal++;
            cr_assert(fabs(a.nearest_cost - cost) <= 1e-9 * fmax(1, fabs(cost)),
                      "case %d: %.17g, GLPK %.17g", n, a.nearest_cost, cost);
        }
        lml_simplex_free(&a);
    }
    cr_expect_gt(optimal, 60);
    remove(problem);
    remove(answer);
}
