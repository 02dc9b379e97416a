# A ring that is quoted; quiet NAME ... makes, takes or takes back its offer. The digests in an entry hang on lemel's own recipes,
# so only what is said is held fast.
mkdir -p jobs
cat >jobs/ring.json <<'JOB'
{ "recipe": "quote", "date": "2026-11-24T10:00",
  "given": { "piece": "A ring", "finished": "6 g", "fineness": "750 ‰ Au", "hours": { "bench": "5 h" } },
  "house": { "prices": { "Au": { "price": "90 USD/g", "at": "2026-11-24T09:00", "from": "list" } }, "premium": "2 %",
             "rates": { "bench": "60 USD/h" }, "overhead": "10 USD/h", "markup": "20 %", "deposit_share": "40 %",
             "place": "US", "tax_rate": "5 %", "tax_law": "invented" },
  "closing": { "date": "2026-12-04" } }
JOB
quiet() { lemel offer jobs/ring.json "$@" -q; }
offered() { quiet --by O.F. --at 2026-11-24T10:30; }
accepted() { quiet --accepted --by Blum --at 2026-11-26 --paid deposit; }
