. "$(dirname "$0")/../stock.sh"
sed 's/"liquidus": "875 °C", "source": "supplier.s sheet"/"liquidus": "875 °C"/' house.json >h && mv h house.json
stock '"flask": "480..560 °C"'
