. "$(dirname "$0")/offer.sh"
offered
sed 's/"5 h"/"4 h"/; s/"piece": "A ring", //; s/"finished": /"mark": "750", "finished": /' jobs/ring.json >changed && mv changed jobs/ring.json
accepted
