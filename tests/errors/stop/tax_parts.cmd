. "$(dirname "$0")/quote.sh"
quote tax_parts='[{"name": "State", "rate": "3 %"}, {"name": "County", "rate": "1 %"}]'
