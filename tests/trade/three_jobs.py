"""The figures of check_three_jobs.sh, reckoned again from what was weighed, tested and priced, by schoolbook arithmetic.

Everything with a figure in it on the pages `client` and `metal` of each quote and each closing, of the charge and the quote on `cost`, what
is weighed out on `bench`, and the three books is written here once more and compared, figure by figure of each line, whatever the
words and the order of the lines; what is printed and not expected is a fault, as is what is expected and not printed. Left out: density and melting range of the charge, which rest on
models. A limit of the charge is worth what the charge costs more with a little more of it. Mixing is m = m1 (f1 - t) / (t - f2); a low bound is 1.645 deviations down (NIST/SEMATECH e-Handbook,
1.3.6.7.1). The house's rates stand in examples/house.json: 68 and 19 an hour, 3 % and 22 % on it, 4.9 % tax, up to a whole dollar,
40 % deposit, 2 % premium, 4 % on metal, 8 % for working. Castings are 1.3 % smaller each way than their wax by weight.
"""
import json
import math
import re
import sys
from fractions import Fraction as F
from statistics import NormalDist

folder, faults, compared = sys.argv[1], 0, 0

def to(x, step, way='nearest'):
    n, step = F(x) / F(step), F(step)
    return step * {'down': math.floor, 'up': math.ceil, 'nearest': lambda n: (1 if n > 0 else -1) * math.floor(abs(n) + F(1, 2))}[way](n)

def grams(x, metal, n=3): return f'{float(x):.{n}f} g {metal}'
def usd(x): return f'{float(x):,.2f} USD'
def cents(x): return to(x, '0.01')

# ---- what is printed ---------------------------------------------------------------------------------------------

def figure(v):
    return '' if not v else v.get('text') or str(v.get('value', ''))

def said(entries):
    for e in entries:
        kind = e['is']
        if kind == 'part':
            yield from said(e['entries'])
        elif kind in ('line', 'total'):
            yield e['label'] + ': ' + figure(e.get('value')), e
        elif kind == 'grid':
            for row in e['rows'] + ([e['total']] if e.get('total') else []):
                yield ' | '.join(figure(c) if isinstance(c, dict) else '' for c in row), e
        elif kind == 'flow':
            for m in e['moves']:
                yield f"{m['from']} > {m['to']}: {figure(m['value'])}", e
        elif kind in ('text', 'heading', 'remark'):
            yield e['text'], e

def page(name, which):
    result = json.load(open(f'{folder}/said/{name}.json'))
    return [(s, e) for s, e in said(result['sheets'].get(which, [])) if any(c.isdigit() for c in s)]

def figures(line): return re.findall(r'-?[0-9][0-9,.:T-]*[0-9]|-?[0-9]', line)

def compare(name, which, printed, expected):
    global faults, compared
    left = list(expected)
    compared += len(expected)
    for line in printed:
        same = next((l for l in left if figures(l) == figures(line)), None)
        if same is not None:
            left.remove(same)
        else:
            faults += 1
            print(f'{name} {which}: printed and not reckoned: {line}')
    for line in left:
        faults += 1
        print(f'{name} {which}: reckoned and not printed: {line}')

def check(name, which, expected): compare(name, which, [s for s, _ in page(name, which)], expected)

# ---- the old metal ------------------------------------------------------------------------------------------------

class Brought:
    def __init__(self, gross, fineness, spread, price):
        self.gross, self.fineness, self.price = F(gross), F(fineness) / 1000, F(price)
        self.fine = self.gross * self.fineness
        self.spread = F(math.sqrt((self.gross * F(spread) / 1000) ** 2 + (F('0.01') * self.fineness) ** 2))
        self.low = to(self.fine - F('1.645') * self.spread, '0.0001', 'down')
        self.worth = cents(to(self.fine, '0.0001') * self.price)

def printed_low(b, metal):   # what is owed is worked out with the tenths of a milligram; printed is what the scale shows
    return grams(to(b.low, '0.001', 'down'), metal)

def brought_lines(b, name, metal, called, spread):
    low, fine = printed_low(b, metal), grams(to(to(b.fine, '0.0001'), '0.001'), metal)
    return [f'{name}: {float(b.gross):.3f} g', f'{name} | {float(b.gross):.3f} g | {float(b.fineness * 1000):.1f} ‰ {metal} | {spread} Δ‰ {metal} | {fine} | {low} | {usd(b.worth)}',
            f'Fine {called} brought in: {fine}', f"Uncertainty (one standard deviation): {grams(to(b.spread, '0.001', 'up'), metal)}",
            f'At least: {low}', f"Of this client's: {low}", f'In the pieces handed over to be melted or refined, at least: {low}',
            'Values are of the fine metal before it is rounded to 0.001 g.']

# ---- money ----------------------------------------------------------------------------------------------------------

def making(hours, rest):
    cost = F(hours) * (68 + 19) + F(rest)
    return cents((cost + cents(cost * F('0.03'))) * F('1.22'))

