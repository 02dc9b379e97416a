. "$(dirname "$0")/closing.sh"
close record='[]'
