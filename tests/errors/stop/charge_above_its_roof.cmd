cat >jobs/charge.json <<'JOB'
{ "recipe": "charge", "date": "2026-12-04", "given": { "mass": "40 g", "target": "925 ‰ Ag", "aim": "least new metal",
    "lots": [ { "name": "fine silver", "metal": { "Ag": "999 ‰", "Cu": "1 ‰" }, "mass": "100 g" } ] },
  "house": { "scale_step": "0.01 g" } }
JOB
lemel run jobs/charge.json --format json -q >/dev/null
