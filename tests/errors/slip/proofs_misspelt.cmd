. "$(dirname "$0")/slip.sh"
slip '24s/proofs/proof/'