def bill(lines, deposit=None):
    subtotal = sum(a for _, a in lines)
    tax = cents(subtotal * F('0.049'))
    price = to(subtotal + tax, 1, 'up')
    out = [f'{l}: {usd(a)}' for l, a in lines] + [f'Subtotal: {usd(subtotal)}', f'Tax 4.9 % on {usd(subtotal)} (US): {usd(tax)}']
    if price != subtotal + tax:
        out.append(f'Rounding: {usd(price - subtotal - tax)}')
    if deposit is None:
        share = cents(price * F('0.4'))
        return out + [f'Total to pay: {usd(price)}', f'Deposit due now: {usd(share)}', f'Balance on collection: {usd(price - share)}'], price, share
    return out + [f'Total: {usd(price)}', f'Deposit paid: {usd(-deposit)}', f'Balance to pay: {usd(price - deposit)}'], price, deposit

# ---- the casting, as foretold -------------------------------------------------------------------------------------

def foretold(lots, charge, wax, density, finished, fineness, metal):
    """Lots: (name, goes in, there is of it or None, fineness), of the metal counted. All as printed; what is lost is the rest."""
    out, total = [], F(0)
    for name, mass, there, fine in lots:
        part = to(F(mass) * F(fine) / 1000, '0.001')
        total += part
        out.append(f'{name} > the melt: {grams(part, metal)}')
        if there:
            out.append(f"{name} > rest of {name}: {grams(to(F(there) * F(fine) / 1000, '0.001') - part, metal)}")
    sound = to(F(wax) * F(density) / F('0.96') * (1 - F('0.013')) ** 3, '0.01')
    tree = to((F(charge) - F('0.3')) * (1 - F('0.005')), '0.01')
    piece, sound, tree = (to(m * F(fineness) / 1000, '0.001') for m in (F(finished), sound, tree))
    for place, part in (('in the piece', piece), ('filings, emery, polish', sound - piece), ('button and sprues', tree - sound), ('left in the crucible', total - tree)):
        out.append(f'the melt > {place}: {grams(part, metal)}')
    return out

def bench(name, weigh, charge, fineness, beside, held=''):
    """`beside`: of each other metal the sum of mass times per mille, the most first."""
    printed, scale, expected = [], F(0), []
    for s, e in page(name, 'bench'):
        if e.get('act') == 'weigh' and 'shows' in e:
            printed.append(f"{s} shows {figure(e['shows'])}")
        elif s.startswith(('Charge: ', 'Charge (', 'Fineness')):
            printed.append(s)
    for what, mass in weigh:
        scale += F(mass)
        expected.append(f'{what}: {float(F(mass)):.3f} g shows {float(scale):.3f} g')
    parts = ', '.join(f'{metal} {int(to(F(sum(in_all)) / F(charge), 1))}' for metal, in_all in beside)
    compare(name, 'bench', printed, expected + [f'Charge{held}: {float(F(charge)):.3f} g', f'Fineness ({parts} ‰): {fineness}'])

def chance(below, mean, spread):
    return f'{math.floor(NormalDist(float(mean), float(spread)).cdf(float(below)) * 1000 + 0.5) / 10:.1f} %'

# ---- the cost page: the charge, and the quote --------------------------------------------------------------------------

def cost_page(name):
    """The parts on the charge and on the quote; without what rests on models of density and melting."""
    result = json.load(open(f'{folder}/said/{name}.json'))
    entries = [e for e in result['sheets']['cost'] if e['is'] == 'part' and (e['recipe'] == 'charge' or e['recipe'].startswith('quote'))]
    model = ('Density: ', 'Begins to melt: ', 'Fully molten: ', 'The melting range')
    return [s for s, _ in said(entries) if any(c.isdigit() for c in s) and not s.startswith(model)]

def solve(columns, right):
    """Amounts that meet as many equations, by elimination."""
    n = len(right)
    rows = [[F(columns[j][i]) for j in range(n)] + [F(right[i])] for i in range(n)]
    for i in range(n):
        pivot = next(k for k in range(i, n) if rows[k][i])
        rows[i], rows[pivot] = rows[pivot], rows[i]
        rows[i] = [x / rows[i][i] for x in rows[i]]
        for k in range(n):
            if k != i:
                rows[k] = [x - rows[k][i] * y for x, y in zip(rows[k], rows[i])]
    return [r[n] for r in rows]

def limits(columns, right, prices, changes):
    """What the cost becomes otherwise by each change of the right sides."""
    base = sum(m * p for m, p in zip(solve(columns, right), prices))
    return [(words, more, sum(m * p for m, p in zip(solve(columns, [r + F(c) for r, c in zip(right, change)]), prices)) - base) for words, more, change in changes]

