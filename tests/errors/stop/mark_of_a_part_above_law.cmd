. "$(dirname "$0")/liar.sh"
liar body_fineness='925 ‰ Ag' parts='[{ "what": "bezel", "mass": "1 g", "fineness": "749 ‰ Au" }]'
