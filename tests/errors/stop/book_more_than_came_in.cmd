. "$(dirname "$0")/book.sh"
job band "$(entry 2026-12-01T10:00 'weighed bangle' '20.00 g' Blum in 'ring: bangle')"
lemel book jobs
