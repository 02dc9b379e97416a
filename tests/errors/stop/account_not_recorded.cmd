cat >jobs/account.json <<'JOB'
{ "recipe": "account", "date": "2026-12-04", "record": [
  { "at": "2026-11-30T09:00", "what": "ring", "mass": "9.00 g", "fineness": "750 ‰", "owner": "client", "way": "in" },
  { "at": "2026-12-02T09:00", "what": "weighed ring", "mass": "9.00 g", "fineness": "750 ‰", "owner": "client" },
  { "at": "2026-12-02T09:01", "what": "weighed 14 kt grain", "mass": "12.58 g", "fineness": "585 ‰" },
  { "at": "2026-12-02T14:00", "what": "poured" },
  { "at": "2026-12-02T15:00", "what": "button", "mass": "15.20 g", "fineness": "654 ‰", "owner": "client" },
  { "at": "2026-12-03T16:00", "what": "finished", "mass": "5.02 g", "fineness": "654 ‰", "owner": "client" } ] }
JOB
lemel run jobs/account.json --format json -q >/dev/null
