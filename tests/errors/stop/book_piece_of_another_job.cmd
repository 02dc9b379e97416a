. "$(dirname "$0")/book.sh"
job band "$(entry 2026-12-01T10:00 'band' '4.10 g' Blum piece 'ring: rest')"
lemel book jobs
