#!/bin/sh
# Recipes and scripts, shipped and shown, pass luacheck with the settings that `lemel new annotations` writes: no word that
# lemel does not have, and nothing that is set and not used. check_lua.sh PATH-OF-LEMEL
lemel=$1
cd "$(dirname "$0")/.." || exit 70
if ! command -v luacheck >/dev/null 2>&1; then
    echo "skipped: luacheck (Debian: lua-check) is not installed"
    exit 0
fi
studio=$(mktemp -d) || exit 70
trap 'rm -rf "$studio"' EXIT
echo '{}' > "$studio/house.json"
(cd "$studio" && "$lemel" new annotations -q) || exit 1
# A word that there is not must be seen, or the settings say nothing.
echo 'return recipe { work = function() return craft.no_such_word + no_such_word end }' > "$studio/bad.lua"
found=$(luacheck --config "$studio/.luacheckrc" --no-color -q "$studio/bad.lua" | grep -c 'no_such_word')
[ "$found" = 2 ] || { echo "luacheck sees $found of 2 words that lemel does not have"; exit 1; }
luacheck --config "$studio/.luacheckrc" --no-color -qq recipes scripts examples
