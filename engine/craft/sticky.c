#include "craft/sticky.h"

#include "craft/scaled.h"

static lml_big settled(lml_sticky *work, lml_status status, const lml_big *result)
{
    if (status != LML_OK && work->status == LML_OK)
        work->status = status;
    return work->status == LML_OK ? *result : lml_big_of(0);
}

lml_big lml_sticky_mul(lml_sticky *work, const lml_big *a, const lml_big *b)
{
    lml_big product = lml_big_of(0);
    if (a->sign == 0 || b->sign == 0)
        return product;
    return settled(work, lml_big_mul(a, b, &product, work->err), &product);
}

lml_big lml_sticky_sub(lml_sticky *work, const lml_big *a, const lml_big *b)
{
    lml_big difference = lml_big_of(0);
    return settled(work, lml_big_sub(a, b, &difference, work->err), &difference);
}

lml_big lml_sticky_divide(lml_sticky *work, const lml_big *a, const lml_big *b)
{
    lml_big quotient = lml_big_of(0);
    if (a->sign == 0)
        return quotient;
    return settled(work, lml_big_divide(a, b, &quotient, NULL, work->err), &quotient);
}

lml_big lml_sticky_ten_to(lml_sticky *work, int power)
{
    lml_big ten = lml_big_of(1);
    return settled(work, lml_big_ten_to(power, &ten, work->err), &ten);
}

void lml_sticky_add_product(lml_sticky *work, lml_big *sum, const lml_big *a, const lml_big *b)
{
    lml_big product;
    if (a->sign == 0 || b->sign == 0 || work->status != LML_OK)
        return;
    work->status = lml_big_mul(a, b, &product, work->err);
    if (work->status == LML_OK)
        work->status = lml_big_add(sum, &product, sum, work->err);
}

void lml_sticky_add_whole(lml_sticky *work, lml_big *sum, const lml_big *a, lml_i128 b)
{
    if (b == 0)
        return;
    lml_big whole = lml_scaled_big(b);
    lml_sticky_add_product(work, sum, a, &whole);
}
