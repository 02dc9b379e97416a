. "$(dirname "$0")/closing.sh"
close agreed='{"Blum": "130 g Au"}'
