# The figures of the three jobs of silver, red and white metal, reckoned from what was weighed, tested and priced in them, by
# schoolbook arithmetic. Nothing here is lemel's: mixing is m = m1 (f1 - t) / (t - f2), a low bound is 1.645 deviations down
# (NIST/SEMATECH e-Handbook, 1.3.6.7.1), a charge of least cost is found by hand below. Prints rows as demo.tsv has them:
#   awk -f tests/trade/metals.awk
function row(job, give, unit, value, within) { printf "DEMO\t%s\tgive=%s unit=%s\t%s\t%s\t\tcomputed\tmetals.awk\n", job, give, unit, value, within }
function down(x, step) { return int(x / step + 1e-9) * step }
function cents(x) { return int(x * 100 + 0.5 + 1e-9) / 100 }
function grams(x) { return sprintf("%.4f", x) }
# Fine metal of a piece weighed to 0.01 g, tested to u thousandths, and its spread.
function fine(m, f) { return m * f / 1000 }
function spread(m, f, u) { return sqrt((m * u / 1000) ^ 2 + (0.01 * f / 1000) ^ 2) }
function handed(job, m, f, u) {
  row(job, "fine", "g", grams(fine(m, f)), "0.00005")
  row(job, "handed_spread", "g", grams(spread(m, f, u)), "0.0001")
  low = down(fine(m, f) - 1.645 * spread(m, f, u), 0.0001)
  row(job, "handed_low", "g", grams(low), "0.0001")
}
# Work with its risk of 3 % and its profit of 22 %, an hour at 68 and 19; then tax of 4.9 %, the price up to a whole dollar, and
# 40 % of it as a deposit.
function making(hours, rest) { cost = hours * 68 + hours * 19 + rest; return cents((cost + cents(0.03 * cost)) * 1.22) }
function bill(job, subtotal) {
  tax = cents(0.049 * subtotal); price = subtotal + tax
  if (price > int(price)) price = int(price) + 1
  row(job, "subtotal", "USD", sprintf("%.2f", subtotal), "0"); row(job, "tax", "USD", sprintf("%.2f", tax), "0")
  row(job, "price", "USD", price, "0"); row(job, "deposit", "USD", sprintf("%.2f", cents(0.4 * price)), "0")
}
function closed(job, subtotal, deposit, owed) {
  tax = cents(0.049 * subtotal); price = subtotal + tax
  if (price > int(price)) price = int(price) + 1
  row(job, "due_fine", "g", sprintf("%.3f", owed), "0.0011")
  row(job, "price", "USD", price, "0")
  row(job, "balance", "USD", sprintf("%.2f", price - deposit), "0")
}
BEGIN {
  # Spoons to a pendant. 32 g at 929: spoons of 926 up to 60 %, being cheapest; the rest is fine silver of 999 and grain of 925.
  j = "spoon-pendant"; handed(j, 84.60, 926, 3)
  row(j, "weigh.1.mass", "g", 0.6 * 32, "0.0005")
  x = (32 * 929 - 19.2 * 926 - 12.8 * 925) / (999 - 925)
  row(j, "weigh.3.mass", "g", sprintf("%.3f", x), "0.0011"); row(j, "weigh.2.mass", "g", sprintf("%.3f", 12.8 - x), "0.0011")
  row(j, "raw", "g", sprintf("%.2f", 1.45 * 10.36 / 0.96), "0.01")            # the wax, by the densities of sterling and wax
  row(j, "average", "‰", 929, "0.01")
  row(j, "pour_at", "°C", 893 + 75, "0.6")                                   # 893: 1640 °F of a trade page, 75 above it
  row(j, "returned", "g", sprintf("%.3f", down(low - 13.90 * 1.08 * 0.929, 0.001)), "0.001")
  bill(j, making(4, 20))
  # owed: what was surely brought, and all that was added, less the piece, 8 % of it for working, and what the studio took back
  closed("spoon-pendant-closing", making(4, 20), 194.40, low + fine(11.329, 925) + fine(1.471, 999) - fine(13.90, 929) * 1.08 - fine(12.862, 929))

  # A red ring: 24 g at 587 of the yellow bangle up to 60 %, fine gold of 999.9, and copper.
  j = "red-ring"; handed(j, 18.50, 585, 2)
  row(j, "weigh.1.mass", "g", 0.6 * 24, "0.0005")
  gold = (24 * 587 - 14.4 * 585) / 999.9
  row(j, "weigh.2.mass", "g", sprintf("%.3f", gold), "0.0011"); row(j, "weigh.3.mass", "g", sprintf("%.3f", 9.6 - gold), "0.0011")
  # red by the fitted rule: silver against silver and copper below 0.34 (14.4 g hold 200 of silver and 215 of copper)
  silver = 14.4 * 0.2 + gold * 0.0001; copper = 14.4 * 0.215 + 9.6 - gold
  if (silver / (silver + copper) >= 0.34) print "the ring is not red: " silver / (silver + copper)
  # 585 with 80 and with 200 of silver are all molten at 905 and 845 °C (a table of GOST 30649-99): 120 of it, a third of the way
  # down, 75 above; the model that lemel reckons by is within 28 °C of published ones
  row(j, "pour_at", "°C", 905 - 60 / 3 + 75, "28")
  # the button and the sprues are the studio's, as agreed: surely back comes what is not melted, 4.1 g, as surely as the whole
  row(j, "returned", "g", sprintf("%.3f", down(fine(4.1, 585) * low / fine(18.50, 585), 0.001)), "0.001")
  bill(j, making(4.5, 20))
  closed("red-ring-closing", making(4.5, 20), 217.20, low + fine(5.665, 999.9) - fine(7.20, 587) * 1.08 - fine(9.60, 587) - fine(6.30, 587))

  # A white band: 21 g at 752, palladium at 140 of it (the alloy's 150 less 10) out of the client's 950, the rest fine silver.
  j = "white-band"
  row(j, "weigh.1.mass", "g", sprintf("%.3f", 21 * 140 / 950), "0.0011")
  gold = 21 * 752 / 999.9
  row(j, "weigh.2.mass", "g", sprintf("%.3f", gold), "0.0011"); row(j, "weigh.3.mass", "g", sprintf("%.3f", 21 - gold - 21 * 140 / 950), "0.0011")
  row(j, "raw", "g", sprintf("%.2f", 0.45 * 16.37 / 0.96), "0.01")
  # flask A, 63.5 mm high and wide, less its cone of 12 mL and the wax; 8 % over, 4 % lost; 25 mL of liquid to 100 g of powder of
  # 2.70 g/cm3, three quarters of it the maker's; powder in steps of 10 g
  slurry = (atan2(0, -1) / 4 * 6.35 ^ 3 - 12 - 0.70 / 0.96) * 1.08 / 0.96
  powder = slurry / (1 / 2.70 + 0.25)
  powder = powder > 10 * int(powder / 10) ? 10 * int(powder / 10) + 10 : powder
  row(j, "powder", "g", powder, "0"); row(j, "liquid", "mL", sprintf("%.0f", 0.75 * 0.25 * powder), "0"); row(j, "water", "g", sprintf("%.0f", 0.25 * 0.25 * powder), "0")
  # back from 14:00: an hour at 620, down from 900 at 3, an hour there, up from 260 at 3, an hour there, up from 20 at 4 degrees a minute
  row(j, "start", "o'clock", sprintf("%.4f", 14 - 1 - (900 - 620) / 180 - 1 - (900 - 260) / 180 - 1 - (260 - 20) / 240), "0.0084")
  row(j, "at_waking", "°C", 260, "0.05")                                      # 06:30 is in the first hold
  weight = 6.90 * 1.08
  fine_metal = cents(98.50 * 1.02 * 0.752 * weight * 1.04)                    # a premium of 2 %, a markup of 4 % on metal
  alloy = cents(1.15 * 0.100 * weight * 1.04)                                 # silver of the alloy; its palladium is the client's
  bill(j, fine_metal + alloy + making(5.5, 28))
  closed("white-band-closing", fine_metal + alloy + making(5.5, 28), 513.20, down(fine(6.40, 950) - 1.645 * spread(6.40, 950, 4), 0.0001) - fine(6.90, 140) * 1.08)
}
