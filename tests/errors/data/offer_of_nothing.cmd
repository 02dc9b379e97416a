. "$(dirname "$0")/offer.sh"
accepted
