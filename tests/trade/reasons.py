#!/usr/bin/env python3
"""Steps of lemel why reworked with pint (Debian: python3-pint), a library that shares no code with us.

    reasons.py PATH-OF-LEMEL FOLDER-OF-JOBS

For figures of each kind in the demo's jobs (price, charge, kiln, mark, wax, water, ring, stone, bath, account): each sum,
difference, product, quotient, power, root, largest and smallest on the way to the figure comes to what is printed, to the
last digits of a double; roundings lie on the step, on the right side and less than one step off; the root is the figure of
the result; and each leaf has a place or a source. Of craft.* what is one formula is reworked too, with published figures of the
elements and of water, each as near as its row of elements.tsv or water.tsv says: a density is known to some 0.5 %. A charge is
added up from the shares of its lots. What cannot be reworked is named in WHY_NOT, each kind with its reason. Every number of every job's result has such a root. What
is said of where a formula is published is in the headers of engine/craft, where it has a figure: a year, a page, a section.
"""
import datetime
import json
import math
import pathlib
import re
import statistics
import subprocess
import sys

try:
    import pint
except ImportError:
    print("skipped: no pint for Python")
    sys.exit(77)

ureg = pint.UnitRegistry()
ureg.define("permille = 1e-3")
ureg.define("karat = 1/24")
ureg.define("inHg_ = 3386.389 pascal")
for code in ("USD", "EUR", "GBP", "CAD", "AUD"):
    ureg.define(f"{code} = [money_{code}]")
METALS = {"Au", "Ag", "Cu", "Zn", "Ni", "Pd", "Pt", "In", "Ga", "Sn", "Cd", "Pb", "Ir", "Ru", "Rh", "Co", "Ge", "Si"}
UNITS = {"%": "percent_", "‰": "permille", "°C": "degC", "°F": "degF", "Δ°C": "delta_degC", "Δ°F": "delta_degF",
         "Δ‰": "permille", "kt": "karat", "mL": "milliliter", "cm3": "cm**3", "mm3": "mm**3", "mm2": "mm**2",
         "cm2": "cm**2", "dm2": "dm**2", "m2": "m**2", "m3": "m**3", "in2": "in**2", "in3": "in**3", "ozt": "troy_ounce", "dwt": "pennyweight", "in": "inch", "h": "hour", "min": "minute",
         "cal_th": "calorie", "gr": "grain", "ct": "metric_carat_", "inHg": "inHg_", "K": "kelvin"}
ureg.define("percent_ = 1e-2")
ureg.define("metric_carat_ = 0.2 gram")
NUMBER = re.compile(r"^[+-]?\d+(\.\d+)?([eE][+-]?\d+)?")


class Unread(Exception):
    pass


def unit(text):
    words = [w for w in re.split(r"([*/·()\s])", text) if w and not w.isspace()]
    out = []
    for w in words:
        if w in METALS or w in ("abs", "vac"):
            continue
        if w in "*/()":
            out.append(w)
        elif w == "·":
            out.append("*")
        elif NUMBER.match(w):
            out.append(w + "*")
        else:
            out.append(UNITS.get(w, w))
    return re.sub(r"\*\)", ")", "".join(out)).rstrip("*")


def value(text):
    """A text of a step as a quantity; moments, texts and alloys are not read."""
    text = text.strip().strip('"').split(" ± ")[0]
    found = NUMBER.match(text)
    if not found or re.match(r"^\d{4}-\d\d-\d\d|^\d\d:\d\d", text) or ".." in text:
        raise Unread(text)
    number, rest = float(found.group(0)), text[found.end():].strip()
    if " vac" in rest or " abs" in rest:
        raise Unread(text)
    try:
        return ureg.Quantity(number, unit(rest)) if rest else ureg.Quantity(number)
    except Exception as e:
        raise Unread(f"{text}: {e}")


def near(a, b, scale):
    return abs(a - b) <= 1e-12 * scale + 1e-300


def same(got, printed, parts):
    """Both in base units; the noise is that of the largest number that went in."""
    a, b = got.to_base_units(), printed.to_base_units()
    scale = max([abs(b.magnitude)] + [abs(p.to_base_units().magnitude) for p in parts if p.dimensionality == b.dimensionality])
    # Money is kept in millionths of its unit.
    money = any(str(d).startswith("[money_") for d in a.dimensionality) and len(a.dimensionality) == 1
    rounded = 5.1e-7 if money else 0
    return a.dimensionality == b.dimensionality and abs(a.magnitude - b.magnitude) <= 1e-12 * scale + rounded


