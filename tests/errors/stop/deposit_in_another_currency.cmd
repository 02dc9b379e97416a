. "$(dirname "$0")/closing.sh"
close deposit_paid="100 EUR"
