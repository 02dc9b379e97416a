. "$(dirname "$0")/../data/offer.sh"
offered
quiet --withdrawn --by O.F. --at 2026-11-25
