. "$(dirname "$0")/book.sh"
job band "$(entry 2026-11-29T10:00 'chips' '2.00 g' Merrin here), $(entry 2026-11-29T10:00 'chips' '3.00 g' Caspian here),
  $(entry 2026-12-01T10:00 'handed over' '4.00 g' Merrin returned 'chips')"
lemel book jobs/band.json
