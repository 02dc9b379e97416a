#!/usr/bin/env python3
"""The charges of the demo's jobs solved again by GLPK (Debian: glpk-utils), a library that shares no code with us.

    charges.py PATH-OF-LEMEL FOLDER-OF-SHARE

A copy of lemel's recipes is told to print what it asks of craft.charge: lots with their fineness, spread and price, the wanted
mass, limits, reuse, colour, roof, the aim. Each such question becomes a linear programme: where there is an answer, it must keep every
limit and be as good as GLPK's, and where it is to be like an alloy, first of all or where the aim leaves a choice, as near to that, but for the steps of the scale; where there is none, GLPK must find none either. The five main
jobs are asked again with the other aims, and with less old metal than the client's must come to. Charges drawn at
random are asked with their lots in another order: the same must be weighed out.
"""
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile
from fractions import Fraction
from random import Random

TELL = '''
local asked_all = {}
local function posed(asked)
  local c, all = craft.charge(asked), {}
  for _, w in ipairs(c.weigh or {}) do table.insert(all, tostring(w.lot) .. ":" .. tostring(w.mass:number "g")) end
  table.insert(asked_all, { asked, c.reason, table.concat(all, ",") })
  return c
end
local function grams(m) return m and tostring(m:number "g") or "" end
local function parts_of(metal)
  local out = {}
  for _, s in ipairs { "Au", "Ag", "Cu", "Zn", "Ni", "Pd", "Pt", "Ga", "In", "Sn", "Ir", "Ru", "Rh", "Cd", "Pb", "Co", "Si", "Ge" } do
    local f = metal:fineness(s)
    if not f:is_zero() then
      local u = type(metal) == "assay" and f:deviation()
      table.insert(out, s .. ":" .. tostring(f:number "‰") .. ":" .. (u and tostring(u:number "Δ‰") or "0"))
    end
  end
  return table.concat(out, ",")
end
local function weights_of(list)
  local out = {}
  for name, w in pairs(list) do table.insert(out, name .. ":" .. tostring(w)) end
  return table.concat(out, ",")
end
local function tell(sheet, blends, most)
  for k, pair in ipairs(asked_all) do
    local a, reason, n = pair[1], pair[2], 0
    local function put(...)
      n = n + 1
      sheet.cost:note("posed-" .. tostring(k) .. "-" .. tostring(n), "posed|" .. tostring(k) .. "|" .. table.concat({ ... }, "|"))
    end
    put("ask", grams(a.mass), a.at_least and "more" or "exactly", a.objective, a.client or "", grams(a.step))
    for i, l in ipairs(a.lots) do
      put("lot", tostring(i), l.owner or "", grams(l.available), l.must_use and "must" or "", l.old and "old" or "",
          l.price and tostring(l.price:number(l.price:currency() .. "/g")) or l.rank and tostring(l.rank) or "", parts_of(l.composition), l.name)
    end
    if a.like then put("like", a.like.besides, parts_of(a.like.alloy)) end
    for _, b in ipairs(a.bounds or {}) do
      put("bound", b.metal, b.low and tostring(b.low:number "‰") or "", b.high and tostring(b.high:number "‰") or "", tostring(b.guard or 0))
    end
    for _, s in ipairs(a.shares or {}) do put("share", s.lots, tostring(s.most:number "%")) end
    for _, b in ipairs(a.blends or blends) do put("blend", tostring(b.least), tostring(b.most), weights_of(b.part), weights_of(b.whole)) end
    put("roof", a.bounds[1].metal, tostring(most:number "‰"))
    put(reason and "none" or "found", reason or pair[3])
  end
end
'''


def patched(folder, lemel, share, also=""):
    """lemel and its recipes in the folder, the charge's script with what it asks printed; `also` sets what it asks for."""
    folder.mkdir()
    shutil.copy(lemel, folder / "lemel")
    for name in ("recipes", "scripts", "examples"):
        shutil.copytree(share / name, folder / "share/lemel" / name)
    script = folder / "share/lemel/scripts/charging.lua"
    text = script.read_text()
    text = text.replace("craft.charge(", "posed(").replace("local function solve(", "local function solve_it(")
    first = 'local colours = require "colours"\n'
    assert first in text and "\nreturn { solve = solve," in text
    text = text.replace(first, first + TELL)
    text = text.replace("\nreturn { solve = solve,", """
local function solve(lots, aim, limit, client, job, house, sheet, withheld)
  ALSO
  local c, band = solve_it(lots, aim, limit, client, job, house, sheet, withheld)
  local _, blends = limits_of(job, house)
  tell(sheet, blends, job.roof or fineness(job.target.metal, min(1, job.target:number "‰" / 1000 + house.roof_room:number())))
  return c, band
end
return { solve = solve,""".replace("ALSO", also))
    script.write_text(text)
    return folder / "lemel"


