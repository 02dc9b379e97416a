cat >jobs/flask.json <<'JOB'
{ "recipe": "flask", "date": "2026-12-04", "given": { "metal": "Pt950 ruthenium", "tree": { "diameter": "44 mm", "height": "50 mm", "foot": "9 mm" } },
  "house": { "flasks": [ { "name": "F", "diameter": "2.5 in", "height": "4 in" } ] } }
JOB
lemel run jobs/flask.json --format json -q >/dev/null
