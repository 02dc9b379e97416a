. "$(dirname "$0")/book.sh"
job band '{ "at": "2026-12-01T10:00", "what": "weighed old button", "mass": "50 g", "from": "ring: button" }'
lemel book jobs