def exact(text, scale=1):
    return Fraction(text) * scale


def pairs(text, scale):
    out = {}
    for one in filter(None, text.split(",")):
        name, *numbers = one.split(":")
        out[name] = [exact(n, scale) for n in numbers]
    return out


def questions(result):
    """What was asked, in order: a record for each call."""
    asked = {}
    texts = [e["text"] for e in result.get("remarks", []) if e.get("text", "").startswith("posed|")]
    for text in texts:
        _, k, what, *rest = text.split("|")
        q = asked.setdefault(int(k), {"lots": [], "bounds": [], "shares": [], "blends": [], "found": None, "like": None})
        if what == "ask":
            q["mass"], q["more"], q["aim"], q["client"], q["step"] = exact(rest[0]), rest[1] == "more", rest[2], rest[3], exact(rest[4])
        elif what == "lot":
            q["lots"].append({"name": rest[7], "owner": rest[1], "available": exact(rest[2]) if rest[2] else None, "must": rest[3] == "must",
                              "old": rest[4] == "old", "price": exact(rest[5]) if rest[5] else Fraction(0),
                              "parts": pairs(rest[6], Fraction(1, 1000))})
        elif what == "bound":
            q["bounds"].append((rest[0], exact(rest[1], Fraction(1, 1000)) if rest[1] else None,
                                exact(rest[2], Fraction(1, 1000)) if rest[2] else None, exact(rest[3])))
        elif what == "like":
            q["like"] = (rest[0], pairs(rest[1], Fraction(1, 1000)))
        elif what == "roof":
            q["bounds"].append((rest[0], None, exact(rest[1], Fraction(1, 1000)), Fraction(0)))
        elif what == "share":
            assert rest[0] == "old"
            q["shares"].append(exact(rest[1], Fraction(1, 100)))
        elif what == "blend":
            q["blends"].append((exact(rest[0]), exact(rest[1]), pairs(rest[2], 1), pairs(rest[3], 1)))
        elif what == "found":
            q["found"] = {int(a) - 1: exact(m) for a, m in (one.split(":") for one in rest[0].split(","))}
    return [asked[k] for k in sorted(asked)]


def part(lot, metal, side=0):
    """The fraction of a metal, `side` deviations higher; unnamed metal is what the named ones leave."""
    if metal == "unnamed":
        return 1 - sum(p[0] for p in lot["parts"].values())
    fine, spread = lot["parts"].get(metal, [0, 0])
    return fine + side * spread


def rows(q):
    """Each limit as (name, coefficients, at least 0)."""
    out = []
    for metal, low, high, guard in q["bounds"]:
        if low is not None:
            out.append((f"least {metal}", [part(l, metal, -guard) - low for l in q["lots"]]))
        if high is not None:
            out.append((f"most {metal}", [high - part(l, metal, guard) for l in q["lots"]]))
    for most in q["shares"]:
        out.append(("old metal", [most - l["old"] for l in q["lots"]]))
    for least, most, above, below in q["blends"]:
        a = [sum(w[0] * part(l, m) for m, w in above.items()) for l in q["lots"]]
        b = [sum(w[0] * part(l, m) for m, w in below.items()) for l in q["lots"]]
        out.append(("palest", [x - least * y for x, y in zip(a, b)]))
        out.append(("reddest", [most * y - x for x, y in zip(a, b)]))
    return out


LIKE = "most like the alloy"


def worth(q):
    """What a gram of each lot adds to the figure that is to be least."""
    if q["aim"] == "least cost":
        return [l["price"] for l in q["lots"]]
    if q["aim"] == "least new metal":
        return [Fraction(not l["old"]) for l in q["lots"]]
    if q["aim"] == LIKE:
        return [Fraction(0)] * len(q["lots"])   # the aim is what is off
    assert q["aim"] == "most of the client's metal", q["aim"]
    return [-Fraction(l["owner"] == q["client"]) for l in q["lots"]]


