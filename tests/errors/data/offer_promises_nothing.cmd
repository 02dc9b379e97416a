. "$(dirname "$0")/offer.sh"
lemel offer jobs/links.json --at 2026-11-24
