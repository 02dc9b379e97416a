. "$(dirname "$0")/../data/offer.sh"
offered
quiet --accepted --at 2026-11-25
