# Need, charge and quote of one small piece with pint and decimal: the same sum as recipes/small.lua.
#   small.py [ROUNDS]     prints charge, fine gold, tax and price; then microseconds of the processor for a job, best of 7 rounds
import math
import sys
import time
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal as D

try:
    import pint
except ImportError:
    sys.exit(3)

u = pint.UnitRegistry()


def up(q, step):
    return math.ceil((q / step).to("").magnitude - 1e-9) * step


def of(q, unit):
    return D(repr(round(q.to(unit).magnitude, 9)))


def work(job):
    q = {name: u(text) for name, text in job["measured"].items()}
    m = {name: D(text) for name, text in job["money"].items()}
    ratio = q["density"] / u("0.96 g/cm**3")
    tree = q["wax"] * ratio + q["sprues"] * ratio + u("11 g")
    charge = up(tree / (1 - 0.005) + u("0.3 g"), u("0.1 g")).to("g")
    fine, grain_fine = 0.9999, 0.585
    rest = charge - q["old"]
    short = job["target"] * charge - job["old_fineness"] * q["old"]
    gold = up((short - grain_fine * rest) / (fine - grain_fine), u("0.001 g")).to("g")
    grain = rest - gold
    metal = D("100.47") * of(gold, "g") + D("59.00") * of(grain, "g")
    hours = D("68") * of(q["bench"], "h") + D("85") * of(q["setting"], "h") + D("19") * of(q["bench"] + q["setting"], "h")
    subtotal = (hours + m["consumables"]) * D("1.22") + metal * D("1.08") * D("1.04") + m["stones"] * D("1.40")
    tax = (subtotal * D("0.049")).quantize(D("0.01"), ROUND_HALF_UP)
    price = (subtotal + tax).quantize(D("1"), ROUND_CEILING)
    return charge.magnitude, gold.magnitude, tax, price


JOB = {"measured": {"wax": "0.796 g", "sprues": "0.34 g", "density": "13.22 g/cm**3", "old": "17.3998 g", "bench": "7.5 h",
                    "setting": "1 h"},
       "money": {"consumables": "5.00", "stones": "42.00"}, "target": 0.587, "old_fineness": 0.5605}
print("%.1f %.3f %s %s" % work(JOB))
rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 0
best = None
for _ in range(7 if rounds else 0):
    start = time.process_time()
    for _ in range(rounds):
        work(JOB)
    spent = (time.process_time() - start) / rounds * 1e6
    best = spent if best is None else min(best, spent)
if best is not None:
    print("%.3f" % best)