def moment(text):
    """A moment as minutes, a time of day as minutes of its day; None for another text."""
    text = text.strip('"')
    if re.match(r"^\d{4}-\d\d-\d\dT\d\d:\d\d$", text):
        return ureg.Quantity((datetime.datetime.fromisoformat(text) - datetime.datetime(2000, 1, 1)).total_seconds() / 60, "minute")
    if re.match(r"^\d\d:\d\d$", text):
        return ureg.Quantity(60 * int(text[:2]) + int(text[3:]), "minute")
    return None


def number(q):
    return q.to_base_units().magnitude


def mean_of(q):
    return q.to("kelvin").magnitude


# What is one published formula.
FORMULAS = {
    "craft.heat_time": lambda p: p[0] / (p[1] * p[2]),
    "craft.normal": lambda p: ureg.Quantity(0.5 * math.erfc(-number(p[0]) / math.sqrt(2))),
    "craft.normal_quantile": lambda p: ureg.Quantity(statistics.NormalDist().inv_cdf(number(p[0]))),
    "craft.heat_needed": lambda p: p[-2] * (p[0] * ureg.Quantity(mean_of(p[-1]) - mean_of(p[1]), "kelvin") + (p[2] if len(p) == 5 else 0 * p[0] * ureg.kelvin)),
}


# The elements and water as published, and the part of it by which that may be off: elements.tsv and water.tsv name the handbooks.
# Where two handbooks have a figure, the first.
ELEMENTS = {}
FARADAY = 96485.33212   # C/mol: CODATA 2018


def read_elements(path):
    for line in path.read_text().splitlines():
        cells = line.split("\t")
        if len(cells) > 4 and re.match("metal=|celsius=", cells[2]):
            published, off = float(cells[3]), float(cells[4].rstrip("%"))
            ELEMENTS.setdefault((cells[1], cells[2].split("=")[1]), (published, off / 100 if "%" in cells[4] else off / published))


def of_alloy(named, molar):
    """A heat of the house's own alloy per mass, each element adding its own: J or kJ per mol over g per mol. And the part of it by
    which it may be off."""
    metals = ALLOYS[named]["composition"]
    return (sum(value(f).to("dimensionless").magnitude * ELEMENTS[molar, m][0] / ELEMENTS["atomic_weight", m][0] for m, f in metals.items()),
            max(ELEMENTS[molar, m][1] + ELEMENTS["atomic_weight", m][1] for m in metals))


def equalise(p):
    """Minutes until the centre of a cylinder is within a tolerance, behind a ramp: first term of the series for the cylinder
    (2.4048, 2 / (j J1(j)) = 1.6020) and the slab (4/pi): Carslaw and Jaeger, 7.6 and 3.4 (from memory, unverified)."""
    mm = {n: p[n].to("mm").magnitude for n in ("diameter", "height")}
    lag = 1 / (p["diffusivity"].to("mm**2/s").magnitude * ((2.404826 / (mm["diameter"] / 2)) ** 2 + (math.pi / mm["height"]) ** 2))
    kelvin = {n: p[n].to("kelvin").magnitude for n in ("step", "tolerance")}
    rate = p["rate"].to("kelvin/second").magnitude
    left = 1.6019747 * 4 / math.pi * rate * lag * (1 - math.exp(-kelvin["step"] / rate / lag))
    return lag * math.log(left / kelvin["tolerance"]) / 60


# By the names of what they take; what comes out, and how far off it may be: the first term, a table's digits.
NAMED = {
    ("craft.slurry_batch", "powder"): lambda p: (p["volume"] / (1 / p["powder_density"] + p["ratio"] / p["water_density"]), 1e-12),
    ("craft.equalise_time", ""): lambda p: (ureg.Quantity(equalise(p), "minute"), 1e-5),
    ("craft.plating_time", ""): lambda p: (p["thickness"] * p["area"] * p["density"] / (p["equivalent"] * p["current"] * p["efficiency"]), 1e-12),
    ("craft.working_time", ""): lambda p: (p["time"], 1e-12) if p["at"] == p["temperature"] else None,
}


