. "$(dirname "$0")/closing.sh"
close client=blum
