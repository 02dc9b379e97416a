# The hours of the demo's casting day, three flasks in one kiln, reckoned from the figures of its kiln and its jobs by adding
# minutes. Nothing here is lemel's. Prints rows as demo.tsv has them:
#   awk -f tests/trade/day.awk
function row(give, minutes) { m = int(minutes + 1e-6); printf "DEMO\tfriday\tgive=%s unit=o'clock\t%.6f\t0.000001\t\tcomputed\tday.awk\n", give, m / 60 }
BEGIN {
  # house.json: 20 to 150 °C at 3 a minute, 90 min; to 370 at 2, 60 min; to 730 at 3, 120 min; down at 3. An hour at the casting
  # temperature (General casting tips for karat golds: at least one before the first pour).
  first = 14 * 60; start = first - (130 / 3 + 90 + 220 / 2 + 60 + 360 / 3 + 120 + 150 / 3 + 60)
  row("start", start)
  # Nobody works from 22:00 to 6:30, so the kiln is loaded at 22:00; an hour before that at the latest the last flask has lost
  # its gloss, and each of the three takes 20 min.
  row("load_by", 22 * 60); row("gloss_off_by", 21 * 60)
  for (i = 1; i <= 3; i++) row("hands." i ".at", 21 * 60 - (4 - i) * 20)
  # Half an hour from one flask to the next; then the kiln goes from 580 to 510 °C, and stands there for an hour.
  second = first + 30; third = first + 2 * 30 + 70 / 3 + 60
  row("pours.1.at", first); row("pours.2.at", second); row("pours.3.at", third)
  # Yellow is quenched 8 to 12 min after its pour, sterling 10 to 15.
  row("pours.1.quench_from", first + 8); row("pours.1.quench_until", first + 12)
  row("pours.3.quench_from", third + 10 + 1 - 1e-6); row("pours.3.quench_until", third + 15)
}
