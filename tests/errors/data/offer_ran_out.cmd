. "$(dirname "$0")/offer.sh"
offered
quiet --accepted --by Blum --at 2026-12-09T12:00