def of_words(how, member, inputs):
    """What craft makes of an alloy, an element or a temperature: the published value, and its relative digits."""
    named = inputs[0].strip('"')
    if how == "craft.heat_capacity" and named in ALLOYS and len(inputs) == 1:
        heat, off = of_alloy(named, "molar_heat")
        return ureg.Quantity(heat, "J/(g*K)"), off
    if how == "craft.fusion_heat" and named in ALLOYS:
        heat, off = of_alloy(named, "molar_fusion")
        return ureg.Quantity(heat * 1000, "J/g"), off
    if how == "craft.element" and (member, named) in ELEMENTS:
        published, off = ELEMENTS[member, named]
        return ureg.Quantity(published, "g/cm**3" if member == "density" else "dimensionless"), off
    if how == "craft.electrolysis_equivalent":
        weight, off = ELEMENTS["atomic_weight", named]
        return ureg.Quantity(weight / float(inputs[1]) / FARADAY, "g/coulomb"), off
    degree = NUMBER.match(named)
    if how == "craft.water_density" and len(inputs) == 1 and ("density", degree.group(0)) in ELEMENTS:
        published, off = ELEMENTS["density", degree.group(0)]
        return ureg.Quantity(published, "kg/m**3"), off
    return None


def close(got, printed):
    """The part of it by which what is printed is off; of another kind, infinitely far."""
    if got.dimensionality != printed.dimensionality:
        return math.inf
    return abs((got / printed).to_base_units().magnitude - 1)


def filled(template, words, made):
    """Whether the words are the template with what went in: values first and then bare numbers, both in the order of their names;
    texts are no steps."""
    names = re.findall(r"\{(\w+)\}", template)
    pattern = "".join(re.escape(p) if i % 2 == 0 else "(.+?)" for i, p in enumerate(re.split(r"(\{\w+\})", template)))
    found = re.fullmatch(pattern, made)
    words = [w for w in words if w != "other bare numbers"]
    bare = [w for w in words if NUMBER.fullmatch(w)]
    def in_order(some):
        texts = iter(text.replace(",", "") for _, text in sorted(zip(names, found.groups())))
        return all(w.replace(",", "") in texts for w in some)
    return bool(found) and in_order([w for w in words if w not in bare]) and in_order(bare)


def rework(how, parts):
    a = parts[0]
    if how in ("+", "sum"):
        total = a
        for p in parts[1:]:
            total = total + p
        return total
    if how == "-":
        return a - parts[1]
    if how == "*":
        return a * parts[1]
    if how == "/":
        return a / parts[1]
    if how == "^":
        return a ** number(parts[1])
    if how == "root":
        return a ** 0.5
    if how == "abs":
        return abs(a)
    if how == "negative":
        return -a
    if how == "log":
        return ureg.Quantity(math.log(number(a)))
    if how == "sign":
        return ureg.Quantity((number(a) > 0) - (number(a) < 0))
    if how == "floor":
        return ureg.Quantity(math.floor(number(a)))
    if how == "zero":
        return 0 * a
    if how == "mean":
        return sum(parts[1:], a) / len(parts)
    if how == "max":
        return max(parts)
    if how == "min":
        return min(parts)
    return FORMULAS[how](parts) if how in FORMULAS else None


def on_step(how, step, printed, before):
    """A rounding: on the step, on its side, and less than a step off."""
    count = (printed / step).to_base_units().magnitude
    off = ((printed - before) / step).to_base_units().magnitude
    slack = 1e-9 * max(1, abs(count))
    side = {"up_to": -slack <= off < 1 + slack, "down_to": -1 - slack < off <= slack, "nearest": abs(off) <= 0.5 + slack}[how]
    return near(count, round(count), max(1, abs(count)) * 1e3) and side


def is_root(step, datum):
    """Whether the step is the figure: to all its digits, or as it is printed (a gauge, a moment)."""
    if re.match(r"^\d+[-:]", step):
        return step == datum["value"]
    got, due = NUMBER.match(step), NUMBER.match(str(datum["value"]))
    return bool(got and due and float(got.group(0)) == float(due.group(0))) or step in (datum.get("text"), datum["value"])


