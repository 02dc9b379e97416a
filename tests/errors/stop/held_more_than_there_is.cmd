. "$(dirname "$0")/held.sh"
charge 'lots[0].mass=9.61 g'
