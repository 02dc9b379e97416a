#!/usr/bin/env python3
"""Steps of lemel why reworked with pint (Debian: python3-pint), a library that shares no code with us.

    reasons.py PATH-OF-LEMEL FOLDER-OF-JOBS

For twenty figures of the demo's jobs: each sum, difference, product, quotient, power, largest and smallest on the
way to the figure comes to what is printed, to the last digits of a double; roundings to a step lie on the step, on the
right side and less than one step off; the root is the figure of the result; and each leaf has a place or a source.
What a function of ours gives (craft.*, share) is checked elsewhere, against its published cases. What is said of where its
formula is published is in the headers of engine/craft, where it has a figure: a year, a page, a section.
"""
import json
import pathlib
import re
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
         "cm2": "cm**2", "ozt": "troy_ounce", "dwt": "pennyweight", "in": "inch", "h": "hour", "min": "minute",
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


def rework(how, parts):
    a = parts[0]
    if how == "+" or how == "sum":
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
    if how == "negative":
        return -a
    if how == "max":
        return max(parts)
    if how == "min":
        return min(parts)
    return None


def on_step(how, step, printed, before):
    """A rounding: on the step, on its side, and less than a step off."""
    count = (printed / step).to_base_units().magnitude
    off = ((printed - before) / step).to_base_units().magnitude
    slack = 1e-9 * max(1, abs(count))
    side = {"up_to": -slack <= off < 1 + slack, "down_to": -1 - slack < off <= slack, "nearest": abs(off) <= 0.5 + slack}[how]
    return near(count, round(count), max(1, abs(count)) * 1e3) and side


def check(lemel, job, figure, faults):
    out = subprocess.run([lemel, "why", job, figure, "--format", "json"], capture_output=True, text=True)
    if out.returncode != 0:
        faults.append(f"{job} {figure}: {out.stderr.strip()}")
        return 0, 0
    report = json.loads(out.stdout)
    steps, done, unread = report["steps"], 0, 0
    shown = report["is"]["text"].replace(",", "")
    if not steps or steps[0]["is"].split(" ± ")[0].split(" ")[0] not in shown.split(" ± ")[0]:
        faults.append(f"{job} {figure}: is {shown}, and its first step {steps[0]['is'] if steps else 'none'}")
    for s in steps:
        if not s.get("of") and not (s.get("file") and (s.get("line") or "how" not in s)):
            faults.append(f"{job} {figure}: {s['is']}, {s.get('what', 'a constant')}, has no place")
        if s.get("how", "").startswith("craft.") and not s.get("source"):
            faults.append(f"{job} {figure}: {s['how']} names no source of its formula")
        if "how" not in s or not s.get("of"):
            continue
        try:
            how, inputs = s["how"], [steps[i]["is"] for i in s["of"]]
            if s["how"] in ("number", "as") and len(inputs) == 2 and inputs[1].startswith('"'):
                unit = inputs.pop().strip('"')   # as a bare number, or a value, in this unit
                printed = value(s["is"] + (" " + unit if s["how"] == "number" else ""))
                how = "max"
            else:
                printed = value(s["is"])
            parts = [value(i) for i in inputs]
        except Unread:
            unread += 1
            continue
        try:
            if how in ("up_to", "down_to", "nearest") and len(parts) == 2:
                good = on_step(how, parts[1], printed, parts[0])
            else:
                got = rework(how, parts)
                if got is None:
                    continue
                good = same(got, printed, parts)
        except (pint.errors.OffsetUnitCalculusError, pint.errors.DimensionalityError):
            unread += 1
            continue
        done += 1
        if not good:
            faults.append(f"{job} {figure}: {s['is']} is not {s['how']} of {[steps[i]['is'] for i in s['of']]} [{s.get('file')}:{s.get('line')}]")
    return done, unread


FIGURES = {
    "cuff-links.json": ["price", "charge", "fineness", "start", "melting_time", "powder", "water", "returned", "to_buy",
                        "melt_value", "refiner_net_low", "crucible_share", "thin_chance", "wall"],
    "red-ring.json": ["price", "need"],
    "spoon-pendant.json": ["price", "fine", "powder"],
    "warden-rings.json": ["price", "fineness"],
}


def every_figure(lemel, job, faults):
    """Each number that the main job gives has steps that lead to it."""
    out = subprocess.run([lemel, "run", job, "--format", "json"], capture_output=True, text=True)
    results = json.loads(out.stdout)["results"]
    for name, datum in results.items():
        if datum["kind"] in ("text", "choice", "list", "record", "by_name", "yes_no", "alloy"):
            continue
        check(lemel, job, name, faults)


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
    faults, done, unread, figures = [], 0, 0, 0
    every_source(pathlib.Path(__file__).resolve().parents[2] / "engine", faults)
    every_formula(lemel, f"{jobs}/cuff-links.json", faults)
    every_figure(lemel, f"{jobs}/red-ring.json", faults)
    for job, names in FIGURES.items():
        for name in names:
            figures += 1
            d, u = check(lemel, f"{jobs}/{job}", name, faults)
            done, unread = done + d, unread + u
    for f in faults:
        print(f)
    print(f"{figures} figures, {done} steps reworked, {unread} not read by pint, {len(faults)} faults")
    return 0 if done > 500 and not faults else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2]))