def check(lemel, job, figure, faults):
    out = subprocess.run([lemel, "why", job[0], figure, "--format", "json", *job[1:]], capture_output=True, text=True)
    job = job[0]
    SAID.clear()
    SAID.update(json.loads(pathlib.Path(job).read_text()))
    if out.returncode != 0:
        faults.append(f"{job} {figure}: {out.stderr.strip()}")
        return 0, 0
    report = json.loads(out.stdout)
    steps, done, unread = report["steps"], 0, 0
    if not is_root(steps[0]["is"] if steps else "", report["is"]):
        faults.append(f"{job} {figure}: is {report['is']['text']}, and its first step {steps[0]['is'] if steps else 'none'}")
    for s in steps:
        if not s.get("of") and not (s.get("file") and (s.get("line") or "how" not in s)):
            faults.append(f"{job} {figure}: {s['is']}, {s.get('what', 'a constant')}, has no place")
        if s.get("how", "").startswith("craft.") and not s.get("source"):
            faults.append(f"{job} {figure}: {s['how']} names no source of its formula")
        if "how" not in s or not s.get("of"):
            continue
        try:
            good = holds(s, [steps[i]["is"] for i in s["of"]], [steps[i] for i in s["of"]], steps)
        except (Unread, KeyError, pint.errors.OffsetUnitCalculusError, pint.errors.DimensionalityError):
            good = None
        if good is None:
            NOT_READ[s["how"]] = NOT_READ.get(s["how"], 0) + 1
            unread += 1
            continue
        done += 1
        if not good:
            faults.append(f"{job} {figure}: {s['is']} is not {s['how']} of {[steps[i]['is'] for i in s['of']]} [{s.get('file')}:{s.get('line')}]")
    return done, unread


NOT_READ = {}
WHY_NOT = {
    "craft.charge": "where not all that is weighed leads to the figure: a search, which charges.py solves again with GLPK",
    "craft.casting_plan": "a search, which tests/craft/test_schedule.c and tests/trade/test_plan.c check",
    "plain": "sums of Lua's own over bare numbers, of which nothing is recorded",
    "its": "what lemel calculates of an alloy that does not say it, as its density",
}
ALLOYS, SAID, TABLE = {}, {}, []
SYMBOL = re.compile(r'^"[A-Z][a-z]"$')


def said_by(step):
    """What the job or the table of alloys says where an alloy or an assay was read, as that is written there."""
    if step.get("what") == "the table of alloys":
        row = re.search(r'name = "' + re.escape(step["is"]) + r'".*?composition = \{(.*?)\}', TABLE[0], re.S) or \
              re.search(r'also = "' + re.escape(step["is"]) + r'".*?composition = \{(.*?)\}', TABLE[0], re.S)
        return {"composition": dict(re.findall(r'(\w+) = "([^"]*)"', row.group(1)))}
    said = SAID
    for word in re.findall(r"\w+", step.get("what", "")) or ["nowhere"]:
        said = said[int(word)] if word.isdigit() else said[word]
    return said


def said_fineness(step, metal):
    """Of one that is a lone text nobody says which metal it is of: the one that is asked for."""
    said = said_by(step)
    said = said.get("composition", said) if isinstance(said, dict) else said
    said = said.get(metal, "0 ‰") if isinstance(said, dict) else said
    return f"{said.split(' ± ')[0]} {metal}"


def assayed(step, metal, steps):
    """What an assay says of a metal: of the finenesses that it was made of."""
    return [steps[i]["is"] for i in step["of"] if f" {metal}" in steps[i]["is"]] or [f"0 ‰ {metal}"]


