. "$(dirname "$0")/book.sh"
job band "$(entry 2026-12-01T10:00 'weighed rest' '4.10 g' Merrin added 'ring: rest')"
lemel book jobs
