# The piece was offered at 20.00 g, more than Blum brought, and weighs 20.15 g: nothing was promised back, the rest was to be bought, and more is missing.
mkdir -p jobs
cat >jobs/ring.json <<'JOB'
{ "recipe": "quote_own_metal", "date": "2026-11-24T10:00",
  "given": { "piece": "A ring", "finished": "20.00 g", "fineness": "650 ‰ Au", "client_fine_low": "12.35 g Au", "client_metal": "worked", "hours": { "bench": "5 h" } },
  "house": { "prices": { "Au": { "price": "90 USD/g", "at": "2026-11-24T09:00", "from": "list" } }, "premium": "2 %", "wastage": "0 %",
             "rates": { "bench": "60 USD/h" }, "overhead": "10 USD/h", "markup": "20 %", "place": "US", "tax_rate": "5 %", "tax_law": "invented",
             "tax_base": "work and added material" },
  "record": [
    { "at": "2026-11-25T10:00", "what": "two rings", "mass": "19.00 g", "fineness": "650 ‰ ± 4 ‰", "owner": "Blum", "way": "in" },
    { "at": "2026-11-25T11:00", "what": "grain", "mass": "1.00 g", "fineness": "650 ‰ ± 4 ‰", "owner": "Blum", "way": "added" },
    { "at": "2026-12-01T16:00", "what": "ring", "mass": "20.15 g", "fineness": "650 ‰ ± 4 ‰", "owner": "Blum", "way": "piece" } ],
  "closing": { "date": "2026-12-04", "given": { "client": "Blum", "surplus": "returned" } } }
JOB
lemel offer jobs/ring.json --by O.F. --at 2026-11-24T10:30 -q
lemel offer jobs/ring.json --accepted --by Blum --at 2026-11-26 -q
lemel close jobs/ring.json --sheet bench,client -q >sheet
status=$?
awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