def holds_words(s, inputs, of, steps):
    """The same of steps over texts, alloys and assays; None for any other."""
    how, named = s["how"], inputs[0]
    if how == "tostring":
        return s["is"].strip('"') == named.strip('"') or same(value(s["is"]), value(named), [])
    if how == "fill":
        return filled(named.strip('"'), inputs[1:], s["is"].strip('"'))
    if how == "its" and named in ALLOYS and len(inputs) == 2:   # as house.json says of its own alloys
        if inputs[1] == '"liquid_density"':   # 0.90 of the solid's: common practice, no source
            return same(value(s["is"]), 0.9 * value(ALLOYS[named]["density"]), [])
        said = ALLOYS[named].get(inputs[1].strip('"'), {})
        said = said.get(s["member"], "0 ‰") + " " + s["member"] if isinstance(said, dict) and s.get("member") else said
        return isinstance(said, str) and same(value(s["is"]), value(said), [])
    if how == "fineness" and len(inputs) == 2 and (of[0].get("what") or "").startswith(("given.", "the table")):
        return same(value(s["is"]), value(said_fineness(of[0], inputs[1].strip('"'))), [])
    if how == "its" and inputs[1] == '"composition"' and s.get("member") and of[0].get("what") and named not in ALLOYS:
        return same(value(s["is"]), value(said_fineness(of[0], s["member"])), [])
    if how == "fineness" and len(inputs) == 2 and of[0].get("how") == "assay":
        return assayed(of[0], inputs[1].strip('"'), steps) == [s["is"]]
    if how == "assay":   # it has no figure of its own: it holds finenesses
        return all(re.fullmatch(r"[\d.]+ ‰ [A-Z][a-z]( ± [\d.]+ ‰)?", i) for i in inputs)
    if how == "Q" and re.fullmatch(r'"\d+/\d+ \w+"', named):
        part, unit_of = named.strip('"').split(" ")
        return same(value(s["is"]), value(f"{int(part.split('/')[0]) / int(part.split('/')[1])!r} {unit_of}"), [])
    if how == "Q" and moment(named) is not None:
        return moment(s["is"]) == moment(named)
    if how == "rounded" and inputs[1] == '"up"':
        step = value(inputs[2]) if len(inputs) == 3 else value("0.01 " + inputs[0].split(" ")[1])
        return on_step("up_to", step, value(s["is"]), value(inputs[0]))
    if how == "share" and len(inputs) == 2 and s.get("member") == "[0]":   # of one alone it is the whole
        return same(value(s["is"]), value(inputs[0]), [])
    if how in ("nearest", "up_to", "down_to") and "°" in named and len(inputs) == 2:
        degree = lambda text: ureg.Quantity(float(NUMBER.match(text.strip('"')).group(0)))
        same_scale = len({re.sub(r"[^CF]", "", t.split("°")[1]) for t in (s["is"], *inputs)}) == 1
        return same_scale and on_step(how, degree(inputs[1]), degree(s["is"]), degree(named))
    if how == "plain":   # of per mille a share: any other sum of bare numbers is Lua's own
        share = NUMBER.fullmatch(s["is"])
        parts = [float(i) for i in inputs if NUMBER.fullmatch(i)]
        return True if share and any(near(float(s["is"]) * 1000, i, abs(i)) for i in parts if i) else None
    published = of_words(how, s.get("member", ""), inputs) if how.startswith("craft.") else None
    return None if published is None else close(published[0], value(s["is"])) <= published[1]


def part_in(lot, metal, steps):
    """What a lot of a charge has of a metal, of one."""
    if lot["is"] in ALLOYS:
        text = ALLOYS[lot["is"]]["composition"].get(metal, "0 ‰")
    elif lot.get("how") == "assay":
        text = assayed(lot, metal, steps)[0].split(" ± ")[0].rsplit(" ", 1)[0]
    else:
        text = said_fineness(lot, metal).rsplit(" ", 1)[0]
    return number(value(text))


def charge_holds(s, steps):
    """What a charge gives, where all that is weighed is told: its composition and cost add up from the shares, which are one in
    all, of lots that are each there once, and no more than is there. That it is the best is a search. None where a share is not told."""
    named = {c: steps[i] for c, i in zip(s.get("called", []), s["of"])}
    gave = {t["member"]: t["is"] for t in steps if t.get("how") == "craft.charge" and t.get("of") == s["of"]}
    rows = sorted(m.split(".")[0] for m in gave if re.fullmatch(r"weigh\[\d+\]\.lot", m))
    shares = [float(gave.get(f"{r}.share", "nan")) for r in rows]
    if not rows or not near(sum(shares), 1, 1):
        return None
    lots = [f"lots[{int(gave[r + '.lot']) - 1}]" for r in rows]
    mass = value(named["mass"]["is"])
    inside = len(set(lots)) == len(lots) and all(f"{l}.composition" in named for l in lots) and min(shares) > 0
    inside = inside and all(x * mass <= 1.000000001 * value(named[f"{l}.available"]["is"])
                            for x, l in zip(shares, lots) if f"{l}.available" in named)
    member, added = s["member"], lambda of: sum(x * of(l) for x, l in zip(shares, lots))
    if re.fullmatch(r"weigh\[\d+\]\.(lot|share)", member):
        return inside
    if re.fullmatch(r"weigh\[\d+\]\.mass", member):
        return same(shares[rows.index(member.split(".")[0])] * mass, value(s["is"]), [])
    if member.startswith("composition."):
        metal = member.split(".")[1]
        return same(ureg.Quantity(added(lambda l: part_in(named[f"{l}.composition"], metal, steps))), value(s["is"]), [])
    if member == "unnamed":
        return near(added(lambda l: 1 - sum(part_in(named[f"{l}.composition"], m, steps) for m in METALS)), float(s["is"]), 1)
    if member == "generation":
        return near(1 + added(lambda l: float(named[f"{l}.generation"]["is"])), float(s["is"]), 1)
    if member == "cost":
        return same(mass * added(lambda l: value(named[f"{l}.price"]["is"])), value(s["is"]), [])
    return None


