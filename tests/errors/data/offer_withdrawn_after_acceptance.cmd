. "$(dirname "$0")/offer.sh"
offered && accepted
quiet --withdrawn --by O.F. --at 2026-11-27 --reason "gold rose"
