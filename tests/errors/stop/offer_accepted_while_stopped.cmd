. "$(dirname "$0")/../data/offer.sh"
offered
sed 's/"deposit_share": "40 %"/"deposit_share": "40 %", "currency": "EUR"/' jobs/ring.json >changed && mv changed jobs/ring.json
accepted
