cat >jobs/account.json <<'JOB'
{ "recipe": "account", "date": "2026-12-04", "record": [
  { "at": "2026-11-30T09:00", "what": "ring", "mass": "9.00 g", "fineness": "750 ‰", "owner": "client", "way": "in" },
  { "at": "2026-12-03T16:02", "what": "rest of ring", "mass": "8.62 g", "owner": "client", "way": "returned" },
  { "at": "2026-12-03T16:05", "what": "rest of ring", "mass": "8.62 g", "fineness": "750 ‰", "owner": "client", "way": "returned" } ] }
JOB
lemel run jobs/account.json --format json -q >/dev/null
