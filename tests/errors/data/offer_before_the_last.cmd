. "$(dirname "$0")/offer.sh"
offered
quiet --accepted --by Blum --at 2026-11-24T09:00
