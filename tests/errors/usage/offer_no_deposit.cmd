. "$(dirname "$0")/../data/offer.sh"
sed 's/"deposit_share": "40 %",//' jobs/ring.json >changed && mv changed jobs/ring.json
offered
accepted