def second_worth(q):
    """What settles charges that are of equal worth."""
    return [Fraction(not l["old"]) if q["aim"] == "least cost" else l["price"] for l in q["lots"]]


def off(q):
    """For each metal that the charge is to be like an alloy in, what a gram of each lot has too much of it: against its share of
    all those metals in the alloy."""
    besides, alloy = q["like"]
    due = {m: p[0] for m, p in alloy.items() if m != besides}
    whole, metals = sum(due.values()), {m for l in q["lots"] for m in l["parts"]} | set(due)
    compared = [sum(part(l, m) for m in l["parts"] if m != besides) for l in q["lots"]]
    return [[part(l, m) - due.get(m, 0) / whole * c for l, c in zip(q["lots"], compared)] for m in sorted(metals - {besides})] if whole else []


def least_off(q, folder, best):
    """How near to the alloy it can come, of the charges of the best worth and second worth."""
    second = glpk(q, folder, second_worth(q), [(worth(q), best)])
    return glpk(q, folder, [Fraction(0)] * len(q["lots"]), [(worth(q), best), (second_worth(q), second)], off(q))


def glpk(q, folder, aim=None, at_most=(), near=(), near_most=None):
    """The least of the aim, or None where nothing is possible; with each of `at_most` no more than its figure, and what each of
    `near` is off zero added to the aim, or together at most `near_most`."""
    problem, answer = folder / "charge.lp", folder / "charge.sol"
    def terms(numbers):
        return " ".join(f"{float(n):+.15g} x{i}" for i, n in enumerate(numbers))
    apart = "".join(f" + p{k} + n{k}" for k in range(len(near)))
    lines = ["Minimize", " worth: " + terms(aim or worth(q)) + (apart if near_most is None else ""), "Subject To",
             f" mass: {terms([1] * len(q['lots']))} {'>=' if q['more'] else '='} {float(q['mass']):.15g}"]
    lines += [f" r{i}: {terms(numbers)} >= 0" for i, (_, numbers) in enumerate(rows(q))]
    lines += [f" m{k}: {terms(numbers)} <= {most + 1e-8 * (1 + abs(most)):.15g}" for k, (numbers, most) in enumerate(at_most)]
    lines += [f" d{k}: {terms(numbers)} - p{k} + n{k} = 0" for k, numbers in enumerate(near)]
    if near_most is not None:
        lines.append(f" near:{apart} <= {near_most:.15g}")
    lines.append("Bounds")
    for i, l in enumerate(q["lots"]):
        if l["must"]:
            lines.append(f" x{i} = {float(l['available']):.15g}")
        elif l["available"] is not None:
            lines.append(f" 0 <= x{i} <= {float(l['available']):.15g}")
    problem.write_text("\n".join(lines + ["End", ""]))
    subprocess.run(["glpsol", "--lp", str(problem), "-w", str(answer)], check=True, capture_output=True)
    for line in answer.read_text().splitlines():
        words = line.split()
        if words[:2] == ["s", "bas"]:
            return float(words[6]) if words[4] == words[5] == "f" else None
    raise RuntimeError("GLPK gave no answer")


def steps(q, numbers, found):
    """What the scale's steps may change of a sum."""
    return float(sum(2 * q["step"] * abs(numbers[i]) for i in found))


def fault_of_likeness(q, x, best, folder, counts):
    """As like the alloy as can be; and of what is as like, the cheapest: GLPK's optimum, but for the scale's steps of each lot."""
    counts["first"] += 1
    gap, slack = sum(abs(sum(a * b for a, b in zip(row, x))) for row in off(q)), sum(steps(q, row, q["found"]) for row in off(q))
    if not best - 1e-6 <= gap <= best + slack + 1e-6:
        return f"{float(gap)} g unlike {q['like'][1]}, GLPK {best}, the scale's steps {slack}"
    prices = [l["price"] for l in q["lots"]]
    cost, least = sum(a * b for a, b in zip(prices, x)), glpk(q, folder, prices, (), off(q), best + 1e-6)
    if cost > least + steps(q, prices, q["found"]) + 1e-4 * (1 + abs(least)):
        return f"as like as can be, it costs {float(cost)}, GLPK {least}, the scale's steps {steps(q, prices, q['found'])}"
    return ""


def best_of(q, folder):
    """What GLPK finds for the aim."""
    return glpk(q, folder, None, (), off(q)) if q["aim"] == LIKE else glpk(q, folder)


