# Whoever corrects the moment says why.
. "$(dirname "$0")/offer.sh"
offered
quiet --accepted --by Blum --at 2026-11-25T12:00
quiet --not-accepted --by O.F. --reason "wrong file" --at 2026-11-25T13:00
quiet --accepted --by Blum --at 2026-11-25T11:00
quiet --accepted --by Blum --at 2026-11-25T11:00 --anyway --reason "it was eleven"
