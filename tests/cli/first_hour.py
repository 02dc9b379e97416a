"""The first hour, key by key: from an empty folder to a quote, to a casting sheet and to a closing, as someone types it who follows
docs/your-studio.md and docs/a-whole-job.md, in a studio of another country than the examples'. Questions are answered at a
terminal of its own. Nothing may get in the way: no command refuses, and no question is asked again because its answer was refused.
The total and the balance are calculated here too, from what is typed. The keys are printed, and the minutes that they take at a slow hand's speed (40 words a minute, common practice,
no source); no test hangs on the clock.

    first_hour.py PATH-OF-LEMEL [-v]
"""
import os
import pty
import select
import shlex
import shutil
import subprocess
import sys
import tempfile
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal

KEYS_A_MINUTE = 200  # 40 words of five letters
WAITS = 60  # seconds for an answer; a hang, and not a slow machine

# What the price hangs on, in the units in which it is typed.
RATE, HOURS, OVERHEAD, PROFIT = "68", "4", "18", "25"
GOLD, PREMIUM = "98.50", "2"
OLD, OLD_PARTS, OLD_DOUBT, SCALE_DOUBT = "6.20", "583", "4", "0.005"
PIECE, PARTS = "13.20", "585"

STUDIO = f"""
Haus am Deich | Germany | EUR | 5 m | g | mm | °C | mbar
bench | {RATE} EUR/h | setting | 80 EUR/h | | {OVERHEAD} EUR/h | {PROFIT} % | {PREMIUM} % | 92 % | | | y | 98 % | 96 % | 35 EUR | DE 123456789 |
0.01 g | {SCALE_DOUBT} g | 10 g
A | graphite | 300 g | | 60 g | Au999.9 fine | yellow | rose | |
tabletop | 1500 W | 55 % | 1150 °C | | 25 min | |
80 | 80 mm | 100 mm | | | | |
absolute
y | 1000 °C | 5 °C/min | | 100 °C | 3 °C/min | | 8 | | y | | | | | |
y | 22:00 | 06:30 | 400 °C
{GOLD} EUR/g | my refiner
"""

JOB = f"""
A ring for Imke Brandt | Imke Brandt
worn ring | plain band, yellow gold | 585 | {OLD} g | | | y | xrf cut | {OLD_PARTS} ‰ ± {OLD_DOUBT} ‰ | | y | n | none found | no pull | | melt | y | - | -
- | -
Au585 yellow | 1.05 g | 0.30 g | -
fine gold | Au999.9 fine | - | 14 kt grain | Au585 yellow | - | -
{PARTS} ‰ | -
y | | 36 mm | 34 mm | 9 mm | - | -
2026-11-27T14:00 | -
| {PIECE} g | - | -
own metal | | | worked | bench | {HOURS} h | | | | | | -
"""


RECORD = """
"worn ring" "6.20 g"
"weighed 14 kt grain" "23.90 g"
"weighed fine gold" "0.03 g"
--all "flask=580 °C" "flask held=65 min" "metal=920 °C" "blanked=33 mbar" "gauge=163 mbar"
lit
poured
tree "29.68 g"
"raw casting" "14.25 g"
"saw lemel" "0.08 g"
"beads from the crucible" "0.28 g"
button "15.35 g"
finished "13.20 g"
filings "0.95 g"
"""


