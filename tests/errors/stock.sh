# The demo studio; one of its alloys has a range from its supplier's sheet.
#   stock RANGES   as '"pour": "940..980 °C"'
cp -R "$(dirname "$0")/../../../examples/." .
stock() {
    sed "s/\"density\": \"13.22 g\/cm3\", /&$1, /" house.json >h && mv h house.json
    lemel run jobs/cuff-links.json -q >/dev/null
}