def holds(s, inputs, of, steps):
    """Whether the step's inputs come to it; None where nobody outside of lemel can tell."""
    how, printed = s["how"], None
    if how == "craft.charge":
        return charge_holds(s, steps)
    named = NAMED.get((how, s.get("member", "")))
    if named and all(s.get("called", [])):
        got = named({n: value(i) for n, i in zip(s["called"], inputs)})
        return None if got is None else close(got[0], value(s["is"])) <= got[1]
    words = holds_words(s, inputs, of, steps)
    if words is not None:
        return words
    if how == "Q" and len(inputs) == 1:
        return same(value(s["is"]), value(inputs[0]), [])
    if how in ("number", "as") and len(inputs) == 2 and inputs[1].startswith('"'):
        of = inputs.pop().strip('"')   # as a bare number, or a value, in this unit
        return same(value(inputs[0]), value(s["is"] + (" " + of if how == "number" else "")), [])
    if how == "number" and len(inputs) == 1:
        return same(value(inputs[0]), value(s["is"]), [])
    if how == "fineness" and len(inputs) == 2 and SYMBOL.match(inputs[0]):
        return same(value(inputs[1]), value(s["is"]), [])
    if how == "fineness" and len(inputs) == 2 and inputs[0] in ALLOYS:   # of the house's own alloy, as house.json writes it
        metal = inputs[1].strip('"')
        return same(value(s["is"]), value(f"{ALLOYS[inputs[0]]['composition'].get(metal, '0 ‰')} {metal}"), [])
    if how == "rounded" and len(inputs) == 2 and inputs[1].strip('"') in ("half up", "half even"):
        got, cents = value(inputs[0]).to_base_units().magnitude, value(s["is"]).to_base_units().magnitude * 100
        return near(cents, round(cents), abs(cents) * 1e3) and abs(got * 100 - cents) <= 0.5 + 1e-6
    if how == "deviation":
        spread = inputs[0].split(" ± ")
        return same(value(spread[1]), value(s["is"]), []) if len(spread) == 2 else number(value(s["is"])) == 0
    if moment(s["is"]) is not None or any(moment(i) is not None for i in inputs):
        parts = [moment(i) if moment(i) is not None else value(i) for i in inputs]
        printed = moment(s["is"]) if moment(s["is"]) is not None else value(s["is"])
        if how == "time_of_day":
            return moment(inputs[0].split("T")[1]) == printed
        got = rework(how, parts)
        return None if got is None else abs((got - printed).to("minute").magnitude) < 1e-6
    printed, parts = value(s["is"]), [value(i) for i in inputs]
    if how in ("up_to", "down_to", "nearest") and len(parts) == 2:
        return on_step(how, parts[1], printed, parts[0])
    got = rework(how, parts)
    return None if got is None else same(got, printed, parts)


FIGURES = {
    "cuff-links.json": ["price", "metal_cost", "tax", "melt_value", "refiner_net_low", "deposit",       # money
                        "charge", "safe_charge", "need", "weigh[0].mass", "fineness", "spread", "to_buy", "returned",
                        "raw", "sprue", "crucible_share", "thin_chance", "wall",                         # wax and tree
                        "start", "melting_time", "load_by", "valid_until",                               # kiln and days
                        "mark.average", "mark.weakest", "mark.limit_body", "mark.below",                 # mark
                        "powder", "water", "water_volume", "working_time"],                              # water
    "red-ring.json": ["price", "need", "handed_low"],
    "warden-rings.json": ["rings_made[0].pattern", "rings_made[0].cast_from", "rings_made[2].raw", "fineness"],
    "spoon-pendant.json": ["price", "fine", "mark.limit_whole"],
    "tarn-ring-stone.json": ["metal_mass", "stones_mass"],
    "ear-cuff-rhodium.json": ["coat_mass", "time", "surface", "metal_cost"],
    "cuff-links-closing.json --closing": ["due_fine", "returned", "balance"],
}
# Figures of a job's own: no step leads to a count.
PLAIN = ("text", "choice", "list", "record", "by_name", "yes_no", "alloy", "assay", "owner", "whole")


