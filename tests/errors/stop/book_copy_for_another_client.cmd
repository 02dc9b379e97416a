. "$(dirname "$0")/book.sh"
job ring "$(entry 2026-11-26T10:00 'bangle' '30.00 g' client in), $(entry 2026-11-28T10:05 'button' '9.60 g' client here)" ', "client": "Blum"'
sed 's/Blum/Merrin/' jobs/ring.json >jobs/ring-2.json
lemel book jobs
