# What the studio did not put in of the button was to go to the client, and all of it is entered as kept.
. "$(dirname "$0")/remake.sh"
sed '/"what": "button and sprues, the rest"/s/"way": "here"/"way": "kept"/; s/"surplus"/"button_to": "client", &/' "$examples/jobs/spoon-pendant-closing.json" >spoons.json
how=close
asks kept-against spoons.json
