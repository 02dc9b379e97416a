. "$(dirname "$0")/book.sh"
job band '{ "at": "2026-12-01T10:00", "what": "button", "mass": "6 g", "fineness": "585 ‰", "way": "here" }'
lemel book jobs
