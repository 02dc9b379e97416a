. "$(dirname "$0")/closing.sh"
close opening_agreed='{"Weiß": "13 g Au"}'