def charge_cost(name, spread, old, parts, metal, weighed, prices, found, below=None, note=True):
    out = [f'{old} % of the charge is old metal. The house allows 60 %; the published guide stops at 50 %'] if note else []
    out += [f'One standard deviation of the fineness: {spread} Δ‰ {metal}'] + ([f'Chance that it is below the mark: {below}'] if below else [])
    out.append(f'Old metal: {old} %')
    for symbol, part in parts:
        out.append(f"{symbol} | {float(to(part, '0.1', 'down' if symbol == metal else 'nearest')):.1f} ‰ {symbol}")
    cost = to(sum(F(m) * F(p) for m, p in zip(weighed, prices)), '0.01')
    return out + [f'Cost of the metal: {usd(cost)}'] + [f'{words} | {more} | {usd(cents(adds))}' for words, more, adds in found]

# ---- the metal account ----------------------------------------------------------------------------------------------

WORDS = {'in': 'Brought', 'added': 'Added by the studio', 'here': 'Still here', 'piece': 'In the piece', 'kept': 'Kept by agreement', 'settled': 'Gone to the studio'}

def read(mass):
    """As it was read off the scale, with two decimals or more."""
    return f'{float(F(mass)):.2f}' if F(mass) == to(F(mass), '0.01') else f'{float(F(mass)):g}'

def account(metal, entries, lots=None):
    """Entries: (what, mass, fineness as written, way) of one metal; of one that is settled, also out of what. That is taken off there."""
    lots = {e[0]: e for e in entries if e[3] == 'here'}
    entries = [f for e in entries for f in ([e[:4], (e[4], '-' + e[1], lots[e[4]][2], 'taken')] if e[3] == 'settled' else [e])]
    def fine(e): return F(e[1]) * F(e[2].split()[0]) / 1000
    sides = {True: [e for e in entries if e[3] in ('in', 'added')], False: [e for e in entries if e[3] not in ('in', 'added')]}
    def shown(e): return to(fine(e), '0.001')
    flows, table, sums, printed, taken = [], [], {}, {}, {}
    for e in entries:
        if e[3] == 'taken':
            taken[e[0]] = taken.get(e[0], F(0)) + shown(e)
    for side, list_ in sides.items():
        for e in list_:
            what = e[0].replace('weighed ', '') if side else e[0]
            moved = shown(e) + taken.get(e[0], F(0))
            if e[3] != 'taken' and moved:
                flows.append((what if side else 'total') + ' > ' + ('total' if side else what) + ': ' + grams(moved, metal))
            table.append(f'{WORDS.get(e[3], "Taken out of what is here")}: {what} | {read(e[1])} g | {e[2]} | {grams(shown(e), metal)}')
        sums[side], printed[side] = sum(map(fine, list_)), sum(map(shown, list_))
        table.append(f'Together |  |  | {grams(printed[side], metal)}')
    # the picture is in the order of the record
    order = {(e[0].replace('weighed ', '') if e[3] in ('in', 'added') else e[0]): i for i, e in enumerate(entries)}
    flows.sort(key=lambda f: order[f.split(': ')[0].replace('total', '').replace(' > ', '')])
    flows.append(f"total > lost, by the weighings: {grams(printed[True] - printed[False], metal)}")
    lost = sums[True] - sums[False]
    piece = sum(fine(e) for e in entries if e[3] == 'piece')
    rest = printed[True] - printed[False] - to(lost, '0.001')
    lines = [f"Lost in working, from the weighings: {grams(to(lost, '0.001'), metal)}"]
    if rest:
        lines.append(f'Rounding difference: {grams(rest, metal)}')
    lines += [f'Difference: {grams(printed[True] - printed[False], metal)}',
              f"Usual loss: 0.3 % of what went in and 1 % of the piece: {grams(to(sums[True] * F('0.003') + piece * F('0.01'), '0.001'), metal)}",
              f"Loss as a share of what went in: {float(to(lost / sums[True] * 100, '0.01')):.2f} %"]
    return flows + table + lines

def to_studio(metal, due, entries, settled=F(0)):
    """What of the metal that is here is not owed; and the words for it."""
    here = sum(F(e[1]) * F(e[2].split()[0]) / 1000 for e in entries if e[3] == 'here')
    goes = to(min(max(here - max(due, 0), 0), here) - settled, '0.0001')
    return goes, [f"Of what is here, {grams(to(goes, '0.001'), metal)} goes to the studio."] if goes >= F('0.001') else []

def parted(goes, entries):
    """What goes to the studio of each lot that is here: filings first, then the button, the rest of a piece last; of the last so much,
    by a scale of 0.001 g, that no more goes than may. The lot, what is cut off, and whether that is all of it."""
    def turn(e): return (2 if e[0].startswith('rest of ') else 1 if e[0].startswith(('button', 'sprues')) else 0, F(e[1]))
    for e in sorted((e for e in entries if e[3] == 'here'), key=turn):
        part = F(e[2].split()[0]) / 1000
        whole = goes > 0 and F(e[1]) * part - goes <= F('0.001')
        cut = F(e[1]) if whole else max(to(goes / part, '0.001', 'down'), F(0))
        yield e, cut, whole
        goes -= cut * part

