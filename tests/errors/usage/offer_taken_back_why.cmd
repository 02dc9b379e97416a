. "$(dirname "$0")/../data/offer.sh"
offered && accepted
quiet --not-accepted --by O.F. --at 2026-11-26
