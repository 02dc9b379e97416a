. "$(dirname "$0")/offer.sh"
lemel close jobs/links.json