def settle(name, job, goes, entries):
    """What the closing says is to be entered, and that the rest is handed back. The entries; compared with what was typed."""
    new, words, back = [], [], []
    for (what, mass, fineness, _), cut, whole in parted(goes, entries):
        if F(mass) > cut:
            back.append(f'jobs/{job}.json "{what}, handed back" "{float(F(mass) - cut):g} g" way=returned from="{what}"')
        if cut > 0:
            shown = f'{float(cut):g}' if whole else f'{float(cut):.3f}'
            new.append((f'{what}, settled', shown, fineness, 'settled', what))
            words.append(f'jobs/{job}.json "{what}, settled" "{shown} g" way=settled from="{what}"')
    compare(name, 'typed', open(f'{folder}/said/settle-{job}').read().splitlines(), words + back)
    return new

def owed(metal, agreed, record, fineness, settled=()):
    """What is owed, both ways; `fineness` of what is handed back, None for the lots themselves."""
    entries = list(record) + list(settled)
    def fine(*ways): return sum(F(e[1]) * F(e[2].split()[0]) / 1000 for e in entries if e[3] in ways)
    steps = [('Agreed as brought by client', agreed, 'down'), ('Added by the studio', fine('added'), 'nearest'), ('In the piece', -fine('piece'), 'nearest'),
             ('Agreed working loss: 8 % of what is in the piece', -fine('piece') * F('0.08'), 'nearest'), ('Kept by agreement', -fine('kept'), 'nearest')]
    due = to(sum(s[1] for s in steps), '0.001', 'down')
    # the same from what lies here: what was weighed in beyond what was agreed, and the loss agreed beyond that of the weighings
    lost = fine('in', 'added') - fine('piece', 'here', 'kept')
    back = [('Still here, as weighed', fine('here') - fine('settled'), 'nearest'), ('Gone to the studio', fine('settled'), 'nearest'), ('More brought than agreed: kept by the studio', agreed - fine('in'), 'nearest'),
            ('Less lost than agreed: kept by the studio', lost - fine('piece') * F('0.08'), 'nearest')]
    out = []
    for way, total in ((steps, 'Owed to client'), (back, 'Owed to client, as above')):
        printed = F(0)
        for label, amount, side in way:
            if amount:
                printed += to(amount, '0.001', side)
                out.append(f"{label}: {grams(to(amount, '0.001', side), metal)}")
        if due != printed:
            out.append(f'Rounding difference: {grams(due - printed, metal)}')
        out.append(f'{total}: {grams(due, metal)}')
    lots = [f"{read(F(e[1]) - cut)} g of {e[2].split()[0]} ‰" for e, cut, _ in parted(to_studio(metal, due, record)[0], record) if F(e[1]) > cut]
    words = [f'{grams(due, metal)} of your fine metal is left.',
             f"Returned to you as {float(to(due / (F(fineness) / 1000), '0.001', 'up')):.3f} g of metal at {fineness} ‰ {metal}." if fineness else 'Returned to you: ' + '; '.join(lots)]
    return out + words + to_studio(metal, due, entries, fine('settled'))[1], words

def once_closed(job, metal, agreed, record, fineness, more=()):
    """What goes to the studio once the job is closed, and its metal page then."""
    goes, _ = to_studio(metal, owed_of(metal, agreed, record), record)
    new = settle(f'{job}-settled', job, goes, record)
    way, _ = owed(metal, agreed, record, fineness, new)
    check(f'{job}-settled', 'metal', account(metal, record + new) + list(more) + way)
    return new

def owed_of(metal, agreed, entries):
    def fine(*ways): return sum(F(e[1]) * F(e[2].split()[0]) / 1000 for e in entries if e[3] in ways)
    return to(agreed + fine('added') - fine('piece') * F('1.08') - fine('kept'), '0.001', 'down')

def quote_cost(metal, hours, consumables, flask, subtotal, called, ours):
    """The cost of a quote, its margin with the rounding; `metal` is what of it is for metal, `ours` what of the melt is the studio's: masses and finenesses."""
    melt = to(sum(m * F(f) for m, f in ours) / 1000, '0.01', 'up')
    work = [('Hours', F(hours) * 68), ('Consumables', F(consumables)), ('Flask', F(flask)), ('Overhead', F(hours) * 19)]
    parts = metal + work + [('Contingency', cents(sum(a for _, a in work) * F('0.03')))]
    total, paid = sum(a for _, a in parts), to(subtotal + cents(subtotal * F('0.049')), 1, 'up') - cents(subtotal * F('0.049'))
    return [f'{l}: {usd(a)}' for l, a in parts] + [f'Cost: {usd(total)}', f'Charged, before credit, tax and rounding: {usd(subtotal)}',
            f"Margin on the price: {float(to((paid - total) / paid * 100, '0.1', 'down')):.1f} %",
            f"Studio's fine {called} for the melt: {float(melt):.2f} g"]

