# The metal that the records of some jobs hold at a date, entry by entry, from job files that have an entry a line:
#   awk -v at=2026-11-27T12:00 -f tests/trade/book.awk JOB.json ...
# Fine metal is mass by fineness. What is brought or added is the owner's; a piece and what is returned are gone; what is kept, or
# lies here of button and sprues that were agreed to be the studio's, is the studio's. Prints owner, metal, the balance, what of it was
# weighed and is here or lies as it was brought, and what was not weighed since. Nothing here is lemel's.
function member(name,  text) {
  if (!match($0, "\"" name "\": *\"[^\"]*\"")) return ""
  text = substr($0, RSTART, RLENGTH); sub(/^[^:]*: *"/, "", text); sub(/"$/, "", text)
  return text
}
function add(whose, metal, held, here) { accounts[whose "|" metal] = 1; h[whose "|" metal] += held; w[whose "|" metal] += here }
# What a job brought in that is known to lie there still: nothing but what was brought is called by its name, and nothing came
# out of the work.
function end_of_job(  i) {
  for (i = 1; i <= pieces; i++)
    if (!worked && !((piece[i] in opened) || (("weighed " piece[i]) in opened) || (("rest of " piece[i]) in opened) || (("rest of the " piece[i]) in opened) || ((piece[i] " handed back") in opened)))
      b[of[i]] += brought[i]
  pieces = worked = 0; delete opened
}
FNR == 1 { if (NR > 1) end_of_job(); job = FILENAME; sub(/.*\//, "", job); sub(/\.json$/, "", job); to = "" }
/"button_to"/ && !/"way"/ { to = member("button_to") }
/"what"/ && !/"way": "in"/ && !/"what":"/ && member("at") <= at {
  opened[member("what")] = 1
  if (/"way": "(piece|kept)"/ || (/"way": "here"/ && member("what") !~ /^rest of /) || (!/"way"/ && member("what") ~ /^(charge|poured|tree|raw casting)$/)) worked = 1
}
/"way"/ {
  if (member("at") > at) next
  way = member("way"); what = member("what"); owner = member("owner"); fineness = member("fineness")
  whose = owner == "client" ? "client of " job : owner
  metal = match(fineness, /A[ug]|P[dt]/) ? substr(fineness, RSTART, 2) : "Au"
  fine = (member("mass") + 0) * (fineness + 0) / 1000
  if (way == "here" && to == "studio" && owner != "studio" && what ~ /^(button|sprues|button and sprues)(,|$)/) way = "kept"
  if (way == "in" || way == "added") add(whose, metal, fine, 0)
  if (way == "in" && what !~ /^weighed /) { piece[++pieces] = what; of[pieces] = whose "|" metal; brought[pieces] = fine }
  if (way == "piece" || way == "returned") add(whose, metal, -fine, 0)
  if (way == "here") add(whose, metal, 0, fine)
  if (way == "kept") { add(whose, metal, -fine, 0); add("studio", metal, fine, fine) }
}
END { end_of_job(); for (a in accounts) printf "%s|%.4f|%.4f|%.4f\n", a, h[a], w[a] + b[a], h[a] - w[a] - b[a] }
