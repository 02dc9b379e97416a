. "$(dirname "$0")/../data/offer.sh"
lemel offer
