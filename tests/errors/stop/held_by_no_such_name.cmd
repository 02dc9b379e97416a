. "$(dirname "$0")/held.sh"
charge 'lots[0].from=ring: buttom'
charge 'lots[0].from=rong: button'
