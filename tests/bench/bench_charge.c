/* How long a charge takes to solve exactly: 8 lots under 4 rules, 100 lots under 12, and 100 lots
 * that clash. The lots are random, with the digits that a workshop's figures have; the rules are
 * set around a random blend of the lots, so that they bind and can be met. */
#include "craft/charge.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

enum { LOTS = 100, RULES = 12, INSTANCES = 200 };

static uint64_t state = 20261124;

static int draw(int low, int high)
{
    state = state * 6364136223846793005u + 1442695040888963407u;
    return low + (int)((state >> 33) % (uint64_t)(high - low + 1));
}

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

typedef struct instance {
    lml_charge_lot lot[LOTS];
    lml_charge_rule rule[RULES];
    bool group[RULES][LOTS];
    lml_charge_problem problem;
} instance;

static const lml_metal metals[] = {LML_Au, LML_Ag, LML_Cu, LML_Zn, LML_Ni};
enum { METALS = sizeof metals / sizeof *metals };

/* Fractions in tenths of a thousandth; what is left after the last but one is the last. */
static void draw_lot(lml_charge_lot *lot)
{
    *lot = (lml_charge_lot){.name = "lot", .is_old = draw(0, 1) == 1};
    int left = 10000;
    for (int m = 0; m < METALS; m++) {
        int part = m == METALS - 1 ? left : draw(0, m == 0 ? 9999 : left);
        lot->composition.part[metals[m]] = part / 10000.0;
        left -= part;
    }
    lot->deviation.part[LML_Au] = draw(0, 40) / 10000.0;
    lot->available = draw(100, 4000) / 1e5;
    lot->price = lot->composition.part[LML_Au] * 100000 + draw(0, 400000) / 100.0;
    lot->generation = lot->is_old ? draw(1, 3) : 0;
}

static double blend(const instance *in, const double x[], const lml_charge_rule *rule)
{
    double sum = 0, mass = 0;
    for (int j = 0; j < in->problem.lots; j++) {
        double q = rule->group ? rule->group[j] : in->lot[j].composition.part[rule->metal];
        sum += q * x[j];
        mass += x[j];
    }
    return sum / mass;
}

/* Metals in turn, at least and at most, then groups; each a little wider than the blend. */
static void draw_rules(instance *in, const double x[], double slack)
{
    for (int r = 0; r < in->problem.rules; r++) {
        lml_charge_rule *rule = &in->rule[r];
        *rule = (lml_charge_rule){.at_least = r % 2 == 0};
        if (r < 8)
            rule->metal = metals[r / 2];
        else
            rule->group = in->group[r];
        for (int j = 0; j < in->problem.lots; j++)
            in->group[r][j] = r == 8 ? in->lot[j].is_old : draw(0, 3) == 0;
        double limit = blend(in, x, rule) + (rule->at_least ? -slack : slack);
        limit = limit < 0 ? 0 : limit > 1 ? 1 : limit;
        int tenths = (int)(limit * 10000);
        rule->limit = (rule->at_least || tenths == 10000 ? tenths : tenths + 1) / 10000.0;
    }
}

static void draw_instance(instance *in, int lots, int rules, double slack)
{
    double x[LOTS], mass = 0;
    in->problem =
        (lml_charge_problem){.lot = in->lot, .rule = in->rule, .lots = lots, .rules = rules};
    for (int j = 0; j < lots; j++) {
        draw_lot(&in->lot[j]);
        x[j] = draw(0, (int)(in->lot[j].available * 5e4 + 0.5)) / 1e5;
        mass += x[j];
    }
    in->problem.mass = (double)(int)(mass * 1e5 + 0.5) / 1e5;
    draw_rules(in, x, slack);
}

static int measure(const char *title, int lots, int rules, double slack)
{
    static instance in;
    lml_alloc heap = lml_alloc_heap();
    double total = 0, worst = 0;
    int possible = 0;
    for (int i = 0; i < INSTANCES; i++) {
        draw_instance(&in, lots, rules, slack);
        lml_charge_answer answer;
        lml_error err;
        double start = now();
        lml_status s = lml_charge_solve(&in.problem, &heap, &answer, &err);
        double took = now() - start;
        if (s != LML_OK) {
            fprintf(stderr, "%s, instance %d: %s\n", title, i, err.message);
            return 1;
        }
        possible += answer.possible;
        total += took;
        worst = took > worst ? took : worst;
        lml_charge_free(&answer);
    }
    printf("%-32s %4d of %d possible   mean %8.3f ms   worst %8.3f ms\n", title, possible,
           INSTANCES, total / INSTANCES, worst);
    return 0;
}

int main(void)
{
    int failed = measure("8 lots, 4 rules", 8, 4, 0.002);
    failed |= measure("8 lots, 8 rules", 8, 8, 0.002);
    failed |= measure("100 lots, 12 rules", 100, 12, 0.01);
    failed |= measure("100 lots, 12 rules, tight", 100, 12, 0.0005);
    failed |= measure("100 lots, 12 rules that clash", 100, 12, -0.1);
    return failed;
}
