. "$(dirname "$0")/book.sh"
job band "$(entry 2026-11-29T10:00 'rest' '4.10 g' Merrin here), $(entry 2026-12-01T10:00 'weighed rest' '4.10 g' Merrin in 'rest')"
lemel book jobs/band.json
