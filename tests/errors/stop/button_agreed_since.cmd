# The offer leaves the button to the studio, the closing gives it to the client.
. "$(dirname "$0")/remake.sh"
sed 's/"surplus"/"button_to": "client", &/' "$examples/jobs/red-ring-closing.json" >ring.json
how=close
asks button-agreed-since ring.json
