. "$(dirname "$0")/book.sh"
job spoons "$(entry 2026-12-01T10:00 'spoons' '20.00 g' Merrin in), $(entry 2026-12-01T10:00 'spoons' '20.00 g' Caspian in)"
lemel book jobs/spoons.json