# ---- a brooch out of sterling forks -----------------------------------------------------------------------------------

def own_metal(name, mark, piece, promised, b, rest_of, keeps, called, metal, fineness, finished, hours, rest, price, flow, lines):
    """A quote in the client's own metal; `promised` by the mark, in parts per thousand; `keeps` where button and sprues are left to the studio."""
    money, price_due, deposit = bill([('Making', making(hours, rest))])
    needed = F(finished) * F('1.08') * F(fineness) / 1000
    back, stays = b.low - needed, []
    if keeps:    # the button is left to the studio: surely there is what is not melted, as surely as the whole
        back = min(back, rest_of * b.fineness * b.low / to(b.fine, '0.0001'))
        stays = [to(b.low - needed - back, '0.001', 'up')]
    back = to(back, '0.001', 'down')
    used = to(b.low, '0.001', 'down') - back - sum(stays)
    check(f'{name}-quote', 'client', [f'Fine {called} in the pieces you hand over, at least: {printed_low(b, metal)}'] + piece
          + [f'Fineness: {promised} parts per thousand {called}.'] + mark + money + [
          f"Metal price {float(F(price)):.2f} USD/g (2026-11-24T08:30, invented). Fine metal in the piece: {grams(to(F(finished) * F(fineness) / 1000, '0.001', 'up'), metal)}.",
          'The price holds until 2026-12-01T10:00, whatever the metal price: no metal has to be bought.',
          f'Your fine metal for the piece, with 8 % working loss: {grams(used, metal)}'] + [f'Left to the studio, at most: {grams(s, metal)}' for s in stays] + [f'Returned to you (fine {called}), at least: {grams(back, metal)}',
          f"You receive it as: the part that is not melted, about {float(rest_of):.2f} g; about {float(to((back - rest_of * b.fineness) / (F(fineness) / 1000), '0.01', 'up')):.2f} g of the button, {fineness} parts per thousand."
          if not keeps else f'You receive it as: the part that is not melted, about {float(rest_of):.2f} g.'])
    check(f'{name}-quote', 'metal', lines + [f'Rest of it: {float(rest_of):.3f} g', 'at most 60 % old metal may go in'] + flow)
    return price_due, deposit

forks = Brought('96.30', 924, 4, '1.12')
grain = 14 - (35 * F(930) - 21 * F(924) - 14 * F(925)) / (999 - 925)     # 21 g are 60 %; the rest is grain and fine silver
grain = to(grain, '0.001', 'down')
silver = 14 - grain
bench('brooch-quote', [('forks', 21), ('sterling grain', grain), ('fine silver', silver)], 35, '930 ‰ Ag ± 2.4 ‰',
      [('Cu', [21 * 76, grain * 75])], ' (at most 60 % old metal)')
worth = F('0.9') * F('1.12') * F(924, 1000)                                # of a gram of forks, at what would be credited
prices = [worth, F('1.27'), F('1.32')]
right, columns = [35, 35 * F(930), F('0.6') * 35], [(1, 924, 1), (1, 925, 0), (1, 999, 0)]
compare('brooch-quote', 'cost', cost_page('brooch-quote'), charge_cost('brooch-quote', '2.4', '60.0',
        [('Ag', (21 * F(924) + grain * 925 + silver * 999) / 35), ('Cu', (21 * F(76) + grain * 75 + silver) / 35)], 'Ag', [21, grain, silver], prices,
        limits(columns, right, prices, [('exactly 35 g in all', '1 g', (1, 930, F('0.6'))), ('at least 930 ‰ silver', '1 ‰', (0, 35, 0)),
                                        ('at most 60 % old metal', '1 %', (0, 0, F('0.35')))]), chance(925, 930, 4 * 21 / 35)) + quote_cost([], '5.5', 5, 17, making('5.5', 22), 'silver', [(grain, 925), (silver, 999)]))
lines = brought_lines(forks, 'forks', 'Ag', 'silver', '4.0')
lines.insert(1, 'tray | 310.000 g | not silver |  |  |  | ')
flow = foretold([('forks', 21, '96.30', 924), ('sterling grain', grain, None, 925), ('fine silver', silver, None, 999)], 35, '1.60', '10.36', '15.40', 930, 'Ag')
price, deposit = own_metal('brooch', [], [], '925', forks, F('75.30'), False, 'silver', 'Ag', 930, '15.40', '5.5', 22, '1.12', flow, lines)
silver_record = [('forks', '96.30', '924 ‰ Ag ± 4 ‰', 'in'), ('rest of the forks', '75.30', '924 ‰ Ag ± 4 ‰', 'here'), ('weighed sterling grain', '11.35', '925 ‰ Ag ± 1 ‰', 'added'),
                 ('weighed fine silver', '2.65', '999 ‰ Ag ± 0.2 ‰', 'added'), ('filings', '1.00', '921 ‰ Ag ± 5 ‰', 'here'), ('brooch', '15.40', '930 ‰ Ag ± 2 ‰', 'piece'),
                 ('button and sprues, as much of it as the studio put in', '14.136', '930 ‰ Ag ± 2 ‰', 'kept'), ('button and sprues, the rest', '4.114', '930 ‰ Ag ± 2 ‰', 'here')]
