. "$(dirname "$0")/held.sh"
charge 'lots[0].metal=925 ‰ Ag'
