. "$(dirname "$0")/closing.sh"
close agreed='{"Weiß": "13 g Au"}'
