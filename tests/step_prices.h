/* What one operation of a recipe costs: steps of the budget, and instructions of the processor. */
#ifndef LML_TESTS_STEP_PRICES_H
#define LML_TESTS_STEP_PRICES_H

#include <stdio.h>

typedef struct step_price {
    const char *name;
    unsigned long long steps,
        instructions;   /* of one turn: what it costs, and what callgrind counted (x86-64, -O2) */
    const char *before; /* outside the loop */
    const char *once;   /* in it, once a turn */
} step_price;

static const step_price STEP_PRICES[] = {
    {"sum of masses", 6, 997, "local a, b = Q \"1 g\", Q \"2.5 g\"", "local c = a + b"},
    {"compare", 4, 720, "local a, b = Q \"1 g\", Q \"2.5 g\"", "local c = a < b"},
    {"product", 6, 990, "local a, b = Q \"1 g\", 2.5", "local c = a * b"},
    {"money times", 6, 1130, "local a, b = Q \"1.23 EUR\", 2.537", "local c = a * b"},
    {"price times", 6, 1080, "local a, b = Q \"61.23 EUR/g\", Q \"3.7 g\"", "local c = a * b"},
    {"money over", 6, 1090, "local a, b = Q \"1.23 EUR\", 2.537", "local c = a / b"},
    {"power", 15, 2770, "local a = Q \"1.5 cm\"", "local c = a ^ 3"},
    {"up_to", 19, 2570, "local a, b = Q \"1.23 g\", Q \"0.1 g\"", "local c = a:up_to(b)"},
    {"up_to text", 19, 3140, "local a = Q \"1.23 g\"", "local c = a:up_to \"0.1 g\""},
    {"to", 19, 2420, "local a = Q \"1.23 g\"", "local c = a:as \"dwt\""},
    {"round money", 19, 1740, "local a = Q \"1.2345 EUR\"", "local c = a:rounded(\"half even\")"},
    {"tostring F", 254, 47500, "local v = Q \"1.2345678901234567 °F\"", "tostring(v)"},
    {"tostring g", 44, 5010, "local v = Q \"1.2345678901234567 g\" / 3", "tostring(v)"},
    {"tostring number", 24, 3960, "local v = 1.2345678901234567", "tostring(v)"},
    {"tostring moment", 44, 1790, "local v = Q \"2026-03-14T10:00\"", "tostring(v)"},
    {"tostring money", 44, 1710, "local v = Q \"1.234567 EUR\"", "tostring(v)"},
    {"tostring compound", 44, 7330, "local v = Q \"1.2345678901234567 Δ°F/h\"", "tostring(v)"},
    {"text.fill", 511, 98180, "local v = { a = Q \"1.2345678901234567 °F\" }",
     "text.fill(\"{a}\", v)"},
    {"text.fill 10", 5105, 969650, "local v = { a = Q \"1.2345678901234567 °F\" }",
     "text.fill(\"{a}{a}{a}{a}{a}{a}{a}{a}{a}{a}\", v)"},
    {"text.fill plain", 200, 15950, "local s, v = (\"x\"):rep(1000), {}", "text.fill(s, v)"},
    {"refused Q", 960, 39120, "", "pcall(Q, \"12 gramm\" .. i)"},
    {"refused Q long", 960, 184620, "local s = \"12 \" .. (\"gramm\"):rep(10)", "pcall(Q, s)"},
    {"refused Q unit", 960, 74670, "local s = \"12 kg/gramm·ferkel·mm·Btu\"", "pcall(Q, s)"},
    {"refused Q date", 960, 15050, "local s = \"2026-13-14T10:00\"", "pcall(Q, s)"},
    {"refused Q sum", 218, 35380, "local a, b = Q \"1 g\", Q \"1 mm\"",
     "pcall(function () return a + b end)"},
    {"read Q", 66, 4230, "", "local c = Q(i .. \".5 g\")"},
    {"read Q F", 66, 9640, "", "local c = Q(i .. \".2345678901 °F\")"},
    {"read Q compound", 66, 11630, "", "local c = Q(i .. \".5 mL/(100 g)\")"},
    {"read Q date", 67, 6760, "", "local c = Q(1000 + i % 8000 .. \"-03-14T10:00\")"},
    {"share 300", 63015, 3098400,
     "local w, m = {}, Q \"999.99 USD\" for i = 1, 300 do w[i] = 1 end", "m:share(w)"},
    {"share 3", 203, 5770, "local w, m = { 1, 2, 3 }, Q \"999.99 USD\"", "m:share(w)"},
    {"share 100 masses", 11015, 559160,
     "local w, m = {}, Q \"999.99 USD\" for i = 1, 100 do w[i] = Q \"1.37 g\" * i end",
     "m:share(w)"},
    {"pcall error", 205, 5200, "", "pcall(error, \"no\")"},
    {"pairs 1", 28, 3620, "local t = { a = 1 }", "for k, v in pairs(t) do end"},
    {"pairs 1000", 35491, 6126400, "local t = {} for i = 1, 1000 do t[\"k\" .. i] = i end",
     "for k, v in pairs(t) do break end"},
    {"ipairs 10", 38, 5780, "local t = { 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 }",
     "for k, v in ipairs(t) do end"},
    {"sort 1000", 27157, 3165000, "local t = {} for i = 1, 1000 do t[i] = i * 7919 % 1000 end",
     "table.sort(t)"},
    {"sort texts", 27157, 3829920,
     "local t = {} for i = 1, 1000 do t[i] = (\"x\"):rep(30) .. i * 7919 % 1000 end",
     "table.sort(t)"},
    {"sort values", 32209, 5643660,
     "local t = {} for i = 1, 1000 do t[i] = Q \"1 g\" * (i * 7919 % 1000) end", "table.sort(t)"},
    {"insert first", 2002, 294300, "local t = {} for i = 1, 1000 do t[i] = i end",
     "table.insert(t, 1, 1) table.remove(t, 1)"},
    {"table.concat 100", 306, 50630, "local t = {} for i = 1, 100 do t[i] = \"abc\" end",
     "table.concat(t, \",\")"},
    {"table.concat values", 25400, 4742880,
     "local t = {} for i = 1, 100 do t[i] = Q \"1.2345678901234567 °F\" end",
     "table.concat(t, \",\")"},
    {"unpack 100", 43, 5630, "local t = {} for i = 1, 100 do t[i] = i end",
     "local a = table.unpack(t)"},
    {"find", 200, 24380, "local s = (\"ab\"):rep(500)", "s:find(\"c\")"},
    {"words", 175, 27730, "local s = (\"a1,\"):rep(300)", "s:words()"},
    {"split", 1378, 119270, "local s = (\"ab,\"):rep(300)", "s:split(\",\")"},
    {"rep", 1001, 104030, "", "local s = (\"ab\"):rep(1000)"},
    {"lower", 69, 4320, "local s = (\"AB\"):rep(500)", "s:lower()"},
    {"sub", 73, 1950, "local s = (\"AB\"):rep(500)", "s:sub(2, -2)"},
    {"sum 100", 209, 30540, "local t = {} for i = 1, 100 do t[i] = Q \"1.2 g\" end", "sum(t)"},
    {"max", 7, 1180, "local a, b = Q \"1 g\", Q \"2 g\"", "local c = max(a, b)"},
    {"nil name", 1662, 28420, "local z local function f() return z + Q \"1 g\" end", "pcall(f)"},
    {"alloy", 216, 31040, "",
     "local c = alloy { name = \"x\", composition = { Au = \"750 ‰\", Ag = \"125 ‰\", Cu = \"125 "
     "‰\" } }"},
    {"craft.density", 211, 24730, "local t = { Au = \"750 ‰\", Ag = \"125 ‰\", Cu = \"125 ‰\" }",
     "craft.density(t)"},
    {"water_density", 25, 1570, "local t = Q \"20 °C\"", "craft.water_density(t)"},
    {"air_density", 27, 2130, "local p, t, h = Q \"1013.25 hPa\", Q \"20 °C\", Q \"50 %\"",
     "craft.air_density(p, t, h)"},
    {"standard_pressure", 25, 1750, "local h = Q \"1400 m\"", "craft.standard_pressure(h)"},
    {"station_pressure", 26, 2000, "local p, h = Q \"1013.25 hPa\", Q \"1400 m\"",
     "craft.station_pressure(p, h)"},
    {"boiling_pressure", 25, 1600, "local t = Q \"20 °C\"", "craft.boiling_pressure(t)"},
    {"boiling_temperature", 25, 2020, "local p = Q \"30 hPa\"", "craft.boiling_temperature(p)"},
    {"line", 106, 17680, "local v = Q \"1 g\"", "sheet.bench:line(\"n\", v)"},
    {"heading", 95, 8790, "", "sheet.bench:heading(\"n\")"},
};

/* The recipe "t" that does it so many times. */
static inline void step_price_recipe(const step_price *p, int turns, char *out, size_t size)
{
    snprintf(
        out, size,
        "return recipe { title = \"t\", version = \"1\", level = 1, gives = { n = give.number "
        "\"n\" },\n"
        "work = function (job, house, sheet)\n%s\nfor i = 1, %d do %s end\nreturn { n = 1 } end }",
        p->before, turns, p->once);
}

#endif
