. "$(dirname "$0")/held.sh"
charge 'lots[0].from=ring: rest' 'lots[0].mass=4 g'
