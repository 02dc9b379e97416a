. "$(dirname "$0")/quote.sh"
quote tax_place=Atlantis
