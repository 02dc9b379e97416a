. "$(dirname "$0")/../data/offer.sh"
sed 's/"markup": "20 %"/"markup": "0 %", "least_margin": "50 %"/' jobs/ring.json >changed && mv changed jobs/ring.json
offered
