cp -R "$(dirname "$0")/../../../examples/." .
sed -E 's/"owner": "(Osk|Tamehill|Ariwake)", "way": "piece"/"owner": "the three wardens", "way": "piece"/' jobs/warden-rings-closing.json >jobs/w.json; lemel close jobs/w.json --sheet client -q