way, words = owed('Ag', forks.low, silver_record, None)
money, closed, _ = bill([('Making', making('5.5', 22))], deposit)
check('brooch-close', 'client', money + words)
check('brooch-close', 'metal', account('Ag', silver_record) + way)
silver_settled = once_closed('brooch', 'Ag', forks.low, silver_record, None)
# the button uncut: the studio's silver goes out with it, at the day's price with a premium of 2 %, or as a present that is named
uncut = silver_record[:-2] + [('button and sprues', '18.25', '930 ‰ Ag ± 2 ‰', 'here')]
ours = to(F('11.35') * F('0.925') + F('2.65') * F('0.999'), '0.001')
way, words = owed('Ag', forks.low, uncut, None)
named = [f'{grams(ours, "Ag")} was the studio\'s: on the invoice ({grams(ours, "Ag")} x 1.05 USD/g + 2 %)', f'{grams(ours, "Ag")} was the studio\'s: not charged']
day = ['The metal price is of 2026-12-02T08:30, invented.']
for how, sentence, more, of_day in (('charged', named[0], [('Studio metal that you keep', cents(ours * F('1.05') * F('1.02')))], day), ('given', named[1], [], [])):
    money, closed, _ = bill([('Making', making('5.5', 22))] + more, deposit)
    check(f'brooch-{how}', 'client', money + words + [sentence] + of_day)
    check(f'brooch-{how}', 'metal', account('Ag', uncut) + way + [f'{grams(ours, "Ag")} of the studio\'s metal is with client', sentence] + of_day)

# ---- a red ring out of a yellow chain ---------------------------------------------------------------------------------

chain = Brought('19.80', 583, 3, '97.20')
gold = to((25 * F(588) - 15 * F(583)) / F('999.9'), '0.001', 'up')       # 15 g are 60 %
bench('ring-quote', [('chain', 15), ('fine gold', gold), ('copper', 10 - gold)], 25, '588 ‰ Au ± 1.8 ‰',
      [('Cu', [15 * 212, (10 - gold) * 1000]), ('Ag', [15 * 205])], ' (at most 60 % old metal)')
prices = [F('0.9') * F('97.20') * F(583, 1000), F('99.15'), F('0.02')]
right, columns = [25, 25 * F(588), F('0.6') * 25], [(1, 583, 1), (1, F('999.9'), 0), (1, 0, 0)]
found = (15 * F(583) + gold * F('999.9')) / 25
compare('ring-quote', 'cost', cost_page('ring-quote'), charge_cost('ring-quote', '1.8', '60.0',
        [('Ag', (15 * F(205) + gold / 10) / 25), ('Au', found), ('Cu', (15 * F(212) + (10 - gold) * 1000) / 25)], 'Au', [15, gold, 10 - gold], prices,
        limits(columns, right, prices, [('exactly 25 g in all', '1 g', (1, 588, F('0.6'))), ('at least 588 ‰ gold', '1 ‰', (0, 25, 0)),
                                        ('at most 60 % old metal', '1 %', (0, 0, F('0.25')))]), chance(F(14000, 24), found, 3 * 15 / 25)) + quote_cost([], '5.5', 4, 16, making('5.5', 20), 'gold', [(gold, '999.9')]))
lines = brought_lines(chain, 'chain', 'Au', 'gold', '3.0') + [f"Also found by the tests, not credited: {grams(to(chain.gross * F('0.205'), '0.01', 'down'), 'Ag', 2)}"]
flow = foretold([('chain', 15, '19.80', 583), ('fine gold', gold, None, '999.9')], 25, '0.70', '13.20', '8.10', 588, 'Au')
price, deposit = own_metal('ring', ['Mark: 14K'], ['A ring in 14 kt red'], '583.3', chain, F('4.80'), True, 'gold', 'Au', 588, '8.10', '5.5', 20, '97.20', flow, lines)
gold_record = [('chain', '19.80', '583 ‰ Au ± 3 ‰', 'in'), ('rest of the chain', '4.80', '583 ‰ Au ± 3 ‰', 'here'), ('weighed fine gold', '5.956', '999.9 ‰ Au ± 0.1 ‰', 'added'),
               ('filings', '0.70', '581 ‰ Au ± 5 ‰', 'here'), ('ring', '8.10', '588 ‰ Au ± 1 ‰', 'piece'), ('button and sprues', '15.90', '588 ‰ Au ± 1 ‰', 'kept')]
way, words = owed('Au', chain.low, gold_record, 583)
money, closed, _ = bill([('Making', making('5.5', 20))], deposit)
left = [f"Left to the studio beyond what it added: {grams(to(F('15.90') * F('0.588') - F('5.956') * F('0.9999'), '0.001'), 'Au')}"]
check('ring-close', 'client', ['A ring in 14 kt red'] + money + words + left)
check('ring-close', 'metal', account('Au', gold_record) + way + left)
gold_settled = once_closed('ring', 'Au', chain.low, gold_record, 583, left)

