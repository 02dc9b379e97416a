. "$(dirname "$0")/../data/offer.sh"
offered
quiet --accepted --by Blum --at 2026-12-09 --anyway