def total():
    """What the client pays, in EUR. Of the client's gold what it holds at least, 19 times in 20: 1.645 of its spread below what was
    found, cut down to 0.1 mg. Left at what lemel assumes: 8 % working loss, a contingency of 3 % of the work. Tax: 19 %, UStG
    § 12 (1)."""
    cent, pro_mille = Decimal("0.01"), Decimal("0.001")
    old, parts = Decimal(OLD), Decimal(OLD_PARTS) * pro_mille
    spread = ((old * Decimal(OLD_DOUBT) * pro_mille) ** 2 + (parts * Decimal(SCALE_DOUBT)) ** 2).sqrt()
    brought = (old * parts - Decimal("1.645") * spread).quantize(Decimal("0.0001"), ROUND_DOWN)
    fine = Decimal(PIECE) * Decimal(PARTS) * pro_mille * Decimal("1.08")
    metal = ((fine - brought) * Decimal(GOLD) * (1 + Decimal(PREMIUM) / 100)).quantize(cent, ROUND_HALF_UP)
    work = Decimal(HOURS) * (Decimal(RATE) + Decimal(OVERHEAD)) * (1 + Decimal(PROFIT) / 100)
    before_tax = metal + (work * Decimal("1.03")).quantize(cent, ROUND_HALF_UP)
    tax = (before_tax * Decimal("0.19")).quantize(cent, ROUND_HALF_UP)
    return f"{before_tax + tax:,} EUR"


def answers(text):
    return [key.strip() for line in text.strip().split("\n") for key in line.split("|")]


def is_complaint(line):
    """Below a question, and neither what the answer is in the house's unit nor the next question."""
    return line.startswith("    ") and not line.startswith("    = ") and not line.endswith(": ")


class Hour:
    def __init__(self, lemel, folder, verbose):
        self.folder, self.verbose = folder, verbose
        self.keys = self.refused = 0
        self.env = dict(os.environ, LEMEL_NOW="2026-11-24T10:30", COLUMNS="100",
                        PATH=os.path.dirname(os.path.abspath(lemel)) + ":" + os.environ["PATH"])

    def refuse(self, what, said):
        self.refused += 1
        print(f"refused: {what}\n{said}", file=sys.stderr)

    def note(self, words, text):
        if self.verbose:
            print("$ " + " ".join(words) + "\n" + text)

    def run(self, *words, stopped=False):
        """A command that asks nothing; what it prints."""
        self.keys += len(" ".join(words)) + 1
        done = subprocess.run(words, cwd=self.folder, env=self.env, stdin=subprocess.DEVNULL,
                              capture_output=True, text=True, timeout=WAITS)
        text = done.stdout + done.stderr
        self.note(words, text)
        if done.returncode > (1 if stopped else 0):
            self.refuse(" ".join(words), text)
        return text

    def ask(self, words, typed):
        """A command that asks, at a terminal; what stands on it afterwards."""
        child, terminal = pty.fork()
        if child == 0:
            os.chdir(self.folder)
            os.execvpe(words[0], words, self.env)
        self.keys += len(" ".join(words)) + 1
        screen, prompt = "", None
        for place, key in enumerate(typed + [None]):
            more = self.read(terminal, key is None)
            before, prompt = prompt, more.split("\n")[-1]
            if prompt == before and any(is_complaint(line) for line in more.split("\n")):
                self.refuse(before.strip() + typed[place - 1], more)
            screen += more
            if key is None:
                break
            self.keys += len(key) + 1
            screen += key + "\n"
            os.write(terminal, (key + "\n").encode())
        status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        os.close(terminal)
        self.note(words, screen)
        if status > 1:
            self.refuse(" ".join(words), screen)
        return screen

    def read(self, terminal, to_end):
        """Up to the next prompt, which ends in a colon and a blank."""
        got = b""
        while to_end or not got.endswith(b"]: ") and not got.endswith(b"): "):
            if not select.select([terminal], [], [], WAITS)[0]:
                sys.exit("nothing more is asked:\n" + got.decode(errors="replace"))
            try:
                more = os.read(terminal, 65536)
            except OSError:
                more = b""
            if not more:
                break
            got += more
        text = got.decode(errors="replace").replace("\r\n", "\n")
        return text.split("\n", 1)[1] if "\n" in text and self.keys > 20 and not to_end else text

    def need(self, text, *wanted):
        for words in wanted:
            if words not in " ".join(text.split()):
                sys.exit(f"it lacks: {words}\n{text}")

    def reached(self, what):
        print(f"{what}: {self.keys} keys, {self.keys / KEYS_A_MINUTE:.0f} min; {self.refused} refused")


