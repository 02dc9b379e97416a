. "$(dirname "$0")/slip.sh"
line 'local fee = Q "25 €"'
