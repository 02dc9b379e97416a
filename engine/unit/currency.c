#include "unit/currency.h"

#include <string.h>

/* ISO 4217 list one, currencies in circulation. Codes and minor units: the list of 2024-06-25 as
 * the package currency-codes 2.2.0 publishes it; amended from memory, unverified, by ZWG for ZWL
 * (2024) and XCG beside ANG (2025). Codes of precious metals, funds and tests are left out: they
 * are not money that a client can pay. */
/* clang-format off */
#define CODES_0(X)                                                                                 \
    X(BIF)                                                                                         \
    X(CLP)                                                                                         \
    X(DJF) X(GNF) X(ISK) X(JPY) X(KMF) X(KRW) X(PYG) X(RWF) X(UGX) X(VND) X(VUV) X(XAF) X(XOF)     \
        X(XPF)
/* clang-format on */
/* clang-format off */
#define CODES_2(X)                                                                                 \
    X(AED)                                                                                         \
    X(AFN)                                                                                         \
    X(ALL) X(AMD) X(ANG) X(AOA) X(ARS) X(AUD) X(AWG) X(AZN) X(BAM) X(BBD) X(BDT) X(BGN) X(BMD)     \
        X(BND) X(BOB) X(BRL) X(BSD) X(BTN) X(BWP) X(BYN) X(BZD) X(CAD) X(CDF) X(CHF) X(CNY) X(COP) \
            X(CRC) X(CUP) X(CVE) X(CZK) X(DKK) X(DOP) X(DZD) X(EGP) X(ERN) X(ETB) X(EUR) X(FJD)    \
                X(FKP) X(GBP) X(GEL) X(GHS) X(GIP) X(GMD) X(GTQ) X(GYD) X(HKD) X(HNL) X(HTG)       \
                    X(HUF) X(IDR) X(ILS) X(INR) X(IRR) X(JMD) X(KES) X(KGS) X(KHR) X(KPW) X(KYD)   \
                        X(KZT) X(LAK) X(LBP) X(LKR) X(LRD) X(LSL) X(MAD) X(MDL) X(MGA) X(MKD)      \
                            X(MMK) X(MNT) X(MOP) X(MRU) X(MUR) X(MVR) X(MWK) X(MXN) X(MYR) X(MZN)  \
                                X(NAD) X(NGN) X(NIO) X(NOK) X(NPR) X(NZD) X(PAB) X(PEN) X(PGK)     \
                                    X(PHP) X(PKR) X(PLN) X(QAR) X(RON) X(RSD) X(RUB) X(SAR) X(SBD) \
                                        X(SCR) X(SDG) X(SEK) X(SGD) X(SHP) X(SLE) X(SOS) X(SRD)    \
                                            X(SSP) X(STN) X(SVC) X(SYP) X(SZL) X(THB) X(TJS)       \
                                                X(TMT) X(TOP) X(TRY) X(TTD) X(TWD) X(TZS) X(UAH)   \
                                                    X(USD) X(UYU) X(UZS) X(VED) X(VES) X(WST)      \
                                                        X(XCD) X(XCG) X(YER) X(ZAR) X(ZMW) X(ZWG)
/* clang-format on */
#define CODES_3(X) X(BHD) X(IQD) X(JOD) X(KWD) X(LYD) X(OMR) X(TND)

static const lml_currency_row currencies[] = {{"", 0},
#define X(code) {#code, 0},
                                              CODES_0(X)
#undef X
#define X(code) {#code, 2},
                                                  CODES_2(X)
#undef X
#define X(code) {#code, 3},
                                                      CODES_3(X)
#undef X
};

size_t lml_currency_count(void)
{
    return sizeof currencies / sizeof *currencies;
}

const lml_currency_row *lml_currency_at(uint16_t index)
{
    return &currencies[index < lml_currency_count() ? index : 0];
}

/* How many have each minor unit: they stand together, each list by the alphabet. */
#define X(code) +1
enum { COUNT_0 = 0 CODES_0(X), COUNT_2 = 0 CODES_2(X), COUNT_3 = 0 CODES_3(X) };
#undef X

static uint16_t find_among(lml_span code, unsigned from, unsigned count)
{
    for (unsigned end = from + count; from < end;) {
        unsigned middle = (from + end) / 2;
        int order = memcmp(code.at, currencies[middle].code, 3);
        if (order == 0)
            return (uint16_t)middle;
        if (order < 0)
            end = middle;
        else
            from = middle + 1;
    }
    return 0;
}

uint16_t lml_currency_by_code(lml_span code)
{
    if (code.length != 3 || code.at[0] < 'A' ||
        code.at[0] > 'Z') /* most words that are asked about */
        return 0;
    uint16_t found = find_among(code, 1 + COUNT_0, COUNT_2);
    found = found ? found : find_among(code, 1, COUNT_0);
    return found ? found : find_among(code, 1 + COUNT_0 + COUNT_2, COUNT_3);
}

uint16_t lml_currency_of_place(lml_span place)
{
    uint16_t found = 0;
    if (place.length < 2 || (place.length > 2 && place.at[2] != '-'))
        return 0;
    for (uint16_t i = 1; i < lml_currency_count(); i++) {
        if (memcmp(place.at, currencies[i].code, 2) != 0)
            continue;
        if (found)
            return 0;
        found = i;
    }
    return found;
}
