. "$(dirname "$0")/held.sh"
charge 'lots[0].metal=750 ‰ ± 1 ‰'
