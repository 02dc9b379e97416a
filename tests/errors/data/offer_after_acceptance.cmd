. "$(dirname "$0")/offer.sh"
offered && accepted
quiet --by O.F. --at 2026-11-27
