# The metal that the records of some jobs hold at a date, entry by entry, from job files that have an entry a line:
#   awk -v at=2026-11-27T12:00 -f tests/trade/book.awk JOB.json ...
# Fine metal is mass by fineness. What is brought or added is the owner's; a piece and what is returned are gone; what is kept, or
# lies here of button and sprues that were agreed to be the studio's, is the studio's. Prints owner, metal, held, weighed and here,
# not weighed since. Nothing here is lemel's.
function member(name,  text) {
  if (!match($0, "\"" name "\": *\"[^\"]*\"")) return ""
  text = substr($0, RSTART, RLENGTH); sub(/^[^:]*: *"/, "", text); sub(/"$/, "", text)
  return text
}
function add(whose, metal, held, here) { accounts[whose "|" metal] = 1; h[whose "|" metal] += held; w[whose "|" metal] += here }
FNR == 1 { job = FILENAME; sub(/.*\//, "", job); sub(/\.json$/, "", job); to = "" }
/"button_to"/ && !/"way"/ { to = member("button_to") }
/"way"/ {
  if (member("at") > at) next
  way = member("way"); what = member("what"); owner = member("owner"); fineness = member("fineness")
  whose = owner == "client" ? "client of " job : owner
  metal = match(fineness, /A[ug]|P[dt]/) ? substr(fineness, RSTART, 2) : "Au"
  fine = (member("mass") + 0) * (fineness + 0) / 1000
  if (way == "here" && to == "studio" && owner != "studio" && what ~ /^(button|sprues|button and sprues)(,|$)/) way = "kept"
  if (way == "in" || way == "added") add(whose, metal, fine, 0)
  if (way == "piece" || way == "returned") add(whose, metal, -fine, 0)
  if (way == "here") add(whose, metal, 0, fine)
  if (way == "kept") { add(whose, metal, -fine, 0); add("studio", metal, fine, fine) }
}
END { for (a in accounts) printf "%s|%.4f|%.4f|%.4f\n", a, h[a], w[a], h[a] - w[a] }
