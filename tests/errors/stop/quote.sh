# quote NAME=VALUE ...: prices a job that is sound but for what is named here, and tells what stops it. `profit` is the
# markup or margin, 25 % on the cost when nothing is said.
quote() {
    cat >jobs/ring.json <<'JOB'
{ "recipe": "quote", "date": "2026-11-24T10:00",
  "given": { "finished": "6.30 g", "fineness": "585 ‰", "hours": { "bench": "4 h" } },
  "house": { "prices": { "Au": { "price": "90 USD/g", "at": "2026-11-24T09:00", "from": "list" } },
             "rates": { "bench": "65 USD/h" }, "overhead": "18 USD/h", "premium": "2 %",
             "place": "US", "tax_rate": "5 %", "tax_law": "invented" } }
JOB
    lemel run jobs/ring.json "${profit:-markup=25 %}" "$@" --sheet bench -q 2>said >sheet
    status=$?
    cat said >&2
    awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
    exit $status
}
