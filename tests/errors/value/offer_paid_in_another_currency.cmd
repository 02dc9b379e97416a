. "$(dirname "$0")/../data/offer.sh"
offered
quiet --accepted --by Blum --at 2026-11-26 --paid "100 EUR"
