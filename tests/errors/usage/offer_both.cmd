. "$(dirname "$0")/../data/offer.sh"
quiet --accepted --withdrawn --by Blum
