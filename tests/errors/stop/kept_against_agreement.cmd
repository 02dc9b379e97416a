# The button was to go to the client, and is entered as kept.
. "$(dirname "$0")/remake.sh"
sed '/"what": "button and sprues"/s/"way": "here"/"way": "kept"/' "$examples/jobs/spoon-pendant-closing.json" >jobs/spoons.json
asks kept-against jobs/spoons.json
