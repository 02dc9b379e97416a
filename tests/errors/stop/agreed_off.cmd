. "$(dirname "$0")/closing.sh"
close opening_agreed='{"Blum": "130 g Au"}'
