# What is melted again of another's metal, and more of it than is there.
. "$(dirname "$0")/book.sh"
job ring "$(entry 2026-11-26T14:20 button '9.60 g' client here),$(entry 2026-11-27T09:00 'weighed button' '9.60 g' studio melted button)"
lemel book jobs
job ring "$(entry 2026-11-26T14:20 button '9.60 g' client here),$(entry 2026-11-27T09:00 'weighed button' '9.80 g' client melted button)"
lemel book jobs
