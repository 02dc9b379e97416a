# A bangle that was brought to be credited, and never melted: it is not lost, nobody wrote down where it is.
. "$(dirname "$0")/remake.sh"
e() { printf '{ "at": "2026-11-2%s", "what": "%s", "mass": "%s", "fineness": "%s", "owner": "%s", "way": "%s" }' "$@"; }
printf '{ "recipe": "account", "given": {}, "record": [ %s, %s, { "at": "2026-11-21", "what": "poured" }, %s, %s, %s ] }' \
    "$(e 0 bangle '3 g' '750 ‰' client in)" "$(e 0 'weighed grain' '20 g' '585 ‰' studio in)" "$(e 1 button '14.9 g' '585 ‰' studio here)" \
    "$(e 2 finished '5 g' '585 ‰' studio piece)" "$(e 2 filings '0.05 g' '585 ‰' studio here)" >bangle.json
asks too-much-lost bangle.json
