. "$(dirname "$0")/book.sh"
job band "$(entry 2026-12-01T10:00 'weighed old button' '6.00 g' Merrin added 'ring: button')"
job pin "$(entry 2026-12-02T10:00 'weighed button' '6.00 g' Caspian added 'ring: button')"
lemel book jobs
