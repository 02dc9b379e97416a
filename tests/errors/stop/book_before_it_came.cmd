. "$(dirname "$0")/book.sh"
job band "$(entry 2026-11-27T10:00 'weighed old button' '6.00 g' Merrin added 'ring: button')"
lemel book jobs
