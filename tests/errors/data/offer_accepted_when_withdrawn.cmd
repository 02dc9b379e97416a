. "$(dirname "$0")/offer.sh"
offered && quiet --withdrawn --by O.F. --at 2026-11-25 --reason "the stone is not to be had"
accepted
