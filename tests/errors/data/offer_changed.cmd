. "$(dirname "$0")/offer.sh"
offered
sed 's/"price":"[0-9.]* USD"/"price":"1.00 USD"/' jobs/ring.json >changed && mv changed jobs/ring.json
accepted
