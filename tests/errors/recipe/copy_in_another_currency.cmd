own=$(dirname "$(readlink -f "$(command -v lemel)")")/share/lemel/recipes/quote_doubled.lua
sed 's/^    local labour = .*/&\n    if labour < Q "80 NZD" then labour = Q "80 NZD" end/' "$own" > recipes/quote_doubled.lua
lemel prove quote_doubled >&2
