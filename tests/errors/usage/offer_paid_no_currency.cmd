. "$(dirname "$0")/../data/offer.sh"
offered
lemel offer jobs/ring.json --accepted --by Blum --paid 400 --at 2026-11-26
