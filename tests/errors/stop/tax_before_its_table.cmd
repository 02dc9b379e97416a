. "$(dirname "$0")/quote.sh"
quote date=2008-11-30 prices='{"Au": {"price": "15 USD/g", "at": "2008-11-30", "from": "list"}}' tax_place=GB