# What only the person there knows, in the place of the words in capitals.
TOLD = {"MASS": "0.00 g", "PRICE": "99.10 EUR/g", "WHO": "my refiner", "WHY": "as agreed"}


def check_cut_off(hour):
    """A terminal that is shut between two questions of a new studio: what was answered is there, and it goes on from there."""
    child, terminal = pty.fork()
    if child == 0:
        os.mkdir(os.path.join(hour.folder, "cut"))
        os.chdir(os.path.join(hour.folder, "cut"))
        os.execvpe("lemel", ["lemel", "new", "studio"], hour.env)
    for key in (b"Cut Off\n", b"\x04"):
        hour.read(terminal, False)
        os.write(terminal, key)
    hour.read(terminal, True)
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    os.close(terminal)
    with open(os.path.join(hour.folder, "cut", "house.json"), encoding="utf-8") as house:
        said = house.read()
    if status != 0 or '"name": "Cut Off"' not in said:
        sys.exit(f"status {status}, and of what was answered it kept:\n{said}")


def check_next(hour):
    """At a terminal one line says what comes next."""
    said = hour.ask(["lemel", "record", "jobs/ring.json", "weighed worn ring", "6.20 g"], [])
    hour.need(said, "next: weighed 14 kt grain")


def close_as_told(hour):
    """Everything that the closing needs is told at once: it is typed as it stands there, and then nothing is missing."""
    told = hour.run("lemel", "check", "jobs/ring.json")
    hour.need(told, "before it is closed:")
    commands = [line.strip() for line in told.split("\n") if line.startswith("       lemel ")]
    bill = ""
    for line in commands:
        bill = hour.run(*[TOLD.get(word, word) for word in shlex.split(line)])
    if len(commands) != 4 or not commands[-1].startswith("lemel close "):
        sys.exit(f"four commands were to be told, the closing last:\n{told}")
    hour.need(bill, "Balance to pay " + total())  # no deposit was asked, and gold is within the offer's range


def play(hour):
    hour.ask(["lemel", "new", "studio"], answers(STUDIO))
    hour.need(hour.run("lemel", "check", "house.json"), "house.json: sound")
    quote = hour.run("lemel", "run", "jobs/example.json", "--sheet", "client", stopped=True)
    hour.need(quote, "Total to pay", "EUR")
    hour.reached("a first quote")

    sheet = hour.ask(["lemel", "ask", "remake", "-o", "jobs/ring.json"], answers(JOB))
    hour.need(sheet, "BENCH SHEET", "Metal to weigh out")
    hour.reached("a casting sheet")
    hour.need(hour.run("lemel", "run", "jobs/ring.json", "--sheet", "client"), "Total to pay " + total())

    hour.run("lemel", "offer", "jobs/ring.json", "--by", "H.D.")
    hour.need(hour.run("lemel", "check", "jobs/ring.json"), "lemel offer jobs/ring.json --accepted --by WHO")
    hour.run("lemel", "offer", "jobs/ring.json", "--accepted", "--by", "Imke Brandt")
    hour.env["LEMEL_NOW"] = "2026-11-27T14:00"
    check_next(hour)
    for words in RECORD.strip().split("\n"):
        hour.run("lemel", "record", "jobs/ring.json", *shlex.split(words))
    hour.env["LEMEL_NOW"] = "2026-11-30T16:00"
    close_as_told(hour)
    hour.reached("a closing")


if __name__ == "__main__":
    command, verbose = sys.argv[1], "-v" in sys.argv[2:]
    folder = tempfile.mkdtemp()
    try:
        hour = Hour(command, folder, verbose)
        check_cut_off(hour)
        play(hour)
    finally:
        shutil.rmtree(folder)
    if hour.refused:
        sys.exit(f"{hour.refused} refused")
