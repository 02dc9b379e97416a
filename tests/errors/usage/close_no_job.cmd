. "$(dirname "$0")/../data/offer.sh"
lemel close
