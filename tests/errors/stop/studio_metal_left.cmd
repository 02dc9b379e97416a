# The button lies here whole, with the silver in it that the studio added: nobody pays for that.
. "$(dirname "$0")/remake.sh"
sed '/"what": "button and sprues, as much/s/"way": "kept"/"way": "here"/' "$examples/jobs/spoon-pendant-closing.json" >spoons.json
how=close
asks studio-metal spoons.json
