. "$(dirname "$0")/held.sh"
charge 'lots[1]={ "name": "more of it", "metal": "587 ‰", "from": "ring: button", "mass": "4 g", "old": true }'