# ---- a white band with the client's palladium -------------------------------------------------------------------------

ring = Brought('7.10', 949, 5, '34.00')
pd = to(22 * F(140) / 949, '0.001', 'up')                                # ten thousandths under the 150 of the alloy
gold = to(22 * F(752) / F('999.9'), '0.001', 'up')
bench('band-quote', [('grey ring', pd), ('fine gold', gold), ('fine silver', 22 - pd - gold)], 22, '752.0 ‰ Au',
      [('Pd', [pd * 949]), ('Ag', [(22 - pd - gold) * 999]), ('Ru', [pd * 51])])
weight = F('7.30') * F('1.08')
bought = weight * F('0.752')
lines = [('Fine metal added to yours', cents(bought * F('97.20') * F('1.02') * F('1.04'))), ('Alloying metals', cents(weight * F('0.1') * F('1.12') * F('1.04'))),
         ('Making', making('6.5', 30))]
money, price, deposit = bill(lines)
prices = [F('0.9') * 34 * F(949, 1000), F('99.15'), F('1.32')]
right, columns = [22, 22 * F(752), 22 * F(140)], [(1, 0, 949), (1, F('999.9'), 0), (1, 0, 0)]
fine, rest = cents(bought * F('97.20') * F('1.02')), cents(weight * F('0.1') * F('1.12'))
day = bought * F('97.20') * F('1.02') * F('0.01') * F(math.sqrt(5))         # a trading day moves gold by 1 %, and a week has five
compare('band-quote', 'cost', cost_page('band-quote'), charge_cost('band-quote', '0.0', '14.8',
        [('Ag', ((22 - pd - gold) * 999 + gold / 10) / 22), ('Au', gold * F('999.9') / 22), ('Cu', (22 - pd - gold) / 22), ('Pd', pd * 949 / 22), ('Ru', pd * 51 / 22)],
        'Au', [pd, gold, 22 - pd - gold], prices,
        limits(columns, right, prices, [('exactly 22 g in all', '1 g', (1, 752, 140)), ('at least 752 ‰ gold', '1 ‰', (0, 22, 0)), ('at least 140 ‰ palladium', '1 ‰', (0, 0, 22))]), note=False)
        + quote_cost([('Fine metal', fine), ('Rest of the alloy', rest)], '6.5', 6, 24, sum(a for _, a in lines), 'gold', [(gold, '999.9')]) + [
           f"Fine metal still to be bought: {grams(to(bought, '0.001', 'up'), 'Au')}",
           f"If the metal price rises 3 %, cost changes by: {usd(cents(bought * F('97.20') * F('0.03') * F('1.02')))}",
           f"If it falls 3 %, by: {usd(-cents(bought * F('97.20') * F('0.03') * F('1.02')))}",
           f"Reserve for holding the price: {usd(to(day * F('1.645'), '0.01', 'up'))}", f"Expected cost of holding the price: {usd(cents(day / F(math.sqrt(2 * math.pi))))}"])
used, back = weight * F('0.15'), ring.low - weight * F('0.15')
check('band-quote', 'client', [f"Fine palladium in the pieces you hand over, at least: {printed_low(ring, 'Pd')}", 'A band in 18 kt palladium white',
      'Fineness: 750 parts per thousand gold.', 'Mark: 18K'] + money + [
      f"Metal price 97.20 USD/g (2026-11-24T08:30, invented). Fine metal in the piece: {grams(to(F('7.30') * F('0.752'), '0.001', 'up'), 'Au')}; with the working loss of 8 %, {grams(to(weight * F('0.752'), '0.001', 'up'), 'Au')}.",
      f"The price holds until 2026-12-01T10:00 while the metal price is between {float(F('97.20') * F('0.97')):.3f} USD/g and {float(F('97.20') * F('1.03')):.3f} USD/g. "
      'If you accept by then, it holds within that range for the whole job. '
      f"Outside that range it is adjusted for the metal price on {grams(to(bought, '0.001', 'up'), 'Au')} still to be bought.",
      f"Your fine palladium for the piece, with 8 % working loss: {grams(to(used, '0.001', 'up'), 'Pd')}", f"Returned to you (fine palladium), at least: {grams(to(back, '0.001', 'down'), 'Pd')}",
      f"You receive it as: the part that is not melted, about {float(to(ring.gross - pd, '0.01', 'down')):.2f} g; the rest from the button."])
check('band-quote', 'metal', brought_lines(ring, 'grey ring', 'Pd', 'palladium', '5.0')
      + [f'Rest of grey ring: {float(ring.gross - pd):.3f} g'] + foretold([('fine gold', gold, None, '999.9')], 22, '0.48', '16.37', '7.30', 752, 'Au'))