def fault(q, best, folder, counts):
    """What is wrong with the answer; the empty text if nothing is."""
    found = q["found"]
    if best is None or found is None:
        return "" if best is None and found is None else f"GLPK finds {best}, lemel {found}"
    x = [found.get(i, Fraction(0)) for i in range(len(q["lots"]))]
    for i, l in enumerate(q["lots"]):
        if l["available"] is not None and x[i] > l["available"] or l["must"] and x[i] != l["available"]:
            return f"lot {i + 1}: {float(x[i])} g of {float(l['available'])} g"
    for name, numbers in rows(q):
        if sum(a * b for a, b in zip(numbers, x)) < -Fraction(1, 10 ** 12):
            return f"the limit {name} is not kept"
    total, room = sum(x), 2 * q["step"] * len(found)
    if total < q["mass"] or not q["more"] and total > q["mass"] + room:
        return f"{float(total)} g for {float(q['mass'])} g"
    if q["aim"] == LIKE:
        return fault_of_likeness(q, x, best, folder, counts)
    good, slack = sum(a * b for a, b in zip(worth(q), x)), sum(2 * q["step"] * abs(worth(q)[i]) for i in found)
    if not best - 1e-6 * (1 + abs(best)) <= good <= best + float(slack) + 1e-6 * (1 + abs(best)):
        return f"{q['aim']}: {float(good)}, GLPK {best}, the scale's steps {float(slack)}"
    if q["like"] and off(q):
        counts["like"] += 1
        nearest, gap = least_off(q, folder, best), sum(abs(sum(a * b for a, b in zip(row, x))) for row in off(q))
        slack = sum(2 * q["step"] * abs(row[i]) for row in off(q) for i in found)
        if gap > nearest + float(slack) + 5e-3:   # GLPK takes 0.00001 of the worth for nothing
            return f"{float(gap)} g unlike {q['like'][1]}, GLPK {nearest}, the scale's steps {float(slack)}"
    return ""


MAIN = ("cuff-links", "red-ring", "spoon-pendant", "warden-rings", "white-band")
AGAIN = {"new": 'aim = "least new metal"', "client": 'aim = "most of the client\'s metal" client = client or lots[1].owner or "nobody"',
         "less": 'limit = Q "1 %" for _, l in ipairs(lots) do if l.old then l.must_use = true end end'}


def check(own, jobs, wanted, counts, faults):
    for job in sorted(jobs.glob("*.json")):
        if wanted and job.stem not in wanted:
            continue
        out = subprocess.run([own, "run", job, "--format", "json", "-q"], capture_output=True, text=True)
        asked = questions(json.loads(out.stdout)) if out.stdout else []
        counts["jobs"] += len(asked) > 0
        for n, q in enumerate(asked):
            best = best_of(q, own.parent)
            wrong = fault(q, best, own.parent, counts)
            counts["solved" if best is not None else "refused"] += 1
            if wrong:
                faults.append(f"{own.parent.name}: {job.name}, question {n + 1}: {wrong}")


def drawn_white(random):
    """A charge of silver or platinum whose alloy is named."""
    metal, part, alloy, rest = random.choice([("Ag", 925, {"Cu": "60 ‰", "Zn": "15 ‰"}, [("copper", "Cu", 0.01), ("zinc", "Zn", 0.02)]), ("Ag", 958, {"Cu": "42 ‰"}, [("copper", "Cu", 0.01), ("tin", "Sn", 0.03)]),
                                              ("Pt", 950, {"Ru": "50 ‰"}, [("copper", "Cu", 0.01), ("ruthenium", "Ru", 15)]), ("Pt", 950, {"Ir": "30 ‰", "Cu": "20 ‰"}, [("iridium", "Ir", 150), ("copper", "Cu", 0.01)])])
    fine = 33 if metal == "Pt" else 1.1
    lots = [{"name": "old", "metal": {metal: f"{part + random.randint(-40, 20)} ‰", "Cu": "20 ‰"}, "mass": f"{random.randint(20, 90) / 10} g", "old": True, "price": f"{fine * 0.8} USD/g"},
            {"name": "fine", "metal": {metal: "999.5 ‰"}, "price": f"{fine} USD/g"}]
    lots += [{"name": name, "metal": {symbol: "1000 ‰"}, "price": f"{price} USD/g"} for name, symbol, price in rest]
    if random.random() < 0.3:
        del lots[-1]["price"]
    return {"recipe": "charge", "given": {"mass": f"{random.randint(200, 400) / 10} g", "target": f"{part} ‰ {metal}", "colour_like": {"composition": {metal: f"{part} ‰", **alloy}},
                                          "lots": lots}, "house": {"scale_step": "0.01 g"}}


