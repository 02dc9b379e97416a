. "$(dirname "$0")/book.sh"
job band "$(entry 2026-12-01T10:00 'weighed old button' '6.00 g' Merrin added 'ring: button' | sed 's/585 ‰/400 ‰ Ag/')"
lemel book jobs
