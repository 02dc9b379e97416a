. "$(dirname "$0")/book.sh"
job sent "$(entry 2026-12-01T10:00 'parcel 7' '9.60 g' studio sent 'ring: button')"
job settled '' ', "given": { "settlements": [ { "lot": "parcel 7", "found": "5.60 g Au" } ] }'
lemel book jobs