moved = cents((F('101.90') - F('97.20')) * bought * F('1.02'))           # above 100.116, and a week is over
money, closed, _ = bill(lines + [('Change in the metal price', moved)], deposit)
pd_record = [('grey ring', '7.10', '949 ‰ Pd ± 5 ‰', 'in'), ('rest of the grey ring', '3.854', '949 ‰ Pd ± 5 ‰', 'here'), ('filings', '0.65', '139 ‰ Pd ± 3 ‰', 'here'),
             ('band', '7.30', '140 ‰ Pd ± 1 ‰', 'piece'), ('button and sprues', '13.90', '140 ‰ Pd ± 1 ‰', 'here')]
au_record = [('weighed fine gold', '16.546', '999.9 ‰ Au ± 0.1 ‰', 'in'), ('filings, their gold', '0.65', '746 ‰ Au ± 3 ‰', 'here'),
             ('band, its gold', '7.30', '752 ‰ Au ± 1 ‰', 'piece'), ('button and sprues, their gold', '13.90', '752 ‰ Au ± 1 ‰', 'here')]
way, words = owed('Pd', ring.low, pd_record, 949)
check('band-close', 'client', ['A band in 18 kt palladium white'] + money + [
      f"The metal is at 101.90 USD/g (2026-12-02T08:30), quoted at 97.20 USD/g: the difference on {grams(to(bought, '0.001'), 'Au')} that had to be bought, with the premium of 2 %"] + words)
check('band-close', 'metal', account('Pd', pd_record) + account('Au', au_record) + way)
pd_settled = once_closed('band', 'Pd', ring.low, pd_record, 949, account('Au', au_record))

# ---- the promise, after the price has moved -----------------------------------------------------------------------------

for job in ('brooch', 'ring', 'band'):
    quoted, today = ([s for s, _ in page(f'{job}-{when}', 'client')] for when in ('quote', 'today'))
    compare(job, 'promise', [s for s in today if 'accepted on' not in s], quoted)

# ---- the book -------------------------------------------------------------------------------------------------------------

RECORDS = {('client of brooch', 'Ag'): silver_record, ('client of ring', 'Au'): gold_record, ('client of band', 'Pd'): pd_record, ('studio', 'Au'): au_record}
SETTLED = {('client of brooch', 'Ag'): silver_settled, ('client of ring', 'Au'): gold_settled, ('client of band', 'Pd'): pd_settled}
THEN = {'before': ('forks', 'chain', 'grey ring'), 'between': None, 'after': None, 'settled': None, 'back': None}
LATER = ('filings', 'brooch', 'ring', 'band', 'button and sprues', 'button and sprues, as much of it as the studio put in', 'button and sprues, the rest',
         'filings, their gold', 'band, its gold', 'button and sprues, their gold')
for when in THEN:
    expected = {}
    for (owner, metal), record in RECORDS.items():
        held = here = F(0)
        for what, mass, fineness, way in record:
            fine = F(mass) * F(fineness.split()[0]) / 1000
            if when == 'before' and what not in THEN['before'] or when == 'between' and what in LATER:
                continue
            if way in ('in', 'added'):
                held += fine
            elif way == 'here':
                here += fine
            if way == 'in' and when == 'before':    # it lies as it was brought
                here += fine
            elif way in ('piece', 'kept'):
                held -= fine
            if way == 'kept':
                other = expected.setdefault(('studio', metal), [F(0), F(0)])
                other[0], other[1] = other[0] + fine, other[1] + fine
        for _, mass, fineness, *_ in SETTLED.get((owner, metal), []) if when in ('settled', 'back') else []:
            fine = F(mass) * F(fineness.split()[0]) / 1000
            held, here = held - fine, here - fine
            other = expected.setdefault(('studio', metal), [F(0), F(0)])
            other[0], other[1] = other[0] + fine, other[1] + fine
        if when == 'back' and owner != 'studio':    # all that was left is handed back
            held, here = held - here, F(0)
        if any(when != 'before' or e[0] in THEN['before'] for e in record):
            mine = expected.setdefault((owner, metal), [F(0), F(0)])
            mine[0], mine[1] = mine[0] + held, mine[1] + here
    book = json.load(open(f'{folder}/said/book-{when}.json'))
    def ng(x): return f'{float(to(x, F(1, 10 ** 9))):.9f}'.rstrip('0').rstrip('.') or '0'
    printed = [f"{a['owner']}, {a['metal']}: balance {a['balance']}, held {a['held']}, not weighed {a['not_weighed']}" for a in book['accounts']]
    compare('book', when, printed, [f'{owner}, {metal}: balance {ng(h)} g {metal}, held {ng(l)} g {metal}, not weighed {ng(h - l)} g {metal}'
                                    for (owner, metal), (h, l) in sorted(expected.items())])

print(f'{compared} lines of three jobs and five books, {faults} otherwise than reckoned')
sys.exit(1 if faults or compared < 200 else 0)
