. "$(dirname "$0")/liar.sh"
liar body_fineness='924 ‰ Ag'
