. "$(dirname "$0")/offer.sh"
offered
quiet --not-accepted --by O.F. --reason "wrong file" --at 2026-11-26