def drawn(random):
    """A charge with more ways to make it than one: old metal, fine metals, copper and brass, grain, with prices or without."""
    alloy, gold = random.choice([("Au585 yellow", 585), ("Au750 yellow 3N", 750), ("Au585 yellow pale", 585), ("Au750 palladium white", 750)])
    lots = [{"name": "old", "metal": f"{random.randint(500, 900)} ‰ Au", "mass": f"{random.randint(50, 150) / 10} g", "old": True},
            {"name": "fine gold", "metal": "Au999.9 fine", "price": "98 USD/g"}, {"name": "silver", "metal": {"Ag": "999 ‰"}, "price": "1.2 USD/g"},
            {"name": "copper", "metal": {"Cu": "1000 ‰"}, "price": "1.2 USD/g"}]
    lots += random.sample([{"name": "brass", "metal": {"Cu": "600 ‰", "Zn": "400 ‰"}, "price": "1.2 USD/g"}, {"name": "palladium", "metal": "Pd fine", "price": "40 USD/g"},
                           {"name": "grain", "metal": alloy, "price": f"{gold / 10} USD/g"}], random.randint(0, 3))
    if "palladium" in alloy and all(l["name"] not in ("palladium", "grain") for l in lots):
        lots.append({"name": "palladium", "metal": "Pd fine", "price": "40 USD/g"})
    if random.random() < 0.6:
        del lots[-1]["price"]   # then the cost is not the aim
    return {"recipe": "charge", "given": {"mass": f"{random.randint(200, 400) / 10} g", "target": f"{gold + random.randint(0, 5)} ‰", "colour_like": alloy,
                                          "lots": lots}, "house": {"scale_step": "0.01 g"}}


def check_orders(own, counts, faults):
    """Whatever order the lots are listed in, the same is weighed out."""
    random, other = Random(14), Random(15)
    job = own.parent.parent / "drawn/jobs/charge.json"
    job.parent.mkdir(parents=True)
    for k in range(32):
        drawing, first = drawn_white(other) if k % 4 == 3 else drawn(random), None
        for _ in range(4):
            job.write_text(json.dumps(drawing))
            ran = subprocess.run([own, "run", job, "--format", "json", "-q"], capture_output=True, text=True, cwd=job.parent)
            assert ran.stdout, ran.stderr
            out = json.loads(ran.stdout)
            last = questions(out)[-1]   # those before it were asked without the roof
            wrong = fault(last, best_of(last, own.parent), own.parent, counts)
            faults += [f"drawn {k}: {wrong}"] if wrong else []
            counts["drawn"] += 1
            named = {"none": True} if last["found"] is None else {last["lots"][i]["name"]: m for i, m in last["found"].items()}
            if first not in (None, named):
                faults.append(f"drawn {k}: {first} or {named}, by the order of the lots")
            first = named
            random.shuffle(drawing["given"]["lots"])


def main(lemel, share):
    if not shutil.which("glpsol"):
        print("skipped: glpsol is not installed (Debian: glpk-utils)")
        return 0
    faults, counts = [], {"jobs": 0, "solved": 0, "refused": 0, "like": 0, "first": 0, "drawn": 0}
    with tempfile.TemporaryDirectory() as scratch:
        for name, also in [("said", "")] + list(AGAIN.items()):
            folder = pathlib.Path(scratch) / name
            own = patched(folder, pathlib.Path(lemel).resolve(), pathlib.Path(share).resolve(), also)
            if name == "said":
                check_orders(own, counts, faults)
            check(own, folder / "share/lemel/examples/jobs", MAIN if also else (), counts, faults)
    for f in faults:
        print(f)
    print("{jobs} jobs, {solved} charges solved by GLPK too, {refused} that have no answer, {like} as near to an alloy as they can be, {first} of them made so first of all, {drawn} in four orders, {0} faults".format(len(faults), **counts))
    return 0 if counts["jobs"] >= 25 and counts["refused"] > 0 and counts["like"] > 20 and counts["first"] > 10 and not faults else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2]))