def leaves(name, datum):
    """Each number in what is given, with its name."""
    if datum["kind"] == "list":
        for i, one in enumerate(datum["value"]):
            yield from leaves(f"{name}[{i}]", one)
    elif datum["kind"] in ("record", "by_name"):
        for key, one in datum["value"].items():
            yield from leaves(f"{name}.{key}", one)
    elif datum["kind"] not in PLAIN:
        yield name, datum


def every_figure(lemel, job, faults):
    """Each number that a job gives, in lists too, has a root, and that is the number."""
    out = subprocess.run([lemel, "run", job, "--why", "--format", "json", "-q"], capture_output=True, text=True)
    result = json.loads(out.stdout) if out.stdout else {}
    if "why" not in result:
        return 0
    count, roots, steps = 0, result["why"]["figures"], result["why"]["steps"]
    for name, datum in (leaf for n, d in result["results"].items() for leaf in leaves(n, d)):
        root = steps[roots[name]]["is"] if name in roots else None
        inner = "[" in name or "." in name
        if root is None and inner and datum["kind"] == "number":
            continue   # of a bare number in a list no step is kept
        count += 1
        if not is_root(root or "", datum):
            faults.append(f"{job}: {name} is {datum.get('value')} {datum.get('unit', '')}, its root {root}")
    return count


def every_formula(lemel, job, faults):
    """Each step of the main job that a craft function gave names where its formula is published."""
    out = subprocess.run([lemel, "run", job, "--why", "--format", "json"], capture_output=True, text=True)
    steps = [s for s in json.loads(out.stdout)["why"]["steps"] if s.get("how", "").startswith("craft.")]
    if len(steps) < 20:
        faults.append(f"{job}: only {len(steps)} steps of craft functions")
    for s in steps:
        if not s.get("source"):
            faults.append(f"{job}: {s['how']} names no source of its formula")


def every_source(engine, faults):
    """What craft_source.c says with a figure in it, a year or a page, stands in a header of craft."""
    headers = " ".join(re.sub(r"\s+(\* )?", " ", h.read_text()) for h in sorted((engine / "craft").glob("*.h")))
    said = re.sub(r'"\s+"', "", (engine / "words/craft_source.c").read_text())
    parts = [p for s in re.findall(r'"([^"\n]*)"', said) for p in re.split("[;:,] ", s) if re.search(r"\d", p)]
    if len(parts) < 20:
        faults.append(f"craft_source.c: only {len(parts)} figures of sources")
    faults += [f"craft_source.c: {p!r} is in no header of engine/craft" for p in parts if p not in headers]


def main(lemel, jobs):
    faults, done, unread, figures, roots = [], 0, 0, 0, 0
    house = json.loads(pathlib.Path(jobs, "..", "house.json").read_text())
    ALLOYS.update({name: alloy for name, alloy in house["stock"].items() if "composition" in alloy})
    TABLE.append(pathlib.Path(__file__).resolve().parents[2].joinpath("scripts/alloys.lua").read_text())
    for table in ("elements.tsv", "water.tsv"):
        read_elements(pathlib.Path(__file__).resolve().parents[1] / "reference" / table)
    every_source(pathlib.Path(__file__).resolve().parents[2] / "engine", faults)
    every_formula(lemel, f"{jobs}/cuff-links.json", faults)
    for job in sorted(pathlib.Path(jobs).glob("*.json")):
        roots += every_figure(lemel, str(job), faults)
    for job, names in FIGURES.items():
        for name in names:
            figures += 1
            d, u = check(lemel, f"{jobs}/{job}".split(), name, faults)
            done, unread = done + d, unread + u
    for f in faults:
        print(f)
    for how, n in sorted(NOT_READ.items(), key=lambda x: -x[1]):
        print(f"not reworked: {n} of {how}: {WHY_NOT.get(how, 'NO REASON IS GIVEN')}")
    print(f"{figures} figures, {done} steps reworked, {unread} not; {roots} figures have their root; {len(faults)} faults")
    named = all(how in WHY_NOT for how in NOT_READ)
    return 0 if done > 3700 and unread < 100 and named and roots > 500 and not faults else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2]))
