# close NAME=VALUE ...: closes a job that is sound but for what is named here, and tells what stops it. Blum's two rings went
# into one, and what is over is credited.
close() {
    cat >jobs/fetched.json <<'JOB'
{ "recipe": "closing", "date": "2026-12-04", "given": {
    "quoted_lines": [ { "label": "Making", "amount": "728.09 USD" } ], "client": "Blum", "client_metal": "worked", "surplus": "credited" },
  "record": [
    { "at": "2026-11-25T10:00", "what": "two rings", "mass": "20.00 g", "fineness": "650 ‰ ± 4 ‰", "owner": "Blum", "way": "in" },
    { "at": "2026-12-01T16:00", "what": "ring", "mass": "12.00 g", "fineness": "650 ‰ ± 4 ‰", "owner": "Blum", "way": "piece" },
    { "at": "2026-12-01T16:05", "what": "button", "mass": "7.80 g", "fineness": "650 ‰ ± 4 ‰", "owner": "Blum", "way": "here" } ],
  "house": { "prices": { "Au": { "price": "90 USD/g", "at": "2026-12-04T09:00", "from": "list" } }, "premium": "2 %", "credit_share": "90 %",
             "place": "US", "tax_rate": "5 %", "tax_law": "invented", "tax_base": "work and added material" } }
JOB
    lemel run jobs/fetched.json "$@" --sheet bench -q 2>said >sheet
    status=$?
    cat said >&2
    awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
    exit $status
}
