# Handed back is metal of a fineness that none of it here has; and of one of which there is too little.
. "$(dirname "$0")/remake.sh"
sed 's/"return_fineness": "587 ‰"/"return_fineness": "999 ‰"/' "$examples/jobs/cuff-links-closing.json" >jobs/links.json
sed 's/"surplus": "returned"/&, "return_fineness": "753 ‰"/' "$examples/jobs/warden-rings-closing.json" >jobs/rings.json
(how=close; asks return-fineness jobs/links.json)
(how=close; asks return-mass jobs/rings.json)
